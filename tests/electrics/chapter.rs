//! Battery hours, knob, and the chapter as a whole.

use crate::mended::every_remedy_passes;
use hearthplan::design::inputs::{ElectricLoad, LoadTime, StageKind};
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value, example};
use hearthplan::review::{Chapter, Electrics, Verdict, assess};
use uom::si::f64::{Power, Ratio};
use uom::si::power::watt;
use uom::si::ratio::percent;

fn load(when: LoadTime, power: f64, duty: f64) -> ElectricLoad {
    ElectricLoad {
        when,
        power: Power::new::<watt>(power),
        duty: Ratio::new::<percent>(duty),
        ..ElectricLoad::default()
    }
}

#[test]
fn the_example_passes_and_the_first_sketch_does_not() {
    let verdicts = |design: &Design| -> Vec<_> {
        assess(design)
            .findings
            .into_iter()
            .filter(|finding| finding.chapter == Chapter::Electrics)
            .map(|finding| (finding.id, finding.verdict))
            .collect()
    };
    let improved = verdicts(&example::as_improved());
    assert_eq!(improved.len(), 7);
    assert!(
        improved
            .iter()
            .all(|(_, verdict)| *verdict == Verdict::Good),
        "{improved:?}"
    );
    let sketch = verdicts(&example::as_first_drawn());
    assert!(sketch.contains(&("electrics.box", Verdict::Stop)));
    assert!(
        sketch
            .iter()
            .any(|(id, verdict)| *id == "electrics.cables" && *verdict != Verdict::Good),
        "{sketch:?}"
    );
}

#[test]
fn each_load_counts_by_when_and_how_long_it_is_on() {
    let design = Design {
        loads: vec![
            load(LoadTime::Always, 10.0, 100.0),
            load(LoadTime::Lighting, 150.0, 20.0),
            load(LoadTime::Running, 60.0, 5.0),
        ],
        ..Design::default()
    };
    let electrics = assess(&design).electrics;
    let lighting = electrics.lighting.unwrap();
    let running = electrics.running.unwrap();
    assert!(((lighting.mean - lighting.blower).value - 40.0).abs() < 1e-9);
    assert!((running.mean.value - 13.0).abs() < 1e-9);
    assert_eq!(running.blower.value, 0.0);
    assert!(lighting.time < running.time);
}

#[test]
fn a_blower_that_helps_empties_the_battery_while_running() {
    let mut design = Design::default();
    design.blower.assists = true;
    let assessment = assess(&design);
    let blower = assessment.breath.blower.unwrap();
    let running = assessment.electrics.running.unwrap();
    assert_eq!(running.blower, blower.full_clean.unwrap().power.electric);
    assert!((running.mean - running.blower).value > 0.0);
}

#[test]
fn remedies_of_a_small_battery_pass() {
    let mut design = Design::default();
    design
        .set("battery.capacity", Value::Number(5.0 * 3600.0))
        .unwrap();
    every_remedy_passes(&design, "breath.battery", 1);
}

#[test]
fn a_battery_is_not_emptied_further_than_its_kind_bears() {
    let emptied = |chemistry: &str, share: f64| {
        let mut design = example::as_improved();
        let chemistry = Value::Choice(chemistry.to_string());
        design.set("battery_box.chemistry", chemistry).unwrap();
        (design.set("battery.usable_share", Value::Number(share))).unwrap();
        design
    };
    let answer = |chemistry, share| {
        let assessment = assess(&emptied(chemistry, share));
        let finding = assessment.finding("electrics.depth").unwrap();
        (finding.verdict, finding.margin.unwrap())
    };
    for (chemistry, share, wanted, margin) in [
        ("lead_acid", 0.5, Verdict::Good, 1.0 / 6.0),
        ("lead_acid", 0.75, Verdict::Watch, -0.25),
        ("lead_acid", 1.0, Verdict::Watch, -2.0 / 3.0),
        ("lithium", 0.8, Verdict::Good, 1.0 / 9.0),
        ("lithium", 1.0, Verdict::Watch, -1.0 / 9.0),
    ] {
        let (verdict, found) = answer(chemistry, share);
        assert_eq!(verdict, wanted, "{chemistry} {share}");
        assert!(
            (found - margin).abs() < 1e-9,
            "{chemistry} {share}: {found}"
        );
    }
    every_remedy_passes(&emptied("lead_acid", 0.75), "electrics.depth", 1);
}

