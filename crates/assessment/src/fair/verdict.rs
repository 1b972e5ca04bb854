//! Whether a paper may be given out.

use super::class::{Hides, Paper, hidden_on_all, median};
use super::judge::Judgement;
use super::path::{Feature, Path};
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt;

/// The largest condition number of an asked value: with more, a slip of one part in a hundred in each of the inputs may
/// change the value by itself again.
///
/// Common practice, no source.
pub const MOST_CONDITION: f64 = 100.0;

/// The largest condition number of a value on the papers of a class over the least. Source: the unit's notes on assessment, section 4.
const FACTOR_OF_CLASS: f64 = 2.0;

/// How strongly an asked value answers to its inputs on the papers of a class.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Conditions {
    /// The median condition number.
    pub median: f64,
    /// The least that a paper may have.
    pub from: f64,
    /// The largest, twice the least.
    pub to: f64,
}

impl Conditions {
    /// The stretch within a factor of two that holds the most of some condition numbers, as far to the one side of them as to the other;
    /// of equally good ones the lowest. None of none.
    fn of(mut all: Vec<f64>) -> Option<Self> {
        all.retain(|condition| condition.is_finite());
        all.sort_by(f64::total_cmp);
        let within = |&least: &f64| {
            let reach = least * FACTOR_OF_CLASS * (1.0 + SLACK);
            all.iter().copied().filter(move |condition| (least..=reach).contains(condition))
        };
        let least = all.iter().rev().max_by_key(|least| within(least).count()).copied()?;
        let mut held: Vec<f64> = within(&least).collect();
        let most = held.last().copied()?;
        let from = (least * most / FACTOR_OF_CLASS).sqrt().min(least);
        Some(Self { median: median(&mut held)?, from, to: FACTOR_OF_CLASS * from })
    }

    fn holds(&self, condition: f64) -> bool {
        condition >= self.from * (1.0 - SLACK) && condition <= self.to * (1.0 + SLACK)
    }
}

/// Condition numbers nearer than this part of their size are one: they are found by small changes of the inputs.
const SLACK: f64 = 1e-4;

/// What the papers of a class have in common.
#[derive(Clone, Debug, PartialEq)]
pub struct Class {
    /// The path that most papers take.
    pub path: Path,
    /// How strongly each asked working may answer to its inputs.
    pub conditions: BTreeMap<String, Conditions>,
    /// The mistakes that are hidden on all of its papers.
    pub hidden_on_all: BTreeSet<Hides>,
}

impl Class {
    /// Of these papers; none of none. Its condition numbers are those of the most papers of its path that are within a factor of two of one
    /// another in every asked working.
    pub fn of(papers: &[Paper]) -> Option<Self> {
        let mut counts: BTreeMap<&Path, usize> = BTreeMap::new();
        for paper in papers {
            *counts.entry(&paper.path).or_default() += 1;
        }
        // Of several that equally many take the first, so that the same class is the same again.
        let (path, _) = counts.into_iter().rev().max_by_key(|(_, count)| *count)?;
        let mut held: Vec<&Paper> = papers.iter().filter(|paper| paper.path == *path).collect();
        let mut conditions: BTreeMap<String, Conditions> = BTreeMap::new();
        let asked: Vec<&str> =
            held.first()?.judgements.iter().map(|judgement| judgement.working.as_str()).collect();
        for working in asked {
            let condition = |paper: &Paper| {
                let own = paper.judgements.iter().find(|judgement| judgement.working == working);
                own.map_or(f64::NAN, |own| own.condition)
            };
            if let Some(found) = Conditions::of(held.iter().map(|paper| condition(paper)).collect()) {
                held.retain(|paper| found.holds(condition(paper)));
                conditions.insert(working.to_owned(), found);
            }
        }
        Some(Self { path: path.clone(), conditions, hidden_on_all: hidden_on_all(papers) })
    }
}

/// Why a paper may not be given out.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "reason", rename_all = "kebab-case")]
pub enum Reason {
    /// A mistake leads to the right value, and other numbers would show it.
    HiddenMistake {
        /// The asked working.
        working: String,
        /// The mistake's id.
        mistake: String,
        /// The name of the working at which it is made.
        made_at: String,
    },
    /// A slip alone leads to a value that is taken as right.
    HiddenSlip {
        /// The asked working.
        working: String,
        /// The slip's id.
        slip: String,
    },
    /// Rounding on the way leads an honest student out of the tolerance.
    CarriedTooFar {
        /// The asked working.
        working: String,
        /// The band that rounding carries the value through, SI.
        carried: f64,
        /// What the course allows, SI.
        tolerance: f64,
    },
    /// The value answers too strongly to its inputs.
    IllConditioned {
        /// The asked working.
        working: String,
        /// Its condition number.
        condition: f64,
        /// The largest that is allowed.
        limit: f64,
    },
    /// The value answers to its inputs much more, or much less, than on the other papers.
    OtherCondition {
        /// The asked working.
        working: String,
        /// Its condition number.
        condition: f64,
        /// The least of the class.
        from: f64,
        /// The largest of the class.
        to: f64,
    },
    /// The way to the answers is not that of the class.
    OtherPath {
        /// In what it differs.
        features: Vec<Feature>,
    },
}

