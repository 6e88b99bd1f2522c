//! Writes every template of an example design as DXF and SVG into a folder, with the design itself.
//!
//! ```text
//! cargo run --example templates -- FOLDER
//! ```

use hearthplan::design::{example, file};
use hearthplan::paper::{dxf, svg};
use hearthplan::sizing::pattern::patterns;
use std::error::Error;
use std::fs;
use std::path::PathBuf;

fn main() -> Result<(), Box<dyn Error>> {
    let folder = PathBuf::from(
        std::env::args()
            .nth(1)
            .ok_or("name a folder to write into")?,
    );
    fs::create_dir_all(&folder)?;
    let mut design = example::as_improved();
    // Its vessel was bought; one that is rolled has templates of its sheets too.
    design.real_vessel.measured = false;
    fs::write(folder.join("design.json"), file::write(&design))?;
    for entry in patterns(&design) {
        let pattern = entry.pattern?;
        let name: String = (entry.name.chars())
            .map(|sign| if sign.is_alphanumeric() { sign } else { '-' })
            .collect();
        fs::write(folder.join(format!("{name}.dxf")), dxf::drawing(&pattern))?;
        fs::write(folder.join(format!("{name}.svg")), svg::document(&pattern))?;
    }
    Ok(())
}
