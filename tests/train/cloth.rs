//! Cloth filters and the drums they hang in: the heat that goes through the drum, and dust that is taken out earlier.

use hearthplan::design::inputs::{FilterMedium, StageKind};
use hearthplan::design::{Design, Value, example, quantity::System};
use hearthplan::review::{Lever, Remedy, Verdict, assess, remedies};

fn set(design: &mut Design, path: &str, value: f64) {
    design.set(path, Value::Number(value)).unwrap();
}

/// The place of the only filter in the design below.
const FILTER: usize = 2;

/// The example with a cloth of half a square metre right behind the cyclone, in hot gas far above its dew point, that is
/// left until a kilogram of dust is on it.
fn hot_cloth() -> Design {
    let mut design = example::as_improved();
    let filter = design.train.remove(4);
    design.train.insert(FILTER, filter);
    design.choose("train.2.medium", "cloth").unwrap();
    set(&mut design, "train.2.cloth_area", 0.5);
    set(&mut design, "train.2.medium_limit", 673.15);
    set(&mut design, "train.2.dust_capacity", 1.0);
    design
}

/// How far the gas falls towards the air in a stage at the usual load: heat let through over the heat capacity of the gas.
fn fall(design: &Design, place: usize) -> f64 {
    let usual = assess(design).train.usual.unwrap();
    let air = design.site.air_temperature.value;
    let above = |point: usize| usual.points[point].temperature.value - air;
    (above(place) / above(place + 1)).ln()
}

#[test]
fn heat_goes_through_the_drum_that_is_entered_and_not_through_the_cloth() {
    let with = |area: f64, diameter: f64, height: f64| {
        let mut design = hot_cloth();
        set(&mut design, "train.2.cloth_area", area);
        set(&mut design, "train.2.vessel_diameter", diameter);
        set(&mut design, "train.2.vessel_height", height);
        fall(&design, FILTER)
    };
    let small = with(0.5, 0.16, 0.3);
    for area in [0.2, 2.0, 5.0] {
        let same = with(area, 0.16, 0.3);
        assert!((same / small - 1.0).abs() < 0.01, "{area}: {same} {small}");
    }
    // Shell and two ends of the drum outside, with 1.5 mm of sheet.
    let outside = |inside: f64, height: f64| {
        let diameter = inside + 0.003;
        diameter * height + 0.5 * diameter * diameter
    };
    for (diameter, height) in [(0.3, 0.9), (0.5, 1.2)] {
        let wanted = outside(diameter, height) / outside(0.16, 0.3);
        let found = with(0.5, diameter, height) / small;
        // Hot gas holds a little more heat for each kelvin.
        assert!((found / wanted - 1.0).abs() < 0.05, "{found} {wanted}");
    }
}

#[test]
fn a_trap_and_a_packed_bed_give_off_heat_by_their_drums_too() {
    let changed = |path: &str, value: f64, place: usize| {
        let mut design = example::as_improved();
        set(&mut design, path, value);
        fall(&design, place)
    };
    let design = example::as_improved();
    let [trap, bed] = [StageKind::Trap, StageKind::Filter].map(|kind| {
        let mut stages = design.train.iter();
        stages.position(|stage| stage.kind == kind).unwrap()
    });
    let of = |place: usize, name: &str, value: f64| {
        changed(&format!("train.{place}.{name}"), value, place)
    };
    let now = fall(&design, trap);
    // More water held in the same drum cools no more.
    assert!((of(trap, "capacity", 0.02) / now - 1.0).abs() < 1e-9);
    assert!(of(trap, "vessel_height", 0.6) > 1.3 * now);
    assert!(of(bed, "filter_depth", 0.8) > 1.3 * fall(&design, bed));
}

#[test]
fn larger_cloth_does_not_wet_itself() {
    let above = |area: f64| {
        let mut design = hot_cloth();
        set(&mut design, "train.2.cloth_area", area);
        assess(&design).finding("train.filter_wet").unwrap().clone()
    };
    for area in [0.5, 2.0, 5.0] {
        let finding = above(area);
        assert_eq!(finding.verdict, Verdict::Good, "{area}");
        // The drum stands in the working, with its area.
        let drum = &finding.working[0];
        let size = |at: usize| drum.values[at].2.si;
        let (diameter, height) = (size(0), size(1));
        let wanted = std::f64::consts::PI * diameter * (height + 0.5 * diameter);
        assert!((drum.result.si - wanted).abs() < 1e-9);
    }
}

