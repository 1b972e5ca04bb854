//! `glueline figures`: the drawings of a lesson, as files.

use crate::arguments::{Figures, Form};
use crate::failure::Failure;
use crate::output::{Existing, write};
use crate::source;
use figure::drawing::Drawing;
use std::path::PathBuf;
use workings::elastic::ElasticTruth;
use workings::reading::nearest;
use workings::solved::Solved;

/// Writes the drawings asked for.
///
/// # Errors
/// Where the lesson has mistakes, a name fits no drawing, or a file is in the way.
pub fn run(job: &Figures) -> Result<(), Failure> {
    let (lesson, solved) = source::solved(&job.lesson)?;
    let all = all(&solved);
    let names: Vec<&str> = all.iter().map(|drawing| drawing.name.as_str()).collect();
    if let Some(unknown) = job.only.iter().find(|name| !names.contains(&name.as_str())) {
        let near = nearest(unknown, names.iter().copied());
        let near = near.map_or_else(String::new, |near| format!("did you mean {near}? or "));
        return Err(Failure::Asked(format!(
            "this lesson has no drawing {unknown:?}\n  to mend it: {near}choose from {}",
            names.join(", ")
        )));
    }
    let folder =
        job.out.clone().unwrap_or_else(|| PathBuf::from(format!("{}-figures", source::stem(&job.lesson))));
    let existing = if job.replace { Existing::Replace } else { Existing::Keep };
    let chosen = all.iter().enumerate().filter(|(_, d)| job.only.is_empty() || job.only.contains(&d.name));
    for (place, drawing) in chosen {
        for &form in &job.forms {
            let path = folder.join(format!("{:02}-{}.{}", place + 1, drawing.name, ending(form)));
            let content = content(drawing, form, &lesson.about.language)?;
            let outcome = write(&path, &content, existing)?;
            anstream::println!("{} {}", outcome.word(), path.display());
        }
    }
    Ok(())
}

/// All drawings; those that are none of a board's are the last: fasteners and limits, and the elastic solution.
pub fn all(solved: &Solved) -> Vec<Drawing> {
    let mut all = figure::all(solved);
    all.extend(figure::carrying::carrying(solved));
    all.extend(ElasticTruth::of(solved).ok().and_then(|truth| figure::elastic::elastic(solved, &truth)));
    all
}

fn ending(form: Form) -> &'static str {
    match form {
        Form::Svg => "svg",
        Form::Png => "png",
        Form::Pdf => "pdf",
    }
}

/// Dots for each unit of a drawing's PNG: sharp on a page and on a projector.
#[cfg(feature = "pdf")]
const SHARP: f64 = 3.0;

/// The bytes of a drawing's file.
///
/// # Errors
/// [`Failure::Ours`] where the typesetter complains.
#[cfg(feature = "pdf")]
pub fn content(drawing: &Drawing, form: Form, language: &str) -> Result<Vec<u8>, Failure> {
    match form {
        Form::Svg => Ok(drawing.svg().into_bytes()),
        Form::Png => {
            document::pdf::drawing_png(drawing, SHARP).map_err(|error| Failure::Ours(error.to_string()))
        }
        Form::Pdf => {
            document::pdf::drawing_pdf(drawing, language).map_err(|error| Failure::Ours(error.to_string()))
        }
    }
}

/// The bytes of a drawing's file; this build makes SVG only.
///
/// # Errors
/// [`Failure::Asked`] for any other form.
#[cfg(not(feature = "pdf"))]
pub fn content(drawing: &Drawing, form: Form, _: &str) -> Result<Vec<u8>, Failure> {
    match form {
        Form::Svg => Ok(drawing.svg().into_bytes()),
        Form::Png | Form::Pdf => Err(crate::written::without_typesetter()),
    }
}
