//! What the elastic solution says of the section as a whole: torsion constant, shear centre, shear coefficients.

use super::{ElasticShear, ShearForce};
use crate::section::Point;

impl ElasticShear {
    /// Torsion constant `J`, m⁴, with the shear modulus of the reference material: a torque `T` twists a bar that is free to warp by
    /// `T / (G J)` for each unit of length.
    pub fn torsion_constant(&self) -> f64 {
        self.solved.integrals.torque[2] * self.size.powi(4)
    }

    /// The shear centre after Trefftz, in the coordinates of the outlines, m: the centre about which a torque turns the section.
    /// It does not depend on Poisson's ratio.
    ///
    /// # Source
    /// E. Trefftz (1935): shear through the centre and torsion do no work on each other. With the warping `w` of torsion
    /// about the centroid, `∫ n (w - y_s x + x_s y) (x, y) dA = 0`. From memory.
    pub fn shear_centre(&self) -> Point {
        let [upright, product, level] = self.solved.integrals.moments;
        // The centroid is the origin, so the mean of the warping has no moment.
        let [_, with_x, with_y] = self.solved.integrals.warping[2];
        let both = upright * level - product * product;
        self.outer(Point::new(
            (with_x * product - with_y * upright) / both,
            (with_x * level - with_y * product) / both,
        ))
    }

    /// The shear centre with Poisson's ratio, in the coordinates of the outlines, m: the point through which the resultant of the
    /// stresses passes where the section does not twist on the mean.
    ///
    /// It differs from [`ElasticShear::shear_centre`] by little: nothing in a section that is symmetric about two axes,
    /// or where Poisson's ratio is zero, and a few parts in a thousand of the wall in thin ones.
    pub fn centre_of_flexure(&self) -> Point {
        let torque = self.solved.integrals.torque;
        let about = |right: f64, up: f64| {
            let times = self.times(right, up);
            times[0] * torque[0] + times[1] * torque[1]
        };
        self.outer(Point::new(about(0.0, 1.0), -about(1.0, 0.0)))
    }

    /// Form factor `f` of the elastic stresses under a force in some direction: the energy of shear in a unit of length is
    /// `f V² / (2 G A)`, with the transformed area and the shear modulus of the material of reference. Zero where the force is.
    ///
    /// 6/5 for a narrow upright rectangle; for the same integral of `V Q / (I t)` see
    /// [`crate::stress::StressOverDepth::form_factor`].
    pub fn form_factor(&self, force: ShearForce) -> f64 {
        let size = (force.right * force.right + force.up * force.up).sqrt();
        if size == 0.0 {
            return 0.0;
        }
        let times = self.times(force.right / size, force.up / size);
        let energy = &self.solved.integrals.energy;
        let mut sum = 0.0;
        for (row, first) in energy.iter().zip(times) {
            for (entry, second) in row.iter().zip(times) {
                sum += entry * first * second;
            }
        }
        sum * self.solved.integrals.area
    }

    /// Shear coefficient `k` after Cowper under a force in some direction: the mean line of a beam slopes by
    /// `V / (k G A)` more than its sections turn, where mean line and turn are those of the displacements of Saint-Venant's
    /// solution: `∫ v dA / A`, and `∫ w y dA / I`. None where the force is zero.
    ///
    /// `10 (1 + nu) / (12 + 11 nu)` for a rectangle, `6 (1 + nu) / (7 + 6 nu)` for a circle.
    ///
    /// # Source
    /// G. Cowper, The shear coefficient in Timoshenko's beam theory (1966). From memory. With several materials areas and
    /// moments are the transformed ones, `G` that of the material of reference.
    pub fn shear_coefficient(&self, force: ShearForce) -> Option<f64> {
        let size = (force.right * force.right + force.up * force.up).sqrt();
        if !(size > 0.0 && size.is_finite()) {
            return None;
        }
        let (right, up) = (force.right / size, force.up / size);
        let times = self.times(right, up);
        let sums = &self.solved.integrals;
        let of = |part: &dyn Fn(usize) -> f64| times[0] * part(0) + times[1] * part(1);
        // The mean turn of the section, which fits a plane to its warping.
        let [upright, product, level] = sums.moments;
        let both = upright * level - product * product;
        let (with_x, with_y) = (of(&|p| sums.warping[p][1]), of(&|p| sums.warping[p][2]));
        let turn = [(with_x * level - with_y * product) / both, (with_y * upright - with_x * product) / both];
        // Mean shear strain less mean slope of the warping: what the mapping adds, for `gamma = grad w + carried`.
        let added = [of(&|p| sums.carried[p][0]), of(&|p| sums.carried[p][1])];
        let slip = |axis: usize| sums.area * turn[axis] + added[axis];
        Some(1.0 / (right * slip(0) + up * slip(1)))
    }
}
