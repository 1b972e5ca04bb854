//! Items that do not work, and why.

use super::item::ItemFigures;
use serde::Serialize;

/// Something amiss with an item.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Flag {
    /// What sort of thing.
    pub kind: FlagKind,
    /// The same in words, with the figures that say so; no full stop.
    pub words: String,
}

/// What may be amiss with an item.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum FlagKind {
    /// Nobody or nearly nobody has it right.
    Hard,
    /// Everybody or nearly everybody has it right.
    Easy,
    /// All have the same mark.
    SaysNothing,
    /// Those who do well in the rest do worse here.
    AgainstTheRest,
    /// It hardly parts those who do well from those who do not.
    HardlyParts,
    /// Many left it blank.
    Blank,
    /// The test would be more reliable without it.
    LowersReliability,
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
    let mut flag = |kind, words: String| flags.push(Flag { kind, words });
    if item.not_marked > 0 {
        flag(
            FlagKind::NotMarked,
            format!("{} answers are not marked yet, so these figures will change", item.not_marked),
        );
    }
    let n = item.students;
    let Some(p) = item.facility else { return flags };
    let within = item.facility_interval.map_or_else(String::new, |interval| {
        format!(" (95 % interval {} to {} %)", percent(interval.lower), percent(interval.upper))
    });
    if p < HARD {
        flag(
            FlagKind::Hard,
            format!(
                "the class earned {} % of its marks{within}: too hard, not taught, or the key is wrong",
                percent(p)
            ),
        );
    } else if p > EASY {
        flag(
            FlagKind::Easy,
            format!(
                "the class earned {} % of its marks{within}: it tells hardly anything about who knows more",
                percent(p)
            ),
        );
    }
    let blank = item.blank as f64 / n.max(1) as f64;
    if blank >= MANY_BLANK {
        flag(
            FlagKind::Blank,
            format!("{} of {n} left it blank: not understood, or no time was left", item.blank),
        );
    }
    let same = n > 1 && (item.full == n || item.nothing == n);
    if same {
        flag(FlagKind::SaysNothing, format!("all {n} students have the same mark"));
        return flags;
    }
    let d = item.discrimination.map(|found| found.d);
    let r = item.with_rest;
    if let Some(r) = r.filter(|found| found.r < 0.0) {
        let sure = match r.interval {
            Some(interval) if interval.upper < 0.0 => "",
            _ => "; in a class of this size it may be chance",
        };
        let words = format!(
            "who did well in the rest did worse here (r = {:.2}): look at the key and at the wording{sure}",
            r.r
        );
        flag(FlagKind::AgainstTheRest, words);
    } else if let Some(d) = d.filter(|d| *d < POOR) {
        let words = format!(
            "the best of the class earned hardly more here than the last (D = {d:.2}, below {POOR:.2} is poor)"
        );
        flag(FlagKind::HardlyParts, words);
    }
    if let (Some(with), Some(without)) = (alpha, item.alpha_without)
        && without > with + RISES
    {
        flag(
            FlagKind::LowersReliability,
            format!("without it the test would be more reliable (alpha {without:.2} for {with:.2})"),
        );
    }
    flags
}

/// A share as a whole percentage.
fn percent(share: f64) -> String {
    format!("{:.0}", 100.0 * share)
}
