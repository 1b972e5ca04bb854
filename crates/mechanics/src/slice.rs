//! The slice: the piece of the beam between x and x + dx, cut open by a level cut, with all that acts on it.

use crate::balance::Residual;
use crate::beam::{Side, Solution};
use crate::section::{CutFault, HeightSide, LevelCut, Section};

/// What acts on the two faces of a slice and between them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SliceGivens {
    /// Length dx, m; greater than zero.
    pub length: f64,
    /// Bending moment on the left face, N m, sagging positive; the limit inside the slice where it jumps there.
    pub moment_left: f64,
    /// Bending moment on the right face, N m.
    pub moment_right: f64,
    /// Shear force on the left face, N, with the sign of `dM/dx`.
    pub shear_left: f64,
    /// Shear force on the right face, N.
    pub shear_right: f64,
    /// Resultant of the loads and reactions on the slice, N, positive down.
    pub load: f64,
    /// Their moment about the left face, couples included, N m, counter-clockwise positive: a force down to the right of
    /// the face gives a negative one.
    pub load_moment: f64,
}

impl SliceGivens {
    /// A slice of which no more is known than the bending moments on its faces: no load acts on it, and the shear force
    /// is the mean that the moments ask for, `(M' - M) / dx`.
    pub fn from_moments(moment_left: f64, moment_right: f64, length: f64) -> Self {
        let shear = (moment_right - moment_left) / length;
        Self {
            length,
            moment_left,
            moment_right,
            shear_left: shear,
            shear_right: shear,
            load: 0.0,
            load_moment: 0.0,
        }
    }

    /// The slice from `station` over `length` of a solved beam: what acts at the two faces just inside the slice, and all
    /// loads and reactions between them. A force that stands on a face is not on the slice.
    ///
    /// # Errors
    /// [`SliceFault::Value`], [`SliceFault::OffTheBeam`].
    pub fn from_beam(solution: &Solution, station: f64, length: f64) -> Result<Self, SliceFault> {
        if !(length > 0.0 && length.is_finite() && station.is_finite()) {
            return Err(SliceFault::Value { length });
        }
        let (from, to, beam) = (station, station + length, solution.length());
        // Both ends are read from text and added up: the last bits may differ.
        let near = 1e-12 * beam;
        if from < -near || to > beam + near {
            return Err(SliceFault::OffTheBeam { from, to, beam });
        }
        let (mut load, mut load_moment) = (0.0, 0.0);
        for jump in solution.jumps() {
            if jump.station > from + near && jump.station < to - near {
                load -= jump.force_up;
                load_moment += jump.force_up * (jump.station - from) + jump.couple_ccw;
            }
        }
        for segment in solution.segments() {
            let (begin, end) = (segment.from.max(from), segment.to.min(to));
            if begin < end {
                let at = |x: f64| segment.intensity_at_start + segment.intensity_growth * (x - segment.from);
                let (first, last, run) = (at(begin), at(end), end - begin);
                load += 0.5 * (first + last) * run;
                let arm = begin - from;
                load_moment -= 0.5 * (first + last) * run * arm + run * run * (first + 2.0 * last) / 6.0;
            }
        }
        Ok(Self {
            length,
            moment_left: solution.bending_moment(from, Side::Right),
            moment_right: solution.bending_moment(to, Side::Left),
            shear_left: solution.shear(from, Side::Right),
            shear_right: solution.shear(to, Side::Left),
            load,
            load_moment,
        })
    }
}

/// Why there can be no such slice.
#[derive(Clone, Debug, PartialEq)]
pub enum SliceFault {
    /// Its length is not greater than zero, or a value is infinite or no number.
    Value {
        /// The length as given, m.
        length: f64,
    },
    /// It reaches past an end of the beam.
    OffTheBeam {
        /// Station of its left face, m.
        from: f64,
        /// Station of its right face, m.
        to: f64,
        /// Length of the beam, m.
        beam: f64,
    },
    /// The cut cannot be made.
    Cut(CutFault),
}

/// A resultant of bending stresses: its size and the height of its line of action.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Resultant {
    /// Force along the beam, N, tension positive.
    pub force: f64,
    /// Height of its line of action, in the coordinates of the outlines, m.
    pub height: f64,
}

/// One face of the slice.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Face {
    /// Bending moment, N m, sagging positive.
    pub bending_moment: f64,
    /// Shear force, N.
    pub shear_force: f64,
    /// Resultant of all above the neutral axis.
    pub above_axis: Resultant,
    /// Resultant of all below the neutral axis: equal and opposite.
    pub below_axis: Resultant,
    /// Resultant over the part beyond the cut.
    pub beyond: Resultant,
    /// Resultant over the rest.
    pub rest: Resultant,
}

/// What a balance of the slice is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum SliceBalance {
    /// Forces along the beam on the left face, N.
    LeftFace,
    /// Forces along the beam on the right face, N.
    RightFace,
    /// Forces along the beam on the part beyond the cut: both faces and the cut, N.
    PartBeyond,
    /// Forces along the beam on the rest: both faces and the cut, N.
    Rest,
    /// Forces up and down on the whole slice: both shear forces and the load, N.
    Vertical,
    /// Moments on the whole slice about its left face, N m.
    Moments,
    /// The couple of the two resultants on the left face against its bending moment, N m.
    LeftCouple,
    /// The couple of the two resultants on the right face against its bending moment, N m.
    RightCouple,
}

/// A slice of finite length, cut open.
#[derive(Clone, Debug, PartialEq)]
pub struct Slice {
    /// What it was made from.
    pub givens: SliceGivens,
    /// The cut, with the part beyond it.
    pub cut: LevelCut,
    /// The left face.
    pub left: Face,
    /// The right face.
    pub right: Face,
    /// Force that the rest exerts on the part beyond, along the cut, N, positive to the right.
    pub force_on_cut: f64,
    second_moment: f64,
}

