//! Time of the gas train at three loads (start-up, usual, full): median over many rounds, in microseconds.

use hearthplan::sizing::train::{Train, example};
use std::hint::black_box;
use std::time::Instant;

const ROUNDS: usize = 301;
const CASES: usize = 20;

fn main() {
    let (stages, loads) = (example::stages(), example::three_loads());
    let mut times: Vec<f64> = (0..ROUNDS)
        .map(|_| {
            let start = Instant::now();
            for _ in 0..CASES {
                let solved = Train::solve_loads(black_box(&stages), black_box(&loads));
                assert!(black_box(solved).is_ok());
            }
            start.elapsed().as_secs_f64() * 1e6 / CASES as f64
        })
        .collect();
    times.sort_by(f64::total_cmp);
    println!("{{\"train_three_loads_us\": {:.1}}}", times[ROUNDS / 2]);
}
