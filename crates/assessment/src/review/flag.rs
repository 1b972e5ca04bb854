//! Items that do not work, and why.

use super::item::{Correlation, ItemFigures};
use serde::Serialize;

/// What may be amiss with an item. The figures that say so are those of the item.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Flag {
    /// Nobody or nearly nobody has it right.
    Hard,
    /// Everybody or nearly everybody has it right.
    Easy,
    /// All have the same mark.
    SaysNothing,
    /// Those who do well in the rest do worse here, and it is not chance: Fisher's whole interval lies below zero.
    AgainstTheRest,
    /// It hardly parts those who do well from those who do not.
    HardlyParts,
    /// Many left it blank.
    Blank,
    /// The test would be more reliable without it.
    LowersReliability {
        /// Cronbach's alpha of all items.
        alpha: f64,
        /// The same without this one.
        without: f64,
    },
    /// Answers are not marked yet.
    NotMarked,
}

/// Facilities outside of these are looked at again. Source: the unit's notes on assessment, section 6.
const HARD: f64 = 0.2;
const EASY: f64 = 0.9;
/// A discrimination below this is poor. Source: Ebel and Frisbie 1991 (from memory).
const POOR: f64 = 0.2;
/// As many blanks as this are told. Common practice, no source.
const MANY_BLANK: f64 = 0.25;
/// Alpha is to rise by so much before an item is named for it. Common practice, no source.
const RISES: f64 = 0.02;

pub(super) fn flags(item: &ItemFigures, alpha: Option<f64>) -> Vec<Flag> {
    let mut flags = Vec::new();
    if item.not_marked > 0 {
        flags.push(Flag::NotMarked);
    }
    let n = item.students;
    // What nobody answered says nothing of the question: it may not have been taught, or not been given out.
    let Some(p) = item.facility.filter(|_| item.blank < n) else { return flags };
    if p < HARD {
        flags.push(Flag::Hard);
    } else if p > EASY {
        flags.push(Flag::Easy);
    }
    if item.blank as f64 >= MANY_BLANK * n as f64 {
        flags.push(Flag::Blank);
    }
    if n > 1 && (item.full == n || item.nothing == n) {
        flags.push(Flag::SaysNothing);
        return flags;
    }
    let against = |found: Correlation| found.interval.is_some_and(|interval| interval.upper < 0.0);
    if item.with_rest.is_some_and(against) {
        flags.push(Flag::AgainstTheRest);
    } else if item.discrimination.is_some_and(|found| found.d < POOR) {
        flags.push(Flag::HardlyParts);
    }
    if let (Some(alpha), Some(without)) = (alpha, item.alpha_without)
        && without > alpha + RISES
    {
        flags.push(Flag::LowersReliability { alpha, without });
    }
    flags
}
