//! The reactions: from balance alone where that suffices, by the force method where it does not.

use super::balance::Reactions;
use super::beam_givens::BeamGivens;
use super::builder::{Builder, Entry};
use crate::dimension::Dimension;
use crate::engine::Call;
use crate::evaluate::EvaluationError;
use crate::role::Role;
use crate::working::Chapter;
use mechanics::beam::{Redundant, Solution};

impl Builder<'_> {
    /// All reactions of the beam.
    pub(crate) fn reactions(
        &mut self,
        beam: &BeamGivens,
        redundants: &[Redundant],
        solution: &Solution,
    ) -> Result<Reactions, EvaluationError> {
        let known = self.redundant_reactions(beam, redundants)?;
        match self.balance(beam, &known)? {
            Some(found) => Ok(found),
            None => self.reactions_by_engine(beam, known, solution),
        }
    }

    /// Where the pieces cannot be taken one after the other, the engine's solution stands.
    fn reactions_by_engine(
        &mut self,
        beam: &BeamGivens,
        mut found: Reactions,
        solution: &Solution,
    ) -> Result<Reactions, EvaluationError> {
        let how = "From the balance of all pieces of the beam, solved together.";
        for reaction in solution.reactions() {
            let of = reaction.support;
            let Some(support) = beam.supports.get(of) else { continue };
            let name = support.name.clone();
            if support.transverse.holds() && found.forces[of].is_none() {
                let entry =
                    Entry::new(Chapter::Reactions, Role::Reaction, &name, format!("reaction at {name}"));
                let entry = entry.at(reaction.station, None).says(how);
                let call = (Vec::new(), Call::Fixed);
                found.forces[of] = Some(self.engine(entry, how, call, reaction.force, Dimension::FORCE)?);
            }
            if support.rotation.holds() && found.couples[of].is_none() {
                let entry =
                    Entry::new(Chapter::Reactions, Role::ReactionCouple, &name, format!("couple at {name}"));
                let entry = entry.at(reaction.station, None).says(how);
                let call = (Vec::new(), Call::Fixed);
                found.couples[of] =
                    Some(self.engine(entry, how, call, reaction.couple, Dimension::MOMENT)?);
            }
        }
        Ok(found)
    }
}
