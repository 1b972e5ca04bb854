//! The slice, the bending stress on its faces, the cut, and the piece beyond it.

use super::author::{Author, share, symbol_of};
use super::line;
use crate::tree::{Alignment, Block, Callout, CalloutKind, Inline};
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
        let length = self.symbol_and_value("length of the slice");
        let mut words = line!["Take a slice out of the beam"];
        if let Some(station) = self.symbol_and_value("station of the slice") {
            words.extend(line![" at ", station]);
        }
        if let Some(length) = length {
            words.extend(line![", ", length, " long"]);
        }
        words.extend(line![
            format!(" (figure {number}). On its left face act "),
            Inline::Math(plain(Role::ShearForce)),
            " and ",
            Inline::Math(plain(Role::BendingMoment)),
            ", on its right face a little more or a little less. The two bending moments differ, because ",
            Inline::Math(Expression::Equal(vec![
                Expression::Differential(Box::new(plain(Role::BendingMoment))),
                Expression::Product(vec![
                    plain(Role::ShearForce),
                    Expression::Differential(Box::new(plain(Role::Along))),
                ]),
            ])),
            "."
        ]);
        self.say(words);
        self.figure(self.drawings.slice.clone(), line!["The slice as a free body."]);
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
        self.figure(
            self.drawings.faces.clone(),
            line![
                "Bending stress on the left and on the right face of the slice, to one scale. Tension and compression \
                 differ in line and colour."
            ],
        );
        self.say(line![
            "Look at one whole face: tension and compression are equal and balance each other. So nothing is left over \
             along the beam, on either face, and the slice as a whole tells us nothing new. But the stress on one face is \
             larger than on the other. ",
            Inline::Strong(line!["Over a part of the face nothing need balance."])
        ]);
        self.own_words(Scene::Bending, When::After);
    }

    pub(crate) fn cut(&mut self) {
        self.chapter("The cut, and the piece beyond it");
        self.own_words(Scene::Cut, When::Before);
        let number = self.next_figure();
        let mut words =
            line![format!("Now cut the slice along its length and keep only the piece beyond the cut, ")];
        words.extend(line![
            Inline::Math(plain(Role::AreaBeyond)),
            format!(" in section (figure {number}). On its left face the bending stresses add up to one force, on its right \
                     face to another. ")
        ]);
        self.say(words);
        self.figure(
            self.drawings.pictorial.clone(),
            line!["The slice in the round, the piece beyond the cut lifted off."],
        );
        self.figure(
            self.drawings.piece.clone(),
            line!["The piece beyond the cut as a free body: the two resultants, and the force on the cut that makes up for \
                   their difference."],
        );
        let names = self.slice_workings();
        if !names.is_empty() {
            self.table_of_workings(line!["The forces on the piece beyond the cut."], &names);
        }
        self.slice_balances();
        self.blocks.push(Block::Callout(Callout {
            kind: CalloutKind::Key,
            title: "The point".into(),
            body: vec![Block::Paragraph(line![
                "The bending moment changes along the beam, so the two resultants on the piece beyond the cut differ; \
                 nothing but the cut is there to make up for it. That is the longitudinal shear. It comes from the ",
                Inline::Emphasis(line!["change"]),
                " of the bending moment, ",
                differential(Role::BendingMoment),
                ", that is from the shear force, and not from the bending moment itself."
            ])],
        }));
        self.own_words(Scene::Cut, When::After);
    }

    fn slice_workings(&self) -> Vec<workings::working::Id> {
        self.workings()
            .iter()
            .filter(|(_, working)| matches!(working.symbol.role, Role::StressResultant | Role::ForceOnCut))
            .map(|(id, _)| id)
            .collect()
    }

    fn slice_balances(&mut self) {
        let rows: Vec<Vec<Vec<Inline>>> = self
            .workings()
            .iter()
            .filter(|(_, working)| working.symbol.role == Role::Residual)
            .map(|(_, working)| {
                vec![
                    line![working.name.as_str()],
                    vec![symbol_of(working)],
                    line![share(working.value.value.abs())],
                ]
            })
            .collect();
        self.table(
            line!["The balances of the slice and its pieces: what is left over."],
            vec![line!["Balance"], line!["Symbol"], line!["Left over"]],
            vec![Alignment::Left, Alignment::Left, Alignment::Right],
            rows,
        );
    }
}
