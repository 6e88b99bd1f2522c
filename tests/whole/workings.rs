//! Whoever reads a working can do the sum again: every symbol on the right side of a formula has its value.

use crate::random_design::random_design;
use hearthplan::design::quantity::{Quantity, System};
use hearthplan::design::{Design, example};
use hearthplan::review::{Assessment, Finding, Step, assess};
use std::collections::BTreeSet;

const DESIGNS: u64 = if cfg!(target_family = "wasm") {
    50
} else {
    500
};

/// Constants of nature and of the standard state.
const CONSTANTS: [&str; 6] = ["π", "g", "σ", "e", "T₀", "p₀"];
const FUNCTIONS: [&str; 9] = ["ln", "atan", "cos", "sin", "tan", "min", "max", "dx", "Σ"];
const UNITS: [&str; 6] = ["K", "°C", "kPa", "mm", "MJ/kg", "kg/m³"];
const RELATIONS: [char; 5] = ['=', '≤', '≥', '<', '>'];
/// Marks that belong to the letters before them.
const MARKS: &str = "₀₁₂₃₄₅₆₇₈₉ᵢₐ'";

fn is_word(text: &str) -> bool {
    let letters = text.trim_matches([',', ';']);
    letters.len() > 1 && letters.chars().all(|sign| sign.is_ascii_lowercase())
}

/// Told in words: two of them stand side by side.
fn is_prose(formula: &str) -> bool {
    let pieces: Vec<&str> = formula.split(' ').collect();
    pieces
        .windows(2)
        .any(|pair| pair.iter().all(|piece| is_word(piece)))
}

/// The formula without units, which stand behind numbers.
fn without_units(formula: &str) -> String {
    let bare = |piece: &str| piece.trim_matches(['√', '(', ')', ',']).to_string();
    let mut behind_number = false;
    formula
        .split(' ')
        .map(|piece| {
            let unit = behind_number && UNITS.contains(&bare(piece).as_str());
            behind_number = bare(piece).parse::<f64>().is_ok();
            if unit { "" } else { piece }
        })
        .collect::<Vec<_>>()
        .join(" ")
}

/// Letters with the marks that follow them; no functions, and in prose no words.
fn symbols(text: &str, prose: bool) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    // A power is a symbol of its own.
    let text = text.replace('ⁿ', " n ");
    let mut rest = text.as_str();
    while let Some(start) = rest.find(|sign: char| sign.is_alphabetic() && !MARKS.contains(sign)) {
        rest = &rest[start..];
        let is_letter = |sign: char| sign.is_alphabetic() && !MARKS.contains(sign);
        let mut end = rest
            .find(|sign: char| !is_letter(sign))
            .unwrap_or(rest.len());
        if rest[end..].starts_with('_') {
            let name = &rest[end + 1..];
            end += 1 + name
                .find(|sign: char| !is_letter(sign))
                .unwrap_or(name.len());
        }
        let marks = &rest[end..];
        end += marks
            .find(|sign: char| !MARKS.contains(sign))
            .unwrap_or(marks.len());
        let (symbol, behind) = rest.split_at(end);
        rest = behind;
        let angle = ["cos", "sin", "tan"]
            .iter()
            .find_map(|function| symbol.strip_prefix(function))
            .filter(|angle| !angle.is_empty() && !angle.is_ascii());
        let symbol = angle.unwrap_or(symbol);
        let is_told = FUNCTIONS.contains(&symbol) || prose && is_word(symbol);
        if !is_told {
            found.insert(symbol.to_string());
        }
    }
    found
}

/// What stands on the left and on the right of each part of a formula.
fn sides(formula: &str) -> Vec<[BTreeSet<String>; 2]> {
    let prose = is_prose(formula);
    without_units(formula)
        .split([',', ';'])
        .map(|part| {
            let (left, right) = part.split_once(RELATIONS).unwrap_or(("", part));
            [left, right].map(|side| symbols(side, prose))
        })
        .collect()
}

/// Symbols of a step that have no value; what was found before is known.
fn without_value(step: &Step, before: &BTreeSet<String>) -> Vec<String> {
    let given: BTreeSet<String> = step
        .values
        .iter()
        .flat_map(|(symbol, _, _)| symbols(symbol, false))
        .collect();
    let parts = sides(step.formula);
    let known = |symbol: &String, part: usize| {
        let others = parts.iter().enumerate().filter(|(other, _)| *other != part);
        let has = |name: &str| before.contains(name) || given.contains(name);
        CONSTANTS.contains(&symbol.as_str())
            || has(symbol)
            || has(symbol.trim_end_matches('ᵢ'))
            || others
                .into_iter()
                .any(|(_, [left, _])| left.contains(symbol))
    };
    parts
        .iter()
        .enumerate()
        .flat_map(|(part, [_, right])| right.iter().map(move |symbol| (part, symbol)))
        .filter(|(part, symbol)| !known(symbol, *part))
        .map(|(_, symbol)| symbol.clone())
        .collect()
}