impl Slice {
    /// Cuts a slice open at a height and takes the piece above or below as the part beyond.
    ///
    /// # Errors
    /// [`SliceFault::Value`], [`SliceFault::Cut`].
    pub fn new(
        section: &Section,
        givens: SliceGivens,
        height: f64,
        beyond: HeightSide,
    ) -> Result<Slice, SliceFault> {
        let SliceGivens { length, moment_left, moment_right, shear_left, shear_right, load, load_moment } =
            givens;
        let values = [moment_left, moment_right, shear_left, shear_right, load, load_moment];
        if !(length > 0.0 && length.is_finite() && values.iter().all(|value| value.is_finite())) {
            return Err(SliceFault::Value { length });
        }
        let other = match beyond {
            HeightSide::Above => HeightSide::Below,
            HeightSide::Below => HeightSide::Above,
        };
        let grounds = Grounds {
            beyond: section.ground(height, beyond).map_err(SliceFault::Cut)?,
            rest: section.ground(height, other).map_err(SliceFault::Cut)?,
            above_axis: section.ground(section.neutral_axis(), HeightSide::Above).map_err(SliceFault::Cut)?,
            below_axis: section.ground(section.neutral_axis(), HeightSide::Below).map_err(SliceFault::Cut)?,
        };
        let cut = section.level_cut(height, beyond).map_err(SliceFault::Cut)?;
        let left = grounds.face(section, moment_left, shear_left);
        let right = grounds.face(section, moment_right, shear_right);
        let force_on_cut = left.beyond.force - right.beyond.force;
        let second_moment = section.properties().second_moment;
        Ok(Slice { givens, cut, left, right, force_on_cut, second_moment })
    }

    /// Mean shear stress on the cut, `(M' - M) Q / (I t dx)`, Pa, with the width on one side of the cut and the sign of
    /// the mean shear force: as dx shrinks it tends to `V Q / (I t)`.
    pub fn mean_shear_stress(&self, side: HeightSide) -> f64 {
        let size = self.force_on_cut.abs() / (self.cut.width(side) * self.givens.length);
        if self.givens.moment_right < self.givens.moment_left { -size } else { size }
    }

    /// `V Q / (I t)` with the shear force of the left face, Pa.
    pub fn formula_shear_stress_left(&self, side: HeightSide) -> f64 {
        self.formula_shear_stress(self.givens.shear_left, side)
    }

    /// `V Q / (I t)` with the shear force of the right face, Pa.
    pub fn formula_shear_stress_right(&self, side: HeightSide) -> f64 {
        self.formula_shear_stress(self.givens.shear_right, side)
    }

    fn formula_shear_stress(&self, shear_force: f64, side: HeightSide) -> f64 {
        shear_force * self.cut.first_moment.abs() / (self.second_moment * self.cut.width(side))
    }

    /// Shear flow on the cut, mean over the slice, N/m, with the sign of the mean shear force.
    pub fn mean_shear_flow(&self) -> f64 {
        (self.givens.moment_right - self.givens.moment_left) * self.cut.first_moment.abs()
            / (self.second_moment * self.givens.length)
    }

    /// All balances of the slice and of its pieces. The part beyond and the rest are integrated apart from each other.
    pub fn balances(&self) -> [(SliceBalance, Residual); 8] {
        let (left, right, givens) = (&self.left, &self.right, &self.givens);
        let couple = |face: &Face| {
            // Compression above and tension below is a sagging moment.
            Residual::of(&[
                -face.above_axis.force * (face.above_axis.height - face.below_axis.height),
                -face.bending_moment,
            ])
        };
        [
            (SliceBalance::LeftFace, Residual::of(&[left.above_axis.force, left.below_axis.force])),
            (SliceBalance::RightFace, Residual::of(&[right.above_axis.force, right.below_axis.force])),
            (
                SliceBalance::PartBeyond,
                Residual::of(&[right.beyond.force, -left.beyond.force, self.force_on_cut]),
            ),
            (SliceBalance::Rest, Residual::of(&[right.rest.force, -left.rest.force, -self.force_on_cut])),
            (SliceBalance::Vertical, Residual::of(&[givens.shear_left, -givens.shear_right, -givens.load])),
            (
                SliceBalance::Moments,
                Residual::of(&[
                    givens.moment_right,
                    -givens.moment_left,
                    -givens.shear_right * givens.length,
                    givens.load_moment,
                ]),
            ),
            (SliceBalance::LeftCouple, couple(left)),
            (SliceBalance::RightCouple, couple(right)),
        ]
    }
}

/// First and second moments of the pieces that a face falls into.
struct Grounds {
    beyond: (f64, f64),
    rest: (f64, f64),
    above_axis: (f64, f64),
    below_axis: (f64, f64),
}

impl Grounds {
    fn face(&self, section: &Section, bending_moment: f64, shear_force: f64) -> Face {
        let (axis, second) = (section.neutral_axis(), section.properties().second_moment);
        // With sigma = -M e / I: force -M Q / I, acting at ∫ e² dA / Q from the neutral axis.
        let resultant = |(q, i): (f64, f64)| Resultant {
            force: -bending_moment * q / second,
            height: if q == 0.0 { axis } else { axis + i / q },
        };
        Face {
            bending_moment,
            shear_force,
            above_axis: resultant(self.above_axis),
            below_axis: resultant(self.below_axis),
            beyond: resultant(self.beyond),
            rest: resultant(self.rest),
        }
    }
}
