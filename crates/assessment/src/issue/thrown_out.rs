//! What was thrown out on the way to the papers of a class, and why.

use super::Issue;
use super::look::Against;
use crate::fair::Reason;
use crate::ledger::Ledger;
use crate::secret::Secret;
use lesson::papers::Draw;
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet, HashSet};

/// What was thrown out.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct ThrownOut {
    /// So many draws were made for the papers of the class, those that were given out among them.
    pub draws: usize,
    /// So many might have been given out, but another paper has the same numbers or the same answers, or on another the mistakes were
    /// better apart.
    pub passed_over: usize,
    /// So many were refused.
    pub refused: usize,
    /// Why, the most frequent first; a draw may be refused for several reasons.
    pub why: Vec<Why>,
}

/// A reason, and how often it stood against a draw.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Why {
    /// The reason, in words.
    pub reason: String,
    /// Against so many draws.
    pub draws: usize,
}

impl Issue {
    /// What was thrown out for the papers of a ledger: told from the ledger alone, so it is the same whenever it is asked.
    pub fn thrown_out<S: Secret>(&self, secret: &S, ledger: &Ledger) -> ThrownOut {
        let mut thrown = ThrownOut::default();
        let mut why = BTreeMap::new();
        let mut forms = BTreeSet::new();
        // A form is drawn once, whoever has it.
        let drawn = ledger.papers().filter(|(_, entry)| entry.form.is_none_or(|letter| forms.insert(letter)));
        for (student, _) in drawn {
            thrown.draws += 1;
            let passed_over = ledger.passed_over(secret, student);
            let mut seen: HashSet<&Draw> = HashSet::new();
            for draw in passed_over.iter().filter(|draw| seen.insert(draw)) {
                thrown.draws += 1;
                let looked = self.look(draw);
                if looked.fits() {
                    thrown.passed_over += 1;
                } else {
                    thrown.refused += 1;
                    count(&looked.against, &mut why);
                }
            }
        }
        thrown.why = sorted(why);
        thrown
    }

    /// Of how many draws of the sample there are, those that something speaks against, and what.
    pub fn refused_of_sample(&self) -> ThrownOut {
        let (mut thrown, mut why) = (ThrownOut::default(), BTreeMap::new());
        for looked in self.sampled() {
            thrown.draws += 1;
            thrown.refused += usize::from(!looked.fits());
            count(&looked.against, &mut why);
        }
        thrown.why = sorted(why);
        thrown
    }
}

/// Counts each reason once.
pub(super) fn count(against: &[Against], why: &mut BTreeMap<String, usize>) {
    let reasons: HashSet<String> = against.iter().map(in_general).collect();
    for reason in reasons {
        *why.entry(reason).or_default() += 1;
    }
}

pub(super) fn sorted(why: BTreeMap<String, usize>) -> Vec<Why> {
    let mut all: Vec<Why> = why.into_iter().map(|(reason, draws)| Why { reason, draws }).collect();
    all.sort_by(|one, other| other.draws.cmp(&one.draws).then_with(|| one.reason.cmp(&other.reason)));
    all
}

/// A reason without the numbers of one draw, so that it can be counted.
fn in_general(against: &Against) -> String {
    match against {
        Against::Unfair(Reason::CarriedTooFar { working, .. }) => {
            format!("{working}: rounding on the way leads out of the tolerance")
        }
        Against::Unfair(Reason::IllConditioned { working, limit, .. }) => {
            format!("{working}: its condition number is more than {limit:.0}")
        }
        Against::Unfair(Reason::OtherCondition { working, .. }) => {
            format!("{working}: its condition number is not within a factor of two of the others")
        }
        other => other.to_string(),
    }
}
