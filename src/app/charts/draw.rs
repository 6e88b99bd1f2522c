//! Draws a chart: axes, bands and lines. Its texts stand in a file of their own.

use super::chart::{Axis, Band, Chart, Dash, Line, Pane};
use super::labels::{band_labels, line_labels, marks, upright_labels};
use super::pen::{Anchor, PARTS, Pen, PenError};
use super::place::{Area, Crowd, Spot};
use super::scale;
use crate::design::quantity::System;
use leptos::prelude::window;
use plotters::coord::CoordTranslate as _;
use plotters::coord::cartesian::Cartesian2d;
use plotters::coord::types::RangedCoordf64;
use plotters::style::Color as _;
use web_sys::HtmlCanvasElement;

/// Ticks on the axis across stand at least this many heights of the type apart.
const TICK_WIDTH: f64 = 3.2;
/// How strongly a band is tinted.
const TINT: f64 = 0.13;
/// How strongly the stretch is tinted that the machine works in.
const STRETCH_TINT: f64 = 0.10;

/// Where the lines are, in pixels of the page: what is needed to find the place under a finger.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    /// Left end of the axis across.
    pub left: f64,
    /// Right end.
    pub right: f64,
}

/// A pane on the canvas.
pub(super) struct Field {
    pub(super) area: Area,
    scale: Cartesian2d<RangedCoordf64, RangedCoordf64>,
}

impl Field {
    fn new(area: Area, across: (f64, f64), up: (f64, f64)) -> Self {
        let pixels = (
            (area.left * PARTS).round() as i32..(area.right * PARTS).round() as i32,
            (area.bottom * PARTS).round() as i32..(area.top * PARTS).round() as i32,
        );
        Self {
            area,
            scale: Cartesian2d::new(across.0..across.1, up.0..up.1, pixels),
        }
    }

    pub(super) fn spot(&self, x: f64, y: f64) -> Spot {
        let (left, top) = self.scale.translate(&(x, y));
        (f64::from(left) / PARTS, f64::from(top) / PARTS)
    }

    /// The unbroken runs of a line that lie inside.
    pub(super) fn runs(&self, at: &[f64], line: &Line) -> Vec<Vec<Spot>> {
        let mut runs: Vec<Vec<Spot>> = vec![Vec::new()];
        let known = |(x, y): (&f64, &f64)| (x.is_finite() && y.is_finite()).then_some((*x, *y));
        let spots: Vec<_> = at.iter().zip(&line.values).map(known).collect();
        for pair in spots.windows(2) {
            let &[Some(from), Some(to)] = pair else {
                runs.push(Vec::new());
                continue;
            };
            let (from, to) = (self.spot(from.0, from.1), self.spot(to.0, to.1));
            let Some((start, end)) = self.area.clip(from, to) else {
                runs.push(Vec::new());
                continue;
            };
            let goes_on = runs
                .last()
                .and_then(|run| run.last())
                .is_some_and(|last| *last == start);
            if !goes_on {
                runs.push(vec![start]);
            }
            if let Some(run) = runs.last_mut() {
                run.push(end);
            }
        }
        runs.retain(|run| run.len() > 1);
        runs
    }
}

/// Draws the chart on a canvas; none while the canvas is not shown.
///
/// # Errors
/// The canvas refuses.
pub fn draw(
    canvas: &HtmlCanvasElement,
    chart: &Chart,
    reading: Option<f64>,
    system: System,
) -> Result<Option<Frame>, PenError> {
    let fine = window().device_pixel_ratio().clamp(1.0, 4.0);
    let Some(pen) = Pen::on(canvas, fine) else {
        return Ok(None);
    };
    let fields = lay_out(&pen, chart, system);
    let Some(first) = fields.first() else {
        return Ok(None);
    };
    let frame = Frame {
        left: first.area.left / fine,
        right: first.area.right / fine,
    };
    across(&pen, chart, &fields, system)?;
    for (index, (pane, field)) in chart.panes.iter().zip(&fields).enumerate() {
        let mut crowd = Crowd::default();
        stretch(&pen, chart, field)?;
        upright_axis(&pen, pane, field, system)?;
        crowd.lines.extend(bands(&pen, pane, field)?);
        let uprights = uprights(&pen, chart, field)?;
        crowd.lines.extend(uprights);
        lines(&pen, chart, pane, field, &mut crowd)?;
        marks(&pen, pane, field, &mut crowd)?;
        if let Some(x) = reading {
            read_at(&pen, chart, pane, field, x)?;
        }
        // A band leaves its text few places, an upright some, a line many.
        band_labels(&pen, pane, field, &mut crowd)?;
        if index == 0 {
            upright_labels(&pen, chart, field, &mut crowd)?;
        }
        line_labels(&pen, chart, pane, field, &mut crowd)?;
    }
    Ok(Some(frame))
}

