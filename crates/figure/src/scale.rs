//! From metres and newtons to the sheet.

use mechanics::beam::{Beam, Load};

/// Width of a full drawing, px: that of the text on a sheet of paper at 96 px to the inch.
pub const SHEET_WIDTH: f64 = 640.0;
/// Where the left end of a beam stands, px.
pub const BEAM_LEFT: f64 = 80.0;
/// Where its right end stands, px.
pub const BEAM_RIGHT: f64 = 560.0;
/// Half the depth at which a beam is drawn, px: about 40 depths would be true to life, 12 to 50 read well.
pub const HALF_DEPTH: f64 = 5.5;

/// The way along a beam.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Along {
    /// Length of the beam, m.
    pub length: f64,
}

impl Along {
    /// The px of a station, m.
    pub fn px(self, station: f64) -> f64 {
        BEAM_LEFT + (BEAM_RIGHT - BEAM_LEFT) * (station / self.length)
    }

    /// The stretch of the beam that one px stands for, m.
    pub fn per_px(self) -> f64 {
        self.length / (BEAM_RIGHT - BEAM_LEFT)
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

    /// The length of the arrow of a value, px.
    pub fn px(self, value: f64) -> f64 {
        if value == 0.0 || self.largest == 0.0 {
            0.0
        } else {
            (value.abs() / self.largest * self.longest).max(self.shortest)
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
