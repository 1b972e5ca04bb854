//! A label: a sequence of runs, italic for symbols and upright for numbers and units, with its measured box.

use crate::geometry::{Point, Rect};
use crate::metrics;

/// Size of the text of a drawing, px.
pub const SIZE: f64 = 13.0;
/// Size of remarks and of crowded text, px.
pub const SMALL: f64 = 11.0;
/// Size of an index or an exponent, of the size of its line.
pub const INDEX_SIZE: f64 = 0.72;
/// How far an index stands below its line, em of the line.
pub const INDEX_DROP: f64 = 0.18;
/// How far an exponent stands above its line, em of the line.
pub const EXPONENT_RISE: f64 = 0.36;

/// Where a run stands on its line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Level {
    /// On the line.
    Base,
    /// Below it, small: an index.
    Index,
    /// Above it, small: an exponent.
    Exponent,
}

/// A stretch of text of one face.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Run {
    /// The text.
    pub text: String,
    /// Whether it is italic (a symbol) or upright (words, numbers, units, primes).
    pub italic: bool,
    /// Where it stands.
    pub level: Level,
}

/// A line of text made of runs.
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash)]
pub struct Label {
    /// The runs in reading order.
    pub runs: Vec<Run>,
}

impl Label {
    /// An empty label, to be added to.
    pub fn new() -> Self {
        Self::default()
    }

    /// Words, numbers, units: upright.
    pub fn words(text: impl Into<String>) -> Self {
        Self::new().and_words(text)
    }

    /// A symbol: italic.
    pub fn symbol(text: impl Into<String>) -> Self {
        Self::new().and_symbol(text)
    }

    fn and(mut self, text: String, italic: bool, level: Level) -> Self {
        if !text.is_empty() {
            self.runs.push(Run { text, italic, level });
        }
        self
    }

    /// Adds upright text.
    pub fn and_words(self, text: impl Into<String>) -> Self {
        self.and(text.into(), false, Level::Base)
    }

    /// Adds an italic symbol.
    pub fn and_symbol(self, text: impl Into<String>) -> Self {
        self.and(text.into(), true, Level::Base)
    }

    /// Adds an index: upright when it is a word or a number, italic when it is itself a symbol.
    pub fn and_index(self, text: impl Into<String>, italic: bool) -> Self {
        self.and(text.into(), italic, Level::Index)
    }

    /// Adds an exponent.
    pub fn and_exponent(self, text: impl Into<String>) -> Self {
        self.and(text.into(), false, Level::Exponent)
    }

    /// Adds a prime (U+2032), upright.
    pub fn and_prime(self) -> Self {
        self.and_words("\u{2032}")
    }

    /// Adds ` = ` and what follows.
    pub fn equals(self, other: Label) -> Self {
        self.and_words("\u{a0}=\u{a0}").followed_by(other)
    }

    /// Adds another label's runs.
    pub fn followed_by(mut self, other: Label) -> Self {
        self.runs.extend(other.runs);
        self
    }

    /// Its words: the stretches between the spaces of its upright text, spaces that do not break apart.
    pub fn broken_into_words(&self) -> Vec<Label> {
        let mut words = vec![Label::new()];
        for run in &self.runs {
            for (place, part) in run.text.split(' ').enumerate() {
                if place > 0 {
                    words.push(Label::new());
                }
                if let Some(word) = words.last_mut()
                    && !part.is_empty()
                {
                    word.runs.push(Run { text: part.to_owned(), italic: run.italic, level: run.level });
                }
            }
        }
        words.retain(|word| !word.is_empty());
        words
    }

    /// Whether there is nothing to print.
    pub fn is_empty(&self) -> bool {
        self.runs.is_empty()
    }

    /// The text without faces and levels, as a test or a search reads it.
    pub fn plain(&self) -> String {
        self.runs.iter().map(|run| run.text.as_str()).collect()
    }

    /// The width of the label at a size, px.
    pub fn width(&self, size: f64) -> f64 {
        self.runs
            .iter()
            .map(|run| {
                let em = if run.level == Level::Base { size } else { size * INDEX_SIZE };
                run.text.chars().map(|sign| metrics::advance(sign, run.italic)).sum::<f64>() * em
            })
            .sum()
    }

    /// The box of the label at a size, with its baseline at `at`.
    pub fn rect(&self, at: Point, align: Align, size: f64) -> Rect {
        let width = self.width(size);
        let left = match align {
            Align::Start => at.x,
            Align::Middle => at.x - width / 2.0,
            Align::End => at.x - width,
        };
        let (mut above, mut below) = (metrics::ASCENT * size, metrics::DESCENT * size);
        for run in &self.runs {
            match run.level {
                Level::Base => {}
                Level::Index => {
                    below = below.max((INDEX_DROP + metrics::DESCENT * INDEX_SIZE) * size);
                }
                Level::Exponent => {
                    above = above.max((EXPONENT_RISE + metrics::ASCENT * INDEX_SIZE) * size);
                }
            }
        }
        Rect { left, top: at.y - above, right: left + width, bottom: at.y + below }
    }
}

/// Which point of a line of text is put at its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Align {
    /// Its beginning.
    Start,
    /// Its middle.
    Middle,
    /// Its end.
    End,
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Closed form: the width is the sum of the table's widths, an index at its own size.
    #[test]
    fn a_label_is_as_wide_as_its_runs() {
        let label = Label::symbol("R").and_index("A", false).equals(Label::words("12\u{a0}kN"));
        let base = metrics::advance('R', true)
            + "\u{a0}=\u{a0}12\u{a0}kN".chars().map(|sign| metrics::advance(sign, false)).sum::<f64>();
        let expected = 13.0 * base + 13.0 * INDEX_SIZE * metrics::advance('A', false);
        assert!((label.width(13.0) - expected).abs() < 1e-12);
        let words: Vec<String> = Label::words("all of ")
            .followed_by(label.clone())
            .broken_into_words()
            .iter()
            .map(Label::plain)
            .collect();
        assert_eq!(words, ["all", "of", "RA\u{a0}=\u{a0}12\u{a0}kN"]);
        assert_eq!(label.plain(), "RA\u{a0}=\u{a0}12\u{a0}kN");
    }
}
