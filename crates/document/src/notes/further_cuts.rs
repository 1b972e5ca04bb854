//! Further straight cuts across the section.

use super::author::Author;
use super::line;
use crate::tree::Inline;
use workings::expression::Expression;
use workings::role::{Role, Symbol};

impl Author<'_> {
    /// Each further cut with its drawing and its equations; nothing where there is none.
    pub(crate) fn further_cuts(&mut self) {
        let cuts = self.solved.further_cuts();
        if cuts.is_empty() {
            return;
        }
        self.part("Cuts of other slopes");
        let symbol = |role| Inline::Math(Expression::Symbol(Symbol::plain(role)));
        self.say(line![
            "Nothing in the balance asks that the cut be level. Cut free any part by a plane along the beam: its two faces are \
             pulled differently, and the cut makes up for it. So ",
            symbol(Role::FirstMoment),
            " is the first moment of that part about the neutral axis, ",
            symbol(Role::WidthAtCut),
            " the length of the cut through the material, and the stress is again a mean over that length. In a flange an upright \
             cut tells more than a level one: there the stress runs sideways."
        ]);
        for (place, cut) in cuts.iter().enumerate() {
            let name =
                self.solved.problem().further_cuts.get(cut.cut).map_or("", |asked| asked.name.as_str());
            let figure =
                if place == 0 { "straight-cut".to_owned() } else { format!("straight-cut-{}", place + 1) };
            let number = self.next_figure();
            self.say(line![format!("Figure {number} shows the {name}.")]);
            self.figure(&figure, line![format!("The {name}: what it frees, and how long it is.")]);
            for id in [cut.area, cut.arm, cut.first_moment, cut.flow, cut.stress] {
                let equation = self.workings().equation(id);
                self.equation(&equation);
            }
        }
    }
}
