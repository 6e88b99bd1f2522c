//! A cyclone with its inside dimensions, from the front: the inlet is looked into.

use super::pen::Pen;
use super::sheet::{Sheet, WIDTH};
use crate::app::Workspace;
use crate::app::markup::text;
use crate::design::quantity::{Quantity, System};
use crate::sizing::cyclone::CycloneDimensions;
use crate::sizing::train::Stage;
use leptos::prelude::*;
use uom::si::f64::Length;

/// Height of body and cone in pixels, and where they stand.
const HEIGHT: f64 = 190.0;
const TOP: f64 = 42.0;
const AXIS: f64 = 70.0;
/// Where the list of dimensions begins and how far its lines are apart.
const LIST: f64 = 146.0;
const LINE: f64 = 24.0;

/// The figure of the cyclone at this place of the train; nothing for other stages.
#[component]
pub fn CycloneFigure(index: usize) -> impl IntoView {
    let workspace = Workspace::get();
    let sheet = Memo::new(move |_| {
        let system = workspace.system.get();
        workspace
            .assessment
            .with(|assessment| match assessment.train.stages.get(index) {
                Some(Stage::Cyclone(cyclone)) => Some(draw(&cyclone.dimensions(), system)),
                _ => None,
            })
    });
    move || {
        sheet.get().map(|sheet| {
            view! {
                <figure class="train">
                    <svg
                        role="group"
                        aria-label="Inside dimensions of the cyclone"
                        viewBox=format!("0 0 {WIDTH} {:.0}", sheet.height)
                        inner_html=text(&sheet.elements)
                    ></svg>
                </figure>
            }
            .into_any()
        })
    }
}

fn draw(lengths: &CycloneDimensions, system: System) -> Sheet {
    let mut pen = Pen::new(false);
    let scale = HEIGHT / (lengths.body_height + lengths.cone_height).value;
    let px = |length: Length| length.value * scale;
    let (body, outlet, dust) = (
        px(lengths.body_diameter) / 2.0,
        px(lengths.outlet_diameter) / 2.0,
        px(lengths.dust_outlet) / 2.0,
    );
    let (height, finder) = (px(lengths.body_height), px(lengths.vortex_finder));
    let outline = format!(
        "M{:.1} 0H{body:.1}V{height:.1}L{dust:.1} {HEIGHT}H{:.1}L{:.1} {height:.1}Z",
        -body, -dust, -body
    );
    pen.path("body", &outline, AXIS, TOP);
    let pipe = format!("M{:.1}-14V{finder:.1}M{outlet:.1}-14V{finder:.1}", -outlet);
    pen.path("inside", &pipe, AXIS, TOP);
    let (tall, wide) = (px(lengths.inlet_height), px(lengths.inlet_width));
    let slot = format!("M{:.1} 0h{wide:.1}v{tall:.1}h{:.1}Z", -body, -wide);
    pen.path("body", &slot, AXIS, TOP);

    let [far, near, left] = [body + 34.0, body + 12.0, -body - 12.0];
    across(&mut pen, [-body, body], -28.0, "D");
    across(&mut pen, [-outlet, outlet], -14.0, "");
    pen.text("number", AXIS + outlet + 6.0, TOP - 10.0, "e");
    along(&mut pen, near, [0.0, finder], "s");
    along(&mut pen, far, [0.0, height], "h");
    along(&mut pen, far, [height, HEIGHT], "z");
    along(&mut pen, left, [0.0, tall], "a");
    across(&mut pen, [-body, wide - body], tall + 10.0, "");
    pen.text("number", AXIS + wide - body + 5.0, TOP + tall + 16.0, "b");
    across(&mut pen, [-dust, dust], HEIGHT + 12.0, "");
    pen.text("number", AXIS + dust + 6.0, TOP + HEIGHT + 18.0, "j");

    let list = [
        ("D", "body ⌀", lengths.body_diameter),
        ("e", "outlet pipe ⌀", lengths.outlet_diameter),
        ("s", "pipe inside", lengths.vortex_finder),
        ("a", "inlet height", lengths.inlet_height),
        ("b", "inlet width", lengths.inlet_width),
        ("h", "straight body", lengths.body_height),
        ("z", "cone", lengths.cone_height),
        ("j", "dust outlet ⌀", lengths.dust_outlet),
    ];
    let mut y = TOP;
    for (sign, label, length) in list {
        let shown = Quantity::Length.show(length.value, system);
        pen.text("number", LIST, y, &format!("{sign}  {label}"));
        pen.text("name", LIST + 108.0, y, &shown);
        y += LINE;
    }
    Sheet {
        elements: pen.finish(),
        height: TOP + HEIGHT + 26.0,
    }
}

/// A dimension line from left to right, its letter above its middle.
fn across(pen: &mut Pen, [from, to]: [f64; 2], y: f64, letter: &str) {
    let line = format!(
        "M{from:.1} {y:.1}H{to:.1}M{:.1} {:.1}l6-6M{:.1} {:.1}l6-6",
        from - 3.0,
        y + 3.0,
        to - 3.0,
        y + 3.0
    );
    pen.path("inside", &line, AXIS, TOP);
    pen.text(
        "number",
        AXIS + (from + to) / 2.0 - 4.0,
        TOP + y - 3.0,
        letter,
    );
}

/// A dimension line downwards, its letter to the right of its middle.
fn along(pen: &mut Pen, x: f64, [from, to]: [f64; 2], letter: &str) {
    let line = format!(
        "M{x:.1} {from:.1}V{to:.1}M{:.1} {:.1}l6-6M{:.1} {:.1}l6-6",
        x - 3.0,
        from + 3.0,
        x - 3.0,
        to + 3.0
    );
    pen.path("inside", &line, AXIS, TOP);
    let beside = if x < 0.0 { x - 12.0 } else { x + 5.0 };
    pen.text(
        "number",
        AXIS + beside,
        TOP + (from + to) / 2.0 + 4.0,
        letter,
    );
}
