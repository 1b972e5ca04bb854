//! What every HTML page must hold to.

use std::collections::HashSet;

use document::html::html;
use document::tree::Document;
use roxmltree::{Node, ParsingOptions};

/// The page, read as XML: the printer promises that it is both.
pub fn checked(document: &Document) -> String {
    let page = html(document);
    let xml = page.strip_prefix("<!doctype html>\n").expect("an HTML5 document type");
    let options = ParsingOptions { allow_dtd: false, ..ParsingOptions::default() };
    let tree = roxmltree::Document::parse_with_options(xml, options)
        .unwrap_or_else(|fault| panic!("{fault}: {}", around(xml, fault.pos().row)));
    let elements = || tree.descendants().filter(Node::is_element);

    // WCAG 3.1.1, 2.4.2
    assert!(tree.root_element().attribute("lang").is_some_and(|lang| !lang.is_empty()));
    let title = elements().find(|node| node.has_tag_name("title")).and_then(|node| node.text());
    assert!(title.is_some_and(|title| !title.trim().is_empty()));

    // HTML Living Standard 3.2.6: ids are unique and without spaces; WCAG 4.1.1 of 2.1.
    let mut ids = HashSet::new();
    for id in elements().filter_map(|node| node.attribute("id")) {
        assert!(ids.insert(id.to_owned()), "id {id} twice");
        assert!(!id.contains(char::is_whitespace));
    }
    for node in elements() {
        for name in ["aria-labelledby", "aria-describedby"] {
            for id in node.attribute(name).unwrap_or("").split_whitespace() {
                assert!(ids.contains(id), "{name} points to {id}, which is not there");
            }
        }
        for attribute in node.attributes() {
            let name = attribute.name().to_ascii_lowercase();
            assert!(!name.starts_with("on"), "an event handler: {name}");
            // The policy would refuse it.
            assert!(name != "style" && name != "src", "{name}");
            if name == "href" {
                let value = attribute.value();
                let inside = value.strip_prefix('#').is_some_and(|id| ids.contains(id));
                let outside =
                    ["http://", "https://", "mailto:"].iter().any(|scheme| value.starts_with(scheme));
                assert!(inside || outside, "{value}");
            }
        }
        let name = node.tag_name().name();
        assert!(
            !["script", "iframe", "object", "embed", "img", "base", "form", "foreignObject"].contains(&name)
        );
        // Where two style elements could be, a word could have closed the first.
        if name == "svg" {
            assert_eq!(node.attribute("role"), Some("img"));
            assert!(node.attribute("aria-labelledby").is_some());
        }
        if name == "math" {
            assert!(node.attribute("alttext").is_some_and(|text| !text.trim().is_empty()));
        }
        if name == "table" {
            assert!(node.descendants().any(|cell| cell.attribute("scope") == Some("col")));
        }
    }
    assert_eq!(elements().filter(|node| node.has_tag_name("style")).count(), 1);

    // WCAG 1.3.1: headings without a gap.
    let mut last = 0;
    for node in elements() {
        if let Some(level) =
            node.tag_name().name().strip_prefix('h').and_then(|level| level.parse::<u8>().ok())
        {
            assert!(level <= last + 1, "h{level} after h{last}");
            last = level;
        }
    }
    page
}

fn around(text: &str, row: u32) -> String {
    text.lines().nth(row as usize - 1).unwrap_or("").chars().take(400).collect()
}
