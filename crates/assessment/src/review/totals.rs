//! The totals of a class.

use super::sums::{mean, variance};
use serde::Serialize;

/// The totals of the students all of whose answers are marked, in marks.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Totals {
    /// How many students these are.
    pub students: usize,
    /// What there is to earn.
    pub out_of: f64,
    /// The mean.
    pub mean: f64,
    /// The standard deviation, over N.
    pub deviation: f64,
    /// The least.
    pub least: f64,
    /// The median: the middle one, or the mean of the two in the middle.
    pub median: f64,
    /// The greatest.
    pub greatest: f64,
    /// How many students have a total within each stretch of what there is to earn, from none to all.
    pub stretches: Vec<Stretch>,
}

/// Totals from here to there; one on a border counts above it, the full marks in the last stretch.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Stretch {
    /// Where it begins, in marks.
    pub from: f64,
    /// Where it ends, in marks: at the next one, the last at what there is to earn.
    pub to: f64,
    /// How many students have a total within it.
    pub students: usize,
}

/// A total this much below a border is on it: it was added up from decimals. In stretches.
const SLACK: f64 = 1e-9;

/// At most so many stretches.
const STRETCHES: f64 = 10.0;

/// The length of the stretches, in marks: half a mark, or whole ones that a reader counts up at a glance; the least with which there are
/// no more than [`STRETCHES`].
fn step(out_of: f64) -> f64 {
    let fits = |step: &f64| out_of / step <= STRETCHES + SLACK;
    let tens = std::iter::successors(Some(1.0), |ten| Some(10.0 * ten)).take(300);
    let steps = tens.flat_map(|ten: f64| [ten, 2.0 * ten, 5.0 * ten]);
    std::iter::once(0.5).chain(steps).find(fits).unwrap_or(out_of)
}

fn stretches(all: &[f64], out_of: f64) -> Vec<Stretch> {
    let step = step(out_of);
    // At most ten and at least one; what is left over by rounding is no stretch.
    let count = ((out_of / step - SLACK).ceil() as usize).max(1);
    let mut stretches: Vec<Stretch> = (0..count)
        .map(|at| Stretch { from: step * at as f64, to: (step * (at + 1) as f64).min(out_of), students: 0 })
        .collect();
    for total in all {
        // The cast holds it above zero.
        let at = ((total / step + SLACK) as usize).min(count - 1);
        if let Some(stretch) = stretches.get_mut(at) {
            stretch.students += 1;
        }
    }
    stretches
}

pub(super) fn totals(rows: &[Vec<f64>], out_of: f64) -> Option<Totals> {
    let mut all: Vec<f64> = rows.iter().map(|row| row.iter().sum()).collect();
    all.sort_by(f64::total_cmp);
    let (least, greatest) = (*all.first()?, *all.last()?);
    let half = all.len() / 2;
    let median = if all.len() % 2 == 1 { all[half] } else { 0.5 * (all[half - 1] + all[half]) };
    Some(Totals {
        students: all.len(),
        out_of,
        mean: mean(&all)?,
        deviation: variance(&all)?.sqrt(),
        least,
        median,
        greatest,
        stretches: stretches(&all, out_of),
    })
}
