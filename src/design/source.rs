//! Where a number or a method comes from.

/// Where a default, a limit or a method comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Source {
    /// A published source, named.
    Published(&'static str),
    /// A published source, named; the value was written from memory of it.
    FromMemory(&'static str),
    /// A fact of the trade without a source.
    CommonPractice,
    /// Our own mark, with the reason.
    OwnMark(&'static str),
    /// What follows from the sizes and laws named, reckoned by ourselves.
    Reckoned(&'static str),
    /// A starting value that every builder replaces with their own.
    YourOwn,
}

impl Source {
    /// One line that names the source as shown to a person.
    pub fn sentence(&self) -> String {
        match self {
            Source::Published(name) => (*name).to_string(),
            Source::FromMemory(name) => format!("{name} (from memory)"),
            Source::CommonPractice => "common practice, no source".to_string(),
            Source::OwnMark(reason) => format!("our own mark: {reason}"),
            Source::Reckoned(from) => format!("our own reckoning: {from}"),
            Source::YourOwn => "a starting value, enter your own".to_string(),
        }
    }
}
