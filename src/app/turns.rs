//! The screen is made in turns, with room for the browser between them: what is seen first comes first.
//!
//! A browser compiles a function of the program when it is first called, so that all of it takes many
//! times as long at the start as later on. In one go, a cheap phone would not answer for a second.

use super::drawing;
use super::panel::Panel;
use super::train;
use crate::design::quantity::System;
use crate::design::{Design, example};
use crate::review::{Chapter, ask, assess};
use leptos::prelude::*;
use std::rc::Rc;
use std::time::Duration;

/// Rows of verdicts that the first screen shows, and those that each later turn adds.
const FIRST_ROWS: usize = 4;
const ROWS_A_TURN: usize = 8;

/// When the machine is drawn, when remedies are looked for, when the verdicts are listed, and when the page's first
/// words give way.
const DRAWING: usize = 1;
const SEARCH: usize = 2;
const VERDICTS: usize = 3;
const READY: usize = 4;
/// The turn of the first chapter whose questions pass, and of the first panel behind the verdicts.
const CHAPTERS: usize = 6;
const PANELS: usize = CHAPTERS + Chapter::ALL.len();
const LAST: usize = PANELS + Panel::ALL.len();

/// Asks every chapter once, each in a turn of its own, then does what is to be done.
pub fn warm_up(then: impl FnOnce() + 'static) {
    let then = Box::new(then);
    soon(|| warm_up_from(Rc::new(example::as_first_drawn()), 0, then));
}

/// What a worker does over and over once the page is there: the example is reckoned and drawn.
pub fn warm_up_beside() {
    let design = example::as_first_drawn();
    let assessment = assess(&design);
    drawing::at_first(&design, &assessment, System::Metric);
    train::on_paper(&design, &assessment, System::Metric);
}

fn warm_up_from(design: Rc<Design>, place: usize, then: Box<dyn FnOnce()>) {
    soon(move || match Chapter::ALL.get(place) {
        Some(chapter) => {
            ask(&design, *chapter);
            warm_up_from(design, place + 1, then);
        }
        None => {
            assess(&design);
            soon(then);
        }
    });
}

fn soon(then: impl FnOnce() + 'static) {
    set_timeout(then, Duration::ZERO);
}

/// How far the screen is made; cheap to copy, found in context.
#[derive(Clone, Copy)]
pub struct Turns(RwSignal<usize>);

impl Turns {
    /// The turns of the app.
    pub fn get() -> Self {
        expect_context::<Self>()
    }

    /// The first turn is now; `ready` is called when the first screen is made.
    pub fn start(ready: fn()) -> Self {
        let turns = Self(RwSignal::new(0));
        turns.go_on(ready);
        turns
    }

    fn go_on(self, ready: fn()) {
        soon(move || {
            let turn = self.0.get_untracked() + 1;
            self.0.set(turn);
            if turn == READY {
                ready();
            }
            if turn < LAST {
                self.go_on(ready);
            }
        });
    }

    fn reached(self, turn: usize) -> Memo<bool> {
        Memo::new(move |_| self.0.get() >= turn)
    }

    /// Whether the machine is drawn.
    pub fn drawing(self) -> Memo<bool> {
        self.reached(DRAWING)
    }

    /// Whether remedies are looked for.
    pub fn search(self) -> Memo<bool> {
        self.reached(SEARCH)
    }

    /// Whether the verdicts are listed.
    pub fn verdicts(self) -> Memo<bool> {
        self.reached(VERDICTS)
    }

    /// How many verdicts that do not pass are listed.
    pub fn rows(self) -> Memo<usize> {
        let more = move || self.0.get().saturating_sub(VERDICTS);
        Memo::new(move |_| FIRST_ROWS + ROWS_A_TURN * more())
    }

    /// Whether what passes of a chapter is listed.
    pub fn chapter(self, place: usize) -> Memo<bool> {
        self.reached(CHAPTERS + place)
    }

    /// Whether a panel behind the verdicts may be made.
    pub fn panel(self, panel: Panel) -> Memo<bool> {
        let place = Panel::ALL.iter().position(|one| *one == panel);
        self.reached(PANELS + place.unwrap_or_default())
    }

    /// Whether all is made.
    pub fn are_over(self) -> Memo<bool> {
        self.reached(LAST)
    }
}
