//! Variants: other supports, another section, drawn from paper to paper.

use super::{Form, Key, Need};
use std::borrow::Cow;

/// What a variant may give, by the paths at which the lesson has it: each is exchanged as a whole.
pub(crate) const EXCHANGED: [&str; 6] =
    ["beam.supports", "beam.hinges", "beam.loads", "section", "slice", "cut"];

const OWN: &[Key] = &[
    Key::new(
        "variant",
        Form::List,
        Need::Optional("every paper has the same supports, loads and section"),
        "What else changes from paper to paper. Of all variants of one thing each paper gets one, and what stands in it \
         takes the place of what the lesson says under the same heading.",
        "",
    ),
    Key::new(
        "variant[].of",
        Form::Text,
        Need::Required,
        "What it is a variant of, in your own words: the same words in all variants of that thing.",
        r#""the section""#,
    ),
    Key::new(
        "variant[].name",
        Form::Text,
        Need::Required,
        "What this variant is called. One with nothing but a name stands for the lesson as it is.",
        r#""a T""#,
    ),
    Key::new(
        "variant[].beam",
        Form::Table,
        Need::Optional("as in the lesson"),
        "What this variant changes of the beam.",
        "",
    ),
];

/// The keys of a variant: its own, and those of the lesson that it may give.
pub(super) fn keys(lesson: &[Key]) -> Vec<Key> {
    let mut keys = OWN.to_vec();
    for path in EXCHANGED {
        let below = |key: &&Key| {
            key.path.strip_prefix(path).is_some_and(|rest| rest.is_empty() || rest.starts_with(['.', '[']))
        };
        keys.extend(lesson.iter().filter(below).map(|key| Key {
            path: Cow::Owned(format!("variant[].{}", key.path)),
            need: if key.path == path { Need::Optional("as in the lesson") } else { key.need },
            ..key.clone()
        }));
    }
    keys
}
