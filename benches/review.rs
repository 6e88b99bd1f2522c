//! Time of the whole review, after a change as well, and of its remedies on the example: median over many rounds.

use hearthplan::design::{Design, Value, example};
use hearthplan::review::sampling::Sampling;
use hearthplan::review::{
    Remedy, Verdict, assess, assess_after, heart_over_load, remedies, remedy,
};
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

/// The remedies by every lever of everything that does not pass: what the app looks for after each pause in typing.
fn all_remedies(design: &Design) -> Vec<Remedy> {
    let before = assess(design);
    (before.findings.iter())
        .filter(|finding| finding.verdict != Verdict::Good)
        .flat_map(|finding| finding.levers.iter().map(move |lever| (finding, lever)))
        .filter_map(|(finding, lever)| remedy(design, &before, finding, lever))
        .collect()
}

/// Prints the time of the review of a design in which one number was changed.
fn time_after(design: &Design, path: &str) {
    let before = assess(design);
    let mut changed = design.clone();
    if let Some(Value::Number(number)) = design.get(path)
        && changed.set(path, Value::Number(1.01 * number)).is_ok()
    {
        let time = median_of(2001, || {
            assess_after(black_box(design), black_box(&before), black_box(&changed))
        });
        println!("review after a change of {path}: median {time:.1} µs");
    }
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
    for path in [
        "base.width",
        "battery.capacity",
        "parts.0.mass",
        "holes.0.height",
        "train.2.tube_length",
        "fuel.moisture",
    ] {
        time_after(&improved, path);
    }
    let mut sampling = Sampling::new(&first, 1, 2_000);
    sampling.run(2_000);
    println!(
        "report of 2,000 cases: median {:.1} ms",
        median_of(11, || black_box(&sampling).report()) / 1000.0
    );
    println!(
        "hearth at 41 loads: median {:.1} µs",
        median_of(201, || heart_over_load(black_box(&improved), 41))
    );
    println!(
        "all remedies of the example as first drawn: median {:.1} ms",
        median_of(11, || all_remedies(black_box(&first))) / 1000.0
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
