//! From metres and newtons to the sheet.

use crate::text::SIZE;
use mechanics::beam::{Beam, Load};

/// A sheet on which a beam is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sheet {
    /// Width of a full drawing, px.
    pub width: f64,
    /// Where the left end of a beam stands, px.
    pub left: f64,
    /// Where its right end stands, px.
    pub right: f64,
    /// Size of small text, px.
    pub small: f64,
    /// The loads that the longest arrows of loads stand for, where these are not the largest of the drawing.
    pub measured: Option<Measured>,
}

/// The largest loads of a beam: what its longest arrows stand for.
///
/// While one load is dragged the others keep their arrows, and the dragged one's follows the hand, where it would else stay as
/// long as it is as the largest of all.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measured {
    /// The largest point force by size, N.
    pub force: f64,
    /// The largest intensity by size, N/m.
    pub intensity: f64,
}

impl Measured {
    /// The largest loads of a beam.
    pub fn of(beam: &Beam) -> Self {
        let intensities = beam.loads.iter().flat_map(|load| match *load {
            Load::Spread { down_from, down_to, .. } => [down_from, down_to],
            _ => [0.0; 2],
        });
        let largest = |values: &mut dyn Iterator<Item = f64>| values.map(f64::abs).fold(0.0, f64::max);
        Self { force: largest(&mut point_forces(beam)), intensity: largest(&mut intensities.into_iter()) }
    }
}

impl Sheet {
    /// As wide as the text on a sheet of paper at 96 px to the inch.
    pub const USUAL: Self = Self { width: 640.0, left: 80.0, right: 560.0, small: 12.0, measured: None };
    /// For large print: drawn narrow, with no text smaller than the rest, so that its letters are of 18 points where it is enlarged
    /// to the width of the text on A4 (178 mm).
    pub const LARGE_PRINT: Self =
        Self { width: 364.0, left: 68.0, right: 326.0, small: SIZE, measured: None };
    /// For the window of a phone: as wide as most of them, so that it is read without being enlarged or pushed sideways.
    pub const HAND: Self = Self { width: 344.0, left: 48.0, right: 300.0, small: SIZE, measured: None };

    /// How much less is to stand beside one another on this sheet than on the usual one: a size across it, px.
    pub fn across(self, usual: f64) -> f64 {
        if self.is_narrow() { usual * NARROW } else { usual }
    }

    /// Whether so little stands beside one another on this sheet that what can be is put below.
    pub fn is_narrow(self) -> bool {
        self.width < 0.75 * Self::USUAL.width
    }
}

/// An arrow is drawn no longer than so many times the longest that its drawing has at rest: a drag stays on the sheet.
const LONGEST: f64 = 1.6;

/// The share of the usual sizes across a narrow sheet: what is not lettering has to give more room than the sheet lost.
const NARROW: f64 = 0.5;

/// Half the depth at which a beam is drawn, px: about 40 depths would be true to life, 12 to 50 read well.
pub const HALF_DEPTH: f64 = 5.5;

/// The way along a beam.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Along {
    /// Length of the beam, m.
    pub length: f64,
    /// Where its left end stands, px.
    pub left: f64,
    /// Where its right end stands, px.
    pub right: f64,
}

impl Along {
    /// The px of a station, m.
    pub fn px(self, station: f64) -> f64 {
        self.left + self.span() * (station / self.length)
    }

    /// The stretch of the beam that one px stands for, m.
    pub fn per_px(self) -> f64 {
        self.length / self.span()
    }

    /// How long the beam is drawn, px.
    pub fn span(self) -> f64 {
        self.right - self.left
    }
}

/// The length of an arrow, proportional to what it stands for within one drawing, but never shorter than can
/// be seen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ArrowScale {
    /// The largest value of the drawing, SI.
    largest: f64,
    /// Its arrow, px.
    longest: f64,
    /// The shortest arrow, px.
    shortest: f64,
}

impl ArrowScale {
    /// The scale at which the largest of these values (of either sign) has an arrow of `longest` px, and none
    /// but zero is shorter than `shortest` px.
    pub fn new(values: impl Iterator<Item = f64>, longest: f64, shortest: f64) -> Self {
        let largest = values.map(f64::abs).filter(|value| value.is_finite()).fold(0.0, f64::max);
        Self { largest, longest, shortest }
    }

    /// The same, the longest arrow standing for this value, where there is one.
    pub fn measured_by(self, largest: Option<f64>) -> Self {
        Self { largest: largest.filter(|largest| *largest > 0.0).unwrap_or(self.largest), ..self }
    }

    /// The length of the arrow of a value, px.
    pub fn px(self, value: f64) -> f64 {
        if value == 0.0 || self.largest == 0.0 {
            0.0
        } else {
            (value.abs() / self.largest * self.longest).clamp(self.shortest, LONGEST * self.longest)
        }
    }

    /// Whether the arrow of this value is drawn longer than the scale has it.
    pub fn is_stretched(self, value: f64) -> bool {
        value != 0.0 && value.abs() / self.largest * self.longest < self.shortest * (1.0 - 1e-9)
    }
}

/// The sizes of the point forces on a beam, N.
pub fn point_forces(beam: &Beam) -> impl Iterator<Item = f64> + '_ {
    beam.loads.iter().filter_map(|load| match load {
        Load::Force { down, .. } => Some(*down),
        _ => None,
    })
}
