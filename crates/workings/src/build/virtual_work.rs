//! Movements of the released beam by virtual work: a unit where a movement is asked for, and the integral of the product
//! of two bending moments over E I.
//!
//! # Source
//! The unit-load method, in every textbook of mechanics of materials (from memory: Gere & Goodno, Mechanics of Materials,
//! section 9.9; Hibbeler, Mechanics of Materials, chapter 14).

use super::beam_givens::{BeamGivens, HoldGiven, LoadKind};
use super::builder::{Builder, Entry, zero};
use super::integral::{Growth, Law, beyond_simpson, simpson};
use super::released::{Case, LOADS, Released, place_and_cause, unit_dimension, unit_index, unit_words};
use super::released_moment::Place;
use crate::dimension::Dimension;
use crate::engine::{BeamQuestion, Call, Movement};
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::role::Role;
use crate::working::{Chapter, Id};
use mechanics::beam::{Freedom, Redundant};
use std::sync::Arc;

const CHAPTER: Chapter = Chapter::Reactions;

/// So many integrals over a piece of the beam are followed by hand: what a beam of three spans takes, five movements with
/// three pieces each, the longest that textbooks solve in this way (common practice, no source).
const MOST_INTEGRALS: usize = 15;

/// A movement by its formula and what the engine makes of it, to be compared.
#[derive(Clone, Copy, Debug)]
pub(crate) struct MovementCheck {
    pub(crate) working: Id,
    pub(crate) engine: f64,
    /// What the movement is added up from.
    pub(crate) scale: f64,
}

/// All movements of the released beam where its redundants act.
pub(super) struct Movements {
    /// Under the loads, by redundant.
    pub(super) under_loads: Vec<Id>,
    /// Under a unit: row by row, a row for each place.
    pub(super) under_units: Vec<Id>,
}

/// What a movement is called.
struct Named {
    role: Role,
    index: String,
    name: String,
    /// `deflection`, `slope`.
    moves: &'static str,
    dimension: Dimension,
}

