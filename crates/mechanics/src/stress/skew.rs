//! Bending about an axis that is no principal one: unsymmetric sections.

use crate::real;
use crate::section::{CutFault, HeightSide, JointCut, Point, Section};

/// The straight-line distribution of bending stress in any section under any bending moment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SkewBending {
    centroid: Point,
    /// Rates at which the stress of the reference material grows to the right and up, Pa/m.
    pub per_x: f64,
    /// See [`SkewBending::per_x`].
    pub per_y: f64,
}

impl SkewBending {
    /// From the two parts of the bending moment, N m: `∫ sigma y dA`, which pulls above (a sagging moment with its sign
    /// turned), and `∫ sigma x dA`, which pulls on the right. The beam stays straight sideways only if it is held so:
    /// the section bends about the axis that this gives, not about the axis of the moment.
    ///
    /// # Source
    /// The two moment integrals solved for `sigma = a x + b y` from the centroid; any textbook, unsymmetric bending.
    pub fn new(section: &Section, pulls_above: f64, pulls_right: f64) -> Self {
        let properties = section.properties();
        let (level, upright, product) =
            (properties.second_moment, properties.second_moment_upright, properties.product_moment);
        // Greater than zero: the principal moments of an area are, and this is their product.
        let both = level * upright - product * product;
        Self {
            centroid: properties.centroid,
            per_x: (pulls_right * level - pulls_above * product) / both,
            per_y: (pulls_above * upright - pulls_right * product) / both,
        }
    }

    /// Under a bending moment in the upright plane alone, N m, sagging positive.
    pub fn under(section: &Section, bending_moment: f64) -> Self {
        Self::new(section, -bending_moment, 0.0)
    }

    /// Where the section is stretched and where it is pressed most, and the stress of the reference material there, Pa: the
    /// points farthest from the neutral axis on either side. None where there is no moment.
    pub fn extremes(&self, section: &Section) -> Option<[(Point, f64); 2]> {
        let direction = Point::new(self.per_x, self.per_y);
        let at = |point: Point| (point, self.stress(point));
        let most = at(section.farthest(direction)?);
        let least = at(section.farthest(Point::new(-direction.x, -direction.y))?);
        Some([most, least])
    }

    /// The same in some parts of a section, those of one material: where they are stretched most, or pressed least, and where they are pressed
    /// most, or stretched least, and the stress of their own material there, Pa. A material may lie on one side of the neutral
    /// axis, so both may have one sign. None where there is no moment or no such part.
    ///
    /// # Source
    /// Equal strain at one place in all materials, so each is stressed as its modulus is; the transformed section of any textbook, with the
    /// full formula in the place of `M y / I`. A stress that is a plane over the section is largest at a corner of its hull.
    pub fn extremes_in(&self, section: &Section, parts: &[usize]) -> Option<[(Point, f64); 2]> {
        let ratio = section.parts().get(*parts.first()?)?.modular_ratio;
        let direction = Point::new(self.per_x, self.per_y);
        let at = |point: Point| (point, ratio * self.stress(point));
        let most = at(section.farthest_of(parts, direction)?);
        let least = at(section.farthest_of(parts, Point::new(-direction.x, -direction.y))?);
        Some([most, least])
    }

    /// Shear flow on a level cut under a shear force, its parts up and to the right in N, N/m, with the sign of an upright force where the
    /// level axis is a principal one: what the piece above the cut needs for its balance while the bending stress grows along the
    /// beam with `dM/dx = V`.
    ///
    /// ```text
    /// q = V (I_y Q_x - I_xy Q_y) / (I_x I_y - I_xy²)      Q_x = ∫ y dA, Q_y = ∫ x dA over the piece above, for V upright
    /// ```
    ///
    /// # Errors
    /// [`CutFault::MissesSection`] or [`CutFault::NotFinite`].
    ///
    /// # Source
    /// The balance of the cut piece with the stress of [`SkewBending::new`] in the place of `M y / I`.
    pub fn flow_on_cut(section: &Section, [up, right]: [f64; 2], height: f64) -> Result<f64, CutFault> {
        let cut = section.level_cut(height, HeightSide::Above)?;
        let across = cut.area * section.to_the_right(cut.centroid);
        let rate = Self::new(section, up, right);
        Ok(rate.per_x * across + rate.per_y * cut.first_moment)
    }

    /// Shear flow over all faces of a joint under a shear force, its parts up and to the right in N, N/m: as
    /// [`SkewBending::flow_on_cut`], with the moments of the parts that the joint holds in the place of the piece above. The balance
    /// does not ask how the part is cut free.
    pub fn flow_in_joint(section: &Section, [up, right]: [f64; 2], joint: &JointCut) -> f64 {
        let across = joint.area * section.to_the_right(joint.centroid);
        let rate = Self::new(section, up, right);
        rate.per_x * across + rate.per_y * joint.first_moment
    }

    /// Bending stress of the reference material at a point in the coordinates of the outlines, Pa, tension positive.
    pub fn stress(&self, point: Point) -> f64 {
        self.per_x * (point.x - self.centroid.x) + self.per_y * (point.y - self.centroid.y)
    }

    /// Angle of the neutral axis, counter-clockwise from the x axis, rad, in (-π/2, π/2]; 0 where there is no moment.
    pub fn neutral_axis_angle(&self) -> f64 {
        // Along the neutral axis the stress does not change: its direction is (per_y, -per_x).
        let pi = core::f64::consts::PI;
        let angle = real::atan2(-self.per_x, self.per_y);
        if angle > 0.5 * pi {
            angle - pi
        } else if angle <= -0.5 * pi {
            angle + pi
        } else {
            angle
        }
    }
}
