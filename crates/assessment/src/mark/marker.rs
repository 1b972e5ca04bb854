//! The marker of a paper.

use super::answer::{Answer, Written};
use super::asked::Asked;
use super::between::{Between, Way, ways};
use super::desk::{Behind, Desk, Pin};
use super::explain::{Explained, Wrong, explain, made};
use super::marked::{Judged, MarkFault, Marked};
use super::shares::Shares;
use super::verdict::{Cause, Explanation, Through, UnitFault, Verdict};
use crate::fair::Course;
use crate::fair::figures::Grid;
use crate::set::{Ask, SetPaper};
use std::collections::HashMap;
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
    paper: &'a SetPaper,
    units: Units,
    shares: Shares,
    desk: Desk<'a>,
    parts: Vec<Part>,
    /// The parts in the order of the graph, so that every value is judged after those that it rests on.
    order: Vec<usize>,
    /// By part and own values; forgotten when it grows large.
    between: HashMap<(usize, Vec<Id>), Between>,
}

/// A part as the marker holds it.
#[derive(Clone, Debug)]
struct Part {
    question: usize,
    asked: Option<Asked>,
    /// The values to choose from, SI.
    alternatives: Vec<f64>,
    /// The parts that this one rests on.
    rests_on: Vec<usize>,
    /// The mistakes on the way to it; found when first needed.
    ways: Option<Vec<Way>>,
}

/// How many sets of own values are kept in view for the parts of a paper.
const KEPT: usize = 256;

/// A student's own value, once judged.
#[derive(Clone, Copy, Debug)]
struct Own {
    value: f64,
    behind: Behind,
}

