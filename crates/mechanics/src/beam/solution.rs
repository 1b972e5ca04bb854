//! What a solved beam tells: reactions, and every curve along it.

use super::segment::{Curve, Segment};
use super::{SAME_STATION, Side};

/// What a support does to the beam.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reaction {
    /// Index into [`Beam::supports`](super::Beam::supports).
    pub support: usize,
    /// Where it stands, m.
    pub station: f64,
    /// Force on the beam, N, positive up; 0 where the support does not hold the beam up.
    pub force: f64,
    /// Couple on the beam, N m, positive counter-clockwise; 0 where the support lets the beam turn.
    pub couple: f64,
}

/// What acts at one breakpoint of the beam, loads and reactions together, and by how much the slope jumps.
///
/// V jumps up by `force_up`, M jumps down by `couple_ccw`, both from left to right; at an end of the beam
/// the jump is from nothing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Jump {
    /// Where, m.
    pub station: f64,
    /// Sum of the point forces and reactions there, N, positive up: the jump of V.
    pub force_up: f64,
    /// Sum of the couples there, N m, positive counter-clockwise: minus the jump of M.
    pub couple_ccw: f64,
    /// Jump of the slope, rad, counter-clockwise; 0 but at a hinge.
    pub kink: f64,
}

/// A solved beam.
///
/// Everything is exact up to rounding: no sampling, no mesh. Values that are zero up to the rounding of
/// what they were added up from are given as exactly 0.
#[derive(Clone, Debug, PartialEq)]
pub struct Solution {
    pub(super) length: f64,
    pub(super) reactions: Vec<Reaction>,
    pub(super) segments: Vec<Segment>,
    pub(super) jumps: Vec<Jump>,
    /// For each curve, the size below which a value is only rounding; by `Curve as usize`.
    pub(super) nothing: [f64; 4],
}

impl Solution {
    /// Length of the beam, m.
    pub fn length(&self) -> f64 {
        self.length
    }

    /// One reaction for each support, in the order of [`Beam::supports`](super::Beam::supports).
    pub fn reactions(&self) -> &[Reaction] {
        &self.reactions
    }

    /// The stretches between neighbouring breakpoints, from left to right, without gaps.
    pub fn segments(&self) -> &[Segment] {
        &self.segments
    }

    /// The breakpoints, m, from left to right: both ends, supports, hinges, and where a load stands, begins
    /// or ends.
    pub fn stations(&self) -> impl ExactSizeIterator<Item = f64> + '_ {
        self.jumps.iter().map(|jump| jump.station)
    }

    /// What acts at each breakpoint, from left to right: one for each of [`Self::stations`], those where
    /// nothing jumps included.
    pub fn jumps(&self) -> &[Jump] {
        &self.jumps
    }

    /// Shear force V, N, positive when the left piece pushes up on the right one: `V = dM/dx`.
    ///
    /// At an end of the beam the limit from inside is given for either side; off the beam, NaN.
    pub fn shear(&self, station: f64, side: Side) -> f64 {
        self.value(Curve::Shear, station, side)
    }

    /// Bending moment M, N m, positive when it sags. Ends and off the beam: as [`Self::shear`].
    pub fn bending_moment(&self, station: f64, side: Side) -> f64 {
        self.value(Curve::BendingMoment, station, side)
    }

    /// Slope, rad, positive counter-clockwise; jumps at hinges. Ends and off the beam: as [`Self::shear`].
    pub fn slope(&self, station: f64, side: Side) -> f64 {
        self.value(Curve::Slope, station, side)
    }

    /// Deflection, m, positive up, so a sag is negative; off the beam, NaN.
    pub fn deflection(&self, station: f64) -> f64 {
        self.value(Curve::Deflection, station, Side::Left)
    }

    /// Load intensity w, N/m, positive down: the spread loads alone. Ends and off the beam: as [`Self::shear`].
    pub fn load_intensity(&self, station: f64, side: Side) -> f64 {
        match self.place(station, side) {
            Some((segment, s)) => segment.intensity_at_start + segment.intensity_growth * s,
            None => f64::NAN,
        }
    }

    /// The value of any of the four curves. Ends and off the beam: as [`Self::shear`].
    pub fn value(&self, curve: Curve, station: f64, side: Side) -> f64 {
        match self.place(station, side) {
            Some((segment, s)) => self.cleaned(curve, segment.value(curve, s)),
            None => f64::NAN,
        }
    }

    /// The size, in the curve's unit, below which a value of it is nothing but rounding: a small share
    /// (1e-13) of what its values were added up from.
    pub fn nothing(&self, curve: Curve) -> f64 {
        self.nothing[curve as usize]
    }

    /// The value, or 0 where it is nothing but rounding.
    pub(super) fn cleaned(&self, curve: Curve, value: f64) -> f64 {
        if value.abs() <= self.nothing(curve) { 0.0 } else { value }
    }

    /// The segment that a station lies on, and the local coordinate there.
    pub(super) fn place(&self, station: f64, side: Side) -> Option<(&Segment, f64)> {
        let near = SAME_STATION * self.length;
        if !(station >= -near && station <= self.length + near) {
            return None;
        }
        // The first segment that ends at or after the station; where it ends there, the right limit belongs
        // to the next one.
        let last = self.segments.len().checked_sub(1)?;
        let mut index = self.segments.partition_point(|segment| segment.to < station - near).min(last);
        if side == Side::Right && self.segments[index].to - station <= near {
            index = (index + 1).min(last);
        }
        let segment = &self.segments[index];
        let s = station - segment.from;
        let length = segment.length();
        if s <= near {
            Some((segment, 0.0))
        } else if length - s <= near {
            Some((segment, length))
        } else {
            Some((segment, s))
        }
    }
}
