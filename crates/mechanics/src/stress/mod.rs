//! Stresses over the depth of a section: bending stress `sigma = -M y / I`, shear stress `tau = V Q / (I t)`.
//!
//! The shear stress is the mean over the width of the cut: close to the truth in a narrow web, and no more than a mean in a
//! broad flange, beside a hole or where the sides slope.

mod contour;
mod field;
mod field_range;
mod largest;
mod largest_cut;
mod principal;
mod skew;
mod trajectory;

pub use contour::Grid;
pub use field::{Panel, PlaneStress, StressField};
pub use largest::{LargestShearStress, PlaceSide, Reason, ShearPlace};
pub use largest_cut::LargestCut;
pub use principal::PrincipalStresses;
pub use skew::SkewBending;
pub use trajectory::{Family, TrajectoryEnd, TrajectoryPoint};

use crate::balance::Residual;
use crate::section::strip::Strip;
use crate::section::{HeightSide, Properties, Section};

/// What a self-check of the stresses is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum StressCheck {
    /// `∫ sigma dA = 0`: the tension and the compression resultant are equal.
    NormalForce,
    /// `∫ sigma y dA = M`, N m.
    BendingMoment,
    /// `∫ tau t dy = V`, N.
    ShearForce,
}

/// The stresses over the depth of a section under a bending moment and a shear force. Heights are in the coordinates
/// of the outlines.
///
/// ```
/// use mechanics::section::{HeightSide, Section, shapes};
/// use mechanics::stress::StressOverDepth;
/// let plank = Section::new(shapes::rectangle(0.100, 0.200)?.parts)?;
/// let stress = StressOverDepth::new(&plank, 0.0, 10.0e3);
/// let tau = stress.shear_stress(0.100, HeightSide::Above);
/// assert!((tau - 750.0e3).abs() < 1e-6); // 3 V / (2 A)
/// # Ok::<(), Vec<mechanics::section::Fault>>(())
/// ```
#[derive(Clone, Debug)]
pub struct StressOverDepth {
    strips: Vec<Strip>,
    properties: Properties,
    origin_y: f64,
    /// The ends of the strips as they were given, rising.
    levels: Vec<f64>,
    tolerance: f64,
    ratios: Vec<f64>,
    /// Bending moment, N m, sagging positive.
    pub bending_moment: f64,
    /// Shear force, N, with the sign of `dM/dx`.
    pub shear_force: f64,
}

impl StressOverDepth {
    /// The stresses of a section under `bending_moment` (N m, sagging positive) and `shear_force` (N).
    pub fn new(section: &Section, bending_moment: f64, shear_force: f64) -> Self {
        Self {
            strips: section.strips(),
            properties: *section.properties(),
            origin_y: section.origin().y,
            levels: section.levels().collect(),
            tolerance: section.tolerance(),
            ratios: section.parts().iter().map(|part| part.modular_ratio).collect(),
            bending_moment,
            shear_force,
        }
    }

    /// The same section under another moment and shear force.
    pub fn under(&self, bending_moment: f64, shear_force: f64) -> Self {
        Self { bending_moment, shear_force, ..self.clone() }
    }

    fn axis(&self) -> f64 {
        self.properties.centroid.y - self.origin_y
    }

    /// A local height in the coordinates of the outlines; a level comes out as it was given.
    fn outer(&self, local: f64) -> f64 {
        let index = self.strips.partition_point(|strip| strip.bottom < local);
        let begins = self.strips.get(index).is_some_and(|strip| strip.bottom == local);
        let ends = index == self.strips.len() && self.strips.last().is_some_and(|strip| strip.top == local);
        if (begins || ends) && index < self.levels.len() { self.levels[index] } else { local + self.origin_y }
    }

    /// Bending stress of the reference material at a height, Pa, tension positive; it runs on in a straight line off
    /// the section.
    pub fn bending_stress(&self, height: f64) -> f64 {
        -self.bending_moment * (height - self.properties.centroid.y) / self.properties.second_moment
    }

