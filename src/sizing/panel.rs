//! Up to which pressure does a flat panel stay flat, and what pressure does it bear?
//!
//! Thin flat plate, small deflection, edges free to turn: edges that are held make it stronger, so this
//! is on the safe side. Round plate: σ = 3 (3 + ν)/8 · q r²/s², w = 3 (1 − ν)(5 + ν)/16 · q r⁴/(E s³).
//! Rectangle: σ = 6 β q b²/s², w = α q b⁴/D with D = E s³/(12 (1 − ν²)), α and β by the ratio of the
//! sides. Source: Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, 1959, sections 16 and
//! 30, table 8 (from memory). Good while the deflection is under half the thickness: up to there it counts
//! as flat.
//!
//! A round plate that bulges further also carries like a skin, so that its stress grows more slowly than
//! the pressure. [`SKIN`] holds what von Kármán's equations give for an edge free to turn and to slide
//! inwards, solved step by step: the largest stress by von Mises anywhere in the plate. A rectangle whose
//! edges slide hardly gains from its skin when it is long, so that for it nothing is added. Corrosion,
//! welds and heat are not covered. The stress allowed is two fifths of the yield strength of the cold
//! metal, since the test is made cold: our own mark.

use crate::design::inputs::{Layer, Material, PanelShape};
use crate::design::strength::{MILD_STEEL, Metal, metal};
use crate::design::{Choice, Design};
use crate::physics::error::{PhysicsError, within};
use crate::sizing::train_mass::drum_size;
use crate::sizing::zone::Zone;
use std::borrow::Cow;
use uom::si::f64::{Length, Pressure};
use uom::si::pressure::pascal;

/// Poisson's ratio of steel; the table holds for it, and nearly for aluminium (0.33).
const POISSON: f64 = 0.3;
/// Bending stress that a metal may see in a test, over its yield strength. Our own mark.
const STRESS_SHARE: f64 = 0.4;
/// Deflection over thickness up to which the theory holds.
const DEFLECTION: f64 = 0.5;

/// Long over short side; α of the deflection; β of the moment.
const RECTANGLE: [(f64, f64, f64); 14] = [
    (1.0, 0.004_06, 0.0479),
    (1.1, 0.004_85, 0.0554),
    (1.2, 0.005_64, 0.0627),
    (1.3, 0.006_38, 0.0694),
    (1.4, 0.007_05, 0.0755),
    (1.5, 0.007_72, 0.0812),
    (1.6, 0.008_30, 0.0862),
    (1.7, 0.008_83, 0.0908),
    (1.8, 0.009_31, 0.0948),
    (1.9, 0.009_74, 0.0985),
    (2.0, 0.010_13, 0.1017),
    (3.0, 0.012_23, 0.1189),
    (4.0, 0.012_82, 0.1235),
    (5.0, 0.012_97, 0.1246),
];
/// A strip without end.
const STRIP: (f64, f64) = (0.013_02, 0.125);

/// A round plate that bulges: its load q/E · (r/s)⁴, and its largest stress σ/E · (r/s)², for ν = 0.3. From 7 upwards that
/// is at its edge, which is pressed together all round.
const SKIN: [(f64, f64); 15] = [
    (1.0, 1.192),
    (1.5, 1.658),
    (2.0, 2.040),
    (3.0, 2.633),
    (4.0, 3.084),
    (5.0, 3.449),
    (6.0, 3.758),
    (7.0, 4.138),
    (8.0, 4.624),
    (10.0, 5.554),
    (13.0, 6.865),
    (18.0, 8.896),
    (25.0, 11.518),
    (32.0, 13.963),
    (40.0, 16.602),
];
/// How the stress grows with the load beyond the table: as fast as within it where that ends, or a little faster.
const BEYOND: f64 = 0.8;

/// The metal that the vessel bears pressure with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShellMetal {
    /// The metal; mild steel where nothing tells it.
    pub metal: Metal,
    /// What it is.
    pub material: Material,
    /// Whether it was taken from the layers of the design; if not, mild steel was taken for it.
    pub known: bool,
}

