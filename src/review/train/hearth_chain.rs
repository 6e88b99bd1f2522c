//! What stands between the air outside and the hearth's outlet.

use crate::design::Design;
use crate::design::inputs::HearthKind;
use crate::review::hearth::{nozzle_ring, surroundings};
use crate::sizing::gas::{molar_mass, viscosity_per_air};
use crate::sizing::grate::under_char;
use crate::sizing::heart::Supply;
use crate::sizing::machine::HearthShape;
use crate::sizing::pattern::PatternError;
use crate::sizing::pressure_chain::{
    Bed, ChainInputs, Gas, Grate, HearthStage, PressureChain, Through,
};
use uom::si::f64::{Length, Ratio};
use uom::si::ratio::ratio;

/// Nozzles, wood, char and grate of a design; without a grate that cannot be worked out.
pub(super) fn hearth_chain(
    design: &Design,
    supply: &Supply,
    grate: Option<Grate>,
) -> PressureChain {
    let constricted = design.hearth.kind == HearthKind::Constricted;
    PressureChain::new(&ChainInputs {
        gas: Gas {
            molar_mass: molar_mass(&supply.gas),
            viscosity_per_air: viscosity_per_air(&supply.gas),
            steam: Ratio::default(),
        }
        .with_steam(Ratio::new::<ratio>(supply.steam)),
        gas_per_air: supply.gas_per_air,
        surroundings: surroundings(design),
        nozzles: constricted.then(|| nozzle_ring(design)),
        beds: if constricted {
            constricted_beds(design)
        } else {
            straight_beds(design)
        },
        grate,
    })
}

/// The grate with char lying in its holes as in the bed above, or why it cannot be drawn.
pub(in crate::review) fn grate(design: &Design) -> Result<Grate, PatternError> {
    let hearth = &design.hearth;
    let under = under_char(design)?;
    Ok(Grate {
        char: under.char(),
        open: under.open + under.beside,
        void_share: hearth.char_void_share,
        temperature: hearth.bed_temperature,
    })
}

fn char_bed(design: &Design) -> Bed {
    let hearth = &design.hearth;
    Bed {
        stage: HearthStage::Char,
        through: Through::Gas,
        entry_diameter: hearth.tube_diameter,
        exit_diameter: hearth.tube_diameter,
        length: hearth.tube_length,
        piece_size: hearth.char_size,
        void_share: hearth.char_void_share,
        fouling: hearth.bed_fouling,
        temperature: hearth.bed_temperature,
    }
}

/// From the nozzles down into the throat, at first straight on where the fire tube does, and out again. The wood above the nozzles lies outside the flow: the hopper
/// is shut.
fn constricted_beds(design: &Design) -> Vec<Bed> {
    let hearth = &design.hearth;
    let [straight, cone] = HearthShape::below_nozzles(hearth);
    let (tube, throat) = (hearth.nozzle_ring_diameter, hearth.throat_diameter);
    [
        (tube, tube, straight),
        (tube, throat, cone),
        (
            throat,
            hearth.below_throat_diameter,
            hearth.reduction_height,
        ),
    ]
    .into_iter()
    .filter(|(_, _, length)| *length > Length::default())
    .map(|(entry_diameter, exit_diameter, length)| Bed {
        entry_diameter,
        exit_diameter,
        length,
        ..char_bed(design)
    })
    .collect()
}

/// The air passes the wood in the open hopper, then the gas the whole tube, taken as full of glowing char.
fn straight_beds(design: &Design) -> Vec<Bed> {
    let hopper = &design.hopper;
    let wood = hopper.fitted.then(|| Bed {
        stage: HearthStage::Wood,
        through: Through::Air,
        entry_diameter: hopper.diameter,
        exit_diameter: hopper.diameter,
        length: hopper.height * hopper.fill_share,
        piece_size: design.fuel.piece_size,
        void_share: design.fuel.void_share,
        fouling: 1.0,
        temperature: design.site.air_temperature,
    });
    wood.into_iter().chain([char_bed(design)]).collect()
}
