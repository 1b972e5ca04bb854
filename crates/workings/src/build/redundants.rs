//! Reactions of an indeterminate beam: the force method.
//!
//! Enough holds are released to make the beam determinate; the reactions there are those that undo the
//! movements of the released beam. All other reactions follow from balance.

use super::balance::Reactions;
use super::beam_givens::{BeamGivens, HoldGiven, LoadKind};
use super::builder::{Builder, Entry};
use super::released::unit_dimension;
use super::two_equations::solved_by_determinants;
use crate::engine::{BeamQuestion, Call, Field};
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::role::Role;
use crate::working::{Chapter, Id};
use mechanics::beam::{Freedom, Redundant, Solution};
use std::sync::Arc;

const CHAPTER: Chapter = Chapter::Reactions;

/// So many redundants are found by formulas that a reader can follow; the engine finds more of them together.
const MOST_BY_HAND: usize = 2;

impl Builder<'_> {
    /// The redundant reactions, from the condition that the beam fits its supports.
    pub(crate) fn redundant_reactions(
        &mut self,
        beam: &BeamGivens,
        redundants: &[Redundant],
        solution: &Solution,
    ) -> Result<Reactions, EvaluationError> {
        let supports = beam.supports.len();
        let mut found = Reactions { forces: vec![None; supports], couples: vec![None; supports] };
        if redundants.is_empty() {
            return Ok(found);
        }
        let (reads, question) = self.beam_question(beam, redundants);
        let count = redundants.len();
        if count > MOST_BY_HAND {
            for redundant in redundants {
                let id = self.reaction_by_engine(beam, &question, &reads, redundant, count)?;
                found.set(redundant, id);
            }
            return Ok(found);
        }
        let movements = self.movements(beam, &question, &reads)?;
        let mut to_undo = Vec::with_capacity(count);
        for (redundant, &under_loads) in redundants.iter().zip(&movements.under_loads) {
            to_undo.push(match hold_of(beam, redundant) {
                HoldGiven::Moved(moved) => Expression::from(moved) - under_loads.into(),
                _ => -Expression::from(under_loads),
            });
        }
        let mut flexibilities = Vec::with_capacity(count * count);
        for (place, &under_unit) in movements.under_units.iter().enumerate() {
            let (at, unit) = (place / count, place % count);
            flexibilities.push(match hold_of(beam, &redundants[at]) {
                HoldGiven::Spring(stiffness) if unit == at => {
                    Expression::from(under_unit) + Expression::from(1.0) / stiffness.into()
                }
                _ => under_unit.into(),
            });
        }
        for (redundant, formula) in redundants.iter().zip(solved_by_determinants(&to_undo, &flexibilities)) {
            let exact = exact_reaction(solution, redundant);
            let scale = solution.reactions().iter().fold(0.0, |most: f64, reaction| {
                most.max(match redundant.against {
                    Freedom::Transverse => reaction.force.abs(),
                    Freedom::Rotation => reaction.couple.abs(),
                })
            });
            let by_formula = self.workings.evaluate(&formula)?.value;
            // Spans of very unlike length or stiffness can make the two equations almost one.
            let id = if (by_formula - exact).abs() <= 1e-10 * scale {
                let says = match count {
                    1 => {
                        "The beam must fit its support: the movement of the released beam under the loads and that \
                         under the redundant together are what the support allows."
                    }
                    _ => {
                        "The beam must fit both supports: two equations, each of which sets the movement of the \
                         released beam at one of them to what the support allows; solved by determinants."
                    }
                };
                let entry = self.reaction_entry(beam, redundant).says(says);
                self.formula(entry, formula)?
            } else {
                self.reaction_by_engine(beam, &question, &reads, redundant, count)?
            };
            found.set(redundant, id);
        }
        Ok(found)
    }

    fn reaction_by_engine(
        &mut self,
        beam: &BeamGivens,
        question: &Arc<BeamQuestion>,
        reads: &[Id],
        redundant: &Redundant,
        count: usize,
    ) -> Result<Id, EvaluationError> {
        let conditions = match count {
            1 => "one condition".to_owned(),
            count => format!("{count} conditions, solved together,"),
        };
        let how = format!(
            "From the exact solution of the beam: {conditions} that the beam fits its supports, beside the balance \
             of forces and moments."
        );
        let call = Call::Reaction(Arc::clone(question), redundant.support, redundant.against);
        let value = call.evaluate(reads, self.workings.values());
        let entry = self.reaction_entry(beam, redundant).says(how.clone());
        self.engine(entry, how, (reads.to_vec(), call), value, unit_dimension(redundant.against))
    }

    /// The beam with every number that a working holds, and those workings.
    pub(crate) fn beam_question(
        &self,
        beam: &BeamGivens,
        redundants: &[Redundant],
    ) -> (Vec<Id>, Arc<BeamQuestion>) {
        let (reads, fields) = self.fields(beam);
        let (beam, redundants) = (self.problem.beam.clone(), redundants.to_vec());
        (reads, Arc::new(BeamQuestion { beam, redundants, fields }))
    }

    fn reaction_entry(&self, beam: &BeamGivens, redundant: &Redundant) -> Entry {
        let name = &beam.supports[redundant.support].name;
        match redundant.against {
            Freedom::Transverse => Entry::new(CHAPTER, Role::Reaction, name, format!("reaction at {name}")),
            Freedom::Rotation => Entry::new(CHAPTER, Role::ReactionCouple, name, format!("couple at {name}")),
        }
        .at(redundant.station, None)
    }

    /// Every number of the beam that a working holds.
    fn fields(&self, beam: &BeamGivens) -> (Vec<Id>, Vec<Field>) {
        let mut fields = vec![(beam.length, Field::Length)];
        fields.extend(beam.rigidity.map(|rigidity| (rigidity, Field::Rigidity)));
        for (of, support) in beam.supports.iter().enumerate() {
            fields.push((support.station, Field::SupportStation(of)));
            let holds = [(support.transverse, Freedom::Transverse), (support.rotation, Freedom::Rotation)];
            for (hold, freedom) in holds {
                match hold {
                    HoldGiven::Moved(id) => fields.push((id, Field::SupportMovement(of, freedom))),
                    HoldGiven::Spring(id) => fields.push((id, Field::SupportStiffness(of, freedom))),
                    HoldGiven::Free | HoldGiven::Still => {}
                }
            }
        }
        for (place, hinge) in self.problem.beam.hinges.iter().enumerate() {
            if let Some(&id) = beam.hinges.iter().find(|&&id| self.same_station(self.value(id), *hinge)) {
                fields.push((id, Field::Hinge(place)));
            }
        }
        for (of, load) in beam.loads.iter().enumerate() {
            match load.kind {
                LoadKind::Force { station, down: size } | LoadKind::Couple { station, ccw: size } => {
                    fields.extend([(station, Field::LoadStart(of)), (size, Field::LoadSize(of))]);
                }
                LoadKind::Spread { from, to, down_from, down_to } => fields.extend([
                    (from, Field::LoadStart(of)),
                    (to, Field::LoadEnd(of)),
                    (down_from, Field::LoadSize(of)),
                    (down_to, Field::LoadSizeAtEnd(of)),
                ]),
            }
        }
        fields.into_iter().unzip()
    }
}

fn exact_reaction(solution: &Solution, redundant: &Redundant) -> f64 {
    let reaction = solution.reactions().iter().find(|reaction| reaction.support == redundant.support);
    reaction.map_or(f64::NAN, |reaction| match redundant.against {
        Freedom::Transverse => reaction.force,
        Freedom::Rotation => reaction.couple,
    })
}

fn hold_of(beam: &BeamGivens, redundant: &Redundant) -> HoldGiven {
    let support = &beam.supports[redundant.support];
    match redundant.against {
        Freedom::Transverse => support.transverse,
        Freedom::Rotation => support.rotation,
    }
}
