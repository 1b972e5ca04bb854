//! The marker of a paper.

use super::answer::Answer;
use super::asked::Asked;
use super::between::{Between, Ways};
use super::desk::Desk;
use super::marked::{Judged, MarkFault, Marked};
use super::shares::earned;
use super::sheet::Sheet;
use super::verdict::{Cause, UnitFault, Verdict};
use crate::fair::Course;
use crate::fair::figures::Grid;
use crate::set::{Alternative, Ask, SetPaper};
use lesson::marking::Shares;
use std::collections::HashMap;
use std::sync::Arc;
use workings::evaluate::EvaluationError;
use workings::mistake;
use workings::working::Id;

/// In which unit a number stands beside which none was written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Units {
    /// The sheet says in which: that of [`crate::set::ValuePart::unit`]. None is missed.
    #[default]
    Printed,
    /// The sheet says in which: that of [`crate::set::ValuePart::typed_unit`]. None is missed.
    Typed,
    /// The student has to write it: a number without one is taken in that of the course, or in one that a power of a thousand makes
    /// of it, and the unit is missed.
    Wanted,
}

/// Judges the answers to one paper. Made once; then sheet after sheet, of which nothing is kept.
#[derive(Clone, Debug)]
pub struct Marker<'a> {
    pub(super) paper: &'a SetPaper,
    pub(super) units: Units,
    pub(super) desk: Desk<'a>,
    pub(super) parts: Vec<Part>,
    /// The parts in the order of the graph, so that every value is judged after those that it rests on.
    order: Vec<usize>,
    /// By part and own values; forgotten when it grows large.
    pub(super) between: HashMap<(usize, Vec<Id>), Between>,
}

/// A part as the marker holds it.
#[derive(Clone, Debug)]
pub(super) struct Part {
    question: usize,
    pub(super) asked: Option<Asked>,
    /// What there is to choose from.
    pub(super) alternatives: Vec<Alternative>,
    /// The parts that this one rests on.
    pub(super) rests_on: Vec<usize>,
    /// The mistakes on the way to it; found when first needed.
    pub(super) ways: Option<Arc<Ways>>,
}

impl<'a> Marker<'a> {
    /// For a paper.
    ///
    /// # Errors
    /// A mistake of ours: a formula that cannot be evaluated.
    pub fn new(paper: &'a SetPaper) -> Result<Self, EvaluationError> {
        let (solved, course) = (&paper.solved, Course::of(&paper.lesson));
        let mut mistakes = mistake::all(solved);
        mistakes.extend(paper.lesson.mistakes.iter().flat_map(|own| own.applied(solved)));
        let desk = Desk::new(solved, mistakes, Grid::of(course.figures))?;
        let mut parts = Vec::new();
        for (question, set) in paper.questions.iter().enumerate() {
            for part in &set.parts {
                let (asked, alternatives) = match &part.ask {
                    Ask::Value(value) => (Asked::value(value, solved, course), Vec::new()),
                    Ask::Choice(choice) => {
                        (Asked::value(&choice.value, solved, course), choice.alternatives.clone())
                    }
                    Ask::Place(place) => (Some(Asked::place(place, solved, course)), Vec::new()),
                    Ask::Sketch { .. } => (None, Vec::new()),
                };
                parts.push(Part { question, asked, alternatives, rests_on: Vec::new(), ways: None });
            }
        }
        let ids: Vec<Option<Id>> =
            parts.iter().map(|part| part.asked.as_ref().and_then(|asked| asked.id)).collect();
        for (part, id) in parts.iter_mut().zip(&ids) {
            let Some(id) = id else { continue };
            let above = ancestors(&desk, *id);
            let rests = |other: &Option<Id>| {
                other.is_some_and(|other| above.get(other.0 as usize).copied().unwrap_or(false))
            };
            part.rests_on = (0..ids.len()).filter(|&other| ids.get(other).is_some_and(rests)).collect();
        }
        let mut order: Vec<usize> = (0..parts.len()).collect();
        order.sort_by_key(|&part| {
            let id = ids.get(part).copied().flatten();
            (id.is_none(), id)
        });
        Ok(Self { paper, units: Units::default(), desk, parts, order, between: HashMap::new() })
    }

    /// The same for sheets whose numbers without a unit stand in these units.
    #[must_use]
    pub fn in_units(self, units: Units) -> Self {
        Self { units, ..self }
    }

    /// The paper that it judges.
    pub fn paper(&self) -> &'a SetPaper {
        self.paper
    }

    /// Judges the answers to the parts of these labels; a part without an answer is blank.
    ///
    /// # Errors
    /// Every label that the paper does not have, or that is answered twice.
    pub fn mark<L: AsRef<str>>(&mut self, answers: &[(L, Answer)]) -> Result<Marked, Vec<MarkFault>> {
        let mut given: Vec<Option<&Answer>> = vec![None; self.parts.len()];
        let mut faults = Vec::new();
        for (label, answer) in answers {
            let label = label.as_ref();
            match self.paper.parts().position(|part| part.label == label).and_then(|at| given.get_mut(at)) {
                None => faults.push(MarkFault::NoPart(label.to_owned())),
                Some(Some(_)) => faults.push(MarkFault::Twice(label.to_owned())),
                Some(place) => *place = Some(answer),
            }
        }
        if !faults.is_empty() {
            return Err(faults);
        }
        let blank = Answer::Blank;
        let mut found: Vec<Option<(Verdict, Option<UnitFault>)>> = vec![None; self.parts.len()];
        let mut sheet = Sheet::new(self.parts.len());
        for part in self.order.clone() {
            let answer = given.get(part).copied().flatten().unwrap_or(&blank);
            let judged = self.judge(part, answer, &mut sheet);
            if let Some(place) = found.get_mut(part) {
                *place = Some(judged);
            }
        }
        Ok(self.marked(found))
    }

    /// The marks of each verdict, in the order of the paper.
    fn marked(&self, found: Vec<Option<(Verdict, Option<UnitFault>)>>) -> Marked {
        let mut unit_paid = vec![false; self.paper.questions.len()];
        let all = self.paper.parts().zip(&self.parts).zip(found);
        let parts = all.map(|((set, part), found)| {
            let (verdict, unit) = found.unwrap_or((Verdict::ByHand, None));
            let right = part.asked.as_ref().map_or(0.0, |asked| asked.right);
            let usual = Shares::default();
            let shares =
                self.paper.lesson.questions.get(part.question).map_or(&usual, |asked| &asked.marking);
            let mut share = earned(shares, &verdict, right);
            if unit.is_some()
                && share > 0.0
                && let Some(paid) = unit_paid.get_mut(part.question)
                && !std::mem::replace(paid, true)
            {
                // A power of ten that is lost with the unit is lost once.
                let only_power =
                    verdict.explanations().iter().any(|one| matches!(one.cause, Cause::Slip { .. }));
                share = if only_power { share.min(shares.unit) } else { share * shares.unit };
            }
            let earned = (verdict != Verdict::ByHand).then_some(share * set.marks);
            Judged { part: set.label.clone(), most: set.marks, verdict, unit, earned, decided: None }
        });
        Marked { parts: parts.collect() }
    }
}

/// By id, the workings that one rests on, itself not included.
fn ancestors(desk: &Desk<'_>, id: Id) -> Vec<bool> {
    let workings = desk.solved().workings();
    let mut above = vec![false; workings.len()];
    let mut open = workings.reads(id);
    while let Some(id) = open.pop() {
        let Some(known) = above.get_mut(id.0 as usize) else { continue };
        if !std::mem::replace(known, true) {
            open.extend(workings.reads(id));
        }
    }
    above
}
