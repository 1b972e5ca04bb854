//! Means, variances, correlations.

use serde::Serialize;

/// The mean; none of nothing.
pub(super) fn mean(values: &[f64]) -> Option<f64> {
    (!values.is_empty()).then(|| values.iter().sum::<f64>() / values.len() as f64)
}

/// The mean square of the deviations from the mean: over N, not N - 1. None of nothing.
pub(super) fn variance(values: &[f64]) -> Option<f64> {
    let middle = mean(values)?;
    mean(&values.iter().map(|value| (value - middle) * (value - middle)).collect::<Vec<_>>())
}

/// Where all deviations are smaller than this part of the largest value, the values are the same but for rounding of their sums.
const SAME: f64 = 1e-12;

/// Whether all values are the same.
pub(super) fn constant(values: &[f64]) -> bool {
    let Some(middle) = mean(values) else { return true };
    let largest = values.iter().fold(0.0_f64, |most, value| most.max(value.abs()));
    values.iter().all(|value| (value - middle).abs() <= SAME * largest)
}

/// Pearson's r; none where one of the two does not vary.
///
/// One root of the product, not two: of a list with itself the root of a square is exact, and r is 1 to the last bit.
pub(super) fn pearson(one: &[f64], other: &[f64]) -> Option<f64> {
    if one.len() != other.len() || constant(one) || constant(other) {
        return None;
    }
    let (mean_one, mean_other) = (mean(one)?, mean(other)?);
    let (mut both, mut square_one, mut square_other) = (0.0, 0.0, 0.0);
    for (a, b) in one.iter().zip(other) {
        let (a, b) = (a - mean_one, b - mean_other);
        both += a * b;
        square_one += a * a;
        square_other += b * b;
    }
    Some((both / (square_one * square_other).sqrt()).clamp(-1.0, 1.0))
}

/// From here to there.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Interval {
    /// The lower end.
    pub lower: f64,
    /// The upper end; not below `lower`.
    pub upper: f64,
}

/// The normal deviate that leaves 2.5 % above it: 95 % lie within as much on both sides. Source: tables of the normal distribution;
/// the digits are those of the nearest float.
const NORMAL_975: f64 = 1.959_963_984_540_054;

/// Wilson's 95 % interval for a proportion p found in n.
///
/// For part marks p is a mean of shares from 0 to 1, whose variance is at most p (1 - p), so that the interval is rather too wide
/// than too narrow.
///
/// Source: Wilson, J. Am. Stat. Assoc. 22 (1927) 209; as Newcombe, Statistics in Medicine 17 (1998) 857, writes it, method 3.
pub fn wilson(p: f64, n: usize) -> Option<Interval> {
    if n == 0 || !(0.0..=1.0).contains(&p) {
        return None;
    }
    let (n, z2) = (n as f64, NORMAL_975 * NORMAL_975);
    let middle = p + z2 / (2.0 * n);
    let half = NORMAL_975 * (p * (1.0 - p) / n + z2 / (4.0 * n * n)).sqrt();
    let scale = 1.0 + z2 / n;
    let held = |bound: f64| (bound / scale).clamp(0.0, 1.0);
    Some(Interval { lower: held(middle - half), upper: held(middle + half) })
}

/// Fisher's 95 % interval for a correlation r found in n pairs; none for fewer than four.
///
/// It supposes that both are about normally distributed, which marks are not: take it for a rough measure.
///
/// Source: Fisher, Metron 1 (1921) 3: artanh r has a standard error of 1 / sqrt(n - 3). With t = tanh d the bounds tanh(artanh r ± d)
/// are (r ± t) / (1 ± r t), written here as r with a share of what is left to each side, so that rounding puts neither bound beyond
/// r or beyond 1.
pub fn fisher(r: f64, n: usize) -> Option<Interval> {
    if n < 4 || !(-1.0..=1.0).contains(&r) {
        return None;
    }
    let t = mechanics::real::tanh(NORMAL_975 / ((n - 3) as f64).sqrt());
    Some(Interval { lower: -towards_one(-r, t), upper: towards_one(r, t) })
}

/// (r + t) / (1 + r t) for r from -1 to 1 and t from 0 to less than 1: r + (1 - r) · t (1 + r) / (1 + r t).
fn towards_one(r: f64, t: f64) -> f64 {
    r + (1.0 - r) * (t * (1.0 + r) / (1.0 + r * t))
}