/// What is wrong with the working of a finding.
fn gaps(design: &Design, assessment: &Assessment, finding: &Finding) -> Vec<String> {
    let mut before = BTreeSet::new();
    let mut gaps = Vec::new();
    for step in &assessment.working(design, finding) {
        let missing = without_value(step, &before);
        if !missing.is_empty() || step.formula.is_empty() {
            gaps.push(format!(
                "{}: {} lacks {missing:?}",
                finding.id, step.formula
            ));
        }
        before.extend(sides(step.formula).into_iter().flat_map(|[left, _]| left));
    }
    gaps
}

fn gaps_of(design: &Design) -> BTreeSet<String> {
    let assessment = assess(design);
    (assessment.findings.iter())
        .flat_map(|finding| gaps(design, &assessment, finding))
        .collect()
}

#[test]
fn every_symbol_has_its_value() {
    let examples = [
        example::as_first_drawn(),
        example::as_improved(),
        example::to_start_from(),
    ];
    let random = (900_000..900_000 + DESIGNS).map(random_design);
    let gaps: BTreeSet<String> = examples
        .into_iter()
        .chain(random)
        .flat_map(|design| gaps_of(&design))
        .collect();
    assert!(gaps.is_empty(), "{gaps:#?}");
}

/// Two radii of a thin sheet, or two pressures, that look the same would give ln 1 = 0.
#[test]
fn values_that_differ_are_told_apart() {
    let mut compared = 0;
    for design in [example::as_first_drawn(), example::as_improved()] {
        let assessment = assess(&design);
        for finding in &assessment.findings {
            for step in &assessment.working(&design, finding) {
                for (place, (symbol, _, one)) in step.values.iter().enumerate() {
                    for (other_symbol, _, other) in &step.values[place + 1..] {
                        let apart = (one.si - other.si).abs();
                        let tells = apart > 0.001 * one.si.abs().max(other.si.abs());
                        let is_length = one.quantity == Quantity::Length && apart > 2e-5;
                        if one.quantity != other.quantity || !(tells || is_length) {
                            continue;
                        }
                        for system in [System::Metric, System::Inch] {
                            let [one, other] = [one, other].map(|value| step.shown(value, system));
                            assert_ne!(
                                one, other,
                                "{}: {symbol} and {other_symbol} of {}",
                                finding.id, step.formula
                            );
                            assert!(!one.contains('/') || !one.contains(" in"), "{one}");
                            compared += 1;
                        }
                    }
                }
            }
        }
    }
    assert!(compared > 500, "{compared}");
}

#[test]
fn a_formula_gets_the_units_that_stand_in_it() {
    let assessment = assess(&example::as_improved());
    let shown = |id: &str, part: &str, symbol: &str, system| {
        let finding = assessment.finding(id).unwrap();
        let step = (finding.working.iter())
            .find(|step| step.formula.contains(part))
            .unwrap();
        let (_, _, value) = (step.values.iter())
            .find(|(name, _, _)| *name == symbol)
            .unwrap();
        step.shown(value, system)
    };
    let hot = shown("electrics.box", "T₁⁴", "T₁", System::Inch);
    assert!(hot.contains("°F = ") && hot.ends_with(" K"), "{hot}");
    let cable = shown("electrics.cables", "70 °C", "T", System::Inch);
    assert!(cable.contains("°F = ") && cable.ends_with(" °C"), "{cable}");
    let metric = shown("electrics.cables", "70 °C", "T", System::Metric);
    assert!(metric.ends_with(" °C") && !metric.contains('='), "{metric}");
}

#[test]
fn symbols_are_told_from_words_functions_and_units() {
    let of = |formula: &str| {
        let sides = sides(formula).into_iter().flat_map(|[_, right]| right);
        sides.collect::<Vec<_>>().join(" ")
    };
    assert_eq!(of("Q = H₁ − T_a cosβ ln(r₂/r₁)"), "H₁ T_a r₁ r₂ β");
    assert_eq!(of("I = I₄₀ · √((70 °C − T) / 30 K)"), "I₄₀ T");
    assert_eq!(of("wood + air = gas at T_e + loss"), "T_e");
    assert_eq!(of("F = min(share × m g, most)"), "g m share most");
    assert_eq!(of("Δp = Σ K ρ v²/2 (Q/Q₁)ⁿ"), "K Q Q₁ n v ρ");
}

/// Who works in inches is told differences of temperature in degrees Fahrenheit too, and no gas by the kilogram.
#[test]
fn kelvins_stand_beside_degrees_fahrenheit() {
    let mut told = 0;
    for design in [example::as_improved(), example::as_first_drawn()] {
        let assessment = assess(&design);
        for step in
            (assessment.findings.iter()).flat_map(|finding| assessment.working(&design, finding))
        {
            for (place, _) in step.sure.match_indices(" K") {
                let behind = &step.sure[place + 2..];
                if behind.starts_with(char::is_alphabetic) {
                    continue;
                }
                told += 1;
                assert!(
                    behind.starts_with(" (") && behind.contains("°F)"),
                    "{}",
                    step.sure
                );
            }
        }
        let results = assessment.results();
        let gas = (results.iter()).filter(|result| result.name.ends_with("gas_per_wood"));
        for result in gas {
            assert!(
                result.measure.show(System::Inch).contains(" ft³/lb"),
                "{}",
                result.label
            );
            assert!(!result.label.contains("kilogram"), "{}", result.label);
        }
    }
    assert!(told > 2, "{told}");
}
