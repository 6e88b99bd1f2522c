//! Any text as a link, and any bytes as what a link holds.

#![no_main]

#[path = "../memory.rs"]
mod memory;
#[path = "../oracles.rs"]
mod oracles;

libfuzzer_sys::fuzz_target!(|given: &[u8]| memory::bounded(|| oracles::link(given)));
