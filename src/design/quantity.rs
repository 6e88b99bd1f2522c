//! What an input measures: how it is shown in each system of units, and how it is read.

mod read;
mod read_error;
mod same;
mod scales;
mod sheet_gauge;
mod show;
mod signs;
mod units;
mod wire_gauge;

pub use read_error::{ReadError, ReadReason};
pub use same::{exceeds, falls_short};
use scales::{Scale, scale_of};
pub use sheet_gauge::{GaugeOfSteel, SHEET_GAUGES, WALL_GAUGES};
pub use show::whole;
pub use signs::names_a_unit;
pub use units::Unit;
pub(crate) use wire_gauge::SAME_SECTION;
pub(crate) use wire_gauge::is_bare_gauge;
use wire_gauge::wire_gauge_with;
pub use wire_gauge::{wire_gauge_diameter, wire_gauge_name};

/// The system a person works in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum System {
    /// Millimetres, kilograms, degrees Celsius.
    #[default]
    Metric,
    /// Inches, pounds, degrees Fahrenheit.
    Inch,
}

/// What is measured. Values are held in the SI unit named for each.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Quantity {
    /// A length in the workshop, m; shown in mm, or in inches as a fraction to 1/16.
    Length,
    /// A small thickness or bore, m; shown in mm, or in decimal inches, a grain in µm.
    Thickness,
    /// The size of grains of dust, m; shown in µm in both systems.
    Grain,
    /// The hole that a leak is like, m; shown in mm, or in decimal inches, however small.
    Hole,
    /// What is bored, or bought by its diameter, m; shown in mm, or in decimal inches: a tape is too coarse for it.
    Bore,
    /// A distance in the yard, m; shown in m or ft.
    Distance,
    /// m²; shown in m² or ft², small ones in cm² or in².
    Area,
    /// Section of a conductor, m²; shown in mm² in both systems.
    WireSection,
    /// m³; shown in litres or US gallons.
    Volume,
    /// The air in a room, m³; shown in m³ or ft³.
    RoomVolume,
    /// Swept volume of an engine, m³; shown in litres or cubic inches.
    Displacement,
    /// kg; shown in kg or lb.
    Mass,
    /// N; shown in N or lbf.
    Force,
    /// kg; shown in whole kg or lb, for what a force feels like.
    Heft,
    /// J; shown in J or ft·lbf.
    MechanicalEnergy,
    /// J; shown in MJ or kWh.
    HeatEnergy,
    /// K; shown in °C or °F.
    Temperature,
    /// K as a difference; shown in K or °F.
    TemperatureDifference,
    /// Pa; shown in Pa or kPa, or inches of water.
    Pressure,
    /// m³/s at working conditions; shown in m³/h or cfm.
    Flow,
    /// m³/s at 0 °C and 101.325 kPa, dry; shown in Nm³/h or cfm at 32 °F.
    NormalFlow,
    /// kg/s; shown in kg/h or lb/h, little of it in g/h.
    MassFlow,
    /// m/s; shown in m/s or ft/s.
    Velocity,
    /// m/s of wind; shown in m/s or mph, as forecasts have it.
    Wind,
    /// W; shown in W or kW in both systems.
    Power,
    /// W; shown in kW or hp.
    EnginePower,
    /// W/m²; shown in kW/m² or BTU/(h·ft²).
    HeatFlux,
    /// W/(m·K); shown in that or BTU·in/(h·ft²·°F), as data sheets have it.
    Conductivity,
    /// W/(m²·K); shown in that or BTU/(h·ft²·°F).
    HeatTransferCoefficient,
    /// J/(kg·K); shown in that or BTU/(lb·°F).
    HeatCapacity,
    /// kg/m³; shown in kg/m³ or lb/ft³.
    Density,
    /// kg of dust in a normal m³; shown in g/Nm³ or grains per cubic foot.
    DustLoad,
    /// J/kg; shown in MJ/kg or BTU/lb.
    EnergyPerMass,
    /// J/m³ at 0 °C; shown in MJ/Nm³ or BTU per cubic foot.
    EnergyPerVolume,
    /// m³ of dry gas at 0 °C and 101.325 kPa from a kg; shown in Nm³/kg or ft³/lb.
    VolumePerMass,
    /// kg/J; shown in kg per kWh, or lb per kWh.
    MassPerEnergy,
    /// rad; shown in degrees.
    Angle,
    /// Money, in the currency of the design.
    Money,
    /// Money per kg; shown per kg or per lb.
    MassPrice,
    /// A share; shown in %.
    Share,
    /// A plain number.
    Number,
    /// A whole number.
    Count,
    /// s; typed in minutes, shown in seconds, minutes or hours.
    Time,
    /// s; typed in hours, shown in seconds, minutes or hours.
    LongTime,
    /// 1/s; shown in rpm.
    Speed,
    /// V.
    Voltage,
    /// A.
    Current,
    /// C; shown in Ah.
    Charge,
    /// m³/s per m² of throat; shown in Nm³/h per cm², the trade's unit of hearth load, or in cfm per square inch.
    HearthLoad,
}

