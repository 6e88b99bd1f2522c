//! What a small fire needs: more around it, smaller pieces of wood, and a load that it holds.

use super::{in_both, level_body, mend, thickest, whole};
use crate::design::Design;
use crate::design::inputs::Layer;
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Chapter, Verdict};
use crate::review::{Assessment, Tally, assess};
use uom::si::f64::{Length, Ratio};
use uom::si::length::meter;
use uom::si::ratio::ratio;

/// Insulation is added in steps of this thickness, m, up to so much in a layer.
const INSULATION_STEP: f64 = 0.0025;
const MOST_INSULATION: f64 = 0.15;

/// Wood as small as the throat wants it, where larger pieces would not pass at all. Whoever has small wood has no larger
/// one: pieces are never made larger, and what they do not suit is told by the verdicts.
pub(super) fn fit_pieces(design: &mut Design) {
    let stuck = (assess(design).finding("heart.pieces"))
        .is_some_and(|finding| finding.verdict == Verdict::Stop);
    if !stuck {
        return;
    }
    let mut mended = design.clone();
    mend(&mut mended, "heart.pieces", ".piece_size", |size| {
        (size * 1000.0).floor() / 1000.0
    });
    if mended.fuel.piece_size < design.fuel.piece_size {
        *design = mended;
    }
}

/// How far the throat of a small fire is widened at most, m. Our own choice.
const WIDENED: f64 = 0.01;

/// A throat up to so much wider, where wood hangs up above it or no published hearth is as small, by as little as leaves
/// least to be mended. The rest of the hearth stays as it is, so the throat goes no farther than the published proportions
/// allow, or than it was beyond them before.
pub(super) fn widen_throat(design: &mut Design) {
    let before = assess(design);
    let is_good = |id| (before.finding(id)).is_none_or(|asked| asked.verdict == Verdict::Good);
    if is_good("heart.pieces") && is_good("hearth.proportions") {
        return;
    }
    let proportion = |assessment: &Assessment| {
        let asked = assessment.finding("hearth.proportions");
        asked.and_then(|asked| asked.margin)
    };
    let least = proportion(&before).map(|margin| margin.min(0.0));
    let mut best = Tally::of(&before.findings);
    let throat = design.hearth.throat_diameter;
    for step in 1..=(WIDENED * 1000.0) as u32 {
        let mut wider = design.clone();
        wider.hearth.throat_diameter = throat + Length::new::<meter>(f64::from(step) / 1000.0);
        let assessment = assess(&wider);
        let left = Tally::of(&assessment.findings);
        if left < best && proportion(&assessment) >= least {
            best = left;
            *design = wider;
        }
    }
}

/// Char over the wood it is made of: usually about half as large (common practice, no source).
const CHAR_OF_WOOD: f64 = 0.5;

/// Char as large as it comes from this wood, and a grate that holds it: as open as before.
pub(super) fn fit_char(design: &mut Design) {
    let (hearth, grate) = (&mut design.hearth, &mut design.grate);
    let of_wood = CHAR_OF_WOOD * design.fuel.piece_size.value;
    let of_wood = Design::nearest_allowed("hearth", "char_size", of_wood);
    hearth.char_size = hearth.char_size.min(whole(Length::new::<meter>(of_wood)));
    if grate.hole > hearth.char_size {
        let smaller = (hearth.char_size / grate.hole).value;
        grate.hole *= smaller;
        grate.pitch *= smaller;
    }
}

/// What the fire and the wall around it leave open: Stops, and what else is not Good.
pub(super) fn open(assessment: &Assessment) -> (usize, usize) {
    let about_fire = (assessment.findings.iter()).filter(|finding| {
        matches!(
            finding.chapter,
            Chapter::Heart | Chapter::Warmth | Chapter::Hearth
        )
    });
    about_fire.fold((0, 0), |(stops, watches), finding| match finding.verdict {
        Verdict::Good => (stops, watches),
        Verdict::Stop => (stops + 1, watches),
        _ => (stops, watches + 1),
    })
}

