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
    /// How many students have a total within each tenth of what there is to earn; a total on a border counts above it, the full
    /// marks in the last tenth.
    pub tenths: [usize; 10],
}

/// A total this much below a border is on it: it was added up from decimals. In tenths.
const SLACK: f64 = 1e-9;

pub(super) fn totals(rows: &[Vec<f64>], out_of: f64) -> Option<Totals> {
    let mut all: Vec<f64> = rows.iter().map(|row| row.iter().sum()).collect();
    all.sort_by(f64::total_cmp);
    let (least, greatest) = (*all.first()?, *all.last()?);
    let half = all.len() / 2;
    let median = if all.len() % 2 == 1 { all[half] } else { 0.5 * (all[half - 1] + all[half]) };
    let mut tenths = [0; 10];
    for total in &all {
        // The cast holds it above zero.
        let tenth = ((10.0 * total / out_of + SLACK) as usize).min(9);
        tenths[tenth] += 1;
    }
    Some(Totals {
        students: all.len(),
        out_of,
        mean: mean(&all)?,
        deviation: variance(&all)?.sqrt(),
        least,
        median,
        greatest,
        tenths,
    })
}
