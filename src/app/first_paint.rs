//! What the page shows before the app is there: the first screen of the first visit, as text. The
//! build asks the finished program for it and puts it into the page; start.js takes it away again.

use super::drafts;
use super::drawing;
use super::panel::Panel;
use super::verdicts::{mark, tally, to_mend};
use crate::design::quantity::{Quantity, System};
use crate::design::{Design, example};
use crate::paper::html::{class, escaped};
use crate::review::{Assessment, Finding, Verdict, assess};
use std::fmt::Write as _;
use wasm_bindgen::prelude::*;

/// Verdicts that fill the first screen of a desk; the rest would only lengthen the page.
const ROWS: usize = 6;

/// The header, the machine and the first verdicts of the example, as HTML that does nothing.
#[wasm_bindgen]
pub fn first_paint() -> String {
    let (design, system) = (example::as_first_drawn(), System::Metric);
    let assessment = assess(&design);
    [
        header(&design),
        welcome(),
        screen(&design, &assessment, system),
        bar(),
    ]
    .concat()
}

fn header(design: &Design) -> String {
    format!(
        "<header class=\"top\"><h1>{}<span class=\"invented\">Invented example</span></h1><div class=\"tools\">\
         <button disabled>↶</button><button disabled>↷</button><div class=\"switch\"><button aria-pressed=\"true\">mm</button>\
         <button>in</button></div><button class=\"designs-button\">Designs and sharing</button></div></header>",
        escaped(&design.about.name)
    )
}

fn welcome() -> String {
    format!(
        "<div class=\"above\"><div class=\"notices\"><p class=\"notice\"><span>{}</span><button>{}</button><button>×</button></p></div></div>",
        drafts::WELCOME.0,
        drafts::WELCOME.1
    )
}

fn screen(design: &Design, assessment: &Assessment, system: System) -> String {
    let tallies: String = tally(assessment)
        .into_iter()
        .map(|(verdict, count)| {
            format!(
                "<span class=\"tally {}\">{}{count} {}</span>",
                class(verdict),
                drawn(verdict),
                verdict.word()
            )
        })
        .collect();
    let rows: String = to_mend(assessment)
        .into_iter()
        .take(ROWS)
        .map(|(finding, news)| row(finding, news, system))
        .collect();
    format!(
        "<div class=\"screen\"><div class=\"left\"><section class=\"bench\"><p class=\"summary\">{tallies}</p>\
         <figure class=\"drawing\">{}{}</figure></section></div><section class=\"panel panel-verdicts\"><section class=\"verdicts\">\
         <div class=\"how-sure\"><button class=\"ask\">How sure is this?</button></div>\
         <section class=\"best-step\"><h2>Best step</h2><p class=\"meaning\">Looking for what would mend most…</p></section>\
         <h2>What to mend</h2>{rows}</section></section></div>",
        drawing::at_first(design, assessment, system),
        tilt(system)
    )
}

fn tilt(system: System) -> String {
    format!(
        "<div class=\"tilt\"><label>Tilt <output>{}</output></label><input type=\"range\" tabindex=\"-1\" aria-label=\"Tilt\">\
         <div class=\"switch\"><button aria-pressed=\"true\">Front</button><button>Side</button></div></div>",
        Quantity::Angle.show(0.0, system)
    )
}

fn row(finding: &Finding, news: bool, system: System) -> String {
    let mut row = format!(
        "<article class=\"finding {}\"><h3><button class=\"finding-head\"><span class=\"verdict\">{}{}</span>\
         <span class=\"title\">{}</span><span class=\"compared\">{}</span></button></h3>",
        class(finding.verdict),
        drawn(finding.verdict),
        finding.verdict.word(),
        escaped(finding.title),
        escaped(&finding.compared.text(system))
    );
    if let Some(caution) = finding.caution.filter(|_| news) {
        // Writing to a string cannot fail.
        let _ = write!(row, "<p class=\"caution\">{}</p>", escaped(caution));
    }
    row.push_str("</article>");
    row
}

fn drawn(verdict: Verdict) -> String {
    let (outline, sign) = mark::shape(verdict);
    format!(
        "<svg class=\"mark\" viewBox=\"0 0 20 20\" width=\"20\" height=\"20\"><path class=\"mark-outline\" d=\"{outline}\"/>\
         <path class=\"mark-sign\" d=\"{sign}\"/></svg>"
    )
}

fn bar() -> String {
    let buttons: String = Panel::ALL
        .into_iter()
        .filter(|panel| *panel != Panel::Compare)
        .map(|panel| {
            format!(
                "<button aria-pressed=\"{}\">{}</button>",
                panel == Panel::Verdicts,
                panel.label()
            )
        })
        .collect();
    format!("<nav class=\"panel-bar\">{buttons}</nav>")
}
