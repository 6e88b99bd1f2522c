//! Leak tests: the budget, the instruments, and the readings taken.

use super::parts::Group;
use crate::design::Choice as _;
use crate::design::Source::{CommonPractice, OwnMark, YourOwn};
use crate::design::celsius;
use crate::design::declare::{choice, choices, flag, number, optional, record, text};
use crate::design::quantity::Quantity as Q;
use uom::si::f64::{
    Length, Pressure, Ratio, TemperatureInterval, ThermodynamicTemperature, Time, Volume,
};

choices! {
    /// Outline of a flat panel.
    PanelShape {
        Round = "round", "Round";
        Rectangle = "rectangle", "Rectangle";
    }
}

record! {
    /// How tightness is tested.
    LeakTest {
        budget: Ratio = number(Q::Share, 0.01, (0.0001, 0.2), (0.005, 0.03)),
            "Leak allowed", "Air that may leak in, as a share of the gas flow at full load.", OwnMark("one percent of air takes about one percent of the gas and stays far from an explosive mixture");
        test_pressure: Pressure = number(Q::Pressure, 3_500.0, (100.0, 50_000.0), (1_000.0, 7_000.0)),
            "Test pressure", "Air pressure above that of the room; about half a pound per square inch.", CommonPractice;
        gauge_step: Pressure = number(Q::Pressure, 10.0, (0.1, 5_000.0), (1.0, 100.0)),
            "Gauge reads to", "Smallest step you can read: 10 Pa is 1 mm of water in a clear tube; a tenth of an inch of water is 25 Pa.", CommonPractice;
        thermometer_step: TemperatureInterval = number(Q::TemperatureDifference, 0.1, (0.001, 5.0), (0.05, 1.0)),
            "Thermometer reads to", "Smallest step you can read. Its sensor touches the vessel, out of the sun.", CommonPractice;
        hold_time: Time = number(Q::Time, 900.0, (10.0, 172_800.0), (300.0, 3_600.0)),
            "Time for one test", "How long you can leave it alone between two readings.", YourOwn;
        filter_volume: Option<Volume> = optional(Q::Volume, (0.0001, 10.0), (0.01, 0.2)),
            "Air in the filter", "Volume inside; fill it with water from a bucket to know it. Left empty, it follows from the sizes of the gas train.", YourOwn;
        cooler_volume: Option<Volume> = optional(Q::Volume, (0.0001, 10.0), (0.002, 0.05)),
            "Air in the cooler", "Volume inside, pipes to the next sub-assembly included. Left empty, it follows from the sizes of the gas train.", YourOwn;
        condensate_volume: Option<Volume> = optional(Q::Volume, (0.0001, 10.0), (0.002, 0.05)),
            "Air in the condensate trap", "Volume inside when it is empty. Left empty, it follows from the sizes of the gas train.", YourOwn;
        panel_shape: PanelShape = choice(PanelShape::OPTIONS, "round"),
            "Weakest flat panel", "The largest or thinnest flat sheet that the test pressure loads.", YourOwn;
        panel_width: Length = number(Q::Length, 0.30, (0.01, 3.0), (0.1, 0.8)),
            "Panel width", "Diameter, or the shorter free side between its edges.", YourOwn;
        panel_length: Length = number(Q::Length, 0.40, (0.01, 3.0), (0.1, 1.0)),
            "Panel length", "The longer free side.", YourOwn;
        panel_sheet: Length = number(Q::Thickness, 0.003, (0.0003, 0.05), (0.001, 0.008)),
            "Panel thickness", "Thickness of its sheet.", YourOwn;
        braced: bool = flag(false),
            "Flat panels braced for the test", "While a test lasts bars are clamped across every flat lid and end that would bulge, or it is taken off and its opening closed with a thicker blank.", YourOwn;
    }
}

record! {
    /// A leak test that was made.
    Reading {
        date: String = text("", 20), "Date", "Day of the test, such as 2026-05-14.", YourOwn;
        group: Group = choice(Group::OPTIONS, "reactor"), "Sub-assembly", "What was tested.", YourOwn;
        volume: Volume = number(Q::Volume, 0.080, (0.0001, 10.0), (0.002, 0.3)),
            "Air inside", "Volume under pressure, hoses included.", YourOwn;
        first_pressure: Pressure = number(Q::Pressure, 3_500.0, (-50_000.0, 50_000.0), (1_000.0, 7_000.0)),
            "Pressure at the start", "Above that of the room.", YourOwn;
        first_temperature: ThermodynamicTemperature = number(Q::Temperature, celsius(20.0), (celsius(-30.0), celsius(80.0)), (celsius(0.0), celsius(40.0))),
            "Temperature at the start", "Of the air inside; the wall of the vessel tells it.", YourOwn;
        second_pressure: Pressure = number(Q::Pressure, 3_500.0, (-50_000.0, 50_000.0), (0.0, 7_000.0)),
            "Pressure at the end", "Above that of the room.", YourOwn;
        second_temperature: ThermodynamicTemperature = number(Q::Temperature, celsius(20.0), (celsius(-30.0), celsius(80.0)), (celsius(0.0), celsius(40.0))),
            "Temperature at the end", "Of the air inside. Air that cools by one degree looks like a large leak: the sheet “Leak tests” tells how large, for the pressure of the test.", YourOwn;
        time: Time = number(Q::Time, 600.0, (1.0, 172_800.0), (60.0, 3_600.0)),
            "Time between", "From the first reading to the second.", YourOwn;
        barometer_change: Pressure = number(Q::Pressure, 0.0, (-5_000.0, 5_000.0), (-200.0, 200.0)),
            "Change of the barometer", "Air pressure at the end less that at the start; leave 0 for a short test.", YourOwn;
        gauge_step: Pressure = number(Q::Pressure, 10.0, (0.1, 5_000.0), (1.0, 100.0)),
            "Gauge read to", "Smallest step that could be read.", YourOwn;
        thermometer_step: TemperatureInterval = number(Q::TemperatureDifference, 0.1, (0.001, 5.0), (0.05, 1.0)),
            "Thermometer read to", "Smallest step that could be read.", YourOwn;
        note: String = text("", 200), "Note", "Weather, sun, where soap film showed bubbles.", YourOwn;
    }
}
