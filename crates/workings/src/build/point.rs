//! Stress at a point: the principal stresses at the cut, and which of the checked places of the beam governs.

use super::bending::BendingWorkings;
use super::builder::{Builder, Entry, zero};
use super::cut::{Cut, CutWorkings};
use super::diagrams::DiagramWorkings;
use super::section::SectionWorkings;
use super::shear::ShearWorkings;
use crate::dimension::Dimension;
use crate::engine::Call;
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::material::Behaviour;
use crate::role::Role;
use crate::working::{Chapter, HeightSide, Id, Place};
use mechanics::beam::Side;
use mechanics::section::Section;
use mechanics::stress::{PlaneStress, StressOverDepth};
use std::cmp::Ordering;

const CHAPTER: Chapter = Chapter::Point;

/// A junction of web and flange where the beam is hardest pressed.
#[derive(Clone, Copy)]
struct Junction {
    height: f64,
    /// The narrow side, where the width jumps; none where it begins to grow.
    side: Option<HeightSide>,
    station: Id,
    /// The side of the station, where V or M jumps there.
    beside: Option<Side>,
    moment: Id,
    /// None where V passes through zero.
    shear: Option<Id>,
    equivalent: f64,
}

impl Builder<'_> {
    /// The principal stresses at the cut. None where materials of several moduli lie side by side there: then the
    /// bending stress has no one value.
    pub(crate) fn point(&mut self, engine: &Section, normal: Id, shear: Id) -> Result<(), EvaluationError> {
        let cut = &self.problem.cut;
        let ratio = |part: usize| engine.parts().get(part).map(|part| part.modular_ratio);
        let chords = engine.chords(cut.height, cut.side);
        let first = chords.first().map(|chord| ratio(chord.part));
        if chords.iter().any(|chord| Some(ratio(chord.part)) != first) {
            return Ok(());
        }
        let place = self.workings.working(shear).place;
        let entry = |role, index: &str, name: &str| Entry::new(CHAPTER, role, index, name).placed(place);
        let says = "Mohr's circle has the point of the upright face and that of the level face at the ends of a diameter. \
                    No normal stress acts on the level face, so the centre lies at half the bending stress.";
        let centre = entry(Role::PrincipalStress, "avg", "mean normal stress at the cut").says(says);
        let centre = self.formula(centre, Expression::from(normal) / 2.0.into())?;
        let says = "The distance of both points from the centre is the radius of the circle.";
        let radius = entry(Role::CircleRadius, "", "radius of Mohr's circle at the cut").says(says);
        let squares = Expression::from(centre).power(2) + Expression::from(shear).power(2);
        let radius = self.formula(radius, squares.root())?;
        let says = "Where the circle meets the axis of normal stress there is no shear stress: there lie the largest \
                    and the smallest normal stress of all planes through the point.";
        let largest = entry(Role::PrincipalStress, "1", "largest principal stress at the cut").says(says);
        let largest = self.formula(largest, Expression::from(centre) + radius.into())?;
        let says = "The other end of that diameter. The sum of both is the bending stress, whatever the shear stress.";
        let smallest = entry(Role::PrincipalStress, "2", "smallest principal stress at the cut").says(says);
        let smallest = self.formula(smallest, Expression::from(centre) - radius.into())?;
        // Under pure compression the largest is nought, and its direction upright.
        if self.value(largest) > 1e-9 * self.value(radius) {
            self.direction(entry, shear, largest)?;
        }
        let says = "The highest point of the circle: on planes at 45° to the principal ones.";
        let most =
            entry(Role::PrincipalShear, "plane", "largest shear stress in the plane at the cut").says(says);
        self.formula(most, (Expression::from(largest) - smallest.into()) / 2.0.into())?;
        Ok(())
    }

    fn direction(
        &mut self,
        entry: impl Fn(Role, &str, &str) -> Entry,
        shear: Id,
        largest: Id,
    ) -> Result<Id, EvaluationError> {
        // A positive shear stress acts down on the face towards the right, so it turns the pull downwards. By half the angle of
        // the circle the same comes out only where the bending stress is a tension: else the arctangent is off by a right angle.
        let says = "Balance of a wedge whose slanting face bears the largest principal stress alone: along the depth the shear \
                    stress on its upright face holds it. Counter-clockwise from the axis of the beam, seen with the beam running to \
                    the right.";
        let angle = entry(Role::PrincipalAngle, "", "direction of the largest principal stress at the cut");
        self.formula(angle.says(says), Expression::arctangent(-Expression::from(shear), largest.into()))
    }

    /// The equivalent stress where bending is largest, where the shear force is, and at the junction of web and flange
    /// where both act, and which of them governs. None for a beam of several materials, each of which bears what it bears, and
    /// none for wood and what is brittle: the equivalent stress is a criterion of ductile metals.
    pub(crate) fn governing(
        &mut self,
        section: &SectionWorkings,
        engine: &Section,
        bending: &BendingWorkings,
        shear: &ShearWorkings,
        diagrams: &DiagramWorkings,
    ) -> Result<(), EvaluationError> {
        if !section.materials.is_empty() {
            return Ok(());
        }
        let told = match self.problem.behaviour() {
            Behaviour::Ductile => "",
            Behaviour::Untold => {
                " That holds if the beam is of a ductile metal, which the lesson does not tell."
            }
            Behaviour::Grained | Behaviour::Brittle => return Ok(()),
        };
        let mut found: Vec<(Id, &str)> = Vec::new();
        let extremes = [bending.tension, bending.compression].into_iter().flatten();
        if let Some(most) = extremes.max_by(|&a, &b| self.value(a).abs().total_cmp(&self.value(b).abs())) {
            let place = self.workings.working(most).place;
            let entry = equivalent("b", "equivalent stress in bending", place)
                .says("At the outer fibre no shear stress acts: the equivalent stress is the bending stress, by its size.");
            found.push((
                self.formula(entry, Expression::from(most).size())?,
                "Bending governs, at the outer fibre.",
            ));
        }
        let axis = &shear.at_axis.cut;
        if self.value(axis.width) > 0.0 {
            let most = self.workings.working(diagrams.largest_shear).place;
            let place = Place { height: Some(engine.neutral_axis()), ..most };
            let entry = equivalent("s", "equivalent stress in shear", place).says(
                "At the neutral axis no bending stress acts: in pure shear the equivalent stress is √3 times the shear \
                 stress.",
            );
            let stress = Expression::from(diagrams.largest_shear).size() * axis.first_moment.into()
                / (Expression::from(section.second_moment) * axis.width.into());
            let formula = Expression::Number(3.0).root() * stress;
            found.push((self.formula(entry, formula)?, "Shear governs, at the neutral axis."));
        }
        if let Some(junction) = self.worst_junction(engine, diagrams) {
            let stress = self.at_junction(section, engine, shear, junction)?;
            let words = match junction.side {
                Some(_) => "The junction governs, where the width jumps: there both act together.",
                None => "The junction governs, where the fillet begins: there both act together.",
            };
            found.push((stress, words));
        }
        let by_value = |a: &&(Id, &str), b: &&(Id, &str)| self.value(a.0).total_cmp(&self.value(b.0));
        let Some(&(most, words)) = found.iter().max_by(by_value) else { return Ok(()) };
        let place = self.workings.working(most).place;
        let entry = equivalent("max", "largest equivalent stress at the checked places", place).says(format!(
            "{words}{told} Checked are the outer fibres, the neutral axis, every jump of the width and every height at which a fillet \
             begins, at both sides of every key station and where V passes through zero."
        ));
        self.formula(entry, most.into())?;
        Ok(())
    }

    /// Of all junctions and all stations where V or M may be largest the pair with the largest equivalent stress.
    fn worst_junction(&self, engine: &Section, diagrams: &DiagramWorkings) -> Option<Junction> {
        let over_depth = StressOverDepth::new(engine, 0.0, 0.0);
        let mut worst: Option<Junction> = None;
        for jump in engine.junctions() {
            let side = match jump.below.partial_cmp(&jump.above) {
                Some(Ordering::Less) => Some(HeightSide::Below),
                Some(Ordering::Equal) => None,
                _ => Some(HeightSide::Above),
            };
            let stops = diagrams.stops.iter().flat_map(|stop| {
                let jumps = stop.moment[0] != stop.moment[1] || stop.shear[0] != stop.shear[1];
                [Side::Left, Side::Right].into_iter().enumerate().map(move |(at, beside)| {
                    (stop.station, jumps.then_some(beside), stop.moment[at], Some(stop.shear[at]))
                })
            });
            let zeros = diagrams.zeros.iter().flatten().map(|zero| (zero.station, None, zero.moment, None));
            for (station, beside, moment, shear) in stops.chain(zeros) {
                let here = over_depth.under(self.value(moment), shear.map_or(0.0, |shear| self.value(shear)));
                let stress = PlaneStress {
                    normal: here.bending_stress(jump.height),
                    shear: here.shear_stress_on_contact(jump.height),
                };
                let equivalent = stress.equivalent();
                // The first of equals stands: what differs by rounding alone does not move it.
                let least = worst.map_or(0.0, |worst| worst.equivalent * (1.0 + 1e-12));
                if equivalent > least {
                    let height = jump.height;
                    worst = Some(Junction { height, side, station, beside, moment, shear, equivalent });
                }
            }
        }
        worst
    }

    fn at_junction(
        &mut self,
        section: &SectionWorkings,
        engine: &Section,
        shear: &ShearWorkings,
        junction: Junction,
    ) -> Result<Id, EvaluationError> {
        let Junction { height, side, moment, .. } = junction;
        let place = Place {
            station: Some(self.value(junction.station)),
            side: junction.beside,
            height: Some(height),
            height_side: side,
        };
        let height_of = self.junction_height(section, engine, place)?;
        let cut = self.junction_cut(section, engine, shear, (height_of, place))?;
        let at = |role, name: &str| Entry::new(CHAPTER, role, "j", name).placed(place);
        let distance = Expression::from(height_of) - section.centroid.into();
        let normal = at(Role::BendingStress, "bending stress at the junction").says(match side {
            Some(_) => {
                "The width jumps here. The bending stress goes with the distance from the neutral axis."
            }
            None => {
                "The fillet begins here. The bending stress goes with the distance from the neutral axis."
            }
        });
        let normal =
            self.formula(normal, -(Expression::from(moment) * distance / section.second_moment.into()))?;
        let tau = at(Role::ShearStress, "shear stress at the junction").says(match side {
            Some(_) => "On the narrow side the same flow passes through less width.",
            None => "The flow passes through the width that the fillet has not widened yet.",
        });
        let force = junction.shear.map_or_else(|| zero(Dimension::FORCE, Role::ShearForce), Expression::from);
        let above = force * cut.first_moment.into();
        let below = Expression::from(section.second_moment) * cut.width.into();
        let tau = self.formula(tau, above / below)?;
        let half = Expression::from(normal) / 2.0.into();
        let radius = (half.clone().power(2) + Expression::from(tau).power(2)).root();
        let index = if self.value(normal) < 0.0 { "2,j" } else { "1,j" };
        let entry = Entry::new(CHAPTER, Role::PrincipalStress, index, "principal stress at the junction");
        let principal = entry.placed(place).says(
            "The principal stress of the larger size there; to be compared with the bending stress at the outer fibre, \
             which is one too.",
        );
        let principal_formula = if self.value(normal) < 0.0 { half - radius } else { half + radius };
        self.formula(principal, principal_formula)?;
        let entry = equivalent("j", "equivalent stress at the junction", place).says(
            "Both act together: the stress of a tensile test that would bring a ductile material equally near to \
             yielding.",
        );
        let shears = Expression::Number(3.0) * Expression::from(tau).power(2);
        self.formula(entry, (Expression::from(normal).power(2) + shears).root())
    }

    /// The height of the junction: the top of a piece where it lies there.
    fn junction_height(
        &mut self,
        section: &SectionWorkings,
        engine: &Section,
        place: Place,
    ) -> Result<Id, EvaluationError> {
        let height = place.height.unwrap_or_default();
        let near = 1e-9 * engine.properties().height();
        if (height - self.problem.cut.height).abs() <= near
            && let Some(id) = self.workings.id("height of the cut")
        {
            return Ok(id);
        }
        let entry = Entry::new(CHAPTER, Role::CutHeight, "j", "height of the junction")
            .height(height, place.height_side)
            .says("Where web and flange meet, above the base line.");
        let piece = section
            .pieces
            .iter()
            .map(|piece| &piece.placed)
            .find(|placed| !placed.piece.hole && (placed.piece.top - height).abs() <= near);
        match piece.and_then(|placed| placed.top()) {
            Some(top) => self.formula(entry, top),
            None => {
                let how = "Read off the outline.";
                self.engine(entry, how, (Vec::new(), Call::Fixed), height, Dimension::LENGTH)
            }
        }
    }

    /// Q and t at the junction: those of the cut where it lies there.
    fn junction_cut(
        &mut self,
        section: &SectionWorkings,
        engine: &Section,
        shear: &ShearWorkings,
        (height, place): (Id, Place),
    ) -> Result<CutWorkings, EvaluationError> {
        let cut = &self.problem.cut;
        let side = place.height_side.unwrap_or(HeightSide::Below);
        if (self.value(height) - cut.height).abs() <= 1e-9 * engine.properties().height() {
            let known =
                if side == cut.side { Some(&shear.cut) } else { shear.other_side.as_ref().map(|o| &o.cut) };
            if let Some(known) = known {
                return Ok(known.clone());
            }
        }
        let at = Cut { height, side, beyond: cut.beyond, words: "the junction", index: "j" };
        self.cut(section, engine, &at)
    }
}

fn equivalent(index: &str, name: &str, place: Place) -> Entry {
    Entry::new(CHAPTER, Role::EquivalentStress, index, name).placed(place)
}
