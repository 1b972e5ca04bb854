//! Where the beam is sliced and cut, the lecturer's own words, and the questions.

use super::{Form, Key, Need};
use crate::lesson::Scene;
use crate::question::Sketch;
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

/// What may be drawn, as it is written.
const SKETCHES: [&str; 6] = {
    let mut words = [""; 6];
    let mut at = 0;
    while at < words.len() {
        words[at] = Sketch::ALL[at].written();
        at += 1;
    }
    words
};

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
        Need::Depends("a question has this or `sketch`"),
        "The name of the working that is asked for, as `glueline values` lists it.",
        r#""shear stress on the cut""#,
    ),
    Key::new(
        "question[].sketch",
        Form::Choice(&SKETCHES),
        Need::Depends("a question has this or `ask`"),
        "What is to be drawn by hand: along the beam, over the depth at the slice, or the piece that was cut free.",
        r#""bending moment""#,
    ),
    Key::new(
        "question[].text",
        Form::Markdown,
        Need::Optional("made from what is asked"),
        "Your own wording of the question, in Markdown. A named value or a working in braces, such as {P}, is filled in \
         with each paper's own; two opening braces stand for one.",
        r#""How hard does the glue work under {P}?""#,
    ),
    Key::new(
        "question[].marks",
        Form::Number,
        Need::Optional("1"),
        "What a right answer earns, its steps not counted.",
        "2",
    ),
    Key::new(
        "question[].steps",
        Form::Names,
        Need::Optional("the value alone is asked for"),
        "Workings on the way to the value that are asked for before it, in this order.",
        r#"["second moment", "first moment at the cut"]"#,
    ),
    Key::new(
        "question[].step-marks",
        Form::Number,
        Need::Optional("1"),
        "What each right step earns.",
        "0.5",
    ),
    Key::new(
        "question[].place",
        Form::YesNo,
        Need::Optional("false"),
        "Whether it is asked too where the value holds: the station of the largest moment, say.",
        "true",
    ),
    Key::new(
        "question[].choose",
        Form::Count { least: 2, most: 8 },
        Need::Optional("the student finds the value"),
        "From how many values the student is to choose: the right one, and those that known mistakes lead to.",
        "4",
    ),
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
