//! Everything the figure shows, worked out from design and assessment before it becomes SVG.

use super::ghost::{self, Ghost};
use super::ink::{Leads, PieceName, Stroke, Touchable, View, polygon};
use super::notes::{Beside, Notes, Remark, place, tape};
use super::pieces::{self, mm};
use super::skins::skins;
use super::tilt;
use crate::design::Design;
use crate::design::inputs::HearthKind;
use crate::design::phrase::{Measure, lower_first};
use crate::design::quantity::{Quantity, System};
use crate::review::{Assessment, Verdict};
use crate::sizing::machine::Envelope;
use uom::si::f64::Angle;

/// Height of a text as a share of the figure's height.
const TEXT_SHARE: f64 = 1.0 / 19.0;
/// How far a fallen machine is shown turned beyond the slope, degrees.
const FALLEN: f64 = 35.0;

/// The figure, in millimetres of the machine, up being positive until it becomes SVG.
#[derive(Debug, Clone, PartialEq)]
pub struct Scene {
    /// Left, right, lowest and highest point shown.
    bounds: (f64, f64, f64, f64),
    /// Height of a text.
    pub text_size: f64,
    /// Slope tried, degrees; positive falls to the right.
    tilt: f64,
    /// The edge it turns over, to the right of the middle.
    edge: f64,
    /// Whether it goes over on the slope tried.
    pub fallen: bool,
    /// Ground line and its hatching.
    pub ground: Vec<Stroke>,
    /// The solids.
    pub touchables: Vec<Touchable>,
    /// Feet and wheels.
    pub contacts: Vec<Stroke>,
    /// Nozzle jets, throat, grate.
    pub fire: Vec<Stroke>,
    /// Centre of gravity and the line to the edge; moves with the machine.
    pub balance: Notes,
    /// Dimension lines and leaders; stay level.
    pub notes: Notes,
    /// The other design of a comparison.
    pub ghost: Ghost,
    /// The figure in words.
    pub words: String,
}

impl Scene {
    /// The figure without any lines, on level ground.
    pub fn empty(bounds: (f64, f64, f64, f64), text_size: f64) -> Self {
        Self {
            bounds,
            text_size,
            tilt: 0.0,
            edge: 0.0,
            fallen: false,
            ground: Vec::new(),
            touchables: Vec::new(),
            contacts: Vec::new(),
            fire: Vec::new(),
            balance: Notes::default(),
            notes: Notes::default(),
            ghost: Ghost::default(),
            words: String::new(),
        }
    }

    /// The figure of a design with its assessment, and over it the outline of another one.
    pub fn of(
        design: &Design,
        assessment: &Assessment,
        other: Option<(&Design, &Assessment)>,
        view: View,
        tilt: f64,
        system: System,
    ) -> Self {
        let standing = &assessment.standing;
        let machine = &standing.machine;
        let ghost = other.map_or_else(Ghost::default, |(other, its)| {
            Ghost::of(other, its, view).without(&Ghost::of(design, assessment, view))
        });
        // Both must fit, or the scales would not be the same.
        let (left, right) = widest(
            other.map(|(_, other)| extent(other, view)),
            extent(assessment, view),
        );
        let top = mm(machine.top).max(ghost.top);
        let height = top * 1.22 + 120.0;
        let text_size = height * TEXT_SHARE;
        let (edge_left, edge_right) = edges(assessment, view).unwrap_or((left, right));
        let edge = if tilt >= 0.0 { edge_right } else { edge_left };

        let tips_at = tilt::tips_at(standing, view, tilt);
        let fallen = tilt::goes_over(tips_at, tilt);

        let margin = 9.0 * text_size;
        let (other_left, other_right) = widest(
            other.and_then(|(_, other)| edges(other, view)),
            (edge_left, edge_right),
        );
        let bounds = (
            left.min(other_left) - margin,
            right.max(other_right) + margin,
            -3.2 * text_size,
            top + 1.6 * text_size,
        );
        let mut scene = Self {
            tilt,
            edge,
            fallen,
            ground: ground(bounds, text_size),
            touchables: pieces::touchables(design, machine, view),
            contacts: pieces::contacts(design, &standing.footprint, view),
            fire: pieces::fire(design, machine, view),
            ghost,
            words: words(design, assessment, other, system),
            ..Self::empty(bounds, text_size)
        };
        scene.weigh(assessment, view);
        if tilt == 0.0 {
            scene.annotate(assessment, view, system, (edge_left, edge_right));
        } else {
            scene.tell_tilt(tips_at, system);
        }
        scene
    }

