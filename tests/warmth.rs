//! Materials, heat through the shell, warm-up, and the verdicts on them.

#[path = "warmth/materials.rs"]
mod materials;
mod random_design;
#[path = "warmth/shell.rs"]
mod shell;
