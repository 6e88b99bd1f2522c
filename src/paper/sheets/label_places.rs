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

    fn within(&self, other: &Area) -> bool {
        self.left >= other.left
            && self.right <= other.right
            && self.top >= other.top
            && self.bottom <= other.bottom
    }
}

/// The line from a name to the middle of its mark: both ends, x and y.
pub(super) fn line(name: &Area, mark: &Area) -> [[f64; 2]; 2] {
    let x = 0.5 * (mark.left + mark.right);
    let y = 0.5 * (mark.top + mark.bottom);
    let near = |at: f64, from: f64, to: f64| at.clamp(from, to.max(from));
    [
        [
            near(x, name.left, name.right),
            near(y, name.top, name.bottom),
        ],
        [x, y],
    ]
}

/// Steps upwards and downwards that are tried for a name.
const STEPS: u32 = 60;
/// Of these, those near enough to stay right above, below or beside the mark.
const NEAR: u32 = 14;
/// Steps across the sheet that are tried where no place beside the mark is free.
const ACROSS: u32 = 40;

/// The place of a name of this width and height beside a mark: the nearest one inside `sheet` that
/// meets nothing taken; where none is free beside, above or below the mark, the nearest one anywhere.
/// When all is taken, right beside it. It then stands among the names, each with its mark; no line from a
/// name to its mark runs through another name.
pub(super) fn place(
    mark: &Area,
    [width, height]: [f64; 2],
    sheet: &Area,
    taken: &[Area],
    names: &mut Vec<(Area, Area)>,
) -> Area {
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
    let free = |area: &Area| {
        area.within(sheet)
            && !taken.iter().any(|other| other.meets(area))
            && !names
                .iter()
                .any(|(name, of)| name.meets(area) || name.cuts(area, mark) || area.cuts(name, of))
    };
    let lefts = [
        mark.right + 0.5,
        mark.left - width - 0.5,
        (0.5 * (mark.left + mark.right - width))
            .min(sheet.right - width)
            .max(sheet.left),
    ];
    let mut beside = (0..NEAR)
        .flat_map(tops)
        .flat_map(|top| lefts.map(|left| at(left, top)));
    let room = sheet.right - sheet.left - width;
    let anywhere = || {
        (0..STEPS).flat_map(tops).flat_map(|top| {
            let across = move |step| sheet.left + room * f64::from(step) / f64::from(ACROSS);
            (0..=ACROSS).map(move |step| at(across(step), top))
        })
    };
    let gap = |area: &Area| {
        let across = (area.left - mark.right)
            .max(mark.left - area.right)
            .max(0.0);
        let up = (area.top - mark.bottom)
            .max(mark.top - area.bottom)
            .max(0.0);
        across.hypot(up)
    };
    let found = beside
        .find(free)
        .or_else(|| {
            anywhere()
                .filter(free)
                .min_by(|one, other| gap(one).total_cmp(&gap(other)))
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
        let mut names = Vec::new();
        for mark in &marks {
            place(mark, [25.0, 4.0], &sheet, &marks, &mut names);
        }
        for (name, mark) in &names {
            let through = |other: &Area| other != name && other.cuts(name, mark);
            assert!(!names.iter().any(|(other, _)| through(other)));
        }
        let names = names.iter().map(|(name, _)| name);
        let taken: Vec<Area> = marks.iter().chain(names).copied().collect();
        for (index, one) in taken.iter().enumerate() {
            assert!(one.within(&sheet));
            assert!(!taken.iter().skip(index + 1).any(|other| other.meets(one)));
        }
    }
}