impl Builder<'_> {
    /// The movements of the released beam: by virtual work where that can be followed by hand, else by the engine.
    pub(super) fn movements(
        &mut self,
        beam: &BeamGivens,
        question: &Arc<BeamQuestion>,
        reads: &[Id],
    ) -> Result<Movements, EvaluationError> {
        let redundants = question.redundants.as_slice();
        let count = redundants.len();
        let released = self.released(beam, redundants)?;
        let released = released.filter(|released| {
            let integrals = self.integrals(released);
            (1..=MOST_INTEGRALS).contains(&integrals)
        });
        let Some((mut released, rigidity)) = released.zip(beam.rigidity) else {
            return self.movements_by_engine(beam, question, reads);
        };
        for case in std::iter::once(Case::Loads).chain((0..count).map(Case::Unit)) {
            self.moments(&mut released, case)?;
        }
        let mut under_loads = Vec::with_capacity(count);
        for at in 0..count {
            let asked = (question, reads, Movement { at, under_unit: None });
            under_loads.push(self.by_virtual_work(&mut released, rigidity, asked)?);
        }
        let mut under_units: Vec<Id> = Vec::with_capacity(count * count);
        for at in 0..count {
            for unit in 0..count {
                let mirrored = (unit < at).then(|| under_units.get(unit * count + at).copied()).flatten();
                under_units.push(match mirrored {
                    Some(known) => {
                        let movement = Movement { at, under_unit: Some(unit) };
                        let Named { role, index, name, .. } = named(beam, redundants, movement);
                        let says = format!(
                            "Maxwell's theorem: the {name} is the {}.",
                            self.workings.working(known).name
                        );
                        let entry = Entry::new(CHAPTER, role, &index, name).at(redundants[at].station, None);
                        self.formula(entry.says(says), known.into())?
                    }
                    None => {
                        let asked = (question, reads, Movement { at, under_unit: Some(unit) });
                        self.by_virtual_work(&mut released, rigidity, asked)?
                    }
                });
            }
        }
        Ok(Movements { under_loads, under_units })
    }

    fn movements_by_engine(
        &mut self,
        beam: &BeamGivens,
        question: &Arc<BeamQuestion>,
        reads: &[Id],
    ) -> Result<Movements, EvaluationError> {
        let count = question.redundants.len();
        let (mut under_loads, mut under_units) = (Vec::new(), Vec::new());
        for at in 0..count {
            under_loads.push(self.by_engine(beam, question, reads, Movement { at, under_unit: None })?);
            for unit in 0..count {
                let movement = Movement { at, under_unit: Some(unit) };
                under_units.push(self.by_engine(beam, question, reads, movement)?);
            }
        }
        Ok(Movements { under_loads, under_units })
    }

    fn by_engine(
        &mut self,
        beam: &BeamGivens,
        question: &Arc<BeamQuestion>,
        reads: &[Id],
        movement: Movement,
    ) -> Result<Id, EvaluationError> {
        let redundants = question.redundants.as_slice();
        let Named { role, index, name, moves, dimension } = named(beam, redundants, movement);
        let at = &beam.supports[redundants[movement.at].support].name;
        let under = match movement.under_unit {
            None => "its loads".to_owned(),
            Some(unit) => format!("{} alone", unit_words(beam, &redundants[unit])),
        };
        let how = format!(
            "The {moves} at {at} of the beam released there, under {under}, from the exact solution of that determinate beam."
        );
        let call = Call::Movement(Arc::clone(question), movement);
        let value = call.evaluate(reads, self.workings.values());
        let entry = Entry::new(CHAPTER, role, &index, name)
            .at(redundants[movement.at].station, None)
            .says(how.clone());
        self.engine(entry, how, (reads.to_vec(), call), value, dimension)
    }

    /// How many integrals over a piece the movements take.
    fn integrals(&self, released: &Released<'_>) -> usize {
        let of_piece = |piece: usize| {
            let units = self.units_that_bend(released, piece).count();
            let under_loads = if self.bent_by_loads(released, piece) { units } else { 0 };
            under_loads + units * (units + 1) / 2
        };
        (0..released.keys.len().saturating_sub(1)).map(of_piece).sum()
    }

    /// The redundants whose units bend a piece.
    fn units_that_bend<'b>(
        &'b self,
        released: &'b Released<'_>,
        piece: usize,
    ) -> impl Iterator<Item = usize> + 'b {
        (0..released.redundants.len()).filter(move |&unit| self.is_bent(released, unit, piece))
    }

    /// Whether the unit of a redundant bends a piece.
    fn is_bent(&self, released: &Released<'_>, unit: usize, piece: usize) -> bool {
        [Place::RightOf(piece), Place::LeftOf(piece + 1)]
            .into_iter()
            .any(|place| !self.no_moment(released, Case::Unit(unit), place))
    }

    fn bent_by_loads(&self, released: &Released<'_>, piece: usize) -> bool {
        [Place::RightOf(piece), Place::AfterKey(piece), Place::LeftOf(piece + 1)]
            .into_iter()
            .any(|place| !self.no_moment(released, Case::Loads, place))
    }

    /// Finds the moments of a case on every piece that some unit bends.
    fn moments(&mut self, released: &mut Released<'_>, case: Case) -> Result<(), EvaluationError> {
        for piece in 0..released.keys.len().saturating_sub(1) {
            let wanted = match case {
                Case::Loads => self.units_that_bend(released, piece).next().is_some(),
                Case::Unit(unit) => self.is_bent(released, unit, piece),
            };
            if wanted {
                self.law(released, case, piece)?;
            }
        }
        Ok(())
    }

    fn law(&mut self, released: &mut Released<'_>, case: Case, piece: usize) -> Result<Law, EvaluationError> {
        let start = self.released_moment(released, case, Place::RightOf(piece))?;
        let loaded = case == Case::Loads && self.loads_on(released, piece).next().is_some();
        let middle = match loaded {
            true => self.released_moment(released, case, Place::AfterKey(piece))?,
            false => None,
        };
        let end = self.released_moment(released, case, Place::LeftOf(piece + 1))?;
        Ok(Law { start, end, middle })
    }

    /// The spread loads that act on all of a piece.
    fn loads_on<'a>(
        &'a self,
        released: &'a Released<'_>,
        piece: usize,
    ) -> impl Iterator<Item = (Id, Id, Id, Id)> + 'a {
        let at = |key: usize| self.value(released.keys[key].station);
        let middle = 0.5 * (at(piece) + at(piece + 1));
        released.beam.loads.iter().filter_map(move |load| match load.kind {
            LoadKind::Spread { from, to, down_from, down_to } => (self.value(from) < middle
                && self.value(to) > middle)
                .then_some((from, to, down_from, down_to)),
            _ => None,
        })
    }

    fn by_virtual_work(
        &mut self,
        released: &mut Released<'_>,
        rigidity: Id,
        (question, reads, movement): (&Arc<BeamQuestion>, &[Id], Movement),
    ) -> Result<Id, EvaluationError> {
        let beam = released.beam;
        let under = movement.under_unit.map_or(Case::Loads, Case::Unit);
        let unit = Case::Unit(movement.at);
        let (mut terms, mut scale, mut grows) = (Vec::new(), 0.0, false);
        for piece in 0..released.keys.len().saturating_sub(1) {
            if !self.is_bent(released, movement.at, piece) {
                continue;
            }
            let (one, other) = (self.law(released, under, piece)?, self.law(released, unit, piece)?);
            let (from, to) = (released.keys[piece].station, released.keys[piece + 1].station);
            let length = self.difference(to, from);
            let sizes = |law: Law| law.ids().map(|id| self.value(id).abs()).fold(0.0, f64::max);
            scale += (self.value(to) - self.value(from)) * sizes(one) * sizes(other) / self.value(rigidity);
            terms.extend(simpson(&length, one, other).into_iter().map(|integral| integral.over(rigidity)));
            if under == Case::Loads {
                let growths = self.growths(released, piece);
                grows |= !growths.is_empty();
                let left_out =
                    growths.into_iter().filter_map(|growth| beyond_simpson(&length, growth, other));
                terms.extend(left_out.map(|integral| integral.over(rigidity)));
            }
        }
        let gives = self.supports_that_give(released, under, movement.at, (&mut terms, &mut scale))?;
        let Named { role, index, name, moves, dimension } = named(beam, released.redundants, movement);
        let formula = match terms.is_empty() {
            true => zero(dimension, role),
            false => Expression::sum(terms),
        };
        let at = &released.redundants[movement.at];
        let says = sentence(released, movement, moves, (grows, gives));
        let entry = Entry::new(CHAPTER, role, &index, name).at(at.station, None).says(says);
        let id = self.formula(entry, formula)?;
        let call = Call::Movement(Arc::clone(question), movement);
        let engine = call.evaluate(reads, self.workings.values());
        self.movement_checks.push(MovementCheck { working: id, engine, scale });
        Ok(id)
    }

    /// The loads that grow along a piece.
    fn growths(&self, released: &Released<'_>, piece: usize) -> Vec<Growth> {
        let (start, end) = (released.keys[piece].station, released.keys[piece + 1].station);
        let of_load = |(from, to, down_from, down_to): (Id, Id, Id, Id)| {
            let all_of_it = self.same_station(self.value(from), self.value(start))
                && self.same_station(self.value(to), self.value(end));
            Growth {
                whole: self.growth(down_from, down_to),
                over: (!all_of_it).then(|| self.difference(to, from)),
            }
        };
        let growing = self.loads_on(released, piece).filter(|(.., down_from, down_to)| down_from != down_to);
        growing.map(of_load).collect()
    }

    /// What the supports that are left add, as far as they give way: a spring the product of its two reactions over its
    /// stiffness, an imposed movement its product with the reaction under the unit, taken off. Whether any does.
    fn supports_that_give(
        &mut self,
        released: &mut Released<'_>,
        under: Case,
        at: usize,
        (terms, scale): (&mut Vec<Expression>, &mut f64),
    ) -> Result<bool, EvaluationError> {
        let before = terms.len();
        for of in 0..released.held.len() {
            let by = released.held[of].by;
            let term = match (by, under) {
                (HoldGiven::Spring(stiffness), _) => {
                    let unit = self.released_reaction(released, Case::Unit(at), of)?;
                    let reaction = self.released_reaction(released, under, of)?;
                    let Some((unit, reaction)) = unit.zip(reaction) else { continue };
                    Expression::from(reaction) * unit.into() / stiffness.into()
                }
                (HoldGiven::Moved(moved), Case::Loads) => {
                    let Some(unit) = self.released_reaction(released, Case::Unit(at), of)? else { continue };
                    -(Expression::from(unit) * moved.into())
                }
                _ => continue,
            };
            *scale += self.workings.evaluate(&term)?.value.abs();
            terms.push(term);
        }
        Ok(terms.len() > before)
    }
}

