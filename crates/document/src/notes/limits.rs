//! What the formula leaves out, and what these pages are not for.

use super::author::Author;
use super::line;
use crate::tree::{Block, CalloutKind, Inline};
use lesson::{Scene, When};
use mechanics::section::Figure;
use workings::expression::Expression;
use workings::role::{Role, Symbol};

impl Author<'_> {
    pub(crate) fn limits(&mut self) {
        self.chapter("What the formula leaves out");
        self.own_words(Scene::Limits, When::Before);
        let width = || Inline::Math(Expression::Symbol(Symbol::plain(Role::WidthAtCut)));
        let item = |words: Vec<Inline>| vec![Block::Paragraph(words)];
        let mut items = vec![
            item(line![
                "It gives the ",
                Inline::Strong(line!["mean over the width"]),
                " of the cut, ",
                width(),
                ". In a section that is wide for its depth the stress is larger near the sides than in the middle, and so \
                 larger than the formula says."
            ]),
            item(line![
                Inline::Strong(line!["In a flange"]),
                " the upright shear stress is small and not spread evenly: at the free inner face it is zero, though the \
                 formula gives a value there. The flange carries a level shear flow instead, which a level cut does not show."
            ]),
            item(line![
                Inline::Strong(line!["Near a point force, a support or an end"]),
                ", over about one depth of the beam, the stresses are not those of simple bending."
            ]),
            item(line![
                Inline::Strong(line!["A short, deep beam"]),
                " does not keep its sections plane. The formula stands on plane sections."
            ]),
            item(line![
                Inline::Strong(line!["A beam whose depth changes"]),
                " along its length carries part of the shear force in its sloping flanges. The formula is for a beam that is \
                 the same throughout."
            ]),
            item(line![
                Inline::Strong(line!["Beyond the elastic range"]),
                " the bending stress is no longer in proportion to the distance from the neutral axis."
            ]),
            item(line![
                Inline::Strong(line!["A joint that gives"]),
                " (nails in timber do) lets the parts slide a little: the built-up section is then weaker and less stiff than \
                 one piece."
            ]),
        ];
        let properties = self.solved.section().properties();
        // A share of I below which an unsymmetrical outline is only the rounding of its corners.
        const SKEW: f64 = 1e-6;
        if properties.product_moment.abs() > SKEW * properties.second_moment {
            items.push(item(line![
                Inline::Strong(line!["This section is not symmetrical"]),
                " about either axis: a load straight down bends it sideways too unless it is held. The formula takes it as \
                 held to bend about the level axis."
            ]));
        }
        let round = self
            .solved
            .problem()
            .parts
            .iter()
            .any(|part| matches!(part.figure, Figure::Circle { .. } | Figure::HalfCircle { .. }));
        if round {
            items.push(item(line![
                Inline::Strong(line!["In a round section"]),
                " the shear stress at the edge runs along the edge; the formula gives its upright part, taken as even over the \
                 chord."
            ]));
        }
        self.blocks.push(Block::List { ordered: false, items });
        self.own_words(Scene::Limits, When::After);
        self.callout(
            CalloutKind::Caution,
            "These pages teach; they are no design",
            item(line![
                "Loads, factors of safety, grades of material, stability, deflection, fatigue and the strength of fasteners \
                 are not checked here. For anything that is to be built, follow the code in force where it will stand, and \
                 leave the judgement to a licensed engineer."
            ]),
        );
    }
}
