//! The one door to the typesetter: everything that names its types is in this file.
//!
//! A document is typeset from a fixed template and one data file, both virtual. Nothing else can be opened, no
//! word of a lecturer is ever part of the template's source, and the few paths are the same for every document
//! (the typesetter never frees a path). Warnings are failures: the typesetter only warns of what a reader would
//! miss later.

use std::fmt;
use std::sync::LazyLock;

use typst::diag::{FileError, FileResult, SourceDiagnostic};
use typst::foundations::{Bytes, Datetime, Duration, Label, Smart};
use typst::introspection::Introspector;
use typst::model::Document as _;
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook, FontInfo, FontWeight};
use typst::utils::{LazyHash, PicoStr};
use typst::{Library, LibraryExt, World, WorldExt};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards, Timestamp};

/// What is the same for all documents.
struct Shop {
    library: LazyHash<Library>,
    book: LazyHash<FontBook>,
    fonts: Vec<Font>,
    data: FileId,
}

fn path(name: &str) -> FileId {
    let path = VirtualPath::new(name).expect("the names are ours and plain");
    RootedPath::new(VirtualRoot::Project, path).intern()
}

static SHOP: LazyLock<Shop> = LazyLock::new(|| {
    let fonts: Vec<Font> = typst_assets::fonts().flat_map(|face| Font::iter(Bytes::new(face))).collect();
    Shop {
        library: LazyHash::new(Library::builder().build()),
        book: LazyHash::new(FontBook::from_fonts(&fonts)),
        fonts,
        data: path("/data.json"),
    }
});

static SHEETS: LazyLock<Source> =
    LazyLock::new(|| Source::new(path("/sheets.typ"), include_str!("template.typ").to_owned()));
static DRAWING: LazyLock<Source> =
    LazyLock::new(|| Source::new(path("/drawing.typ"), include_str!("drawing.typ").to_owned()));

/// What the data are typeset with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Template {
    /// Notes, papers, slides.
    Sheets,
    /// One drawing on a page of its own.
    Drawing,
}

impl Template {
    fn source(self) -> &'static Source {
        match self {
            Template::Sheets => &SHEETS,
            Template::Drawing => &DRAWING,
        }
    }
}

/// Whether some one embedded face has all these characters: a letter and its marks must be of one face.
pub fn has_characters(letter: &str) -> bool {
    SHOP.fonts.iter().any(|font| covers(font, letter))
}

/// Whether drawings can show these characters: the face of the drawings has them, or they are one sign that is no letter
/// and that some other face has. For letters another face does not step in reliably: where they are joined (Arabic,
/// say) the typesetter's reading of SVG leaves them out.
pub fn has_characters_in_drawings(letter: &str) -> bool {
    // Drawings are lettered in the regular and the italic face alone.
    let of_drawings =
        |info: &FontInfo| info.family == "Libertinus Serif" && info.variant.weight == FontWeight::REGULAR;
    let mut faces = SHOP.fonts.iter().filter(|font| of_drawings(font.info()));
    let mut signs = letter.chars();
    let lone_sign = signs.next().is_some_and(|c| !c.is_alphanumeric()) && signs.next().is_none();
    faces.all(|font| covers(font, letter)) || lone_sign && has_characters(letter)
}

fn covers(font: &Font, letter: &str) -> bool {
    letter.chars().all(|c| !is_private(c) && font.info().coverage.contains(u32::from(c)))
}

/// Whether a character is of Unicode's private use areas. A face may have glyphs for its own purposes there, but they
/// mean nothing to a reader, and PDF/UA-1 refuses them.
fn is_private(c: char) -> bool {
    matches!(u32::from(c), 0xE000..=0xF8FF | 0xF_0000..=0x10_FFFF)
}

/// What the typesetter remembers is forgotten when so many more documents are done and none of them has asked for it.
///
/// Papers of a class have words and drawings in common. What is remembered belongs to all threads: where all were forgotten after each
/// document, those that other threads are in the middle of would begin anew. Without an end it would be megabytes a document.
const KEPT: usize = 10;

/// One document in the making.
struct Sheet {
    template: &'static Source,
    data: Bytes,
}

impl World for Sheet {
    fn library(&self) -> &LazyHash<Library> {
        &SHOP.library
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &SHOP.book
    }

    fn main(&self) -> FileId {
        self.template.id()
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        if id == self.template.id() { Ok(self.template.clone()) } else { Err(missing(id)) }
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        if id == SHOP.data { Ok(self.data.clone()) } else { Err(missing(id)) }
    }

    fn font(&self, index: usize) -> Option<Font> {
        SHOP.fonts.get(index).cloned()
    }

    /// No date: the same lesson gives the same bytes on every day.
    fn today(&self, _offset: Option<Duration>) -> Option<Datetime> {
        None
    }
}

fn missing(id: FileId) -> FileError {
    FileError::NotFound(id.get().vpath().get_without_slash().into())
}

