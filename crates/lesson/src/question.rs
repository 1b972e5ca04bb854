//! What students are asked for, and how it is worded.

use crate::marking::Shares;

/// One question of a paper.
#[derive(Clone, Debug, PartialEq)]
pub struct Question {
    /// What is asked for.
    pub ask: Ask,
    /// The lecturer's own wording as Markdown, with names in braces; see [`pieces`]. Where there is none, the question is
    /// worded from what is asked.
    pub text: Option<String>,
    /// What a right answer earns, the steps before it not counted; greater than zero.
    pub marks: f64,
    /// Which share of them an answer earns that is not quite right.
    pub marking: Shares,
}

/// What is asked for.
#[derive(Clone, Debug, PartialEq)]
pub enum Ask {
    /// The value of a working.
    Value(AskedValue),
    /// A drawing by hand.
    Sketch(Sketch),
}

/// The value of a working, as it is asked for.
#[derive(Clone, Debug, PartialEq)]
pub struct AskedValue {
    /// The name of the working, such as `shear stress on the cut`.
    pub working: String,
    /// Whether the place where it holds is asked for too.
    pub place: bool,
    /// The names of workings on the way to it that are asked for before it, in order.
    pub steps: Vec<String>,
    /// What each step earns; greater than zero.
    pub step_marks: f64,
    /// How many values there are to choose from; `None` where the student finds it without any.
    pub choose: Option<u32>,
}

/// What is drawn by hand.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Sketch {
    /// The shear force along the beam.
    ShearForce,
    /// The bending moment along the beam.
    BendingMoment,
    /// The bending stress over the depth at the slice.
    BendingStress,
    /// The shear stress over the depth at the slice.
    ShearStress,
    /// Where over the depth the shear stress is largest.
    LargestShearStress,
    /// The part beyond the cut, with what acts on it.
    PartBeyond,
}

impl Sketch {
    /// Every one, in the order of the lecture.
    pub const ALL: [Self; 6] = [
        Self::ShearForce,
        Self::BendingMoment,
        Self::BendingStress,
        Self::ShearStress,
        Self::LargestShearStress,
        Self::PartBeyond,
    ];

    /// As it is written in a lesson file.
    pub const fn written(self) -> &'static str {
        match self {
            Self::ShearForce => "shear force",
            Self::BendingMoment => "bending moment",
            Self::BendingStress => "bending stress",
            Self::ShearStress => "shear stress",
            Self::LargestShearStress => "largest shear stress",
            Self::PartBeyond => "part beyond the cut",
        }
    }
}

impl Question {
    /// The value that is asked for; `None` for a sketch.
    pub fn value(&self) -> Option<&AskedValue> {
        match &self.ask {
            Ask::Value(value) => Some(value),
            Ask::Sketch(_) => None,
        }
    }

    /// The names of all workings that are asked for, in the order in which they are: the steps first.
    pub fn workings(&self) -> impl Iterator<Item = &str> {
        let value = self.value().into_iter();
        value.flat_map(|value| value.steps.iter().chain([&value.working])).map(String::as_str)
    }

    /// What the whole question earns.
    pub fn all_marks(&self) -> f64 {
        let steps = self.value().map_or(0.0, |value| value.steps.len() as f64 * value.step_marks);
        self.marks + steps
    }
}

/// A piece of a question's wording.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Piece<'a> {
    /// Words, as they stand.
    Words(&'a str),
    /// A name in braces, without them: the value of a working or a named value is to stand here.
    Name(&'a str),
}

/// Takes a wording apart. A name stands in braces, `{P}` or `{reaction at A}`; two opening braces stand for one that is
/// no more than a brace, and so does one that is not closed on its line.
///
/// ```
/// use lesson::question::{Piece, pieces};
///
/// let all: Vec<Piece> = pieces("With {P} at hand").collect();
/// assert_eq!(all, [Piece::Words("With "), Piece::Name("P"), Piece::Words(" at hand")]);
/// assert_eq!(pieces("a {{ b").collect::<Vec<_>>(), [Piece::Words("a "), Piece::Words("{"), Piece::Words(" b")]);
/// ```
pub fn pieces(text: &str) -> impl Iterator<Item = Piece<'_>> {
    let mut rest = text;
    std::iter::from_fn(move || {
        if rest.is_empty() {
            return None;
        }
        let (piece, after) = first_piece(rest);
        rest = after;
        Some(piece)
    })
}

/// The first piece of a text that is not empty, and what follows.
fn first_piece(text: &str) -> (Piece<'_>, &str) {
    if let Some(after) = text.strip_prefix("{{") {
        return (Piece::Words(&text[..1]), after);
    }
    if let Some(inner) = text.strip_prefix('{')
        && let Some((name, after)) = inner.split_once('}')
        && !name.contains(['{', '\n'])
        && !name.trim().is_empty()
    {
        return (Piece::Name(name.trim()), after);
    }
    // Up to the next brace; one at the beginning that opens no name stands for itself.
    let first = text.chars().next().map_or(0, char::len_utf8);
    let end = text[first..].find('{').map_or(text.len(), |at| first + at);
    (Piece::Words(&text[..end]), &text[end..])
}

#[cfg(test)]
mod tests {
    use super::*;
    use Piece::{Name, Words};

    #[test]
    fn a_brace_that_opens_no_name_stands_for_itself() {
        for (text, expected) in [
            ("{{{P}", vec![Words("{"), Name("P")]),
            ("{", vec![Words("{")]),
            ("{}x", vec![Words("{}x")]),
            ("{a {P}", vec![Words("{a "), Name("P")]),
            ("{a\n}", vec![Words("{a\n}")]),
            ("\u{3b1}{ reaction at A }.", vec![Words("\u{3b1}"), Name("reaction at A"), Words(".")]),
            ("", vec![]),
        ] {
            assert_eq!(pieces(text).collect::<Vec<_>>(), expected, "{text}");
        }
    }
}
