//! The gas train: what the gas passes between hearth and engine, stage by stage.

use crate::design::Choice as _;
use crate::design::Source::{CommonPractice, FromMemory, OwnMark, YourOwn};
use crate::design::celsius;
use crate::design::declare::{choice, choices, flag, number, optional, record, text};
use crate::design::quantity::Quantity as Q;
use uom::si::f64::{
    Area, HeatTransfer, Length, Mass, MassDensity, MassRate, Pressure, Ratio, ThermalConductivity,
    ThermodynamicTemperature, Velocity, Volume,
};

choices! {
    /// Kinds of stage. The engine is the end of every train and no entry of the list.
    StageKind {
        Pipe = "pipe", "Pipe with fittings";
        Cyclone = "cyclone", "Cyclone";
        Cooler = "cooler", "Tube cooler";
        Trap = "trap", "Condensate trap";
        Filter = "filter", "Filter";
        Blower = "blower", "Blower with flare branch";
        Measured = "measured", "Something with a measured loss";
    }
}

choices! {
    /// What is around a pipe or vessel.
    Cover {
        Bare = "bare", "Bare";
        Insulated = "insulated", "Insulated";
    }
}

choices! {
    /// How tubes and pipes lie.
    Lie {
        Level = "level", "Level";
        Upright = "upright", "Upright";
    }
}

choices! {
    /// What takes the heat from the cooler's tubes.
    CoolerType {
        Bare = "bare", "Bare tubes in still air";
        Finned = "finned", "Finned tubes in still air";
        Fan = "fan", "Bare tubes, a fan blows across";
        FinnedFan = "finned_fan", "Finned tubes, a fan blows across";
        Water = "water", "Water jacket";
    }
}

choices! {
    /// Families of cyclone proportions.
    CycloneFamily {
        Lapple = "lapple", "General purpose (Lapple)";
        Stairmand = "stairmand", "High efficiency (Stairmand)";
    }
}

choices! {
    /// What the gas passes in a filter.
    FilterMedium {
        Packed = "packed", "Packed bed";
        Cloth = "cloth", "Cloth";
    }
}

choices! {
    /// Metals that tubes are made of.
    TubeMetal {
        MildSteel = "mild_steel", "Mild steel";
        Stainless = "stainless", "Stainless steel";
        Copper = "copper", "Copper";
        Aluminium = "aluminium", "Aluminium";
    }
}

impl CoolerType {
    /// Whether a fan blows across its tubes.
    pub fn has_fan(self) -> bool {
        matches!(self, CoolerType::Fan | CoolerType::FinnedFan)
    }
}

record! {
    /// The gas where it leaves the hearth.
    RawGas {
        temperature: ThermodynamicTemperature = number(Q::Temperature, celsius(350.0), (celsius(60.0), celsius(900.0)), (celsius(200.0), celsius(500.0))), "Gas leaves the vessel at", "Temperature of the gas at the outlet, at full load.", CommonPractice;
        dust_load: MassDensity = number(Q::DustLoad, 0.002, (0.0, 0.2), (0.000_5, 0.005)), "Dust in the gas", "Char dust and ash in the gas as it leaves the hearth, the gas counted at 0 °C (32 °F).", CommonPractice;
        dust_size: Length = number(Q::Grain, 20.0e-6, (0.5e-6, 500.0e-6), (5.0e-6, 60.0e-6)), "Dust size", "Half of the dust's mass is finer than this.", CommonPractice;
        dust_spread: f64 = number(Q::Number, 2.5, (1.1, 6.0), (1.8, 3.5)), "Dust spread", "Geometric standard deviation of the grain sizes; 1 would be grains all alike.", CommonPractice;
        air_leak: Ratio = number(Q::Share, 0.01, (0.0, 0.5), (0.0, 0.05)), "Air that leaks in", "Air drawn in through leaks of the train, as a share of the gas. A tight train has less than a hundredth.", CommonPractice;
        tar_dew_point: ThermodynamicTemperature = number(Q::Temperature, celsius(150.0), (celsius(-20.0), celsius(400.0)), (celsius(80.0), celsius(250.0))), "Tar condenses below", "Gas or walls colder than this collect tar. A clean hearth makes it lower.", CommonPractice;
    }
}

