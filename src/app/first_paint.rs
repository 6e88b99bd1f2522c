//! What the page shows before the app is there: the first screen of the first visit, as text. The
//! build asks the finished program for it and puts it into the page; the app takes it away again.

use super::drafts;
use super::drawing;
use super::layout::DESK;
use super::panel::Panel;
use super::verdicts::remedy::{BOTH, Proposal, best, heading, together};
use super::verdicts::{
    FIND_ALL, FIRST_OUTCOME, Outcome, SHOW_IT, Trial, tally, to_mend, words_for, worst_by_name,
};
use crate::design::quantity::{Quantity, System};
use crate::design::{Design, example};
use crate::paper::html::{self, class, escaped};
use crate::review::{Assessment, Finding, assess};
use wasm_bindgen::prelude::*;

/// Verdicts that fill the first screen of a desk; the rest would only lengthen the page.
const ROWS: usize = 6;

/// The header, the machine and the first verdicts of the example, as HTML that does nothing; and what
/// mends it, written down for the app to start with.
#[wasm_bindgen]
pub fn first_paint() -> String {
    let (design, system) = (example::as_first_drawn(), System::Metric);
    let trial = Trial::of_design(design.clone());
    let written = trial.written_whole();
    let outcome = trial.outcome(&trial.read_all(&written).unwrap_or_default());
    let first = First {
        assessment: assess(&design),
        design,
        outcome,
        system,
    };
    format!(
        "<div id=\"first-screen\" inert>{}{}{}{}</div><script type=\"application/json\" id=\"{FIRST_OUTCOME}\">{}</script>",
        header(&first.design),
        welcome(),
        first.screen(),
        bar(),
        written.replace('<', "\\u003c")
    )
}

/// What the first screen shows.
struct First {
    design: Design,
    assessment: Assessment,
    outcome: Outcome,
    system: System,
}

