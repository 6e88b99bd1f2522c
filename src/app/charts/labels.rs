//! Writes the texts of a chart where they find room: names of bands, uprights and lines, and what is marked.

use super::chart::{Chart, Dash, Pane};
use super::draw::{Field, band_area};
use super::pen::{Anchor, Pen, PenError};
use super::place::{Area, Crowd, Spot};

/// Room beside a text, in heights of the type, so that two texts never read as one.
const PADDING: f64 = 0.5;
/// Length of the piece of line before its name, in heights of the type.
const SAMPLE: f64 = 2.0;
/// What a less favoured place for a text costs, in heights of the type.
const STEP: f64 = 0.3;
/// The same for the many places along a line or in a band.
const STEP_ALONG: f64 = 0.005;
/// Places for a text across a band.
const PLACES: u16 = 12;
/// Rows under each other in which the name of an upright line may stand.
const ROWS: u8 = 6;

pub(super) fn band_labels(
    pen: &Pen,
    pane: &Pane,
    field: &Field,
    crowd: &mut Crowd,
) -> Result<(), PenError> {
    let size = pen.type_size();
    let mut areas: Vec<_> = (pane.bands.iter())
        .filter(|band| !band.label.is_empty())
        .filter_map(|band| Some((band, band_area(pane, band, field)?)))
        .collect();
    // The lower a band, the fewer places it has.
    areas.sort_by(|(_, one), (_, other)| one.height().total_cmp(&other.height()));
    for (band, area) in areas {
        let wide = pen.width_of(&band.label) + PADDING * size;
        let half = 0.65 * size;
        let room = area.right - area.left - wide;
        let middle = 0.5 * (area.top + area.bottom);
        let candidates = [area.top + half, area.bottom - half, middle]
            .into_iter()
            .flat_map(|y| {
                (0..=PLACES).map(move |place| {
                    let left = area.left + room * f64::from(place) / f64::from(PLACES);
                    Area::around((left + 0.5 * wide, y), wide, 1.2 * size).held_inside(&field.area)
                })
            });
        let colour = pen.paint.tone(band.tone);
        let step = STEP_ALONG * size;
        settle_text(pen, crowd, candidates, step, &band.label, colour)?;
    }
    Ok(())
}

fn settle_text(
    pen: &Pen,
    crowd: &mut Crowd,
    candidates: impl IntoIterator<Item = Area>,
    step: f64,
    text: &str,
    colour: plotters::style::RGBColor,
) -> Result<(), PenError> {
    match crowd.settle(candidates, step) {
        Some(area) => {
            let spot = (
                0.5 * (area.left + area.right),
                0.5 * (area.top + area.bottom),
            );
            pen.text(text, spot, Anchor::Middle, colour)
        }
        None => Ok(()),
    }
}

pub(super) fn upright_labels(
    pen: &Pen,
    chart: &Chart,
    field: &Field,
    crowd: &mut Crowd,
) -> Result<(), PenError> {
    let size = pen.type_size();
    let (from, to) = chart.span();
    for upright in &chart.uprights {
        if upright.x < from || upright.x > to || upright.label.is_empty() {
            continue;
        }
        let wide = pen.width_of(&upright.label) + PADDING * size;
        let (x, _) = field.spot(upright.x, 0.0);
        let candidates = (0..ROWS).flat_map(|row| {
            let y = field.area.top + (0.7 + 1.2 * f64::from(row)) * size;
            [0.4, -0.4].map(|side: f64| {
                let middle = x + side * size + side.signum() * 0.5 * wide;
                Area::around((middle, y), wide, 1.2 * size).held_inside(&field.area)
            })
        });
        settle_text(
            pen,
            crowd,
            candidates,
            STEP * size,
            &upright.label,
            pen.paint.plain(),
        )?;
    }
    Ok(())
}

