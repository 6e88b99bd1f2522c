//! How much memory a reader holds at most while it answers one input.

use std::alloc::{GlobalAlloc, Layout, System};
use std::sync::atomic::{AtomicUsize, Ordering::Relaxed};

/// Most bytes that reading and writing back one input may hold at once; a phone has them to spare.
const MOST: usize = 64 << 20;

static HELD: AtomicUsize = AtomicUsize::new(0);
static PEAK: AtomicUsize = AtomicUsize::new(0);

/// The system's allocator, counting.
struct Counting;

#[global_allocator]
static COUNTING: Counting = Counting;

// SAFETY: every call goes to the system's allocator unchanged; only numbers are kept beside it.
unsafe impl GlobalAlloc for Counting {
    unsafe fn alloc(&self, layout: Layout) -> *mut u8 {
        let held = HELD.fetch_add(layout.size(), Relaxed) + layout.size();
        PEAK.fetch_max(held, Relaxed);
        // SAFETY: the caller keeps the promises that the system's allocator asks for.
        unsafe { System.alloc(layout) }
    }

    unsafe fn dealloc(&self, place: *mut u8, layout: Layout) {
        HELD.fetch_sub(layout.size(), Relaxed);
        // SAFETY: as above.
        unsafe { System.dealloc(place, layout) }
    }
}

/// Runs a check, and fails if it held more than [`MOST`] bytes at once.
pub fn bounded(check: impl FnOnce()) {
    let before = HELD.load(Relaxed);
    PEAK.store(before, Relaxed);
    check();
    let peak = PEAK.load(Relaxed).saturating_sub(before);
    assert!(peak <= MOST, "{peak} bytes held at once");
}
