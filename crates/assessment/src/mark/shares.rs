//! Which share of its marks an answer earns.

use super::verdict::{Cause, Explanation, Slipped, Verdict};
use std::collections::BTreeMap;

/// Which share of its marks an answer earns by what it is found to be, each from 0 to 1.
#[derive(Clone, Debug, PartialEq)]
pub struct Shares {
    /// Right with the student's own earlier values.
    pub follow_through: f64,
    /// Rounded too early.
    pub rounded_early: f64,
    /// Right but for the sign.
    pub sign: f64,
    /// Right but for a power of ten, or a unit taken for another of its kind.
    pub power_of_ten: f64,
    /// What is left where the unit is missing or of another kind; once in a question.
    pub unit: f64,
    /// One known mistake.
    pub mistake: f64,
    /// Two known mistakes, or one and a slip.
    pub two_mistakes: f64,
    /// Other shares for mistakes of these ids.
    pub mistakes: BTreeMap<String, f64>,
}

impl Default for Shares {
    /// Usual in open assessment tools: an error costs once, right but for a sign or a unit keeps half, a known mistake earns
    /// nothing (common practice, no source for the sizes).
    fn default() -> Self {
        Self {
            follow_through: 1.0,
            rounded_early: 0.5,
            sign: 0.5,
            power_of_ten: 0.5,
            unit: 0.5,
            mistake: 0.0,
            two_mistakes: 0.0,
            mistakes: BTreeMap::new(),
        }
    }
}

impl Shares {
    /// What a verdict earns, where `right` (SI) is the right value; where several explanations fit, the student has the benefit of
    /// the doubt.
    pub(super) fn of(&self, verdict: &Verdict, right: f64) -> f64 {
        match verdict {
            Verdict::Right => 1.0,
            Verdict::FollowThrough(_) => self.follow_through,
            Verdict::Explained(_) | Verdict::Ambiguous { .. } => {
                verdict.explanations().iter().map(|one| self.explained(one, right)).fold(0.0, f64::max)
            }
            Verdict::Unknown { .. } | Verdict::Blank | Verdict::ByHand => 0.0,
        }
    }

    fn explained(&self, explanation: &Explanation, right: f64) -> f64 {
        match &explanation.cause {
            Cause::Mistake { mistake } => {
                let own = self.mistakes.get(&mistake.mistake).copied();
                // A sign habit that is not kept is a mistake of the catalogue; it costs what any lost sign costs.
                let only_the_sign = (explanation.expected + right).abs() <= 1e-9 * right.abs();
                own.unwrap_or(if only_the_sign { self.mistake.max(self.sign) } else { self.mistake })
            }
            Cause::Slip { slip } => self.slip(slip),
            Cause::RoundedEarly => self.rounded_early,
            Cause::MistakeAndSlip { .. } | Cause::TwoMistakes { .. } => self.two_mistakes,
        }
    }

    fn slip(&self, slip: &Slipped) -> f64 {
        match slip.slip {
            "sign" => self.sign,
            // A half or a double has many causes, none of which is known.
            "half-or-double" => 0.0,
            _ => self.power_of_ten,
        }
    }
}
