//! A mistake in one lesson: which workings it replaces by what.

use super::lesson::Replaced;
use crate::evaluate::{EvaluationError, Prepared, Replacement};
use crate::solved::Solved;
use crate::working::Id;
use std::borrow::Cow;

/// A mistake made at one working of a lesson.
///
/// Formulas follow whatever else is replaced. What was chosen by the size of the lesson's own numbers (the nearer fibre,
/// the load that stands nearest) stays as chosen: for a lesson of quite other numbers ask [`super::all`] again.
#[derive(Clone, Debug, PartialEq)]
pub struct Applied {
    mistake: Cow<'static, str>,
    replaced: Replaced,
}

impl Applied {
    pub(super) fn new(mistake: Cow<'static, str>, replaced: Replaced) -> Self {
        Self { mistake, replaced }
    }

    /// The mistake's id.
    pub fn id(&self) -> &str {
        &self.mistake
    }

    /// The working that it replaces; where it replaces several at once, the first.
    pub fn working(&self) -> Id {
        self.replaced.first.0
    }

    /// What it replaces: one working as a rule, both resultants of a load that is a rectangle and a triangle.
    pub fn replacements(&self) -> Vec<(Id, Replacement)> {
        let Replaced { first, more } = &self.replaced;
        std::iter::once(first).chain(more).cloned().collect()
    }

    /// Whether a working of its lesson depends on what is replaced: only then can the mistake show in it.
    pub fn changes(&self, solved: &Solved, asked: Id) -> bool {
        self.shows_in(&solved.workings().upstream(asked))
    }

    /// The same for the workings, by id, that one depends on ([`crate::graph::Workings::upstream`]): where many mistakes are asked for
    /// one working, those are found once.
    pub fn shows_in(&self, upstream: &[bool]) -> bool {
        let Replaced { first, more } = &self.replaced;
        std::iter::once(first)
            .chain(more)
            .any(|(id, _)| upstream.get(id.0 as usize).copied().unwrap_or(false))
    }

    /// The value of a working of its lesson under the mistake, SI; not a number or infinite where the mistake leads to
    /// a division by zero.
    ///
    /// # Errors
    /// As [`Applied::prepare`].
    pub fn value(&self, solved: &Solved, asked: Id) -> Result<f64, EvaluationError> {
        self.value_with(solved, &[], asked)
    }

    /// The value of a working under the mistake and with other workings replaced as well, such as by what a student
    /// found before. What the mistake replaces stays replaced.
    ///
    /// # Errors
    /// As [`Applied::prepare`].
    pub fn value_with(
        &self,
        solved: &Solved,
        others: &[(Id, Replacement)],
        asked: Id,
    ) -> Result<f64, EvaluationError> {
        let mut replacements = others.to_vec();
        replacements.extend(self.replacements());
        let values = solved.workings().evaluate_with(&replacements)?;
        Ok(values.get(asked.0 as usize).copied().unwrap_or(f64::NAN))
    }

    /// Compiles it, to be evaluated often with an [`crate::evaluate::Evaluator`].
    ///
    /// # Errors
    /// If it is of another lesson: it replaces or reads what this one does not have, or dimensions do not agree.
    pub fn prepare(&self, solved: &Solved) -> Result<Prepared, EvaluationError> {
        solved.workings().prepare(&self.replacements())
    }
}
