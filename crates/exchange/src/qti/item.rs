//! An item: one question of one paper, with its answers and what each of them earns.

use super::formula::Formula;
use super::identifier::Identifier;
use super::passage::{Line, Passage};

/// One question of one paper.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// Its name; no other item of a package has it.
    pub identifier: Identifier,
    /// Its title.
    pub title: String,
    /// The language of its words, as a BCP 47 tag: `en`.
    pub language: String,
    /// What is given and what is asked.
    pub prompt: Passage,
    /// The drawings under it.
    pub pictures: Vec<Picture>,
    /// What the student answers, in order; at least one.
    pub answers: Vec<Answer>,
}

/// A drawing, as two files and in words.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    /// Its name; no other picture of the item has it.
    pub name: Identifier,
    /// The file that is shown.
    pub png: Vec<u8>,
    /// The same drawing for programs that take it.
    pub svg: String,
    /// What it shows, in a sentence.
    pub alt: String,
    /// All that it shows; stands as text under it. May be empty.
    pub description: Passage,
}

/// What is asked for.
#[derive(Clone, Debug, PartialEq)]
#[expect(clippy::large_enum_variant, reason = "an item has a few answers, and nearly all of them are values")]
pub enum Answer {
    /// A number.
    Value(Value),
    /// One of several.
    Choice(Choice),
}

impl Answer {
    /// Its name; no other answer of the item has it.
    pub fn identifier(&self) -> &Identifier {
        match self {
            Self::Value(value) => &value.identifier,
            Self::Choice(choice) => &choice.identifier,
        }
    }

    /// The most that it earns.
    pub fn most(&self) -> f64 {
        match self {
            Self::Value(value) => value.marks.0,
            Self::Choice(choice) => {
                choice.alternatives.iter().map(|alternative| alternative.marks.0).fold(0.0, f64::max)
            }
        }
    }
}

/// A number that is asked for.
#[derive(Clone, Debug, PartialEq)]
pub struct Value {
    /// Its name.
    pub identifier: Identifier,
    /// What stands before the field: what is asked for, in words or with its symbol.
    pub label: Line,
    /// What the field is called for who cannot see what stands before and behind it: `shear stress on the cut, in megapascals`.
    pub spoken: String,
    /// The unit behind the field; empty for none. To be chosen so that the right value is from 1 to 10 000 in size.
    pub unit: Line,
    /// The right value, in that unit.
    pub right: f64,
    /// What is taken as right.
    pub bounds: Bounds,
    /// What is taken as right besides: the same size with the other sign, another place where it occurs.
    pub also: Vec<Bounds>,
    /// What it earns.
    pub marks: Marks,
    /// What is said of the right value.
    pub feedback: Passage,
    /// What is right after an earlier answer that was not; `None` where nothing follows from earlier answers.
    pub follow_through: Option<FollowThrough>,
    /// Known mistakes, the first that fits is taken.
    pub mistakes: Vec<Mistake>,
    /// What is said of all other values.
    pub otherwise: Passage,
}

/// A value from the lower to the upper bound, in the unit of the answer. A negative value's lower bound is the larger in
/// size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounds {
    lower: f64,
    upper: f64,
}

impl Bounds {
    /// From one to the other; `None` if the first is above the second or one is not finite.
    pub fn new(lower: f64, upper: f64) -> Option<Self> {
        (lower.is_finite() && upper.is_finite() && lower <= upper).then_some(Self { lower, upper })
    }

    /// The lower bound.
    pub fn lower(&self) -> f64 {
        self.lower
    }

    /// The upper bound.
    pub fn upper(&self) -> f64 {
        self.upper
    }

    /// Whether a value lies within, the bounds included.
    pub fn hold(&self, value: f64) -> bool {
        self.lower <= value && value <= self.upper
    }
}

/// What an answer earns.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Marks(pub(super) f64);

impl Marks {
    /// So many; `None` for less than nothing and for what is not finite.
    pub fn new(marks: f64) -> Option<Self> {
        (marks.is_finite() && marks >= 0.0).then_some(Self(marks))
    }
}

/// What is right after an earlier answer that was not.
#[derive(Clone, Debug, PartialEq)]
pub struct FollowThrough {
    /// The value that follows from the student's earlier answers, in the unit of this one.
    pub expected: Formula,
    /// How far from it is taken as right, as a share of it: 0.01 for 1 %.
    pub tolerance: f64,
    /// What it earns.
    pub marks: Marks,
    /// What is said of it.
    pub feedback: Passage,
}

/// A known mistake.
#[derive(Clone, Debug, PartialEq)]
pub struct Mistake {
    /// The values that show it.
    pub bounds: Bounds,
    /// What it earns all the same.
    pub marks: Marks,
    /// What is said of it.
    pub feedback: Passage,
}

/// One of several is asked for.
#[derive(Clone, Debug, PartialEq)]
pub struct Choice {
    /// Its name.
    pub identifier: Identifier,
    /// The question.
    pub question: Line,
    /// What there is to choose from, in this order; at least two, and one that earns something.
    pub alternatives: Vec<Alternative>,
}

/// What there is to choose.
#[derive(Clone, Debug, PartialEq)]
pub struct Alternative {
    /// Its name; no other alternative of the choice has it.
    pub identifier: Identifier,
    /// What it says.
    pub text: Line,
    /// What it earns.
    pub marks: Marks,
    /// What is said of it.
    pub feedback: Passage,
}
