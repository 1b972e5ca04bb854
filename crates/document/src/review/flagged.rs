//! What is amiss with a question, in words.

use super::numbers::{fixed, percent, whole_percent};
use assessment::review::{Flag, ItemFigures};
use workings::style::Style;

/// What a flag of an item says, with the figures that say so; no full stop.
pub(super) fn in_words(flag: Flag, item: &ItemFigures, style: &Style) -> String {
    let two = |value: f64| fixed(value, 2, style);
    let earned = || {
        let within = item.facility_interval.map_or_else(String::new, |interval| {
            format!(" (95 % interval {} to {})", whole_percent(interval.lower), percent(interval.upper))
        });
        format!("the class earned {} of its marks{within}", percent(item.facility.unwrap_or_default()))
    };
    let all = item.students;
    match flag {
        Flag::Hard => format!("{}: too hard, not taught, or the key is wrong", earned()),
        Flag::Easy => format!("{}: it tells hardly anything about who knows more", earned()),
        Flag::SaysNothing => format!("all {all} students have the same mark"),
        Flag::AgainstTheRest => {
            let figures = item.with_rest.map_or_else(String::new, |found| {
                let interval = found.interval.map_or_else(String::new, |interval| {
                    format!(", 95 % interval {} to {}", two(interval.lower), two(interval.upper))
                });
                format!(" (r = {}{interval})", two(found.r))
            });
            format!("who did well in the rest did worse here{figures}: look at the key and at the wording")
        }
        Flag::HardlyParts => {
            let d = item.discrimination.map_or_else(String::new, |found| format!(" (D = {})", two(found.d)));
            format!(
                "the best of the class earned hardly more here than the last{d}; below {} is poor",
                fixed(0.2, 1, style)
            )
        }
        Flag::Blank => format!("{} of {all} left it blank: not understood, or no time was left", item.blank),
        Flag::LowersReliability { alpha, without } => {
            format!("without it the test would be more reliable (alpha {} for {})", two(without), two(alpha))
        }
        Flag::NotMarked => match item.not_marked {
            1 => "1 answer is not marked yet, so these figures will change".to_owned(),
            more => format!("{more} answers are not marked yet, so these figures will change"),
        },
    }
}
