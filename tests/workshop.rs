//! Parts, lifting, leak tests, carbon monoxide, order of the work, cost.
#![allow(
    clippy::expect_used,
    reason = "a test that meets the unexpected should fail"
)]

#[path = "random_design/mod.rs"]
mod random_design;

#[path = "workshop/as_made.rs"]
mod as_made;
#[path = "workshop/buying.rs"]
mod buying;
#[path = "workshop/chapters.rs"]
mod chapters;
#[path = "workshop/closing.rs"]
mod closing;
#[path = "workshop/cost.rs"]
mod cost;
#[path = "workshop/in_inches.rs"]
mod in_inches;
#[path = "workshop/in_millimetres.rs"]
mod in_millimetres;
#[path = "workshop/joint_lengths.rs"]
mod joint_lengths;
#[path = "workshop/leaks.rs"]
mod leaks;
#[path = "workshop/needed.rs"]
mod needed;
#[path = "workshop/order.rs"]
mod order;
#[path = "workshop/packing.rs"]
mod packing;
#[path = "workshop/parts.rs"]
mod parts;
#[path = "workshop/room.rs"]
mod room;
#[path = "workshop/so_far.rs"]
mod so_far;
#[path = "workshop/stock.rs"]
mod stock;
#[path = "workshop/tests_made.rs"]
mod tests_made;
#[path = "workshop/there_already.rs"]
mod there_already;
#[path = "workshop/train_air.rs"]
mod train_air;
#[path = "workshop/ways_of_gas.rs"]
mod ways_of_gas;
#[path = "workshop/work_time.rs"]
mod work_time;
