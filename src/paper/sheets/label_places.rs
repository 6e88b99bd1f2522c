//! Where to write a name beside a mark, so that it covers neither marks nor other names.

/// An upright rectangle on the paper, mm, y downwards.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Area {
    pub left: f64,
    pub top: f64,
    pub right: f64,
    pub bottom: f64,
}

impl Area {
    fn meets(&self, other: &Area) -> bool {
        self.left < other.right
            && other.left < self.right
            && self.top < other.bottom
            && other.top < self.bottom
    }

    /// Whether the line from a name to its mark runs through this one; told at a row of points.
    fn cuts(&self, name: &Area, mark: &Area) -> bool {
        const POINTS: u32 = 16;
        let [from, to] = line(name, mark);
        (0..=POINTS).any(|point| {
            let part = f64::from(point) / f64::from(POINTS);
            let [x, y] = [0, 1].map(|axis| from[axis] + part * (to[axis] - from[axis]));
            x > self.left && x < self.right && y > self.top && y < self.bottom
        })
    }

    /// Distance between the two; 0 where they meet.
    fn gap(&self, other: &Area) -> f64 {
        let apart = |one: f64, other: f64| one.max(other).max(0.0);
        apart(self.left - other.right, other.left - self.right)
            .hypot(apart(self.top - other.bottom, other.top - self.bottom))
    }

    fn within(&self, other: &Area) -> bool {
        self.left >= other.left
            && self.right <= other.right
            && self.top >= other.top
            && self.bottom <= other.bottom
    }
}

/// The edge of a name that its line begins at, as a height: the one that faces its mark.
pub(super) fn edge(name: &Area, mark: &Area) -> f64 {
    if mark.top + mark.bottom < name.top + name.bottom {
        name.top
    } else {
        name.bottom
    }
}

/// The line from that edge of a name to the middle of its mark: both ends, x and y.
pub(super) fn line(name: &Area, mark: &Area) -> [[f64; 2]; 2] {
    let x = 0.5 * (mark.left + mark.right);
    let y = 0.5 * (mark.top + mark.bottom);
    let written = written(name, mark);
    let begin = x.clamp(written.from, written.to.max(written.from));
    [[begin, edge(name, mark)], [x, y]]
}

/// How a name is written in its place, which has room for wide fonts: towards its mark.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Written {
    /// Which end of the text stands at `x`, as in SVG.
    pub anchor: &'static str,
    pub x: f64,
    /// Between these there are letters in any common font.
    pub from: f64,
    pub to: f64,
}

/// Share of its place that a name fills in the narrower of the common fonts.
const SURELY: f64 = 0.75;

pub(super) fn written(name: &Area, mark: &Area) -> Written {
    let width = name.right - name.left;
    let (anchor, share) = if name.left >= mark.right {
        ("start", 0.0)
    } else if name.right <= mark.left {
        ("end", 1.0)
    } else {
        ("middle", 0.5)
    };
    let from = name.left + share * (1.0 - SURELY) * width;
    Written {
        anchor,
        x: name.left + share * width,
        from,
        to: from + SURELY * width,
    }
}

/// What names are set among.
pub(super) struct Ground<'a> {
    pub sheet: Area,
    pub marks: &'a [Area],
    /// Where no name may stand.
    pub taken: &'a [Area],
    /// Lines that a name may interrupt rather than come nearer to another mark.
    pub lines: &'a [Area],
}

/// Whether a name covers one of these.
pub(super) fn covers(name: &Area, taken: &[Area]) -> bool {
    taken.iter().any(|other| other.meets(name))
}

/// Whether a name needs a line to its mark: it does not stand right beside it, or stands nearly as near to another.
pub(super) fn needs_line(name: &Area, mark: &Area, marks: &[Area]) -> bool {
    let own = name.gap(mark);
    let mut others = marks.iter().filter(|other| *other != mark);
    own > BESIDE || others.any(|other| name.gap(other) < own + DISTINCT)
}

/// What is as near as this stands right beside a mark, mm.
const BESIDE: f64 = 0.6;
/// A name that is so much nearer to its own mark than to any other is told apart at a glance, mm.
const DISTINCT: f64 = 3.0;

/// Steps upwards and downwards that are tried for a name.
const STEPS: u32 = 60;
/// Of these, those near enough to stay right above, below or beside the mark.
const NEAR: u32 = 14;
/// Steps across the sheet that are tried where no place beside the mark is free.
const ACROSS: u32 = 40;

/// Orders that are tried until no name stands nearer to another mark than to its own.
const ORDERS: usize = 8;