/// Writes each line's name, behind a piece of the line itself, where it covers least.
pub(super) fn line_labels(
    pen: &Pen,
    chart: &Chart,
    pane: &Pane,
    field: &Field,
    crowd: &mut Crowd,
) -> Result<(), PenError> {
    let size = pen.type_size();
    for line in &pane.lines {
        let wide = pen.width_of(line.label) + (SAMPLE + 2.0 * PADDING) * size;
        let spots: Vec<Spot> = field.runs(&chart.at, line).into_iter().flatten().collect();
        let stride = (spots.len() / 40).max(1);
        let candidates = spots.iter().rev().step_by(stride).flat_map(|spot| {
            let aside = 0.5 * wide + 0.2 * size;
            [
                (0.0, -0.8),
                (0.0, 0.8),
                (aside, -0.5),
                (-aside, -0.5),
                (aside, 0.5),
                (-aside, 0.5),
                (0.0, -1.6),
                (0.0, 1.6),
                (0.0, -2.6),
                (0.0, 2.6),
                (0.0, 3.6),
                (aside, -1.5),
                (-aside, -1.5),
                (aside, 1.5),
                (-aside, 1.5),
            ]
            .map(|(across, down)| {
                Area::around((spot.0 + across, spot.1 + down * size), wide, 1.2 * size)
                    .held_inside(&field.area)
            })
        });
        let Some(area) = crowd.settle(candidates, STEP_ALONG * size) else {
            continue;
        };
        let middle = 0.5 * (area.top + area.bottom);
        let from = area.left + 0.5 * PADDING * size;
        let to = from + SAMPLE * size;
        let sample = [(from, middle), (to, middle)];
        pen.line(&sample, pen.paint.paper(), 6.0, Dash::Solid)?;
        pen.line(&sample, pen.paint.ink(line.ink), 2.0, line.dash)?;
        let beside = (to + 0.4 * size, middle);
        pen.text(line.label, beside, Anchor::Start, pen.paint.ink(line.ink))?;
    }
    Ok(())
}

/// The marked points with their texts. An arrow at its upper edge points to what lies above the pane, if that is told;
/// other points outside are left out.
pub(super) fn marks(
    pen: &Pen,
    pane: &Pane,
    field: &Field,
    crowd: &mut Crowd,
) -> Result<(), PenError> {
    let size = pen.type_size();
    let area = &field.area;
    let mut placed = Vec::with_capacity(pane.marks.len());
    for mark in &pane.marks {
        if !(mark.x.is_finite() && mark.y.is_finite()) {
            continue;
        }
        let spot = field.spot(mark.x, mark.y.min(pane.range.1));
        if area.clip(spot, spot).is_none() {
            continue;
        }
        if mark.y <= pane.range.1 {
            pen.dot(spot, 4.0, pen.paint.plain())?;
            placed.push((mark, spot));
        } else if !mark.label.is_empty() {
            // Clear of the axes.
            let x = spot
                .0
                .clamp(area.left + 0.6 * size, area.right - 0.6 * size);
            let (tip, tail) = ((x, area.top + 0.2 * size), (x, area.top + 1.6 * size));
            let head = [-0.4, 0.4].map(|side| (x + side * size, area.top + 0.8 * size));
            pen.line(&[tail, tip], pen.paint.plain(), 2.0, Dash::Solid)?;
            pen.line(
                &[head[0], tip, head[1]],
                pen.paint.plain(),
                2.0,
                Dash::Solid,
            )?;
            placed.push((mark, (x, area.top + 0.9 * size)));
        }
    }
    for (_, spot) in &placed {
        crowd.taken.push(Area::around(*spot, size, size));
    }
    for (mark, spot) in placed.iter().filter(|(mark, _)| !mark.label.is_empty()) {
        let wide = pen.width_of(&mark.label) + PADDING * size;
        let aside = 0.5 * wide + 0.7 * size;
        let candidates = [
            (aside, 0.0),
            (-aside, 0.0),
            (aside, 0.7 * size),
            (aside, -0.7 * size),
            (aside, 0.9 * size),
            (aside, -0.9 * size),
            (-aside, -0.9 * size),
            (-aside, 0.9 * size),
            (0.0, -1.2 * size),
            (0.0, 1.2 * size),
            (aside, 1.8 * size),
            (aside, -1.8 * size),
            (-aside, -1.8 * size),
        ]
        .map(|(across, down)| {
            Area::around((spot.0 + across, spot.1 + down), wide, 1.2 * size)
                .held_inside(&field.area)
        });
        settle_text(
            pen,
            crowd,
            candidates,
            STEP * size,
            &mark.label,
            pen.paint.plain(),
        )?;
    }
    Ok(())
}
