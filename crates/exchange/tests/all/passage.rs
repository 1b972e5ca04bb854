//! What goes into an item from a page: the part of XHTML that every version takes, or a fault.

use crate::common;
use document::tree::{Block, Callout, CalloutKind, FileName, Inline, Table, words};
use exchange::qti::{Answer, Item, Line, Package, Passage, Version};
use proptest::prelude::*;
use std::io::{Cursor, Read};
use workings::style::Style;

/// The body of an item with this prompt, as it stands in the package.
fn written(prompt: Passage) -> String {
    let item = Item { prompt, ..common::positive() };
    let package = Package { items: vec![item], ..common::package() };
    let archive = package.zip(Version::Qti21).expect("a package");
    let mut zip = zip::ZipArchive::new(Cursor::new(archive.bytes)).expect("a zip file");
    let mut text = String::new();
    zip.by_name("centroid.xml").expect("the item").read_to_string(&mut text).expect("UTF-8");
    roxmltree::Document::parse(&text).expect("XML");
    let (start, end) =
        (text.find("<itemBody>").expect("a body"), text.find("<p>Write numbers").expect("its end"));
    text[start + "<itemBody>".len()..end].to_owned()
}

/// The body of an item in QTI 2.1's information model (from memory): XHTML 1.0 without roles; our classes and ids say nothing
/// there.
#[test]
fn what_means_nothing_in_an_item_is_left_out() {
    let address = |to: &str| Inline::Link { to: to.to_owned(), text: words("a norm") };
    let file = Inline::File { name: FileName::new("notes.pdf").expect("a name"), text: words("the notes") };
    let blocks = [
        Block::Heading { level: 1, text: words("Given") },
        Block::Paragraph(vec![
            address("https://example.org/a?b=c&d"),
            " and ".into(),
            address("javascript:x"),
            ", ".into(),
            file,
        ]),
        Block::Callout(Callout {
            kind: CalloutKind::Key,
            title: "Note".to_owned(),
            body: vec![Block::Paragraph(words("m"))],
        }),
        Block::Table(Table {
            caption: words("Loads"),
            number: None,
            alignment: Vec::new(),
            header: vec![words("x"), words("P")],
            rows: vec![vec![words("1 m"), words("<5 kN>")]],
            row_heads: true,
            total: false,
        }),
    ];
    let body = written(Passage::of(&blocks, &Style::default()).expect("a passage")).replace('\n', "");
    assert_eq!(
        body,
        "<h2>Given</h2><p><a href=\"https://example.org/a?b=c&amp;d\">a norm</a> and a norm, the notes</p>\
         <div><p>Note</p><p>m</p></div><div><table><caption>Loads</caption>\
         <thead><tr><th scope=\"col\">x</th><th scope=\"col\">P</th></tr></thead>\
         <tbody><tr><th scope=\"row\">1 m</th><td>&lt;5 kN&gt;</td></tr></tbody></table></div>"
    );
}

#[test]
fn what_an_item_cannot_hold_is_refused() {
    for (fragment, said) in [
        ("<svg/>", "<svg> is no element"),
        ("<script>alert(1)</script>", "<script> is no element"),
        ("<p>a", "<p> does not end"),
        ("a</p>", "not well-formed"),
        ("<p>&nbsp;</p>", "that XML does not know"),
        ("<p class=a>b</p>", "an attribute of <p>"),
        (&"<div>".repeat(1000), "too deep"),
    ] {
        let fault = Passage::read(fragment).expect_err(said);
        assert!(fault.what.contains(said), "{fault}");
    }
}

#[test]
fn bare_text_becomes_a_paragraph_and_entities_their_characters() {
    let passage = Passage::read("a &lt; <em>b</em> &#x3c4;<p>c</p>\n<p>d</p><![CDATA[<e>]]><!-- f -->")
        .expect("a passage");
    assert_eq!(written(passage), "<p>a &lt; <em>b</em> τ</p><p>c</p><p>d</p><p>&lt;e&gt;</p>");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1024))]

    /// Whatever is given for a page, there is an item or a fault, and the item is XML.
    #[test]
    fn any_fragment_is_taken_or_refused(
        pieces in prop::collection::vec(prop_oneof![
            prop::sample::select(vec!["<p>", "</p>", "<b a='1'>", "</b>", "<br/>", "&amp;", "&#0;", "&#x1F;", "&#xFFFF;", "<math>", "</math>", "<mi>", "<a href=\"http://x\">", "</a>", "<![CDATA[", "]]>", "<!--", "-->", "<?x?>", "<!DOCTYPE a>"]).prop_map(str::to_owned),
            ".{0,4}",
        ], 0..12),
    ) {
        if let Ok(passage) = Passage::read(&pieces.concat()) {
            written(passage);
        }
    }

    /// Whatever the words, they stand in the item as words.
    #[test]
    fn any_words_stay_words(said in "\\PC{0,30}") {
        let label = Line::of(&words(said.as_str()), &Style::default()).expect("a line");
        let mut item = common::positive();
        item.title = said.clone();
        if let Some(Answer::Value(value)) = item.answers.first_mut() {
            value.label = label;
        }
        let package = Package { items: vec![item], title: said.clone(), ..common::package() };
        let archive = package.zip(Version::Qti30).expect("a package");
        let mut zip = zip::ZipArchive::new(Cursor::new(archive.bytes)).expect("a zip file");
        let mut text = String::new();
        zip.by_name("centroid.xml").expect("the item").read_to_string(&mut text).expect("UTF-8");
        let document = roxmltree::Document::parse(&text).expect("XML");
        let title = document.root_element().attribute("title").expect("a title");
        let kept: String = said.chars().filter(|c| !matches!(c, '\u{fffe}' | '\u{ffff}')).collect();
        prop_assert_eq!(title, kept);
    }
}