    fn weigh(&mut self, assessment: &Assessment, view: View) {
        let standing = &assessment.standing;
        let size = self.text_size;
        let full = &standing.full.weight.centre;
        let (x, up) = place(full, view);
        self.balance.line(&[(x, up), (self.edge, 0.0)], "to-edge");
        // The plumb line leans against the tilted machine so that it hangs straight in the figure.
        let lean = if self.fallen {
            0.0
        } else {
            self.tilt.to_radians()
        };
        self.balance
            .line(&[(x, up), (x + up * lean.tan(), 0.0)], "plumb");
        let empty = place(&standing.empty.weight.centre, view);
        self.balance
            .centre(empty, 0.7 * size, "centre centre-empty");
        self.balance.centre((x, up), size, "centre");
    }

    fn annotate(
        &mut self,
        assessment: &Assessment,
        view: View,
        system: System,
        (edge_left, edge_right): (f64, f64),
    ) {
        let size = self.text_size;
        let machine = &assessment.standing.machine;
        let vessel = &machine.vessel;
        let axis = mm(match view {
            View::Front => vessel.x,
            View::Side => vessel.y,
        });
        let bounds = self.bounds;
        let (left, right) = (bounds.0 + 8.0 * size, bounds.1 - 8.0 * size);
        let notes = &mut self.notes;
        let (top, wide) = (mm(machine.top), edge_right - edge_left);
        notes.level(edge_left, edge_right, -0.9 * size, size, tape(wide, system));
        notes.leading(Leads::Input(match view {
            View::Front => "base.width",
            View::Side => "base.depth",
        }));
        // The throat is told on the same side, on up to two lines: the height stands clear above it.
        let throat = mm(machine.hearth.throat);
        let told_at = match (0.5 * top - throat) / size {
            near if (-3.0..1.2).contains(&near) => throat + 1.3 * size,
            _ => 0.5 * top,
        };
        notes.upright_told_at(left, (0.0, top), told_at, size, tape(top, system));
        notes.leading(Leads::Group("vessel"));

        let mut beside = Beside::default();
        let (name, leads) = match assessment.hearth.kind {
            HearthKind::Constricted => ("throat", "hearth.throat_diameter"),
            HearthKind::Straight => ("tube", "hearth.tube_diameter"),
        };
        beside.left.push(Remark {
            from: (axis - mm(machine.hearth.throat_radius), throat),
            name: name.to_string(),
            value: tape(2.0 * mm(machine.hearth.throat_radius), system),
            leads: Leads::Input(leads),
            class: tone(
                assessment,
                &["hearth.load_full", "hearth.load_idle", "hearth.fire_tube"],
            ),
        });
        for skin in skins(assessment) {
            beside.right.push(Remark {
                from: (axis + skin.radius, skin.up),
                name: lower_first(skin.zone.label()),
                value: Measure::new(Quantity::Temperature, skin.kelvin).show(system),
                class: tone(assessment, &[skin.finding]),
                leads: skin.outermost.map_or(Leads::Nowhere, Leads::Piece),
            });
        }
        if let Some(weakest) = assessment.standing.full.weakest() {
            let angle = Measure::new(Quantity::Angle, weakest.tip_angle.value).show(system);
            beside.right.push(Remark {
                from: place(&assessment.standing.full.weight.centre, view),
                name: "tips at".to_string(),
                value: angle,
                class: tone(assessment, &["standing.tip_full"]),
                leads: Leads::Verdict("standing.tip_full"),
            });
        }
        let flow = Measure::new(
            Quantity::NormalFlow,
            assessment.heart.at.full.supply.gas_flow.value,
        );
        beside.right.push(Remark {
            from: (
                axis + 0.5 * mm(vessel.hearth_inner_radius),
                mm(machine.hearth.grate),
            ),
            name: "gas".to_string(),
            value: flow.show(system),
            class: "label gas",
            leads: Leads::Group("gas"),
        });
        // The texts on the left end before the dimension line.
        notes.beside(beside, (left - 0.2 * size, right), bounds, size);
    }

