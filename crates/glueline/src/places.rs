//! Places asked for on the command line, read as the lesson file would read them.

use lesson::Lesson;
use lesson::edit::{Manuscript, NewValue};
use workings::dimension::Dimension;
use workings::reading::{self, Names};

/// A station in m from text such as `1.2 m` or `L / 2`.
///
/// # Errors
/// What is wrong with the text, and what would be right.
pub fn station(lesson: &Lesson, text: &str) -> Result<f64, String> {
    let names: Names = lesson.values.iter().map(|value| (value.name.clone(), value.quantity)).collect();
    let quantity = reading::read(text, Dimension::LENGTH, "1.2 m", &names).map_err(|faults| {
        let words: Vec<String> =
            faults.iter().map(|fault| format!("{}: {}", fault.what, fault.mend)).collect();
        words.join("; ")
    })?;
    let length = lesson.problem.beam.length;
    if (0.0..=length).contains(&quantity.value) {
        return Ok(quantity.value);
    }
    let style = &lesson.style;
    let along = |value| {
        style.given_text(
            workings::quantity::Quantity::new(value, Dimension::LENGTH),
            workings::role::Role::Station,
        )
    };
    Err(format!("{} lies off the beam: give a station from 0 to {}", along(quantity.value), along(length)))
}

/// The height of a cut in m, from whatever the lesson file takes for `cut.at`: the lesson is read again with it.
///
/// # Errors
/// What is wrong with the text, and what would be right.
pub fn cut_height(source: &str, text: &str) -> Result<f64, String> {
    let mut manuscript = Manuscript::new(source);
    manuscript.set("cut.at", NewValue::Text(text)).map_err(|fault| fault.to_string())?;
    let reading = lesson::read(manuscript.text(), "the lesson");
    match reading.lesson {
        Some(lesson) => Ok(lesson.problem.cut.height),
        None => {
            let words: Vec<String> = reading
                .findings
                .iter()
                .map(|finding| match &finding.mend {
                    Some(mend) => format!("{}: {mend}", finding.headline),
                    None => finding.headline.clone(),
                })
                .collect();
            Err(words.join("; "))
        }
    }
}