/// The Stops of fire and wall that are left with the better lowest load: the one asked for, or one that the fire holds.
pub(super) fn least_stops(design: &Design, found: &Assessment) -> usize {
    let asked = open(found).0;
    let held = held_from(design, found).filter(|_| asked > 0);
    held.map_or(asked, |held| open(&assess(&held)).0.min(asked))
}

fn idles(assessment: &Assessment) -> bool {
    (assessment.finding("heart.idle")).is_none_or(|finding| finding.verdict == Verdict::Good)
}

/// Adds to the thickest layer of the hearth band until the fire idles. Where that is not enough, or takes too long to warm
/// up, the lowest load is raised as well, to what the fire holds. With `level` the body stays as wide outside; without
/// `room` nothing is added.
pub(super) fn insulate(design: &mut Design, level: bool, room: bool) {
    let before = assess(design);
    if idles(&before) {
        return;
    }
    let (was, mut thicker) = (open(&before), Vec::new());
    let mut next = design.clone();
    loop {
        let thin = |layer: &&mut Layer| room && layer.thickness.value < MOST_INSULATION;
        let Some(layer) = thickest(&mut next.hearth_layers).filter(thin) else {
            break;
        };
        layer.thickness += Length::new::<meter>(INSULATION_STEP);
        if level {
            level_body(&mut next);
        }
        let after = assess(&next);
        let is = open(&after);
        let (enough, stopped) = (idles(&after), is.0 > 0);
        thicker.push((next.clone(), after));
        if enough && !stopped {
            if is < was {
                *design = next;
            }
            return;
        }
        if enough {
            break;
        }
    }
    let start = [(design.clone(), before)];
    let tried = start.into_iter().chain(thicker).flat_map(|(tried, found)| {
        let held = held_from(&tried, &found).map(|held| {
            let found = open(&assess(&held));
            (held, found)
        });
        [Some((tried, open(&found))), held].into_iter().flatten()
    });
    // To run lower is worth more than one caution less.
    let best = tried.min_by(|(one, is), (other, was)| {
        let load = |design: &Design| design.operation.idle_load.value;
        (is.0.cmp(&was.0))
            .then(load(one).total_cmp(&load(other)))
            .then(is.1.cmp(&was.1))
    });
    if let Some((best, _)) = best.filter(|(_, is)| *is < was) {
        *design = best;
    }
}

/// The design with the lowest load raised to what the fire holds, by whole hundredths and no higher than the usual load.
fn held_from(design: &Design, found: &Assessment) -> Option<Design> {
    let lowest = found.heart.range?.lowest()?.value;
    let load =
        Ratio::new::<ratio>((lowest * 100.0).ceil() / 100.0).min(design.operation.usual_load);
    let mut held = design.clone();
    held.operation.idle_load = load;
    (load > design.operation.idle_load).then_some(held)
}

/// Size of the pieces of wood as answered, and as reckoned with where those would not pass.
pub(super) fn smaller_pieces(answered: &Design, sized: &Design) -> Option<[Length; 2]> {
    let (asked, pieces) = (answered.fuel.piece_size, sized.fuel.piece_size);
    (pieces < asked).then_some([asked, pieces])
}

/// Lowest load as it was, and as reckoned with where the fire does not hold that.
pub(super) fn higher_load(answered: &Design, sized: &Design) -> Option<[Ratio; 2]> {
    let (asked, load) = (answered.operation.idle_load, sized.operation.idle_load);
    (load > asked).then_some([asked, load])
}

/// What became of the answers, in words for the note of the design.
pub(super) fn told(answered: &Design, sized: &Design) -> String {
    let mut told =
        vec!["From the first questions: what was not asked was sized to suit.".to_string()];
    if let Some([asked, pieces]) = smaller_pieces(answered, sized) {
        told.push(format!(
            "Pieces of wood: {} instead of {}, which would hang up above so small a throat.",
            in_both(Q::Length, pieces.value),
            in_both(Q::Length, asked.value)
        ));
    }
    if let Some([asked, load]) = higher_load(answered, sized) {
        told.push(format!(
            "Lowest load: {} instead of {}. Below it the shell takes too much of so small a fire, and the gas gets weak.",
            in_both(Q::Share, load.value),
            in_both(Q::Share, asked.value)
        ));
    }
    told.join(" ")
}