impl Quantity {
    /// What the difference of two values is: that of two temperatures has no zero of its own.
    pub fn of_difference(self) -> Self {
        match self {
            Quantity::Temperature => Quantity::TemperatureDifference,
            other => other,
        }
    }

    /// All quantities, for tests and documentation.
    pub const ALL: &'static [Quantity] = &[
        Quantity::Length,
        Quantity::Thickness,
        Quantity::Grain,
        Quantity::Hole,
        Quantity::Bore,
        Quantity::Distance,
        Quantity::Area,
        Quantity::WireSection,
        Quantity::Volume,
        Quantity::RoomVolume,
        Quantity::Displacement,
        Quantity::Mass,
        Quantity::Force,
        Quantity::Heft,
        Quantity::MechanicalEnergy,
        Quantity::HeatEnergy,
        Quantity::Temperature,
        Quantity::TemperatureDifference,
        Quantity::Pressure,
        Quantity::Flow,
        Quantity::NormalFlow,
        Quantity::MassFlow,
        Quantity::Velocity,
        Quantity::Wind,
        Quantity::Power,
        Quantity::EnginePower,
        Quantity::HeatFlux,
        Quantity::Conductivity,
        Quantity::HeatTransferCoefficient,
        Quantity::HeatCapacity,
        Quantity::Density,
        Quantity::DustLoad,
        Quantity::EnergyPerMass,
        Quantity::EnergyPerVolume,
        Quantity::VolumePerMass,
        Quantity::MassPerEnergy,
        Quantity::Angle,
        Quantity::Money,
        Quantity::MassPrice,
        Quantity::Share,
        Quantity::Number,
        Quantity::Count,
        Quantity::Time,
        Quantity::LongTime,
        Quantity::Speed,
        Quantity::Voltage,
        Quantity::Current,
        Quantity::Charge,
        Quantity::HearthLoad,
    ];

    fn scale(self) -> Scale {
        scale_of(self)
    }

    /// What it is called in a sentence, with its article: `a length`.
    pub fn noun(self) -> &'static str {
        self.scale().noun
    }

    /// All units that can be typed for it.
    pub fn units(self) -> &'static [Unit] {
        self.scale().accepted
    }

    /// The unit of a number typed without one, which is also the unit of [`Quantity::write`].
    pub fn field_unit(self, system: System) -> Unit {
        let [metric, inch] = self.scale().field;
        match system {
            System::Metric => metric,
            System::Inch => inch,
        }
    }

    /// The unit shown beside a field; empty for plain numbers.
    ///
    /// ```
    /// use hearthplan::design::quantity::{Quantity, System};
    /// assert_eq!(Quantity::Flow.unit_symbol(System::Inch), "cfm");
    /// ```
    pub fn unit_symbol(self, system: System) -> &'static str {
        self.field_unit(system).symbol
    }

    /// A short text with unit and no more digits than are meant, in the given system.
    ///
    /// Takes any SI value; what is not finite is shown as a dash.
    ///
    /// ```
    /// use hearthplan::design::quantity::{Quantity, System};
    /// assert_eq!(Quantity::Length.show(0.66, System::Metric), "660 mm");
    /// assert_eq!(Quantity::Length.show(0.0381, System::Inch), "1 1/2 in");
    /// ```
    pub fn show(self, si: f64, system: System) -> String {
        show::shown(self, si, system)
    }

    /// As [`Quantity::show`], for whoever does the sum again: one digit more, and decimals of an inch.
    ///
    /// ```
    /// use hearthplan::design::quantity::{Quantity, System};
    /// assert_eq!(Quantity::Length.show_for_sum(0.234, System::Inch), "9.213 in");
    /// assert_eq!(Quantity::Pressure.show_for_sum(104_820.0, System::Metric), "104.8 kPa");
    /// ```
    pub fn show_for_sum(self, si: f64, system: System) -> String {
        show::shown_for_sum(self, si, system)
    }

    /// Two values as [`Quantity::show`] does, in the same unit wherever one suits both.
    ///
    /// ```
    /// use hearthplan::design::quantity::{Quantity, System};
    /// assert_eq!(Quantity::Time.show_alike([3600.0, 60.0], System::Metric), ["60 min", "1 min"]);
    /// ```
    pub fn show_alike(self, values: [f64; 2], system: System) -> [String; 2] {
        show::shown_alike(self, values, system)
    }

    /// The values of a column: all in the unit that suits the largest, with as many decimals, so that figures stand under each
    /// other. What is not finite is a dash.
    ///
    /// ```
    /// use hearthplan::design::quantity::{Quantity, System};
    /// let column = |quantity: Quantity, values: &[f64]| quantity.show_column(values, System::Metric);
    /// assert_eq!(column(Quantity::Power, &[1130.0, 983.0, f64::NAN]), ["1.130 kW", "0.983 kW", "—"]);
    /// assert_eq!(column(Quantity::Share, &[0.1, 0.0184]), ["10.0 %", "1.8 %"]);
    /// assert_eq!(column(Quantity::Number, &[16.5, 0.0]), ["16.5", "0.0"]);
    /// ```
    pub fn show_column(self, values: &[f64], system: System) -> Vec<String> {
        show::shown_in_column(self, values, system)
    }

    /// As [`Quantity::show_alike`], for the least and the most that is taken: each is taken as it is written.
    ///
    /// ```
    /// use hearthplan::design::quantity::{Quantity, System};
    /// assert_eq!(Quantity::Share.show_range([0.0001, 0.2], System::Metric), ["0.01 %", "20 %"]);
    /// ```
    pub fn show_range(self, range: [f64; 2], system: System) -> [String; 2] {
        show::shown_range(self, range, system)
    }

    /// As [`Quantity::show`], with as many decimals more, three in all at most, as tell the value from another one.
    ///
    /// ```
    /// use hearthplan::design::quantity::{Quantity, System};
    /// let [hot, mark] = [313.18, 313.15];
    /// assert_eq!(Quantity::Temperature.show_apart(hot, mark, System::Metric), "40.03 °C");
    /// ```
    pub fn show_apart(self, si: f64, other: f64, system: System) -> String {
        show::shown_apart(self, si, other, system)
    }

    /// As [`Quantity::show`], with a sign before what is more than nothing.
    ///
    /// ```
    /// use hearthplan::design::quantity::{Quantity, System};
    /// assert_eq!(Quantity::Length.show_signed(0.15, System::Metric), "+150 mm");
    /// ```
    pub fn show_signed(self, si: f64, system: System) -> String {
        show::shown_signed(self, si, system)
    }

    /// How far a value is from one before it, with its sign, in the unit of the larger and no more finely than the coarser of both is shown.
    ///
    /// ```
    /// use hearthplan::design::quantity::{Quantity, System};
    /// let less = |quantity: Quantity, one, other| quantity.show_difference([one, other], System::Metric);
    /// assert_eq!(less(Quantity::Power, 2880.0, 2849.2), "−0.03 kW");
    /// assert_eq!(less(Quantity::Share, 0.12, 0.15), "+3 points");
    /// assert_eq!(less(Quantity::Temperature, 293.15, 298.15), "+5 K");
    /// ```
    pub fn show_difference(self, values: [f64; 2], system: System) -> String {
        show::shown_difference(self, values, system)
    }

    /// The American gauge that a value of this quantity is; none for one between two gauges, and for what is no section of
    /// a wire.
    ///
    /// ```
    /// use hearthplan::design::quantity::Quantity;
    /// assert_eq!(Quantity::WireSection.gauge(2.08e-6).as_deref(), Some("AWG 14"));
    /// assert_eq!(Quantity::WireSection.gauge(107.2e-6).as_deref(), Some("AWG 4/0"));
    /// assert_eq!(Quantity::WireSection.gauge(2.5e-6), None);
    /// assert_eq!(Quantity::Area.gauge(2.08e-6), None);
    /// ```
    pub fn gauge(self, si: f64) -> Option<String> {
        if self != Quantity::WireSection {
            return None;
        }
        wire_gauge_with(si)
    }

    /// A pressure in pounds per square inch, as pressure gauges tell it where people work in inches; none for little, which
    /// only a water column tells, and for what is no pressure.
    ///
    /// ```
    /// use hearthplan::design::quantity::Quantity;
    /// assert_eq!(Quantity::Pressure.psi(3_500.0).as_deref(), Some("0.51 psi"));
    /// assert_eq!(Quantity::Pressure.psi(500.0), None);
    /// assert_eq!(Quantity::Mass.psi(3_500.0), None);
    /// ```
    pub fn psi(self, si: f64) -> Option<String> {
        (self == Quantity::Pressure)
            .then(|| show::in_psi(si))
            .flatten()
    }

    /// The text put into a field: the exact number in the unit of [`Quantity::unit_symbol`].
    ///
    /// Reading it back gives the same value to 13 significant digits, temperatures to 10⁻¹⁰ of a
    /// degree. What is not finite gives an empty text.
    ///
    /// ```
    /// use hearthplan::design::quantity::{Quantity, System};
    /// assert_eq!(Quantity::Length.write(0.66, System::Metric), "660");
    /// assert_eq!(Quantity::Length.write(0.0381, System::Inch), "1 1/2");
    /// ```
    pub fn write(self, si: f64, system: System) -> String {
        show::written(self, si, system)
    }

    /// As [`Quantity::write`], but a number that only looks exact because it was converted from the
    /// other system is cut to five digits. Reading it back may give a slightly different value.
    ///
    /// ```
    /// use hearthplan::design::quantity::{Quantity, System};
    /// assert_eq!(Quantity::Length.write_short(0.4, System::Inch), "15.748");
    /// assert_eq!(Quantity::Length.write_short(0.66, System::Metric), "660");
    /// ```
    pub fn write_short(self, si: f64, system: System) -> String {
        show::shortened(show::written(self, si, system))
    }

    /// Reads what a person typed, in the given system when no unit is typed. The result is SI.
    ///
    /// ```
    /// use hearthplan::design::quantity::{Quantity, System};
    /// assert_eq!(Quantity::Length.read("2 ft 2 in", System::Metric), Ok(0.6604));
    /// assert_eq!(Quantity::Length.read("26", System::Inch), Ok(0.6604));
    /// let error = Quantity::Length.read("26 kg", System::Metric).unwrap_err();
    /// assert_eq!(error.place, 3..5);
    /// assert_eq!(error.to_string(), "“kg” is the unit of a weight; here a length is wanted");
    /// ```
    ///
    /// # Errors
    /// Nothing typed, not a number, an unknown unit, or the unit of another quantity; the error
    /// points at the place.
    pub fn read(self, text: &str, system: System) -> Result<f64, ReadError> {
        read::read(self, text, system)
    }
}