impl ShellMetal {
    /// Bending stress it may see in a cold test.
    pub fn stress(&self) -> Pressure {
        self.metal.yield_strength * STRESS_SHARE
    }
}

/// The weakest of the metals that the vessel's walls and ends are made of: of each wall and end its thickest
/// layer of a metal of known strength counts, so that a thin jacket outside does not. A wall or end with an
/// own material that does not insulate, and no metal of known strength, leaves it unknown.
///
/// ```
/// use hearthplan::design::{Design, inputs::Material};
/// use hearthplan::sizing::panel::shell_metal;
/// let found = shell_metal(&Design::default());
/// assert_eq!((found.material, found.known), (Material::MildSteel, true));
/// ```
pub fn shell_metal(design: &Design) -> ShellMetal {
    let shells = [
        &design.lid_layers,
        &design.bottom_layers,
        &design.body_layers,
        &design.hearth_layers,
    ];
    let mut weakest: Option<(Material, Metal)> = None;
    let mut known = true;
    for layers in shells {
        match thickest_metal(layers) {
            Some((_, layer, metal)) => {
                let weaker =
                    |(_, other): &(Material, Metal)| metal.yield_strength < other.yield_strength;
                if weakest.as_ref().is_none_or(weaker) {
                    weakest = Some((layer.material, metal));
                }
            }
            None => known &= !layers.iter().any(|layer| own_metal(design, layer.material)),
        }
    }
    let (material, metal) = weakest.unwrap_or((Material::MildSteel, MILD_STEEL));
    ShellMetal {
        metal,
        material,
        known: known && weakest.is_some(),
    }
}

/// The thickest layer of a metal of known strength, with its place.
fn thickest_metal(layers: &[Layer]) -> Option<(usize, &Layer, Metal)> {
    (layers.iter().enumerate())
        .filter_map(|(place, layer)| Some((place, layer, metal(layer.material)?)))
        .max_by(|(_, one, _), (_, other, _)| one.thickness.value.total_cmp(&other.thickness.value))
}

/// A flat sheet that a test loads: of vessel, hopper, trap or filter, as far as the design tells, or the one that was
/// entered.
#[derive(Debug, Clone, PartialEq)]
pub struct FlatSheet {
    /// What it is, in words.
    pub label: Cow<'static, str>,
    /// Path of the input that says how thick it is.
    pub path: String,
    /// Its outline.
    pub outline: Panel,
    /// Its thickness.
    pub thickness: Length,
    /// Its metal.
    pub shell: ShellMetal,
    /// What it bears, if it is flat and has no ribs.
    pub limit: PanelLimit,
}

/// The flat panel that was entered, of the weakest metal of the vessel.
///
/// # Errors
/// [`PhysicsError::OutOfRange`] naming the value at fault.
pub fn entered_panel(design: &Design) -> Result<FlatSheet, PhysicsError> {
    let test = &design.leak_test;
    let shell = shell_metal(design);
    let outline = match test.panel_shape {
        PanelShape::Round => Panel::Round(test.panel_width),
        PanelShape::Rectangle => Panel::Rectangle(test.panel_width, test.panel_length),
    };
    Ok(FlatSheet {
        label: "panel entered as the weakest".into(),
        path: "leak_test.panel_sheet".to_string(),
        outline,
        thickness: test.panel_sheet,
        shell,
        limit: panel_limit(outline, test.panel_sheet, &shell)?,
    })
}

