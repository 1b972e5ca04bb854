//! The shear centre of thin walls.

use super::across::AcrossWorkings;
use super::builder::{Builder, Entry};
use super::walls::{CHAPTER, CellWorkings, CentreWorkings, NOTHING, Strip, Strips, WallFlow};
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::role::Role;
use crate::working::Id;
use mechanics::section::Point;
use mechanics::thin_wall::ThinWalls;

/// A wall through the point that moments are taken about has none but what rounding leaves, 1e-16 of the shear force times the length
/// of all walls. The short ones between two webs that nearly meet have little, and it counts: with several of 1e-9 left out the
/// centre stood 5 nm off.
const NO_MOMENT: f64 = 1e-13;

impl Builder<'_> {
    /// The shear centre by the balance of moments; none where it stands on the web or on an upright axis of symmetry.
    pub(super) fn shear_centre(
        &mut self,
        walls: &ThinWalls,
        strips: &Strips,
        (flows, shear, across): (&[WallFlow], Id, &AcrossWorkings),
        cells: Option<&CellWorkings>,
    ) -> Result<Option<CentreWorkings>, EvaluationError> {
        let centre = walls.shear_centre();
        let size: f64 = (0..walls.walls().len()).map(|k| walls.length(k)).sum();
        let Some((web, line)) = walls.upright_wall_near(centre.x) else { return Ok(None) };
        if (centre.x - line).abs() <= NOTHING * size
            || (centre.x - walls.centroid().x).abs() <= NOTHING * size
        {
            return Ok(None);
        }
        let to_the_right = centre.x > line;
        let web_name = walls.walls()[web].name.clone();
        let web_place = strips.joints[walls.walls()[web].from][0].clone();
        let about = Point::new(line, walls.centroid().y);
        let flow = walls.shear_flow(0.0, self.value(shear));
        let scale = self.value(shear).abs() * size;
        let mut moments = Vec::new();
        for (k, (strip, of)) in strips.all.iter().zip(flows).enumerate() {
            if flow.wall_moment(k, about).abs() <= NO_MOMENT * scale {
                continue;
            }
            let arm = if strip.level {
                let up = self.depth_of(walls, strips, k);
                if self.axis_down { -up } else { up }
            } else {
                strips.joints[strip.from][0].clone() - web_place.clone()
            };
            // Counter-clockwise: a force to the right turns so below, an upward one on the right.
            let turns = strip.level != strip.ahead;
            let product = Expression::from(of.force) * arm;
            let entry =
                Entry::new(CHAPTER, Role::Torque, &strip.number, format!("moment of the shear force in {}", strip.name))
                    .says(format!(
                        "About the point of the middle line of {web_name} level with the centroid, counter-clockwise positive."
                    ));
            moments.push(self.formula(entry, if turns { product } else { -product })?);
        }
        let entry = Entry::new(CHAPTER, Role::Torque, "", "moment of the shear flow").says(format!(
            "All forces in the walls together turn about the middle line of {web_name}: its own force has no arm there."
        ));
        let moment = self.formula(entry, Expression::sum(moments.iter().map(|&id| id.into()).collect()))?;
        let side = if to_the_right { "right" } else { "left" };
        let entry = Entry::new(CHAPTER, Role::ShearCentre, "", "distance of the shear centre from the web").says(format!(
            "The shear force must have the same moment as the shear flow: it must act this far to the {side} of the middle line of \
             {web_name}. Through that point, the shear centre, it bends the beam and does not twist it."
        ));
        let quotient = Expression::from(moment) / shear.into();
        let distance = self.formula(entry, quotient.size())?;
        self.closed_formula(walls, strips)?;
        let entry = Entry::new(CHAPTER, Role::Across, "S", "place of the shear centre to the right").says(
            "The shear centre, to the right of the leftmost fibre; negative where it lies outside the section, to the left.",
        );
        let place = if to_the_right {
            web_place.clone() + distance.into()
        } else {
            web_place.clone() - distance.into()
        };
        let place = self.formula(entry, place)?;
        let torsion = self.torsion(walls, strips, (shear, place, across.centroid), cells)?;
        Ok(Some(CentreWorkings {
            distance,
            web: web_place,
            to_the_right,
            place,
            centroid: across.centroid,
            torsion,
            moments,
            moment,
        }))
    }

    /// The upright distance of a level wall from the axis, along the course's depth axis.
    fn depth_of(&self, walls: &ThinWalls, strips: &Strips, k: usize) -> Expression {
        let name = format!("distance of the middle of {} from the level axis", walls.walls()[k].name);
        self.workings.id(&name).unwrap_or(strips.all[k].distance).into()
    }

    /// The shear centre of a channel of equal flanges by the formula of the handbooks, where the section is one.
    fn closed_formula(&mut self, walls: &ThinWalls, strips: &Strips) -> Result<(), EvaluationError> {
        let flanges: Vec<usize> = (0..strips.all.len()).filter(|&k| strips.all[k].level).collect();
        let [one, other] = flanges.as_slice() else { return Ok(()) };
        let webs: Vec<&Strip> = strips.all.iter().filter(|strip| !strip.level).collect();
        let [web] = webs.as_slice() else { return Ok(()) };
        let near = |a: f64, b: f64| (a - b).abs() <= NOTHING * b.abs();
        let alike = near(walls.length(*one), walls.length(*other))
            && near(walls.walls()[*one].thickness, walls.walls()[*other].thickness)
            && strips.slant.is_none();
        if !alike {
            return Ok(());
        }
        let flange = &strips.all[*one];
        let entry =
            Entry::new(CHAPTER, Role::ShearCentre, "closed", "distance of the shear centre by the closed formula").says(
                "The same for a channel of equal flanges, worked out once for all: the shear force falls out, and so does I.",
            );
        let area = |strip: &Strip| strip.thickness.clone() * strip.length.into();
        let above =
            Expression::Number(3.0) * flange.thickness.clone() * Expression::from(flange.length).power(2);
        let below = Expression::Number(6.0) * area(flange) + area(web);
        self.formula(entry, above / below)?;
        Ok(())
    }
}
