//! A value that a student finds.

use super::band::Band;
use super::fault::Why;
use super::recognised::{self, Recognised};
use super::unit::AnswerUnit;
use crate::fair::Judge;
use mechanics::beam::{Curve, Extremes};
use serde::Serialize;
use workings::role::{Role, Symbol};
use workings::solved::Solved;
use workings::working::Id;

/// A value that a student finds.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ValuePart {
    /// The name of the working.
    pub working: String,
    /// Its symbol by role.
    #[serde(skip)]
    pub symbol: Symbol,
    /// The right value, SI.
    pub right: f64,
    /// The answers that are right.
    #[serde(flatten)]
    pub band: Band,
    /// Whether the same size with the other sign is right as well: the value is told by its size, or is the largest by size of a curve
    /// that reaches it with both signs.
    pub either_sign: bool,
    /// The largest spacing rounded down to the step that the lesson gives, SI: it is right as well. None of any other value, and where not
    /// even one step is left.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rounded_down: Option<f64>,
    /// How far an answer may be off that was rounded too early, SI: never less than the right answers are, and else no more than a
    /// few parts in a hundred of the value.
    pub rounded_early: f64,
    /// How far rounding with one figure fewer on the way can lead in the worst case, SI, without that bound.
    #[serde(skip)]
    pub(super) worst_rounding: f64,
    /// The unit of the answer as the course shows the value.
    pub unit: AnswerUnit,
    /// The unit of an answer that is typed: the right number lies between 1 and 10 000 there, where it can.
    pub typed_unit: AnswerUnit,
    /// The wrong answers that are known for what they are, none of them within the right ones; those made nearest to the answer
    /// first. Several may lead to the same value.
    pub mistakes: Vec<Recognised>,
}

/// What is off by more than this part of a value is not laid to rounding. The worst case of rounding on the way knows no bound where
/// values nearly cancel, and there another way is likelier than the worst case. A number of two figures is off by 5 % at most, and
/// from 17 on by less than 3 %. Common practice, no source.
const EARLY_CAP: f64 = 0.03;

impl ValuePart {
    pub(super) fn new(working: &str, judge: &Judge<'_>) -> Result<Self, Why> {
        let judgement = judge.judge(working)?;
        if !judgement.half_width.is_finite() {
            return Err(Why::AnyAnswer { working: working.to_owned() });
        }
        let solved = judge.solved();
        let found = solved.workings().get(working);
        let (quantity, symbol) = found
            .map(|found| (found.value, found.symbol.clone()))
            .ok_or_else(|| Why::NotAsked(crate::fair::NotAsked::Unknown(working.to_owned())))?;
        let band = Band::about(judgement.right, judgement.half_width);
        let worst_rounding = judgement.carried_early.band.max(judgement.half_width);
        let size = judgement.right.abs().max(judge.least_size(working)?);
        let mut part = Self {
            working: working.to_owned(),
            right: judgement.right,
            band,
            either_sign: either_sign(solved, working),
            rounded_down: step_of(solved, working).and_then(|step| rounded_down(judgement.right, step)),
            rounded_early: worst_rounding.min(EARLY_CAP * size).max(judgement.half_width),
            worst_rounding,
            unit: AnswerUnit::of_the_course(quantity, symbol.role, solved.style()),
            typed_unit: AnswerUnit::for_typing(quantity, symbol.role, solved.style()),
            symbol,
            mistakes: Vec::new(),
        };
        part.mistakes = recognised::of(&part, judge)?;
        Ok(part)
    }

    /// Whether an answer is right, SI.
    pub fn accepts(&self, answer: f64) -> bool {
        self.accepted().any(|band| band.contains(answer))
    }

    /// The bands of right answers: one, or two of opposite signs, or one and a spacing that can be marked out.
    pub fn accepted(&self) -> impl Iterator<Item = Band> {
        let just = |value: f64| Band { lower: value, upper: value };
        std::iter::once(self.band)
            .chain(self.either_sign.then(|| self.band.mirrored()))
            .chain(self.rounded_down.map(just))
    }
}

/// The step that a spacing is rounded down to a multiple of, m; none where the value is no largest spacing, or its joint has no step.
pub(crate) fn step_of(solved: &Solved, working: &str) -> Option<f64> {
    let joint = working.strip_prefix("largest spacing at ")?;
    let joint = joint.split_once(", ").map_or(joint, |(joint, _)| joint);
    solved.workings().get(&format!("step of {joint}")).map(|step| step.value.value)
}

/// A spacing rounded down to a multiple of a step, both m; none where nothing is left of it. One that is a multiple but for its last bits
/// stays what it is.
pub(crate) fn rounded_down(spacing: f64, step: f64) -> Option<f64> {
    let steps = (spacing / step * (1.0 + 1e-9)).floor();
    (steps >= 1.0 && steps.is_finite()).then_some(steps * step)
}

/// Whether the value is [told by its size](Solved::is_told_by_size), or a curve reaches it, its largest by size, with both signs: V of a
/// beam that is loaded symmetrically.
pub(crate) fn either_sign(solved: &Solved, working: &str) -> bool {
    let workings = solved.workings();
    let Some(id) = workings.id(working) else { return false };
    if solved.is_told_by_size(id) {
        return true;
    }
    let largest = solved.key().largest_shear;
    // What is the largest shear force, and the largest shear stress that follows its sign.
    let follows = |id: Id| {
        workings.working(id).symbol.role == Role::ShearStress && workings.reads(id).contains(&largest)
    };
    if id != largest && !follows(id) {
        return false;
    }
    let Extremes { highest, lowest, .. } = solved.beam().extremes(Curve::Shear);
    let near = solved.beam().nothing(Curve::Shear);
    highest.zip(lowest).is_some_and(|(highest, lowest)| (highest.value + lowest.value).abs() <= near)
}