fn header(design: &Design) -> String {
    let parts: String = (DESK.iter())
        .map(|panel| format!("<button>{}</button>", panel.label()))
        .collect();
    format!(
        "<header class=\"top\"><h1>{}<span class=\"invented\">Invented example</span></h1>\
         <nav class=\"parts\">{parts}</nav><div class=\"tools\">\
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

impl First {
    fn screen(&self) -> String {
        let Self {
            design,
            assessment,
            outcome,
            system,
        } = self;
        let tallies: String = tally(assessment)
            .into_iter()
            .map(|(verdict, count)| {
                format!(
                    "<button class=\"tally {}\">{}<span class=\"counted\">{count} <span class=\"word\">{}</span></span></button>",
                    class(verdict),
                    html::mark(verdict),
                    verdict.word()
                )
            })
            .collect();
        let worst = worst_by_name(assessment).map_or_else(String::new, |(_, line)| {
            format!(
                "<button class=\"worst\"><span>{}</span></button>",
                escaped(&line)
            )
        });
        let best = best(outcome);
        let heading = heading(best.len());
        let best: String = (best.iter())
            .map(|(lead, proposal, effect)| self.offer(lead, proposal, effect, None))
            .collect();
        let tilt = tilt(*system);
        let rows: String = to_mend(assessment)
            .into_iter()
            .take(ROWS)
            .map(|(finding, news)| self.row(finding, news))
            .collect();
        format!(
            "<div class=\"screen\"><div class=\"left\"><section class=\"bench\"><div class=\"stays\">\
             <p class=\"summary\">{tallies}</p><div class=\"larger-at-hand\"><button>Larger</button></div>\
             <figure class=\"drawing\">{}</figure></div>{worst}{tilt}</section></div><section class=\"panel panel-verdicts\">\
             <section class=\"verdicts\"><section class=\"best-step\"><h2>{heading} </h2><ul class=\"remedies\">{best}</ul>\
             <div class=\"whole-way\"><button class=\"ask\">{FIND_ALL}</button></div></section>{tilt}\
             <div class=\"how-sure\"><button class=\"ask\">How sure is this?</button></div>\
             <h2>What to mend</h2>{rows}</section></section></div>",
            drawing::at_first(design, assessment, *system)
        )
    }

    fn row(&self, finding: &Finding, news: bool) -> String {
        let caution = finding.caution.filter(|_| news);
        let caution = caution.map_or_else(String::new, |caution| {
            format!("<p class=\"caution\">{}</p>", escaped(caution))
        });
        let offered = self.outcome.offered.get(finding.id);
        let offered = offered.cloned().unwrap_or_default();
        if let Some(elsewhere) = self.outcome.elsewhere.get(finding.id) {
            let words = words_for(elsewhere, &self.outcome, &self.design, self.system);
            let told = format!(
                "<p class=\"elsewhere\"><span>{}</span><button>{SHOW_IT}</button></p>",
                escaped(&words)
            );
            return self.article(finding, &caution, &told);
        }
        let (words, more) = together(&offered, false);
        let list = |proposals: Vec<Proposal>| {
            let offers = proposals.iter();
            offers
                .map(|proposal| self.offer("", proposal, "", Some(finding.id)))
                .collect::<String>()
        };
        let alone = (offered.remedies.into_iter())
            .filter(|remedy| remedy.change.is_some())
            .map(Proposal::One);
        let alone = list(alone.collect());
        let more = if words.is_empty() {
            String::new()
        } else {
            let more = list(more);
            format!("<p class=\"no-way\">{words}</p><ul class=\"remedies\">{more}</ul>")
        };
        let told = format!("<ul class=\"remedies\">{alone}</ul>{more}");
        self.article(finding, &caution, &told)
    }

    fn article(&self, finding: &Finding, caution: &str, told: &str) -> String {
        format!(
            "<article class=\"finding {}\"><h3><button class=\"finding-head\"><span class=\"verdict\">{}{}</span>\
             <span class=\"title\">{}</span><span class=\"compared\">{}</span></button></h3>{caution}{told}</article>",
            class(finding.verdict),
            html::mark(finding.verdict),
            finding.verdict.word(),
            escaped(finding.title),
            escaped(&finding.compared.text(self.system))
        )
    }

    fn offer(
        &self,
        lead: &str,
        proposal: &Proposal,
        effect: &str,
        told_at: Option<&str>,
    ) -> String {
        let part = |(words, aside): (String, String)| match aside.is_empty() {
            true => escaped(&words),
            false => format!(
                "{}<span class=\"side-effect\"> ({})</span>",
                escaped(&words),
                escaped(&aside)
            ),
        };
        let parts = proposal.parts(&self.design, self.system).into_iter();
        let words = parts.map(part).collect::<Vec<_>>().join(BOTH);
        let spoils = proposal.spoils(&self.assessment);
        let names: String = (spoils.names.iter())
            .map(|name| format!("<p>{}</p>", escaped(name)))
            .collect();
        let spoils = if names.is_empty() {
            names
        } else {
            format!(
                "<details class=\"spoils\"><summary>{}</summary>{names}</details>",
                spoils.short(!effect.is_empty())
            )
        };
        let apply = proposal.press();
        let mends = proposal.mends(&self.assessment, told_at);
        let line = |words: &str| match words {
            "" => String::new(),
            words => format!("<span class=\"effect\"> {}</span>", escaped(words)),
        };
        let (effect, mends) = (line(effect), line(&mends));
        format!(
            "<li><span>{lead}{words}{effect}{mends}</span>{spoils}<button class=\"apply\">{apply}</button></li>"
        )
    }
}

fn tilt(system: System) -> String {
    format!(
        "<div class=\"tilt\"><label>Tilt <output>{}</output></label><input type=\"range\" aria-label=\"Tilt\">\
         <div class=\"switch\"><button aria-pressed=\"true\">Front</button><button>Side</button><button>Above</button></div></div>",
        Quantity::Angle.show(0.0, system)
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
