//! The keys of the lesson file, said once: reading, the JSON Schema and the reference page all use this table.
//!
//! A path is written as it would be read in the file: `beam.length`; `[]` stands for each entry of a list
//! (`beam.loads[].force`), `*` for a name of the lecturer's own (`values.*`).

mod beam;
mod head;
mod lecture;
mod marking;
mod mistake;
mod other_words;
mod section;
mod shape;
mod variant;

pub(crate) use other_words::{choice_meant, key_meant, turns_signs};
pub use shape::{SHAPES, Shape};
pub(crate) use variant::EXCHANGED;

use crate::reading::words::listed;
use std::borrow::Cow;
use std::collections::HashMap;
use std::sync::LazyLock;
use workings::dimension::Dimension;

/// One key of the format.
#[derive(Clone, Debug, PartialEq)]
pub struct Key {
    /// Where it stands: `beam.loads[].force`.
    pub path: Cow<'static, str>,
    /// What may be written for it.
    pub form: Form,
    /// Whether it must be there.
    pub need: Need,
    /// One sentence: what it means.
    pub says: Cow<'static, str>,
    /// A value as it would be written in a file; empty for tables.
    pub example: Cow<'static, str>,
}

/// What may be written for a key.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Form {
    /// Plain text.
    Text,
    /// Text in Markdown.
    Markdown,
    /// `true` or `false`.
    YesNo,
    /// A whole number within bounds, both included.
    Count {
        /// The least.
        least: u32,
        /// The greatest.
        most: u32,
    },
    /// A whole number within bounds, both included, or one word in its place.
    Figures {
        /// The least.
        least: u32,
        /// The greatest.
        most: u32,
        /// The word.
        word: &'static str,
    },
    /// A plain number greater than zero.
    Number,
    /// A plain number from zero to a bound, both included.
    Share {
        /// The bound.
        most: f64,
    },
    /// A quantity with its unit, or an expression of named values.
    Quantity {
        /// Its dimension.
        dimension: Dimension,
        /// Which values are possible.
        sign: Sign,
    },
    /// A density, or a weight per volume in its place.
    Density,
    /// A quantity of any dimension, or an expression of named values.
    AnyQuantity,
    /// A quantity that says what may be written in place of a named value: text of any dimension, or a list of such.
    Variation,
    /// One of these words.
    Choice(&'static [&'static str]),
    /// Two lengths: to the right, and up.
    Point,
    /// A list of lengths.
    Lengths,
    /// A list of names.
    Names,
    /// A list of conditions: a working compared with a quantity, or one of a few in words.
    Conditions,
    /// A table with keys of its own.
    Table,
    /// A list of tables.
    List,
}

/// Which values a quantity may take.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sign {
    /// Any.
    Any,
    /// Greater than zero.
    Positive,
    /// Zero or greater.
    NotNegative,
}

