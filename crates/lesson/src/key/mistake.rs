//! A lecturer's own mistakes.

use super::{Form, Key, Need};

pub(super) const KEYS: &[Key] = &[
    Key::new(
        "mistake",
        Form::List,
        Need::Optional("the usual mistakes of the unit alone"),
        "A mistake of your own students, beside the usual ones: its value is known again wherever theirs are.",
        "",
    ),
    Key::new(
        "mistake[].name",
        Form::Text,
        Need::Required,
        "What it is called in lists of marks and in the review; no usual mistake has this name.",
        r#""over-the-web""#,
    ),
    Key::new(
        "mistake[].replaces",
        Form::Text,
        Need::Required,
        "The working that is found wrongly, as `glueline values` lists it.",
        r#""shear stress on the cut""#,
    ),
    Key::new(
        "mistake[].formula",
        Form::Text,
        Need::Required,
        "What the student takes for it: a formula of the names of workings, of numbers and of quantities.",
        r#""shear force at the slice / (width at the cut * 150 mm)""#,
    ),
    Key::new(
        "mistake[].does",
        Form::Text,
        Need::Optional("made from the formula"),
        "What the student does, in words that follow on \"the student\".",
        r#""takes the mean over the web""#,
    ),
    Key::new(
        "mistake[].feedback",
        Form::Text,
        Need::Required,
        "What the student is told.",
        r#""That is the mean. The stress varies over the depth.""#,
    ),
];
