//! Starts the app; nothing else.

#[cfg(target_arch = "wasm32")]
fn main() {
    hearthplan::app::start();
}

#[cfg(not(target_arch = "wasm32"))]
fn main() {
    println!(
        "This is the browser app: run ./dev serve. For the command line: cargo run --example assess"
    );
}