impl<'a> Marker<'a> {
    /// For a paper.
    ///
    /// # Errors
    /// A mistake of ours: a formula that cannot be evaluated.
    pub fn new(paper: &'a SetPaper) -> Result<Self, EvaluationError> {
        let (solved, course) = (&paper.solved, Course::of(&paper.lesson));
        let desk = Desk::new(solved, mistake::all(solved), Grid::of(course.figures))?;
        let mut parts = Vec::new();
        for (question, set) in paper.questions.iter().enumerate() {
            for part in &set.parts {
                let (asked, alternatives) = match &part.ask {
                    Ask::Value(value) => (Asked::value(value, solved, course), Vec::new()),
                    Ask::Choice(choice) => {
                        let alternatives = choice.alternatives.iter().map(|one| one.value).collect();
                        (Asked::value(&choice.value, solved, course), alternatives)
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
        Ok(Self {
            paper,
            units: Units::default(),
            shares: Shares::default(),
            desk,
            parts,
            order,
            between: HashMap::new(),
        })
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
        let mut sheet: Vec<Option<&Answer>> = vec![None; self.parts.len()];
        let mut faults = Vec::new();
        for (label, answer) in answers {
            let label = label.as_ref();
            match self.paper.parts().position(|part| part.label == label).and_then(|at| sheet.get_mut(at)) {
                None => faults.push(MarkFault::NoPart(label.to_owned())),
                Some(Some(_)) => faults.push(MarkFault::Twice(label.to_owned())),
                Some(place) => *place = Some(answer),
            }
        }
        if !faults.is_empty() {
            return Err(faults);
        }
        let blank = Answer::Blank;
        let mut own: Vec<Option<Own>> = vec![None; self.parts.len()];
        let mut found: Vec<Option<(Verdict, Option<UnitFault>)>> = vec![None; self.parts.len()];
        let mut charged: Vec<usize> = Vec::new();
        for part in self.order.clone() {
            let answer = sheet.get(part).copied().flatten().unwrap_or(&blank);
            let judged = self.judge(part, answer, &mut own, &mut charged);
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
            let mut share = self.shares.of(&verdict, right);
            if unit.is_some()
                && share > 0.0
                && let Some(paid) = unit_paid.get_mut(part.question)
                && !std::mem::replace(paid, true)
            {
                // A power of ten that is lost with the unit is lost once.
                let only_power =
                    verdict.explanations().iter().any(|one| matches!(one.cause, Cause::Slip { .. }));
                share = if only_power { share.min(self.shares.unit) } else { share * self.shares.unit };
            }
            let earned = (verdict != Verdict::ByHand).then_some(share * set.marks);
            Judged { part: set.label.clone(), most: set.marks, verdict, unit, earned, decided: None }
        });
        Marked { parts: parts.collect() }
    }

    fn judge(
        &mut self,
        part: usize,
        answer: &Answer,
        own: &mut [Option<Own>],
        charged: &mut Vec<usize>,
    ) -> (Verdict, Option<UnitFault>) {
        let Some((written, unit)) = self.number(part, answer) else {
            let verdict = if *answer == Answer::Blank { Verdict::Blank } else { Verdict::ByHand };
            return (verdict, None);
        };
        let judged = self.judge_number(part, written, own, charged);
        // What cannot be evaluated is a mistake of ours, and nothing is guessed for it.
        let (verdict, behind) = judged.unwrap_or((Verdict::ByHand, Behind::Itself));
        let asked = self.parts.get(part).and_then(|part| part.asked.as_ref());
        if let (Some(asked), Some(place)) = (asked, own.get_mut(part))
            && asked.can_be_followed(written.number())
        {
            *place = Some(Own { value: written.number(), behind });
        }
        (verdict, unit)
    }

    /// The number of an answer, SI, and what is wrong with its unit; nothing where there is no number, or none is asked for.
    fn number(&self, part: usize, answer: &Answer) -> Option<(Written, Option<UnitFault>)> {
        let Part { asked, alternatives, .. } = self.parts.get(part)?;
        let asked = asked.as_ref()?;
        match answer {
            Answer::Blank | Answer::Unreadable(_) => None,
            Answer::Choice(chosen) => Some((Written::new(*alternatives.get(*chosen)?, None)?, None)),
            Answer::Value(written) => Some((*written, None)),
            Answer::Bare(written) => match self.units {
                Units::Printed => Some((written.times(asked.unit.in_si())?, None)),
                Units::Typed => Some((written.times(asked.typed_unit.in_si())?, None)),
                Units::Wanted => Some((in_some_unit(asked, *written)?, Some(UnitFault::Missing))),
            },
            Answer::OtherKind(written) => Some((in_some_unit(asked, *written)?, Some(UnitFault::OtherKind))),
        }
    }

    fn judge_number(
        &mut self,
        part: usize,
        written: Written,
        own: &[Option<Own>],
        charged: &mut Vec<usize>,
    ) -> Result<(Verdict, Behind), EvaluationError> {
        let nothing = || (Verdict::ByHand, Behind::Itself);
        let Some(Part { asked: Some(asked), rests_on, .. }) = self.parts.get(part) else {
            return Ok(nothing());
        };
        let answer = written.number();
        if asked.accepts(answer) {
            return Ok((Verdict::Right, Behind::Right));
        }
        let half_place = asked.half_place(written);
        let Some(id) = asked.id else {
            return Ok((slip_of_place(asked, answer, half_place), Behind::Itself));
        };
        let mut pins: Vec<(usize, Pin)> = rests_on
            .iter()
            .filter_map(|&other| {
                let id = self.parts.get(other)?.asked.as_ref()?.id?;
                let Own { value, behind } = own.get(other).copied().flatten()?;
                Some((other, Pin { id, written: value, behind }))
            })
            .collect();
        pins.sort_by_key(|(_, pin)| pin.id);
        pins.dedup_by_key(|(_, pin)| pin.id);
        let label =
            |part: usize| self.paper.parts().nth(part).map(|part| part.label.clone()).unwrap_or_default();
        let labels: Vec<String> = pins.iter().map(|(part, _)| label(*part)).collect();
        let wrong: Vec<usize> = (0..pins.len())
            .filter(|&at| pins.get(at).is_some_and(|(_, pin)| pin.behind != Behind::Right))
            .collect();
        let of =
            |all: &[usize]| all.iter().filter_map(|&at| labels.get(at).cloned()).collect::<Vec<String>>();
        let from = of(&wrong);
        let pins: Vec<Pin> = pins.into_iter().map(|(_, pin)| pin).collect();
        let through = |answers: Vec<String>, expected: f64| {
            Verdict::FollowThrough(Through { answers, mistakes: Vec::new(), expected })
        };
        // Right with all own values, else with a single wrong one.
        if !pins.is_empty() {
            let expected = self.desk.follows(&pins, id)?;
            if asked.follows(answer, expected) {
                let answers = if from.is_empty() { labels } else { from };
                return Ok((through(answers, expected), Behind::Follows));
            }
            for &at in wrong.iter().filter(|_| pins.len() > 1) {
                let Some(pin) = pins.get(at) else { continue };
                let expected = self.desk.follows(std::slice::from_ref(pin), id)?;
                if asked.follows(answer, expected) {
                    return Ok((through(of(&[at]), expected), Behind::Itself));
                }
            }
        }
        let ground = if pins.is_empty() { self.desk.bare() } else { self.desk.ground(&pins)? };
        if let Some(led) = ground.led(id).filter(|led| asked.follows(answer, led.value) && !pins.is_empty()) {
            return Ok((through(from, led.value), Behind::Follows));
        }
        let coarse = asked.is_coarse(written);
        let asked = asked.clone();
        let key = (part, pins.iter().map(|pin| pin.id).collect::<Vec<Id>>());
        let mut between = match self.between.remove(&key) {
            Some(between) => between,
            None => self.between(part, &pins, id)?,
        };
        let against_key = (part, Vec::new());
        if !pins.is_empty() && !self.between.contains_key(&against_key) {
            let against = self.between(part, &[], id)?;
            self.between.insert(against_key.clone(), against);
        }
        let against = if pins.is_empty() { None } else { self.between.get(&against_key) };
        let wrong = Wrong { asked: &asked, id, answer, half_place, coarse, pins: &pins, from: &from };
        let explained = explain(&wrong, &mut self.desk, &mut between, &ground, against);
        if self.between.len() > KEPT {
            self.between.clear();
        }
        self.between.insert(key, between);
        Ok(self.charge(explained?, charged))
    }

    /// A mistake costs once: where it was counted at another part, what follows from it is right.
    fn charge(&self, explained: Explained, charged: &mut Vec<usize>) -> (Verdict, Behind) {
        let Explained { verdict, behind, mistakes } = explained;
        if let Some(again) = mistakes.iter().copied().find(|mistake| charged.contains(mistake))
            && let Some((_, again)) = made(&self.desk, again)
        {
            let is_again = |one: &&Explanation| one.cause.mistakes().contains(&again);
            let expected = verdict.explanations().iter().find(is_again).map(|one| one.expected);
            if let Some(expected) = expected {
                let through = Through { answers: Vec::new(), mistakes: vec![again], expected };
                return (Verdict::FollowThrough(through), behind.map_or(Behind::Itself, Behind::Mistake));
            }
        }
        charged.extend(mistakes);
        (verdict, behind.map_or(Behind::Itself, Behind::Mistake))
    }

    fn between(&mut self, part: usize, pins: &[Pin], id: Id) -> Result<Between, EvaluationError> {
        let Some(Part { ways: found, .. }) = self.parts.get_mut(part) else {
            return Between::new(&mut self.desk, &[], pins, id);
        };
        if found.is_none() {
            *found = Some(ways(&self.desk, id)?);
        }
        Between::new(&mut self.desk, found.as_deref().unwrap_or_default(), pins, id)
    }
}

/// A number without its unit, SI: in that of the course, or in one that a power of a thousand makes of it where the answer is right
/// so.
fn in_some_unit(asked: &Asked, written: Written) -> Option<Written> {
    let usual = written.times(asked.unit.in_si())?;
    let others = [1e3, 1e-3, 1e6, 1e-6].into_iter().filter_map(|factor| usual.times(factor));
    let right = std::iter::once(usual).chain(others).find(|written| asked.accepts(written.number()));
    Some(right.unwrap_or(usual))
}

/// A wrong place, where the graph does not find it: a power of ten is all that can be known.
fn slip_of_place(asked: &Asked, answer: f64, half_place: f64) -> Verdict {
    let slips = asked.slips.iter().filter(|slip| !slip.last_resort);
    for slip in slips {
        let off = (answer - slip.factor * asked.right).abs();
        if asked.accepts(answer / slip.factor) && off <= half_place.max(slip.factor.abs() * 1e-9) {
            let slipped = super::verdict::Slipped { slip: slip.id, factor: slip.factor };
            let expected = slip.factor * asked.right;
            return Verdict::Explained(Explanation {
                cause: Cause::Slip { slip: slipped },
                from: Vec::new(),
                expected,
            });
        }
    }
    Verdict::Unknown { perhaps: Vec::new() }
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
