//! Where does it touch the ground? Contact points, their convex hull, and the edges it can tip over.

use crate::design::Design;
use crate::design::inputs::{Base, ContactKind, Stance};
use crate::physics::hull::{Hull, Point};
use uom::si::f64::{Angle, Length};

/// A point where the machine touches the ground, from the middle of the base.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ContactPoint {
    /// To the right.
    pub x: Length,
    /// To the back.
    pub y: Length,
    /// Foot or wheel.
    pub kind: ContactKind,
    /// Its place in the list of own contact points; a corner's number for a plain rectangle.
    pub index: usize,
}

/// Which way the machine would fall over an edge.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Towards {
    /// To the left, x negative.
    Left,
    /// To the right, x positive.
    Right,
    /// To the front, y negative.
    Front,
    /// To the back, y positive.
    Back,
    /// Over the line between two own contact points, numbered from zero.
    Between(usize, usize),
}

impl Towards {
    /// The direction in words that follow “towards”; own points are counted from one.
    ///
    /// ```
    /// use hearthplan::sizing::footprint::Towards;
    /// assert_eq!(Towards::Left.words(), "the left");
    /// assert_eq!(Towards::Between(0, 1).words(), "the side between points 1 and 2");
    /// ```
    pub fn words(self) -> String {
        match self {
            Towards::Left => "the left".to_string(),
            Towards::Right => "the right".to_string(),
            Towards::Front => "the front".to_string(),
            Towards::Back => "the back".to_string(),
            Towards::Between(from, to) => {
                format!("the side between points {} and {}", from + 1, to + 1)
            }
        }
    }

    /// The direction in few words, where there is little room, such as in a figure.
    ///
    /// ```
    /// use hearthplan::sizing::footprint::Towards;
    /// assert_eq!(Towards::Left.in_short(), "the left");
    /// assert_eq!(Towards::Between(2, 0).in_short(), "side 3–1");
    /// ```
    pub fn in_short(self) -> String {
        match self {
            Towards::Between(from, to) => format!("side {}–{}", from + 1, to + 1),
            side => side.words(),
        }
    }
}

/// A straight side of the footprint, over which the machine can tip.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Edge {
    /// Which way it falls over this edge.
    pub towards: Towards,
    /// Where the edge begins; the footprint lies to the left of the way from here.
    pub from: ContactPoint,
    /// Where the edge ends.
    pub to: ContactPoint,
    /// Direction across the edge and outwards: from the x axis, towards the y axis.
    pub azimuth: Angle,
    /// How far the edge lies inside the line through the swivels when castors swing inwards.
    pub inset: Length,
    /// Both ends are wheels that roll this way.
    pub rolls: bool,
}

impl Edge {
    /// x and y of the unit vector that points outwards across the edge.
    pub fn outwards(&self) -> (f64, f64) {
        let (dx, dy) = (
            (self.to.x - self.from.x).value,
            (self.to.y - self.from.y).value,
        );
        let length = dx.hypot(dy).max(f64::MIN_POSITIVE);
        (dy / length, -dx / length)
    }

    /// Distance of a point, given by x and y, inside this edge; negative when it lies outside.
    pub fn distance_inside(&self, x: Length, y: Length) -> Length {
        let (nx, ny) = self.outwards();
        nx * (self.from.x - x) + ny * (self.from.y - y) - self.inset
    }
}

/// What the machine stands on.
#[derive(Debug, Clone, PartialEq)]
pub struct Footprint {
    /// All contact points.
    pub points: Vec<ContactPoint>,
    /// The edges of their convex hull, counter-clockwise seen from above; empty when fewer than
    /// three points differ or all lie in one line.
    pub edges: Vec<Edge>,
}

/// The rectangle through the outermost contact points, which the base frame is welded as.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Extent {
    /// Furthest to the left.
    pub left: Length,
    /// Furthest to the right.
    pub right: Length,
    /// Furthest in front.
    pub front: Length,
    /// Furthest at the back.
    pub back: Length,
}

impl Extent {
    /// That around these points; none without a point.
    ///
    /// ```
    /// use hearthplan::design::Design;
    /// use hearthplan::sizing::footprint::{Extent, contact_points};
    /// let design = Design::default();
    /// let extent = Extent::of(&contact_points(&design)).unwrap();
    /// assert_eq!(extent.width(), design.base.width);
    /// ```
    pub fn of(points: &[ContactPoint]) -> Option<Self> {
        let (first, others) = points.split_first()?;
        let around = Self {
            left: first.x,
            right: first.x,
            front: first.y,
            back: first.y,
        };
        Some(others.iter().fold(around, |around, point| Self {
            left: around.left.min(point.x),
            right: around.right.max(point.x),
            front: around.front.min(point.y),
            back: around.back.max(point.y),
        }))
    }

    /// From side to side.
    pub fn width(&self) -> Length {
        self.right - self.left
    }

    /// From front to back.
    pub fn depth(&self) -> Length {
        self.back - self.front
    }

    /// Its middle, to the right and to the back.
    pub fn middle(&self) -> (Length, Length) {
        (
            0.5 * (self.left + self.right),
            0.5 * (self.front + self.back),
        )
    }

