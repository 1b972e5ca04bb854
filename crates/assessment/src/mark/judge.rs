//! One answer judged: right, by follow-through, or explained.

use super::answer::{Answer, Written};
use super::asked::Asked;
use super::between::{Between, Ways, ways};
use super::desk::{Behind, Led, Pin};
use super::explain::{Explained, Wrong, explain, made};
use super::marker::{Marker, Part, Units};
use super::sheet::{Basis, GoesOn, Sheet};
use super::verdict::{Cause, Explanation, Made, Slipped, Through, UnitFault, Verdict};
use crate::set::Alternative;
use std::sync::Arc;
use workings::evaluate::EvaluationError;
use workings::graph::Workings;
use workings::working::Id;

/// How many sets of own values are kept in view for the parts of a paper.
const KEPT: usize = 256;

/// A number to be judged.
#[derive(Clone, Copy, Debug)]
struct Number {
    /// SI.
    answer: f64,
    /// How exactly it is known, SI.
    half_place: f64,
    /// Whether it has fewer figures than the course asks for.
    coarse: bool,
}

impl Marker<'_> {
    /// Judges an answer to a part, and keeps its value on the sheet for those that rest on it.
    pub(super) fn judge(
        &mut self,
        part: usize,
        answer: &Answer,
        sheet: &mut Sheet,
    ) -> (Verdict, Option<UnitFault>) {
        let Some((written, unit)) = self.number(part, answer) else {
            let verdict = if *answer == Answer::Blank { Verdict::Blank } else { Verdict::ByHand };
            return (verdict, None);
        };
        let judged = self.judge_number(part, written, sheet);
        // What cannot be evaluated is a mistake of ours, and nothing is guessed for it.
        let (mut verdict, mut behind) = judged.unwrap_or((Verdict::ByHand, Behind::Itself));
        // A wrong value stands among those to choose from for one mistake: that one is told, and no guess at others.
        if let Answer::Choice(chosen) = answer
            && !matches!(verdict, Verdict::Right | Verdict::FollowThrough(_))
        {
            let known = self.chosen(part, *chosen).filter(|(known, _)| !is_told(known, &verdict));
            (verdict, behind) = known.unwrap_or((verdict, behind));
        }
        let asked = self.parts.get(part).and_then(|part| part.asked.as_ref());
        if asked.is_some_and(|asked| asked.can_be_followed(written.number())) {
            let coarse = asked.is_some_and(|asked| asked.is_coarse(written));
            sheet.keep(part, written.number(), coarse, behind, &verdict);
        }
        (verdict, unit)
    }

    /// The number of an answer, SI, and what is wrong with its unit; nothing where there is no number, or none is asked for.
    fn number(&self, part: usize, answer: &Answer) -> Option<(Written, Option<UnitFault>)> {
        let Part { asked, alternatives, .. } = self.parts.get(part)?;
        let asked = asked.as_ref()?;
        match answer {
            Answer::Blank | Answer::Unreadable(_) => None,
            Answer::Choice(chosen) => Some((Written::new(alternatives.get(*chosen)?.value, None)?, None)),
            Answer::Value(written) => Some((*written, None)),
            Answer::Bare(written) => match self.units {
                Units::Printed => Some((written.times(asked.unit.in_si())?, None)),
                Units::Typed => Some((written.times(asked.typed_unit.in_si())?, None)),
                Units::Wanted => Some((in_some_unit(asked, *written)?, Some(UnitFault::Missing))),
            },
            Answer::OtherKind(written) => Some((in_some_unit(asked, *written)?, Some(UnitFault::OtherKind))),
        }
    }

    /// The mistake for which a value stands among those to choose from.
    fn chosen(&self, part: usize, chosen: usize) -> Option<(Verdict, Behind)> {
        let Alternative { value, mistake } = self.parts.get(part)?.alternatives.get(chosen)?;
        let known = mistake.as_ref()?;
        let made = Made { mistake: known.mistake.clone(), made_at: known.made_at.clone() };
        let cause = Cause::Mistake { mistake: made };
        let explanation = Explanation { cause, from: Vec::new(), expected: *value };
        Some((Verdict::Explained(explanation), Behind::Itself))
    }

    fn judge_number(
        &mut self,
        part: usize,
        written: Written,
        sheet: &mut Sheet,
    ) -> Result<(Verdict, Behind), EvaluationError> {
        let Some(Part { asked: Some(asked), .. }) = self.parts.get(part) else {
            return Ok((Verdict::ByHand, Behind::Itself));
        };
        let answer = written.number();
        if asked.accepts(answer) {
            return Ok((Verdict::Right, Behind::Right));
        }
        let number =
            Number { answer, half_place: asked.half_place(written), coarse: asked.is_coarse(written) };
        let Some(id) = asked.id else {
            return Ok((slip_of_place(asked, number), Behind::Itself));
        };
        // Kept aside, since judging needs the desk.
        let asked = asked.clone();
        let Some(basis) = self.basis(part, sheet, GoesOn::Written) else {
            return Ok((Verdict::ByHand, Behind::Itself));
        };
        let first = self.judge_from(part, &asked, id, number, &basis)?;
        if !matches!(first, Found::Explained(Explained { verdict: Verdict::Unknown { .. }, .. })) {
            return Ok(self.count(first, sheet));
        }
        // A slip may have been made in nothing but the writing.
        if let Some(basis) = self.basis(part, sheet, GoesOn::BeforeSlips) {
            let other = self.judge_from(part, &asked, id, number, &basis)?;
            if !matches!(other, Found::Explained(Explained { verdict: Verdict::Unknown { .. }, .. })) {
                return Ok(self.count(other, sheet));
            }
        }
        Ok(self.count(first, sheet))
    }

    fn basis(&self, part: usize, sheet: &Sheet, goes_on: GoesOn) -> Option<Basis> {
        let rests_on = &self.parts.get(part)?.rests_on;
        let ids =
            rests_on.iter().filter_map(|&other| Some((other, self.parts.get(other)?.asked.as_ref()?.id?)));
        sheet.basis(ids, goes_on)
    }

    fn labels(&self, parts: &[usize]) -> Vec<String> {
        let label = |part: &usize| self.paper.parts().nth(*part).map(|part| part.label.clone());
        parts.iter().filter_map(label).collect()
    }

    /// Judges a number that is not right by itself on the ground of some own values.
    fn judge_from(
        &mut self,
        part: usize,
        asked: &Asked,
        id: Id,
        number: Number,
        basis: &Basis,
    ) -> Result<Found, EvaluationError> {
        let Number { answer, half_place, coarse } = number;
        let pins = basis.pins.as_slice();
        let wrong = basis.wrong();
        let from = self.labels(&basis.parts(&wrong));
        // Of the own values only those show that nothing of the student's own comes after.
        let nearest = nearest(self.desk.solved().workings(), pins, id);
        let near_wrong: Vec<usize> = wrong.iter().copied().filter(|at| nearest.contains(at)).collect();
        let own = if near_wrong.is_empty() { &nearest } else { &near_wrong };
        let through = |answers: Vec<String>, or: Vec<String>, expected: f64, behind| {
            let through = Through { answers, or, mistakes: Vec::new(), expected };
            Found::Follows(Verdict::FollowThrough(through), behind)
        };
        // Right with all own values, else with a single wrong one.
        if !pins.is_empty() {
            let expected = self.desk.follows(pins, id)?;
            if asked.follows(answer, expected, pins) {
                let answers = self.labels(&basis.parts(own));
                return Ok(through(answers, Vec::new(), expected, Behind::Follows));
            }
            let mut alone: Vec<(usize, f64)> = Vec::new();
            for &at in wrong.iter().rev().filter(|_| pins.len() > 1) {
                let Some(pin) = pins.get(at) else { continue };
                let expected = self.desk.follows(std::slice::from_ref(pin), id)?;
                if asked.follows(answer, expected, std::slice::from_ref(pin)) {
                    alone.push((at, expected));
                }
            }
            if let Some(&(first, expected)) = alone.first() {
                let single: Vec<Pin> = alone.iter().filter_map(|(at, _)| pins.get(*at).copied()).collect();
                // What comes before another that leads there too was gone on with in that one.
                let last = self::nearest(self.desk.solved().workings(), &single, id);
                let others = alone.iter().enumerate().skip(1).filter(|(place, _)| last.contains(place));
                let or: Vec<usize> = others.map(|(_, &(at, _))| at).collect();
                let (answers, or) = (self.labels(&basis.parts(&[first])), self.labels(&basis.parts(&or)));
                return Ok(through(answers, or, expected, Behind::Itself));
            }
        }
        let ways = self.ways(part, id)?;
        let ground =
            if pins.is_empty() { self.desk.bare() } else { self.desk.ground(pins, id, &ways.read)? };
        let follows = |led: &Led| !pins.is_empty() && asked.follows(answer, led.value, pins);
        if let Some(led) = ground.led(id).filter(follows) {
            let answers = self.labels(&basis.parts(own));
            return Ok(through(answers, Vec::new(), led.value, Behind::Follows));
        }
        let key = (part, pins.iter().map(|pin| pin.id).collect::<Vec<Id>>());
        let against_key = (part, Vec::new());
        if !pins.is_empty() && !self.between.contains_key(&against_key) {
            let against = self.between(part, &[], id)?;
            self.between.insert(against_key.clone(), against);
        }
        let mut between = match self.between.remove(&key) {
            Some(between) => between,
            None => self.between(part, pins, id)?,
        };
        let against = if pins.is_empty() { None } else { self.between.get(&against_key) };
        let wrong = Wrong { asked, id, answer, half_place, coarse, pins, from: &from };
        let explained = explain(&wrong, &mut self.desk, &mut between, &ground, against);
        if self.between.len() > KEPT {
            self.between.clear();
        }
        self.between.insert(key, between);
        Ok(Found::Explained(explained?))
    }

    /// A mistake costs once: where it was counted at another part, what follows from it is right.
    fn count(&self, found: Found, sheet: &mut Sheet) -> (Verdict, Behind) {
        let Explained { verdict, behind, mistakes } = match found {
            Found::Follows(verdict, behind) => return (verdict, behind),
            Found::Explained(explained) => explained,
        };
        if let Some(again) = mistakes.iter().copied().find(|mistake| sheet.counted.contains(mistake))
            && let Some((_, again)) = made(&self.desk, again)
        {
            let is_again = |one: &&Explanation| one.cause.mistakes().contains(&again);
            let expected = verdict.explanations().iter().find(is_again).map(|one| one.expected);
            if let Some(expected) = expected {
                let through =
                    Through { answers: Vec::new(), or: Vec::new(), mistakes: vec![again], expected };
                return (Verdict::FollowThrough(through), behind);
            }
        }
        sheet.counted.extend(mistakes);
        (verdict, behind)
    }

    /// The mistakes on the way to a part; found when first needed.
    fn ways(&mut self, part: usize, id: Id) -> Result<Arc<Ways>, EvaluationError> {
        if let Some(known) = self.parts.get(part).and_then(|part| part.ways.clone()) {
            return Ok(known);
        }
        let found = Arc::new(ways(&self.desk, id)?);
        if let Some(part) = self.parts.get_mut(part) {
            part.ways = Some(Arc::clone(&found));
        }
        Ok(found)
    }

    fn between(&mut self, part: usize, pins: &[Pin], id: Id) -> Result<Between, EvaluationError> {
        let ways = self.ways(part, id)?;
        Between::new(&mut self.desk, &ways, pins, id)
    }
}

