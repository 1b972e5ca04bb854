//! What an answer truly is.

use super::{Paper, Value};
use workings::evaluate::Replacement;
use workings::mistake::Applied;
use workings::working::Id;

/// What an answer truly is. Mistakes by their places in the list of the paper.
#[derive(Clone, Debug, PartialEq)]
pub enum Truth {
    Right,
    /// Every step rounded to one figure fewer than the course asks for; it may still be right.
    RoundedEarly,
    /// What follows from earlier answers of the sheet, or from a mistake that showed in one of them.
    Follows,
    /// What follows from an earlier answer as it was before a slip in writing it down.
    FollowsUnslipped,
    /// What follows from an earlier answer that nothing can have: no credit goes on from it.
    FollowsImpossible,
    /// A mistake that shows here first; whether fairness calls its value separate from the right one and from that of all others.
    Mistake {
        made: usize,
        separable: bool,
    },
    /// The same, whose value is the right one with another sign or power of ten as well.
    MistakeLikeSlip {
        made: usize,
    },
    TwoMistakes(usize, usize),
    MistakeAndSlip {
        made: usize,
        separable: bool,
    },
    Slip(f64),
    Arithmetic,
    Nonsense,
    /// As an honest student may find who rounds too early.
    NonsenseNearRight,
}

/// Two values that are nearer than this part of their size are one: the last bits of two ways of evaluation.
const SAME: f64 = 1e-9;

fn same(one: f64, other: f64) -> bool {
    (one - other).abs() <= SAME * one.abs().max(other.abs())
}

/// What an answer is where some mistakes are made: `exact` and `right` are the values of all workings with and without them, `told`
/// the answers before it.
pub fn truth(
    paper: &Paper,
    value: &Value,
    made: &[usize],
    exact: &[f64],
    right: &[f64],
    told: &[(Id, f64, Truth)],
) -> Truth {
    let place = value.id.0 as usize;
    let own = exact[place];
    if same(own, right[place]) {
        return Truth::Right;
    }
    let with = |made: &[usize]| {
        let mut replaced: Vec<(Id, Replacement)> =
            made.iter().flat_map(|&made| paper.mistakes[made].replacements()).collect();
        replaced.extend(told.iter().map(|(id, value, _)| (*id, Replacement::Value(*value))));
        let found = paper.set.solved.workings().evaluate_with(&replaced).expect("formulas of ours");
        found[place]
    };
    if same(own, with(&[])) {
        return if told.iter().any(|(id, value, _)| impossible(paper, *id, *value)) {
            Truth::FollowsImpossible
        } else if told.iter().any(|(.., truth)| matches!(truth, Truth::MistakeAndSlip { .. })) {
            Truth::FollowsUnslipped
        } else {
            Truth::Follows
        };
    }
    let shown = |mistake: usize| {
        told.iter().any(|(.., truth)| match truth {
            Truth::Mistake { made, .. }
            | Truth::MistakeLikeSlip { made }
            | Truth::MistakeAndSlip { made, .. } => *made == mistake,
            Truth::TwoMistakes(one, other) => *one == mistake || *other == mistake,
            _ => false,
        })
    };
    for &mistake in made {
        if same(own, with(&[mistake])) {
            return match shown(mistake) {
                true => Truth::Follows,
                false if like_slip(own, right[place]) => Truth::MistakeLikeSlip { made: mistake },
                false => Truth::Mistake { made: mistake, separable: separable(paper, value, mistake) },
            };
        }
    }
    match made {
        [one, other] if shown(*one) && shown(*other) => Truth::Follows,
        [one, other] if shown(*one) => Truth::Mistake { made: *other, separable: false },
        [one, other] if shown(*other) => Truth::Mistake { made: *one, separable: false },
        [one, other] => Truth::TwoMistakes(*one, *other),
        // An arithmetic slip of before that goes on.
        _ => Truth::Follows,
    }
}

/// Whether fairness tells a mistake from the right value and from every other mistake in an asked value.
fn separable(paper: &Paper, value: &Value, mistake: usize) -> bool {
    let applied: &Applied = &paper.mistakes[mistake];
    let made_at = &paper.set.solved.workings().working(applied.working()).name;
    let is = |wrong: &assessment::fair::Wrong| wrong.mistake == applied.id() && wrong.made_at == *made_at;
    let hidden = value.judgement.hidden.iter().any(|hidden| is(&hidden.wrong));
    let alike = value.judgement.alike.iter().any(|alike| is(&alike.one) || is(&alike.other));
    !hidden && !alike
}

/// Whether a value has the digits of another: no number can tell a mistake from a slip then.
fn like_slip(own: f64, right: f64) -> bool {
    let near = |factor: f64| (own - factor * right).abs() < 0.01 * (factor * right).abs();
    near(-1.0) || (1..=12).any(|power| near(10_f64.powi(power)) || near(10_f64.powi(-power)))
}

/// Zero, a negative size, a neutral axis outside of the section.
fn impossible(paper: &Paper, id: Id, value: f64) -> bool {
    use workings::role::Role;
    let section = paper.set.solved.section().properties();
    match paper.set.solved.workings().working(id).symbol.role {
        Role::CentroidHeight => !(section.bottom..=section.top).contains(&value),
        Role::SecondMoment | Role::WidthAtCut | Role::AreaBeyond => value <= 0.0,
        _ => value == 0.0,
    }
}
