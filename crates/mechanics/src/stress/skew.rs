//! Bending about an axis that is no principal one: unsymmetric sections.

use crate::real;
use crate::section::{Point, Section};

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
