//! What the beam may carry for what its material may bear.

use super::author::Author;
use super::line;
use crate::tree::{Block, CalloutKind, Inline};
use workings::expression::Expression;
use workings::role::{Role, Symbol};
use workings::working::{Chapter, Id};

impl Author<'_> {
    pub(crate) fn allowables(&mut self) {
        let found: Vec<Id> = self.workings().chapter(Chapter::Allowables).map(|(id, _)| id).collect();
        if found.is_empty() {
            return;
        }
        self.chapter(Chapter::Allowables.title());
        self.say(line![
            "Every stress and every force on a fastener is proportional to the loads. So each limit says how many times the \
             loads may grow together, its load factor ",
            Inline::Math(Expression::Symbol(Symbol::plain(Role::LoadFactor))),
            ", and the least of these factors governs."
        ]);
        let allowed = |name: &str| name.starts_with("allowable ") || name.starts_with("fastener capacity ");
        let given = self.workings().chapter(Chapter::Given).filter(|(_, working)| allowed(&working.name));
        let ids: Vec<Id> = given.map(|(id, _)| id).chain(found).collect();
        self.table_of_workings(
            line!["What may be borne, and what follows; how it comes about stands in the worked solution."],
            &ids,
        );
        self.callout(
            CalloutKind::Caution,
            "An exercise",
            vec![Block::Paragraph(line![
                "The allowable values are examples. Real ones, and the factors of safety with them, are those of the code in \
                 force where the beam will stand, and their use is the work of a licensed engineer."
            ])],
        );
    }
}
