//! Which share of its marks an answer earns.

use super::verdict::{Cause, Explanation, Slipped, Verdict};
use lesson::marking::Shares;

/// What a verdict earns, where `right` (SI) is the right value; where several explanations fit, the student has the benefit of
/// the doubt.
pub(super) fn earned(shares: &Shares, verdict: &Verdict, right: f64) -> f64 {
    match verdict {
        Verdict::Right => 1.0,
        Verdict::FollowThrough(_) => shares.follow_through,
        Verdict::Explained(_) | Verdict::Ambiguous { .. } => {
            verdict.explanations().iter().map(|one| explained(shares, one, right)).fold(0.0, f64::max)
        }
        Verdict::Unknown { .. } | Verdict::Blank | Verdict::ByHand => 0.0,
    }
}

fn explained(shares: &Shares, explanation: &Explanation, right: f64) -> f64 {
    match &explanation.cause {
        Cause::Mistake { mistake } => {
            let own = shares.mistakes.get(&mistake.mistake).copied();
            // A sign habit that is not kept is a mistake of the catalogue; it costs what any lost sign costs.
            let only_the_sign = (explanation.expected + right).abs() <= 1e-9 * right.abs();
            own.unwrap_or(if only_the_sign {
                shares.known_mistake.max(shares.sign)
            } else {
                shares.known_mistake
            })
        }
        Cause::Slip { slip } => of_slip(shares, slip),
        Cause::RoundedEarly => shares.rounded_early,
        Cause::MistakeAndSlip { .. } | Cause::TwoMistakes { .. } => shares.two_mistakes,
    }
}

fn of_slip(shares: &Shares, slip: &Slipped) -> f64 {
    match slip.slip {
        "sign" => shares.sign,
        // A half or a double has many causes, none of which is known.
        "half-or-double" => 0.0,
        _ => shares.power_of_ten,
    }
}