#[test]
fn gas_colder_than_its_dew_point_is_told_to_be_below_it() {
    let mut design = example::as_improved();
    design.choose("train.4.medium", "cloth").unwrap();
    let finding = assess(&design).finding("train.filter_wet").unwrap().clone();
    let told = finding.compared.text(System::Metric);
    assert_eq!(finding.verdict, Verdict::Stop);
    assert!(told.contains(" below the dew point"), "{told}");
    assert!(!told.contains('−') && !told.contains('-'), "{told}");
    let dry = assess(&hot_cloth())
        .finding("train.filter_wet")
        .unwrap()
        .clone();
    let told = dry.compared.text(System::Metric);
    assert!(told.contains(" above the dew point"), "{told}");
}

/// The remedy that has a cloth changed earlier, where one is offered.
fn earlier(design: &Design, id: &str) -> Option<Remedy> {
    let due = Lever::input("train.2.dust_capacity");
    let found = remedies(design, id).into_iter();
    found
        .filter(|one| one.change.is_some())
        .find(|one| one.lever == due)
}

#[test]
fn dirty_cloth_may_be_changed_earlier() {
    let design = hot_cloth();
    let dirty = assess(&design);
    let due = Lever::input("train.2.dust_capacity");
    for id in [
        "breath.startup",
        "breath.stall",
        "breath.suction",
        "train.engine_power",
    ] {
        let finding = dirty.finding(id).unwrap();
        assert_eq!(finding.verdict, Verdict::Stop, "{id}");
        assert!(finding.levers.contains(&due), "{id}: {:?}", finding.levers);
    }
    for id in ["breath.startup", "train.engine_power"] {
        let remedy = earlier(&design, id).unwrap();
        assert_eq!(remedy.comes_to(&design), Some("change or clean it earlier"));
        let after = assess(&remedy.change.as_ref().unwrap().apply(&design).unwrap());
        assert_eq!(after.finding(id).unwrap().verdict, Verdict::Good, "{id}");
        let interval = after.finding("train.filter_interval").unwrap();
        assert_eq!(interval.verdict, Verdict::Good);
    }
}

#[test]
fn a_change_too_early_is_told() {
    let mut design = hot_cloth();
    set(&mut design, "limits.filter_time", 100.0 * 3600.0);
    let interval = |design: &Design| {
        assess(design)
            .finding("train.filter_interval")
            .unwrap()
            .verdict
    };
    assert_eq!(interval(&design), Verdict::Good);
    let remedy = earlier(&design, "train.engine_power").unwrap();
    let told = remedy
        .worsens
        .iter()
        .any(|(id, _, _)| *id == "train.filter_interval");
    assert!(told, "{:?}", remedy.worsens);
    // To hold more dust is no change that comes earlier.
    set(&mut design, "train.2.dust_capacity", 0.01);
    set(&mut design, "limits.filter_time", 4.0 * 3600.0);
    let more = earlier(&design, "train.filter_interval").unwrap();
    assert_eq!(more.comes_to(&design), None);
}

/// A bed so fine that it loses much once it is dirty.
fn dirty_bed() -> Design {
    let mut design = example::as_improved();
    set(&mut design, "train.4.dirty_factor", 12.0);
    set(&mut design, "train.4.filter_piece", 0.004);
    set(&mut design, "train.4.filter_depth", 0.5);
    design
}

