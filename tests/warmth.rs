//! Materials, heat through the shell, warm-up, and the verdicts on them.

#[path = "warmth/materials.rs"]
mod materials;
