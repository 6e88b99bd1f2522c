//! Pipe fittings, blower and battery.

use crate::design::Source::{CommonPractice, YourOwn};
use crate::design::declare::{choices, flag, number, record};
use crate::design::quantity::Quantity as Q;
use uom::si::f64::{ElectricCharge, ElectricPotential, Pressure, Ratio, Time, VolumeRate};

const PER_HOUR: f64 = 1.0 / 3600.0;

choices! {
    /// Kinds of pipe fitting.
    FittingKind {
        Entrance = "entrance", "Sharp pipe entrance";
        Exit = "exit", "Pipe exit";
        Elbow90 = "elbow_90", "Elbow 90°";
        LongElbow90 = "long_elbow_90", "Long bend 90°";
        Elbow45 = "elbow_45", "Elbow 45°";
        TeeStraight = "tee_straight", "Tee, straight through";
        TeeBranch = "tee_branch", "Tee, into the branch";
        GateValve = "gate_valve", "Gate valve, open";
        BallValve = "ball_valve", "Ball valve, open";
        Butterfly = "butterfly_valve", "Butterfly valve, open";
        Contraction = "contraction", "Sudden narrowing";
        Enlargement = "enlargement", "Sudden widening";
    }
}

record! {
    /// The blower.
    Blower {
        assists: bool = flag(false), "Helps while running", "The blower runs together with the engine; if not, the engine pulls the gas by itself.", YourOwn;
        speed_share: Ratio = number(Q::Share, 1.0, (0.1, 1.2), (0.4, 1.0)), "Speed while running", "Share of the rated speed, set by the controller.", YourOwn;
        startup_speed_share: Ratio = number(Q::Share, 0.7, (0.1, 1.2), (0.3, 1.0)), "Speed while lighting", "Share of the rated speed while lighting, through the flare.", YourOwn;
        efficiency: Ratio = number(Q::Share, 0.35, (0.05, 0.9), (0.2, 0.6)), "Fan efficiency", "Air power out of shaft power in; small fans are poor.", CommonPractice;
        motor_efficiency: Ratio = number(Q::Share, 0.65, (0.1, 0.98), (0.5, 0.85)), "Motor efficiency", "Shaft power out of electric power in, controller included.", CommonPractice;
        flare_drop: Pressure = number(Q::Pressure, 100.0, (0.0, 5_000.0), (20.0, 500.0)), "Loss at the flare", "Pressure loss of the flare pipe and burner at full gas flow.", YourOwn;
    }
}

record! {
    /// A point of the blower curve at rated speed and air of 1.2 kg/m³.
    CurvePoint {
        flow: VolumeRate = number(Q::Flow, 0.0, (0.0, 3_000.0 * PER_HOUR), (0.0, 300.0 * PER_HOUR)), "Flow", "Flow through the blower at this point.", YourOwn;
        pressure: Pressure = number(Q::Pressure, 1_000.0, (0.0, 50_000.0), (0.0, 8_000.0)), "Pressure", "Pressure rise at this flow.", YourOwn;
    }
}

record! {
    /// The battery that feeds the blower.
    Battery {
        voltage: ElectricPotential = number(Q::Voltage, 12.0, (6.0, 60.0), (12.0, 24.0)), "Battery voltage", "Nominal voltage.", YourOwn;
        capacity: ElectricCharge = number(Q::Charge, 70.0 * 3600.0, (1.0 * 3600.0, 2_000.0 * 3600.0), (20.0 * 3600.0, 200.0 * 3600.0)), "Battery capacity", "Charge on the label, at the rated time below.", YourOwn;
        rated_time: Time = number(Q::LongTime, 20.0 * 3600.0, (3600.0, 100.0 * 3600.0), (5.0 * 3600.0, 20.0 * 3600.0)), "Rated time", "Discharge time the label's capacity is given for.", CommonPractice;
        peukert: f64 = number(Q::Number, 1.2, (1.0, 1.6), (1.05, 1.35)), "Peukert exponent", "How much capacity a fast discharge costs: lead-acid about 1.2, lithium 1.05.", CommonPractice;
        usable_share: Ratio = number(Q::Share, 0.5, (0.05, 1.0), (0.5, 0.9)), "Usable share", "How far you discharge it: lead-acid half, lithium most of it.", CommonPractice;
        left_with_age: Ratio = number(Q::Share, 1.0, (0.1, 1.0), (0.6, 1.0)), "Left with age", "Share of the label's charge that it still holds: new all of it, after some years four fifths. Measure it by discharging it once.", CommonPractice;
    }
}
