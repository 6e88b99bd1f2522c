//! Any text as a design file.

#![no_main]

#[path = "../memory.rs"]
mod memory;
#[path = "../oracles.rs"]
mod oracles;

libfuzzer_sys::fuzz_target!(|text: &str| memory::bounded(|| oracles::file(text)));
