//! What truly was done against what the marker found.

use super::Paper;
use super::student::Given;
use super::truth::Truth;
use assessment::mark::{Cause, Explanation, Verdict};
use std::collections::BTreeMap;
use std::fmt;

/// What was found, as far as it matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Found {
    Right,
    Follows,
    /// The very mistake, pair or slip, alone.
    Named,
    /// It, among others that lead to the same value.
    Among,
    /// Rounded too early.
    Early,
    /// Another mistake.
    OtherMistake,
    OtherSlip,
    OtherRare,
    /// Unknown, with it among the guesses.
    Guessed,
    Unknown,
    ByHand,
}

const FOUND: [(Found, &str); 11] = [
    (Found::Right, "right"),
    (Found::Follows, "follows"),
    (Found::Named, "named"),
    (Found::Among, "among"),
    (Found::Early, "early"),
    (Found::OtherMistake, "other"),
    (Found::OtherSlip, "slip"),
    (Found::OtherRare, "rare"),
    (Found::Guessed, "guessed"),
    (Found::Unknown, "unknown"),
    (Found::ByHand, "hand"),
];

/// How often what was found for what.
#[derive(Clone, Debug, Default)]
pub struct Table {
    counts: BTreeMap<(&'static str, Found), usize>,
    /// By row, how many answers did not earn all of their marks.
    not_full: BTreeMap<&'static str, usize>,
    /// The misses of a row that should have none: which, how often, and how they were judged.
    pub misses: BTreeMap<String, usize>,
}

pub fn row(truth: &Truth) -> &'static str {
    match truth {
        Truth::Right => "right",
        Truth::RoundedEarly => "rounded early",
        Truth::Follows => "follows",
        Truth::FollowsUnslipped => "follows, but for a slip",
        Truth::FollowsImpossible => "follows, impossible",
        Truth::MistakeLikeSlip { .. } => "mistake, like a slip",
        Truth::Mistake { separable: true, .. } => "mistake, separable",
        Truth::Mistake { separable: false, .. } => "mistake, not separable",
        Truth::TwoMistakes(..) => "two mistakes",
        Truth::MistakeAndSlip { .. } => "mistake and slip",
        Truth::Slip(factor) if *factor < 0.0 => "sign",
        Truth::Slip(_) => "power of ten or unit",
        Truth::Arithmetic => "arithmetic",
        Truth::Nonsense => "nonsense",
        Truth::NonsenseNearRight => "nonsense near right",
    }
}

impl Table {
    pub fn count(&mut self, paper: &Paper, given: &Given, verdict: &Verdict, full: bool) {
        *self.not_full.entry(row(&given.truth)).or_default() += usize::from(!full);
        let found = found(paper, &given.truth, verdict);
        *self.counts.entry((row(&given.truth), found)).or_default() += 1;
        let miss = match &given.truth {
            Truth::Right => found != Found::Right,
            Truth::Follows => found != Found::Follows && found != Found::Right,
            Truth::Mistake { separable: true, .. } => found != Found::Named,
            Truth::Nonsense => found != Found::Unknown,
            Truth::Slip(_) => found != Found::Named,
            _ => false,
        };
        if miss {
            let told = match verdict {
                Verdict::FollowThrough(_) => "follow-through".to_owned(),
                other => {
                    let of = |one: &Explanation| match &one.cause {
                        Cause::Slip { slip } => format!("{} {}", slip.slip, slip.factor),
                        cause => {
                            let ids: Vec<&str> =
                                cause.mistakes().iter().map(|made| made.mistake.as_str()).collect();
                            format!("{} {}", cause.word(), ids.join("+"))
                        }
                    };
                    let all: Vec<String> = other.explanations().iter().map(of).collect();
                    format!("{} {}", other.word(), all.join(" | "))
                }
            };
            let what = match &given.truth {
                Truth::Mistake { made, .. } => format!(
                    "{} {} {} {}",
                    paper.mistakes[*made].id(),
                    given.label,
                    given.number,
                    paper
                        .set
                        .lesson
                        .values
                        .iter()
                        .map(|value| format!("{}={} ", value.name, value.quantity.value))
                        .collect::<String>()
                ),
                Truth::Slip(factor) => format!("slip {factor} {}", given.label),
                other => format!("{} {} {:?}", row(other), given.label, given.deed),
            };
            *self.misses.entry(format!("{what}: {told}")).or_default() += 1;
        }
    }

