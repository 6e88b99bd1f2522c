//! What the guided start asks, and what may be there already.

use crate::design::{Design, Kind, Value};
use crate::review::USED_VESSEL;
use serde::{Deserialize, Serialize};

/// A question of the guided start.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Question {
    /// The question.
    pub title: &'static str,
    /// What to know for answering it, in plain words.
    pub help: &'static str,
    /// Paths of the inputs that answer it.
    pub inputs: &'static [&'static str],
    /// Inputs that answer it only where something is there already.
    pub once_there: &'static [There],
    /// What is asked otherwise here than in the form.
    pub otherwise: &'static [Otherwise],
}

/// An input that a question asks for by another measure than the form does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Otherwise {
    /// Its path.
    pub path: &'static str,
    /// What the measure is called.
    pub label: &'static str,
    /// One line that says what it means.
    pub meaning: &'static str,
}

/// Something that may be there already, with the inputs that tell what it is like.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct There {
    /// Which it is.
    pub part: Part,
    /// How it is asked for.
    pub label: &'static str,
    /// Paths of its inputs.
    pub inputs: &'static [&'static str],
    /// Path of the input that says that it is there; none where nothing of the design tells.
    pub flag: Option<&'static str>,
    /// What to beware of with it.
    pub caution: Option<&'static str>,
}

impl There {
    /// Paths of its figures that it is asked for. Each was measured or read off a plate by somebody, or it is not known: none of
    /// ours stands for it.
    ///
    /// ```
    /// use hearthplan::design::example;
    /// use hearthplan::review::guided::QUESTIONS;
    /// let engine = QUESTIONS[0].once_there[0];
    /// let figures = engine.figures(&example::to_start_from());
    /// assert_eq!(figures, ["engine.displacement", "engine.speed"]);
    /// ```
    pub fn figures(&self, design: &Design) -> Vec<&'static str> {
        let is_number = |path: &str| {
            let kind = design.input(path).map(|input| input.kind);
            matches!(kind, Some(Kind::Number { .. }))
        };
        (self.inputs.iter().copied())
            .filter(|path| is_number(path) && self.asks(design, path))
            .collect()
    }

    /// Whether an input of it is in use, or would be were it said to be there: that is only said once all of it is known.
    ///
    /// ```
    /// use hearthplan::design::example;
    /// use hearthplan::review::guided::QUESTIONS;
    /// let start = example::to_start_from();
    /// let vessel = QUESTIONS[4].once_there.iter().find(|once| once.flag.is_some()).unwrap();
    /// assert!(!start.in_use("real_vessel.girth") && vessel.asks(&start, "real_vessel.girth"));
    /// ```
    pub fn asks(&self, design: &Design, path: &str) -> bool {
        let Some(flag) = self.flag else {
            return design.in_use(path);
        };
        let mut there = design.clone();
        there.set(flag, Value::Flag(true)).is_ok() && there.in_use(path)
    }
}

/// What may be there already.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Part {
    /// The engine.
    Engine,
    /// Throat and fire tube.
    Hearth,
    /// A steel vessel, to be lined.
    Shell,
    /// The vessel with its lining.
    Vessel,
}

/// All questions, in order.
pub const QUESTIONS: [Question; 5] = [
    Question {
        title: "Which engine, or how much power?",
        help: "The engine decides how much gas is drawn. No engine yet? Say what power you want. If you have one, its plate tells displacement and speed: it stays, and the power follows from it unless you enter another.",
        inputs: &["engine.wanted_power"],
        once_there: &[There {
            part: Part::Engine,
            label: "I know the engine",
            inputs: &["engine.strokes", "engine.displacement", "engine.speed"],
            flag: None,
            caution: None,
        }],
        otherwise: &[],
    },
    Question {
        title: "Which wood?",
        help: "Wood of even pieces flows best. Pieces that are wide beside the throat hang up above it.",
        inputs: &["fuel.kind", "fuel.piece_size"],
        once_there: &[],
        otherwise: &[],
    },
    Question {
        title: "How dry is it?",
        help: "Water in the wood costs heat, and a cold hearth makes tar. Under 20 % is wanted.",
        inputs: &["fuel.moisture"],
        once_there: &[],
        otherwise: &[],
    },
    Question {
        title: "Where will it stand, how wide, and how large is the wood store?",
        help: "Wood gas kills without a smell: stand it outdoors or under an open roof, since under a closed one what leaks gathers. Sloping ground and a tall wood store tip it sooner; a wide base makes up for both. Width and depth are the room for its frame: no change that is offered later takes more, and what sticks out is told in the note of the design.",
        inputs: &[
            "shed.stands",
            "base.slope",
            "base.stance",
            "base.width",
            "base.depth",
            "hopper.diameter",
            "hopper.height",
        ],
        once_there: &[],
        otherwise: &[
            Otherwise {
                path: "base.width",
                label: "Frame over all, left to right",
                meaning: "The outside of the frame. The base between the feet comes out narrower by the frame tube.",
            },
            Otherwise {
                path: "base.depth",
                label: "Frame over all, front to back",
                meaning: "The outside of the frame. The base between the feet comes out less deep by the frame tube.",
            },
        ],
    },
    Question {
        title: "What is already built?",
        help: "Tick what you have. Its measures are asked for then, and each says what to type where your piece has none of it. It stays as it is; all else is sized to suit, as far as it goes.",
        inputs: &[],
        once_there: &[
            There {
                part: Part::Hearth,
                label: "Throat and fire tube are built",
                inputs: &[
                    "hearth.throat_diameter",
                    "hearth.nozzle_ring_diameter",
                    "hearth.below_throat_diameter",
                    "hearth.nozzle_height",
                    "hearth.straight_below_nozzles",
                    "hearth.nozzle_count",
                    "hearth.nozzle_bore",
                ],
                flag: None,
                caution: None,
            },
            There {
                part: Part::Shell,
                label: "I have a steel vessel, to be lined",
                inputs: &[
                    "real_vessel.girth",
                    "real_vessel.length",
                    "real_vessel.sheet",
                    "real_vessel.lower_seam",
                    "real_vessel.upper_seam",
                    "real_vessel.seamless",
                    "real_vessel.long_seam",
                    "real_vessel.has_bottom",
                    "real_vessel.has_top",
                    "real_vessel.dish",
                ],
                flag: Some("real_vessel.measured"),
                caution: Some(USED_VESSEL),
            },
            There {
                part: Part::Vessel,
                label: "The vessel is built and lined",
                inputs: &[
                    "hearth_wall.inside_diameter",
                    "hearth_wall.height",
                    "body_wall.inside_diameter",
                    "body_wall.height",
                ],
                flag: None,
                caution: None,
            },
        ],
        otherwise: &[],
    },
];
