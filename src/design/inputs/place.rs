//! Name, place, wood and gas wanted.

use crate::design::Source::{CommonPractice, FromMemory, OwnMark, YourOwn};
use crate::design::celsius;
use crate::design::declare::{flag, number, record, text};
use crate::design::quantity::Quantity as Q;
use uom::si::f64::{
    AvailableEnergy, Length, MassDensity, Ratio, ThermodynamicTemperature, Velocity, VolumeRate,
};

const PER_HOUR: f64 = 1.0 / 3600.0;

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
        wind_speed: Velocity = number(Q::Velocity, 1.0, (0.0, 25.0), (0.0, 5.0)),
            "Wind while running", "Steady wind on the machine; it cools the outside.", YourOwn;
        storm_wind: Velocity = number(Q::Velocity, 20.0, (0.0, 60.0), (10.0, 35.0)),
            "Strongest wind", "Strongest gust it must stand in, empty and outdoors.", OwnMark("a fresh gale; take your local design wind");
        altitude: Length = number(Q::Distance, 0.0, (-400.0, 4500.0), (0.0, 2000.0)),
            "Height above sea level", "Thin air: a fan moves less mass, an engine draws less.", YourOwn;
    }
}

record! {
    /// The fuel as loaded.
    Fuel {
        bulk_density: MassDensity = number(Q::Density, 220.0, (50.0, 800.0), (150.0, 350.0)),
            "Bulk density", "Weight of a heaped container of wood pieces divided by its volume.", FromMemory("FAO Forestry Paper 72, section 2.3");
        piece_size: Length = number(Q::Length, 0.040, (0.003, 0.2), (0.02, 0.08)),
            "Piece size", "Usual edge of a wood piece.", CommonPractice;
        void_share: Ratio = number(Q::Share, 0.45, (0.3, 0.8), (0.35, 0.6)),
            "Gaps between pieces", "Share of a heap that is air, not wood.", CommonPractice;
        heating_value: AvailableEnergy = number(Q::EnergyPerMass, 16.5e6, (5.0e6, 35.0e6), (13.0e6, 19.0e6)),
            "Heat in the wood", "Lower heating value of a kilogram of wood as fired, moisture included.", FromMemory("Channiwala and Parikh, Fuel 81, 2002; softwood at 10 % moisture");
    }
}

record! {
    /// How much gas is wanted.
    Operation {
        full_gas_flow: VolumeRate = number(Q::NormalFlow, 25.0 * PER_HOUR, (1.0 * PER_HOUR, 500.0 * PER_HOUR), (5.0 * PER_HOUR, 120.0 * PER_HOUR)),
            "Gas flow at full load", "Dry gas the engine draws at full load, counted at 0 °C and sea-level pressure.", YourOwn;
        usual_load: Ratio = number(Q::Share, 0.70, (0.05, 1.0), (0.4, 1.0)),
            "Usual load", "Share of the full gas flow on an ordinary day.", YourOwn;
        idle_load: Ratio = number(Q::Share, 0.40, (0.02, 1.0), (0.2, 0.6)),
            "Lowest load", "Smallest share of the full gas flow that you run at for more than a few minutes.", YourOwn;
        startup_share: Ratio = number(Q::Share, 0.30, (0.05, 1.0), (0.2, 0.5)),
            "Flow while lighting", "Share of the full gas flow that the blower pulls while lighting, through the flare.", CommonPractice;
        gas_per_air: f64 = number(Q::Number, 1.68, (1.2, 2.4), (1.5, 1.9)),
            "Gas per air", "Volume of gas made from one volume of air through the nozzles.", FromMemory("SERI/SP-271-3022, table 5-1");
        gas_per_wood: f64 = number(Q::Number, 2.1, (1.0, 3.5), (1.9, 2.4)),
            "Gas per kilogram of wood", "Normal cubic metres of gas from one kilogram of wood as fired.", FromMemory("SERI/SP-271-3022, table 5-1");
        gas_heating_value: f64 = number(Q::EnergyPerVolume, 4.7e6, (1.0e6, 8.0e6), (4.0e6, 5.5e6)),
            "Heating value of the gas", "Lower heating value of a normal cubic metre of dry gas.", FromMemory("Zainal et al., Energy Conversion and Management 42, 2001");
    }
}
