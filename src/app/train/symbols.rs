//! The signs of the stages, drawn after ISO 10628-2 from memory where it has one; hearth, engine and
//! measured stages are our own. Each stands in a box 72 high around its centre: gas comes in at the
//! middle of the upper edge and leaves at the middle of the lower.

use crate::design::inputs::{CoolerType, Cover, FilterMedium, StageKind, TrainStage};

/// Path data of a sign.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Symbol {
    /// The pipe into it.
    pub inlet: &'static str,
    /// The pipe out of it.
    pub outlet: &'static str,
    /// Its outline.
    pub body: &'static str,
    /// What is inside or beside it.
    pub inside: [&'static str; 2],
}

/// The hearth, where the gas comes from.
pub const HEARTH: Symbol = Symbol {
    inlet: "",
    outlet: "M0 26V36",
    body: "M-16-22H16V2L7 10L14 26H-14L-7 10L-16 2Z",
    inside: ["M0 6c-7-6-1-11 0-17c3 6 7 11 0 17Z", ""],
};

/// The engine, where it goes: cylinder, piston and crank.
pub const ENGINE: Symbol = Symbol {
    inlet: "M0-36V-24",
    outlet: "",
    body: "M-14-24H14V6H-14ZM-9 20a9 9 0 1 0 18 0a9 9 0 1 0-18 0",
    inside: ["M-14-12H14V-3H-14ZM0-7L6 15", ""],
};

/// The flare branch of a blower: valve, pipe, flame. Drawn besides the blower itself.
pub const FLARE: [&str; 2] = [
    "M0 27H-12M-12 22L-24 32V22L-12 32ZM-24 27H-42V-2",
    "M-42-4c-9-6-1-12 0-20c3 8 9 14 0 20Z",
];

/// Where something drips: a drop.
pub const DROP: &str = "M0-8C4-2 6 1 6 3A6 6 0 0 1-6 3C-6 1-4-2 0-8Z";

/// An arrow in the direction of the gas.
pub const ARROW: &str = "M-6-5H6L0 7Z";

/// The sign of a stage.
pub fn symbol(stage: &TrainStage) -> Symbol {
    match stage.kind {
        StageKind::Pipe => Symbol {
            inlet: "M0-36V0",
            outlet: "M0 0V36",
            body: "M-10-24H10M-10 24H10",
            inside: [
                "",
                match stage.cover {
                    Cover::Insulated => {
                        "M-8-24V24M8-24V24M-8-12L-4-16M-8 0L-4-4M-8 12L-4 8M8-8L4-4M8 4L4 8M8 16L4 20"
                    }
                    Cover::Bare => "",
                },
            ],
        },
        StageKind::Cyclone => Symbol {
            inlet: "M0-36H-24V-10H-14",
            outlet: "M0-4V-27H24V32H0V36",
            body: "M-14-18H14V2L4 25H-4L-14 2Z",
            inside: ["M-6-18V-4M6-18V-4", ""],
        },
        StageKind::Cooler => Symbol {
            inlet: "M0-36V-26",
            outlet: "M0 26V36",
            body: "M-14-26H14V26H-14ZM-14-18H14M-14 18H14",
            inside: ["M-8-18V18M0-18V18M8-18V18", around(stage.cooling)],
        },
        StageKind::Trap => Symbol {
            inlet: "M0-36V-24",
            outlet: "M13-8H24V34H0V36",
            body: "M-13-16A13 8 0 0 1 13-16V14A13 8 0 0 1-13 14Z",
            inside: [
                "M-13 5H13M-8 10H8M-5 15H5",
                "M0 22V28H-14M-14 23L-26 33V23L-14 33ZM-26 28H-36M-32 24L-37 28L-32 32",
            ],
        },
        StageKind::Filter => Symbol {
            inlet: "M0-36V-22",
            outlet: "M0 22V36",
            body: "M-17-22H17V22H-17Z",
            inside: [
                match stage.medium {
                    FilterMedium::Packed => {
                        "M-17-12H17M-17 12H17M-17-12L7 12M-5-12L17 10M-17 0L-5 12M17-12L-7 12M5-12L-17 10M17 0L5 12"
                    }
                    FilterMedium::Cloth => "M-17 0H-12M-8 0H-2M2 0H8M12 0H17",
                },
                "",
            ],
        },
        StageKind::Blower => Symbol {
            inlet: "M0-36V-18",
            outlet: "M0 18V36",
            body: "M-18 0a18 18 0 1 0 36 0a18 18 0 1 0-36 0Z",
            inside: ["M-16-8L-6 17M16-8L6 17", ""],
        },
        StageKind::Measured => Symbol {
            inlet: "M0-36V-18",
            outlet: "M0 18V36",
            body: "M-20-18H20V18H-20Z",
            inside: ["M-12 8L-6-8L0 8ZM5-8V8M5-3a5 5 0 1 1 0 7", ""],
        },
    }
}

/// What takes the heat from a cooler's tubes.
fn around(cooling: CoolerType) -> &'static str {
    match cooling {
        CoolerType::Bare => "",
        CoolerType::Finned => "M-11-12H11M-11-6H11M-11 0H11M-11 6H11M-11 12H11",
        CoolerType::Fan => FAN,
        CoolerType::FinnedFan => {
            "M-11-12H11M-11-6H11M-11 0H11M-11 6H11M-11 12H11M-42 0a8 8 0 1 0 16 0a8 8 0 1 0-16 0M-40-5L-27-3M-40 5L-27 3M-24 0H-16M-20-4L-16 0L-20 4"
        }
        CoolerType::Water => "M-34 12H-15M-20 8L-15 12L-20 16M15-12H30M25-16L30-12L25-8",
    }
}

const FAN: &str =
    "M-42 0a8 8 0 1 0 16 0a8 8 0 1 0-16 0M-40-5L-27-3M-40 5L-27 3M-24 0H-16M-20-4L-16 0L-20 4";
