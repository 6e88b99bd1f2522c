//! Time of the whole review and of its remedies on the example: median over many rounds.

use hearthplan::design::example;
use hearthplan::review::{Verdict, assess, heart_over_load, remedies};
use std::hint::black_box;
use std::time::Instant;

/// Median time in µs of one call.
fn median_of<T>(rounds: usize, mut work: impl FnMut() -> T) -> f64 {
    let mut times: Vec<f64> = (0..rounds)
        .map(|_| {
            let start = Instant::now();
            black_box(work());
            start.elapsed().as_secs_f64() * 1e6
        })
        .collect();
    times.sort_by(f64::total_cmp);
    times[rounds / 2]
}

fn main() {
    let improved = example::as_improved();
    let first = example::as_first_drawn();
    println!(
        "review of the example: median {:.1} µs",
        median_of(2001, || assess(black_box(&improved)))
    );
    println!(
        "review of the example as first drawn: median {:.1} µs",
        median_of(2001, || assess(black_box(&first)))
    );
    println!(
        "hearth at 41 loads: median {:.1} µs",
        median_of(201, || heart_over_load(black_box(&improved), 41))
    );
    let failing: Vec<_> = assess(&first)
        .findings
        .iter()
        .filter(|finding| finding.verdict != Verdict::Good)
        .map(|finding| finding.id)
        .collect();
    for id in failing {
        let time = median_of(5, || remedies(black_box(&first), id));
        println!("remedies of {id}: median {:.1} ms", time / 1000.0);
    }
}