record! {
    /// One stage of the train.
    TrainStage {
        name: String = text("", 40), "Name", "What you call it; may stay empty.", YourOwn;
        kind: StageKind = choice(StageKind::OPTIONS, "pipe"), "Kind of stage", "What the gas passes here.", YourOwn;
        bore: Length = number(Q::Bore, 0.052, (0.01, 0.4), (0.03, 0.12)), "Pipe bore", "Inside diameter where the gas passes.", YourOwn;
        length: Length = number(Q::Distance, 1.0, (0.0, 60.0), (0.2, 10.0)), "Length", "All straight pieces together.", YourOwn;
        wall: Length = number(Q::Thickness, 0.002, (0.000_3, 0.02), (0.001, 0.005)), "Wall", "Thickness of the steel of pipe or vessel.", YourOwn;
        roughness: Length = number(Q::Thickness, 0.000_15, (0.0, 0.000_5), (0.000_05, 0.000_5)), "Roughness", "Height of bumps on the inside; tarry pipe is rougher.", FromMemory("Moody, Trans. ASME 66, 1944");
        elbows: u32 = number(Q::Count, 0.0, (0.0, 20.0), (0.0, 6.0)), "Sharp elbows", "Elbows of 90° as bought for water pipe.", YourOwn;
        bends: u32 = number(Q::Count, 0.0, (0.0, 20.0), (0.0, 6.0)), "Long bends", "Bends of 90° with a wide radius.", YourOwn;
        tees: u32 = number(Q::Count, 0.0, (0.0, 20.0), (0.0, 4.0)), "Turns in a tee", "Places where the gas turns into the branch of a tee.", YourOwn;
        valves: u32 = number(Q::Count, 0.0, (0.0, 20.0), (0.0, 4.0)), "Ball valves", "Open ball valves in this stage.", YourOwn;
        other_loss: f64 = number(Q::Number, 1.5, (0.0, 200.0), (0.0, 10.0)), "Other losses", "Sum of the loss coefficients of everything else: a sharp entrance 0.5, an exit 1.0.", CommonPractice;
        cover: Cover = choice(Cover::OPTIONS, "bare"), "Outside", "Bare steel gives off heat; insulation keeps the gas hot.", YourOwn;
        insulation: Length = number(Q::Length, 0.05, (0.005, 0.3), (0.02, 0.1)), "Insulation thickness", "Thickness around this stage.", YourOwn;
        insulation_conductivity: ThermalConductivity = number(Q::Conductivity, 0.06, (0.02, 1.0), (0.04, 0.12)), "Insulation conductivity", "At its mean temperature: rock wool about 0.06 W/(m·K), 0.42 BTU·in/(h·ft²·°F).", FromMemory("typical data sheet");
        lie: Lie = choice(Lie::OPTIONS, "level"), "Lies", "Dust settles in level pipe; upright pipe gives off a little less heat.", YourOwn;
        family: CycloneFamily = choice(CycloneFamily::OPTIONS, "lapple"), "Proportions", "All lengths follow from the body diameter.", YourOwn;
        body_diameter: Length = number(Q::Length, 0.10, (0.03, 1.0), (0.06, 0.3)), "Cyclone diameter", "Inside diameter of the body: smaller spins faster and catches finer dust.", YourOwn;
        grain_density: MassDensity = number(Q::Density, 1_200.0, (300.0, 5_000.0), (800.0, 2_000.0)), "Grain density", "Density of a grain of char dust.", CommonPractice;
        cooling: CoolerType = choice(CoolerType::OPTIONS, "bare"), "Cooled by", "What takes the heat from the tubes.", YourOwn;
        tubes: u32 = number(Q::Count, 4.0, (1.0, 200.0), (1.0, 30.0)), "Tubes side by side", "Number of equal tubes the gas divides into.", YourOwn;
        tube_length: Length = number(Q::Distance, 4.0, (0.1, 60.0), (0.5, 15.0)), "Length of one tube", "The whole way through one tube, to and fro.", YourOwn;
        tube_bore: Length = number(Q::Bore, 0.028, (0.006, 0.2), (0.015, 0.06)), "Tube bore", "Inside diameter of one tube.", YourOwn;
        tube_wall: Length = number(Q::Thickness, 0.001_5, (0.000_3, 0.01), (0.001, 0.003)), "Tube wall", "Thickness of the tube.", YourOwn;
        tube_rows: u32 = number(Q::Count, 1.0, (1.0, 50.0), (1.0, 10.0)), "Rows of tubes", "Rows one behind the other: 1 for all tubes in one plane. Tubes in the middle of a block see only each other, and give off less heat.", YourOwn;
        tube_spacing: Option<Length> = optional(Q::Length, (0.008, 1.0), (0.02, 0.2)), "Tube spacing", "From the middle of one tube to that of the next; empty means one and a half times their outside diameter, that of the fins where they have any.", YourOwn;
        tube_material: TubeMetal = choice(TubeMetal::OPTIONS, "mild_steel"), "Tube material", "Condensate is acidic and eats mild steel.", YourOwn;
        emittance: Ratio = number(Q::Number, 0.9, (0.02, 1.0), (0.2, 0.95)), "Emittance of the outside", "Rusty or painted 0.9, bright metal 0.2.", FromMemory("typical table values");
        header_loss: f64 = number(Q::Number, 4.0, (0.0, 100.0), (1.5, 10.0)), "Loss in the headers", "Loss coefficient of both ends and the turns, on the velocity in the tubes.", CommonPractice;
        fin_diameter: Length = number(Q::Length, 0.060, (0.008, 0.5), (0.03, 0.12)), "Fin diameter", "Outside diameter of the round fins.", YourOwn;
        fin_thickness: Length = number(Q::Thickness, 0.000_5, (0.000_1, 0.005), (0.000_3, 0.002)), "Fin thickness", "Sheet thickness of a fin.", YourOwn;
        fin_pitch: Length = number(Q::Thickness, 0.010, (0.001_5, 0.1), (0.003, 0.02)), "Fin spacing", "From fin to fin.", YourOwn;
        fin_conductivity: ThermalConductivity = number(Q::Conductivity, 200.0, (10.0, 400.0), (45.0, 400.0)), "Fin conductivity", "Aluminium about 200, steel about 50 W/(m·K) (1400 and 350 BTU·in/(h·ft²·°F)).", FromMemory("typical table values");
        air_speed: Velocity = number(Q::Velocity, 4.0, (0.2, 30.0), (2.0, 8.0)), "Air speed at the tubes", "Speed of the fan's air between the tubes.", YourOwn;
        water_temperature: ThermodynamicTemperature = number(Q::Temperature, celsius(20.0), (celsius(2.0), celsius(80.0)), (celsius(10.0), celsius(40.0))), "Cooling water comes in at", "Temperature of the water that enters the jacket.", YourOwn;
        water_flow: MassRate = number(Q::MassFlow, 0.05, (0.002, 5.0), (0.02, 0.5)), "Cooling water flow", "Water through the jacket, by weight or as litres or gallons a minute.", YourOwn;
        water_coefficient: HeatTransfer = number(Q::HeatTransferCoefficient, 500.0, (50.0, 10_000.0), (300.0, 2_000.0)), "Tube to water", "Heat transfer to slow water in a jacket.", CommonPractice;
        capacity: Volume = number(Q::Volume, 0.004, (0.000_1, 0.5), (0.002, 0.03)), "Trap holds", "Water it holds until it must be drained.", YourOwn;
        separation: Ratio = number(Q::Share, 0.95, (0.0, 1.0), (0.7, 0.99)), "Drops caught", "Share of the drops in the gas that stay in the trap.", CommonPractice;
        medium: FilterMedium = choice(FilterMedium::OPTIONS, "packed"), "Medium", "What the gas passes in the filter.", YourOwn;
        filter_diameter: Length = number(Q::Length, 0.40, (0.05, 2.0), (0.2, 0.8)), "Filter diameter", "Inside diameter of the drum with the bed.", YourOwn;
        filter_depth: Length = number(Q::Length, 0.40, (0.02, 2.0), (0.1, 0.8)), "Bed depth", "Depth of the bed along the gas.", YourOwn;
        filter_piece: Length = number(Q::Thickness, 0.008, (0.000_3, 0.1), (0.003, 0.03)), "Pieces of the bed", "Usual size of a piece of char, chip or ring.", YourOwn;
        filter_voids: Ratio = number(Q::Share, 0.45, (0.25, 0.95), (0.4, 0.7)), "Gaps in the bed", "Share of the bed that is gap.", CommonPractice;
        dirty_factor: f64 = number(Q::Number, 5.0, (1.0, 50.0), (2.0, 10.0)), "Dirty over clean", "How many times the clean loss you let it have before you change it.", CommonPractice;
        cloth_area: Area = number(Q::Area, 0.5, (0.01, 50.0), (0.2, 5.0)), "Cloth area", "All of the cloth the gas passes through.", YourOwn;
        cloth_loss: Pressure = number(Q::Pressure, 100.0, (1.0, 5_000.0), (30.0, 300.0)), "Loss of clean cloth", "At 3 cm/s (6 ft/min) of cool gas.", OwnMark("common needle felt loses about this much");
        cake_loss: Pressure = number(Q::Pressure, 500.0, (1.0, 50_000.0), (100.0, 3_000.0)), "Loss of the dust cake", "Added by 100 g of dust on a square metre (1/3 oz on a square foot), at 3 cm/s (6 ft/min) of cool gas.", OwnMark("coarse char dust; fine ash makes a tighter cake");
        catches: Ratio = number(Q::Share, 0.95, (0.0, 1.0), (0.8, 0.999)), "Dust caught", "Share of the dust that stays in the filter.", CommonPractice;
        dust_capacity: Mass = number(Q::Mass, 1.0, (0.01, 200.0), (0.2, 10.0)), "Dust it holds", "Dust in the filter when it is due to be changed or cleaned.", CommonPractice;
        medium_limit: ThermodynamicTemperature = number(Q::Temperature, celsius(200.0), (celsius(40.0), celsius(900.0)), (celsius(80.0), celsius(260.0))), "Medium stands", "Hottest gas the medium takes: cotton 80 °C (175 °F), char and chips about 200 °C (390 °F), glass cloth 260 °C (500 °F).", CommonPractice;
        may_be_wet: bool = flag(true), "May get wet", "A drained bed may get wet; cloth must stay dry.", YourOwn;
        measured_loss: Pressure = number(Q::Pressure, 150.0, (0.0, 20_000.0), (20.0, 1_500.0)), "Measured loss, clean", "Pressure loss at full gas flow.", YourOwn;
        measured_dirty: Pressure = number(Q::Pressure, 150.0, (0.0, 30_000.0), (20.0, 3_000.0)), "Measured loss, dirty", "Pressure loss at full gas flow just before cleaning; the same as clean if it never clogs.", YourOwn;
        measured_linear: bool = flag(false), "Loss grows with the flow", "As in cloth and fine beds; if not, with the square of the flow.", YourOwn;
        weighed: Option<Mass> = optional(Q::Mass, (0.0, 2_000.0), (0.5, 80.0)), "Weighed", "Its weight without water and dust, in place of the computed one.", YourOwn;
        own_weight: Mass = number(Q::Mass, 6.0, (0.0, 2_000.0), (1.0, 40.0)), "Weight", "Weighed, or from the maker's plate. A small blower with its motor weighs about 6 kg (13 lb).", CommonPractice;
        vessel_diameter: Length = number(Q::Length, 0.16, (0.02, 2.0), (0.08, 0.6)), "Vessel diameter", "Across the inside of the closed drum; for its weight and the heat that it gives off.", CommonPractice;
        vessel_height: Length = number(Q::Length, 0.30, (0.02, 3.0), (0.15, 1.2)), "Vessel height", "From end to end of the closed drum; for its weight and the heat that it gives off.", CommonPractice;
        bed_density: MassDensity = number(Q::Density, 200.0, (5.0, 5_000.0), (100.0, 1_000.0)), "Bed density", "Mass of the dry bed as poured over its volume: char or chips about 200 kg/m³ (12.5 lb/ft³).", CommonPractice;
        leaves_at: ThermodynamicTemperature = number(Q::Temperature, celsius(40.0), (celsius(1.0), celsius(800.0)), (celsius(20.0), celsius(400.0))), "Gas leaves it at", "Measured temperature behind it; gas that comes in colder stays as it is.", YourOwn;
        guarded: bool = flag(false), "Guard fitted", "A mesh or sheet keeps hands off it.", YourOwn;
    }
}