/// The flat sheets that a design knows: the lid of the hopper, or of the vessel where it has none, the bottom, and the
/// ends of the drums of traps and filters. Of an end of the vessel its thickest layer of a metal counts, across the inside of the thickest metal of its wall.
///
/// ```
/// use hearthplan::design::Design;
/// use hearthplan::sizing::panel::flat_sheets;
/// let sheets = flat_sheets(&Design::default());
/// let lid = sheets.iter().find(|sheet| sheet.label == "hopper lid").unwrap();
/// // 500 mm of 1.5 mm: 0.5 · 2.05e11 · (1.5/250)⁴ / 0.696.
/// assert!((lid.limit.by_deflection.value - 191.0).abs() < 1.0);
/// ```
pub fn flat_sheets(design: &Design) -> Vec<FlatSheet> {
    let sheet = |label: Cow<'static, str>, path, diameter, thickness, shell: ShellMetal| {
        let outline = Panel::Round(diameter);
        Some(FlatSheet {
            label,
            path,
            outline,
            thickness,
            shell,
            limit: panel_limit(outline, thickness, &shell).ok()?,
        })
    };
    let mild_steel = ShellMetal {
        metal: MILD_STEEL,
        material: Material::MildSteel,
        known: true,
    };
    let end = |label: &'static str, zone: Zone, wall: &[Layer], inside: Length| {
        let (place, layer, metal) = thickest_metal(zone.layers(design))?;
        let within = thickest_metal(wall).map_or(0, |(place, _, _)| place);
        let lining: Length = wall.iter().take(within).map(|layer| layer.thickness).sum();
        sheet(
            label.into(),
            Design::item_input(zone.layer_list(), place, "thickness"),
            inside + 2.0 * lining,
            layer.thickness,
            ShellMetal {
                metal,
                material: layer.material,
                known: true,
            },
        )
    };
    let hopper = &design.hopper;
    let top = if hopper.fitted {
        sheet(
            "hopper lid".into(),
            "hopper.wall_thickness".to_string(),
            hopper.diameter,
            hopper.wall_thickness,
            mild_steel,
        )
    } else {
        end(
            "lid of the vessel",
            Zone::Lid,
            &design.body_layers,
            design.body_wall.inside_diameter,
        )
    };
    let bottom = end(
        "bottom of the vessel",
        Zone::Bottom,
        &design.hearth_layers,
        design.hearth_wall.inside_diameter,
    );
    let drums = design
        .train
        .iter()
        .enumerate()
        .filter_map(|(place, stage)| {
            let [diameter, _] = drum_size(stage)?;
            let name = match stage.name.trim() {
                "" => stage.kind.label().to_lowercase().into(),
                name => Cow::Borrowed(name),
            };
            sheet(
                format!("flat end of {name}").into(),
                Design::item_input("train", place, "wall"),
                diameter,
                stage.wall,
                mild_steel,
            )
        });
    top.into_iter().chain(bottom).chain(drums).collect()
}

/// Whether an own material may be a metal: it does not hold heat back.
fn own_metal(design: &Design, material: Material) -> bool {
    material.is_own()
        && design
            .material(material)
            .is_ok_and(|known| !known.insulates)
}

/// A flat panel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Panel {
    /// Round, by its diameter, 1 mm to 10 m.
    Round(Length),
    /// Rectangle, by its two sides, 1 mm to 10 m each, in any order.
    Rectangle(Length, Length),
}

impl Panel {
    /// What the theory goes by: the diameter, or the shorter side.
    pub fn narrow(self) -> Length {
        match self {
            Panel::Round(diameter) => diameter,
            Panel::Rectangle(one, other) => one.min(other),
        }
    }
}

/// What a panel bears.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PanelLimit {
    /// Pressure that brings it to the stress allowed: more it does not bear.
    pub by_stress: Pressure,
    /// Pressure that bends it by half its thickness: up to there it counts as flat.
    pub by_deflection: Pressure,
    /// Load q/E · (r/s)⁴ at the stress allowed, where a round one then carries like a skin too.
    pub skin: Option<f64>,
    /// Stress over pressure of a plate that hardly bends, times the square of thickness over the lesser width.
    pub stress_factor: f64,
    /// Deflection over thickness and pressure, times the modulus of elasticity and the fourth power of thickness over the
    /// lesser width.
    pub deflection_factor: f64,
}

impl PanelLimit {
    /// Pressure that it bears and stays flat.
    pub fn at_ease(&self) -> Pressure {
        self.by_stress.min(self.by_deflection)
    }
}

