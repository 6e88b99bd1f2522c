//! What this trade computes: one file per question, each answerable on its own.

pub mod base_width;
pub mod battery;
pub mod blower;
pub mod engine;
pub mod fire_tube_table;
pub mod fitting_table;
pub mod footprint;
pub mod fuel;
pub mod gas;
pub mod heart;
pub mod hearth_load;
pub mod hearth_table;
pub mod insulation;
pub mod kerb;
pub mod machine;
pub mod nozzles;
pub mod pressure_chain;
pub mod shell;
pub mod tipping;
pub mod warm_up;
pub mod weight;
pub mod wind;
pub mod zone;
