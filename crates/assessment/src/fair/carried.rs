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

/// How many students are imagined who round at some steps and not at others, before the farthest of them are led farther.
///
/// Measured on 960 bands of 60 random lessons: with nearly ten times as many a band is 2 % wider in the mean, and in one of ten
/// more than 5 %.
const STUDENTS: usize = 64;

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

impl Step {
    const ALL: [Self; 3] =
        [Self::Kept, Self::Rounded { middle_goes_out: true }, Self::Rounded { middle_goes_out: false }];
}

/// A result to be found again and again, its steps rounded in one way and another.
pub(super) struct Rounder<'a> {
    evaluator: Evaluator<'a>,
    prepared: &'a Prepared,
    asked: Id,
    right: f64,
    /// By id the unit in which a working is written down, SI.
    units: Vec<f64>,
    /// The workings that are found on the way, in the order of the graph, the result last.
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
        let rounded = self.rounded(grid);
        let (up, down) = self.alone(grid);
        let all = |middle_goes_out| vec![Step::Rounded { middle_goes_out }; self.units.len()];
        let mut patterns = vec![all(true), all(false), up, down];
        let mut chance = Chance::new();
        for _ in 0..STUDENTS {
            let mut pattern = vec![Step::Kept; self.units.len()];
            for id in &self.found {
                let bits = chance.bits();
                if bits & 1 == 0 {
                    pattern[id.0 as usize] = Step::Rounded { middle_goes_out: bits & 2 == 0 };
                }
            }
            patterns.push(pattern);
        }
        let mut found: Vec<(f64, Vec<Step>)> =
            patterns.into_iter().map(|pattern| (self.run(grid, &pattern) - self.right, pattern)).collect();
        found.sort_by(|(one, _), (other, _)| one.total_cmp(other));
        let mut band = 0.0_f64;
        // The farthest down and up, and from there farther, step by step.
        for (way, start) in [(-1.0, found.first()), (1.0, found.last())] {
            if let Some((off, pattern)) = start {
                band = band.max(self.farthest(grid, way, *off, pattern.clone()));
            }
        }
        Carried { rounded, band }
    }

    /// The patterns of all steps that, each rounded alone, lead up, and of all that lead down.
    fn alone(&mut self, grid: Grid) -> (Vec<Step>, Vec<Step>) {
        let mut pattern = vec![Step::Kept; self.units.len()];
        let (mut up, mut down) = (pattern.clone(), pattern.clone());
        self.run(grid, &pattern);
        for at in (0..self.found.len()).rev() {
            let place = self.found[at].0 as usize;
            for step in Step::ALL {
                pattern[place] = step;
                let off = self.run_on(at, grid, &pattern) - self.right;
                if off > 0.0 {
                    up[place] = step;
                } else if off < 0.0 {
                    down[place] = step;
                }
            }
            pattern[place] = Step::Kept;
        }
        (up, down)
    }

    /// How far from the right value a pattern of rounding leads `way` (up 1, down -1) after each of its steps, from the last
    /// to the first, has been done in whichever manner leads the farthest.
    fn farthest(&mut self, grid: Grid, way: f64, off: f64, mut pattern: Vec<Step>) -> f64 {
        let mut most = way * off;
        self.run(grid, &pattern);
        for at in (0..self.found.len()).rev() {
            let place = self.found[at].0 as usize;
            let own = pattern[place];
            let mut best = own;
            for step in Step::ALL.into_iter().filter(|step| *step != own) {
                pattern[place] = step;
                let off = way * (self.run_on(at, grid, &pattern) - self.right);
                if off > most {
                    (most, best) = (off, step);
                }
            }
            pattern[place] = best;
        }
        // Where rounding leads to a division by zero there is no bound to what students may find.
        if most.is_finite() { most.max(0.0) } else { f64::INFINITY }
    }

    /// The result after these steps.
    fn run(&mut self, grid: Grid, steps: &[Step]) -> f64 {
        self.evaluator.run_settling(self.prepared, rounded(grid, steps, &self.units));
        self.result()
    }

    /// The same, where no step has changed since the last run but that of the working found at a place, and later ones.
    fn run_on(&mut self, place: usize, grid: Grid, steps: &[Step]) -> f64 {
        let from = self.found.get(place).copied().unwrap_or(Id(0));
        self.evaluator.run_on(from, self.prepared, rounded(grid, steps, &self.units));
        self.result()
    }

    fn result(&self) -> f64 {
        self.evaluator.values().get(self.asked.0 as usize).copied().unwrap_or(f64::NAN)
    }
}

/// What becomes of a working's value, SI, by its step.
fn rounded(grid: Grid, steps: &[Step], units: &[f64]) -> impl Fn(Id, f64) -> f64 {
    move |id, value| {
        let place = id.0 as usize;
        match (steps.get(place), units.get(place)) {
            (Some(&Step::Rounded { middle_goes_out }), Some(&unit)) => {
                grid.round(value / unit, middle_goes_out) * unit
            }
            _ => value,
        }
    }
}
