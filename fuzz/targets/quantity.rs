//! Any text as what a person types for a quantity, or for another kind of input.

#![no_main]

#[path = "../memory.rs"]
mod memory;
#[path = "../oracles.rs"]
mod oracles;

libfuzzer_sys::fuzz_target!(|given: &str| memory::bounded(|| oracles::quantity(given)));
