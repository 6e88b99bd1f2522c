//! Cautions on paper, where the number stands that they are about.

use hearthplan::design::inputs::{Strokes, TrainStage};
use hearthplan::design::phrase::Slot;
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value, example};
use hearthplan::paper::html;
use hearthplan::paper::sheet::{Block, Sheet};
use hearthplan::paper::sheets::all;
use hearthplan::review::{Assessment, TableRow, assess, worst_first};

fn made(design: &Design) -> (Assessment, Vec<Sheet>) {
    let assessment = assess(design);
    let sheets = all(design, &assessment, System::Metric, &[]);
    (assessment, sheets)
}

fn named<'a>(sheets: &'a [Sheet], name: &str) -> &'a Sheet {
    sheets.iter().find(|sheet| sheet.name == name).unwrap()
}

fn page(sheets: &[Sheet], name: &str) -> String {
    html::blocks(named(sheets, name), System::Metric)
}

fn rows<'a>(sheets: &'a [Sheet], name: &str) -> &'a [TableRow] {
    let mut tables = sheets.iter().flat_map(Sheet::tables);
    &tables.find(|(of, ..)| *of == name).unwrap().2.rows
}

/// Whoever holds the summary alone has each caution of the review once, whether its question passes or not.
#[test]
fn the_summary_has_every_caution_of_the_review_once() {
    let mut two_stroke = example::as_improved();
    two_stroke.engine.strokes = Strokes::Two;
    for design in [
        example::as_first_drawn(),
        example::as_improved(),
        two_stroke,
    ] {
        let (assessment, sheets) = made(&design);
        let summary = page(&sheets, "summary");
        let mut told = 0;
        for finding in &assessment.findings {
            let Some(caution) = finding.caution else {
                continue;
            };
            let caution = format!("<p class=\"caution\">{}</p>", html::escaped(caution));
            assert_eq!(summary.matches(&caution).count(), 1, "{}", finding.id);
            told += 1;
        }
        assert!(told > 30, "{told}");
    }
}

/// Below the main numbers stands what kills at power, filling and tipping; what passes has its cautions by chapters.
#[test]
fn cautions_stand_below_the_numbers_they_are_about() {
    let (assessment, sheets) = made(&example::as_improved());
    let blocks = &named(&sheets, "summary").blocks;
    let below = |table: &str| -> Vec<&str> {
        let is_it = |block: &Block| matches!(block, Block::Table { name, .. } if name == table);
        let at = blocks.iter().position(is_it).unwrap();
        let cautions = blocks[at + 1..].iter().map_while(|block| match block {
            Block::Caution(words) => Some(words.as_str()),
            _ => None,
        });
        cautions.collect()
    };
    let caution = |id: &str| assessment.finding(id).unwrap().caution.unwrap();
    for id in ["engine.power", "engine.refuel", "standing.tip_full"] {
        assert!(below("numbers").contains(&caution(id)), "{id}");
    }
    assert!(below("passing-train").contains(&caution("train.oxygen")));
    assert!(below("passing-hearth").contains(&caution("hearth.ash_room")));
    assert!(below("passing-electrics").contains(&caution("electrics.cables")));
}

/// A question has its name in a line of its own, with the mark of its verdict, and what is more than one word no caution.
#[test]
fn a_question_that_does_not_pass_is_set_apart() {
    let (assessment, sheets) = made(&example::as_first_drawn());
    let summary = page(&sheets, "summary");
    let mut stops = 0;
    for finding in &assessment.findings {
        let class = html::class(finding.verdict);
        let title = html::escaped(finding.title);
        let head = format!("{}{title}</h4><p>", html::mark(finding.verdict));
        let good = finding.verdict == hearthplan::review::Verdict::Good;
        assert_eq!(summary.contains(&head), !good, "{}", finding.id);
        stops += usize::from(class == "stop");
    }
    assert_eq!(summary.matches("<h4 class=\"stop\">").count(), stops);
    // Whoever holds the first page alone has their names, what does most harm first.
    let worst = worst_first(&assessment.findings);
    let names = format!("Stop: {}; {}", worst[0].title, worst[1].title);
    let names = summary.find(&names).unwrap();
    assert!(names < summary.find("<table").unwrap());
    let (_, sheets) = made(&example::as_improved());
    assert!(!page(&sheets, "summary").contains("Do not build it like this"));
}

#[test]
fn power_of_a_generator_has_the_caution_of_mains() {
    let mains = "changeover switch, earthed, by a licensed electrician";
    for strokes in [Strokes::Four, Strokes::Two] {
        let mut design = example::as_improved();
        design.engine.strokes = strokes;
        let (assessment, sheets) = made(&design);
        for id in ["engine.power", "train.engine_power"] {
            let caution = assessment.finding(id).unwrap().caution.unwrap();
            assert!(
                caution.contains(mains) && caution.contains("closed room"),
                "{caution}"
            );
        }
        assert_eq!(page(&sheets, "wiring").matches(mains).count(), 1);
        assert_eq!(page(&sheets, "summary").matches(mains).count(), 1);
    }
}