fn up_ticks(
    pen: &Pen,
    axis: Axis,
    range: (f64, f64),
    high: f64,
    system: System,
) -> Vec<scale::Tick> {
    let most = (high / pen.type_size() / 2.2).clamp(2.0, 8.0) as u32;
    scale::ticks(axis.quantity, system, range, most)
}

/// Divides the canvas among the panes; leaves room for the numbers along the axes.
fn lay_out(pen: &Pen, chart: &Chart, system: System) -> Vec<Field> {
    let size = pen.type_size();
    let count = chart.panes.len().max(1) as f64;
    let (head, foot, gap) = (1.6 * size, 3.0 * size, 0.9 * size);
    let high = ((pen.height - foot - (count - 1.0) * gap) / count - head).max(size);
    let widest = chart
        .panes
        .iter()
        .flat_map(|pane| up_ticks(pen, pane.axis, pane.range, high, system))
        .map(|tick| pen.width_of(&tick.text))
        .fold(0.0, f64::max);
    let mut top = head;
    chart
        .panes
        .iter()
        .map(|pane| {
            let area = Area {
                left: (widest + 0.6 * size).round(),
                top: top.round(),
                right: (pen.width - 1.2 * size).round(),
                bottom: (top + high).round(),
            };
            top += high + gap + head;
            Field::new(area, chart.span(), pane.range)
        })
        .collect()
}

/// Grid, numbers and name of the axis across.
fn across(pen: &Pen, chart: &Chart, fields: &[Field], system: System) -> Result<(), PenError> {
    let (Some(first), Some(last)) = (fields.first(), fields.last()) else {
        return Ok(());
    };
    let size = pen.type_size();
    let wide = last.area.right - last.area.left;
    let most = (wide / size / TICK_WIDTH).clamp(2.0, 10.0) as u32;
    let mut free = f64::NEG_INFINITY;
    for tick in scale::ticks(chart.x.quantity, system, chart.span(), most) {
        let (x, _) = first.spot(tick.at, 0.0);
        for field in fields {
            pen.rule(
                (x, field.area.top),
                (x, field.area.bottom),
                pen.paint.grid(),
                Dash::Solid,
            )?;
        }
        let half = 0.5 * pen.width_of(&tick.text);
        if x - half > free {
            let below = (x, last.area.bottom + 0.8 * size);
            pen.text(&tick.text, below, Anchor::Middle, pen.paint.soft())?;
            free = x + half + 0.6 * size;
        }
    }
    let title = scale::title(chart.x.label, chart.x.quantity, system);
    let place = (last.area.right, last.area.bottom + 2.2 * size);
    pen.text(&title, place, Anchor::End, pen.paint.plain())
}

/// The stretch that the machine works in, as far as it lies inside the pane.
fn stretch(pen: &Pen, chart: &Chart, field: &Field) -> Result<(), PenError> {
    let (from, to) = chart.span();
    let Some((low, high)) = chart
        .stretch
        .map(|(low, high)| (low.max(from), high.min(to)))
    else {
        return Ok(());
    };
    if low < high {
        let area = Area {
            left: field.spot(low, 0.0).0,
            right: field.spot(high, 0.0).0,
            ..field.area
        };
        pen.tint(&area, pen.paint.soft().mix(STRETCH_TINT))?;
    }
    Ok(())
}

