//! The reactions: from balance alone where that suffices, by the force method where it does not.

use super::balance::Reactions;
use super::beam_givens::BeamGivens;
use super::builder::{Builder, Entry};
use crate::dimension::Dimension;
use crate::engine::Call;
use crate::evaluate::EvaluationError;
use crate::role::Role;
use crate::working::Chapter;
use mechanics::beam::{Freedom, Redundant, Solution};
use std::sync::Arc;

impl Builder<'_> {
    /// All reactions of the beam.
    pub(crate) fn reactions(
        &mut self,
        beam: &BeamGivens,
        redundants: &[Redundant],
        solution: &Solution,
    ) -> Result<Reactions, EvaluationError> {
        let known = self.redundant_reactions(beam, redundants, solution)?;
        match self.balance(beam, &known)? {
            Some(found) => Ok(found),
            None => self.other_reactions(beam, known, solution),
        }
    }

    /// Where the pieces cannot be taken one after the other, the engine's solution stands.
    fn other_reactions(
        &mut self,
        beam: &BeamGivens,
        mut found: Reactions,
        solution: &Solution,
    ) -> Result<Reactions, EvaluationError> {
        let how = "From the balance of all pieces of the beam, solved together.";
        let (reads, question) = self.beam_question(beam, &[]);
        for reaction in solution.reactions() {
            let of = reaction.support;
            let Some(support) = beam.supports.get(of) else { continue };
            let name = support.name.clone();
            let asked = [
                (
                    support.transverse.holds() && found.forces[of].is_none(),
                    Freedom::Transverse,
                    Role::Reaction,
                    "reaction",
                    reaction.force,
                    Dimension::FORCE,
                ),
                (
                    support.rotation.holds() && found.couples[of].is_none(),
                    Freedom::Rotation,
                    Role::ReactionCouple,
                    "couple",
                    reaction.couple,
                    Dimension::MOMENT,
                ),
            ];
            for (wanted, freedom, role, what, value, dimension) in asked {
                if !wanted {
                    continue;
                }
                let entry = Entry::new(Chapter::Reactions, role, &name, format!("{what} at {name}"));
                let call = Call::Reaction(Arc::clone(&question), of, freedom);
                let entry = entry.at(reaction.station, None).says(how);
                let id = self.engine(entry, how, (reads.clone(), call), value, dimension)?;
                match freedom {
                    Freedom::Transverse => found.forces[of] = Some(id),
                    Freedom::Rotation => found.couples[of] = Some(id),
                }
            }
        }
        Ok(found)
    }
}
