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
        let results = |role: Role| {
            matches!(role, Role::ShearFlow | Role::ShearStress | Role::FastenerForce | Role::Spacing)
        };
        let workings = self.workings().chapter(Chapter::Joints);
        let ids: Vec<Id> =
            workings.filter(|(_, working)| results(working.symbol.role)).map(|(id, _)| id).collect();
        self.table_of_workings(
            line!["What each joint carries; how it comes about stands in the worked solution."],
            &ids,
        );
        self.own_words(Scene::Joints, When::After);
    }
}