    /// Bending stress in one part, Pa: its modular ratio times that of the reference material.
    pub fn bending_stress_in(&self, part: usize, height: f64) -> f64 {
        self.ratios.get(part).copied().unwrap_or(1.0) * self.bending_stress(height)
    }

    /// The strip that holds a height, seen from one side, and the height in local coordinates.
    fn strip_at(&self, height: f64, side: HeightSide) -> Option<(&Strip, f64)> {
        let y = height - self.origin_y;
        let near = |level: f64| (level - y).abs() <= self.tolerance;
        self.strips.iter().find_map(|strip| {
            let holds = match side {
                HeightSide::Below => {
                    (strip.bottom < y && !near(strip.bottom) && y <= strip.top) || near(strip.top)
                }
                HeightSide::Above => {
                    near(strip.bottom) || (strip.bottom <= y && y < strip.top && !near(strip.top))
                }
            };
            let on = if near(strip.bottom) {
                strip.bottom
            } else if near(strip.top) {
                strip.top
            } else {
                y
            };
            holds.then_some((strip, on))
        })
    }

    /// Shear stress `V Q / (I t)` at a height, seen from one side, Pa, with the sign of `V`. Zero off the section and
    /// at its extreme fibres, also where the width goes to zero there.
    pub fn shear_stress(&self, height: f64, side: HeightSide) -> f64 {
        self.strip_at(height, side).map_or(0.0, |(strip, y)| self.shear_force * self.over_width(strip, y))
    }

    /// Shear stress on the material that passes through a height, Pa. It is that of the narrower side, or more at a
    /// joint where parts stand off each other.
    pub fn shear_stress_on_contact(&self, height: f64) -> f64 {
        let (below, above) =
            (self.shear_stress(height, HeightSide::Below), self.shear_stress(height, HeightSide::Above));
        let greater = if below.abs() > above.abs() { below } else { above };
        match self.strip_at(height, HeightSide::Above) {
            Some((strip, y)) if y == strip.bottom && strip.contact_below > self.tolerance => {
                let on_contact = self.shear_flow(height) / strip.contact_below;
                if on_contact.abs() > greater.abs() { on_contact } else { greater }
            }
            _ => greater,
        }
    }

    /// Shear flow `V Q / I` at a level cut, N/m, with the sign of `V`. It does not jump where the width does.
    pub fn shear_flow(&self, height: f64) -> f64 {
        self.shear_force * self.first_moment(height) / self.properties.second_moment
    }

    /// First moment about the neutral axis of all that lies above a height, m³; zero off the section.
    pub fn first_moment(&self, height: f64) -> f64 {
        let at =
            self.strip_at(height, HeightSide::Below).or_else(|| self.strip_at(height, HeightSide::Above));
        at.map_or(0.0, |(strip, y)| strip.first_moment(y))
    }

    /// `Q / (I t)`, 1/m²; its limit where the width goes to zero at the lowest or highest fibre, which is 0.
    fn over_width(&self, strip: &Strip, y: f64) -> f64 {
        let width = strip.width(y);
        if width <= 1e-3 * self.tolerance {
            return 0.0;
        }
        strip.first_moment(y) / (self.properties.second_moment * width)
    }

    /// Mean shear stress `V / A` over the area as drawn, Pa.
    pub fn mean_shear_stress(&self) -> f64 {
        self.shear_force / self.properties.plain_area
    }

    /// Form factor of `V Q / (I t)`, with the shear moduli as the moduli of elasticity: see [`Self::form_factor_with`].
    pub fn form_factor(&self) -> f64 {
        self.form_factor_with(&self.ratios)
    }

