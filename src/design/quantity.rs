//! What an input measures: how it is shown in each system of units, and how it is read.

mod units;

pub use units::Unit;

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
    /// A small thickness or bore, m; shown in mm, or in decimal inches.
    Thickness,
    /// A distance in the yard, m; shown in m or ft.
    Distance,
    /// m²; shown in cm² or in².
    Area,
    /// m³; shown in litres or US gallons.
    Volume,
    /// kg; shown in kg or lb.
    Mass,
    /// N; shown in N or lbf.
    Force,
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
    /// m³/s at 0 °C and 101.325 kPa, dry; shown in Nm³/h or cfm at 0 °C.
    NormalFlow,
    /// kg/s; shown in kg/h or lb/h.
    MassFlow,
    /// m/s; shown in m/s or ft/s.
    Velocity,
    /// W; shown in W or kW in both systems.
    Power,
    /// W/m²; shown in kW/m² in both systems.
    HeatFlux,
    /// W/(m·K) in both systems.
    Conductivity,
    /// W/(m²·K) in both systems.
    HeatTransferCoefficient,
    /// J/(kg·K) in both systems.
    HeatCapacity,
    /// kg/m³; shown in kg/m³ or lb/ft³.
    Density,
    /// J/kg; shown in MJ/kg in both systems.
    EnergyPerMass,
    /// J/m³ at 0 °C; shown in MJ/Nm³ in both systems.
    EnergyPerVolume,
    /// kg/J; shown in kg per kWh, or lb per kWh.
    MassPerEnergy,
    /// rad; shown in degrees.
    Angle,
    /// A share; shown in %.
    Share,
    /// A plain number.
    Number,
    /// A whole number.
    Count,
    /// s; shown in hours or minutes.
    Time,
    /// 1/s; shown in rpm.
    Speed,
    /// V.
    Voltage,
    /// A.
    Current,
    /// C; shown in Ah.
    Charge,
    /// Nm³/h per cm² of throat, the trade's unit of hearth load, held in m³/(s·m²).
    HearthLoad,
}

impl Quantity {
    /// All quantities, for tests and documentation.
    pub const ALL: &'static [Quantity] = &[
        Quantity::Length,
        Quantity::Thickness,
        Quantity::Distance,
        Quantity::Area,
        Quantity::Volume,
        Quantity::Mass,
        Quantity::Force,
        Quantity::MechanicalEnergy,
        Quantity::HeatEnergy,
        Quantity::Temperature,
        Quantity::TemperatureDifference,
        Quantity::Pressure,
        Quantity::Flow,
        Quantity::NormalFlow,
        Quantity::MassFlow,
        Quantity::Velocity,
        Quantity::Power,
        Quantity::HeatFlux,
        Quantity::Conductivity,
        Quantity::HeatTransferCoefficient,
        Quantity::HeatCapacity,
        Quantity::Density,
        Quantity::EnergyPerMass,
        Quantity::EnergyPerVolume,
        Quantity::MassPerEnergy,
        Quantity::Angle,
        Quantity::Share,
        Quantity::Number,
        Quantity::Count,
        Quantity::Time,
        Quantity::Speed,
        Quantity::Voltage,
        Quantity::Current,
        Quantity::Charge,
        Quantity::HearthLoad,
    ];

    /// A short text with unit and no more digits than are meant, in the given system.
    ///
    /// ```
    /// use hearthplan::design::quantity::{Quantity, System};
    /// assert_eq!(Quantity::Length.show(0.66, System::Metric), "660 mm");
    /// ```
    pub fn show(self, si: f64, system: System) -> String {
        if !si.is_finite() {
            return "—".to_string();
        }
        let unit = units::preferred(self, system);
        format!("{} {}", units::digits(unit.from_si(si)), unit.symbol)
    }
}
