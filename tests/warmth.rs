//! Materials, heat through the shell, warm-up, and the verdicts on them.

#[path = "warmth/materials.rs"]
mod materials;
#[path = "warmth/random.rs"]
mod random;
#[path = "warmth/shell.rs"]
mod shell;
