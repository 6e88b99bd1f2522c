//! Name and place.

use crate::design::Source::{OwnMark, YourOwn};
use crate::design::celsius;
use crate::design::declare::{flag, number, record, text};
use crate::design::quantity::Quantity as Q;
use uom::si::f64::{Length, ThermodynamicTemperature, Velocity};

record! {
    /// Name and note of a design.
    About {
        name: String = text("My machine", 60), "Name", "What you call this design.", YourOwn;
        note: String = text("", 2000), "Note", "Anything worth remembering, or telling the person you send it to.", YourOwn;
        invented: bool = flag(false), "Invented example", "The figures are invented to show how the tool works.", YourOwn;
    }
}

record! {
    /// Where the machine stands.
    Site {
        air_temperature: ThermodynamicTemperature = number(Q::Temperature, celsius(20.0), (celsius(-40.0), celsius(55.0)), (celsius(-10.0), celsius(40.0))),
            "Air temperature", "Air around the machine while it runs.", YourOwn;
        wind_speed: Velocity = number(Q::Wind, 1.0, (0.0, 25.0), (0.0, 5.0)),
            "Wind while running", "Steady wind on the machine; it takes heat from the shell. What may be touched, and the battery's box, are judged without it.", YourOwn;
        storm_wind: Velocity = number(Q::Wind, 20.0, (0.0, 60.0), (10.0, 35.0)),
            "Strongest wind", "Strongest gust it must stand in, empty and outdoors.", OwnMark("a fresh gale; take your local design wind");
        altitude: Length = number(Q::Distance, 0.0, (-400.0, 4500.0), (0.0, 2000.0)),
            "Height above sea level", "Thin air: a fan moves less mass, an engine draws less.", YourOwn;
    }
}
