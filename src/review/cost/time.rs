//! Is there time enough to build it?

use crate::design::Design;
use crate::design::Source::{CommonPractice, OwnMark};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Chapter, Finding, Lever, NamedResult, Step, Verdict};
use crate::sizing::cost::FIRST_BUILD;
use crate::sizing::work_time::{QUICK, WorkTime, begun_weeks};
use uom::si::ratio::ratio;

/// The computed numbers with their stable names.
pub(super) fn results(time: &WorkTime) -> impl Iterator<Item = NamedResult> {
    let [quick, likely, slow] = time.weeks_left();
    let hours = |time: uom::si::f64::Time| Measure::new(Q::LongTime, time.value);
    // As the sheet of the order tells them: a week that is begun counts.
    let weeks = |weeks: f64| Measure::new(Q::Number, begun_weeks(weeks));
    [
        ("work", "Time to build, likely", hours(time.likely)),
        ("work_left", "Work that is left, likely", hours(time.left)),
        (
            "weeks_quick",
            "Weeks left, practised and quick",
            weeks(quick),
        ),
        ("weeks_likely", "Weeks left, likely", weeks(likely)),
        (
            "weeks_slow",
            "Weeks left as first builds come out",
            weeks(slow),
        ),
    ]
    .into_iter()
    .map(|(name, label, measure)| NamedResult::new(format!("cost.{name}"), label, measure))
}

pub(super) fn within_weeks(design: &Design, time: &WorkTime, at_hand: f64) -> Finding {
    let [quick, likely, slow] = time.weeks_left();
    let again = design.pace.again.get::<ratio>();
    let hours = |si: f64| Measure::new(Q::LongTime, si);
    let number = |value: f64| Measure::new(Q::Number, value);
    let weeks = |weeks: f64| number(begun_weeks(weeks)).into();
    let times_likely = |words, formula, (symbol, of_what, factor), result, source, sure| Step {
        words,
        formula,
        values: vec![
            (symbol, of_what, number(factor)),
            ("n", "those weeks", number(likely)),
        ],
        result: number(result),
        source,
        sure,
    };
    Finding {
        id: "cost.time",
        chapter: Chapter::Cost,
        title: "Time at hand",
        meaning: "How long the building takes at your own pace, against the weeks at hand.",
        verdict: Verdict::at_least(at_hand, slow, likely),
        compared: Phrase::new(
            "likely {} weeks at {} a week ({} to {}) of {}",
            [
                weeks(likely),
                hours(time.weekly.value).into(),
                weeks(quick),
                weeks(slow),
                number(at_hand).into(),
            ],
        ),
        why: "Work that takes twice as long as thought is given up half built, or the leak tests are left out.",
        margin: Some(at_hand / slow - 1.0).filter(|margin| margin.is_finite()),
        working: vec![
            Step {
                words: "All the work, with what is done again",
                formula: "t = (1 + a) Σ nᵢ tᵢ",
                values: vec![
                    ("a", "done again", Measure::new(Q::Share, again)),
                    (
                        "Σ nᵢ tᵢ",
                        "pieces of each kind times what one takes; the sheet “Build order” has them",
                        hours(time.once().value),
                    ),
                ],
                result: hours(time.likely.value),
                source: OwnMark("counted from the design, by your own pace"),
                sure: "people differ by more than twice: time your first part, weld and test",
            },
            Step {
                words: "Weeks for what is left of it",
                formula: "n = (t − d) / h",
                values: vec![
                    ("t", "all the work", hours(time.likely.value)),
                    (
                        "d",
                        "done, by the joints that are ticked off",
                        hours((time.likely - time.left).value),
                    ),
                    ("h", "hours a week", hours(time.weekly.value)),
                ],
                result: number(likely),
                source: OwnMark("counted from the design, by your own pace"),
                sure: "as good as the hours are kept",
            },
            times_likely(
                "Weeks as first builds come out",
                "2 n",
                ("2", "times the estimate", FIRST_BUILD),
                slow,
                CommonPractice,
                "from builders' talk: first builds take about twice the estimate",
            ),
            times_likely(
                "Weeks of somebody quick and practised",
                "0.7 n",
                ("0.7", "of the estimate", QUICK),
                quick,
                OwnMark("of one who has built such things before"),
                "nobody has measured it",
            ),
        ],
        caution: None,
        levers: vec![Lever::input("pace.weekly"), Lever::input("pace.weeks")],
        about: "pace",
    }
}
