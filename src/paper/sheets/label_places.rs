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

    fn within(&self, other: &Area) -> bool {
        self.left >= other.left
            && self.right <= other.right
            && self.top >= other.top
            && self.bottom <= other.bottom
    }
}

/// Steps upwards and downwards that are tried for a name.
const STEPS: u32 = 14;

/// The place of a name of this width and height beside a mark: the nearest one inside `sheet` that
/// meets nothing taken. When all is taken, the nearest one. The place counts as taken from then on.
pub(super) fn place(
    mark: &Area,
    [width, height]: [f64; 2],
    sheet: &Area,
    taken: &mut Vec<Area>,
) -> Area {
    let candidates = (0..STEPS).flat_map(|step| {
        let away = f64::from(step) * 0.5 * height;
        let tops = [mark.top - height - away, mark.bottom + away];
        let lefts = [
            mark.right + 0.5,
            mark.left - width - 0.5,
            (0.5 * (mark.left + mark.right - width))
                .min(sheet.right - width)
                .max(sheet.left),
        ];
        tops.into_iter().flat_map(move |top| {
            lefts.into_iter().map(move |left| Area {
                left,
                top,
                right: left + width,
                bottom: top + height,
            })
        })
    });
    let nearest = Area {
        left: mark.right,
        top: mark.top - height,
        right: mark.right + width,
        bottom: mark.top,
    };
    let free = |area: &Area| area.within(sheet) && !taken.iter().any(|other| other.meets(area));
    let found = candidates.into_iter().find(free).unwrap_or(nearest);
    taken.push(found);
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
        let mut taken = marks.clone();
        for mark in &marks {
            place(mark, [25.0, 4.0], &sheet, &mut taken);
        }
        for (index, one) in taken.iter().enumerate() {
            assert!(one.within(&sheet));
            assert!(!taken.iter().skip(index + 1).any(|other| other.meets(one)));
        }
    }
}