    /// Its corners, to the right and to the back.
    pub fn corners(&self) -> [(Length, Length); 4] {
        [
            (self.left, self.front),
            (self.right, self.front),
            (self.right, self.back),
            (self.left, self.back),
        ]
    }
}

/// Whether it stands on wheels, if only on some.
pub fn rolls(design: &Design) -> bool {
    (contact_points(design).iter()).any(|point| point.kind == ContactKind::Wheel)
}

/// Least height of the vessel above the ground: its frame, lying on its wheels where it has any.
///
/// ```
/// use hearthplan::design::{Design, inputs::Stance};
/// use hearthplan::sizing::footprint::least_clearance;
/// let mut design = Design::default();
/// design.base.stance = Stance::Feet;
/// assert_eq!(least_clearance(&design), design.base.frame_side);
/// ```
pub fn least_clearance(design: &Design) -> Length {
    let base = &design.base;
    if rolls(design) {
        base.frame_side + base.wheel_diameter
    } else {
        base.frame_side
    }
}

/// The contact points of a design. Stances other than own points are the rectangle of base width and
/// depth; of two wheels and two feet, the wheels are at the back.
///
/// ```
/// use hearthplan::{design::Design, sizing::footprint};
/// let points = footprint::contact_points(&Design::default());
/// assert_eq!(points.len(), 4);
/// ```
pub fn contact_points(design: &Design) -> Vec<ContactPoint> {
    let base = &design.base;
    let (front, back) = match base.stance {
        Stance::Feet => (ContactKind::Foot, ContactKind::Foot),
        Stance::TwoWheels => (ContactKind::Foot, ContactKind::Wheel),
        Stance::FourWheels => (ContactKind::Wheel, ContactKind::Wheel),
        Stance::Points => {
            return design
                .contacts
                .iter()
                .enumerate()
                .map(|(index, contact)| ContactPoint {
                    x: contact.x,
                    y: contact.y,
                    kind: contact.kind,
                    index,
                })
                .collect();
        }
    };
    rectangle(base.width, base.depth, front, back).to_vec()
}

/// The four corners of a plain base, counter-clockwise from the front left one.
pub(super) fn rectangle(
    width: Length,
    depth: Length,
    front: ContactKind,
    back: ContactKind,
) -> [ContactPoint; 4] {
    let corner = |index, x, y, kind| ContactPoint { x, y, kind, index };
    let (x, y) = (0.5 * width, 0.5 * depth);
    [
        corner(0, -x, -y, front),
        corner(1, x, -y, front),
        corner(2, x, y, back),
        corner(3, -x, y, back),
    ]
}

/// The footprint of a design.
///
/// ```
/// use hearthplan::{design::Design, sizing::footprint};
/// let footprint = footprint::footprint(&Design::default());
/// assert_eq!(footprint.edges.len(), 4);
/// ```
pub fn footprint(design: &Design) -> Footprint {
    around(&design.base, contact_points(design))
}

/// The footprint around these contact points of a base.
pub(super) fn around(base: &Base, points: Vec<ContactPoint>) -> Footprint {
    let castors = base.on_castors();
    let own = base.stance == Stance::Points;
    let corners = corners(&points);
    let edges = if corners.len() < 3 {
        Vec::new()
    } else {
        corners
            .iter()
            .zip(corners.iter().cycle().skip(1))
            .map(|(&from, &to)| edge(from, to, own, castors, base.castor_trail))
            .collect()
    };
    Footprint { points, edges }
}

fn edge(from: ContactPoint, to: ContactPoint, own: bool, castors: bool, trail: Length) -> Edge {
    let wheels = [from, to].map(|point| point.kind == ContactKind::Wheel);
    let mut edge = Edge {
        towards: Towards::Between(from.index, to.index),
        from,
        to,
        azimuth: Angle::default(),
        inset: Length::default(),
        rolls: false,
    };
    let (nx, ny) = edge.outwards();
    edge.azimuth = Angle::new::<uom::si::angle::radian>(ny.atan2(nx));
    if !own {
        edge.towards = match (nx.abs() > ny.abs(), nx + ny > 0.0) {
            (true, true) => Towards::Right,
            (true, false) => Towards::Left,
            (false, true) => Towards::Back,
            (false, false) => Towards::Front,
        };
    }
    // Either castor can swing in by its trail; taking both at once is the least favourable case.
    if castors && (wheels[0] || wheels[1]) {
        edge.inset = trail;
    }
    // A fixed wheel rolls front to back: an edge counts when it lies more across than along.
    edge.rolls = wheels[0] && wheels[1] && (castors || ny.abs() > nx.abs());
    edge
}

/// The contact points at the corners of their convex hull, counter-clockwise; none without an area.
fn corners(points: &[ContactPoint]) -> Vec<ContactPoint> {
    let places: Vec<Point> = points
        .iter()
        .map(|point| Point {
            x: point.x.value,
            y: point.y.value,
        })
        .collect();
    let Ok(hull) = Hull::new(&places) else {
        return Vec::new();
    };
    hull.corners()
        .iter()
        .filter_map(|corner| {
            let place = places.iter().position(|place| place == corner)?;
            points.get(place).copied()
        })
        .collect()
}
