//! What else a change does, in short.

/// What a change does that is not wanted.
pub struct Spoils {
    /// Stops of the whole review before and after; none where that is not known.
    pub(super) stops: Option<(usize, usize)>,
    /// How many of the names are new Stops; these come first.
    pub(super) new_stops: usize,
    /// What becomes of each question that gets worse.
    pub names: Vec<String>,
}

impl Spoils {
    /// All of it in one short line. What becomes of the Stops is left out where it is told already: those that are new are
    /// counted there, and not a second time.
    pub fn short(&self, stops_are_told: bool) -> String {
        let mut told = Vec::new();
        let told_of = match self.stops {
            Some((before, after)) if stops_are_told && after < before => self.new_stops,
            Some((before, after)) if !stops_are_told && before + after > 0 => {
                told.push(told_stops(before, after, self.new_stops));
                self.new_stops
            }
            _ => 0,
        };
        let more = if told_of > 0 { " more" } else { "" };
        match self.names.len() - told_of {
            0 if told.is_empty() && told_of == 1 => told.push("The new Stop".to_string()),
            0 if told.is_empty() => told.push("The new Stops".to_string()),
            0 => {}
            1 => told.push(format!("1{more} gets worse")),
            many => told.push(format!("{many}{more} get worse")),
        }
        told.join("; ")
    }
}

/// How many Stops there are before and after a change, and how many of these were none before, in words.
pub(super) fn told_stops(before: usize, after: usize, new: usize) -> String {
    let stops = if after == 1 { "Stop" } else { "Stops" };
    let new = match new {
        0 => String::new(),
        new => format!(", {new} new"),
    };
    format!("{before} → {after} {stops}{new}")
}