/// Grid, numbers and name of a pane's own axis.
fn upright_axis(pen: &Pen, pane: &Pane, field: &Field, system: System) -> Result<(), PenError> {
    let size = pen.type_size();
    let area = &field.area;
    for tick in up_ticks(pen, pane.axis, pane.range, area.bottom - area.top, system) {
        let (_, y) = field.spot(0.0, tick.at);
        pen.rule(
            (area.left, y),
            (area.right, y),
            pen.paint.grid(),
            Dash::Solid,
        )?;
        // At the very top its number would run into the name of the axis.
        if y >= area.top + 0.3 * size {
            let beside = (area.left - 0.35 * size, y);
            pen.text(&tick.text, beside, Anchor::End, pen.paint.soft())?;
        }
    }
    let corner = (area.left, area.bottom);
    for end in [(area.left, area.top), (area.right, area.bottom)] {
        pen.rule(corner, end, pen.paint.plain(), Dash::Solid)?;
    }
    let title = scale::title(pane.axis.label, pane.axis.quantity, system);
    let above = (0.0, area.top - 0.85 * size);
    pen.text(&title, above, Anchor::Start, pen.paint.plain())
}

/// The part of a band that lies inside the pane; none when it lies outside.
pub(super) fn band_area(pane: &Pane, band: &Band, field: &Field) -> Option<Area> {
    let (low, high) = (band.from.max(pane.range.0), band.to.min(pane.range.1));
    (low < high).then(|| Area {
        left: field.area.left,
        top: field.spot(0.0, high).1,
        right: field.area.right,
        bottom: field.spot(0.0, low).1,
    })
}

/// Tints the bands; gives the lines drawn at their ends.
fn bands(pen: &Pen, pane: &Pane, field: &Field) -> Result<Vec<Vec<Spot>>, PenError> {
    let mut ends = Vec::new();
    for band in &pane.bands {
        let Some(area) = band_area(pane, band, field) else {
            continue;
        };
        let colour = pen.paint.tone(band.tone);
        pen.tint(&area, colour.mix(TINT))?;
        for (end, y) in [(band.from, area.bottom), (band.to, area.top)] {
            if end > pane.range.0 && end < pane.range.1 {
                pen.rule((area.left, y), (area.right, y), colour, Dash::Solid)?;
                ends.push(vec![(area.left, y), (area.right, y)]);
            }
        }
    }
    Ok(ends)
}

fn uprights(pen: &Pen, chart: &Chart, field: &Field) -> Result<Vec<Vec<Spot>>, PenError> {
    let (from, to) = chart.span();
    let mut drawn = Vec::new();
    for upright in &chart.uprights {
        if upright.x < from || upright.x > to {
            continue;
        }
        let (x, _) = field.spot(upright.x, 0.0);
        let line = vec![(x, field.area.top), (x, field.area.bottom)];
        pen.rule(
            (x, field.area.top),
            (x, field.area.bottom),
            pen.paint.plain(),
            Dash::Short,
        )?;
        drawn.push(line);
    }
    Ok(drawn)
}

fn lines(
    pen: &Pen,
    chart: &Chart,
    pane: &Pane,
    field: &Field,
    crowd: &mut Crowd,
) -> Result<(), PenError> {
    for line in &pane.lines {
        for run in field.runs(&chart.at, line) {
            pen.line(&run, pen.paint.ink(line.ink), 2.0, line.dash)?;
            crowd.lines.push(run);
        }
    }
    Ok(())
}

/// The line a person moves, with a dot on each line of the chart.
fn read_at(pen: &Pen, chart: &Chart, pane: &Pane, field: &Field, x: f64) -> Result<(), PenError> {
    let index = chart.nearest(x);
    let Some(x) = chart.at.get(index) else {
        return Ok(());
    };
    let (across, _) = field.spot(*x, 0.0);
    let line = [(across, field.area.top), (across, field.area.bottom)];
    pen.line(&line, pen.paint.plain(), 2.0, Dash::Solid)?;
    for line in &pane.lines {
        if let Some(y) = line.values.get(index).filter(|y| y.is_finite()) {
            let spot = field.spot(*x, *y);
            if field.area.clip(spot, spot).is_some() {
                pen.dot(spot, 3.0, pen.paint.ink(line.ink))?;
            }
        }
    }
    Ok(())
}
