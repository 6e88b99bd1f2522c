//! The engine, and how far it is loaded.

use crate::design::Choice as _;
use crate::design::Source::{CommonPractice, YourOwn};
use crate::design::celsius;
use crate::design::declare::{choice, choices, flag, number, optional, record};
use crate::design::quantity::Quantity as Q;
use uom::si::f64::{Frequency, Power, Ratio, ThermodynamicTemperature, Volume, VolumeRate};

const PER_HOUR: f64 = 1.0 / 3600.0;

choices! {
    /// How often a cylinder fills.
    Strokes {
        Four = "four", "Four-stroke";
        Two = "two", "Two-stroke";
    }
}

choices! {
    /// Where the gas flow comes from.
    FlowSource {
        Engine = "engine", "What the engine draws";
        Entered = "entered", "Entered, for a test at the flare";
    }
}

record! {
    /// The engine.
    Engine {
        strokes: Strokes = choice(Strokes::OPTIONS, "four"),
            "Engine kind", "A four-stroke draws mixture every second turn, a two-stroke every turn.", YourOwn;
        displacement: Volume = number(Q::Displacement, 1.25e-3, (2.0e-5, 0.05), (1.0e-4, 6.0e-3)),
            "Displacement", "Swept volume of all cylinders together, as on the engine's plate.", YourOwn;
        speed: Frequency = number(Q::Speed, 30.0, (3.0, 180.0), (20.0, 60.0)),
            "Engine speed", "Turns per minute while it works. Wood gas burns slowly: below 2000 suits it well.", YourOwn;
        volumetric_efficiency: Ratio = number(Q::Share, 0.80, (0.25, 1.1), (0.7, 0.9)),
            "Filling", "Mixture really drawn over swept volume, throttle wide open.", CommonPractice;
        compression_ratio: f64 = number(Q::Number, 8.5, (4.0, 20.0), (6.0, 12.0)),
            "Compression ratio", "As on the data sheet; wood gas bears more than petrol.", YourOwn;
        brake_efficiency: Option<Ratio> = optional(Q::Share, (0.06, 0.44), (0.18, 0.28)),
            "Efficiency on gas", "Shaft power over heat in the gas. Empty: taken from the compression ratio, 18 % at 4 to 29 % at 20.", CommonPractice;
        petrol_efficiency: Ratio = number(Q::Share, 0.25, (0.06, 0.44), (0.2, 0.3)),
            "Efficiency on petrol", "The same on petrol, only to compare.", CommonPractice;
        generator_efficiency: Ratio = number(Q::Share, 0.85, (0.1, 1.0), (0.75, 0.95)),
            "Generator efficiency", "Electric power out of shaft power in.", CommonPractice;
        intake_temperature: ThermodynamicTemperature = number(Q::Temperature, celsius(40.0), (celsius(-30.0), celsius(110.0)), (celsius(20.0), celsius(65.0))),
            "Mixture temperature", "At the intake valve. Warm gas is thin, and the engine gives less.", CommonPractice;
        wanted_power: Power = number(Q::EnginePower, 6_000.0, (50.0, 200_000.0), (1_000.0, 80_000.0)),
            "Power wanted", "Shaft power that pump, saw or generator needs. An electric generator needs about a fifth more than its plate gives: few turn more than 80 to 85 % into current (common practice, no source).", YourOwn;
        at_hand: bool = flag(false),
            "The engine is there", "What its plate tells is so: no change is offered that takes another engine.", YourOwn;
    }
}

record! {
    /// How far the machine is loaded.
    Operation {
        flow_source: FlowSource = choice(FlowSource::OPTIONS, "engine"),
            "Gas flow from", "The engine decides how much gas is drawn. For a test without engine enter the flow of the blower.", CommonPractice;
        full_gas_flow: VolumeRate = number(Q::NormalFlow, 25.0 * PER_HOUR, (1.0 * PER_HOUR, 500.0 * PER_HOUR), (5.0 * PER_HOUR, 120.0 * PER_HOUR)),
            "Gas flow at full load", "Dry gas drawn at full load, counted at 0 °C (32 °F) and sea-level pressure.", YourOwn;
        usual_load: Ratio = number(Q::Share, 0.70, (0.05, 1.0), (0.4, 1.0)),
            "Usual load", "What the engine draws on an ordinary day, as a share of what it draws wide open.", YourOwn;
        idle_load: Ratio = number(Q::Share, 0.40, (0.02, 1.0), (0.2, 0.6)),
            "Lowest load", "Smallest share that you run at for more than a few minutes. Where the usual load is smaller, that one counts.", YourOwn;
        startup_share: Ratio = number(Q::Share, 0.30, (0.05, 1.0), (0.2, 0.5)),
            "Flow while lighting", "Share of the full gas flow that the blower pulls while lighting, through the flare.", CommonPractice;
    }
}
