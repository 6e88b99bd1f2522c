//! How fast somebody builds, and how much time there is.

use crate::design::Source::{self, CommonPractice, OwnMark, YourOwn};
use crate::design::declare::{number, optional, record};
use crate::design::quantity::Quantity as Q;
use uom::si::f64::{Ratio, Time};

const HOUR: f64 = 3600.0;
const MINUTE: f64 = 60.0;
/// What one piece of work may take.
const ALLOWED: (f64, f64) = (0.0, 100.0 * HOUR);
/// What the usual times are taken from.
const FIRST_BUILD: Source = OwnMark("a first build with a hand grinder and a drill");
const A_FEW_HOURS: (f64, f64) = (0.25 * HOUR, 8.0 * HOUR);

record! {
    /// The pace of the work.
    Pace {
        weekly: Time = number(Q::LongTime, 6.0 * HOUR, (0.25 * HOUR, 168.0 * HOUR), (2.0 * HOUR, 40.0 * HOUR)),
            "Hours a week", "What an ordinary week leaves for building, when everything else is done.", YourOwn;
        weeks: Option<f64> = optional(Q::Number, (0.1, 1_000.0), (4.0, 104.0)),
            "Weeks at hand", "In so many weeks it has to run; empty asks nothing.", YourOwn;
        part: Time = number(Q::LongTime, HOUR, ALLOWED, A_FEW_HOURS),
            "One part of metal", "Marking, cutting, bending and cleaning it. Time the first one you make, and put that here.", FIRST_BUILD;
        weld: Time = number(Q::LongTime, 1.5 * HOUR, ALLOWED, A_FEW_HOURS),
            "1 m (3.3 ft) of tight weld", "Cleaning, fitting, tacking, welding and dressing it.", FIRST_BUILD;
        bolt: Time = number(Q::Time, 12.0 * MINUTE, ALLOWED, (3.0 * MINUTE, HOUR)),
            "One bolt", "Both its holes, and its share of the faces and the gasket.", FIRST_BUILD;
        hole: Time = number(Q::Time, 45.0 * MINUTE, ALLOWED, (10.0 * MINUTE, 3.0 * HOUR)),
            "One hole in the vessel", "Marking and cutting it, and fitting what sits in it.", FIRST_BUILD;
        lining: Time = number(Q::LongTime, 1.5 * HOUR, ALLOWED, A_FEW_HOURS),
            "1 m² (11 ft²) of one layer", "Cutting and fitting insulation or casting a lining, masked and gloved.", FIRST_BUILD;
        fitting: Time = number(Q::Time, 45.0 * MINUTE, ALLOWED, (10.0 * MINUTE, 4.0 * HOUR)),
            "One bought thing", "Finding, fetching and fitting it; a cable with its fuse likewise.", FIRST_BUILD;
        test: Time = number(Q::LongTime, HOUR, ALLOWED, A_FEW_HOURS),
            "One leak test", "Closing it, pumping it up, waiting, reading, writing down.", FIRST_BUILD;
        again: Ratio = number(Q::Share, 0.30, (0.0, 5.0), (0.1, 1.0)),
            "Done again", "Mending leaks, mistakes, what was forgotten, as a share of all the rest.", CommonPractice;
    }
}