/// What a movement is called, and its dimension.
fn named(beam: &BeamGivens, redundants: &[Redundant], movement: Movement) -> Named {
    let at = &redundants[movement.at];
    let place = &beam.supports[at.support].name;
    let (role, moves, of_movement) = match at.against {
        Freedom::Transverse => (Role::Deflection, "deflection", Dimension::LENGTH),
        Freedom::Rotation => (Role::Slope, "slope", Dimension::NONE),
    };
    let (cause, words, dimension) = match movement.under_unit.and_then(|unit| redundants.get(unit)) {
        None => (LOADS.to_owned(), "under the loads".to_owned(), of_movement),
        Some(unit) => {
            let dimension = of_movement.over(unit_dimension(unit.against)).unwrap_or(of_movement);
            (unit_index(beam, unit), format!("under {}", unit_words(beam, unit)), dimension)
        }
    };
    Named {
        role,
        index: place_and_cause(place, &cause),
        name: format!("{moves} at {place} {words}"),
        moves,
        dimension,
    }
}

fn sentence(
    released: &Released<'_>,
    movement: Movement,
    moves: &str,
    (grows, gives): (bool, bool),
) -> String {
    let at = &released.beam.supports[released.redundants[movement.at].support].name;
    let unit = released.unit_words(movement.at);
    let mut says = match movement.under_unit {
        None if movement.at == 0 => format!(
            "Virtual work: {unit}, times the {moves} there under the loads, is the integral along the beam of the product of \
             both moments over the flexural rigidity. Simpson's rule gives it exactly from station to station: a sixth of \
             the length times the sum of the product at the start, four times that halfway, and that at the end. Halfway a \
             moment that runs straight has the mean of its ends."
        ),
        None => format!(
            "In the same way the {moves} at {at} under the loads, from the product with the moment under {unit}."
        ),
        Some(under) if under == movement.at => format!(
            "In the same way the {moves} at {at} under {unit} itself: its own moment stands for both."
        ),
        Some(under) => format!(
            "In the same way the {moves} at {at} under {}, from the product of the moments under both units.",
            released.unit_words(under)
        ),
    };
    if grows {
        says.push_str(
            " Where the load grows along the beam, what the rule leaves out is added: a 720th of the third power of the length \
             times how much the load grows and how much the moment under the unit does.",
        );
    }
    if gives {
        says.push_str(" To this comes what the supports that give way do.");
    }
    says
}