    /// Form factor of `V Q / (I t)`: were this the stress, the energy of shear in a unit of length would be
    /// `f V² / (2 G A)`, so `f = A ∫ (Q / I)² / Σ(g b) dy`, with the transformed area `A` and the ratio `g` of the shear modulus of
    /// each part to that of reference. What lies side by side on a cut is sheared alike. 6/5 for a rectangle.
    ///
    /// # Source
    /// The energy of shear of any textbook, `∫ tau² / (2 G) dA`, by quadrature over the strips.
    pub fn form_factor_with(&self, shear_ratios: &[f64]) -> f64 {
        let mut sum = 0.0;
        for strip in &self.strips {
            sum += strip.integrate(strip.bottom, strip.top, |y| {
                let flow = self.over_width(strip, y) * strip.width(y);
                let stiff = strip.sheared_width(y, shear_ratios);
                if stiff > 0.0 { flow * flow / stiff } else { 0.0 }
            });
        }
        sum * self.properties.area
    }

    /// The ranges of height between neighbouring corners, tops and bottoms of arcs, rising, m. Within each the stresses
    /// are smooth: a straight line for sigma; for tau a cubic over the width where the sides are straight.
    pub fn strips(&self) -> impl Iterator<Item = (f64, f64)> + '_ {
        self.strips.iter().map(|strip| (self.outer(strip.bottom), self.outer(strip.top)))
    }

    /// The part of the shear force that the ground between two heights carries, `∫ tau t dy`, N. In closed form:
    /// by parts, `∫ Q dy = [e Q] + ∫ e² dA` with `e` from the neutral axis.
    pub fn shear_force_carried(&self, from: f64, to: f64) -> f64 {
        let (low, high) = (from.min(to) - self.origin_y, from.max(to) - self.origin_y);
        let axis = self.axis();
        let mut sum = 0.0;
        for strip in &self.strips {
            let (bottom, top) = (strip.bottom.max(low), strip.top.min(high));
            if bottom < top {
                sum += (top - axis) * strip.first_moment(top) - (bottom - axis) * strip.first_moment(bottom)
                    + strip.second_moment(bottom, top);
            }
        }
        self.shear_force * sum / self.properties.second_moment
    }

    /// The principal stresses at a height, seen from one side, for the reference material.
    pub fn principal_stresses(&self, height: f64, side: HeightSide) -> PrincipalStresses {
        // On the face towards +x a positive V acts downward, so the shear stress there is -tau in axes x, y.
        PrincipalStresses::of(self.bending_stress(height), -self.shear_stress(height, side))
    }

    /// The resultants of tension and of compression: `∫ sigma dA` above and below the neutral axis, N, tension positive,
    /// by quadrature over the strips, each with `∫ sigma e dA`, N m.
    fn resultants(&self) -> [(f64, f64); 2] {
        let axis = self.axis();
        let over = |low: f64, high: f64| {
            let mut force = 0.0;
            let mut moment = 0.0;
            for strip in &self.strips {
                let stress = |y: f64| -self.bending_moment * (y - axis) / self.properties.second_moment;
                force += strip.integrate(low, high, |y| stress(y) * strip.transformed_width(y));
                moment += strip.integrate(low, high, |y| stress(y) * strip.transformed_width(y) * (y - axis));
            }
            (force, moment)
        };
        [over(f64::NEG_INFINITY, axis), over(axis, f64::INFINITY)]
    }

    /// The self-checks: what the stresses add up to, by quadrature over the strips, against what they ought to.
    pub fn checks(&self) -> [(StressCheck, Residual); 3] {
        let [(below, moment_below), (above, moment_above)] = self.resultants();
        let mut shear = 0.0;
        for strip in &self.strips {
            let flow = |y: f64| self.over_width(strip, y) * strip.width(y);
            shear += strip.integrate(strip.bottom, strip.top, flow);
        }
        [
            (StressCheck::NormalForce, Residual::of(&[below, above])),
            (StressCheck::BendingMoment, Residual::of(&[-moment_below, -moment_above, -self.bending_moment])),
            (StressCheck::ShearForce, Residual::between(shear * self.shear_force, self.shear_force)),
        ]
    }
}
