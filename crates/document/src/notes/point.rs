//! Stress at a point: the element at the cut, Mohr's circle, and the stresses over the side of the beam.

use super::author::Author;
use super::line;
use crate::tree::{Block, Inline};
use lesson::{Scene, When};
use workings::expression::Expression;
use workings::material::Behaviour;
use workings::reservation::materials_side_by_side;
use workings::role::{Role, Symbol};
use workings::working::Id;

impl Author<'_> {
    /// The chapter; none where bending is askew: the stress then changes across the section too.
    pub(crate) fn point(&mut self) {
        if self.solved.section().properties().bends_askew() {
            return;
        }
        self.chapter("Stress at a point");
        self.own_words(Scene::Point, When::Before);
        self.element();
        self.over_the_side();
        self.governing();
        self.own_words(Scene::Point, When::After);
    }

    fn element(&mut self) {
        let names = [
            "mean normal stress at the cut",
            "radius of Mohr's circle at the cut",
            "largest principal stress at the cut",
            "smallest principal stress at the cut",
            "direction of the largest principal stress at the cut",
        ];
        let found: Vec<Id> = names.iter().filter_map(|name| self.workings().id(name)).collect();
        let (Some(&largest), true) = (found.get(2), self.drawing("point").is_some()) else {
            self.say(line![
                "Materials of several moduli lie side by side at the cut: each has a bending stress of its own, and so there \
                 is no one state of stress at this height."
            ]);
            return;
        };
        let number = self.next_figure();
        self.say(on_every_plane(&format!(" (figure {number})")));
        self.figure(
            "point",
            line![
                "The element at the cut as it lies in the beam, the same element turned to the principal directions, and \
                 Mohr's circle of the point."
            ],
        );
        let (circle, principal) = found.split_at(2.min(found.len()));
        let centre =
            circle.first().map(|&id| Inline::Math(Expression::Symbol(self.working(id).symbol.clone())));
        let radius =
            circle.last().map(|&id| Inline::Math(Expression::Symbol(self.working(id).symbol.clone())));
        if let (Some(centre), Some(radius)) = (centre, radius) {
            self.say(line![
                "On Mohr's circle each plane through the point is a point, with its normal stress to the right and its shear stress as the \
                 height. No normal stress acts on the level plane, so the centre stands at half the bending stress, ",
                centre,
                "; the radius is ",
                radius,
                ":"
            ]);
        }
        for &id in circle {
            let equation = self.workings().equation(id);
            self.equation(&equation);
        }
        self.say(line!["Where the circle meets the axis of normal stress, the shear stress is zero. There lie the principal stresses:"]);
        for &id in principal {
            let equation = self.workings().equation(id);
            self.equation(&equation);
        }
        if self.workings().id("direction of the largest principal stress at the cut").is_some() {
            self.say(line![
                "The angle is counter-clockwise from the axis of the beam. No normal stress acts across the beam here; right \
                 under a load or over a support there is some, and the true state is another."
            ]);
        }
        if self.working(largest).value.value == 0.0 {
            self.say(line!["No pull acts at this point in any direction."]);
        }
    }

    fn over_the_side(&mut self) {
        let number = self.next_figure();
        self.say(from_point_to_point(&format!(" (figure {number})")));
        if materials_side_by_side(self.solved) {
            self.say(line![
                "Where several materials lie side by side, the bending stress of this drawing and the next is that of the material of \
                 reference; in another one it is its modular ratio times as large. The shear stress is the formula's, a mean over all \
                 of them: what each bears is told where the formula is set beside the truth."
            ]);
        }
        self.figure(
            "fields",
            line!["Bending stress, shear stress and largest principal stress over the side of the beam, by lines of equal stress."],
        );
        self.say(along_the_directions());
        if self.drawing("trajectories").is_some() {
            let number = self.next_figure();
            self.say(line![format!("Figure {number} has both kinds over the side of this beam.")]);
        }
        self.figure(
            "trajectories",
            line![
                "Stress trajectories: along a full line acts the principal tension, along a dashed one the principal \
                 compression."
            ],
        );
    }

    /// Which of the checked places governs.
    fn governing(&mut self) {
        let names = [
            "equivalent stress in bending",
            "equivalent stress in shear",
            "bending stress at the junction",
            "shear stress at the junction",
            "principal stress at the junction",
            "equivalent stress at the junction",
            "largest equivalent stress at the checked places",
        ];
        let ids: Vec<Id> = names.iter().filter_map(|name| self.workings().id(name)).collect();
        let Some(most) = self.workings().id("largest equivalent stress at the checked places") else {
            self.not_comparable();
            return;
        };
        self.part("What governs the beam");
        let sentence = self.style.notation.in_its_words(&self.working(most).sentence);
        let junction = match self.workings().id("equivalent stress at the junction") {
            Some(_) => {
                " Where the width jumps, as where a web meets a flange, both act at once, and together they may be worse."
            }
            None => "",
        };
        self.say(line![
            format!(
                "Bending is worst at the outer fibre, where there is no shear stress, shear at the neutral axis, where there is \
                 no bending stress.{junction} For a ductile metal one stress that counts both, the equivalent stress "
            ),
            Inline::Math(Expression::Symbol(Symbol::plain(Role::EquivalentStress))),
            ", makes the places comparable. ",
            sentence,
        ]);
        self.table_of_workings(
            line!["The checked places; how each value comes about stands in the worked solution."],
            &ids,
        );
        if self.workings().id("shear stress of that torque").is_some() {
            self.say(line![
                "A load beside the shear centre twists the beam as well; what that adds is not counted here."
            ]);
        }
    }

    /// Why no one number tells whether bending or shear governs: wood and what is brittle.
    fn not_comparable(&mut self) {
        let why = match self.solved.problem().behaviour() {
            Behaviour::Grained => {
                "Wood has strengths along its grain and across it that differ, and it bears little shear: each stress is held to \
                 a limit of its own, and the limit that is used up first governs."
            }
            Behaviour::Brittle => {
                "A brittle material bears far less tension than compression and cracks across the largest principal tension \
                 first: it is the tension that is held to a limit, wherever it is largest."
            }
            Behaviour::Ductile | Behaviour::Untold => return,
        };
        self.part("Which stress governs?");
        self.say(line![
            "Bending is worst at the outer fibre, shear at the neutral axis or where the width is small. For a ductile metal \
             one equivalent stress would make them comparable. Here it would mislead. ",
            why,
        ]);
    }
}

