//! What must hold for the whole project, whatever is entered.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test may fail loudly"
)]

mod random_design;

#[path = "whole/any_design.rs"]
mod any_design;
#[path = "whole/best_steps.rs"]
mod best_steps;
#[path = "whole/compared.rs"]
mod compared;
#[path = "whole/elsewhere.rs"]
mod elsewhere;
#[path = "whole/examples.rs"]
mod examples;
#[path = "whole/guided.rs"]
mod guided;
#[path = "whole/harm.rs"]
mod harm;
#[path = "whole/how_sure.rs"]
mod how_sure;
#[path = "whole/reads.rs"]
mod reads;
#[path = "whole/reckoned.rs"]
mod reckoned;
#[path = "whole/remedies_pass.rs"]
mod remedies_pass;
#[path = "whole/sold_steps.rs"]
mod sold_steps;
#[path = "whole/straight_tube.rs"]
mod straight_tube;
#[path = "whole/two_changes.rs"]
mod two_changes;
#[path = "whole/way.rs"]
mod way;
#[path = "whole/windows.rs"]
mod windows;
#[path = "whole/workings.rs"]
mod workings;
