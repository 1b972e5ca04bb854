//! How far the total of a class can be relied on.

use super::sums::{constant, mean, variance};
use serde::Serialize;

/// How far totals can be relied on.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Reliability {
    /// Cronbach's alpha, k/(k-1) (1 - sum s_j² / s_X²). At least 0.7 is usual for a test of a class (Ebel and Frisbie 1991, from
    /// memory); below zero where the items contradict each other.
    pub alpha: f64,
    /// Kuder and Richardson's formula 20; only where every item earns either nothing or one mark.
    pub kr_20: Option<f64>,
    /// The standard error of measurement, s_X sqrt(1 - alpha), in marks; s_X over N.
    pub error: f64,
}

/// Of marks, a row for each student; none where fewer than two items or no two totals differ.
///
/// Source: Cronbach, Psychometrika 16 (1951) 297; Kuder and Richardson, Psychometrika 2 (1937) 151, formula 20.
pub(super) fn reliability(rows: &[Vec<f64>]) -> Option<Reliability> {
    let alpha = alpha(rows, None)?;
    let totals: Vec<f64> = rows.iter().map(|row| row.iter().sum()).collect();
    let of_totals = variance(&totals)?;
    Some(Reliability {
        alpha,
        kr_20: kr_20(rows, of_totals),
        error: (of_totals * (1.0 - alpha)).max(0.0).sqrt(),
    })
}

/// Cronbach's alpha of the items but one.
pub(super) fn alpha(rows: &[Vec<f64>], without: Option<usize>) -> Option<f64> {
    let items: Vec<usize> =
        (0..rows.first().map_or(0, Vec::len)).filter(|&item| Some(item) != without).collect();
    let k = items.len() as f64;
    let totals: Vec<f64> = rows.iter().map(|row| items.iter().map(|&item| row[item]).sum()).collect();
    if items.len() < 2 || constant(&totals) {
        return None;
    }
    let mut of_items = 0.0;
    for &item in &items {
        of_items += variance(&rows.iter().map(|row| row[item]).collect::<Vec<_>>())?;
    }
    Some(k / (k - 1.0) * (1.0 - of_items / variance(&totals)?))
}

fn kr_20(rows: &[Vec<f64>], of_totals: f64) -> Option<f64> {
    if !rows.iter().flatten().all(|&marks| marks == 0.0 || marks == 1.0) {
        return None;
    }
    let k = rows.first()?.len();
    let mut sum = 0.0;
    for item in 0..k {
        let p = mean(&rows.iter().map(|row| row[item]).collect::<Vec<_>>())?;
        sum += p * (1.0 - p);
    }
    let k = k as f64;
    Some(k / (k - 1.0) * (1.0 - sum / of_totals))
}