/// What is to be said before a drawing of the stress at a point, by its name, without a heading and without the number of a
/// figure; nothing for other drawings.
pub fn words_before(drawing: &str) -> Vec<Block> {
    let words = match drawing {
        "point" => on_every_plane(""),
        "fields" => from_point_to_point(""),
        "trajectories" => along_the_directions(),
        _ => return Vec::new(),
    };
    vec![Block::Paragraph(words)]
}

/// Why there are principal stresses; `shown` says in which figure.
fn on_every_plane(shown: &str) -> Vec<Inline> {
    let symbol = |role| Inline::Math(Expression::Symbol(Symbol::plain(role)));
    line![
        "Bending stress ",
        symbol(Role::BendingStress),
        " and shear stress ",
        symbol(Role::ShearStress),
        " act at the same point, on the faces of an element that lies as the beam does. On a plane at another slope \
         through the point both are different. Two planes at right angles bear no shear stress at all: there the normal \
         stress is largest and smallest, ",
        format!("and these are the principal stresses{shown}."),
    ]
}

/// How the stresses change over the side of the beam; `shown` says in which figure.
fn from_point_to_point(shown: &str) -> Vec<Inline> {
    line![format!(
        "From point to point the stresses change: along the beam with the shear force and the bending moment, over the \
         depth with the distance from the neutral axis and with the first moment{shown}. At the outer fibres \
         the bending stress is itself a principal stress; at the neutral axis, in pure shear, the principal stresses are \
         as large as the shear stress, at 45°."
    )]
}

/// What a trajectory is and what it is for.
fn along_the_directions() -> Vec<Inline> {
    line![
        "Follow the direction of a principal stress from point to point, and a line comes about: a stress trajectory. Those \
         of tension show where a brittle beam cracks, across them, and where a concrete beam wants its bars, along them."
    ]
}
