//! The char bed from the nozzles to the grate, where the fire tube goes straight on below them.

use hearthplan::design::{Design, Value};
use hearthplan::review::assess;
use hearthplan::sizing::gas::{molar_mass, viscosity_per_air};
use hearthplan::sizing::nozzles::Surroundings;
use hearthplan::sizing::pressure_chain::{
    Bed, ChainInputs, Gas, HearthStage, PressureChain, Through,
};
use uom::si::f64::{Length, Ratio};
use uom::si::ratio::ratio;

fn straight_on(metres: f64) -> Design {
    let mut design = Design::default();
    let length = Value::Number(metres);
    design.set("hearth.straight_below_nozzles", length).unwrap();
    design
}

/// The bed from nozzles to throat is a cylinder and a cone; without the cylinder it is the cone alone, as long as all of it.
#[test]
fn the_char_bed_is_straight_as_far_as_the_fire_tube_is() {
    let char = |straight: f64| {
        let design = straight_on(straight);
        let assessment = assess(&design);
        let flow = assessment.heart.at.full.supply.gas_flow;
        let stages = assessment.train.at_full.hearth.stages(flow);
        let char = (stages.iter())
            .find(|stage| stage.kind == HearthStage::Char)
            .unwrap();
        let hearth = &design.hearth;
        let bed = |ends: [Length; 2], length: Length| Bed {
            stage: HearthStage::Char,
            through: Through::Gas,
            entry_diameter: ends[0],
            exit_diameter: ends[1],
            length,
            piece_size: hearth.char_size,
            void_share: hearth.char_void_share,
            fouling: hearth.bed_fouling,
            temperature: hearth.bed_temperature,
        };
        let (tube, throat) = (hearth.nozzle_ring_diameter, hearth.throat_diameter);
        let cylinder = hearth.straight_below_nozzles;
        let mut beds = vec![
            bed([tube, throat], hearth.nozzle_height - cylinder),
            bed(
                [throat, hearth.below_throat_diameter],
                hearth.reduction_height,
            ),
        ];
        if straight > 0.0 {
            beds.insert(0, bed([tube, tube], cylinder));
        }
        let supply = &assessment.heart.at.full.supply;
        let gas = Gas {
            molar_mass: molar_mass(&supply.gas),
            viscosity_per_air: viscosity_per_air(&supply.gas),
            steam: Ratio::default(),
        };
        let by_hand = PressureChain::new(&ChainInputs {
            gas: gas.with_steam(Ratio::new::<ratio>(supply.steam)),
            gas_per_air: supply.gas_per_air,
            surroundings: Surroundings::at(design.site.air_temperature, design.site.altitude),
            nozzles: None,
            beds,
            grate: None,
        });
        let drop = char.drop.value;
        assert!((drop / by_hand.drop(flow).value - 1.0).abs() < 1e-12);
        drop
    };
    // What is wide as far down as that resists less.
    assert!(char(0.02) < char(0.01) && char(0.01) < char(0.0));
}

/// All the way from the nozzles to the grate is told, by its pieces.
#[test]
fn the_working_of_the_char_bed_has_its_straight_piece() {
    let told = |straight: f64| {
        let design = straight_on(straight);
        let assessment = assess(&design);
        let steps = (assessment.findings.iter()).flat_map(|finding| finding.working.clone());
        let step = steps
            .into_iter()
            .find(|step| {
                step.values
                    .iter()
                    .any(|value| value.1 == "from throat to grate")
            })
            .unwrap();
        let way = step.values.iter().filter(|value| value.0 == "x");
        way.map(|value| value.2.si).collect::<Vec<f64>>()
    };
    assert_eq!(told(0.0), [0.080, 0.256]);
    assert_eq!(told(0.020), [0.020, 0.060, 0.256]);
}
