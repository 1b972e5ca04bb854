//! Bending askew: why the simple formula does not hold, the full one, and how far apart they are.

use super::author::{Author, listed, symbol_of, value_of};
use super::line;
use crate::tree::{Alignment, Block, CalloutKind, Inline};
use lesson::{Scene, When};
use workings::dimension::Dimension;
use workings::expression::Expression;
use workings::material::side_by_side;
use workings::notation::DepthAxis;
use workings::quantity::Quantity;
use workings::role::{Role, Symbol};
use workings::solved::SkewCorners;
use workings::working::{Chapter, Id};

fn plain(role: Role) -> Expression {
    Expression::Symbol(Symbol::plain(role))
}

fn math(role: Role) -> Inline {
    Inline::Math(plain(role))
}

impl Author<'_> {
    /// Said where the simple formula is used on a section for which it holds only if the beam is held sideways.
    pub(crate) fn simple_formula_does_not_hold(&mut self) {
        if !self.bends_askew() {
            return;
        }
        let title = format!("“{}”", Chapter::Skew.title());
        self.callout(
            CalloutKind::Caution,
            "This formula does not hold for this section as it stands",
            vec![Block::Paragraph(line![
                "The section has no axis of symmetry upright or level, and its product moment ",
                math(Role::ProductMoment),
                format!(
                    " is not zero: under an upright load it bends sideways as well. What stands here is right only for a beam that \
                     is held so that it cannot move sideways. For a beam that is free, see the chapter {title}."
                ),
            ])],
        );
    }

    pub(super) fn bends_askew(&self) -> bool {
        self.workings().chapter(Chapter::Skew).next().is_some()
    }

    pub(crate) fn skew(&mut self) {
        if !self.bends_askew() {
            return;
        }
        self.chapter(Chapter::Skew.title());
        self.own_words(Scene::Skew, When::Before);
        self.why_askew();
        self.other_moments();
        self.stress_askew();
        self.how_far_off();
        self.shear_askew();
        self.no_point();
        self.own_words(Scene::Skew, When::After);
    }

    fn equations_of(&mut self, names: &[&str]) {
        let found: Vec<Id> = names.iter().filter_map(|name| self.workings().id(name)).collect();
        for id in found {
            let equation = self.workings().equation(id);
            self.equation(&equation);
        }
    }

    fn why_askew(&mut self) {
        let number = self.next_figure();
        self.say(line![
            format!(
                "So far every fibre {}at one height bore the same stress. ",
                if self.is_mixed() { "of a material " } else { "" }
            ),
            "Try that here: the stresses to the right of the upright axis \
             and those to the left of it would not cancel each other's turning, and their moment about that axis would be ",
            math(Role::BendingMoment),
            " ",
            math(Role::ProductMoment),
            "/",
            math(Role::SecondMoment),
            format!(
                ". Nothing turns the beam sideways, so that moment must be zero, and the stress must vary across the section too. \
                 The neutral axis tilts (figure {number}), although the load stands upright."
            ),
        ]);
        self.figure(
            "skew",
            line![
                "The section with its neutral axis as it truly lies, its principal axes, and the bending stress at right angles to \
                 the neutral axis. Filled: the fibres of largest tension and compression."
            ],
        );
    }

    fn is_mixed(&self) -> bool {
        !self.solved.problem().materials().is_empty()
    }

    fn other_moments(&mut self) {
        let upright = self.style.notation.in_its_words("the second moment about the upright axis");
        self.say(line![
            "Three numbers of the section are needed: besides ",
            math(Role::SecondMoment),
            format!(" {upright} and the product moment.")
        ]);
        if self.is_mixed() {
            self.say(line![
                "They too are those of the transformed section: each part counts ",
                math(Role::ModularRatio),
                " times. But it counts so with its true breadth. The transformed breadth served the heights, for the strain goes with the \
                 height; across the section it goes with the true distance to the right, so that breadth must not be put to the third power."
            ]);
        }
        self.equations_of(&[
            "place of the centroid to the right",
            "second moment of area about the upright axis",
            "product moment of area",
        ]);
        self.say(line![
            "About two axes at right angles the product moment is zero: the principal axes. A load in the plane of one of them \
             would bend the beam in that plane alone."
        ]);
        self.equations_of(&[
            "mean second moment",
            "radius of Mohr's circle of the second moments",
            "largest principal second moment",
            "smallest principal second moment",
            "angle of the principal axis",
        ]);
    }

    fn stress_askew(&mut self) {
        self.say(line![
            "A plane of stress over the section, ",
            math(Role::BendingStress),
            " growing with both distances, must add up to no force, to ",
            math(Role::BendingMoment),
            " about the level axis, and to nothing about the upright one. That gives"
        ]);
        let product = |one: Role, other: Role| Expression::Product(vec![plain(one), plain(other)]);
        let askew =
            product(Role::SecondMomentUpright, Role::Depth) - product(Role::ProductMoment, Role::Across);
        let both =
            product(Role::SecondMoment, Role::SecondMomentUpright) - plain(Role::ProductMoment).power(2);
        let quotient = plain(Role::BendingMoment) * askew / both;
        let signed = match self.style.notation.habits.depth_axis {
            DepthAxis::Up => -quotient,
            DepthAxis::Down => quotient,
        };
        self.equation(&Expression::Equal(vec![plain(Role::BendingStress), signed]));
        self.say(line![
            "With ",
            math(Role::ProductMoment),
            " = 0 it is the simple formula again. Where the bracket is zero lies the neutral axis:"
        ]);
        self.equations_of(&["inclination of the neutral axis"]);
        if self.is_mixed() {
            self.say(line![
                "The neutral axis is one for the whole section, for the strain is one plane. What the formula gives is the stress in the \
                 material of reference; in another it is ",
                math(Role::ModularRatio),
                " times as large. So each material has corners of its own, and where two meet at one corner it has two stresses."
            ]);
        }
        self.corners();
    }

    /// The stress at every corner in each material that has it, by both formulas.
    fn corners(&mut self) {
        let Some(all) = self.skew_corners() else { return };
        let simple = self.solved.stress();
        let mixed = self.is_mixed();
        let mut rows = Vec::new();
        for material in &all.materials {
            for corner in material.corners.iter().map(|&place| &all.corners[place]) {
                let letter = &corner.letter;
                let names = [
                    format!("distance of {letter} from the level axis"),
                    format!("distance of {letter} to the right"),
                    format!("skew bending stress{} at {letter}", material.within),
                ];
                let values: Vec<Inline> =
                    names.iter().filter_map(|name| self.workings().get(name)).map(value_of).collect();
                let [depth, across, full] = values.as_slice() else { continue };
                let by_simple = material.modular_ratio * simple.bending_stress(corner.at.y);
                let by_simple = Quantity::new(by_simple, Dimension::STRESS);
                let mut row = vec![line![letter.as_str()]];
                if mixed {
                    row.push(line![material.within.trim_start_matches(" in ")]);
                }
                row.extend([
                    vec![depth.clone()],
                    vec![across.clone()],
                    vec![Inline::Quantity(by_simple, Role::BendingStress)],
                    vec![Inline::Strong(vec![full.clone()])],
                ]);
                rows.push(row);
            }
        }
        let (mut header, mut alignment) = (vec![line!["Corner"]], vec![Alignment::Left]);
        if mixed {
            header.push(line!["In"]);
            alignment.push(Alignment::Left);
        }
        header.extend([
            line!["Distance ", math(Role::Depth)],
            line!["Distance ", math(Role::Across)],
            line!["Simple formula"],
            line!["Full formula"],
        ]);
        alignment.extend([Alignment::Right; 4]);
        let caption = line!["Bending stress at the corners at the slice, tension positive."];
        self.table(caption, header, alignment, rows);
    }

    fn skew_corners(&self) -> Option<SkewCorners> {
        SkewCorners::of(self.solved.section(), &self.solved.problem().materials())
    }

    fn how_far_off(&mut self) {
        let Some(all) = self.skew_corners() else { return };
        let within: Vec<&str> = all.materials.iter().map(|material| material.within.as_str()).collect();
        let mut shares = Vec::new();
        for within in &within {
            let first = shares.is_empty();
            shares.extend(self.share_of_simple(within, first));
        }
        if shares.is_empty() {
            self.say(line!["No bending moment acts at the slice."]);
            return;
        }
        self.equations(&shares);
        self.sinks_more();
        let along: Vec<Id> = within
            .iter()
            .flat_map(|within| {
                ["tension", "compression"].map(|words| format!("largest skew {words}{within} along the beam"))
            })
            .filter_map(|name| self.workings().id(&name))
            .collect();
        self.table_of_workings(
            line!["The largest bending stresses along the whole beam, by the full formula."],
            &along,
        );
    }

    /// What share of the true stress in a material the simple formula finds, in words; none where there is no moment.
    fn share_of_simple(&mut self, within: &str, first: bool) -> Option<Id> {
        let share = self.workings().id(&format!("share that the simple formula finds{within}"))?;
        let named = |words: &str| self.workings().id(&format!("largest skew {words}{within} at the slice"));
        let found: Vec<Vec<Inline>> = ["tension", "compression"]
            .into_iter()
            .filter_map(named)
            .map(|id| vec![Inline::Strong(vec![self.value(id)])])
            .collect();
        let only = found.len() == 1;
        let mut words = line![format!(
            "The largest {}{within} at the slice {} ",
            if only { "stress" } else { "stresses" },
            if only { "is" } else { "are" }
        )];
        words.extend(listed(found));
        words.extend(line![
            ". The largest by the simple formula is ",
            self.value(share),
            if self.solved.value(share) < 1.0 {
                " times the true one: whoever trusts it builds too weak."
            } else {
                " times the true one: here it overstates."
            },
        ]);
        if first {
            words.push(
                " It also has it at a whole edge, where in truth one corner is pulled or pressed most."
                    .into(),
            );
        }
        self.say(words);
        Some(share)
    }

    /// How much more the beam sinks where it is free to go sideways, and where it goes.
    fn sinks_more(&mut self) {
        let Some(times) = self.workings().id("times that it sinks more") else { return };
        self.say(line![
            "The beam moves at right angles to its neutral axis: it sinks, and it goes sideways. It sinks ",
            self.value(times),
            " times as much as its flexural rigidity about the level axis would let it; the deflected line in these pages is that \
             of a beam held sideways."
        ]);
        self.equations_of(&["second moment that counts askew", "times that it sinks more"]);
        self.goes_sideways();
    }

    /// How far the beam goes sideways, and by which formula.
    fn goes_sideways(&mut self) {
        self.say(line![
            "Nothing turns it about the upright axis, so sideways it bends just so much that the moment there stays nothing. For each \
             unit that it sinks it goes to the right (a minus: to the left) by"
        ]);
        self.equations_of(&["way to the right for each unit that it sinks"]);
        if let Some(words) = self.free_sideways() {
            self.say(words);
        }
    }

    /// The movement of a beam that is free to go sideways, where it is largest; none where that cannot be told.
    pub(super) fn free_sideways(&self) -> Option<Vec<Inline>> {
        let free = self.solved.free_sideways()?;
        let size = |value: f64| {
            let quantity = Quantity::new(value.abs(), Dimension::LENGTH);
            Inline::Strong(vec![Inline::Quantity(quantity, Role::Deflection)])
        };
        let station = Inline::Quantity(Quantity::new(free.station, Dimension::LENGTH), Role::Station);
        Some(line![
            "Free to go sideways, the beam moves, at ",
            station,
            ", by ",
            size(free.up),
            if free.up < 0.0 { " down and by " } else { " up and by " },
            size(free.right),
            if free.right > 0.0 { " to the right" } else { " to the left" },
            " as the section is drawn, ",
            size(free.size()),
            " in all, at right angles to the neutral axis; its supports must hold it sideways as they hold it upright."
        ])
    }

    fn shear_askew(&mut self) {
        let (workings, cut) = (self.workings(), &self.solved.problem().cut);
        let (Some(full), Some(simple)) =
            (workings.get("skew shear stress on the cut"), workings.get("shear stress on the cut"))
        else {
            return;
        };
        self.say(line![
            "The shear stress follows the growth of the bending stress along the beam, so it changes as well: the part beyond the cut \
             has a first moment about the upright axis too. On the cut it is ",
            value_of(full),
            ", where the simple formula has ",
            symbol_of(simple),
            " = ",
            value_of(simple),
            ".",
            match side_by_side(self.solved.section(), cut.height, cut.side) {
                true =>
                    " Materials lie side by side on this cut: either is a mean over all of them, and the stress of none of them.",
                false => "",
            }
        ]);
        self.equations_of(&[
            "first moment about the upright axis at the cut",
            "first moment that counts askew at the cut",
            "skew shear stress on the cut",
        ]);
        self.say(line![format!(
            "And one more thing: an upright load bends such a beam without twisting it only if it passes through the shear centre. {}",
            match self.solved.why_no_walls() {
                None if self.drawing("wall-flow").is_some() => "Where that stands follows in the next chapter.".to_owned(),
                None => "Where that stands is not worked out here.".to_owned(),
                Some(why) => why,
            }
        )]);
    }

    /// Why there is no chapter on the stress at a point.
    fn no_point(&mut self) {
        self.say(line![
            match self.is_mixed() {
                false => "At the corner that bears most there is no shear stress: the element there",
                true =>
                    "At a corner that no other material touches there is no shear stress: the element there",
            },
            " is pulled or pressed one way only, that bending stress \
             is its principal stress, and its largest shear stress is half of it. Elsewhere the bending stress changes across a level cut, \
             so that no height has one state of stress. For that reason this unit has no element at the cut, no circle, no fields over \
             the side of the beam and no trajectories, as units on bending about a principal axis have."
        ]);
    }
}
