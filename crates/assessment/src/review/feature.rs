//! Whether what differs from paper to paper makes an item harder, where each student has numbers of their own.

use super::item::{Correlation, SMALL_CLASS};
use super::matrix::Matrix;
use super::sums::{constant, fisher, pearson};
use serde::Serialize;

/// How an item goes with a feature of the papers.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FeatureFigures {
    /// The label of the item.
    pub label: String,
    /// The correlation of the mark with the feature among students who do equally well in the rest: below zero where the item is
    /// harder the more of the feature its paper has. None in a class below [`SMALL_CLASS`] and where one of the three does not vary
    /// or says the same as another.
    pub correlation: Option<Correlation>,
    /// What to look at, in words; none where the interval contains zero. No full stop. Of twenty items that are sound one is named.
    pub flag: Option<String>,
}

/// Nearer to one than this, two things say the same, and nothing is left to be explained.
const THE_SAME: f64 = 1e-9;

/// All items of a class against a feature, one value for each row of the matrix: how large the numbers are, how much rounding is
/// magnified. The feature is called `name` in words such as "the spread by rounding".
///
/// The partial correlation, which has the sign and the significance of the feature's coefficient when the mark is regressed on the
/// feature and on the rest score. Source: Fisher, Metron 3 (1924) 329, for the interval: as that of a plain correlation with one pair
/// fewer for each variable that is held.
pub fn against(matrix: &Matrix, feature: &[f64], name: &str) -> Vec<FeatureFigures> {
    let entries: Vec<Option<Vec<f64>>> = matrix.rows_marked().collect();
    let kept: Vec<(&Vec<f64>, f64)> = entries
        .iter()
        .zip(feature)
        .filter_map(|(row, feature)| row.as_ref().zip(Some(*feature).filter(|feature| feature.is_finite())))
        .collect();
    let of = |item: usize| {
        let marks: Vec<f64> = kept.iter().map(|(row, _)| row[item]).collect();
        let rest: Vec<f64> = kept.iter().map(|(row, _)| row.iter().sum::<f64>() - row[item]).collect();
        let feature: Vec<f64> = kept.iter().map(|(_, feature)| *feature).collect();
        let large = kept.len() >= SMALL_CLASS;
        let correlation = if large { partial(&marks, &feature, &rest) } else { None };
        FeatureFigures {
            label: matrix.items()[item].label.clone(),
            flag: correlation.and_then(|found| words(&found, name)),
            correlation,
        }
    };
    (0..matrix.items().len()).map(of).collect()
}

/// The correlation of two with a third held.
fn partial(one: &[f64], other: &[f64], held: &[f64]) -> Option<Correlation> {
    let both = pearson(one, other)?;
    if constant(held) {
        return Some(Correlation { r: both, interval: fisher(both, one.len()) });
    }
    let (of_one, of_other) = (pearson(one, held)?, pearson(other, held)?);
    let left = (1.0 - of_one * of_one) * (1.0 - of_other * of_other);
    if left <= THE_SAME {
        return None;
    }
    let r = ((both - of_one * of_other) / left.sqrt()).clamp(-1.0, 1.0);
    Some(Correlation { r, interval: fisher(r, one.len().saturating_sub(1)) })
}

fn words(found: &Correlation, name: &str) -> Option<String> {
    let interval = found.interval.filter(|interval| interval.lower > 0.0 || interval.upper < 0.0)?;
    let way = if found.r < 0.0 { "harder" } else { "easier" };
    Some(format!(
        "among students who do equally well in the rest it is {way} the larger {name} is (r = {:.2}, 95 % interval {:.2} to {:.2})",
        found.r, interval.lower, interval.upper
    ))
}
