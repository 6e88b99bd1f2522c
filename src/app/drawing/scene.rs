//! Everything the figure shows, worked out from design and assessment before it becomes SVG.

use super::frame::{self, Bounds, FALLEN, extent, widest};
use super::ghost::Ghost;
use super::ink::{Leads, PieceName, Stroke, Touchable, View, polygon};
use super::notes::{Beside, Notes, Remark, place, tape};
use super::pieces::{self, mm};
use super::skins::skins;
use super::tilt;
use super::told::words;
use crate::design::Design;
use crate::design::inputs::HearthKind;
use crate::design::phrase::{Measure, lower_first};
use crate::design::quantity::{Quantity, System};
use crate::review::{Assessment, Verdict};
use uom::si::f64::Angle;

/// The figure, in millimetres of the machine, up being positive until it becomes SVG.
#[derive(Debug, Clone, PartialEq)]
pub struct Scene {
    /// What is shown.
    bounds: Bounds,
    /// How far to the right the ground can be taken hold of.
    grip: f64,
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
    /// What the rings are for that can be dragged.
    pub drags: Notes,
    /// The other design of a comparison.
    pub ghost: Ghost,
    /// The figure in words.
    pub words: String,
}

impl Scene {
    /// The figure without any lines, on level ground.
    pub fn empty(bounds: Bounds, text_size: f64) -> Self {
        Self {
            bounds,
            grip: bounds.1 - 1.5 * text_size,
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
            drags: Notes::default(),
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
        let reach = widest(
            other.map(|(_, other)| extent(&other.standing.machine, view)),
            extent(machine, view),
        );
        let top = mm(machine.top).max(ghost.top);
        let stands = edges(assessment, view);
        let (edge_left, edge_right) = stands.unwrap_or(reach);
        let edge = if tilt >= 0.0 { edge_right } else { edge_left };

        let tips_at = tilt::tips_at(standing, view, tilt);
        let fallen = tilt::goes_over(tips_at, tilt);

        let other_stands = other.and_then(|(_, other)| edges(other, view));
        let reach = widest(other_stands, widest(stands, reach));
        let at_rest = frame::text_size(top, reach.1 - reach.0, other.is_some());
        let level = frame::level(reach, top, at_rest);
        let grip = level.1 - 1.5 * at_rest;
        let bounds = if tilt == 0.0 {
            level
        } else {
            let wheel = mm(design.base.wheel_diameter);
            let outline = frame::outline(machine, view, stands, wheel, 0.4 * at_rest);
            let shown = frame::tilted(level, &outline, edge, tilt, tips_at);
            // So that it can be dragged on.
            let (x, up) = frame::turn((grip, 0.0), edge, tilt);
            let room = 1.2 * at_rest;
            let shown = frame::holding(shown, (x + room, up + room));
            frame::holding(shown, (x - room, up - room))
        };
        let text_size = at_rest * frame::growth(level, bounds);
        let mut scene = Self {
            grip,
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
            scene.caption_grip();
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
        notes.level_in_line(edge_left, edge_right, -0.9 * size, size, tape(wide, system));
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
        beside.right.extend(tips(assessment, view, system));
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
        // What was pushed up beside a low machine is shown too.
        let highest = notes.labels.iter().map(|label| label.at.1);
        self.bounds.3 = highest.fold(bounds.3, |top, up| top.max(up + 1.4 * size));
    }

    /// Says once what the rings are for.
    fn caption_grip(&mut self) {
        let at = (self.grip, -1.5 * self.text_size);
        self.drags.text(at, "drag".to_string(), "label", "middle");
    }

    /// The same figure without texts and so much larger that only this is seen of it.
    pub fn close_up(self, bounds: Bounds) -> Self {
        let text_size = (bounds.3 - bounds.2) / 30.0;
        Self {
            bounds,
            text_size,
            ground: ground(bounds, text_size),
            notes: Notes::default(),
            drags: Notes::default(),
            ..self
        }
    }

    /// Whether the machine stands on a slope.
    pub fn is_tilted(&self) -> bool {
        self.tilt != 0.0
    }

    /// The machine without the room for its texts, all of it.
    pub fn without_margins(&self) -> Bounds {
        let (left, right, bottom, top) = self.bounds;
        let less = 7.4 * self.text_size;
        (left + less, right - less, bottom, top)
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
        (self.grip, 0.0)
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

pub(super) fn ground((left, right, ..): Bounds, size: f64) -> Vec<Stroke> {
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

/// At which slope the machine tips to the sides that are seen; and to another side, where it does so on a lesser one.
fn tips(assessment: &Assessment, view: View, system: System) -> Vec<Remark> {
    let standing = &assessment.standing;
    let show = |angle: Angle| Measure::new(Quantity::Angle, angle.value.max(0.0)).show(system);
    let Some(weakest) = standing.full.weakest() else {
        return Vec::new();
    };
    let least = show(weakest.tip_angle);
    let seen = [-1.0, 1.0]
        .into_iter()
        .filter_map(|tilt| tilt::tips_at(standing, view, tilt))
        .reduce(Angle::min)
        .map_or_else(|| least.clone(), show);
    let from = place(&standing.full.weight.centre, view);
    let remark = |name: String, value: String, class, from| Remark {
        from,
        name,
        value,
        class,
        leads: Leads::Verdict("standing.tip_full"),
    };
    let judged = tone(assessment, &["standing.tip_full"]);
    let named = "tips at".to_string();
    if seen == least {
        return vec![remark(named, least, judged, from)];
    }
    // The first one reads on into the second, which is pushed below it.
    let elsewhere = format!("to {}", weakest.edge.towards.in_short());
    vec![
        remark(elsewhere, least, judged, from),
        remark(named, seen, "label", (from.0, from.1 + 1.0)),
    ]
}

/// The worst verdict of some findings, as a style class of a label.
pub(super) fn tone(assessment: &Assessment, ids: &[&str]) -> &'static str {
    let worst = ids
        .iter()
        .filter_map(|id| assessment.finding(id))
        .map(|finding| finding.verdict)
        .max()
        .unwrap_or(Verdict::Good);
    tone_of(worst)
}

/// A verdict as a style class of a label.
pub(super) fn tone_of(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Good => "label",
        Verdict::Watch => "label watch",
        Verdict::CannotTell => "label cannot-tell",
        Verdict::Stop => "label stop",
    }
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
