//! Electric loads, cables and the box the battery stands in.

use crate::design::Choice as _;
use crate::design::Source::{CommonPractice, YourOwn};
use crate::design::celsius;
use crate::design::declare::{choice, choices, number, optional, record, text};
use crate::design::quantity::Quantity as Q;
use uom::si::f64::{
    Area, ElectricCurrent, Length, Power, Ratio, ThermalConductivity, ThermodynamicTemperature,
};

choices! {
    /// What a load is, for the voltage it may lose on the way.
    LoadKind {
        Motor = "motor", "Motor";
        Heater = "heater", "Glow plug or heater";
        Other = "other", "Instruments, lamps, controller";
    }
}

choices! {
    /// When a load is switched on.
    LoadTime {
        Always = "always", "Always";
        Lighting = "lighting", "Only while lighting";
        Running = "running", "Only while the engine runs";
    }
}

choices! {
    /// How cable is named where it is bought.
    CableSystem {
        Metric = "metric", "Square millimetres";
        Gauge = "gauge", "American wire gauge";
    }
}

choices! {
    /// Chemistry of the battery, for the temperature it stands.
    Chemistry {
        LeadAcid = "lead_acid", "Lead-acid";
        Lithium = "lithium", "Lithium iron phosphate";
    }
}

choices! {
    /// Which hot wall the box stands next to.
    HotWall {
        Hearth = "hearth", "Hearth wall";
        Body = "body", "Body wall";
    }
}

impl ElectricLoad {
    /// Whether it is in use in this state of the machine.
    pub fn used(&self, state: LoadTime) -> bool {
        self.when == LoadTime::Always || self.when == state
    }
}

record! {
    /// One electric load besides the blower.
    ElectricLoad {
        name: String = text("Load", 40), "Name", "What you call it.", YourOwn;
        kind: LoadKind = choice(LoadKind::OPTIONS, "other"), "Kind of load", "Motors may lose less voltage on the way than others.", YourOwn;
        power: Power = number(Q::Power, 10.0, (0.1, 5_000.0), (1.0, 500.0)), "Power while on", "Electric power while it is switched on.", YourOwn;
        when: LoadTime = choice(LoadTime::OPTIONS, "always"), "Used", "A glow plug works only while lighting, a grate motor only while the engine runs.", YourOwn;
        duty: Ratio = number(Q::Share, 1.0, (0.0, 1.0), (0.0, 1.0)), "On for", "Share of that time it is on: a grate motor perhaps a twentieth.", YourOwn;
        cable_length: Length = number(Q::Distance, 2.0, (0.05, 100.0), (0.5, 10.0)), "Cable, one way", "From the fuse to the load; the way back is added.", YourOwn;
        cable: Option<Area> = optional(Q::WireSection, (0.2e-6, 150.0e-6), (0.75e-6, 35.0e-6)),
            "Cable you have", "Section of one copper conductor, or its gauge with the name, 14 AWG; empty lets the smallest that passes be chosen.", YourOwn;
        fuse: Option<ElectricCurrent> = optional(Q::Current, (0.5, 500.0), (1.0, 100.0)),
            "Fuse you have", "Rating of its fuse; empty lets the fitting one be chosen.", YourOwn;
    }
}

record! {
    /// Cables in general, and the blower's own.
    Wiring {
        system: CableSystem = choice(CableSystem::OPTIONS, "metric"), "Cable sizes in", "How cable is named where you buy it.", YourOwn;
        air_temperature: ThermodynamicTemperature = number(Q::Temperature, celsius(40.0), (celsius(-20.0), celsius(65.0)), (celsius(20.0), celsius(60.0))), "Air around the cables", "Warm cables carry less current.", CommonPractice;
        blower_cable_length: Length = number(Q::Distance, 3.0, (0.05, 100.0), (0.5, 10.0)), "Blower cable, one way", "From the fuse to the blower; the way back is added.", YourOwn;
        blower_cable: Option<Area> = optional(Q::WireSection, (0.2e-6, 150.0e-6), (0.75e-6, 35.0e-6)),
            "Blower cable you have", "Section of one copper conductor, or its gauge with the name, 14 AWG; empty lets the smallest that passes be chosen.", YourOwn;
        blower_fuse: Option<ElectricCurrent> = optional(Q::Current, (0.5, 500.0), (1.0, 100.0)),
            "Blower fuse you have", "Rating of its fuse; empty lets the fitting one be chosen.", YourOwn;
        knob_start: Ratio = number(Q::Share, 0.10, (0.0, 0.9), (0.0, 0.3)), "Knob where it starts", "Share of the knob's turn at which the blower begins to turn.", YourOwn;
        knob_end: Ratio = number(Q::Share, 1.0, (0.1, 1.2), (0.8, 1.0)), "Speed at full knob", "Share of the rated speed with the knob fully turned.", YourOwn;
    }
}

record! {
    /// The box for battery and electronics, and the sheets that shield it.
    BatteryBox {
        chemistry: Chemistry = choice(Chemistry::OPTIONS, "lead_acid"), "Battery kind", "Sets the warmest place it stands.", YourOwn;
        beside: HotWall = choice(HotWall::OPTIONS, "hearth"), "Stands beside", "The wall of the machine that it faces.", YourOwn;
        sheets: u32 = number(Q::Count, 1.0, (0.0, 3.0), (0.0, 2.0)), "Shield sheets", "Sheets of metal between wall and box, with air between.", YourOwn;
        sheet_emittance: Ratio = number(Q::Number, 0.3, (0.02, 1.0), (0.1, 0.9)), "Emittance of the sheets", "Bright new sheet 0.1 to 0.3; rusty, painted or sooty 0.9.", CommonPractice;
        gap: Length = number(Q::Length, 0.020, (0.003, 0.2), (0.01, 0.05)), "Each gap", "Air between wall and sheet, and between sheet and box.", YourOwn;
        wall: Length = number(Q::Thickness, 0.002, (0.000_3, 0.02), (0.001, 0.005)), "Wall of the box", "Thickness of its wall.", YourOwn;
        conductivity: ThermalConductivity = number(Q::Conductivity, 45.0, (0.05, 400.0), (0.2, 60.0)), "Conductivity of the box", "Steel 45, plastic 0.2, wood 0.15 W/(m·K) (310, 1.4 and 1 BTU·in/(h·ft²·°F)).", CommonPractice;
        emittance: Ratio = number(Q::Number, 0.9, (0.02, 1.0), (0.2, 0.95)), "Emittance of the box", "Painted or plastic 0.9.", CommonPractice;
        width: Length = number(Q::Length, 0.30, (0.03, 2.0), (0.2, 0.6)), "Width of the box", "Of the side towards the hot wall.", YourOwn;
        height: Length = number(Q::Length, 0.30, (0.03, 2.0), (0.2, 0.6)), "Height of the box", "Of the side towards the hot wall.", YourOwn;
    }
}
