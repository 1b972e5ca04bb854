//! Which share of its marks an answer earns.

use super::{Form, Key, Need, Sign};
use std::borrow::Cow;
use workings::dimension::Dimension;

const SHARE: Form = Form::Quantity { dimension: Dimension::NONE, sign: Sign::NotNegative };

/// The shares, by their words: what is said of each, and what holds without it.
const SHARES: [(&str, &str, Need); 7] = [
    (
        "follow-through",
        "What is earned by an answer that is right with the student's own earlier answers.",
        Need::Optional("100 %"),
    ),
    (
        "rounded-early",
        "What is earned where an answer is off because it was rounded too early on the way.",
        Need::Optional("50 %"),
    ),
    ("sign", "What is earned by the right size with the wrong sign.", Need::Optional("50 %")),
    (
        "power-of-ten",
        "What is earned by the right figures with a power of ten lost, or N taken for kN, mm for m.",
        Need::Optional("50 %"),
    ),
    (
        "unit",
        "What is left of the marks where the unit is missing or is that of another kind of quantity; once in a question.",
        Need::Optional("50 %"),
    ),
    (
        "known-mistake",
        "What is earned by an answer to which one known mistake leads. What follows from it later is right.",
        Need::Optional("0 %"),
    ),
    (
        "two-mistakes",
        "What is earned by an answer to which two known mistakes lead, or one and a lost sign or power of ten.",
        Need::Optional("0 %"),
    ),
];

/// The keys under `[marking]`, and the same for one question.
pub(super) fn keys() -> Vec<Key> {
    let mut keys = Vec::new();
    for (path, need, says) in [
        (
            "marking",
            Need::Optional("the usual shares"),
            "Which share of its marks an answer earns that is not quite right.",
        ),
        (
            "question[].marking",
            Need::Optional("as for the whole lesson"),
            "The same for this question alone; what is not given here is as for the whole lesson.",
        ),
    ] {
        keys.push(Key {
            path: Cow::Borrowed(path),
            form: Form::Table,
            need,
            says: says.into(),
            example: "".into(),
        });
        keys.extend(SHARES.map(|(word, says, need)| Key {
            path: Cow::Owned(format!("{path}.{word}")),
            form: SHARE,
            need,
            says: says.into(),
            example: Cow::Borrowed(r#""50 %""#),
        }));
        keys.push(Key {
            path: Cow::Owned(format!("{path}.mistakes")),
            form: Form::Table,
            need: Need::Optional("all as `known-mistake` says"),
            says: "Other shares for single mistakes.".into(),
            example: "".into(),
        });
        keys.push(Key {
            path: Cow::Owned(format!("{path}.mistakes.*")),
            form: SHARE,
            need: Need::Optional(""),
            says:
                "The name of a mistake, such as `q-to-the-cut`, and what an answer to which it leads earns."
                    .into(),
            example: Cow::Borrowed(r#""25 %""#),
        });
    }
    keys
}
