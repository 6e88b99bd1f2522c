//! Starts the app; nothing else.

#[cfg(all(target_arch = "wasm32", target_os = "unknown"))]
fn main() {
    hearthplan::app::start();
}

#[cfg(not(all(target_arch = "wasm32", target_os = "unknown")))]
fn main() {
    println!(
        "This is the browser app: run ./dev serve. For the command line: cargo run --example assess"
    );
}
