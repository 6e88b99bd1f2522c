//! What the verdicts compare with.

use crate::design::Source::{CommonPractice, FromMemory, OwnMark, YourOwn};
use crate::design::celsius;
use crate::design::declare::{number, record};
use crate::design::quantity::Quantity as Q;
use uom::si::f64::{
    Angle, Force, Length, Mass, MassDensity, Pressure, Ratio, ThermodynamicTemperature, Time,
    Velocity,
};

const DEGREE: f64 = std::f64::consts::PI / 180.0;
/// SI value of one Nm³/h per cm².
const LOAD: f64 = 1.0 / 3600.0 / 1.0e-4;

record! {
    /// The pass marks.
    Limits {
        moisture_watch: Ratio = number(Q::Share, 0.20, (0.02, 0.6), (0.15, 0.25)),
            "Moisture, Watch above", "Wet wood takes the hearth's heat to boil its water.", FromMemory("FAO Forestry Paper 72, section 2.3");
        moisture_stop: Ratio = number(Q::Share, 0.30, (0.03, 0.6), (0.25, 0.35)),
            "Moisture, Stop above", "Wet wood takes the hearth's heat to boil its water.", FromMemory("FAO Forestry Paper 72, section 2.3");
        hearth_temperature: ThermodynamicTemperature = number(Q::Temperature, celsius(1_093.0), (celsius(800.0), celsius(1_400.0)), (celsius(1_000.0), celsius(1_200.0))),
            "Hearth temperature, least", "Mean temperature in the fire that the trade asks for: 2000 °F in round numbers, here 1093 °C or 1999 °F.", CommonPractice;
        tar_temperature: ThermodynamicTemperature = number(Q::Temperature, celsius(1_000.0), (celsius(700.0), celsius(1_300.0)), (celsius(900.0), celsius(1_100.0))),
            "Tar breaks up above", "Tar that passes through colder char stays tar. A hearth that is colder than this on average is a Stop.", CommonPractice;
        tar_share_watch: Ratio = number(Q::Share, 0.05, (0.0, 1.0), (0.02, 0.1)),
            "Cold rim, Watch above", "Share of the hearth's cross-section that is too cold to break up tar.", OwnMark("a twentieth of the tar of raw wood smoke is what a good filter holds back");
        tar_share_stop: Ratio = number(Q::Share, 0.20, (0.0, 1.0), (0.1, 0.3)),
            "Cold rim, Stop above", "Share of the hearth's cross-section that is too cold to break up tar.", OwnMark("no filter keeps a fifth of the tar from the valves");
        gas_heat_watch: f64 = number(Q::EnergyPerVolume, 4.5e6, (1.0e6, 8.0e6), (4.2e6, 5.0e6)),
            "Heat in the gas, Watch below", "Engines lose power on weaker gas.", CommonPractice;
        gas_heat_stop: f64 = number(Q::EnergyPerVolume, 4.0e6, (0.5e6, 8.0e6), (3.5e6, 4.2e6)),
            "Heat in the gas, Stop below", "Engines run poorly or not at all on weaker gas.", CommonPractice;
        ring_per_piece: f64 = number(Q::Number, 5.0, (1.0, 20.0), (4.0, 8.0)),
            "Fire tube over piece size", "Wood pieces this many times smaller than the fire tube slide down by themselves.", CommonPractice;
        throat_per_piece: f64 = number(Q::Number, 1.5, (0.5, 10.0), (1.2, 3.0)),
            "Throat over piece size", "Charred pieces this many times smaller than the throat pass it without a bridge.", CommonPractice;
        piece_per_nozzle: f64 = number(Q::Number, 2.0, (0.5, 20.0), (2.0, 6.0)),
            "Piece size over nozzle bore", "Smaller pieces get into the nozzles or are blown about by the jets.", CommonPractice;
        refuel_time: Time = number(Q::LongTime, 1.0 * 3600.0, (60.0, 48.0 * 3600.0), (0.5 * 3600.0, 8.0 * 3600.0)),
            "Time between fillings", "How long one filling of wood should last at the usual load.", YourOwn;
        tip_angle: Angle = number(Q::Angle, 15.0 * DEGREE, (1.0 * DEGREE, 45.0 * DEGREE), (10.0 * DEGREE, 20.0 * DEGREE)),
            "Slope it must stand on", "It must not tip on ground this steep, in any direction.", FromMemory("IEC 60335-1 clause 20: 10° usual, 15° the stricter test");
        tip_angle_least: Angle = number(Q::Angle, 10.0 * DEGREE, (1.0 * DEGREE, 45.0 * DEGREE), (5.0 * DEGREE, 15.0 * DEGREE)),
            "Slope below which it is a Stop", "Tipping on a flatter slope than this stops the design.", FromMemory("IEC 60335-1 clause 20: 10° usual, 15° the stricter test");
        push_share: Ratio = number(Q::Share, 0.20, (0.01, 1.0), (0.1, 0.3)),
            "Push it must bear, of its weight", "Sideways push at push height, as a share of the weight.", CommonPractice;
        push_most: Force = number(Q::Force, 250.0, (10.0, 2_000.0), (150.0, 400.0)),
            "Push it must bear, at most", "The lesser of this and the share of weight is used.", CommonPractice;
        touch_temperature: ThermodynamicTemperature = number(Q::Temperature, celsius(60.0), (celsius(35.0), celsius(120.0)), (celsius(48.0), celsius(70.0))),
            "Touchable surface", "Hottest outside that a short accidental touch does not burn (5 s).", FromMemory("ASTM C1055");
        guarded_temperature: ThermodynamicTemperature = number(Q::Temperature, celsius(250.0), (celsius(60.0), celsius(500.0)), (celsius(100.0), celsius(300.0))),
            "Surface behind a guard", "Above this even a guarded surface may light chaff, leaves or oil.", OwnMark("below the temperature at which dry plant matter smoulders");
        loss_share_watch: Ratio = number(Q::Share, 0.08, (0.005, 0.5), (0.05, 0.12)),
            "Heat loss, Watch above", "Share of the wood's heat that leaves through the shell at full load.", OwnMark("about two points of equivalence ratio per three percent of loss");
        loss_share_stop: Ratio = number(Q::Share, 0.15, (0.01, 0.6), (0.1, 0.2)),
            "Heat loss, Stop above", "Share of the wood's heat that leaves through the shell at full load.", OwnMark("gas below 4 MJ/Nm³ (107 BTU/ft³) by the energy balance of the notes");
        warm_up_time: Time = number(Q::Time, 1800.0, (60.0, 24.0 * 3600.0), (900.0, 3600.0)),
            "Warm-up wanted", "Time from lighting until the hearth wall holds its heat.", CommonPractice;
        hearth_load_most: f64 = number(Q::HearthLoad, 0.9 * LOAD, (0.1 * LOAD, 2.0 * LOAD), (0.7 * LOAD, 1.0 * LOAD)),
            "Hearth load, most", "Gas flow per throat area above which char is torn away.", FromMemory("FAO Forestry Paper 72; SERI/SP-271-3022");
        hearth_load_least: f64 = number(Q::HearthLoad, 0.30 * LOAD, (0.02 * LOAD, 1.0 * LOAD), (0.3 * LOAD, 0.35 * LOAD)),
            "Hearth load, least", "Gas flow per throat area below which tar passes.", FromMemory("FAO Forestry Paper 72; SERI/SP-271-3022");
        nozzle_velocity_least: Velocity = number(Q::Velocity, 20.0, (1.0, 60.0), (15.0, 25.0)),
            "Nozzle velocity, least", "Slower air does not reach the middle of the hearth.", CommonPractice;
        nozzle_velocity_most: Velocity = number(Q::Velocity, 35.0, (5.0, 120.0), (30.0, 40.0)),
            "Nozzle velocity, most", "Faster air cuts channels in the char.", CommonPractice;
        proportion_tolerance: Ratio = number(Q::Share, 0.20, (0.02, 1.0), (0.1, 0.35)),
            "Distance from the hearth table", "How far a dimension may be from the published hearth of the same throat.", OwnMark("where two families of the table share a throat they differ by about this much");
        blower_margin: Ratio = number(Q::Share, 0.20, (0.0, 2.0), (0.1, 0.5)),
            "Blower reserve", "Pressure in hand above what the dirty chain needs.", CommonPractice;
        stall_margin: Ratio = number(Q::Share, 0.15, (0.0, 1.0), (0.1, 0.3)),
            "Distance from stall", "Flow above the flow of highest pressure; nearer to it a fan may surge.", CommonPractice;
        engine_vacuum_watch: Pressure = number(Q::Pressure, 3_500.0, (100.0, 20_000.0), (2_000.0, 5_000.0)),
            "Suction at the engine, Watch above", "Suction the engine must make at full load with a dirty filter.", OwnMark("an engine loses about the same share of power as of pressure at its inlet: about 3.5 % here");
        engine_vacuum_stop: Pressure = number(Q::Pressure, 5_000.0, (200.0, 30_000.0), (3_000.0, 10_000.0)),
            "Suction at the engine, Stop above", "Suction the engine must make at full load with a dirty filter.", OwnMark("an engine loses about the same share of power as of pressure at its inlet: 5 % here");
        engine_dust_watch: MassDensity = number(Q::DustLoad, 0.000_05, (0.000_001, 0.01), (0.000_01, 0.000_1)),
            "Dust at the engine, Watch above", "Dust in the gas that an engine bears, the gas counted at 0 °C (32 °F).", FromMemory("Hasler and Nussbaumer, Gas cleaning for IC engine applications, Biomass and Bioenergy 16 (1999): below 50 mg");
        engine_dust_stop: MassDensity = number(Q::DustLoad, 0.000_5, (0.000_005, 0.1), (0.000_1, 0.001)),
            "Dust at the engine, Stop above", "Dust in the gas that wears an engine out, the gas counted at 0 °C (32 °F).", OwnMark("ten times what engines are said to bear");
        engine_gas_watch: ThermodynamicTemperature = number(Q::Temperature, celsius(40.0), (celsius(5.0), celsius(150.0)), (celsius(30.0), celsius(50.0))),
            "Gas at the engine, Watch above", "Warm gas is thin: the engine gets less of it.", CommonPractice;
        engine_gas_stop: ThermodynamicTemperature = number(Q::Temperature, celsius(65.0), (celsius(10.0), celsius(200.0)), (celsius(55.0), celsius(80.0))),
            "Gas at the engine, Stop above", "Hot gas brings its tar and water into the engine.", CommonPractice;
        drain_time: Time = number(Q::LongTime, 2.0 * 3600.0, (60.0, 100.0 * 3600.0), (1.0 * 3600.0, 8.0 * 3600.0)),
            "Time between drainings", "How long a condensate trap should take to fill.", YourOwn;
        ash_time: Time = number(Q::LongTime, 3600.0, (60.0, 1_000.0 * 3600.0), (3600.0, 24.0 * 3600.0)),
            "Time between ash removals", "How long the room under the grate should take to fill at the usual load, and at full load once it is warm. The machine must be cold and aired to be opened.", OwnMark("less is no time to work in");
        filter_time: Time = number(Q::LongTime, 20.0 * 3600.0, (600.0, 1_000.0 * 3600.0), (8.0 * 3600.0, 100.0 * 3600.0)),
            "Time between filter changes", "How long a filter should last at usual load.", YourOwn;
        oxygen_watch: Ratio = number(Q::Share, 0.02, (0.001, 0.2), (0.01, 0.03)),
            "Oxygen in the gas, Watch above", "Oxygen tells of air that leaks in.", CommonPractice;
        oxygen_stop: Ratio = number(Q::Share, 0.04, (0.002, 0.2), (0.03, 0.05)),
            "Oxygen in the gas, Stop above", "Near this the gas may burn inside.", CommonPractice;
        battery_time: Time = number(Q::LongTime, 2.0 * 3600.0, (60.0, 100.0 * 3600.0), (0.5 * 3600.0, 8.0 * 3600.0)),
            "Battery time wanted", "How long the battery must carry blower and other loads.", CommonPractice;
        motor_drop: Ratio = number(Q::Share, 0.03, (0.005, 0.15), (0.02, 0.05)),
            "Voltage lost, motors", "Share of the battery's voltage that the cable of a motor may lose.", CommonPractice;
        other_drop: Ratio = number(Q::Share, 0.05, (0.005, 0.15), (0.03, 0.10)),
            "Voltage lost, other loads", "Share of the battery's voltage that the cable of any other load may lose.", CommonPractice;
        lead_acid_temperature: ThermodynamicTemperature = number(Q::Temperature, celsius(50.0), (celsius(20.0), celsius(80.0)), (celsius(40.0), celsius(55.0))),
            "Lead-acid, warmest", "A lead-acid battery that is warmer dries out and ages fast.", CommonPractice;
        lithium_temperature: ThermodynamicTemperature = number(Q::Temperature, celsius(45.0), (celsius(20.0), celsius(80.0)), (celsius(40.0), celsius(50.0))),
            "Lithium, warmest", "A lithium iron phosphate battery that is warmer must not be charged.", CommonPractice;
        lift_mass: Mass = number(Q::Mass, 25.0, (5.0, 100.0), (20.0, 30.0)),
            "Lift by one person", "Heaviest part one person lifts by hand.", CommonPractice;
        hole_off: Length = number(Q::Length, 0.005, (0.0, 0.2), (0.002, 0.01)),
            "Hole off its place", "How far a hole may be from where it belongs.", OwnMark("a pipe that far off still meets its flange with a little filing");
        hole_to_seam: Length = number(Q::Length, 0.025, (0.0, 0.3), (0.01, 0.05)),
            "Hole to seam, least", "Plain sheet between the edge of a hole and a weld.", CommonPractice;
        hole_to_end: Length = number(Q::Length, 0.030, (0.0, 0.3), (0.02, 0.06)),
            "Hole to end, least", "Plain sheet between the edge of a hole and an end of the shell.", CommonPractice;
        hole_to_hole: Length = number(Q::Length, 0.025, (0.0, 0.3), (0.01, 0.05)),
            "Hole to hole, least", "Plain sheet between the edges of two holes.", CommonPractice;
    }
}