#[test]
fn a_dirty_bed_may_be_changed_earlier_with_less_dust_in_it() {
    let design = dirty_bed();
    let due = Lever::input("train.4.dirty_factor");
    let mut mended = 0;
    for id in ["breath.suction", "train.engine_power", "breath.startup"] {
        let finding = assess(&design).finding(id).unwrap().clone();
        if finding.verdict == Verdict::Good {
            continue;
        }
        assert!(finding.levers.contains(&due), "{id}: {:?}", finding.levers);
        let found = remedies(&design, id).into_iter();
        for remedy in found.filter(|one| one.lever == due && one.change.is_some()) {
            let Some(Value::Number(factor)) = remedy.value else {
                panic!("{remedy:?}");
            };
            let told = remedy.comes_to(&design).unwrap();
            assert!(
                told.contains("earlier") && told.contains("less dust"),
                "{told}"
            );
            let after = remedy.change.as_ref().unwrap().apply(&design).unwrap();
            // What the dust adds to the clean bed grows as the dust.
            let (now, then) = (&design.train[4], &after.train[4]);
            let wanted = now.dust_capacity.value * (factor - 1.0) / (12.0 - 1.0);
            let dust = then.dust_capacity.value;
            assert!((0.0..0.001).contains(&(wanted - dust)), "{dust} {wanted}");
            let of = |design: &Design, id: &str| assess(design).finding(id).unwrap().clone();
            assert_eq!(of(&after, id).verdict, Verdict::Good, "{id}");
            let interval =
                |design: &Design| of(design, "train.filter_interval").working[0].result.si;
            let shorter = interval(&after) / interval(&design);
            assert!((shorter / (dust / now.dust_capacity.value) - 1.0).abs() < 1e-6);
            mended += 1;
        }
    }
    assert!(mended > 0);
}

#[test]
fn a_bed_that_is_due_too_soon_may_get_dirtier() {
    let mut design = example::as_improved();
    let hours = assess(&design)
        .finding("train.filter_interval")
        .unwrap()
        .working[0]
        .result
        .si;
    set(&mut design, "limits.filter_time", 1.3 * hours);
    let due = Lever::input("train.4.dirty_factor");
    let found = remedies(&design, "train.filter_interval");
    let remedy = found.iter().find(|one| one.lever == due).unwrap();
    let told = remedy.comes_to(&design).unwrap();
    assert!(
        told.contains("later") && told.contains("more dust"),
        "{told}"
    );
    let after = remedy.change.as_ref().unwrap().apply(&design).unwrap();
    let loss = |design: &Design| assess(design).breath.engine_vacuum.unwrap();
    assert!(loss(&after) > loss(&design));
}

#[test]
fn a_drum_holds_so_much_cloth() {
    let answer = |area: f64, diameter: f64, height: f64| {
        let mut design = hot_cloth();
        set(&mut design, "train.2.cloth_area", area);
        set(&mut design, "train.2.vessel_diameter", diameter);
        set(&mut design, "train.2.vessel_height", height);
        assess(&design)
            .finding("train.filter_drum")
            .unwrap()
            .clone()
    };
    // 0.4 m wide and 1 m high: 0.8 m of it filled, cloth every 25 mm, folds at the closest 3 mm apart.
    let most = 0.25 * std::f64::consts::PI * 0.4 * 0.4 * 0.8 / 0.025;
    for (area, verdict) in [
        (0.99 * most, Verdict::Good),
        (1.01 * most, Verdict::Watch),
        (8.3 * most, Verdict::Watch),
        (8.4 * most, Verdict::Stop),
    ] {
        let finding = answer(area, 0.4, 1.0);
        assert_eq!(finding.verdict, verdict, "{area}");
        let told = finding.working.last().unwrap().result.si;
        assert!((told / most - 1.0).abs() < 1e-9, "{told} {most}");
    }
    // A drum wider than it is high still has half of its height.
    let flat = answer(0.5, 1.0, 0.4);
    assert!((flat.working[0].result.si - 0.2).abs() < 1e-9);
    // The drum of a packed bed follows from the bed.
    let packed = assess(&example::as_improved());
    assert!(packed.finding("train.filter_drum").is_none());
}

#[test]
fn a_packed_bed_is_not_offered_it() {
    let mut design = hot_cloth();
    design.train[FILTER].medium = FilterMedium::Packed;
    let due = Lever::input("train.2.dust_capacity");
    let assessment = assess(&design);
    for id in ["breath.startup", "breath.suction", "train.engine_power"] {
        let levers = &assessment.finding(id).unwrap().levers;
        assert!(!levers.contains(&due), "{id}: {levers:?}");
    }
}

#[test]
fn a_bed_that_is_changed_for_cloth_is_stopped_by_nothing_but_water() {
    let mut design = example::as_improved();
    design.choose("train.4.medium", "cloth").unwrap();
    let stops: Vec<_> = (assess(&design).findings.iter())
        .filter(|finding| finding.verdict == Verdict::Stop)
        .map(|finding| finding.id)
        .collect();
    assert_eq!(stops, ["train.filter_wet"]);
}
