//! What the joints must carry.

use super::author::Author;
use super::line;
use crate::tree::Inline;
use lesson::{Scene, When};
use workings::expression::Expression;
use workings::role::{Role, Symbol};
use workings::working::{Chapter, Id};

impl Author<'_> {
    pub(crate) fn joints(&mut self) {
        if self.solved.problem().joints.is_empty() {
            return;
        }
        let plain = |role: Role| Expression::Symbol(Symbol::plain(role));
        self.chapter("What the joints must carry");
        self.own_words(Scene::Joints, When::Before);
        self.say(line![
            "A joint between two parts is a cut that somebody made. What passes it along the beam, for each length of \
             beam, is the shear flow ",
            Inline::Math(plain(Role::ShearFlow)),
            ": the shear stress times the width over which it acts. Glue carries it as a stress; nails, screws and bolts \
             carry it in lumps, each the flow over its own spacing."
        ]);
        let ids: Vec<Id> = self.workings().chapter(Chapter::Joints).map(|(id, _)| id).collect();
        self.solution_of(&ids);
        self.own_words(Scene::Joints, When::After);
    }
}