    pub fn of(&self, row: &str, found: Found) -> usize {
        self.counts.iter().filter(|((of, is), _)| *of == row && *is == found).map(|(_, count)| count).sum()
    }

    pub fn not_full(&self, row: &str) -> usize {
        self.not_full.get(row).copied().unwrap_or_default()
    }

    pub fn all(&self, row: &str) -> usize {
        self.counts.iter().filter(|((of, _), _)| *of == row).map(|(_, count)| count).sum()
    }

    pub fn share(&self, row: &str, found: &[Found]) -> f64 {
        let count: usize = found.iter().map(|found| self.of(row, *found)).sum();
        count as f64 / self.all(row).max(1) as f64
    }
}

fn found(paper: &Paper, truth: &Truth, verdict: &Verdict) -> Found {
    match verdict {
        Verdict::Right => Found::Right,
        Verdict::FollowThrough(_) => Found::Follows,
        Verdict::Explained(one) if is(paper, truth, &one.cause) => Found::Named,
        Verdict::Explained(one) => match one.cause {
            Cause::Mistake { .. } => Found::OtherMistake,
            Cause::Slip { .. } => Found::OtherSlip,
            Cause::RoundedEarly => Found::Early,
            Cause::MistakeAndSlip { .. } | Cause::TwoMistakes { .. } => Found::OtherRare,
        },
        Verdict::Ambiguous { candidates } => {
            match candidates.iter().any(|one| is(paper, truth, &one.cause)) {
                true => Found::Among,
                false => Found::OtherMistake,
            }
        }
        Verdict::Unknown { perhaps } => match perhaps.iter().any(|one| is(paper, truth, &one.cause)) {
            true => Found::Guessed,
            false => Found::Unknown,
        },
        Verdict::Blank | Verdict::ByHand => Found::ByHand,
    }
}

/// The mistakes that change a sign and nothing else.
const SIGNS: [&str; 4] = ["v-sign", "m-sign", "hogging-as-sagging", "tension-for-compression"];

/// Whether a cause is what truly was done.
fn is(paper: &Paper, truth: &Truth, cause: &Cause) -> bool {
    let id = |made: usize| paper.mistakes[made].id();
    let same = |one: f64, other: f64| (one - other).abs() <= 1e-9 * other.abs();
    match (truth, cause) {
        (Truth::Mistake { made, .. } | Truth::MistakeLikeSlip { made }, Cause::Mistake { mistake }) => {
            mistake.mistake == id(*made)
        }
        // A sign habit that is not kept, on the way to the value: more than the sign cannot be known from the value.
        (Truth::Mistake { made, .. }, Cause::Slip { slip }) => {
            slip.slip == "sign" && SIGNS.contains(&id(*made))
        }
        (Truth::MistakeAndSlip { made, .. }, Cause::MistakeAndSlip { mistake, .. }) => {
            mistake.mistake == id(*made)
        }
        (Truth::TwoMistakes(one, other), Cause::TwoMistakes { mistakes: [a, b] }) => {
            let ids = [a.mistake.as_str(), b.mistake.as_str()];
            ids.contains(&id(*one)) && ids.contains(&id(*other))
        }
        (Truth::Slip(factor), Cause::Slip { slip }) => same(slip.factor, *factor),
        (Truth::Slip(-1.0), Cause::Mistake { mistake }) => SIGNS.contains(&mistake.mistake.as_str()),
        (Truth::RoundedEarly, Cause::RoundedEarly) => true,
        _ => false,
    }
}

impl fmt::Display for Table {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:24}{:>8}", "truly", "answers")?;
        for (_, name) in FOUND {
            write!(f, "{name:>9}")?;
        }
        writeln!(f)?;
        let mut rows: Vec<&str> = self.counts.keys().map(|(row, _)| *row).collect();
        rows.dedup();
        for row in rows {
            write!(f, "{row:24}{:>8}", self.all(row))?;
            for (found, _) in FOUND {
                match self.of(row, found) {
                    0 => write!(f, "{:>9}", "")?,
                    count => write!(f, "{:>8.2}%", 100.0 * count as f64 / self.all(row) as f64)?,
                }
            }
            writeln!(f)?;
        }
        let mut misses: Vec<_> = self.misses.iter().collect();
        misses.sort_by_key(|(_, count)| std::cmp::Reverse(**count));
        for (miss, count) in misses {
            writeln!(f, "{count:>8}  {miss}")?;
        }
        Ok(())
    }
}
