//! What was found on its way from a worker, or from the build, to the page, which knows the design.

use super::trial::Answer;
use crate::design::{Design, Value};
use crate::review::{Assessment, Brought, Lever, Pair, Remedy, Tally, Verdict};
use serde::{Deserialize, Serialize};

/// What came of one piece.
#[derive(Serialize, Deserialize)]
pub struct Written {
    remedy: Option<Part>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pairs: Vec<[Part; 2]>,
}

/// One change, as far as the page cannot know it. What a pair does is told with its second change.
#[derive(Serialize, Deserialize)]
struct Part {
    lever: Pulled,
    value: Option<Value>,
    worsens: Vec<(String, Verdict, Verdict)>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    brings: Vec<Brought>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    mends: Vec<String>,
    after: Option<Tally>,
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    other_vessel: bool,
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    other_hearth: bool,
}

/// A lever in names of its own.
#[derive(Serialize, Deserialize)]
enum Pulled {
    Input(String),
    New {
        list: String,
        index: usize,
        fields: Vec<(String, Value)>,
        solve_for: String,
    },
    Move {
        list: String,
        from: usize,
    },
}

impl Pulled {
    fn of(lever: &Lever) -> Self {
        match lever {
            Lever::Input(path) => Self::Input(path.to_string()),
            Lever::NewItem {
                list,
                index,
                fields,
                solve_for,
            } => Self::New {
                list: list.to_string(),
                index: *index,
                fields: (fields.iter())
                    .map(|(name, value)| (name.to_string(), value.clone()))
                    .collect(),
                solve_for: solve_for.to_string(),
            },
            Lever::Move { list, from } => Self::Move {
                list: list.to_string(),
                from: *from,
            },
        }
    }

    fn lever(self) -> Option<Lever> {
        Some(match self {
            Self::Input(path) => Lever::input(path),
            Self::New {
                list,
                index,
                fields,
                solve_for,
            } => {
                let info = Design::list_info(&list)?;
                let known = |name: &str| info.input(name).map(|input| input.name);
                Lever::NewItem {
                    list: info.name,
                    index,
                    fields: (fields.into_iter())
                        .map(|(name, value)| Some((known(&name)?, value)))
                        .collect::<Option<_>>()?,
                    solve_for: known(&solve_for)?,
                }
            }
            Self::Move { list, from } => Lever::Move {
                list: Design::list_info(&list)?.name,
                from,
            },
        })
    }
}

type Worsens = Vec<(&'static str, Verdict, Verdict)>;

impl Part {
    fn of(remedy: Remedy) -> Self {
        Self {
            lever: Pulled::of(&remedy.lever),
            value: remedy.value,
            worsens: told(remedy.worsens),
            brings: remedy.brings,
            mends: remedy.mends.into_iter().map(str::to_string).collect(),
            after: remedy.after,
            other_vessel: remedy.other_vessel,
            other_hearth: remedy.other_hearth,
        }
    }

    fn read(self, design: &Design, assessment: &Assessment) -> Option<Remedy> {
        let lever = self.lever.lever()?;
        Some(Remedy {
            input: lever.input_of(design)?,
            change: self.value.clone().map(|value| lever.change(value)),
            lever,
            value: self.value,
            worsens: known(self.worsens, assessment),
            brings: self.brings,
            mends: (self.mends.iter())
                .filter_map(|id| Some(assessment.finding(id)?.id))
                .collect(),
            after: self.after,
            other_vessel: self.other_vessel,
            other_hearth: self.other_hearth,
        })
    }
}

fn told(worsens: Worsens) -> Vec<(String, Verdict, Verdict)> {
    let told = worsens.into_iter();
    told.map(|(id, before, after)| (id.to_string(), before, after))
        .collect()
}

/// One that only the change brings up is unknown to this assessment, and told by its title.
fn known(worsens: Vec<(String, Verdict, Verdict)>, assessment: &Assessment) -> Worsens {
    let told = worsens.into_iter();
    told.filter_map(|(id, before, after)| Some((assessment.finding(&id)?.id, before, after)))
        .collect()
}

impl Written {
    /// Writes an answer down.
    pub fn of(answer: Answer) -> Self {
        let pair = |pair: Pair| {
            let [first, second] = pair.changes.map(Part::of);
            let second = Part {
                worsens: told(pair.worsens),
                brings: pair.brings,
                after: Some(pair.after),
                ..second
            };
            [first, second]
        };
        Self {
            remedy: answer.remedy.map(Part::of),
            pairs: answer.pairs.into_iter().map(pair).collect(),
        }
    }

    /// The answer that was written.
    pub fn read(self, design: &Design, assessment: &Assessment) -> Answer {
        let pair = |[first, second]: [Part; 2]| {
            let first = first.read(design, assessment)?;
            let between = first.change.as_ref()?.apply(design)?;
            let mut second = second.read(&between, assessment)?;
            let (worsens, after) = (std::mem::take(&mut second.worsens), second.after.take()?);
            let brings = std::mem::take(&mut second.brings);
            Pair::of(design, [first, second], worsens, brings, after)
        };
        Answer {
            remedy: (self.remedy).and_then(|part| part.read(design, assessment)),
            pairs: self.pairs.into_iter().filter_map(pair).collect(),
        }
    }
}
