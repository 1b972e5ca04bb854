//! A document as PDF, tagged and held to PDF/UA-1.

mod data;
mod picture;
mod typesetter;

pub use self::picture::{PictureError, drawing_pdf, drawing_png};
pub use self::typesetter::{Conformance, Error};

use self::typesetter::{Template, Typeset};
use crate::tree::Document;

const FACES: data::Faces =
    data::Faces { text: typesetter::has_characters, drawings: typesetter::has_characters_in_drawings };

/// A PDF file.
#[derive(Clone, Debug)]
pub struct Pdf {
    /// The file.
    pub bytes: Vec<u8>,
    /// Characters of the lesson that no embedded face has; a replacement character stands for each in the file.
    /// The lecturer should be told.
    pub replaced: Vec<char>,
}

/// The document as a PDF file that conforms to PDF/UA-1.
///
/// The same document gives the same bytes, on every day and every machine. To make many at once, use one thread for
/// each processor and a `rayon` pool of one thread within each: the typesetter works in parallel inside, and would
/// otherwise hold many half-made documents.
///
/// # Errors
/// What the typesetter refuses or warns of: a fault of this program, never of what a lecturer wrote.
pub fn pdf(document: &Document) -> Result<Pdf, Error> {
    pdf_as(document, Conformance::Accessible)
}

/// As [`pdf`], with or without tags.
///
/// # Errors
/// As [`pdf`].
pub fn pdf_as(document: &Document, conformance: Conformance) -> Result<Pdf, Error> {
    let data = data::data(&[document], &document.title, &FACES);
    let bytes =
        Typeset::new(Template::Sheets, data.bytes, &data.title)?.file(&document.identity, conformance)?;
    Ok(Pdf { bytes, replaced: data.sheets.into_iter().flat_map(|sheet| sheet.replaced).collect() })
}

/// Several documents, each as a PDF file, and all of them in one.
#[derive(Clone, Debug)]
pub struct Files {
    /// Each by itself, as [`pdf`] makes it.
    pub each: Vec<Pdf>,
    /// All of them, to be printed at once: each begins on an odd page, so that on paper printed on both sides each has sheets of its
    /// own, and has its own count of pages.
    pub all: Vec<u8>,
}

/// Several documents, each as a PDF file, and all of them in one that is called `title`, typeset only once. `identity` tells that
/// one file from all others.
///
/// The sheet, the print, the language and the author are those of the first document. No document at all is one empty page.
///
/// The typesetter holds all of them at once, about 3 MB each: a class of hundreds is better made in several files.
///
/// # Errors
/// As [`pdf`].
pub fn pdf_of_all(documents: &[&Document], title: &str, identity: &str) -> Result<Files, Error> {
    let data = data::data(documents, title, &FACES);
    let typeset = Typeset::new(Template::Sheets, data.bytes, &data.title)?;
    let file = |(place, document): (usize, &&Document), sheet: data::Sheet| {
        let bytes = typeset.file_of_sheet(place, &sheet.title, &document.identity)?;
        Ok(Pdf { bytes, replaced: sheet.replaced })
    };
    let each = documents.iter().enumerate().zip(data.sheets).map(|(document, sheet)| file(document, sheet));
    Ok(Files {
        each: each.collect::<Result<_, Error>>()?,
        all: typeset.file(identity, Conformance::Accessible)?,
    })
}