impl Reason {
    /// The asked working that it is about; none where it is about the whole paper.
    pub fn working(&self) -> Option<&str> {
        match self {
            Self::HiddenMistake { working, .. }
            | Self::HiddenSlip { working, .. }
            | Self::CarriedTooFar { working, .. }
            | Self::IllConditioned { working, .. }
            | Self::OtherCondition { working, .. } => Some(working),
            Self::OtherPath { .. } => None,
        }
    }
}

impl fmt::Display for Reason {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::HiddenMistake { working, mistake, made_at } if working == made_at => {
                write!(f, "{working}: the mistake {mistake} gives the right value")
            }
            Self::HiddenMistake { working, mistake, made_at } => {
                write!(f, "{working}: the mistake {mistake}, made at {made_at}, gives the right value")
            }
            Self::HiddenSlip { working, slip } => {
                write!(f, "{working}: so near zero that the slip {slip} is taken as right")
            }
            Self::CarriedTooFar { working, carried, tolerance } if tolerance * 1e3 > *carried => write!(
                f,
                "{working}: rounding on the way leads up to {:.1} times the tolerance off",
                carried / tolerance
            ),
            Self::CarriedTooFar { working, .. } => {
                write!(f, "{working}: rounding on the way leads anywhere")
            }
            Self::IllConditioned { working, condition, limit } => write!(
                f,
                "{working}: its condition number is {condition:.0}, more than {limit:.0}; a difference of nearly equal values"
            ),
            Self::OtherCondition { working, condition, from, to } => write!(
                f,
                "{working}: its condition number is {condition:.1}, in the class it is from {from:.1} to {to:.1}"
            ),
            Self::OtherPath { features } => {
                let all: Vec<String> = features.iter().map(Feature::to_string).collect();
                write!(f, "another way to the answers than in the class; it differs in {}", all.join(", "))
            }
        }
    }
}

/// Whether a paper may be given out.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Verdict {
    /// All that stands against it, in the order of the asked workings.
    pub reasons: Vec<Reason>,
}

impl Verdict {
    /// Whether nothing stands against it.
    pub fn may_be_given(&self) -> bool {
        self.reasons.is_empty()
    }
}

/// Whether a paper may be given out; `class` where it is one of several.
///
/// Mistakes that are hidden with any numbers, or on every paper of the class, do not count against a paper: no other draw
/// would be better.
pub fn verdict(judgements: &[Judgement], path: &Path, class: Option<&Class>) -> Verdict {
    let mut reasons = Vec::new();
    for judgement in judgements {
        let working = &judgement.working;
        let hides = judgement.hidden_by_numbers().map(|hidden| Hides::new(working, &hidden.wrong));
        let shown_by_others = |hides: &Hides| class.is_none_or(|class| !class.hidden_on_all.contains(hides));
        reasons.extend(
            hides.filter(&shown_by_others).map(|Hides { working, mistake, made_at }| Reason::HiddenMistake {
                working,
                mistake,
                made_at,
            }),
        );
        // A power of ten lost is the slip of the same name, whichever it is.
        let slips: BTreeSet<Hides> =
            judgement.slips.taken.iter().map(|taken| Hides::slip(working, taken)).collect();
        reasons.extend(
            slips
                .into_iter()
                .filter(&shown_by_others)
                .map(|Hides { working, mistake, .. }| Reason::HiddenSlip { working, slip: mistake }),
        );
        let (carried, tolerance) = (judgement.carried.band, judgement.tolerance);
        // What is exactly as wide as the tolerance is inside it, whatever the last bits say.
        if carried > tolerance * (1.0 + 1e-9) {
            reasons.push(Reason::CarriedTooFar { working: working.clone(), carried, tolerance });
        }
        let condition = judgement.condition;
        let usual = class.and_then(|class| class.conditions.get(working).copied());
        if condition.is_nan() || condition > MOST_CONDITION {
            reasons.push(Reason::IllConditioned {
                working: working.clone(),
                condition,
                limit: MOST_CONDITION,
            });
        } else if let Some(Conditions { from, to, .. }) = usual.filter(|usual| !usual.holds(condition)) {
            reasons.push(Reason::OtherCondition { working: working.clone(), condition, from, to });
        }
    }
    if let Some(class) = class {
        let features = path.differs(&class.path);
        if !features.is_empty() {
            reasons.push(Reason::OtherPath { features });
        }
    }
    Verdict { reasons }
}