#[test]
fn a_knob_that_does_not_reach_the_speed_is_told() {
    let mut design = Design::default();
    design.wiring.knob_end = Ratio::new::<percent>(50.0);
    let assessment = assess(&design);
    assert_eq!(
        assessment.finding("electrics.knob").unwrap().verdict,
        Verdict::Stop
    );
    every_remedy_passes(&design, "electrics.knob", 2);
    design.wiring.knob_end = Ratio::new::<percent>(15.0);
    let said = assess(&design)
        .finding("electrics.knob")
        .unwrap()
        .compared
        .text(System::Metric);
    assert!(said.contains("beyond full"), "{said}");
}

/// What is told beyond full knob does not pass, whatever speed was entered.
#[test]
fn a_flow_beyond_full_knob_is_watched() {
    let mut design = Design::default();
    let margin = |design: &Design| {
        let assessment = assess(design);
        let finding = assessment.finding("electrics.knob").unwrap();
        let told = finding.compared.text(System::Metric);
        let beyond = told.contains("beyond full");
        assert_eq!(finding.verdict == Verdict::Good, !beyond, "{told}");
        (finding.verdict, finding.margin.unwrap())
    };
    assert_eq!(margin(&design).0, Verdict::Good);
    // With three times the flow the 46 % that the knob stood at become more than all of it.
    design.engine.displacement *= 3.0;
    let (verdict, found) = margin(&design);
    assert_eq!(verdict, Verdict::Watch);
    let settings = assess(&design).electrics.knob.unwrap();
    let needed = settings[0].speed.unwrap().value;
    assert!(
        needed > 1.05 && (found - (1.0 - needed)).abs() < 1e-9,
        "{needed} {found}"
    );
}

/// The weaker the blower, the worse: where no speed of it is enough, nothing is Good.
#[test]
fn a_flow_that_no_speed_gives_is_watched() {
    for litres in [12.0, 18.8, 20.0] {
        let mut design = example::as_improved();
        let size = Value::Number(litres * 1e-3);
        design.set("engine.displacement", size).unwrap();
        let assessment = assess(&design);
        let finding = assessment.finding("electrics.knob").unwrap();
        assert_eq!(finding.verdict, Verdict::Watch, "{litres} L");
        assert!(finding.margin.is_none_or(|margin| margin < 0.0));
        // Nor is there anything for a gauge to show at a position that the knob has not.
        assert!(assessment.electrics.throttled.is_none());
        assert!(assessment.electrics.meter.is_none());
        let settings = assessment.electrics.knob.unwrap();
        assert_eq!(settings[0].speed.is_none(), litres > 15.0, "{litres} L");
    }
}

/// The current of a glow plug that is on for a part of the time is all of it or nothing.
#[test]
fn the_gauge_is_told_with_the_glow_plug_off_and_on() {
    let design = example::as_improved();
    let with_plug = |share: f64| {
        let mut design = design.clone();
        let share = Value::Number(share);
        design.set("loads.2.duty", share).unwrap();
        let drain = assess(&design).electrics.throttled.unwrap();
        drain.current.value
    };
    let meter = assess(&design).electrics.meter.unwrap();
    let (most, names) = meter.most.unwrap();
    assert!((meter.steady.value - with_plug(0.0)).abs() < 1e-9);
    assert!((most.value - with_plug(1.0)).abs() < 1e-9);
    assert_eq!(names, "Glow plug");
    let mut always = design.clone();
    (always.set("loads.2.duty", Value::Number(1.0))).unwrap();
    let meter = assess(&always).electrics.meter.unwrap();
    assert!(meter.most.is_none() && (meter.steady - most).value.abs() < 1e-9);
}

