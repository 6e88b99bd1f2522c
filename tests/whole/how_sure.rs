//! Sampling of the review: draws, ranks and the whole against what can be known beforehand.

use crate::random_design::random_design;
use hearthplan::design::quantity::Quantity;
use hearthplan::design::{Design, Value, example, link};
use hearthplan::review::sampling::{
    Draws, Generator, Sampling, chance, quantile, rank_correlation, triangular,
};
use hearthplan::review::{Verdict, assess};

const CASES: usize = if cfg!(target_family = "wasm") {
    60
} else {
    400
};

/// A sampling run to its end in slices of this size.
fn run(design: &Design, seed: u64, cases: usize, slice: usize) -> Sampling {
    let mut sampling = Sampling::new(design, seed, cases);
    while sampling.progress().done < sampling.progress().wanted {
        sampling.run(slice);
    }
    sampling
}

#[test]
fn every_stratum_of_every_input_is_drawn_from_once() {
    let draws = Draws::new(3, 250, ["one", "other"]);
    for input in 0..2 {
        let mut strata: Vec<_> = (0..250)
            .map(|case| (draws.share(case, input) * 250.0) as usize)
            .collect();
        strata.sort_unstable();
        assert!(strata.into_iter().eq(0..250));
    }
}

#[test]
fn an_input_keeps_its_draws_when_others_come() {
    let few = Draws::new(9, 50, ["throat"]);
    let more = Draws::new(9, 50, ["moisture", "throat"]);
    assert!((0..50).all(|case| few.share(case, 0) == more.share(case, 1)));
    let otherwise = Draws::new(10, 50, ["throat"]);
    assert!((0..50).any(|case| few.share(case, 0) != otherwise.share(case, 0)));
}

/// Mean, variance and quantiles of a triangular distribution are known in closed form.
#[test]
fn triangular_draws_have_the_known_mean_variance_and_quantiles() {
    let (low, peak, high) = (1.0, 2.0, 5.0);
    let cases = 4_000;
    let draws = Draws::new(1, cases, ["x"]);
    let mut drawn: Vec<f64> = (0..cases)
        .map(|case| triangular(draws.share(case, 0), low, peak, high))
        .collect();
    drawn.sort_by(f64::total_cmp);
    let mean = drawn.iter().sum::<f64>() / cases as f64;
    let variance = drawn.iter().map(|x| (x - mean).powi(2)).sum::<f64>() / cases as f64;
    assert!((mean - (low + peak + high) / 3.0).abs() < 1e-3, "{mean}");
    let known =
        (low * low + peak * peak + high * high - low * peak - low * high - peak * high) / 18.0;
    assert!((variance - known).abs() < 2e-3, "{variance} {known}");
    // Below the peak F(x) = (x − a)² / ((b − a)(c − a)), above it 1 − (b − x)² / ((b − a)(b − c)).
    let tenth = low + (0.1 * (high - low) * (peak - low)).sqrt();
    let nine_tenths = high - (0.1 * (high - low) * (high - peak)).sqrt();
    assert!((quantile(&drawn, 0.1).unwrap() - tenth).abs() < 2e-3);
    assert!((quantile(&drawn, 0.9).unwrap() - nine_tenths).abs() < 2e-3);
}

/// y = 3 a + 4 b with a and b even from 0 to 1: the density is a trapezium, so its quantiles are known; the
/// linear correlations are 3/5 and 4/5, and the rank correlations lie near them.
#[test]
fn a_linear_model_has_its_known_quantiles_and_correlations() {
    let cases = 20_000;
    let draws = Draws::new(5, cases, ["a", "b", "nothing"]);
    let of = |input| (0..cases).map(move |case| (case, input));
    let column = |input| {
        of(input)
            .map(|(case, input)| draws.share(case, input))
            .collect::<Vec<_>>()
    };
    let (a, b, nothing) = (column(0), column(1), column(2));
    let y: Vec<f64> = a.iter().zip(&b).map(|(a, b)| 3.0 * a + 4.0 * b).collect();
    let mut rising = y.clone();
    rising.sort_by(f64::total_cmp);
    // For y ≤ 3, F(y) = y² / 24.
    assert!((quantile(&rising, 0.1).unwrap() - 2.4_f64.sqrt()).abs() < 0.05);
    assert!((quantile(&rising, 0.5).unwrap() - 3.5).abs() < 0.03);
    assert!((quantile(&rising, 0.9).unwrap() - (7.0 - 2.4_f64.sqrt())).abs() < 0.05);
    assert!((rank_correlation(&a, &y).unwrap() - 0.6).abs() < 0.03);
    assert!((rank_correlation(&b, &y).unwrap() - 0.8).abs() < 0.03);
    assert!(rank_correlation(&nothing, &y).unwrap().abs() < chance(cases));
    let falling: Vec<f64> = a.iter().map(|a| -a.exp()).collect();
    assert!((rank_correlation(&a, &falling).unwrap() + 1.0).abs() < 1e-9);
}

