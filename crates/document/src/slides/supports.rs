//! The pages on how the reactions are found where that takes more than the balance of the whole beam: hinges, and supports more than balance
//! needs.

use super::{Show, words};
use crate::tree::Block;
use workings::role::Role;
use workings::working::{Chapter, Id, Working};

impl Show<'_> {
    fn of_reactions(&self, wanted: impl Fn(&Working) -> bool) -> Vec<Id> {
        let found = self.solved.workings().chapter(Chapter::Reactions);
        found.filter(|(_, working)| wanted(working)).map(|(id, _)| id).collect()
    }

    /// A page on the hinges of a beam that balance alone solves; nothing of any other beam.
    pub(super) fn hinges(&mut self) {
        let forces = self.of_reactions(|working| working.name.starts_with("force in "));
        if self.solved.problem().beam.hinges.is_empty() || forces.is_empty() {
            return;
        }
        let mut steps = vec![
            words("How many reactions are unknown? How many balances has the whole beam?"),
            words("A hinge passes on a force, but no moment. Cut there: each piece is a beam in balance."),
            words("Begin with the piece that could not stand alone."),
        ];
        steps.extend(forces.iter().map(|&id| self.line_of(id)));
        self.slide("Cut at the hinge", Vec::new(), steps);
    }

    /// A page on each support more than balance needs: how far the beam would move there without it, and what brings it back.
    pub(super) fn redundants(&mut self) {
        let workings = self.solved.workings();
        let movements =
            self.of_reactions(|working| matches!(working.symbol.role, Role::Deflection | Role::Slope));
        if movements.is_empty() {
            return;
        }
        let redundants: Vec<Id> = self
            .of_reactions(|working| matches!(working.symbol.role, Role::Reaction | Role::ReactionCouple))
            .into_iter()
            .filter(|&id| workings.reads(id).iter().any(|read| movements.contains(read)))
            .collect();
        let mut steps = vec![
            words("More unknown reactions than balances."),
            words(
                "Take away what is too much. How far does the beam move there, under the loads and under a unit?",
            ),
        ];
        // A page holds a few results in a line.
        steps.extend(movements.chunks(3).map(|few| self.results(few)));
        steps.push(words("The reaction must bring it back to its support:"));
        let found: Vec<Vec<Block>> = redundants.iter().map(|&id| self.line_of(id)).collect();
        steps.extend(found);
        self.slide("More supports than balance needs", Vec::new(), steps);
    }
}
