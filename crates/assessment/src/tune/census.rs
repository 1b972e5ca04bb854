//! How many draws there were, and what stood against them.

use super::score::Results;
use super::sweep::Counts;
use crate::candidates::Candidates;
use crate::fair::Hides;
use serde::Serialize;

/// How many draws there were, and what stood against them: each condition counts those that came so far.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Census {
    /// All combinations of the lesson's choices; where there are more than can be counted, the most that can be.
    pub draws: u128,
    /// Those that were looked at: all, or as many as there was time for, drawn by chance.
    pub looked_at: u64,
    /// No sound lesson: a load off the beam, parts that overlap.
    pub unsound: u64,
    /// Sound, but without what the lesson requires.
    pub unmet: u64,
    /// With all that is required, but with a result asked for that is not exact in the course's figures.
    pub long: u64,
    /// The same for each result asked for.
    pub long_results: Vec<LongResult>,
    /// The roundest of all that are sound and meet the requirements, read, solved and judged,
    pub judged: u64,
    /// and of these the round ones: every result asked for is exact in the course's figures.
    pub round: u64,
    /// Round, but with a mistake that gives a right value,
    pub hidden: u64,
    /// and which mistakes these are, the most frequent first.
    pub hidden_by: Vec<HiddenBy>,
    /// Mistakes that give a right value in every draw that was judged: what varies does not show them, so they do not count.
    pub hidden_on_all: Vec<Hides>,
    /// Round, but rounding on the way leads out of the tolerance.
    pub carried: u64,
    /// Round, but a value answers too strongly to its inputs.
    pub ill_conditioned: u64,
    /// Round and with none of that, but with another way to the answers than the others, or answering to the inputs
    /// otherwise.
    pub unlike: u64,
    /// What is left.
    pub fit: u64,
}

/// How often a result is not exact.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LongResult {
    /// Its name.
    pub name: String,
    /// In so many sound draws that meet the requirements it is not exact in the course's figures.
    pub long: u64,
}

/// How often a mistake hides.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct HiddenBy {
    /// The mistake's id.
    pub mistake: String,
    /// The name of the result whose right value it gives.
    pub result: String,
    /// In so many of the round ones.
    pub count: u64,
}

impl Census {
    pub(super) fn of(candidates: &Candidates, results: &Results, counts: &Counts) -> Self {
        let long_results = results.names.iter().zip(&counts.long_by_result);
        Self {
            draws: candidates.space().size().count,
            looked_at: counts.looked_at,
            unsound: counts.unsound,
            unmet: counts.unmet,
            long: counts.long,
            long_results: long_results.map(|(name, &long)| LongResult { name: name.clone(), long }).collect(),
            ..Self::default()
        }
    }

    /// How many draws are sound and meet the requirements.
    pub fn sound(&self) -> u64 {
        self.looked_at.saturating_sub(self.unsound + self.unmet)
    }

    /// The counts in words, each a line that names the condition.
    pub fn in_words(&self) -> Vec<String> {
        let mut lines = vec![if u128::from(self.looked_at) == self.draws {
            format!("{} combinations, all looked at", self.draws)
        } else {
            format!("{} combinations, {} of them looked at, drawn by chance", self.draws, self.looked_at)
        }];
        let mut line = |count: u64, words: &str| {
            if count > 0 {
                lines.push(format!("{count} {words}"));
            }
        };
        line(self.unsound, "are no sound lesson");
        line(self.unmet, "do not meet the requirements under [papers]");
        line(self.long, "have a result that is not exact in the course's figures");
        line(self.judged, "are the roundest; they were solved and judged");
        line(self.round, "of these are round: every result asked for is exact in the course's figures");
        line(self.hidden, "of the round ones hide a mistake behind a right value");
        line(
            self.carried,
            "of the round ones lead an honest student out of the tolerance by rounding on the way",
        );
        line(self.ill_conditioned, "of the round ones have a value that answers too strongly to the data");
        line(self.unlike, "of the round ones ask for other work than the rest");
        line(self.fit, if self.fit == 1 { "fits" } else { "fit" });
        lines
    }
}
