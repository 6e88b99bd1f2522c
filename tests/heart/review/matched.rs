//! Engine, gas, shell and throat fit each other, and the published hearths.

use super::{choose, share, verdict, with};
use crate::equilibrium::Draw;
use hearthplan::design::quantity::{Quantity, System};
use hearthplan::design::{Design, example};
use hearthplan::review::{Assessment, OtherSize, Verdict, assess};
use hearthplan::sizing::engine::{engine_of, intake_of};
use hearthplan::sizing::gas::stoichiometric_air;
use hearthplan::sizing::heart::{Basis, HeartModel};
use hearthplan::sizing::hearth_table::FAMILIES;
use hearthplan::sizing::shell::ZoneShell;
use hearthplan::sizing::zone::Zone;
use uom::si::length::millimeter;
use uom::si::thermodynamic_temperature::degree_celsius;

#[test]
fn engine_gas_and_shell_agree() {
    let mut draw = Draw(5);
    for _ in 0..40 {
        let design = with(
            example::as_improved(),
            &[
                ("fuel.moisture", draw.between(0.0, 0.25)),
                ("engine.displacement", draw.between(0.0008, 0.004)),
                ("gas_making.char_conductivity", draw.between(0.8, 3.0)),
                ("hearth_layers.1.thickness", draw.between(0.02, 0.12)),
                ("site.altitude", draw.between(0.0, 2000.0)),
            ],
        );
        let load = share(draw.between(40.0, 100.0));
        let found = HeartModel::of(&design).solve(load).unwrap();
        // The engine's mixture is the gas with its air.
        let mixture = engine_of(&design)
            .unwrap()
            .normal_mixture(&intake_of(&design))
            .unwrap()
            * load;
        let made = found.gas_rate * (1.0 + stoichiometric_air(&found.gas.dry));
        assert!((made / mixture).value - 1.0 < 1e-9);
        // The loss in the gas balance is the shell's at the wall's own temperature.
        let wall = found.profile.wall;
        let hearth = ZoneShell::new(&design, Zone::Hearth)
            .unwrap()
            .loss(wall)
            .unwrap();
        let zones = HeartModel::of(&design).zone_losses(wall);
        let whole: f64 = zones.iter().map(|(_, loss)| loss.value).sum();
        assert!((zones[0].1 / hearth).value - 1.0 < 1e-9);
        let balance = found.gas.loss_share.value * found.fuel_power.value;
        assert!((balance / whole - 1.0).abs() < 1e-4, "{balance} {whole}");
    }
}

#[test]
fn the_throat_of_each_published_hearth() {
    // Sized at 0.9 Nm³/h per cm², the throat is within 12 % of the table's at the table's largest flow; the velocity
    // with the tool's own ratio of gas to air within 12 % of the table's.
    for row in FAMILIES.iter().flatten() {
        let design = choose(Design::default(), "operation.flow_source", "entered");
        let design = with(
            design,
            &[
                ("site.air_temperature", 273.15),
                ("operation.full_gas_flow", row.gas_most / 3600.0),
                ("hearth.throat_diameter", row.throat / 1000.0),
                ("hearth.nozzle_count", f64::from(row.nozzle_count)),
                ("hearth.nozzle_bore", row.nozzle_bore / 1000.0),
            ],
        );
        let assessment = assess(&design);
        assert_eq!(assessment.heart.at.full.supply.basis, Basis::Solved);
        assert!(assessment.finding("engine.power").is_none());
        let hearth = assessment.hearth;
        let sized = hearth.sized_bore.unwrap().get::<millimeter>();
        assert!((sized / row.throat - 1.0).abs() < 0.12, "{sized} {row:?}");
        let velocity = hearth.constricted.unwrap().nozzles.full.velocity.value;
        assert!(
            (velocity / row.blast_velocity - 1.0).abs() < 0.12,
            "{velocity} {row:?}"
        );
    }
}

#[test]
fn both_rules_for_the_air_can_be_chosen() {
    let design = example::as_improved();
    let limited = HeartModel::of(&design).solve(share(100.0)).unwrap();
    let ratio = limited.gas.equivalence_ratio.value;
    let held = with(
        choose(design, "gas_making.air_rule", "air_held"),
        &[("gas_making.equivalence_ratio", ratio)],
    );
    let held = HeartModel::of(&held).solve(share(100.0)).unwrap();
    let exit = held.gas.exit_temperature.get::<degree_celsius>();
    assert!((exit - 800.0).abs() < 0.5, "{exit}");
}

