//! The screen is made in turns, with room for the browser between them: what is seen first comes first.
//!
//! A browser compiles a function of the program when it is first called, so that all of it takes many
//! times as long at the start as later on. In one go, a cheap phone would not answer for a second.

use super::panel::Panel;
use crate::review::Chapter;
use leptos::prelude::*;
use std::time::Duration;

/// When there is the frame of the screen, when the verdicts are counted, when the machine is drawn, and when the drawing
/// has its words and can be driven.
const FRAME: usize = 1;
const COUNTS: usize = 2;
const DRAWING: usize = 3;
const DRIVING: usize = 4;
/// When remedies are looked for, when the verdicts have their place, when the first of them are listed, and when the
/// page's first words give way.
const SEARCH: usize = 5;
const VERDICTS: usize = 6;
const ROWS: usize = 7;
const READY: usize = 8;
/// The turn of the first chapter whose questions pass, and of the first panel behind the verdicts.
const CHAPTERS: usize = 10;
const PANELS: usize = CHAPTERS + Chapter::ALL.len();
const LAST: usize = PANELS + Panel::ALL.len();

/// Rows of verdicts that the first screen shows, and those that each later turn adds.
const FIRST_ROWS: usize = 4;
const ROWS_A_TURN: usize = 8;

/// Does it in a turn of its own.
pub fn soon(then: impl FnOnce() + 'static) {
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

    /// Whether there is the frame of the screen.
    pub fn frame(self) -> Memo<bool> {
        self.reached(FRAME)
    }

    /// Whether the verdicts are counted.
    pub fn counts(self) -> Memo<bool> {
        self.reached(COUNTS)
    }

    /// Whether the machine is drawn.
    pub fn drawing(self) -> Memo<bool> {
        self.reached(DRAWING)
    }

    /// Whether the drawing has its words and can be driven.
    pub fn driving(self) -> Memo<bool> {
        self.reached(DRIVING)
    }

    /// Whether remedies are looked for.
    pub fn search(self) -> Memo<bool> {
        self.reached(SEARCH)
    }

    /// Whether the verdicts have their place.
    pub fn verdicts(self) -> Memo<bool> {
        self.reached(VERDICTS)
    }

    /// How many verdicts that do not pass are listed.
    pub fn rows(self) -> Memo<usize> {
        Memo::new(move |_| match self.0.get().checked_sub(ROWS) {
            Some(more) => FIRST_ROWS + ROWS_A_TURN * more,
            None => 0,
        })
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
