//! Time of the gas train at three loads (start-up, usual, full): median over many rounds, in microseconds. Once for the
//! train of the sizing examples, once for the train of the example design.

use hearthplan::design::example;
use hearthplan::review::assess;
use hearthplan::sizing::train::{Stage, Train, TrainLoad, example as train_example};
use std::hint::black_box;
use std::time::Instant;

const ROUNDS: usize = 301;
const CASES: usize = 20;

/// Median time in µs of solving these loads.
fn median_of(stages: &[Stage], loads: &[TrainLoad]) -> f64 {
    let mut times: Vec<f64> = (0..ROUNDS)
        .map(|_| {
            let start = Instant::now();
            for _ in 0..CASES {
                let solved = Train::solve_loads(black_box(stages), black_box(loads));
                assert!(black_box(solved).is_ok());
            }
            start.elapsed().as_secs_f64() * 1e6 / CASES as f64
        })
        .collect();
    times.sort_by(f64::total_cmp);
    times[ROUNDS / 2]
}

fn main() {
    let plain = median_of(&train_example::stages(), &train_example::three_loads());
    println!("{{\"train_three_loads_us\": {plain:.1}}}");
    let train = assess(&example::as_improved()).train;
    let loads = [train.startup_load, train.usual_load, train.full_load];
    let designed = median_of(&train.stages, &loads);
    println!("{{\"example_design_three_loads_us\": {designed:.1}}}");
}
