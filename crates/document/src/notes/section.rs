//! The section, and why there is a longitudinal shear at all.

use super::author::{Author, share};
use super::line;
use crate::tree::{Alignment, Inline};
use lesson::{Scene, When};
use mechanics::stress::StressCheck;
use workings::material::Behaviour;

impl Author<'_> {
    pub(crate) fn section(&mut self) {
        self.chapter("The section");
        self.own_words(Scene::Section, When::Before);
        let number = self.next_figure();
        let key = self.solved.key();
        let all = if self.solved.problem().parts.len() > 1 { ", for all parts together" } else { "" };
        let words = line![
            format!(
                "Figure {number} shows the section with the neutral axis through its centroid. Measured from the lowest \
                 fibre{all}, "
            ),
            self.symbol_and_value(key.centroid),
            " and ",
            self.symbol_and_value(key.second_moment),
            ". How they come about stands in the worked solution."
        ];
        self.say(words);
        self.figure(
            "section",
            line!["The section. The part beyond the cut is hatched; NA is the neutral axis."],
        );
        self.own_words(Scene::Section, When::After);
    }

    pub(crate) fn planks(&mut self) {
        self.chapter("Why there is a force along the beam");
        let number = self.next_figure();
        let behaviour = self.solved.problem().behaviour();
        let begins = match behaviour {
            Behaviour::Grained | Behaviour::Untold => "Lay planks loose on one another and load them",
            Behaviour::Ductile | Behaviour::Brittle => {
                "Nothing shows it better than planks, whatever this beam is made of. Lay some loose on one another and load them"
            }
        };
        self.say(line![
            format!(
                "{begins} (figure {number}). Each bends for itself: its upper side \
                 is shortened, its lower side lengthened, and where the lower side of one plank lies on the upper side \
                 of the next, a long fibre lies on a short one. The planks slide, and their ends form steps."
            ),
        ]);
        self.figure("planks", line!["The same planks under the same load, loose and glued."]);
        self.loose_planks();
        let ends = match behaviour {
            Behaviour::Grained | Behaviour::Untold => {
                "it is there, and timber, which is weak along the grain, splits by it."
            }
            Behaviour::Ductile => {
                "it is there, and where a beam is put together of parts, it is this that the joints must hold."
            }
            Behaviour::Brittle => {
                "it is there, and together with the bending stress it tells which way the cracks run."
            }
        };
        self.say(line![
            "Glue them, and they bend as one piece. What the glue line must hold back is just this sliding: a force \
             along the beam, on a level plane, under a load that pushes straight down. In a beam of one piece the same \
             force acts on every level plane. Nobody sees it there, for nothing slides; but ",
            ends
        ]);
    }

    /// Of a section of planks: their second moments when they lie loose, against that of the whole.
    fn loose_planks(&mut self) {
        let Some(planks) = self.solved.planks() else { return };
        let laid = if planks.turned { "Those that stand on edge are laid flat. Loose" } else { "Loose" };
        let words = format!(
            "Count it for the planks of this section. {laid}, each bends about its own middle, and their second moments add up:"
        );
        self.say(line![self.style.notation.in_its_words(&words)]);
        for id in [planks.loose, planks.times] {
            let equation = self.workings().equation(id);
            self.equation(&equation);
        }
    }

    /// What the stresses add up to, against what they ought to.
    pub(crate) fn stress_balances(&mut self) {
        let rows: Vec<Vec<Vec<Inline>>> = self
            .solved
            .stress()
            .checks()
            .iter()
            .map(|(check, residual)| {
                let words = match check {
                    StressCheck::NormalForce => "the bending stresses add up to no force along the beam",
                    StressCheck::BendingMoment => "their moments add up to the bending moment",
                    StressCheck::ShearForce => "the shear stresses add up to the shear force",
                };
                vec![line![words], line![share(residual.relative())]]
            })
            .collect();
        self.table(
            line!["The stresses over the section, added up again: what is left over, as a share of the largest term."],
            vec![line!["Balance"], line!["Left over"]],
            vec![Alignment::Left, Alignment::Right],
            rows,
        );
    }
}