#[test]
fn engine_and_hearth_suit_each_other_both_ways() {
    let design = example::as_improved();
    let on_gas = assess(&design).engine.on_gas.unwrap().unwrap();
    let mut larger = design.clone();
    larger.engine.displacement = on_gas.for_hearth().unwrap().displacement;
    let load = assess(&larger).hearth.load.full.value;
    assert!((load / larger.limits.hearth_load_most - 1.0).abs() < 1e-5);
    let mut narrower = design.clone();
    narrower.hearth.throat_diameter = on_gas.throat_for_engine;
    let load = assess(&narrower).hearth.load.full.value;
    assert!((load / design.limits.hearth_load_most - 1.0).abs() < 1e-9);
    let mut stronger = design;
    stronger.engine.wanted_power *= 1.4;
    stronger.engine.displacement = assess(&stronger)
        .engine
        .on_gas
        .unwrap()
        .unwrap()
        .for_power()
        .unwrap()
        .displacement;
    let run = assess(&stronger).engine.on_gas.unwrap().unwrap().runs.full;
    assert!(((run.shaft_power / stronger.engine.wanted_power).value - 1.0).abs() < 1e-5);
}

/// The displacement, L, from which on a question about this design is answered otherwise.
fn turns_at(design: &Design, is_larger: impl Fn(&Assessment) -> bool) -> f64 {
    let (mut small, mut large) = (0.5, 8.0);
    for _ in 0..40 {
        let middle: f64 = 0.5 * (small + large);
        let tried = with(design.clone(), &[("engine.displacement", 1e-3 * middle)]);
        if is_larger(&assess(&tried)) {
            large = middle;
        } else {
            small = middle;
        }
    }
    large
}

fn with_displacement(design: &Design, told: &str, system: System) -> Assessment {
    let displacement = Quantity::Displacement.read(told, system).unwrap();
    assess(&with(
        design.clone(),
        &[("engine.displacement", displacement)],
    ))
}

/// Whatever engine was entered before, the same one is told for a hearth and for a power, and who enters it as told has it.
#[test]
fn the_engine_told_is_the_one_that_does_it() {
    for design in [example::as_improved(), example::as_first_drawn()] {
        let design = with(design, &[("engine.wanted_power", 9_000.0)]);
        let most = design.limits.hearth_load_most;
        let for_hearth = turns_at(&design, |found| found.hearth.load.full.value > most);
        let for_power = turns_at(&design, |found| {
            let run = &found.engine.on_gas.as_ref().unwrap().as_ref().unwrap().runs;
            run.full.shaft_power >= design.engine.wanted_power
        });
        for entered in [1.0, 1.41, 1.7] {
            let here = with(design.clone(), &[("engine.displacement", 1e-3 * entered)]);
            let assessment = assess(&here);
            if !assessment.heart.at.full.makes_gas() {
                continue;
            }
            let on_gas = assessment.engine.on_gas.as_ref().unwrap().as_ref().unwrap();
            let litres = |size: Option<OtherSize>| 1e3 * size.unwrap().displacement.value;
            let [hearth, power] = [on_gas.for_hearth(), on_gas.for_power()].map(litres);
            assert!(
                (hearth / for_hearth - 1.0).abs() < 1e-4,
                "{hearth} {for_hearth}"
            );
            assert!(
                (power / for_power - 1.0).abs() < 1e-4,
                "{power} {for_power}"
            );
            for system in [System::Metric, System::Inch] {
                let told = on_gas.told_for_hearth(system).unwrap();
                let largest = with_displacement(&here, &told, system);
                assert_eq!(
                    verdict(&largest, "hearth.load_full"),
                    Verdict::Good,
                    "{told}"
                );
                let told = on_gas.told_for_power(system).unwrap();
                let least = with_displacement(&here, &told, system);
                assert_eq!(verdict(&least, "engine.power"), Verdict::Good, "{told}");
                let finding = assessment.finding("engine.power").unwrap();
                if finding.verdict != Verdict::Good {
                    let words = finding.compared.text(system);
                    assert!(words.contains(&format!("of about {told},")), "{words}");
                }
            }
        }
    }
}

/// No engine is told for a power at which the hearth makes no gas.
#[test]
fn no_engine_is_told_that_leaves_the_hearth_cold() {
    let design = with(example::as_first_drawn(), &[("engine.wanted_power", 100.0)]);
    let assessment = assess(&design);
    assert!(assessment.heart.at.full.makes_gas());
    let on_gas = assessment.engine.on_gas.as_ref().unwrap().as_ref().unwrap();
    assert_eq!(on_gas.for_power(), None);
    assert_eq!(on_gas.told_for_power(System::Metric), None);
    let results = assessment.results();
    let named = |name: &str| results.iter().any(|result| result.name == name);
    assert!(!named("engine.displacement_for_power"));
    assert!(named("engine.displacement_for_hearth"));
}
