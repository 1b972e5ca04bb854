//! What the beam may carry for what its material may bear.

use super::author::{Author, listed};
use super::line;
use crate::tree::{Alignment, Block, CalloutKind, Inline};
use lesson::{Scene, When};
use workings::dimension::Dimension;
use workings::elastic::ElasticTruth;
use workings::expression::Expression;
use workings::material::Behaviour;
use workings::problem::Allowable;
use workings::quantity::Quantity;
use workings::role::{Role, Symbol};
use workings::solved::{AllowableWorkings, LimitWorkings, RatioWorkings};
use workings::working::{Chapter, Id};

/// A true stress of this many times the one held to a limit is told: less is what a mean over a width leaves out everywhere.
const WORTH_TELLING: f64 = 1.1;

/// The caution where nothing but joints is checked: what is missing, and what so is not what it seems to be.
fn only_joints(limits: &[LimitWorkings], so: &str) -> Option<Inline> {
    let only = limits.iter().all(|limit| limit.is_of_joint);
    only.then(|| {
        Inline::Strong(line![format!(
            " Only what the joints may carry is checked here. What the material may bear and how far the beam may bend is not \
             given, so {so}."
        )])
    })
}

impl Author<'_> {
    pub(crate) fn allowables(&mut self, truth: Option<&ElasticTruth>) {
        let Some(allowables) = self.solved.allowables().cloned() else { return };
        self.chapter(Chapter::Allowables.title());
        self.own_words(Scene::Allowables, When::Before);
        self.limits_of_load(&allowables);
        self.truly_more(&allowables, truth);
        if let Some(growth) = &allowables.growth {
            self.least_depth(&allowables.limits, &growth.depths);
            if let Some(ratios) = growth.ratios {
                self.span_and_depth(ratios);
            }
        }
        self.callout(
            CalloutKind::Caution,
            "An exercise",
            vec![Block::Paragraph(line![
                "The allowable values are examples. Real ones, and the factors of safety with them, are those of the code in \
                 force where the beam will stand, and their use is the work of a licensed engineer."
            ])],
        );
        self.own_words(Scene::Allowables, When::After);
    }

    fn limits_of_load(&mut self, allowables: &AllowableWorkings) {
        let plain = |role| Inline::Math(Expression::Symbol(Symbol::plain(role)));
        let number = self.next_figure();
        match allowables.growth {
            Some(_) => self.say(line![
                "Every stress, the deflection and every force on a fastener are proportional to the loads. So each limit says which \
                 part of it the given loads take up, its utilisation ",
                plain(Role::Utilisation),
                ", and how many times the loads may grow together, its load factor ",
                plain(Role::LoadFactor),
                format!(
                    ", one over the other (figure {number}). Every limit must be kept, so the least of the load factors governs."
                ),
            ]),
            None => self.say(line![
                "Each limit says which part of it is taken up, its utilisation ",
                plain(Role::Utilisation),
                format!(
                    " (figure {number}). Every limit must be kept, so the largest utilisation governs. How far the loads may grow is not \
                     told: the beam's own weight, or a support that settles, has its part in these values and would not grow with \
                     them."
                ),
            ]),
        }
        self.figure(
            "utilisation",
            line!["What the given loads take up of each limit; what governs is hatched and framed."],
        );
        let rows = allowables.limits.iter().enumerate().map(|(place, limit)| {
            let name = self.style.notation.in_its_words(&limit.words);
            let factor = allowables.growth.as_ref().map(|growth| growth.factors[place]);
            let ids = [limit.reached, limit.allowed, limit.utilisation].into_iter().chain(factor);
            std::iter::once(line![name]).chain(ids.map(|id| vec![self.value(id)])).collect()
        });
        let rows = rows.collect();
        let mut header = vec!["Limit", "Reached", "Allowed", "Utilisation"];
        header.extend(allowables.growth.as_ref().map(|_| "Load factor"));
        let mut alignment = vec![Alignment::Right; header.len()];
        alignment[0] = Alignment::Left;
        let header = header.iter().map(|head| line![*head]).collect();
        self.table(
            line!["The limits; how each value comes about stands in the worked solution."],
            header,
            alignment,
            rows,
        );
        let governing = self.style.notation.in_its_words(&self.working(allowables.verdict).sentence);
        let largest: Vec<Id> = self
            .workings()
            .chapter(Chapter::Allowables)
            .filter(|(_, working)| working.name.starts_with("largest "))
            .filter(|(_, working)| {
                matches!(working.symbol.role, Role::PointForce | Role::Couple | Role::SpreadLoad)
            })
            .map(|(id, _)| id)
            .collect();
        let mut words = line![governing];
        for (place, id) in largest.iter().enumerate() {
            words.push(if place == 0 { " So the loads may be ".into() } else { ", ".into() });
            words.push(self.symbol_and_value(*id));
        }
        if !largest.is_empty() {
            words.push(".".into());
        }
        let bending =
            |limit: &LimitWorkings| matches!(self.working(limit.reached).symbol.role, Role::BendingStress);
        let joints = only_joints(&allowables.limits, "these are not the largest loads of the beam");
        if joints.is_some() {
            words.extend(joints);
        } else if !allowables.limits.iter().any(bending) {
            words.push(
                " What the bending stress may be is not given here, so it is not among the limits.".into(),
            );
        }
        if allowables.limits.iter().any(|limit| limit.is_of_bending_deflection()) {
            words.push(
                " The deflection is that of bending: what shear adds to it is not held to the limit.".into(),
            );
        }
        words.extend(self.what_is_left_out());
        words.extend(self.equivalent_among(allowables));
        self.say(words);
    }

    /// Of several materials: where elastic theory finds more shear than what is held to the limit, for what lies side by side is not
    /// sheared alike.
    fn truly_more(&mut self, allowables: &AllowableWorkings, truth: Option<&ElasticTruth>) {
        let Some(truth) = truth else { return };
        let largest = self.solved.value(self.solved.key().largest_shear).abs();
        let grows = largest / truth.shear_force.abs();
        for one in &truth.materials {
            let name = format!("shear stress in {}", one.material.name);
            let limit = allowables.limits.iter().find(|limit| limit.words == name);
            let (Some(limit), Some(most)) = (limit, one.largest) else { continue };
            let times = most.value * grows / self.solved.value(limit.reached).abs();
            if times > WORTH_TELLING && times.is_finite() {
                self.say(line![Inline::Strong(line![
                    format!(
                        "Elastic theory finds more: the largest true shear stress in {} is ",
                        one.material.name
                    ),
                    Inline::Quantity(Quantity::new(times, Dimension::NONE), Role::Ratio),
                    " times what is held to the limit here. The true stress is the one that the material bears."
                ])]);
            }
        }
    }

    /// Of several materials and of a section that bends askew: how the stresses are found, and what is not among the limits.
    fn what_is_left_out(&self) -> Vec<Inline> {
        let problem = self.solved.problem();
        let materials = problem.materials();
        let mut words = Vec::new();
        let unknown = materials.iter().filter(|one| problem.allowable_of(one) == Allowable::default());
        let unknown: Vec<Vec<Inline>> = unknown.map(|one| line![one.name.clone()]).collect();
        if !unknown.is_empty() {
            words.push(" Nothing is given of what may be borne by ".into());
            words.extend(listed(unknown));
            words.push(".".into());
        }
        if materials.iter().any(|one| problem.allowable_of(one).shear.is_some()) {
            words.push(
                " The shear stress in a material is that on the level cut where it is sheared most; what lies side by side there is taken \
                 to be sheared alike, an approximation."
                    .into(),
            );
        }
        if self.bends_askew() {
            words.push(
                match materials.is_empty() {
                    true => {
                        " The section bends askew: the bending stresses are those of the full formula at the corner that bears most, the shear \
                         stress is the mean over the width of the level cut where the full formula gives most, and the beam is free to go \
                         sideways. The flow in a joint is that of the full formula, too."
                    }
                    false => {
                        " The section bends askew: in each material the bending stresses are those of the full formula at the corner of it that \
                         bears most, the shear flow is that of the full formula too, in the joints as well, and the beam is free to go sideways."
                    }
                }
                .into(),
            );
            words.push(" An equivalent stress is not among the limits.".into());
        }
        words
    }

    /// Whether bending and shear are held to a limit where both act at one place; nothing where bending alone is worse, and where
    /// they have no one stress.
    fn equivalent_among(&self, allowables: &AllowableWorkings) -> Vec<Inline> {
        let role = |id| self.working(id).symbol.role;
        let counted = allowables.limits.iter().find(|limit| role(limit.reached) == Role::EquivalentStress);
        if let Some(limit) = counted {
            let condition = match self.solved.problem().behaviour() {
                Behaviour::Untold => {
                    ", which holds for a ductile metal; the lesson does not tell whether it is one"
                }
                _ => "",
            };
            return line![
                " Where bending and shear act together, or shear alone, their equivalent stress is held to the allowable bending \
                 stress: ",
                self.symbol_and_value(limit.reached),
                format!("{condition}.")
            ];
        }
        let given = self.solved.problem().allowable;
        let one_side = given.bending.is_none() && given.tension.is_some() != given.compression.is_some();
        match self.workings().id("largest equivalent stress at the checked places") {
            Some(most) if one_side => line![
                " The equivalent stress is not among the limits, for only one of tension and compression has one: ",
                self.symbol_and_value(most),
                "."
            ],
            _ => Vec::new(),
        }
    }

    /// How deep the section must at least be.
    fn least_depth(&mut self, limits: &[LimitWorkings], depths: &[Id]) {
        let Some(&first) = depths.first() else { return };
        let Some(least) = self.workings().id("least depth of the section") else { return };
        self.part("The least depth");
        let plain = |role| Inline::Math(Expression::Symbol(Symbol::plain(role)));
        self.say(line![
            "Turn it round: the loads stay, and the depth is sought. Let every height of the section be stretched alike and every \
             breadth stay. Then ",
            plain(Role::SecondMoment),
            " grows with the cube of the depth and the distance of the outer fibre with the depth itself, so bending asks for the \
             depth over the root of its load factor; ",
            plain(Role::FirstMoment),
            " grows with the square, ",
            plain(Role::WidthAtCut),
            " not at all, so shear asks for the depth over its load factor itself. Where shear governs, depth helps less."
        ]);
        let equation = self.workings().equation(first);
        self.equation(&equation);
        if let Some(other) = limits.iter().position(|limit| limit.words.contains("shear")) {
            let equation = self.workings().equation(depths[other]);
            self.equation(&equation);
        }
        let mut words = line![
            "The largest of these depths keeps all of these limits: ",
            self.symbol_and_value(least),
            "."
        ];
        words.extend(only_joints(limits, "this is not the least depth of the beam"));
        self.say(words);
    }

    /// At which span-to-depth ratio bending and shear govern a rectangle alike.
    fn span_and_depth(&mut self, ratios: RatioWorkings) {
        self.part("Short beams and long ones");
        let [own, alike] = [ratios.own, ratios.alike].map(|id| self.working(id).value);
        self.say(line![
            "A short beam has little bending moment for its shear force, a long one much. In a rectangle both limits are used up \
             together at one ratio of span to depth, whatever the size of the beam and of its loads. Which one it is depends on the kind of load, and that is told by one number, \
             the largest moment over the largest shear force and the span:"
        ]);
        for id in [ratios.kind, ratios.alike] {
            let equation = self.workings().equation(id);
            self.equation(&equation);
        }
        let verdict = if own.value < alike.value * (1.0 - 1e-9) {
            ": it is a short one, and of the two shear governs it."
        } else if own.value > alike.value * (1.0 + 1e-9) {
            ": it is a long one, and of the two bending governs it."
        } else {
            ": both limits are used up at once."
        };
        self.say(line![
            "This beam has a ratio of ",
            Inline::Quantity(own, Role::Ratio),
            verdict,
            " Timber bears little shear along its grain: short timber beams are the usual case in which shear governs."
        ]);
        let number = self.next_figure();
        self.say(line![format!("Figure {number} has the load that is allowed over that ratio.")]);
        self.figure(
            "span-and-depth",
            line!["The load that the limits allow, over the ratio of span to depth; the dot is this beam."],
        );
    }
}
