//! Materials, heat through the shell, warm-up, and the verdicts on them.

mod random_design;

#[path = "warmth/materials.rs"]
mod materials;
#[path = "warmth/review.rs"]
mod review;
#[path = "warmth/shell.rs"]
mod shell;
#[path = "warmth/touch.rs"]
mod touch;
#[path = "warmth/warm_up.rs"]
mod warm_up;
