//! What the engine knows of a lesson beyond its worked solution: deflections, points of contraflexure, the section's
//! other moments. Values without formulas of their own.

use crate::dimension::Dimension;
use crate::quantity::Quantity;
use crate::role::Role;
use crate::solved::Solved;
use crate::value::Value;
use crate::working::Place;
use mechanics::beam::{Curve, Reached, Side};

impl Solved {
    /// The further values of the lesson, in the order of the lecture.
    pub fn further_values(&self) -> Vec<Value> {
        let mut values = self.bent_shape();
        values.extend(self.other_moments());
        values.extend(self.by_middle_lines());
        // Where the section bends askew, its other moments are workings.
        values.retain(|value| self.workings().id(&value.name).is_none());
        values
    }

    fn further(&self, name: &str, role: Role, place: Place, value: f64, dimension: Dimension) -> Value {
        Value {
            chapter: "further",
            ..Value::placed(self, name, role, place, Quantity::new(value, dimension))
        }
    }

    fn bent_shape(&self) -> Vec<Value> {
        let beam = self.beam();
        let at = |station: f64| Place { station: Some(station), ..Place::default() };
        let mut values = Vec::new();
        let extremes = beam.extremes(Curve::Deflection);
        let largest = [
            ("largest deflection up, of bending", extremes.highest),
            ("largest deflection down, of bending", extremes.lowest),
        ];
        for (name, extreme) in largest {
            let Some(extreme) = extreme else { continue };
            for reached in &extreme.reached {
                let place = match *reached {
                    Reached::At(place) => at(place.station),
                    Reached::Over { from, .. } => at(from),
                };
                values.push(self.further(name, Role::Deflection, place, extreme.value, Dimension::LENGTH));
            }
        }
        if let Some(free) = self.free_sideways() {
            let place = at(free.station);
            let name = "largest deflection of a beam free to go sideways, of bending";
            values.push(self.further(name, Role::Deflection, place, free.up, Dimension::LENGTH));
            let name = "its movement to the right there";
            values.push(self.further(name, Role::Deflection, place, free.right, Dimension::LENGTH));
        }
        let slice = self.problem().slice.at;
        let side = if slice < beam.length() { Side::Right } else { Side::Left };
        let deflection = beam.deflection(slice);
        values.push(self.further(
            "deflection at the slice, of bending",
            Role::Deflection,
            at(slice),
            deflection,
            Dimension::LENGTH,
        ));
        let slope = beam.slope(slice, side);
        values.push(self.further("slope at the slice", Role::Slope, at(slice), slope, Dimension::NONE));
        for station in beam.contraflexures() {
            let place = at(station);
            values.push(self.further(
                "point of contraflexure",
                Role::Station,
                place,
                station,
                Dimension::LENGTH,
            ));
        }
        values
    }

    fn other_moments(&self) -> Vec<Value> {
        let properties = self.section().properties();
        let principal = properties.principal;
        let all = Place::default();
        // What is nought by symmetry comes out of the sums as a little more or less.
        let settled = |value: f64, scale: f64| if value.abs() <= 1e-12 * scale { 0.0 } else { value };
        let moments = properties.second_moment + properties.second_moment_upright;
        let moment = |name: &str, role, value| self.further(name, role, all, value, Dimension::LENGTH_4);
        let length = |name: &str, role, value| self.further(name, role, all, value, Dimension::LENGTH);
        vec![
            length(
                "place of the centroid to the right",
                Role::CentroidAcross,
                settled(properties.centroid.x - properties.left, properties.breadth()),
            ),
            moment(
                "second moment of area about the upright axis",
                Role::SecondMomentUpright,
                properties.second_moment_upright,
            ),
            moment(
                "product moment of area",
                Role::ProductMoment,
                settled(properties.product_moment, moments),
            ),
            moment("largest principal second moment", Role::SecondMoment, principal.largest),
            moment("smallest principal second moment", Role::SecondMoment, principal.smallest),
            self.further(
                "angle of the principal axis",
                Role::PrincipalAxisAngle,
                all,
                settled(principal.angle, 1.0),
                Dimension::NONE,
            ),
            length(
                "radius of gyration about the upright axis",
                Role::RadiusOfGyration,
                properties.radius_of_gyration_upright,
            ),
        ]
    }

    /// What the engine knows of thin walls, worked out step by step or not.
    fn by_middle_lines(&self) -> Vec<Value> {
        let Ok(walls) = self.problem().thin_walls() else { return Vec::new() };
        let all = Place::default();
        let properties = self.section().properties();
        // What is nought by symmetry comes out of the corners as they are written as a little more or less.
        let settled = |value: f64| properties.told(value);
        let value = |name: &str, role, value, dimension| self.further(name, role, all, value, dimension);
        let centre = walls.shear_centre();
        let mut values = vec![
            value(
                "second moment by middle lines",
                Role::SecondMoment,
                walls.second_moment(),
                Dimension::LENGTH_4,
            ),
            value("torsion constant", Role::TorsionConstant, walls.torsion_constant(), Dimension::LENGTH_4),
            value(
                "place of the shear centre to the right",
                Role::Across,
                settled(centre.x - properties.left),
                Dimension::LENGTH,
            ),
            value("height of the shear centre", Role::CutHeight, settled(centre.y), Dimension::LENGTH),
        ];
        let slice = self.problem().slice.at;
        let shear = self.value(self.slice().shear_left);
        if let Some(most) = walls.shear_flow(0.0, shear).largest().filter(|_| shear != 0.0) {
            let place = Place { station: Some(slice), height: Some(settled(most.at.y)), ..Place::default() };
            let stress = most.stress;
            values.push(self.further(
                "largest shear stress in the walls",
                Role::ShearStress,
                place,
                stress,
                Dimension::STRESS,
            ));
            values.push(self.further(
                "shear flow where the stress in the walls is largest",
                Role::ShearFlow,
                place,
                most.flow.abs(),
                Dimension::FORCE_PER_LENGTH,
            ));
        }
        values
    }
}