    fn tell_tilt(&mut self, tips_at: Option<Angle>, system: System) {
        let (left, right, _, top) = self.bounds;
        let text = match tips_at {
            None => "has no footprint\nto stand on".to_string(),
            Some(angle) => {
                let angle = Measure::new(Quantity::Angle, angle.value.max(0.0)).show(system);
                if self.fallen {
                    format!("goes over: tips\nat {angle} this way")
                } else {
                    format!("stands: tips\nat {angle} this way")
                }
            }
        };
        let in_one_line = text.replace('\n', " ");
        self.words
            .push_str(&format!(" On this slope it {in_one_line}."));
        let class = if self.fallen { "label stop" } else { "label" };
        // On the side that the machine leans away from.
        let (at, anchor) = if self.tilt > 0.0 {
            (left + 0.8 * self.text_size, "start")
        } else {
            (right - 0.8 * self.text_size, "end")
        };
        let at = (at, top - 1.2 * self.text_size);
        self.notes.text(at, text, class, anchor);
    }

    /// Where the ground can be taken hold of, mm, before it is turned.
    pub fn ground_grip(&self) -> (f64, f64) {
        (self.bounds.1 - 1.5 * self.text_size, 0.0)
    }

    /// The slope that brings the ground under a point of the figure, degrees.
    pub fn slope_towards(&self, (x, up): (f64, f64)) -> f64 {
        (-up)
            .atan2((x - self.edge).max(self.text_size))
            .to_degrees()
    }

    /// The point of the figure under a place of its element, both measured from the left and top
    /// edge; the figure keeps its proportions and is centred.
    pub fn point_under(&self, (x, y): (f64, f64), (width, height): (f64, f64)) -> (f64, f64) {
        let (left, right, bottom, top) = self.bounds;
        let scale = ((right - left) / width.max(1.0)).max((top - bottom) / height.max(1.0));
        let centre = (0.5 * (left + right), 0.5 * (bottom + top));
        (
            centre.0 + (x - 0.5 * width) * scale,
            centre.1 - (y - 0.5 * height) * scale,
        )
    }

    /// The names of all pieces, far ones first.
    pub fn piece_names(&self) -> Vec<PieceName> {
        self.touchables
            .iter()
            .map(|piece| piece.name.clone())
            .collect()
    }

    /// The lines of a piece.
    pub fn strokes_of(&self, name: &PieceName) -> &[Stroke] {
        self.touchables
            .iter()
            .find(|piece| piece.name == *name)
            .map_or(&[], |piece| &piece.strokes)
    }

    /// The figure's `viewBox`.
    pub fn view_box(&self) -> String {
        view_box(self.bounds)
    }

    /// Turns ground and machine by the slope tried, about the edge it would go over.
    pub fn lean(&self) -> String {
        format!("rotate({:.2} {:.1} 0)", self.tilt, self.edge)
    }

    /// Turns the machine further, once it has gone over.
    pub fn fall(&self) -> String {
        let turn = if self.fallen {
            FALLEN * self.tilt.signum()
        } else {
            0.0
        };
        format!("rotate({turn:.1} {:.1} 0)", self.edge)
    }
}

/// Leftmost and rightmost point of all solids, mm.
pub(super) fn extent(assessment: &Assessment, view: View) -> (f64, f64) {
    let sides = assessment
        .standing
        .machine
        .solids
        .iter()
        .map(|solid| match solid.envelope {
            Envelope::Round(round) => {
                let axis = mm(match view {
                    View::Front => round.x,
                    View::Side => round.y,
                });
                let radius = mm(round.outer_bottom).max(mm(round.outer_top));
                (axis - radius, axis + radius)
            }
            Envelope::Box(sides) => match view {
                View::Front => (mm(sides.left), mm(sides.right)),
                View::Side => (mm(sides.front), mm(sides.back)),
            },
        });
    sides
        .reduce(|known, more| (known.0.min(more.0), known.1.max(more.1)))
        .unwrap_or((-300.0, 300.0))
}