#[test]
fn condensate_is_handed_in_wherever_its_numbers_stand() {
    let (assessment, sheets) = made(&example::as_improved());
    let waste = "hand it in as hazardous waste under your local rules";
    for id in ["train.trap_time", "train.loose_water", "train.filter_wet"] {
        let caution = assessment.finding(id).unwrap().caution.unwrap();
        assert!(caution.contains(waste), "{id}: {caution}");
    }
    for name in ["gas-train", "lighting"] {
        assert_eq!(page(&sheets, name).matches(waste).count(), 1, "{name}");
    }
}

#[test]
fn a_filling_is_told_with_how_the_next_goes_in() {
    let design = example::as_improved();
    let (assessment, sheets) = made(&design);
    let lighting = page(&sheets, "lighting");
    let results = assessment.results();
    let lasts = results.iter().find(|one| one.name == "engine.lasts");
    let lasts = lasts.unwrap().measure.show(System::Metric);
    let refuel = assessment
        .finding("engine.refuel")
        .unwrap()
        .caution
        .unwrap();
    for words in [
        format!("One filling lasts {lasts}"),
        "Never lean over it".to_string(),
        "carbon monoxide alarm worn, no other flame".to_string(),
        "open the hopper lid only once the machine is cold and aired".to_string(),
        html::escaped(refuel),
    ] {
        assert!(lighting.contains(&words), "{words}: {lighting}");
    }
    // Without a hopper the vessel has a lid all the same.
    let mut bare = design;
    bare.hopper.fitted = false;
    let (_, sheets) = made(&bare);
    let lighting = page(&sheets, "lighting");
    assert!(lighting.contains("open the lid only once") && !lighting.contains("hopper lid"));
}

/// What a run leaves in the train freezes where it stands.
#[test]
fn in_frost_what_holds_water_is_drained_after_each_run() {
    let mut design = example::as_improved();
    let after_each_run = |design: &Design| {
        let (assessment, sheets) = made(design);
        let frost: Vec<String> = (rows(&sheets, "upkeep").iter())
            .filter(|row| row.cells[2].text(System::Metric) == "after each run")
            .map(|row| row.cells[0].text(System::Metric))
            .collect();
        let ordered =
            page(&sheets, "lighting").contains("In frost drain traps, cans and low bends");
        let told = assessment.finding("train.ice").map(|finding| {
            assert!(finding.caution.is_some());
            finding.compared.text(System::Metric)
        });
        (frost, ordered, told)
    };
    assert_eq!(after_each_run(&design), (Vec::new(), false, None));
    (design.set("site.air_temperature", Value::Number(263.15))).unwrap();
    let (frost, ordered, told) = after_each_run(&design);
    assert!(ordered && !frost.is_empty());
    let told = told.unwrap();
    assert!(told.contains("drain that after each run"), "{told}");
    for name in &frost {
        let plain = name.split_once(' ').map_or(name.as_str(), |(_, name)| name);
        assert!(
            told.to_lowercase().contains(&plain.to_lowercase()),
            "{name}: {told}"
        );
    }
}

/// What fills soonest is on the list: the ash, and the dust of the cyclone by the hour.
#[test]
fn ash_and_dust_are_among_what_is_due() {
    let design = example::as_improved();
    let (assessment, sheets) = made(&design);
    let measure = |slot: &Slot| match slot {
        Slot::Measure(measure) => measure.si,
        other => panic!("{other:?}"),
    };
    let usual = assessment.finding("hearth.ash_room").unwrap();
    let usual = usual.working[1].result.si;
    let fuel = |at: &hearthplan::review::HeartAt| at.supply.fuel_rate.value;
    let at = &assessment.heart.at;
    let full = usual * fuel(&at.usual) / fuel(&at.full);
    // The room was empty when the fire was lit: warming up leaves ash in it, as a run at a share of full load does.
    let warm = assessment.warmth.warm_up.as_ref().unwrap().time.value;
    let left = full - design.operation.startup_share.value * warm;
    assert!(left < 0.7 * full);
    for name in ["maintenance", "upkeep"] {
        let rows = rows(&sheets, name);
        let ash = &rows[0].cells;
        let what = ash[1].text(System::Metric);
        assert!(
            what.contains("counts from when it is warm") && what.contains("ash"),
            "{name}: {what}"
        );
        assert!((measure(&ash[2]) / left - 1.0).abs() < 1e-9, "{name}");
        assert_eq!(ash[3].text(System::Metric), "full load");
        let dust = rows.iter().filter(|row| {
            let what = row.cells[1].text(System::Metric);
            what.contains("dust box") && what.contains("/h of dust")
        });
        assert_eq!(dust.count(), 1, "{name}");
    }
    for name in ["gas-train", "lighting"] {
        let page = page(&sheets, name);
        for id in ["hearth.ash_room", "train.cyclone"] {
            let caution = assessment.finding(id).unwrap().caution.unwrap();
            assert_eq!(page.matches(&html::escaped(caution)).count(), 1, "{id}");
        }
    }
    // No cyclone, no dust of one.
    let mut without = design;
    let is_none = |stage: &TrainStage| stage.kind != hearthplan::design::inputs::StageKind::Cyclone;
    without.train.retain(is_none);
    let (_, sheets) = made(&without);
    assert!(!page(&sheets, "lighting").contains("dust box"));
}