/// Spearman's own worked example: ten pairs without ties, ρ = −29/165.
#[test]
fn ranks_with_and_without_ties() {
    let one = [
        106.0, 100.0, 86.0, 101.0, 99.0, 103.0, 97.0, 113.0, 112.0, 110.0,
    ];
    let other = [7.0, 27.0, 2.0, 50.0, 28.0, 29.0, 20.0, 12.0, 6.0, 17.0];
    assert!((rank_correlation(&one, &other).unwrap() + 29.0 / 165.0).abs() < 1e-12);
    // Ranks 1, 2½, 2½, 4 against 1, 2, 3, 4: 4.5 / √(4.5 · 5).
    let tied = rank_correlation(&[1.0, 2.0, 2.0, 3.0], &[1.0, 2.0, 3.0, 4.0]).unwrap();
    assert!((tied - 4.5 / (4.5_f64 * 5.0).sqrt()).abs() < 1e-12);
    assert_eq!(rank_correlation(&[], &[]), None);
    assert_eq!(rank_correlation(&[f64::NAN, f64::NAN], &[1.0, 2.0]), None);
    assert_eq!(quantile(&[], 0.5), None);
}

#[test]
fn the_same_seed_gives_the_same_report_however_it_is_cut() {
    let design = example::as_first_drawn();
    let whole = run(&design, 11, CASES, CASES).report();
    assert_eq!(whole, run(&design, 11, CASES, 37).report());
    // As several workers would do it, the last part first.
    let worker = Sampling::new(&design, 11, CASES);
    let mut gathered = Sampling::new(&design, 11, CASES);
    let half = CASES / 2;
    gathered.take(half, &worker.outcomes(half..CASES));
    assert_eq!(gathered.progress().done, CASES - half);
    gathered.take(0, &worker.outcomes(0..half));
    assert_eq!(whole, gathered.report());
    assert_ne!(whole, run(&design, 12, CASES, CASES).report());
}

#[test]
fn shares_and_spans_are_in_order() {
    for design in [
        example::as_first_drawn(),
        example::as_improved(),
        Design::default(),
    ] {
        let report = run(&design, 2, CASES, 100).report();
        assert_eq!(report.cases, CASES);
        assert_eq!(report.findings.len(), assess(&design).findings.len());
        for finding in &report.findings {
            assert!((0.0..=1.0).contains(&finding.passes), "{}", finding.id);
            assert!(
                (finding.passes..=1.0).contains(&finding.not_stop),
                "{}",
                finding.id
            );
            if let Some(number) = finding.number {
                assert!(number.low.si <= number.middle.si && number.middle.si <= number.high.si);
            }
            if let Some(margin) = finding.margin {
                assert!(margin.low <= margin.middle && margin.middle <= margin.high);
            }
            for driver in &finding.drivers {
                assert!((report.chance..=1.0).contains(&driver.correlation.abs()));
            }
        }
    }
}

/// The middle of the moisture over all cases is the moisture entered, and nothing else drives it.
#[test]
fn moisture_is_driven_by_moisture() {
    let mut design = Design::default();
    design.set("fuel.moisture", Value::Number(0.20)).unwrap();
    let report = run(&design, 4, CASES, CASES).report();
    let finding = report.finding("heart.moisture").unwrap();
    assert!((finding.passes - 0.5).abs() < 0.01, "{}", finding.passes);
    assert_eq!(finding.not_stop, 1.0);
    let number = finding.number.unwrap();
    assert!((number.middle.si - 0.20).abs() < 1e-3);
    // A triangle of ± 3 points: a tenth lies below −3 (1 − √0.2) points.
    let tenth = 0.03 * (1.0 - 0.2_f64.sqrt());
    assert!((number.low.si - (0.20 - tenth)).abs() < 1e-3, "{number:?}");
    assert_eq!(finding.drivers.first().unwrap().path, "fuel.moisture");
    assert!(finding.drivers.first().unwrap().correlation < -0.999);
}

/// Chapters that read nothing doubtful are not asked again: what is said of a case must not tell.
#[test]
fn a_case_is_judged_as_by_a_whole_review() {
    let mut designs = vec![example::as_improved(), example::as_first_drawn()];
    designs.extend((0..6).map(random_design));
    for design in designs {
        let sampling = Sampling::new(&design, 3, 50);
        let entered = assess(&design);
        for case in [0, 17, 49] {
            let whole = assess(&sampling.case(case));
            let outcomes = sampling.outcomes(case..case + 1);
            assert_eq!(outcomes.len(), 3 * entered.findings.len());
            for (finding, told) in entered.findings.iter().zip(outcomes.chunks(3)) {
                let found = whole.finding(finding.id);
                let verdict = found.map_or(Verdict::CannotTell, |found| found.verdict);
                assert_eq!(told[0], f32::from(verdict as u8), "{}", finding.id);
                let margin = found.and_then(|found| found.margin);
                let margin = margin.map_or(f32::NAN, |margin| margin as f32);
                assert_eq!(told[1].to_bits(), margin.to_bits(), "{}", finding.id);
            }
        }
    }
}

