//! Where the beam is sliced and cut, the lecturer's own words, and the questions.

use super::{Form, Key, Need};
use crate::lesson::Scene;
use std::borrow::Cow;

const PLACES: &[Key] = &[
    Key::new("slice", Form::Table, Need::Required, "The slice that is taken out of the beam.", ""),
    Key::new("slice.at", Form::POSITION, Need::Required, "The position of its left face.", r#""0.75 m""#),
    Key::new("slice.length", Form::SIZE, Need::Required, "Its length dx.", r#""50 mm""#),
    Key::new(
        "cut",
        Form::Table,
        Need::Required,
        "The level cut through the slice; the part beyond it is the A' of the formula.",
        "",
    ),
    Key::new(
        "cut.at",
        Form::Text,
        Need::Required,
        "Where it is cut: the name of a joint, `neutral axis`, a height, a distance such as `15 mm above the neutral \
         axis`, or an edge of a part such as `top of web`.",
        r#""glue line 1""#,
    ),
    Key::new(
        "cut.side",
        Form::Choice(&["below", "above"]),
        Need::Optional("the narrower side, where the stress is larger"),
        "Which width counts where the width jumps at the cut: the one just below or the one just above.",
        r#""below""#,
    ),
    Key::new(
        "cut.keep",
        Form::Choice(&["above", "below"]),
        Need::Optional("the part away from the neutral axis"),
        "Which part is kept as the part beyond the cut.",
        r#""above""#,
    ),
    Key::new(
        "text",
        Form::Table,
        Need::Optional(""),
        "Your own words between the scenes of the lecture, in Markdown.",
        "",
    ),
];

const QUESTIONS: &[Key] = &[
    Key::new(
        "question",
        Form::List,
        Need::Optional("none"),
        "What students are asked for, each entry one question.",
        "",
    ),
    Key::new(
        "question[].ask",
        Form::Text,
        Need::Required,
        "The name of the working that is asked for, as `glueline values` lists it.",
        r#""shear stress on the cut""#,
    ),
    Key::new(
        "question[].text",
        Form::Markdown,
        Need::Optional("made from the name of the working"),
        "Your own wording of the question, in Markdown.",
        r#""How hard does the glue work?""#,
    ),
    Key::new("question[].marks", Form::Number, Need::Optional("1"), "What a right answer earns.", "2"),
];

pub(super) fn keys() -> Vec<Key> {
    let mut keys = PLACES.to_vec();
    for scene in Scene::ALL {
        for (when, says) in [("before", "Stands before"), ("after", "Stands after")] {
            keys.push(Key {
                path: Cow::Owned(format!("text.{when}-{}", scene.word())),
                form: Form::Markdown,
                need: Need::Optional(""),
                says: Cow::Owned(format!("{says} the scene of {}.", scene.in_words())),
                example: Cow::Borrowed(r#""Look at the top plank *alone*.""#),
            });
        }
    }
    keys.extend_from_slice(QUESTIONS);
    keys
}