/// Whether a key must be there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Need {
    /// It must.
    Required,
    /// It need not; what holds without it, in words that follow "without it:". Empty where nothing is to be said.
    Optional(&'static str),
    /// Whether it must depends on its neighbours; in words.
    Depends(&'static str),
}

impl Form {
    /// A length greater than zero.
    pub(crate) const SIZE: Form = Form::Quantity { dimension: Dimension::LENGTH, sign: Sign::Positive };
    /// A length of any sign: a position.
    pub(crate) const POSITION: Form = Form::Quantity { dimension: Dimension::LENGTH, sign: Sign::Any };

    /// What may be written, in words that follow "wants".
    pub fn in_words(self) -> String {
        let quoted = |words: &[&str]| words.iter().map(|word| format!("\"{word}\"")).collect::<Vec<_>>();
        match self {
            Form::Text => "text in quotes".to_owned(),
            Form::Markdown => {
                "text in quotes, or in three quotes where it runs over several lines".to_owned()
            }
            Form::YesNo => "true or false, without quotes".to_owned(),
            Form::Count { least, most } => format!("a whole number from {least} to {most}"),
            Form::Figures { least, most, word } => {
                format!("a whole number from {least} to {most}, or \"{word}\"")
            }
            Form::Number => "a number greater than zero, up to a million".to_owned(),
            Form::Share { most } => format!("a number from 0 to {most}"),
            Form::Quantity { dimension, .. } => format!("{} with its unit in quotes", dimension.in_words()),
            Form::Density => "a density with its unit in quotes".to_owned(),
            Form::AnyQuantity => "a quantity with its unit in quotes".to_owned(),
            Form::Variation => "a list of choices, or from, to and step".to_owned(),
            Form::Choice(words) => listed(&quoted(words), "or"),
            Form::Point => "two lengths in brackets, to the right and up".to_owned(),
            Form::Lengths => "a list of lengths in brackets".to_owned(),
            Form::Names => "a list of names in brackets".to_owned(),
            Form::Conditions => "a list of conditions in quotes, in brackets".to_owned(),
            Form::Table => "keys of its own".to_owned(),
            Form::List => "a list".to_owned(),
        }
    }

    /// A quantity of this dimension and any sign.
    pub(crate) const fn any(dimension: Dimension) -> Form {
        Form::Quantity { dimension, sign: Sign::Any }
    }

    /// A quantity of this dimension, greater than zero.
    pub(crate) const fn positive(dimension: Dimension) -> Form {
        Form::Quantity { dimension, sign: Sign::Positive }
    }
}

impl Key {
    pub(crate) const fn new(
        path: &'static str,
        form: Form,
        need: Need,
        says: &'static str,
        example: &'static str,
    ) -> Key {
        Key {
            path: Cow::Borrowed(path),
            form,
            need,
            says: Cow::Borrowed(says),
            example: Cow::Borrowed(example),
        }
    }

    /// The last word of the path: `force` of `beam.loads[].force`.
    pub fn word(&self) -> &str {
        let word = self.path.rsplit('.').next().unwrap_or(&self.path);
        word.trim_end_matches("[]")
    }

    /// The path at which the lesson itself has what a variant gives at this one; of any other key its own path.
    pub(crate) fn place_in_lesson(&self) -> &str {
        in_lesson(&self.path)
    }

    /// The path of the table that holds it; empty for a key at the top of the file.
    pub fn parent(&self) -> &str {
        self.path.rsplit_once('.').map_or("", |(parent, _)| parent)
    }
}

/// The path at which the lesson itself has what a variant gives at a path; of any other path itself.
pub(crate) fn in_lesson(path: &str) -> &str {
    path.strip_prefix("variant[].").unwrap_or(path)
}

/// All keys, in the order in which the reference page gives them.
pub fn all() -> &'static [Key] {
    static ALL: LazyLock<Vec<Key>> = LazyLock::new(|| {
        let mut keys = Vec::new();
        keys.extend_from_slice(head::KEYS);
        keys.extend_from_slice(beam::KEYS);
        keys.extend(section::keys());
        keys.extend(lecture::keys());
        keys.extend(marking::keys());
        keys.extend_from_slice(mistake::KEYS);
        keys.extend(variant::keys(&keys));
        keys
    });
    &ALL
}

/// The key at a path, such as `beam.loads[].force`.
pub fn at(path: &str) -> Option<&'static Key> {
    static BY_PATH: LazyLock<HashMap<&'static str, &'static Key>> =
        LazyLock::new(|| all().iter().map(|key| (key.path.as_ref(), key)).collect());
    BY_PATH.get(path).copied()
}

/// The keys of a table, in order; of the top of the file for an empty path.
pub fn within(parent: &str) -> &'static [&'static Key] {
    static BY_PARENT: LazyLock<HashMap<&'static str, Vec<&'static Key>>> = LazyLock::new(|| {
        let mut by_parent: HashMap<&'static str, Vec<&'static Key>> = HashMap::new();
        for key in all() {
            by_parent.entry(key.parent()).or_default().push(key);
        }
        by_parent
    });
    BY_PARENT.get(parent).map_or(&[], Vec::as_slice)
}