#[test]
fn what_is_exact_leaves_no_doubt() {
    let mut design = Design::default();
    for doubtful in design.all_doubtful() {
        design.set_spread(&doubtful.path, Some(0.0)).unwrap();
    }
    assert!(design.all_doubtful().is_empty());
    let report = run(&design, 1, 20, 20).report();
    for (sure, found) in report.findings.iter().zip(assess(&design).findings) {
        assert_eq!(
            sure.passes == 1.0,
            found.verdict == Verdict::Good,
            "{}",
            sure.id
        );
        assert!(!sure.is_open() && sure.drivers.is_empty());
    }
    // An own plus-minus counts, also after a link.
    design.set_spread("fuel.moisture", Some(0.05)).unwrap();
    let opened = link::read(&link::write(&design)).unwrap().design;
    assert_eq!(opened, design);
    assert_eq!(Sampling::new(&opened, 1, 20).inputs().len(), 1);
}

#[test]
fn insulation_that_leaks_more_loses_more() {
    let mut leaky = Design::default();
    leaky
        .set("doubt.insulation_conductivity", Value::Number(1.25))
        .unwrap();
    let loss = |design: &Design| {
        (assess(design).results().into_iter())
            .find(|result| result.name == "warmth.loss")
            .map(|result| result.measure.si)
            .unwrap()
    };
    let more = loss(&leaky) / loss(&Design::default());
    assert!(more > 1.05 && more < 1.25, "{more}");
}

#[test]
fn random_designs_are_sampled_without_trouble() {
    let designs = if cfg!(target_family = "wasm") { 5 } else { 40 };
    for seed in 900_000..900_000 + designs {
        let design = random_design(seed);
        let sampling = run(&design, seed, 12, 5);
        for case in 0..12 {
            let case = sampling.case(case);
            for doubtful in sampling.inputs() {
                let value = case.get(&doubtful.path).unwrap().number().unwrap();
                assert!(
                    value >= doubtful.low && value <= doubtful.high,
                    "{}",
                    doubtful.path
                );
            }
        }
        let report = sampling.report();
        assert!(
            report
                .findings
                .iter()
                .all(|one| (0.0..=1.0).contains(&one.passes))
        );
    }
}

#[test]
fn nonsense_is_taken_calmly() {
    let mut sampling = Sampling::new(&Design::default(), 1, 0);
    sampling.run(5);
    sampling.take(7, &[1.0, 2.0]);
    assert_eq!(sampling.progress().wanted, 0);
    assert!(
        sampling
            .report()
            .findings
            .iter()
            .all(|one| one.passes == 0.0)
    );
    let mut sampling = Sampling::new(&Design::default(), 1, 3);
    sampling.take(usize::MAX, &[0.0; 1000]);
    let (start, end) = (5, 2);
    assert!(sampling.outcomes(start..end).is_empty());
    assert_eq!(sampling.progress().done, 0);
    assert_eq!(Generator::new(1).below(0), 0);
    assert!(triangular(f64::NAN, f64::NAN, 1.0, 2.0).is_finite());
}

/// Among so many inputs some follow any verdict by chance: a blower heats no hearth wall.
#[test]
fn nothing_drives_a_finding_whose_chapter_does_not_read_it() {
    for design in [example::as_first_drawn(), example::as_improved()] {
        let found = assess(&design);
        for seed in 1..4 {
            let report = run(&design, seed, CASES, CASES).report();
            for finding in &report.findings {
                let chapter = found.finding(finding.id).unwrap().chapter;
                for driver in &finding.drivers {
                    let (part, _) = driver.path.split_once('.').unwrap();
                    let read = chapter.reads().any(|name| name == part);
                    assert!(read, "{} follows {}", finding.id, driver.path);
                }
            }
        }
    }
}

/// A limit that is the same in every case says nothing of the spread, and “between 4 and 9” nothing of what.
#[test]
fn a_number_is_told_only_where_it_varies_and_says_what_it_is() {
    let mut indoors = example::as_improved();
    indoors
        .set("shed.stands", Value::Choice("closed_roof".to_string()))
        .unwrap();
    let report = run(&indoors, 1, CASES, CASES).report();
    let room = report.finding("leaks.room").unwrap();
    assert!(
        room.number.is_some() && room.counted == Some("ppm"),
        "{room:?}"
    );
    for design in [example::as_first_drawn(), example::as_improved(), indoors] {
        let report = run(&design, 1, CASES, CASES).report();
        let mut told = 0;
        for finding in &report.findings {
            let Some(number) = finding.number else {
                continue;
            };
            told += 1;
            assert!(number.low.si < number.high.si, "{}", finding.id);
            let plain = matches!(number.low.quantity, Quantity::Number | Quantity::Count);
            assert!(!plain || finding.counted.is_some(), "{}", finding.id);
        }
        assert!(told > 20, "{told}");
    }
}