/// Where Good begins or ends. Of a Watch and a Stop mark that a person set the wrong way round the stricter counts for both:
/// what is a Stop is never good.
impl Limits {
    /// Most water in the wood.
    ///
    /// ```
    /// use hearthplan::design::Design;
    /// use uom::si::{f64::Ratio, ratio::percent};
    /// let mut limits = Design::default().limits;
    /// assert_eq!(limits.moisture_good(), limits.moisture_watch);
    /// limits.moisture_stop = Ratio::new::<percent>(15.0);
    /// assert_eq!(limits.moisture_good(), limits.moisture_stop);
    /// ```
    pub fn moisture_good(&self) -> Ratio {
        self.moisture_watch.min(self.moisture_stop)
    }

    /// Lowest mean temperature at the nozzles.
    pub fn hearth_temperature_good(&self) -> ThermodynamicTemperature {
        self.hearth_temperature.max(self.tar_temperature)
    }

    /// Largest share of the hearth that is too cold for tar.
    pub fn tar_share_good(&self) -> Ratio {
        self.tar_share_watch.min(self.tar_share_stop)
    }

    /// Least heat in the gas, J per normal m³.
    pub fn gas_heat_good(&self) -> f64 {
        self.gas_heat_watch.max(self.gas_heat_stop)
    }

    /// Least slope that it stands on.
    pub fn tip_angle_good(&self) -> Angle {
        self.tip_angle.max(self.tip_angle_least)
    }

    /// Largest share of the wood's heat that leaves through the shell.
    pub fn loss_share_good(&self) -> Ratio {
        self.loss_share_watch.min(self.loss_share_stop)
    }

    /// Most suction at the engine.
    pub fn engine_vacuum_good(&self) -> Pressure {
        self.engine_vacuum_watch.min(self.engine_vacuum_stop)
    }

    /// Most dust in the gas at the engine.
    pub fn engine_dust_good(&self) -> MassDensity {
        self.engine_dust_watch.min(self.engine_dust_stop)
    }

    /// Warmest gas at the engine.
    pub fn engine_gas_good(&self) -> ThermodynamicTemperature {
        self.engine_gas_watch.min(self.engine_gas_stop)
    }

    /// Most oxygen in the gas.
    pub fn oxygen_good(&self) -> Ratio {
        self.oxygen_watch.min(self.oxygen_stop)
    }
}
