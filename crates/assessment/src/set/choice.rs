//! One of several values: the right one, and those that known mistakes lead to.

use super::band::Band;
use super::fault::Why;
use super::recognised::Recognised;
use super::unit::AnswerUnit;
use super::value::ValuePart;
use crate::chance::Chance;
use crate::fair::Judge;
use serde::Serialize;
use std::cmp::Reverse;
use workings::mistake::{Kind, Mistake};

/// A value that a student chooses.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ChoicePart {
    /// The value itself, as if it were asked for without any to choose from.
    #[serde(flatten)]
    pub value: ValuePart,
    /// What there is to choose from, from the least to the greatest; exactly one is right.
    pub alternatives: Vec<Alternative>,
}

/// A value to choose.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Alternative {
    /// The value, SI.
    pub value: f64,
    /// The mistake that leads to it; none for the right one.
    pub mistake: Option<Recognised>,
}

impl Alternative {
    /// Whether it is the right one.
    pub fn is_right(&self) -> bool {
        self.mistake.is_none()
    }
}

/// The letter of the value at a place, from 0: a, b, c. It stands before the value on paper, and answers are read by it.
pub fn letter(place: usize) -> char {
    // The cast is of a number below 26.
    char::from(b'a' + (place % 26) as u8)
}

/// Alternatives differ from one another by at least this part of the larger one's size, so that nobody decides between them by
/// the last figure. Common practice, no source.
const APART: f64 = 0.05;

/// A wrong value that is this many times as large as the right one, or as small, is easily seen to be wrong: taken only where
/// there are no others. Common practice, no source.
const PLAUSIBLE: f64 = 10.0;

impl ChoicePart {
    /// `count` values to choose from, the right one among them; none of the wrong ones is a right answer of the paper's `other_answers`, for
    /// it would be told.
    pub(super) fn new(
        value: ValuePart,
        count: u32,
        judge: &Judge<'_>,
        other_answers: &[Band],
    ) -> Result<Self, Why> {
        let least = judge.least_size(&value.working)?;
        // Each alternative must still be the nearest for whoever rounds too early on the way to it.
        let share = value.worst_rounding / value.right.abs().max(least);
        let apart = |one: f64, other: f64| {
            let size = one.abs().max(other.abs()).max(least);
            (one - other).abs() >= size * APART.max(2.0 * share)
                && !(value.either_sign && (one + other).abs() < APART * size)
        };
        let is_told = |wrong: f64| {
            let bands = other_answers.iter().flat_map(|band| [*band, band.mirrored()]);
            bands.into_iter().any(|band| band.contains(wrong))
        };
        let mut candidates: Vec<&Recognised> =
            value.mistakes.iter().filter(|wrong| !is_told(wrong.value)).collect();
        // Stable: of equally good ones those made nearer to the value come first.
        candidates.sort_by_key(|wrong| (Reverse(plausible(wrong.value, value.right)), kind(wrong, judge)));
        let mut alternatives = vec![Alternative { value: value.right, mistake: None }];
        // In a row by size the right one must not have the same place on every paper: so many are to be smaller.
        let smaller = Chance::numbered(value.right.to_bits()).below(count as usize);
        let larger = (count as usize).saturating_sub(1 + smaller);
        let is_smaller = |other: f64| other < value.right;
        let has_room = |alternatives: &[Alternative], wrong: &Recognised| {
            let so = is_smaller(wrong.value);
            let there = alternatives
                .iter()
                .filter(|other| !other.is_right() && is_smaller(other.value) == so)
                .count();
            plausible(wrong.value, value.right) && there < if so { smaller } else { larger }
        };
        for only_where_wanted in [true, false] {
            for wrong in &candidates {
                if alternatives.len() < count as usize
                    && alternatives.iter().all(|other| apart(wrong.value, other.value))
                    && (!only_where_wanted || has_room(&alternatives, wrong))
                {
                    alternatives.push(Alternative { value: wrong.value, mistake: Some((*wrong).clone()) });
                }
            }
        }
        let found = alternatives.len() as u32;
        if found < count {
            return Err(Why::TooFewMistakes { working: value.working, wanted: count, found });
        }
        alternatives.sort_by(|one, other| one.value.total_cmp(&other.value));
        Ok(Self { value, alternatives })
    }

    /// The unit of all alternatives.
    pub fn unit(&self) -> &AnswerUnit {
        &self.value.unit
    }
}

fn plausible(wrong: f64, right: f64) -> bool {
    let ratio = (wrong / right).abs();
    (1.0 / PLAUSIBLE..=PLAUSIBLE).contains(&ratio)
}

/// Wrong notions before wrong ways, those before slips.
fn kind(wrong: &Recognised, judge: &Judge<'_>) -> Option<Kind> {
    judge.mistake(&wrong.mistake).and_then(Mistake::kind)
}
