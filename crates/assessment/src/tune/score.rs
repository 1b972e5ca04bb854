//! How round the results of a candidate are.

use super::short::{MOST_DIGITS, Short};
use crate::fair::figures::Grid;
use workings::rounding::Figures;
use workings::solved::Solved;

/// A value and itself rounded are one where they are nearer than this part of it.
const SAME: f64 = 1e-9;

/// How round the results are, the roundest the least.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Score {
    /// How many of the results asked for do not come out exact in the course's figures.
    pub(super) asked_long: u32,
    /// How many of those on the way do not.
    pub(super) way_long: u32,
    /// The digits of all results together; one that never ends counts as one digit more than the most.
    pub(super) digits: u32,
}

/// The results that are to be round: those asked for first, then those on the way.
#[derive(Clone, Debug)]
pub(super) struct Results {
    pub(super) names: Vec<String>,
    pub(super) asked: usize,
    /// The unit in which each is written, SI.
    units: Vec<f64>,
    grid: Grid,
}

impl Results {
    /// Of a solved lesson that has workings of all these names.
    pub(super) fn new(solved: &Solved, asked: &[String], way: &[String], figures: Figures) -> Self {
        let names: Vec<String> = asked.iter().chain(way).cloned().collect();
        let unit = |name: &String| {
            let working = solved.workings().get(name);
            working.map_or(1.0, |working| {
                solved.style().unit(working.symbol.role, working.value.dimension).in_si()
            })
        };
        Self { units: names.iter().map(unit).collect(), asked: asked.len(), names, grid: Grid::of(figures) }
    }

    /// Whether a result comes out exact in the course's figures, SI.
    pub(super) fn is_exact(&self, at: usize, value: f64) -> bool {
        let shown = value / self.units.get(at).copied().unwrap_or(1.0);
        // What is not a number is not exact.
        (self.grid.round(shown, true) - shown).abs() <= SAME * shown.abs()
    }

    /// A result as a short number of its unit, SI.
    pub(super) fn short(&self, at: usize, value: f64) -> Option<Short> {
        Short::of(value / self.units.get(at).copied().unwrap_or(1.0))
    }

    /// The score of results, SI; `long` is told each of those asked for that is not exact. `None` as soon as it is no
    /// better than `worst`.
    pub(super) fn score(
        &self,
        values: &[f64],
        worst: Option<Score>,
        mut long: impl FnMut(usize),
    ) -> Option<Score> {
        let mut score = Score::default();
        for (at, &value) in values.iter().enumerate() {
            if !self.is_exact(at, value) {
                if at < self.asked {
                    score.asked_long += 1;
                    long(at);
                } else {
                    score.way_long += 1;
                }
            }
            // The census wants all that are asked for; the rest only matters while it can still be good enough.
            if at + 1 >= self.asked && worst.is_some_and(|worst| score > worst) {
                return None;
            }
        }
        let digits = |(at, &value)| self.short(at, value).map_or(MOST_DIGITS + 1, |short| short.digits);
        score.digits = values.iter().enumerate().map(digits).sum();
        worst.is_none_or(|worst| score <= worst).then_some(score)
    }
}