/// A battery gives less when it is cold or old.
#[test]
fn cold_and_age_take_from_the_battery() {
    let at = |celsius: f64, left: f64| {
        let mut design = example::as_improved();
        for (path, value) in [
            ("site.air_temperature", 273.15 + celsius),
            ("battery.left_with_age", left),
            // Slower than the label's time no charge is lost to speed.
            ("battery.peukert", 1.0),
        ] {
            design.set(path, Value::Number(value)).unwrap();
        }
        assess(&design)
    };
    let charge = |celsius, left| {
        let assessment = at(celsius, left);
        let running = assessment.electrics.running.unwrap();
        running.time.unwrap().value * running.mean.value
    };
    let new = charge(25.0, 1.0);
    for (celsius, left, wanted) in [
        (40.0, 1.0, 1.0),
        (0.0, 1.0, 0.75),
        (-30.0, 1.0, 0.45),
        (25.0, 0.8, 0.8),
        (-10.0, 0.8, 0.52),
    ] {
        let share = charge(celsius, left) / new;
        assert!((share - wanted).abs() < 1e-9, "{celsius} °C: {share}");
    }
    let told = |celsius| {
        let assessment = at(celsius, 0.8);
        let finding = assessment.finding("breath.battery").unwrap();
        (finding.verdict, finding.compared.text(System::Metric))
    };
    assert!(!told(5.0).1.contains("as cold as"));
    let (verdict, words) = told(-30.0);
    assert_ne!(verdict, Verdict::Good, "{words}");
    assert!(words.contains("it gives 45 % of its charge"), "{words}");
}

#[test]
fn the_knob_stands_where_its_line_says() {
    let design = Design::default();
    let assessment = assess(&design);
    for setting in assessment.electrics.knob.unwrap() {
        let (Some(speed), Some(position)) = (setting.speed, setting.position) else {
            continue;
        };
        let expected = 0.10 + 0.90 * speed.value / 1.0;
        assert!((position.value - expected).abs() < 1e-9, "{setting:?}");
    }
}

#[test]
fn a_blower_without_a_curve_leaves_the_loads_told() {
    let mut design = Design::default();
    design.blower_curve.clear();
    let electrics = assess(&design).electrics;
    assert!(electrics.lighting.is_err());
    assert!(electrics.wiring[0].run.is_err());
    assert!(electrics.wiring[1].run.is_ok());
    let sum = |electrics: &Electrics| {
        let results = electrics.results().into_iter();
        results
            .filter(|result| result.name == "electrics.current_all_on")
            .count()
    };
    assert_eq!(sum(&electrics), 0);
    assert_eq!(sum(&assess(&Design::default()).electrics), 1);
}

#[test]
fn a_train_without_a_blower_is_asked_nothing_of_one() {
    let mut design = example::as_improved();
    (design.train).retain(|stage| stage.kind != StageKind::Blower);
    design.blower_curve.clear();
    let assessment = assess(&design);
    let startup = assessment.finding("breath.startup").unwrap();
    assert_eq!(startup.verdict, Verdict::Stop);
    let words = startup.compared.text(System::Metric);
    assert!(
        words.starts_with("there is no blower in the gas train"),
        "{words}"
    );
    for id in ["breath.stall", "electrics.knob"] {
        assert!(assessment.finding(id).is_none(), "{id}");
    }
    for id in ["breath.battery", "electrics.cables", "electrics.fuses"] {
        let finding = assessment.finding(id).unwrap();
        let words = finding.compared.text(System::Metric);
        assert_eq!(finding.verdict, Verdict::Good, "{id}: {words}");
    }
    let electrics = &assessment.electrics;
    assert!(electrics.wiring.iter().all(|row| row.name != "Blower"));
    assert_eq!(electrics.wiring.len(), design.loads.len());
    assert_eq!(electrics.lighting.as_ref().unwrap().blower.value, 0.0);
    // With a curve a blower is what is missing.
    design.blower_curve = example::as_improved().blower_curve;
    every_remedy_passes(&design, "breath.startup", 1);
}

