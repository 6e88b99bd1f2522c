//! How warm does a box get that stands near a hot wall, behind sheets that hold the heat back?
//!
//! Radiation between grey plates, and in each gap air that conducts and, where it is wide or the difference large, rises
//! and falls; the far side of the box's wall gives its heat to the air. Flat, upright, ends left out: the same method as
//! the shell (ASTM C680, ISO 12241), with the closed gaps of ElSherbiny, Raithby and Hollands, 1982.

use crate::physics::conductivity::ConductivityCurve;
use crate::physics::convection;
use crate::physics::error::{PhysicsError, within};
use crate::physics::layers::{Facing, Layer, MOST_LAYERS, Shape, Stack};
use crate::physics::steady::Outside;
use crate::sizing::nozzles::Surroundings;
use uom::si::f64::{
    HeatTransfer, Length, Power, Ratio, ThermalConductivity, ThermodynamicTemperature,
};
use uom::si::heat_transfer::watt_per_square_meter_kelvin;
use uom::si::power::watt;
use uom::si::thermodynamic_temperature::kelvin;

/// Moving air is reckoned anew until its share changes by less than this.
const AGREED: f64 = 1e-3;
/// Most often that it is reckoned anew.
const MOST_ROUNDS: usize = 20;
/// Most sheets that can be computed: a gap and a sheet each, a gap and the wall of the box last.
pub const MOST_SHIELDS: usize = MOST_LAYERS / 2 - 1;
/// Conductivity of thin sheet, W/(m·K): steel (from memory). A millimetre of any metal holds back no heat.
const SHEET_CONDUCTIVITY: f64 = 45.0;

/// Hottest wall that a box can be reckoned beside, K.
pub const HOTTEST_WALL: f64 = 1173.15;

/// One sheet between hot wall and box.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShieldSheet {
    /// Thickness, 0.1 to 10 mm.
    pub thickness: Length,
    /// Emittance of both its faces, 0.02 to 1; bright new sheet 0.1 to 0.3, rusty or painted 0.8 to 0.95.
    pub emittance: Ratio,
}

/// Hot wall, sheets, box.
#[derive(Debug, Clone, PartialEq)]
pub struct ShieldedBox {
    /// Hot wall: outside of the machine, −20 to 900 °C.
    pub hot_wall: ThermodynamicTemperature,
    /// Emittance of the hot wall, 0.02 to 1.
    pub hot_emittance: Ratio,
    /// Sheets, hot side first; none to [`MOST_SHIELDS`].
    pub shields: Vec<ShieldSheet>,
    /// Width of each gap, 1 to 200 mm.
    pub gap: Length,
    /// Thickness of the wall of the box, 0.1 to 20 mm.
    pub box_wall: Length,
    /// Conductivity of the wall of the box, 0.05 to 400 W/(m·K): plastic 0.2, steel 45.
    pub box_conductivity: ThermalConductivity,
    /// Emittance of the wall of the box, both faces, 0.02 to 1.
    pub box_emittance: Ratio,
    /// Height of the box, 20 mm to 3 m.
    pub height: Length,
    /// Width of the box, 20 mm to 3 m.
    pub width: Length,
}

/// How warm it gets.
#[derive(Debug, Clone, PartialEq)]
pub struct ShieldedTemperatures {
    /// Heat that reaches the box.
    pub heat: Power,
    /// Cold face of each sheet, hot side first.
    pub shields: Vec<ThermodynamicTemperature>,
    /// Face of the box towards the hot wall.
    pub box_face: ThermodynamicTemperature,
    /// Inside of that wall, taken as the temperature of the box.
    pub box_temperature: ThermodynamicTemperature,
    /// Carried off by air and radiated, from the inside of that wall to the air around.
    pub given_off: HeatTransfer,
    /// How many times as much the air in the last gap carries as if it stood still.
    pub last_gap: f64,
}

