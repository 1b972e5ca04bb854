//! The stretch of beam between two neighbouring nodes.

use super::banded::Equations;
use super::layout::Breakpoint;
use super::nodes::State;

/// The scales in which the equations are written: every unknown is a moment, N m, so that rows and columns are
/// of one size in micrometres as in kilometres. A deflection stands as `v E I / L²`, a rotation as
/// `theta E I / L`.
#[derive(Clone, Copy)]
pub(super) struct Measure {
    pub(super) length: f64,
    pub(super) rigidity: f64,
    /// `E I f / (G A L²)`: 0 where shear is left out.
    pub(super) shear: f64,
}

impl Measure {
    pub(super) fn scaled_deflection(self, deflection: f64) -> f64 {
        deflection / self.length * (self.rigidity / self.length)
    }

    pub(super) fn deflection(self, scaled: f64) -> f64 {
        scaled * self.length / self.rigidity * self.length
    }

    pub(super) fn scaled_rotation(self, rotation: f64) -> f64 {
        rotation * (self.rigidity / self.length)
    }

    pub(super) fn rotation(self, scaled: f64) -> f64 {
        scaled * self.length / self.rigidity
    }
}

/// The beam between two nodes, as if simply supported there under the loads in between.
pub(super) struct Element {
    /// m
    pub(super) length: f64,
    /// V at its left and right end, N.
    pub(super) shears: [f64; 2],
    /// `E I` times the slope at its left and right end, N m².
    slopes: [f64; 2],
    /// The couples in between, N m: what `∫ V dx` is more than the moment grows by.
    couples: f64,
}

impl Element {
    /// Of the breakpoints from one node to the next; what acts at the first and the last is the nodes' affair.
    pub(super) fn of(breakpoints: &[Breakpoint]) -> Self {
        let (start, end) = (breakpoints[0].station, breakpoints[breakpoints.len() - 1].station);
        let l = end - start;
        let mut element = Self { length: l, shears: [0.0; 2], slopes: [0.0; 2], couples: 0.0 };
        for (index, pair) in breakpoints.windows(2).enumerate() {
            let point = &pair[0];
            // A point at the distances a and b from the two ends.
            let (a, b) = (point.station - start, end - point.station);
            if index > 0 {
                element.add_force(point.down, a, b);
                element.add_couple(point.ccw, a, b);
            }
            if point.intensity != 0.0 || point.growth != 0.0 {
                element.add_spread(point.intensity, point.growth, a, pair[1].station - point.station, b);
            }
        }
        element
    }

    fn add_force(&mut self, force: f64, a: f64, b: f64) {
        let l = self.length;
        self.shears[0] += force * b / l;
        self.shears[1] -= force * a / l;
        let common = force * a * b / (6.0 * l);
        self.slopes[0] -= common * (l + b);
        self.slopes[1] += common * (l + a);
    }

    fn add_couple(&mut self, couple: f64, a: f64, b: f64) {
        let l = self.length;
        self.couples += couple;
        self.shears[0] += couple / l;
        self.shears[1] += couple / l;
        self.slopes[0] -= couple * (l * l - 3.0 * b * b) / (6.0 * l);
        self.slopes[1] -= couple * (l * l - 3.0 * a * a) / (6.0 * l);
    }

    /// A load that begins at `a` with `intensity` and grows by `growth` per metre over `length`.
    fn add_spread(&mut self, intensity: f64, growth: f64, a: f64, length: f64, b: f64) {
        let l = self.length;
        let resultant = length * (intensity + growth * length / 2.0);
        // Moment of the load about its own beginning.
        let moment = length * length * (intensity / 2.0 + growth * length / 3.0);
        self.shears[0] += (resultant * b - moment) / l;
        self.shears[1] -= (resultant * a + moment) / l;
        // The slopes are the integrals of those of a force: polynomials of the fourth degree, which three points
        // of Gauss integrate exactly.
        for (at, weight) in GAUSS {
            let s = at * length;
            let (x, y) = (a + s, b - s);
            let common = weight * length * (intensity + growth * s) * x * y / (6.0 * l);
            self.slopes[0] -= common * (l + y);
            self.slopes[1] += common * (l + x);
        }
    }

    /// How much a moment at an end turns it, in the scale of the equations: `l / (6 L)`.
    pub(super) fn bend(&self, measure: Measure) -> f64 {
        self.length / (6.0 * measure.length)
    }

    /// Rotation at the left end from its ends' deflections and moments and the loads in between, scaled. The sections turn less than
    /// the chord by what shear tilts the axis.
    pub(super) fn rotation_at_left(&self, measure: Measure, deflections: [f64; 2], moments: [f64; 2]) -> f64 {
        let sheared = measure.shear * (moments[1] - moments[0] + self.couples);
        (deflections[1] - deflections[0] + sheared) * (measure.length / self.length)
            + self.slopes[0] / measure.length
            - self.bend(measure) * (2.0 * moments[0] + moments[1])
    }

    /// What both ends' deflections, and what shear adds to them, turn the chord by: the same at both ends.
    fn add_chord(&self, measure: Measure, equations: &mut Equations, sign: f64, ends: [&State; 2]) {
        let tilt = sign * measure.length / self.length;
        equations.add(tilt, ends[1].deflection);
        equations.add(-tilt, ends[0].deflection);
        let sheared = tilt * measure.shear;
        if sheared != 0.0 {
            equations.add(sheared, ends[1].moments[0]);
            equations.add(-sheared, ends[0].moments[1]);
            equations.add_constant(sheared * self.couples);
        }
    }

    pub(super) fn add_rotation_at_left(
        &self,
        measure: Measure,
        equations: &mut Equations,
        sign: f64,
        ends: [&State; 2],
    ) {
        let bend = sign * self.bend(measure);
        self.add_chord(measure, equations, sign, ends);
        equations.add(-2.0 * bend, ends[0].moments[1]);
        equations.add(-bend, ends[1].moments[0]);
        equations.add_constant(sign * self.slopes[0] / measure.length);
    }

    pub(super) fn add_rotation_at_right(
        &self,
        measure: Measure,
        equations: &mut Equations,
        ends: [&State; 2],
    ) {
        let bend = self.bend(measure);
        self.add_chord(measure, equations, 1.0, ends);
        equations.add(bend, ends[0].moments[1]);
        equations.add(2.0 * bend, ends[1].moments[0]);
        equations.add_constant(self.slopes[1] / measure.length);
    }
}

// Gauss-Legendre integration with three points, moved to 0 ..= 1: the points 1/2 -+ sqrt(3/20) and their weights.
pub(super) const GAUSS: [(f64, f64); 3] =
    [(0.112_701_665_379_258_3, 5.0 / 18.0), (0.5, 8.0 / 18.0), (0.887_298_334_620_741_7, 5.0 / 18.0)];