/// The places of the own values from which an asked value is worked out with nothing of the student's own in between.
fn nearest(workings: &Workings, pins: &[Pin], asked: Id) -> Vec<usize> {
    let mut seen = vec![false; workings.len()];
    let mut found = Vec::new();
    let mut open = workings.reads(asked);
    while let Some(id) = open.pop() {
        let Some(known) = seen.get_mut(id.0 as usize) else { continue };
        if std::mem::replace(known, true) {
            continue;
        }
        match pins.iter().position(|pin| pin.id == id) {
            Some(at) => found.push(at),
            None => open.extend(workings.reads(id)),
        }
    }
    found.sort_unstable();
    found
}

/// Whether a verdict tells the mistake of another already, and no other beside it.
fn is_told(known: &Verdict, verdict: &Verdict) -> bool {
    match (known, verdict) {
        (Verdict::Explained(known), Verdict::Explained(found)) => known.cause == found.cause,
        _ => false,
    }
}

/// What a number is found to be.
enum Found {
    Follows(Verdict, Behind),
    Explained(Explained),
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
fn slip_of_place(asked: &Asked, number: Number) -> Verdict {
    let Number { answer, half_place, .. } = number;
    let slips = asked.slips.iter().filter(|slip| !slip.last_resort);
    for slip in slips {
        let expected = slip.factor * asked.right;
        let near = (answer - expected).abs() <= half_place * (1.0 + 1e-9);
        if near && expected != 0.0 && asked.accepts(answer / slip.factor) {
            let cause = Cause::Slip { slip: Slipped { slip: slip.id, factor: slip.factor } };
            return Verdict::Explained(Explanation { cause, from: Vec::new(), expected });
        }
    }
    Verdict::Unknown { perhaps: Vec::new() }
}