#[test]
fn a_battery_that_is_empty_before_the_hearth_is_hot_is_no_good_one() {
    let mut design = example::as_improved();
    let set = |design: &mut Design, path: &str, value: f64| {
        design.set(path, Value::Number(value)).unwrap();
    };
    set(&mut design, "limits.battery_time", 3600.0);
    let battery = |design: &Design| {
        let assessment = assess(design);
        let finding = assessment.finding("breath.battery").unwrap();
        (finding.verdict, finding.compared.text(System::Metric))
    };
    assert_eq!(battery(&design).0, Verdict::Good);
    let warm = assess(&design).warmth.warm_up.unwrap().time.value;
    set(&mut design, "operation.startup_share", 0.1);
    let longer = assess(&design).warmth.warm_up.unwrap().time.value;
    assert!(longer > warm);
    // Of which 20 °C leave 25 Ah.
    set(&mut design, "battery.capacity", 26.4 * 3600.0);
    let lasts = assess(&design)
        .electrics
        .lighting
        .unwrap()
        .time
        .unwrap()
        .value;
    assert!((3600.0..longer).contains(&lasts), "{lasts} {longer}");
    let (verdict, words) = battery(&design);
    assert_eq!(verdict, Verdict::Watch, "{words}");
    assert!(
        words.contains("takes") && words.contains("get hot"),
        "{words}"
    );
}

/// A fuse has one place, whoever tells of it.
#[test]
fn every_caution_puts_the_fuse_in_the_same_place() {
    let place = "Put each fuse close to the pole, in a sealed holder, outside the space where the battery's gas collects";
    for volts in [12.0, 48.0] {
        let mut design = example::as_improved();
        design.set("battery.voltage", Value::Number(volts)).unwrap();
        let assessment = assess(&design);
        for id in [
            "breath.battery",
            "electrics.cables",
            "electrics.fuses",
            "electrics.box",
        ] {
            let caution = assessment.finding(id).unwrap().caution.unwrap();
            let one = caution.to_lowercase();
            assert!(one.contains(&place.to_lowercase()), "{id}: {caution}");
            assert_eq!(one.matches("put each fuse").count(), 1, "{id}");
        }
        let sheets = hearthplan::paper::sheets::all(&design, &assessment, System::Metric, &[]);
        let wiring = sheets.iter().find(|sheet| sheet.name == "wiring").unwrap();
        let words = hearthplan::paper::html::blocks(wiring, System::Metric).to_lowercase();
        let each = words.matches("put each fuse").count();
        let one_place = place.to_lowercase().replace('\'', "&#39;");
        let there =
            words.matches(&place.to_lowercase()).count() + words.matches(&one_place).count();
        assert!(each > 2 && each == there, "{each} {there}: {words}");
    }
}

/// The usual blade fuses are made for 32 V, and a battery is charged at a fifth above its voltage.
#[test]
fn a_fuse_is_made_for_the_voltage_of_its_battery() {
    for (volts, charged) in [
        (12.0, None),
        (24.0, None),
        (36.0, Some("43.2 V")),
        (48.0, Some("57.6 V")),
    ] {
        let mut design = example::as_improved();
        design.set("battery.voltage", Value::Number(volts)).unwrap();
        let assessment = assess(&design);
        let finding = assessment.finding("electrics.fuses").unwrap();
        let told = finding.compared.text(System::Metric);
        assert_eq!(finding.verdict, Verdict::Good, "{told}");
        assert_eq!(
            told.contains("blade fuses are made for 32 V"),
            charged.is_some(),
            "{told}"
        );
        assert!(
            charged.is_none_or(|charged| told.contains(charged)),
            "{told}"
        );
        let caution = finding.caution.unwrap();
        assert_eq!(caution.contains("60 V DC"), charged.is_some(), "{caution}");
    }
}

#[test]
fn a_load_beyond_the_table_of_fuses_is_told_so() {
    let mut design = example::as_improved();
    design.battery.voltage =
        uom::si::f64::ElectricPotential::new::<uom::si::electric_potential::volt>(12.0);
    design.loads = vec![load(LoadTime::Running, 800.0, 100.0)];
    let of = |design: &Design| {
        let assessment = assess(design);
        let finding = assessment.finding("electrics.fuses").unwrap().clone();
        (finding.verdict, finding.compared.text(System::Metric))
    };
    let (verdict, told) = of(&design);
    assert_ne!(verdict, Verdict::Good);
    assert!(told.contains("the table of fuses ends at 80 A"), "{told}");
    every_remedy_passes(&design, "electrics.fuses", 0);
    design.battery.voltage *= 2.0;
    let (_, told) = of(&design);
    assert!(!told.contains("the table of fuses"), "{told}");
}