/// How the file is to be made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Conformance {
    /// Tagged, and held to PDF/UA-1 (ISO 14289-1).
    Accessible,
    /// Without tags: only for measuring what they cost.
    Untagged,
}

/// What the typesetter found wrong: a fault of this program, never of the lecturer's text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Error {
    /// One line for each fault, with its place in the template where there is one.
    pub faults: Vec<String>,
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "the typesetter refused the document: {}", self.faults.join("; "))
    }
}

impl std::error::Error for Error {}

/// Data that are typeset: pages, ready to become a file.
pub struct Typeset {
    sheet: Sheet,
    pages: PagedDocument,
}

impl Typeset {
    /// Typesets the data; the file is called `title`.
    ///
    /// The title is said here and not by the template: there it would be a part of what every word is set with, and no word of
    /// another student's paper could be set as it is remembered from the last.
    ///
    /// # Errors
    /// Every error and every warning of the typesetter.
    pub fn new(template: Template, data: Vec<u8>, title: &str) -> Result<Self, Error> {
        let sheet = Sheet { template: template.source(), data: Bytes::new(data) };
        let compiled = typst::compile::<PagedDocument>(&sheet);
        comemo::evict(KEPT);
        let mut pages = compiled.output.map_err(|faults| told(&sheet, &faults))?;
        if !compiled.warnings.is_empty() {
            return Err(told(&sheet, &compiled.warnings));
        }
        pages.info_mut().title = Some(title.into());
        Ok(Self { sheet, pages })
    }

    /// All pages as a PDF file.
    ///
    /// `identity` becomes the file's identifier (as a hash), so that two papers of one lesson are two documents. The
    /// bytes depend on the data and the identity alone.
    ///
    /// # Errors
    /// What PDF/UA-1 forbids.
    pub fn file(&self, identity: &str, conformance: Conformance) -> Result<Vec<u8>, Error> {
        self.file_of(&self.pages, identity, conformance)
    }

    /// The pages of the sheet at this place as a PDF file of its own: the same bytes as if it had been typeset alone.
    ///
    /// # Errors
    /// As [`Typeset::file`].
    pub fn file_of_sheet(&self, place: usize, title: &str, identity: &str) -> Result<Vec<u8>, Error> {
        let [first, last] = [Mark::Begin, Mark::End].map(|mark| self.page_of(mark, place));
        let (Some(first), Some(last)) = (first, last) else {
            return Err(Error {
                faults: vec![format!("the sheet at place {place} has no beginning or no end")],
            });
        };
        let own = self.pages.pages().get(first..=last).unwrap_or_default();
        let mut info = self.pages.info().clone();
        info.title = Some(title.into());
        let own = PagedDocument::new(own.iter().cloned().collect(), info);
        self.file_of(&own, identity, Conformance::Accessible)
    }

    /// The page, counted from 0, that has this mark of a sheet.
    fn page_of(&self, mark: Mark, place: usize) -> Option<usize> {
        let label = Label::new(PicoStr::intern(&format!("{}-{place}", mark.word())))?;
        let pages = self.pages.introspector();
        let location = pages.query_label(label).ok()?.location()?;
        Some(pages.page(location)?.get() - 1)
    }

    fn file_of(
        &self,
        pages: &PagedDocument,
        identity: &str,
        conformance: Conformance,
    ) -> Result<Vec<u8>, Error> {
        let standards: &[PdfStandard] = match conformance {
            Conformance::Accessible => &[PdfStandard::Ua_1],
            Conformance::Untagged => &[],
        };
        let standards = PdfStandards::new(standards)
            .map_err(|fault| Error { faults: vec![fault.message().to_string()] })?;
        let options = PdfOptions {
            ident: Smart::Custom(identity.to_owned()),
            creator: Smart::Custom(Some("Glueline".to_owned())),
            timestamp: None::<Timestamp>,
            standards,
            tagged: conformance == Conformance::Accessible,
            ..PdfOptions::default()
        };
        typst_pdf::pdf(pages, &options).map_err(|faults| told(&self.sheet, &faults))
    }
}

/// Marks that the template sets where a sheet begins and where it ends.
#[derive(Clone, Copy, Debug)]
enum Mark {
    Begin,
    End,
}

impl Mark {
    /// Its word in the label, before the place of the sheet.
    fn word(self) -> &'static str {
        match self {
            Mark::Begin => "begin",
            Mark::End => "end",
        }
    }
}

fn told(sheet: &Sheet, faults: &[SourceDiagnostic]) -> Error {
    let one = |fault: &SourceDiagnostic| {
        let place =
            sheet.range(fault.span).and_then(|range| sheet.template.lines().byte_to_line(range.start));
        let place = place.map(|line| format!("template line {}: ", line + 1)).unwrap_or_default();
        let hints: String = fault.hints.iter().map(|hint| format!(" ({})", hint.v)).collect();
        format!("{place}{}{hints}", fault.message)
    };
    Error { faults: faults.iter().map(one).collect() }
}
