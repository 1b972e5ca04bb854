//! What every PDF must hold to, its structure read again by another library.

use document::pdf::pdf;
use document::tree::Document;
use hayro_syntax::Pdf;
use hayro_syntax::object::{Dict, Name, Object};
use std::collections::BTreeSet;

/// One element of the structure tree: its kind, its alternative text, and the pages (from 1) on which something of it, of itself
/// or within, is printed.
#[derive(Debug)]
pub struct Element {
    pub kind: String,
    pub alternative: Option<String>,
    pub pages: BTreeSet<usize>,
}

/// A text string: PDF 1.7 (ISO 32000-1), 7.9.2.2.
fn words(string: &hayro_syntax::object::String<'_>) -> String {
    let bytes = string.as_bytes();
    match bytes.strip_prefix(&[0xfe, 0xff]) {
        Some(wide) => {
            let units: Vec<u16> =
                wide.chunks_exact(2).map(|pair| u16::from_be_bytes([pair[0], pair[1]])).collect();
            String::from_utf16(&units).expect("UTF-16")
        }
        None => bytes.iter().map(|&byte| char::from(byte)).collect(),
    }
}

fn text(dictionary: &Dict<'_>, key: &str) -> Option<String> {
    dictionary.get::<hayro_syntax::object::String<'_>>(key).map(|string| words(&string))
}

pub fn catalog(file: &Pdf) -> Dict<'_> {
    file.xref().get(file.xref().root_id()).expect("a catalogue")
}

pub fn read(bytes: &[u8]) -> Pdf {
    Pdf::new(bytes.to_vec()).expect("a PDF file")
}

pub fn elements(file: &Pdf) -> Vec<Element> {
    let root: Dict<'_> = catalog(file).get("StructTreeRoot").expect("a structure tree");
    let pages = file.pages().iter().filter_map(|page| Some(page.raw().obj_id()?.obj_number));
    let pages: Vec<i32> = pages.collect();
    let mut out = Vec::new();
    gather(root.get("K"), None, &pages, &mut out);
    out
}

/// Gathers the elements, and gives the pages on which they are printed. A page is named by the element or by the piece of marked
/// content (ISO 32000-1, 14.7.4).
fn gather(
    object: Option<Object<'_>>,
    page: Option<usize>,
    pages: &[i32],
    out: &mut Vec<Element>,
) -> BTreeSet<usize> {
    let own = |dictionary: &Dict<'_>| {
        let named = dictionary.get_ref("Pg")?;
        pages.iter().position(|number| *number == named.obj_number).map(|place| place + 1)
    };
    match object {
        Some(Object::Array(kids)) => {
            kids.iter::<Object<'_>>().flat_map(|kid| gather(Some(kid), page, pages, out)).collect()
        }
        Some(Object::Dict(dictionary)) => {
            let page = own(&dictionary).or(page);
            let Some(kind) = dictionary.get::<Name<'_>>("S") else { return page.into_iter().collect() };
            let place = out.len();
            let (kind, alternative) = (kind.as_str().to_owned(), text(&dictionary, "Alt"));
            out.push(Element { kind, alternative, pages: BTreeSet::new() });
            let found = gather(dictionary.get("K"), page, pages, out);
            out[place].pages = found.clone();
            found
        }
        // A piece of marked content on the page of its element.
        Some(Object::Number(_)) => page.into_iter().collect(),
        _ => BTreeSet::new(),
    }
}

/// What ISO 14289-1 asks of the file beside what the typesetter enforces.
pub fn checked(document: &Document) -> Vec<Element> {
    let made = pdf(document).unwrap_or_else(|fault| panic!("{fault}"));
    let file = read(&made.bytes);
    let catalog = catalog(&file);
    // 7.2: the natural language of the whole.
    let language = document.language.as_str();
    assert_eq!(text(&catalog, "Lang").as_deref(), Some(language));
    // 7.1: the title is shown in the window.
    let yes =
        |group: &str, key: &str| catalog.get::<Dict<'_>>(group).and_then(|group| group.get::<bool>(key));
    assert_eq!(yes("ViewerPreferences", "DisplayDocTitle"), Some(true));
    assert_eq!(yes("MarkInfo", "Marked"), Some(true));

    let elements = elements(&file);
    for element in &elements {
        // 7.3 and 7.7: figures and formulas carry a text in their place.
        if element.kind == "Figure" || element.kind == "Formula" {
            let alternative = element.alternative.as_deref().unwrap_or("");
            assert!(!alternative.trim().is_empty(), "{element:?}");
        }
    }
    // 7.4.2: headings without a gap.
    let mut last = 0;
    for element in &elements {
        if let Some(level) = element.kind.strip_prefix('H').and_then(|level| level.parse::<u8>().ok()) {
            assert!(level <= last + 1, "H{level} after H{last}");
            last = level;
        }
    }
    elements
}

pub fn count(elements: &[Element], kind: &str) -> usize {
    elements.iter().filter(|element| element.kind == kind).count()
}
