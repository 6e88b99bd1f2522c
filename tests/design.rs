//! The design document: quantities, files, links, and what is in use.

mod random_design;

#[path = "design/quantity_reading.rs"]
mod quantity_reading;
#[path = "design/quantity_round_trip.rs"]
mod quantity_round_trip;
#[path = "design/quantity_showing.rs"]
mod quantity_showing;
