//! What rounding on the way makes of a result.
//!
//! V near one of its zeros and Q near the neutral axis are differences: each term is right to three figures, their
//! difference is not. So the graph is evaluated again as students evaluate it, some of them rounding at one step and some at
//! another, and the farthest that any of them comes from the right value is the band that an honest answer may lie in.

use super::figures::Grid;
use crate::chance::Chance;
use serde::Serialize;
use workings::evaluate::{Evaluator, Prepared};
use workings::solved::Solved;
use workings::working::Id;

/// How many students are imagined who round at some steps and not at others. With the patterns that are sought out it
/// suffices: ten times as many widened the bands of the test's lessons by less than a tenth.
const STUDENTS: usize = 48;

/// What rounding on the way makes of a result.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Carried {
    /// What comes out where every working on the way and the result itself are rounded, SI.
    pub rounded: f64,
    /// The farthest from the right value that rounding at some or all of them leads, SI, not negative.
    pub band: f64,
}

/// What becomes of one working on the way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Step {
    /// Carried on with all its figures.
    Kept,
    /// Rounded, a middle between two neighbours away from zero or towards it.
    Rounded { middle_goes_out: bool },
}

/// A result to be found again and again, its steps rounded in one way and another.
pub(super) struct Rounder<'a> {
    evaluator: Evaluator<'a>,
    prepared: &'a Prepared,
    asked: Id,
    right: f64,
    /// By id the unit in which a working is written down, SI.
    units: Vec<f64>,
    /// The workings that are found on the way, the result last.
    found: Vec<Id>,
}

impl<'a> Rounder<'a> {
    /// For a result; `prepared` has the inputs replaced by their values, and `found` are the workings between.
    pub(super) fn new(solved: &'a Solved, prepared: &'a Prepared, asked: Id, found: Vec<Id>) -> Self {
        let workings = solved.workings();
        let mut units = vec![1.0; workings.len()];
        for &id in &found {
            let working = workings.working(id);
            let shown = solved.style().show(working.value, working.symbol.role);
            if let Some(unit) = units.get_mut(id.0 as usize) {
                *unit = shown.unit.in_si();
            }
        }
        let right = solved.value(asked);
        Self { evaluator: Evaluator::new(workings), prepared, asked, right, units, found }
    }

    /// What comes out where all on the way and the result itself are rounded, SI.
    pub(super) fn rounded(&mut self, grid: Grid) -> f64 {
        let steps = vec![Step::Rounded { middle_goes_out: true }; self.units.len()];
        self.run(grid, &steps)
    }

    /// The unit in which the result is written down, SI.
    pub(super) fn unit(&self) -> f64 {
        self.units.get(self.asked.0 as usize).copied().unwrap_or(1.0)
    }

    /// What rounding so makes of the result.
    pub(super) fn carried(&mut self, grid: Grid) -> Carried {
        let out = Step::Rounded { middle_goes_out: true };
        let inwards = Step::Rounded { middle_goes_out: false };
        let rounded = self.rounded(grid);
        let mut steps = vec![inwards; self.units.len()];
        let mut band = 0.0_f64;
        let mut widen = |value: f64, right: f64| {
            let off = value - right;
            // Where rounding leads to a division by zero there is no bound to what students may find.
            band = band.max(if off.is_finite() { off.abs() } else { f64::INFINITY });
            off
        };
        widen(rounded, self.right);
        widen(self.run(grid, &steps), self.right);

        // Each alone; then together all that lead the same way.
        steps.fill(Step::Kept);
        let mut up = steps.clone();
        let mut down = steps.clone();
        for at in 0..self.found.len() {
            let place = self.found[at].0 as usize;
            for step in [out, inwards] {
                steps[place] = step;
                let off = widen(self.run(grid, &steps), self.right);
                if off > 0.0 {
                    up[place] = step;
                } else if off < 0.0 {
                    down[place] = step;
                }
            }
            steps[place] = Step::Kept;
        }
        widen(self.run(grid, &up), self.right);
        widen(self.run(grid, &down), self.right);

        let mut chance = Chance::new();
        for _ in 0..STUDENTS {
            for at in 0..self.found.len() {
                let bits = chance.bits();
                let rounds = Step::Rounded { middle_goes_out: bits & 2 == 0 };
                steps[self.found[at].0 as usize] = if bits & 1 == 0 { rounds } else { Step::Kept };
            }
            widen(self.run(grid, &steps), self.right);
        }
        Carried { rounded, band }
    }

    fn run(&mut self, grid: Grid, steps: &[Step]) -> f64 {
        let units = &self.units;
        let values = self.evaluator.run_settling(self.prepared, |id, value| {
            let place = id.0 as usize;
            match (steps.get(place), units.get(place)) {
                (Some(&Step::Rounded { middle_goes_out }), Some(&unit)) => {
                    grid.round(value / unit, middle_goes_out) * unit
                }
                _ => value,
            }
        });
        values.get(self.asked.0 as usize).copied().unwrap_or(f64::NAN)
    }
}