/// What a panel of a metal and this thickness bears, 0.1 to 100 mm.
///
/// # Errors
/// [`PhysicsError::OutOfRange`] naming the value at fault.
///
/// ```
/// use hearthplan::design::Design;
/// use hearthplan::sizing::panel::{Panel, panel_limit, shell_metal};
/// use uom::si::{f64::Length, length::millimeter};
/// let mm = Length::new::<millimeter>;
/// let steel = shell_metal(&Design::default());
/// let found = panel_limit(Panel::Round(mm(300.0)), mm(3.0), &steel)?;
/// // Half the thickness of deflection comes first: 0.5 · 2.05e11 · (3/150)⁴ / 0.696.
/// assert!((found.by_deflection.value / 23_560.0 - 1.0).abs() < 0.005);
/// assert!(found.by_stress > found.by_deflection);
/// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
/// ```
pub fn panel_limit(
    panel: Panel,
    thickness: Length,
    shell: &ShellMetal,
) -> Result<PanelLimit, PhysicsError> {
    let stiffness = shell.metal.stiffness.value;
    let sheet = within("panel thickness", "m", thickness.value, 1e-4, 0.1)?;
    let side = |length: Length| within("panel size", "m", length.value, 1e-3, 10.0);
    let (slender, stress_factor, deflection_factor) = match panel {
        Panel::Round(diameter) => (side(diameter)? / sheet, ROUND_STRESS, ROUND_DEFLECTION),
        Panel::Rectangle(one, other) => {
            let (one, other) = (side(one)?, side(other)?);
            let (short, long) = (one.min(other), one.max(other));
            let (deflection, moment) = rectangle(long / short);
            (
                short / sheet,
                6.0 * moment,
                12.0 * (1.0 - POISSON * POISSON) * deflection,
            )
        }
    };
    let allowed = shell.stress().value;
    let flat = allowed / (stress_factor * slender.powi(2));
    let by_deflection = DEFLECTION * stiffness / (deflection_factor * slender.powi(4));
    let half = 0.5 * slender;
    let skin = (matches!(panel, Panel::Round(_)) && flat > by_deflection)
        .then(|| skin_load(allowed / stiffness * half.powi(2)));
    let by_stress = skin.map_or(flat, |load| load * stiffness / half.powi(4));
    Ok(PanelLimit {
        by_stress: Pressure::new::<pascal>(by_stress),
        by_deflection: Pressure::new::<pascal>(by_deflection),
        skin,
        stress_factor,
        deflection_factor,
    })
}

/// Stress over pressure of a round plate, times the square of thickness over diameter.
const ROUND_STRESS: f64 = 3.0 * (3.0 + POISSON) / 32.0;
/// Its deflection over thickness and pressure, times the modulus of elasticity and the fourth power of thickness over diameter.
const ROUND_DEFLECTION: f64 = 3.0 * (1.0 - POISSON) * (5.0 + POISSON) / 256.0;

/// The load of a round plate at a stress, both as in [`SKIN`], for stresses of a plate that bulges.
fn skin_load(stress: f64) -> f64 {
    let begins = DEFLECTION / (16.0 * ROUND_DEFLECTION);
    let mut below = (begins, 4.0 * ROUND_STRESS * begins);
    for next in SKIN {
        if stress <= next.1 {
            let part = (stress / below.1).ln() / (next.1 / below.1).ln();
            return below.0 * (next.0 / below.0).powf(part);
        }
        below = next;
    }
    below.0 * (stress / below.1).powf(1.0 / BEYOND)
}

/// α and β of a ratio of sides from 1 upwards, read between the lines of the table.
fn rectangle(sides: f64) -> (f64, f64) {
    let pairs = RECTANGLE.iter().zip(RECTANGLE.iter().skip(1));
    for (&(low, a_low, b_low), &(high, a_high, b_high)) in pairs {
        if sides <= high {
            let part = (sides - low) / (high - low);
            return (
                a_low + part * (a_high - a_low),
                b_low + part * (b_high - b_low),
            );
        }
    }
    STRIP
}
