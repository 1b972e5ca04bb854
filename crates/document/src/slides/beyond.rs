//! The pages past the formula: closed cells, stress at a point, joints, what the beam may carry, the elastic truth. Each stands
//! only where the lesson has it.

use super::{Show, words};
use crate::notes::{line, titled};
use crate::tree::{Block, Inline};
use workings::dimension::Dimension;
use workings::elastic::ElasticTruth;
use workings::quantity::Quantity;
use workings::role::Role;
use workings::working::Id;

impl Show<'_> {
    fn ids(&self, names: &[&str]) -> Vec<Id> {
        names.iter().filter_map(|name| self.solved.workings().id(name)).collect()
    }

    /// Each result in a step of its own.
    fn one_by_one(&self, ids: &[Id]) -> Vec<Vec<Block>> {
        ids.iter().map(|&id| self.results(&[id])).collect()
    }

    /// Closed cells cut open, and closed again; nothing where there are none.
    pub(super) fn cells(&mut self) {
        let Some(cells) = self.solved.cells() else { return };
        let one = cells.cells.len() == 1;
        let (title, begin, closes) = if one {
            (
                "A closed cell, cut open",
                "No free edge: where does the flow begin? Cut the cell open, in thought.",
                "So cut it would twist. One flow round it turns it back:",
            )
        } else {
            (
                "Closed cells, cut open",
                "No free edge: where does the flow begin? Cut every cell open once, in thought.",
                "So cut they would twist. One flow round each turns them back:",
            )
        };
        let closings: Vec<Id> = cells.cells.iter().map(|cell| cell.closing).collect();
        let mut steps = vec![words(begin)];
        // A page holds the flows of some eight walls in two columns of words.
        steps.extend(cells.open.chunks(3).map(|few| self.results(few)));
        self.slide(title, Vec::new(), steps);
        let mut steps = vec![words(closes)];
        if one {
            steps.extend(closings.iter().map(|&id| self.line_of(id)));
        } else {
            steps.push(words("The wall between two cells belongs to both: as many equations as flows."));
            steps.push(self.results(&closings));
        }
        steps.push(words("Both together are the flow in the walls."));
        self.slide("The closing flow", Vec::new(), steps);
    }

    /// The element at the cut, its circle, and what governs.
    pub(super) fn point(&mut self) {
        let circle = self.ids(&["mean normal stress at the cut", "radius of Mohr's circle at the cut"]);
        let principal = self.ids(&[
            "largest principal stress at the cut",
            "smallest principal stress at the cut",
            "direction of the largest principal stress at the cut",
        ]);
        // The drawing is broad: below it there is room for few lines.
        let mut steps = vec![words("Turn the element. On which planes is there no shear stress?")];
        steps.extend([circle, principal].iter().map(|ids| self.results(ids)));
        self.shown("Stress at a point", "point", steps);
        let checked = self.ids(&[
            "equivalent stress in bending",
            "equivalent stress in shear",
            "equivalent stress at the junction",
        ]);
        let Some(most) = self.solved.workings().id("largest equivalent stress at the checked places") else {
            return;
        };
        let sentence =
            self.solved.style().notation.in_its_words(&self.solved.workings().working(most).sentence);
        let mut steps = vec![words("Bending at the outer fibre, shear at the axis: which place is worst?")];
        steps.extend(self.one_by_one(&checked));
        steps.push(words(&sentence));
        self.slide("What governs the beam", Vec::new(), steps);
    }

    /// What each joint must carry: the flow through it, the force on what holds it, the spacing and how it is rounded.
    pub(super) fn joints(&mut self) {
        let names: Vec<String> =
            self.solved.problem().joints.iter().map(|joint| joint.name.clone()).collect();
        for name in names {
            let flow = self.solved.workings().id(&format!("shear flow at {name}, where V is largest"));
            let Some(flow) = flow else { continue };
            let of = |show: &Self, what: &str| {
                show.solved.workings().id(&format!("{what} {name}, where V is largest"))
            };
            let mut steps =
                vec![words("What does the joint pass on, in each length of the beam?"), self.line_of(flow)];
            let further = [
                of(self, "shear flow in one line of"),
                of(self, "force on one fastener of"),
                of(self, "force on one run of"),
                of(self, "largest spacing at"),
                of(self, "shear stress at"),
            ];
            steps.extend(further.into_iter().flatten().map(|id| self.line_of(id)));
            if let Some(used) = self.solved.workings().id(&format!("spacing to use at {name}")) {
                steps.push(words("Rounded down to what a tape shows: closer together each carries less."));
                steps.push(self.results(&[used]));
            }
            self.slide(&format!("The joint: {name}"), Vec::new(), steps);
        }
        let zoned: Vec<&str> = self.solved.zones().map(|(name, _)| name).collect();
        for (place, name) in zoned.into_iter().enumerate() {
            let drawing =
                if place == 0 { "fasteners".to_owned() } else { format!("fasteners-{}", place + 1) };
            let ask = "Where may they stand farther apart, and why?";
            let (title, _) = titled(self.solved, std::iter::once(name));
            self.shown(title, &drawing, vec![words(ask)]);
        }
        if !self.solved.problem().joints.is_empty() {
            self.slide(
                "An exercise",
                Vec::new(),
                vec![words("A real joint is designed to the local code by a licensed engineer.")],
            );
        }
    }

    /// What the loads take up of each limit, and which governs.
    pub(super) fn allowables(&mut self) {
        let Some(allowables) = self.solved.allowables() else { return };
        let governs = self.solved.workings().working(allowables.verdict).sentence.clone();
        let governs = self.solved.style().notation.in_its_words(&governs);
        // The drawing tells which governs, so the question stands before it.
        self.slide("What the beam may carry", Vec::new(), vec![words("Which limit is used up first?")]);
        let steps = vec![words(&governs), self.results(&[allowables.verdict])];
        self.shown("What the beam may carry", "utilisation", steps);
    }

    /// What elastic theory says beside the formula; nothing where the section is not solved.
    pub(super) fn elastic(&mut self, truth: Option<&ElasticTruth>) {
        let Some(truth) = truth else { return };
        let stress =
            |value: f64| Inline::Quantity(Quantity::new(value.abs(), Dimension::STRESS), Role::ShearStress);
        let ratio = Inline::Quantity(Quantity::new(truth.ratio_of_largest(), Dimension::NONE), Role::Ratio);
        let both = line![
            match truth.bends_askew() {
                true => "The largest by the simple formula, which does not apply: ",
                false => "The largest by the formula: ",
            },
            stress(truth.largest_by_formula.value),
            ". In truth: ",
            stress(truth.largest.value),
            ", that is ",
            ratio,
            " times as much."
        ];
        let steps = vec![
            words(match truth.has_materials_side_by_side() {
                true => "The formula is a mean over materials side by side. How much does one of them bear?",
                false => {
                    "The formula is a mean over the width. How much larger is the stress somewhere on it?"
                }
            }),
            vec![Block::Paragraph(both)],
        ];
        self.shown("How far the formula is from the truth", "elastic", steps);
    }
}
