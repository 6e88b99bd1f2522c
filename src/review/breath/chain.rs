//! The pressure chain of a design.

use crate::design::Design;
use crate::design::inputs::HearthKind;
use crate::review::hearth::{nozzle_ring, surroundings};
use crate::sizing::fitting_table::loss_coefficient;
use crate::sizing::heart::Supply;
use crate::sizing::pressure_chain::{
    Bed, ChainInputs, EnteredDrops, Gas, PipeRun, StageKind, Through,
};

/// What stands between the air outside and the engine or flare.
pub(super) fn inputs(design: &Design, supply: &Supply, gas: Gas) -> ChainInputs {
    let pipes = &design.pipes;
    let constricted = design.hearth.kind == HearthKind::Constricted;
    ChainInputs {
        gas,
        gas_per_air: supply.gas_per_air,
        surroundings: surroundings(design),
        nozzles: constricted.then(|| nozzle_ring(design)),
        beds: if constricted {
            constricted_beds(design)
        } else {
            straight_beds(design)
        },
        pipes: PipeRun {
            bore: pipes.bore,
            length: pipes.length,
            roughness: pipes.roughness,
            loss_coefficients: design
                .fittings
                .iter()
                .map(|fitting| f64::from(fitting.count) * loss_coefficient(fitting.kind))
                .sum(),
            temperature: pipes.gas_temperature,
        },
        entered: EnteredDrops {
            full_flow: supply.gas_flow,
            cooler: pipes.cooler_drop,
            clean_filter: pipes.filter_drop,
            dirty_filter: pipes.dirty_filter_drop,
            flare: design.blower.flare_drop,
        },
    }
}

fn char_bed(design: &Design) -> Bed {
    let hearth = &design.hearth;
    Bed {
        stage: StageKind::Char,
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

/// From the nozzles down into the throat and out again. The wood above the nozzles lies outside the flow: the hopper
/// is shut.
fn constricted_beds(design: &Design) -> Vec<Bed> {
    let hearth = &design.hearth;
    vec![
        Bed {
            entry_diameter: hearth.nozzle_ring_diameter,
            exit_diameter: hearth.throat_diameter,
            length: hearth.nozzle_height,
            ..char_bed(design)
        },
        Bed {
            entry_diameter: hearth.throat_diameter,
            exit_diameter: hearth.below_throat_diameter,
            length: hearth.reduction_height,
            ..char_bed(design)
        },
    ]
}

/// The air passes the wood in the open hopper, then the gas the whole tube, taken as full of glowing char.
fn straight_beds(design: &Design) -> Vec<Bed> {
    let hopper = &design.hopper;
    let wood = hopper.fitted.then(|| Bed {
        stage: StageKind::Wood,
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