/// The places of names of these widths and heights, each beside its mark, as [`place`] finds them one after the other.
/// Where one comes out nearer to another mark, it is placed first of all the next time; the best of these tries counts.
pub(super) fn places(ground: &Ground, sizes: &[[f64; 2]]) -> Vec<Area> {
    let marks = ground.marks;
    let mut order: Vec<(usize, (&Area, &[f64; 2]))> = marks.iter().zip(sizes).enumerate().collect();
    let mut best: Option<(usize, Vec<(usize, Area)>)> = None;
    for _ in 0..ORDERS {
        let mut names = Vec::with_capacity(order.len());
        let found: Vec<(usize, Area)> = (order.iter())
            .map(|(index, (mark, size))| (*index, place(mark, **size, ground, &mut names)))
            .collect();
        let astray: Vec<bool> = (names.iter())
            .map(|(name, mark)| marks.iter().any(|other| name.gap(other) < name.gap(mark)))
            .collect();
        let count = astray.iter().filter(|astray| **astray).count();
        if best.as_ref().is_none_or(|(least, _)| count < *least) {
            best = Some((count, found));
        }
        let Some(worst) = astray.iter().position(|astray| *astray) else {
            break;
        };
        let first = order.remove(worst);
        order.insert(0, first);
    }
    let mut found = best.map_or_else(Vec::new, |(_, found)| found);
    found.sort_by_key(|(index, _)| *index);
    found.into_iter().map(|(_, area)| area).collect()
}

/// The place of a name of this width and height beside a mark: the nearest one inside `sheet` that
/// meets nothing taken and is nearer to no other mark; where none is free beside, above or below the mark, the nearest
/// one anywhere. Rather than nearer to another mark it stands across a line; when there is no such place either,
/// it does come nearer to another, and at the last right beside its own. It then stands among the names, each with its mark; no line from a name to its mark runs through another name.
fn place(
    mark: &Area,
    [width, height]: [f64; 2],
    ground: &Ground,
    names: &mut Vec<(Area, Area)>,
) -> Area {
    let (sheet, marks) = (&ground.sheet, ground.marks);
    let at = |left: f64, top: f64| Area {
        left,
        top,
        right: left + width,
        bottom: top + height,
    };
    let tops = |step: u32| {
        let away = f64::from(step) * 0.5 * height;
        [mark.top - height - away, mark.bottom + away]
    };
    let clear = |area: &Area| {
        area.within(sheet)
            && !covers(area, marks)
            && !covers(area, ground.taken)
            && !names
                .iter()
                .any(|(name, of)| name.meets(area) || name.cuts(area, mark) || area.cuts(name, of))
    };
    let free = |area: &Area| clear(area) && !covers(area, ground.lines);
    let lefts = [
        mark.right + 0.5,
        mark.left - width - 0.5,
        (0.5 * (mark.left + mark.right - width))
            .min(sheet.right - width)
            .max(sheet.left),
        mark.left,
        mark.right - width,
    ];
    let beside = || {
        (0..NEAR)
            .flat_map(tops)
            .flat_map(|top| lefts.map(|left| at(left, top)))
    };
    let room = sheet.right - sheet.left - width;
    let anywhere = || {
        (0..STEPS).flat_map(tops).flat_map(|top| {
            let across = move |step| sheet.left + room * f64::from(step) / f64::from(ACROSS);
            (0..=ACROSS).map(move |step| at(across(step), top))
        })
    };
    let others = || marks.iter().filter(|other| *other != mark);
    let nearest_by = |area: &Area, more: f64| {
        let own = area.gap(mark) + more;
        !others().any(|other| area.gap(other) < own)
    };
    let found = [DISTINCT, 0.0]
        .into_iter()
        .find_map(|more| beside().find(|area| nearest_by(area, more) && free(area)))
        .or_else(|| {
            (anywhere().filter(|area| nearest_by(area, 0.0)).filter(free))
                .min_by(|one, other| one.gap(mark).total_cmp(&other.gap(mark)))
        })
        .or_else(|| beside().find(|area| nearest_by(area, 0.0) && clear(area)))
        .or_else(|| beside().find(free))
        .or_else(|| {
            (anywhere().filter(free)).min_by(|one, other| one.gap(mark).total_cmp(&other.gap(mark)))
        })
        .unwrap_or_else(|| at(mark.right, mark.top - height));
    names.push((found, *mark));
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_do_not_cover_each_other() {
        let sheet = Area {
            left: 0.0,
            top: 0.0,
            right: 100.0,
            bottom: 100.0,
        };
        let marks: Vec<Area> = (0..6)
            .map(|step| Area {
                left: 10.0 + 8.0 * f64::from(step),
                top: 48.0,
                right: 14.0 + 8.0 * f64::from(step),
                bottom: 52.0,
            })
            .collect();
        let found = places(
            &Ground {
                sheet,
                marks: &marks,
                taken: &[],
                lines: &[],
            },
            &[[25.0, 4.0]; 6],
        );
        let names: Vec<(Area, Area)> = found.into_iter().zip(marks.iter().copied()).collect();
        assert_eq!(names.len(), marks.len());
        for (name, mark) in &names {
            let through = |other: &Area| other != name && other.cuts(name, mark);
            assert!(!names.iter().any(|(other, _)| through(other)));
        }
        for (name, mark) in &names {
            for other in &marks {
                assert!(
                    name.gap(mark) <= name.gap(other),
                    "{name:?} {mark:?} {other:?}"
                );
            }
            let [[x, y], _] = line(name, mark);
            assert!(x >= name.left && x <= name.right && y == edge(name, mark));
        }
        let names = names.iter().map(|(name, _)| name);
        let taken: Vec<Area> = marks.iter().chain(names).copied().collect();
        for (index, one) in taken.iter().enumerate() {
            assert!(one.within(&sheet));
            assert!(!taken.iter().skip(index + 1).any(|other| other.meets(one)));
        }
    }
}