impl ShieldedBox {
    /// Temperatures of sheets and box in still air.
    ///
    /// # Errors
    /// [`PhysicsError`] naming the value at fault, or too many sheets.
    ///
    /// ```
    /// use hearthplan::sizing::heat_shield::{ShieldSheet, ShieldedBox};
    /// use hearthplan::sizing::nozzles::Surroundings;
    /// use uom::si::{f64::*, length::millimeter, pressure::pascal, ratio::ratio};
    /// use uom::si::thermal_conductivity::watt_per_meter_kelvin;
    /// use uom::si::thermodynamic_temperature::degree_celsius;
    /// let mm = Length::new::<millimeter>;
    /// let celsius = ThermodynamicTemperature::new::<degree_celsius>;
    /// let share = Ratio::new::<ratio>;
    /// let bare = ShieldedBox {
    ///     hot_wall: celsius(250.0), hot_emittance: share(0.8), shields: vec![], gap: mm(15.0), box_wall: mm(0.8),
    ///     box_conductivity: ThermalConductivity::new::<watt_per_meter_kelvin>(45.0), box_emittance: share(0.9),
    ///     height: mm(300.0), width: mm(400.0),
    /// };
    /// let sheet = ShieldSheet { thickness: mm(0.8), emittance: share(0.1) };
    /// let shielded = ShieldedBox { shields: vec![sheet], ..bare.clone() };
    /// let around = Surroundings { temperature: celsius(30.0), pressure: Pressure::new::<pascal>(101_325.0) };
    /// assert!(shielded.solve(&around)?.box_temperature < bare.solve(&around)?.box_temperature);
    /// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
    /// ```
    pub fn solve(&self, around: &Surroundings) -> Result<ShieldedTemperatures, PhysicsError> {
        if self.shields.len() > MOST_SHIELDS {
            return Err(PhysicsError::Impossible {
                quantity: "heat shield",
                reason: "it has more than seven sheets",
            });
        }
        let hot = within("hot wall", "K", self.hot_wall.value, 253.15, HOTTEST_WALL)?;
        let gap = within("gap of the heat shield", "m", self.gap.value, 0.001, 0.2)?;
        let height = within("height of the box", "m", self.height.value, 0.02, 3.0)?;
        let width = within("width of the box", "m", self.width.value, 0.02, 3.0)?;
        let box_emittance = emittance("emittance of the box", self.box_emittance)?;
        let shape = Shape::Flat {
            area: height * width,
            side: height,
            facing: Facing::Sideways,
        };
        let outside = Outside {
            surroundings: convection::Surroundings {
                air_temperature: around.temperature.value,
                pressure: around.pressure.value,
                wind_speed: 0.0,
            },
            emittance: box_emittance,
        };
        // Air that moves carries as much as still air in a gap that is so much narrower.
        let mut moving = [1.0; MOST_SHIELDS + 1];
        let mut found = Stack::new(shape, &self.layers(&moving)?)?.steady(hot, &outside)?;
        for _ in 0..MOST_ROUNDS {
            let mut change = 0.0_f64;
            let gaps = found.interfaces.chunks_exact(2);
            for (moves, faces) in moving.iter_mut().zip(gaps) {
                let [warm, cold] = faces else { continue };
                let between = convection::Surroundings {
                    air_temperature: *cold,
                    ..outside.surroundings
                };
                let rayleigh = convection::rayleigh(gap, *warm, &between);
                let now = convection::nusselt_upright_gap(rayleigh, height / gap);
                change = change.max((now - *moves).abs());
                *moves = now;
            }
            if change < AGREED {
                break;
            }
            found = Stack::new(shape, &self.layers(&moving)?)?.steady(hot, &outside)?;
        }
        // Faces: hot wall, then two for each sheet, then two of the box.
        let faces: Vec<_> = found
            .interfaces
            .iter()
            .map(|face| ThermodynamicTemperature::new::<kelvin>(*face))
            .collect();
        let cold_faces = faces.iter().skip(2).step_by(2);
        let box_temperature = ThermodynamicTemperature::new::<kelvin>(found.surface_temperature);
        Ok(ShieldedTemperatures {
            heat: Power::new::<watt>(found.heat_flow),
            shields: cold_faces.take(self.shields.len()).copied().collect(),
            box_face: faces
                .iter()
                .rev()
                .nth(1)
                .copied()
                .unwrap_or(box_temperature),
            box_temperature,
            given_off: HeatTransfer::new::<watt_per_square_meter_kelvin>(
                found.surface_loss.total_coefficient(),
            ),
            last_gap: moving.get(self.shields.len()).copied().unwrap_or(1.0),
        })
    }

    /// Gaps and sheets, the wall of the box last. `moving` tells for each gap how many times as much its air carries as if
    /// it stood still.
    fn layers(&self, moving: &[f64]) -> Result<Vec<Layer>, PhysicsError> {
        let gap = within("gap of the heat shield", "m", self.gap.value, 0.001, 0.2)?;
        let mut before = emittance("emittance of the hot wall", self.hot_emittance)?;
        let mut moving = moving.iter().copied();
        let mut air = |inside, outside| Layer::StillAir {
            thickness: gap / moving.next().unwrap_or(1.0),
            emittance_inside: inside,
            emittance_outside: outside,
        };
        let mut layers = Vec::with_capacity(MOST_LAYERS);
        let sheet = ConductivityCurve::constant(SHEET_CONDUCTIVITY)?;
        for shield in &self.shields {
            let face = emittance("emittance of a sheet", shield.emittance)?;
            layers.push(air(before, face));
            layers.push(Layer::Solid {
                thickness: within("sheet", "m", shield.thickness.value, 1e-4, 0.01)?,
                conductivity: sheet,
            });
            before = face;
        }
        layers.push(air(
            before,
            emittance("emittance of the box", self.box_emittance)?,
        ));
        let conductivity = within(
            "conductivity of the box",
            "W/(m·K)",
            self.box_conductivity.value,
            0.05,
            400.0,
        )?;
        layers.push(Layer::Solid {
            thickness: within("wall of the box", "m", self.box_wall.value, 1e-4, 0.02)?,
            conductivity: ConductivityCurve::constant(conductivity)?,
        });
        Ok(layers)
    }

    /// Fewest sheets like `sheet` that keep the box at or below `limit`; none if [`MOST_SHIELDS`] are not enough.
    ///
    /// # Errors
    /// As [`solve`](Self::solve).
    pub fn shields_needed(
        &self,
        sheet: ShieldSheet,
        limit: ThermodynamicTemperature,
        around: &Surroundings,
    ) -> Result<Option<usize>, PhysicsError> {
        for count in 0..=MOST_SHIELDS {
            let tried = ShieldedBox {
                shields: vec![sheet; count],
                ..self.clone()
            };
            if tried.solve(around)?.box_temperature <= limit {
                return Ok(Some(count));
            }
        }
        Ok(None)
    }
}

fn emittance(quantity: &'static str, given: Ratio) -> Result<f64, PhysicsError> {
    within(quantity, "", given.value, 0.02, 1.0)
}
