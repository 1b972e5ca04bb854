//! The PDF: held to PDF/UA-1 by the typesetter, its structure read again by another library, its bytes the same
//! every time.

use crate::common::every_block::{HOSTILE, drawing, sheet, slides};
use crate::common::structure::{Element, catalog, checked, count, elements, read};
use document::pdf::{Conformance, drawing_pdf, drawing_png, pdf, pdf_as};
use document::tree::{Document, Paper};
use proptest::prelude::*;

#[test]
fn a_document_with_every_block_has_its_structure() {
    for paper in [Paper::A4, Paper::UsLetter] {
        let elements = checked(&sheet("A beam", paper));
        // Three in the first paragraph, two displayed, one each in the table's head, in a step, before a box; two figures.
        assert_eq!(count(&elements, "Formula"), 8, "{elements:?}");
        assert_eq!(count(&elements, "Figure"), 2);
        // One of its own, and one in the words of each figure at the end.
        assert_eq!(count(&elements, "Table"), 3);
        assert_eq!(count(&elements, "TH"), 2 + 2 * 2);
        assert_eq!(count(&elements, "Title"), 1);
        assert!(count(&elements, "L") >= 3 && count(&elements, "LI") >= 5);
        // The equation (1) that is there, not the (99) that is not; and one address, not the script.
        assert!(count(&elements, "Link") >= 2);
    }
}

#[test]
fn a_slide_has_a_page_for_each_step_and_hides_what_is_to_come() {
    let elements = checked(&slides("A beam"));
    let file = read(&pdf(&slides("A beam")).expect("a PDF").bytes);
    assert_eq!(file.pages().len(), 1 + 2 + 3 + 1);
    assert_eq!(count(&elements, "H1"), 2 + 3 + 1);
    assert_eq!(count(&elements, "Figure"), 2 + 3);
    // The equation of the first slide comes with its first step and stands on both its pages, the three of the second
    // step on one; the equation of the second slide comes with its second step.
    let formulas: Vec<&Element> = elements.iter().filter(|element| element.kind == "Formula").collect();
    assert_eq!(formulas.len(), 2 + 3 + 2, "{formulas:#?}");
}

#[test]
fn words_stay_words() {
    for text in HOSTILE {
        checked(&sheet(text, Paper::A4));
        checked(&slides(text));
    }
}

#[test]
fn a_character_that_no_face_has_is_replaced_and_told() {
    let made = pdf(&sheet("a \u{1f600} b \u{4e2d}", Paper::A4)).expect("a PDF");
    assert_eq!(made.replaced, ['\u{4e2d}', '\u{1f600}']);
    assert!(pdf(&sheet("a b", Paper::A4)).expect("a PDF").replaced.is_empty());
    // The face has a glyph of its own for this one, which means nothing to a reader.
    assert_eq!(pdf(&sheet("a \u{f124} b", Paper::A4)).expect("a PDF").replaced, ['\u{f124}']);
}

#[test]
fn the_same_document_gives_the_same_bytes() {
    let first = pdf(&sheet("A beam", Paper::A4)).expect("a PDF").bytes;
    let other = pdf(&sheet("Another", Paper::A4)).expect("a PDF").bytes;
    assert_eq!(first, pdf(&sheet("A beam", Paper::A4)).expect("a PDF").bytes);
    assert_ne!(first, other);
    let threads: Vec<_> = (0..2)
        .map(|_| std::thread::spawn(|| pdf(&sheet("A beam", Paper::A4)).expect("a PDF").bytes))
        .collect();
    for thread in threads {
        assert_eq!(first, thread.join().expect("no panic"));
    }
}

#[test]
fn two_documents_of_one_title_have_two_identifiers() {
    let identifier = |identity: &str| {
        let document = Document { identity: identity.into(), ..sheet("A beam", Paper::A4) };
        let bytes = pdf(&document).expect("a PDF").bytes;
        // ISO 32000-1, 7.5.5: the trailer holds two identifiers.
        let at = bytes.windows(3).rposition(|window| window == b"/ID").expect("identifiers");
        bytes[at..bytes.len().min(at + 80)].to_vec()
    };
    assert_ne!(identifier("paper 1"), identifier("paper 2"));
    assert_eq!(identifier("paper 1"), identifier("paper 1"));
}

#[test]
fn without_tags_there_is_no_structure() {
    let made = pdf_as(&sheet("A beam", Paper::A4), Conformance::Untagged).expect("a PDF");
    assert!(!catalog(&read(&made.bytes)).contains_key("StructTreeRoot"));
}

#[test]
fn a_drawing_is_a_page_of_its_size_or_a_picture() {
    let drawing = drawing("P = 4 kN");
    let elements = elements(&read(&drawing_pdf(&drawing, "en").expect("a PDF")));
    assert_eq!(count(&elements, "Figure"), 1);
    assert!(
        elements.iter().any(|element| element.alternative.as_deref().is_some_and(|alt| alt.contains("4 kN")))
    );
    let picture = drawing_png(&drawing, 2.0).expect("a PNG");
    // PNG specification (third edition), 11.2.1: width and height stand after the header's type.
    let side = |from: usize| {
        u32::from_be_bytes([picture[from], picture[from + 1], picture[from + 2], picture[from + 3]])
    };
    assert_eq!((side(16), side(20)), ((2.0 * drawing.width) as u32, (2.0 * drawing.height) as u32));
    for scale in [0.0, -1.0, f64::NAN, 1e9] {
        assert!(drawing_png(&drawing, scale).is_err());
    }
}

/// Libertinus Serif has the letters of Georgian (Unicode U+10D0 and on), and not the capitals that belong to them (U+1C90 and on).
#[test]
fn a_script_without_capitals_stays_small_above_a_title() {
    checked(&sheet("ს", Paper::A4));
    checked(&sheet("ს", Paper::Wide));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]
    #[test]
    fn any_words_make_an_accessible_pdf(text in "(?s).{0,40}") {
        checked(&sheet(&text, Paper::A4));
    }
}