/// The reach of both, mm.
pub(super) fn widest(other: Option<(f64, f64)>, own: (f64, f64)) -> (f64, f64) {
    other.map_or(own, |other| (own.0.min(other.0), own.1.max(other.1)))
}

/// Outermost contact points, mm.
pub(super) fn edges(assessment: &Assessment, view: View) -> Option<(f64, f64)> {
    assessment
        .standing
        .footprint
        .points
        .iter()
        .map(|point| match view {
            View::Front => mm(point.x),
            View::Side => mm(point.y),
        })
        .map(|at| (at, at))
        .reduce(|known, more| (known.0.min(more.0), known.1.max(more.1)))
}

pub(super) fn ground((left, right, ..): (f64, f64, f64, f64), size: f64) -> Vec<Stroke> {
    let mut ground = vec![Stroke {
        line: polygon(&[(2.0 * left, 0.0), (2.0 * right, 0.0)], false),
        class: "ground",
        fill: "none",
    }];
    let mut hatching = String::new();
    let mut at = left;
    while at < right && size > 0.0 {
        hatching.push_str(&polygon(
            &[(at, 0.0), (at - 0.5 * size, -0.5 * size)],
            false,
        ));
        at += 0.8 * size;
    }
    ground.push(Stroke {
        line: hatching,
        class: "ground-hatch",
        fill: "none",
    });
    ground
}

/// The worst verdict of some findings, as a style class of a label.
pub(super) fn tone(assessment: &Assessment, ids: &[&str]) -> &'static str {
    let worst = ids
        .iter()
        .filter_map(|id| assessment.finding(id))
        .map(|finding| finding.verdict)
        .max()
        .unwrap_or(Verdict::Good);
    match worst {
        Verdict::Good => "label",
        Verdict::Watch => "label watch",
        Verdict::CannotTell => "label cannot-tell",
        Verdict::Stop => "label stop",
    }
}

/// The figure in words, for those who do not see it, and how another design differs.
pub(super) fn words(
    design: &Design,
    assessment: &Assessment,
    other: Option<(&Design, &Assessment)>,
    system: System,
) -> String {
    let standing = &assessment.standing;
    let show = |quantity: Quantity, si: f64| quantity.show(si, system);
    let stands_on = |view| {
        let (from, to) = edges(assessment, view).unwrap_or_default();
        show(Quantity::Length, (to - from) / 1000.0)
    };
    let mut words = format!(
        "{}: {} high, on a base {} wide and {} deep, {} when full, {} empty.",
        design.about.name,
        show(Quantity::Length, standing.machine.top.value),
        stands_on(View::Front),
        stands_on(View::Side),
        show(Quantity::Mass, standing.full.weight.mass.value),
        show(Quantity::Mass, standing.empty.weight.mass.value),
    );
    if let Some(overall) = &standing.overall {
        words.push_str(&format!(
            " Over all it is {} wide and {} deep, without pipes and hoses.",
            show(Quantity::Length, overall.width().value),
            show(Quantity::Length, overall.depth().value)
        ));
    }
    if let Some(weakest) = standing.full.weakest() {
        words.push_str(&format!(
            " Full, it tips to {} on a slope of {}.",
            weakest.edge.towards.words(),
            show(Quantity::Angle, weakest.tip_angle.value)
        ));
    }
    let failing = assessment
        .findings
        .iter()
        .filter(|finding| finding.verdict != Verdict::Good)
        .map(|finding| format!("{}: {}", finding.verdict.word(), finding.title))
        .collect::<Vec<_>>();
    if !failing.is_empty() {
        words.push_str(&format!(" {}.", failing.join("; ")));
    }
    if let Some(other) = other {
        words.push_str(&ghost::words((design, assessment), other, system));
    }
    words
}

/// The `viewBox` of a figure from left to right and from bottom to top.
pub fn view_box((left, right, bottom, top): (f64, f64, f64, f64)) -> String {
    format!(
        "{left:.0} {:.0} {:.0} {:.0}",
        -top,
        right - left,
        top - bottom
    )
}
