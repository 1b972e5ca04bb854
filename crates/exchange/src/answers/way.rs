//! Words that a student adds to a number: up, in compression, from the left.

use super::asked::Signs;

/// What a word says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Way {
    Up,
    Down,
    Left,
    Right,
    Clockwise,
    CounterClockwise,
    Sagging,
    Hogging,
    Tension,
    Compression,
    FromTheLeft,
    FromTheRight,
    FromTheBottom,
    FromTheTop,
}

const PHRASES: [(&str, Way); 44] = [
    ("up", Way::Up),
    ("upward", Way::Up),
    ("upwards", Way::Up),
    ("↑", Way::Up),
    ("down", Way::Down),
    ("downward", Way::Down),
    ("downwards", Way::Down),
    ("↓", Way::Down),
    ("left", Way::Left),
    ("to left", Way::Left),
    ("←", Way::Left),
    ("right", Way::Right),
    ("to right", Way::Right),
    ("→", Way::Right),
    ("cw", Way::Clockwise),
    ("clockwise", Way::Clockwise),
    ("↻", Way::Clockwise),
    ("ccw", Way::CounterClockwise),
    ("acw", Way::CounterClockwise),
    ("counterclockwise", Way::CounterClockwise),
    ("counter-clockwise", Way::CounterClockwise),
    ("anticlockwise", Way::CounterClockwise),
    ("anti-clockwise", Way::CounterClockwise),
    ("↺", Way::CounterClockwise),
    ("sagging", Way::Sagging),
    ("sag", Way::Sagging),
    ("hogging", Way::Hogging),
    ("hog", Way::Hogging),
    ("tension", Way::Tension),
    ("tensile", Way::Tension),
    ("compression", Way::Compression),
    ("compressive", Way::Compression),
    ("from left", Way::FromTheLeft),
    ("from left end", Way::FromTheLeft),
    ("from right", Way::FromTheRight),
    ("from right end", Way::FromTheRight),
    ("from bottom", Way::FromTheBottom),
    ("from base", Way::FromTheBottom),
    ("from lowest fibre", Way::FromTheBottom),
    ("above base", Way::FromTheBottom),
    ("above bottom", Way::FromTheBottom),
    ("from top", Way::FromTheTop),
    ("below top", Way::FromTheTop),
    ("under top", Way::FromTheTop),
];

/// Words that say nothing by themselves.
const FILLERS: [&str; 5] = ["in", "the", "acting", "direction", "is"];

/// The words of a text without brackets and commas round them, those that say nothing left out.
fn words(text: &str) -> Vec<String> {
    let bare = |word: &str| word.trim_matches(['(', ')', '[', ']', ',', ';', '.']).to_owned();
    let words = text.split(' ').map(bare).filter(|word| !word.is_empty());
    words.filter(|word| !FILLERS.contains(&word.to_lowercase().as_str())).collect()
}

impl Way {
    /// What a text says; brackets and commas round its words do not matter.
    pub fn of(text: &str) -> Option<Self> {
        let words = words(text);
        // Only the capitals: a small t is a tonne, a small c nothing.
        match words.as_slice() {
            [word] if word == "T" => return Some(Self::Tension),
            [word] if word == "C" => return Some(Self::Compression),
            _ => {}
        }
        let told = words.join(" ").to_lowercase();
        PHRASES.iter().find(|(phrase, _)| *phrase == told).map(|(_, way)| *way)
    }

    /// What the longest words of a label say that say anything: `distance from top`. Left and right alone mostly name a support, and T and
    /// C are symbols there.
    pub fn within(label: &str) -> Option<Self> {
        let words: Vec<String> = words(label).iter().map(|word| word.to_lowercase()).collect();
        let pieces = (1..=words.len()).rev().flat_map(|length| words.windows(length));
        let found = pieces
            .map(|piece| piece.join(" "))
            .find_map(|told| PHRASES.iter().find(|(phrase, _)| *phrase == told).map(|(_, way)| *way));
        found.filter(|way| !matches!(way, Self::Left | Self::Right))
    }

    /// Whether it says a positive or a negative number; none where it says nothing of the sign of what was asked.
    pub fn is_positive(self, signs: Signs) -> Option<bool> {
        match (signs, self) {
            (Signs::Upward, Self::Up)
            | (Signs::CounterClockwise, Self::CounterClockwise)
            | (Signs::Sagging, Self::Sagging)
            | (Signs::Tension, Self::Tension)
            | (Signs::FromTheLeft, Self::FromTheLeft)
            | (Signs::FromTheBottom, Self::FromTheBottom) => Some(true),
            (Signs::Upward, Self::Down)
            | (Signs::CounterClockwise, Self::Clockwise)
            | (Signs::Sagging, Self::Hogging)
            | (Signs::Tension, Self::Compression) => Some(false),
            _ => None,
        }
    }
}
