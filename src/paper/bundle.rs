//! Everything in one file: the design, the sheets, tables, drawings and templates.

use super::archive::{ArchiveError, Entry, archive, file_name};
use super::csv::csv;
use super::sheets::{self, Drawing};
use super::tiling::{self, Paper};
use super::{dxf, html, svg};
use crate::design::quantity::System;
use crate::design::{Design, file};
use crate::review::Assessment;
use crate::sizing::pattern::patterns;
use std::fmt::Write as _;

/// A template of more pages than this is not put into the archive page by page.
const MOST_PAGES: usize = 40;

/// A ZIP archive with all that a workshop needs. The same design always gives the same bytes.
///
/// ```
/// use hearthplan::{design::{Design, quantity::System}, paper::{self, tiling::Paper}, review};
/// let design = Design::default();
/// let bytes = paper::bundle(&design, &review::assess(&design), System::Metric, Paper::A4, &[]).unwrap();
/// assert_eq!(&bytes[..4], b"PK\x03\x04");
/// ```
///
/// # Errors
/// [`ArchiveError`]: two drawings of one name, or more than the archive holds.
pub fn bundle(
    design: &Design,
    assessment: &Assessment,
    system: System,
    paper: Paper,
    drawings: &[Drawing],
) -> Result<Vec<u8>, ArchiveError> {
    let sheets = sheets::all(design, assessment, system, drawings);
    let title = design.about.name.as_str();
    let mut listed = Listed::new(title);
    listed.add(
        "design.json",
        "the design itself; Hearthplan opens it again",
        file::write(design),
    );
    listed.add(
        "sheets.html",
        "all sheets, to be read and printed with any browser",
        html::document(title, &sheets, system, paper),
    );
    for (name, caption, table) in sheets.iter().flat_map(|sheet| sheet.tables()) {
        listed.add(
            &format!("tables/{}.csv", file_name(name)),
            caption,
            csv(table, system),
        );
    }
    for (name, drawing) in sheets.iter().flat_map(|sheet| sheet.drawings()) {
        listed.add(
            &format!("drawings/{}.svg", file_name(name)),
            "drawing, not to be measured from",
            alone(drawing),
        );
    }
    for (index, entry) in patterns(design).into_iter().enumerate() {
        let Ok(pattern) = entry.pattern else { continue };
        // Numbered, since a person may give two holes one name.
        let name = format!("templates/{:02}-{}", index + 1, file_name(&entry.name));
        let what = format!("{}, true size in millimetres", entry.name);
        listed.add(&format!("{name}.svg"), &what, svg::document(&pattern));
        listed.add(&format!("{name}.dxf"), &what, dxf::drawing(&pattern));
        // What takes too many pages is cut from its file and not stuck together.
        let sheet = tiling::Sheet {
            paper,
            design: &design.about.name,
            ..tiling::Sheet::default()
        };
        if let Ok(tiling) = tiling::tiled(&pattern, &sheet)
            && tiling.pages.len() <= MOST_PAGES
        {
            if let Some(overview) = tiling.overview {
                let name = format!(
                    "pages/{:02}-{}-overview.svg",
                    index + 1,
                    file_name(&entry.name)
                );
                let what = format!("{}, where its sheets of paper lie", entry.name);
                listed.add(&name, &what, overview);
            }
            for page in tiling.pages {
                let name = format!(
                    "pages/{:02}-{}-row-{}-column-{}.svg",
                    index + 1,
                    file_name(&entry.name),
                    page.row,
                    page.column
                );
                let what = format!("{}, one sheet of paper of the printer", entry.name);
                listed.add(&name, &what, page.svg);
            }
        }
    }
    archive(&listed.finished())
}

/// Files, and the text that says what they are.
struct Listed {
    readme: String,
    entries: Vec<Entry>,
}

impl Listed {
    fn new(title: &str) -> Self {
        Self {
            readme: format!(
                "{title}\n\nThis archive holds a design of a wood-gas generator made with Hearthplan.\n\
                 Everything is computed. Check against your own measurements before you cut, lift or light.\n\
                 Wood gas is poisonous: carbon monoxide has no smell.\n\n"
            ),
            entries: Vec::new(),
        }
    }

    fn add(&mut self, name: &str, what: &str, text: String) {
        // Writing to a string cannot fail.
        let _ = writeln!(self.readme, "{name}: {what}");
        self.entries.push(Entry {
            name: name.to_string(),
            text,
        });
    }

    fn finished(self) -> Vec<Entry> {
        let mut entries = vec![Entry {
            name: "README.txt".to_string(),
            text: self.readme,
        }];
        entries.extend(self.entries);
        entries
    }
}

/// A drawing as a document of its own: within a page an SVG element needs no name space.
fn alone(drawing: &str) -> String {
    if drawing.contains("xmlns=") {
        drawing.to_string()
    } else {
        drawing.replacen("<svg", "<svg xmlns=\"http://www.w3.org/2000/svg\"", 1)
    }
}
