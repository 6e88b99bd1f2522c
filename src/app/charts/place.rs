//! Where a text finds room among lines: all in pixels of the canvas, down being positive.

/// An upright rectangle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Area {
    /// Left edge.
    pub left: f64,
    /// Upper edge.
    pub top: f64,
    /// Right edge.
    pub right: f64,
    /// Lower edge.
    pub bottom: f64,
}

/// A point.
pub type Spot = (f64, f64);

impl Area {
    /// An area of this size around a middle.
    pub fn around(middle: Spot, width: f64, height: f64) -> Self {
        Self {
            left: middle.0 - 0.5 * width,
            top: middle.1 - 0.5 * height,
            right: middle.0 + 0.5 * width,
            bottom: middle.1 + 0.5 * height,
        }
    }

    /// The area moved as little as possible so that it lies inside another.
    pub fn held_inside(self, bounds: &Area) -> Self {
        let across = (bounds.left - self.left).max(0.0) + (bounds.right - self.right).min(0.0);
        let down = (bounds.top - self.top).max(0.0) + (bounds.bottom - self.bottom).min(0.0);
        Self {
            left: self.left + across,
            top: self.top + down,
            right: self.right + across,
            bottom: self.bottom + down,
        }
    }

    /// From edge to edge upright.
    pub fn height(&self) -> f64 {
        self.bottom - self.top
    }

    /// Area shared with another.
    fn shared(&self, other: &Area) -> f64 {
        let across = self.right.min(other.right) - self.left.max(other.left);
        let down = self.bottom.min(other.bottom) - self.top.max(other.top);
        across.max(0.0) * down.max(0.0)
    }

    /// The part of a straight line that lies inside; none when it passes by.
    pub fn clip(&self, from: Spot, to: Spot) -> Option<(Spot, Spot)> {
        let (dx, dy) = (to.0 - from.0, to.1 - from.1);
        let (mut enters, mut leaves) = (0.0_f64, 1.0_f64);
        for (run, room) in [
            (-dx, from.0 - self.left),
            (dx, self.right - from.0),
            (-dy, from.1 - self.top),
            (dy, self.bottom - from.1),
        ] {
            if !(run.is_finite() && room.is_finite()) || (run == 0.0 && room < 0.0) {
                return None;
            }
            if run < 0.0 {
                enters = enters.max(room / run);
            } else if run > 0.0 {
                leaves = leaves.min(room / run);
            }
        }
        let at = |share: f64| (from.0 + share * dx, from.1 + share * dy);
        (enters <= leaves).then(|| (at(enters), at(leaves)))
    }
}

/// What is already there.
#[derive(Debug, Default)]
pub struct Crowd {
    /// Areas that hold a text or a mark.
    pub taken: Vec<Area>,
    /// Unbroken runs of drawn lines.
    pub lines: Vec<Vec<Spot>>,
}

impl Crowd {
    /// The candidate that covers least; it then counts as taken. `step` is what a place further down
    /// the list costs; a pixel of covered line costs three.
    pub fn settle(
        &mut self,
        candidates: impl IntoIterator<Item = Area>,
        step: f64,
    ) -> Option<Area> {
        let best = candidates
            .into_iter()
            .enumerate()
            .map(|(order, area)| (self.cost(&area) + step * order as f64, area))
            .min_by(|one, other| one.0.total_cmp(&other.0))
            .map(|(_, area)| area)?;
        self.taken.push(best);
        Some(best)
    }

    /// Text over text is worse than any number of lines behind a text.
    fn cost(&self, area: &Area) -> f64 {
        let texts: f64 = self.taken.iter().map(|other| area.shared(other)).sum();
        let lines: f64 = self
            .lines
            .iter()
            .flat_map(|line| line.iter().zip(line.iter().skip(1)))
            .filter_map(|(from, to)| area.clip(*from, *to))
            .map(|(from, to)| (to.0 - from.0).hypot(to.1 - from.1))
            .sum();
        1000.0 * texts + 3.0 * lines
    }
}
