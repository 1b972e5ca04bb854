//! The slice, the bending stress on its faces, the cut, and the piece beyond it.

use super::author::Author;
use super::line;
use crate::tree::{Block, Callout, CalloutKind, Inline};
use lesson::{Scene, When};
use workings::expression::Expression;
use workings::notation::DepthAxis;
use workings::role::{Role, Symbol};

fn plain(role: Role) -> Expression {
    Expression::Symbol(Symbol::plain(role))
}

fn differential(role: Role) -> Inline {
    Inline::Math(Expression::Differential(Box::new(plain(role))))
}

impl Author<'_> {
    pub(crate) fn slice(&mut self) {
        self.chapter("A slice of the beam");
        self.own_words(Scene::Slice, When::Before);
        let number = self.next_figure();
        let slice = self.solved.slice();
        let mut words = line![
            "Take a slice out of the beam at ",
            self.symbol_and_value(slice.left_station),
            ", ",
            self.symbol_and_value(slice.length),
            " long"
        ];
        let by_shear = Inline::Math(Expression::Equal(vec![
            Expression::Differential(Box::new(plain(Role::BendingMoment))),
            Expression::Product(vec![
                plain(Role::ShearForce),
                Expression::Differential(Box::new(plain(Role::Along))),
            ]),
        ]));
        words.extend(line![
            format!(" (figure {number}). On its left face act "),
            Inline::Math(plain(Role::ShearForce)),
            " and ",
            Inline::Math(plain(Role::BendingMoment)),
        ]);
        words.extend(match self.solved.moment_stays() {
            false => line![
                ", on its right face a little more or a little less. The two bending moments differ, because ",
                by_shear,
                "."
            ],
            true => line![
                ", on its right face the same bending moment: along this slice ",
                by_shear,
                " comes to nothing."
            ],
        });
        self.say(words);
        self.figure("slice", line!["The slice as a free body."]);
        self.own_words(Scene::Slice, When::After);
    }

    pub(crate) fn bending(&mut self) {
        self.chapter("Bending stress on its two faces");
        self.own_words(Scene::Bending, When::Before);
        self.say(line![
            "A plane section stays plane as the beam bends, so each fibre is stretched in proportion to its distance from \
             the neutral axis, and so is the stress in it:"
        ]);
        let product = Expression::Product(vec![plain(Role::BendingMoment), plain(Role::Depth)]);
        let quotient = Expression::Quotient(Box::new(product), Box::new(plain(Role::SecondMoment)));
        let signed = match self.style.notation.habits.depth_axis {
            DepthAxis::Up => Expression::Negative(Box::new(quotient)),
            DepthAxis::Down => quotient,
        };
        self.equation(&Expression::Equal(vec![plain(Role::BendingStress), signed]));
        self.in_the_material_of_reference();
        self.simple_formula_does_not_hold();
        let number = self.next_figure();
        self.figure(
            "faces",
            line![
                "Bending stress on the left and on the right face of the slice, to one scale. Tension and compression \
                 differ in line and colour."
            ],
        );
        self.say(line![
            format!(
                "Look at one whole face in figure {number}: tension and compression are equal and balance each other. So nothing is left \
                 over along the beam, on either face, and the slice as a whole tells us nothing new. "
            ),
            match self.solved.moment_stays() {
                false => "But the stress on one face is larger than on the other. ",
                true => "Here the stress is the same on both faces; where a shear force acts it is larger on one of them. ",
            },
            Inline::Strong(line!["Over a part of the face nothing need balance."])
        ]);
        self.own_words(Scene::Bending, When::After);
    }

    /// Said where the formula gives the stress in one of several materials alone.
    fn in_the_material_of_reference(&mut self) {
        let materials = self.solved.problem().materials();
        let Some(reference) = materials.iter().find(|material| material.is_reference()) else { return };
        self.say(line![
            format!(
                "That is the stress in {}, the material of reference. In another material it is ",
                reference.name
            ),
            Inline::Math(plain(Role::ModularRatio)),
            " times as large, so the line of the stress jumps where the material changes."
        ]);
    }

    pub(crate) fn cut(&mut self) {
        self.chapter("The cut, and the piece beyond it");
        self.own_words(Scene::Cut, When::Before);
        let number = self.next_figure();
        let stays = self.solved.moment_stays();
        let mut words =
            line![format!("Now cut the slice along its length and keep only the piece beyond the cut, ")];
        words.extend(line![
            Inline::Math(plain(Role::AreaBeyond)),
            format!(
                " in section (figure {number}). On its left face the bending stresses add up to one force, on its right face to {}.",
                if stays { "the same" } else { "another" }
            )
        ]);
        self.say(words);
        self.figure("pictorial", line!["The slice in the round, the piece beyond the cut lifted off."]);
        let number = self.next_figure();
        self.say(line![format!("Figure {number} has the piece by itself, with the force that is missing.")]);
        self.figure(
            "piece",
            line![match stays {
                false => "The piece beyond the cut as a free body: the two resultants, and the force on the cut that makes up for \
                   their difference.",
                true => "The piece beyond the cut as a free body: the two resultants are equal, and nothing is left for the cut to carry.",
            }],
        );
        let slice = self.solved.slice();
        let forces = [slice.resultant_left, slice.resultant_right, slice.force_on_cut];
        self.table_of_workings(
            line!["The forces on the piece beyond the cut: tension positive, the force on the cut positive to the right."],
            &forces,
        );
        let mut words = line![match stays {
            false =>
                "The bending moment changes along the beam, so the two resultants on the piece beyond the cut differ; \
                 nothing but the cut is there to make up for it. That is the longitudinal shear. It comes from the ",
            true =>
                "The bending moment does not change along this slice, so the two resultants on the piece beyond the cut are \
                 equal: the cut has nothing to carry and bears no shear, however large the bending stress is. Longitudinal shear \
                 comes from the ",
        }];
        words.extend(line![
            Inline::Emphasis(line!["change"]),
            " of the bending moment, ",
            differential(Role::BendingMoment),
            ", that is from the shear force, and not from the bending moment itself."
        ]);
        self.blocks.push(Block::Callout(Callout {
            kind: CalloutKind::Key,
            title: "The point".into(),
            body: vec![Block::Paragraph(words)],
        }));
        self.own_words(Scene::Cut, When::After);
    }
}
