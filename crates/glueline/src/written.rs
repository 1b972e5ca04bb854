//! `glueline notes`, `slides` and `schema`: what is written to be read.

use crate::arguments::{Notes, Schema, Sheet, Slides};
use crate::failure::Failure;
use crate::output::{Existing, write};
use crate::source;
use document::tree::{Document, Paper};
use lesson::Lesson;
use std::path::{Path, PathBuf};
use workings::unit_system::UnitSystem;

/// Writes the lecture notes.
///
/// # Errors
/// Where the lesson has mistakes, a file is in the way, or the typesetter complains.
pub fn notes(job: &Notes) -> Result<(), Failure> {
    let (lesson, solved) = source::solved(&job.lesson)?;
    let document = document::notes::notes(&lesson, &solved, sheet(job.paper, &lesson));
    let out = job.out.clone().unwrap_or_else(|| {
        let ending = if job.html { "html" } else { "pdf" };
        PathBuf::from(format!("{}-notes.{ending}", source::stem(&job.lesson)))
    });
    not_the_lesson(&out, &job.lesson)?;
    let content = if job.html { document::html::html(&document).into_bytes() } else { pdf(&document)? };
    put(&out, &content, job.replace)
}

/// Writes the slides.
///
/// # Errors
/// As [`notes`].
pub fn slides(job: &Slides) -> Result<(), Failure> {
    let (lesson, solved) = source::solved(&job.lesson)?;
    let document = document::slides::slides(&lesson, &solved);
    let out =
        job.out.clone().unwrap_or_else(|| PathBuf::from(format!("{}-slides.pdf", source::stem(&job.lesson))));
    not_the_lesson(&out, &job.lesson)?;
    put(&out, &pdf(&document)?, job.replace)
}

/// Prints or writes the schema of the lesson file, or its reference page.
///
/// # Errors
/// Where a file is in the way.
pub fn schema(job: &Schema) -> Result<(), Failure> {
    let text = if job.reference {
        lesson::reference_page()
    } else {
        serde_json::to_string_pretty(&lesson::schema()).map_err(|error| Failure::Ours(error.to_string()))?
            + "\n"
    };
    match &job.out {
        Some(path) => put(path, text.as_bytes(), job.replace),
        None => {
            anstream::print!("{text}");
            Ok(())
        }
    }
}

/// The sheet that is asked for, or the lesson's usual one.
pub fn sheet(asked: Option<Sheet>, lesson: &Lesson) -> Paper {
    match asked {
        Some(Sheet::A4) => Paper::A4,
        Some(Sheet::Letter) => Paper::UsLetter,
        None => paper(lesson),
    }
}

/// The sheet where none is asked for: US letter for a lesson in US units, A4 otherwise.
pub fn paper(lesson: &Lesson) -> Paper {
    match lesson.style.units {
        UnitSystem::KipFoot | UnitSystem::KipInch | UnitSystem::PoundFoot | UnitSystem::PoundInch => {
            Paper::UsLetter
        }
        UnitSystem::Metric
        | UnitSystem::NewtonMillimetre
        | UnitSystem::KilonewtonMetre
        | UnitSystem::KilonewtonCentimetre => Paper::A4,
    }
}

/// Refuses to write what comes out of a lesson over the lesson itself, even where replacing was asked for.
///
/// # Errors
/// Where both are one file.
pub fn not_the_lesson(out: &Path, lesson: &Path) -> Result<(), Failure> {
    match (out.canonicalize(), lesson.canonicalize()) {
        (Ok(one), Ok(other)) if one == other => Err(Failure::Asked(format!(
            "{} is the lesson itself\n  to mend it: give another name with --out",
            out.display()
        ))),
        _ => Ok(()),
    }
}

/// Writes a file, whole or not at all, and says so.
///
/// # Errors
/// Where another content is there and `replace` does not say to replace it.
pub fn put(path: &Path, content: &[u8], replace: bool) -> Result<(), Failure> {
    let existing = if replace { Existing::Replace } else { Existing::Keep };
    let outcome = write(path, content, existing)?;
    anstream::println!("{} {}", outcome.word(), path.display());
    Ok(())
}

/// A document as tagged PDF. Characters that no font of ours has are told, since a reader will miss them.
///
/// # Errors
/// [`Failure::Ours`] where the typesetter complains.
#[cfg(feature = "pdf")]
pub fn pdf(document: &Document) -> Result<Vec<u8>, Failure> {
    let made = document::pdf::pdf(document).map_err(|error| Failure::Ours(error.to_string()))?;
    if !made.replaced.is_empty() {
        let characters: Vec<String> =
            made.replaced.iter().map(|c| format!("{c} (U+{:04X})", u32::from(*c))).collect();
        anstream::eprintln!(
            "no typeface of ours has {}: a replacement character stands for each in the PDF",
            characters.join(", ")
        );
    }
    Ok(made.bytes)
}

/// This build has no typesetter.
///
/// # Errors
/// Always [`Failure::Asked`].
#[cfg(not(feature = "pdf"))]
pub fn pdf(_: &Document) -> Result<Vec<u8>, Failure> {
    Err(without_typesetter())
}

#[cfg(not(feature = "pdf"))]
pub fn without_typesetter() -> Failure {
    Failure::Asked(
        "this build of glueline makes no PDF and no PNG\n  to mend it: build it with its default features, or ask \
         for SVG or HTML"
            .into(),
    )
}
