//! What the walls of an outline are called: webs and flanges, by their place.

use super::strip::{Strip, mean};
use crate::section::Point;
use core::cmp::Ordering;

/// Places that differ by less than this part of the section's size are one.
const SAME_PLACE: f64 = 1e-3;

/// Names strips in the words of the trade: what runs more across than up is a flange, all else a web, and the two walls of an
/// angle are its legs. No two are called alike.
pub(super) fn named(mut strips: Vec<Strip>, angle: bool) -> Vec<Strip> {
    let size = strips.iter().map(|strip| strip.line.length()).fold(0.0, f64::max);
    let near = SAME_PLACE * size;
    let middle = |strip: &Strip| mean(strip.end(0), strip.end(1));
    // Level ones first, from below; then the others, from the left.
    let rank = |value: f64| (value / near).round();
    strips.sort_by(|a, b| {
        let (one, other) = (middle(a), middle(b));
        let by_height = rank(one.y).total_cmp(&rank(other.y));
        let by_place = rank(one.x).total_cmp(&rank(other.x));
        let place = if a.is_level() && !angle { by_height.then(by_place) } else { by_place.then(by_height) };
        let kind = if angle { Ordering::Equal } else { b.is_level().cmp(&a.is_level()) };
        kind.then(place)
    });
    let flanges = ("flange", ["bottom", "middle", "top"], Some(true));
    let webs = |noun, level| (noun, ["lower", "middle", "upper"], level);
    let kinds = if angle { vec![webs("leg", None)] } else { vec![flanges, webs("web", Some(false))] };
    for (noun, up, level) in kinds {
        let is_it = |k: &usize| level.is_none_or(|level| strips[*k].is_level() == level);
        let of_kind: Vec<usize> = (0..strips.len()).filter(is_it).collect();
        let places: Vec<Point> = of_kind.iter().map(|&k| middle(&strips[k])).collect();
        for (k, name) in of_kind.into_iter().zip(names(&places, noun, (up, level == Some(true)), near)) {
            strips[k].name = name;
        }
    }
    strips
}

/// Names for walls of one kind by the places of their middles: flanges by height alone and webs by place across alone if that tells
/// them apart, else by both, else by number.
fn names(
    places: &[Point],
    noun: &str,
    (up, height_first): ([&'static str; 3], bool),
    near: f64,
) -> Vec<String> {
    let heights = words(&places.iter().map(|at| at.y).collect::<Vec<_>>(), up, near);
    let across = words(&places.iter().map(|at| at.x).collect::<Vec<_>>(), ["left", "middle", "right"], near);
    let alone = |words: &[&str]| words.iter().map(|word| spaced(&[word, noun])).collect::<Vec<_>>();
    let told = |word: &'static str, beside: &str| match (word, beside) {
        ("middle", "middle" | "") => "middle",
        ("middle", _) => "",
        (word, _) => word,
    };
    let both = heights.iter().zip(&across).map(|(&height, &across)| match (height, across) {
        ("middle", "middle") => spaced(&["middle", noun]),
        _ => spaced(&[told(height, across), told(across, height), noun]),
    });
    let ways = [alone(if height_first { &heights } else { &across }), both.collect()];
    ways.into_iter()
        .find(|names| (1..names.len()).all(|k| !names[..k].contains(&names[k])))
        .unwrap_or_else(|| (1..=places.len()).map(|k| format!("{noun} {k}")).collect())
}

/// A word for each place: none where all stand at one, the first and the last of three words for two, all three for three; for
/// more, by the half in which they stand.
fn words(places: &[f64], [low, middle, high]: [&'static str; 3], near: f64) -> Vec<&'static str> {
    let mut levels = places.to_vec();
    levels.sort_by(f64::total_cmp);
    levels.dedup_by(|a, b| (*a - *b).abs() <= near);
    let (first, last) = (levels.first().copied().unwrap_or(0.0), levels.last().copied().unwrap_or(0.0));
    let centre = 0.5 * (first + last);
    let word = |place: &f64| match levels.len() {
        1 => "",
        2 | 3 if (place - first).abs() <= near => low,
        2 | 3 if (place - last).abs() <= near => high,
        3 => middle,
        _ if (place - centre).abs() <= near => middle,
        _ if *place < centre => low,
        _ => high,
    };
    places.iter().map(word).collect()
}

fn spaced(words: &[&str]) -> String {
    words.iter().filter(|word| !word.is_empty()).copied().collect::<Vec<_>>().join(" ")
}
