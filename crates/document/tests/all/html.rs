//! The HTML page: well-formed, self-contained, and safe from every word in it.

use crate::common::every_block::{HOSTILE, sheet, slides};
use crate::common::page::checked;
use document::html::html;
use document::tree::Paper;
use proptest::prelude::*;

#[test]
fn a_page_with_every_block_is_well_formed() {
    let page = checked(&sheet("A beam", Paper::A4));
    for part in
        ["<math", "<svg", "<table>", "<details>", "role=\"note\"", "<blockquote>", "id=\"equation-2\""]
    {
        assert!(page.contains(part), "{part}");
    }
    assert!(!page.contains("http-equiv=\"refresh\""));
    checked(&slides("A beam"));
}

#[test]
fn words_stay_words() {
    for text in HOSTILE {
        let page = checked(&sheet(text, Paper::A4));
        assert!(!page.contains("<script"), "{text:?}");
        assert!(!page.contains("\u{202e}"), "{text:?}");
        checked(&slides(text));
    }
}

#[test]
fn words_come_through_unchanged() {
    let text = "[Unal_*#1*] $x$ <b> & \"q\" 'p' \\ `r` \u{1f600} \u{4e2d}";
    let page = html(&sheet(text, Paper::A4));
    let tree =
        page.strip_prefix("<!doctype html>\n").map(|xml| roxmltree::Document::parse(xml).expect("XML"));
    let tree = tree.expect("a document type");
    let heading = tree.descendants().find(|node| node.has_tag_name("h1")).and_then(|node| node.text());
    assert_eq!(heading, Some(text));
}

#[test]
fn the_policy_names_the_one_style_sheet() {
    use sha2::Digest;
    let page = html(&sheet("x", Paper::A4));
    let sheet = page.split("<style>").nth(1).and_then(|rest| rest.split("</style>").next()).expect("a sheet");
    let hash = base64::Engine::encode(
        &base64::engine::general_purpose::STANDARD,
        sha2::Sha256::digest(sheet.as_bytes()),
    );
    // CSP 3, 6.7.3.1: the hash is of the text between the tags.
    assert!(page.contains(&format!("style-src 'sha256-{hash}'")));
    assert!(page.contains("default-src 'none'"));
}

/// WCAG 2.2: relative luminance and contrast ratio, by their definitions.
fn contrast(one: &str, other: &str) -> f64 {
    let luminance = |colour: &str| {
        let part = |from: usize| {
            let value = u8::from_str_radix(&colour[from..from + 2], 16).expect("a colour of six digits");
            let share = f64::from(value) / 255.0;
            if share <= 0.040_45 { share / 12.92 } else { mechanics::real::pow((share + 0.055) / 1.055, 2.4) }
        };
        0.2126 * part(1) + 0.7152 * part(3) + 0.0722 * part(5)
    };
    let (one, other) = (luminance(one), luminance(other));
    (one.max(other) + 0.05) / (one.min(other) + 0.05)
}

#[test]
fn every_colour_of_words_stands_out_from_what_is_behind_it() {
    let sheet = include_str!("../../src/html/page.css");
    let schemes: Vec<&str> =
        sheet.split(":root {").skip(1).filter_map(|rest| rest.split('}').next()).collect();
    assert_eq!(schemes.len(), 3, "light, dark, print");
    for scheme in schemes {
        let colour = |name: &str| {
            let rest = scheme.split(&format!("--{name}: ")).nth(1).expect("the colour is there");
            &rest[..7]
        };
        for (words, behind) in [
            ("ink", "paper"),
            ("quiet", "paper"),
            ("plum", "paper"),
            ("link", "paper"),
            ("ink", "key-tint"),
            ("ink", "note-tint"),
            ("ink", "caution-tint"),
            ("key", "key-tint"),
            ("note", "note-tint"),
            ("caution", "caution-tint"),
            ("link", "note-tint"),
        ] {
            // WCAG 2.2, 1.4.3
            let found = contrast(colour(words), colour(behind));
            assert!(found >= 4.5, "{words} on {behind}: {found:.2}");
        }
    }
}

/// Words of which nothing is seen or heard: found by the test below.
#[test]
fn words_of_steering_signs_alone_leave_no_silent_formula() {
    for text in ["\u{200e}", "\u{202e}\u{2066}", "\u{0007}", " \u{200f} "] {
        checked(&sheet(text, Paper::A4));
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]
    #[test]
    fn any_words_make_a_well_formed_page(text in "(?s).{0,60}") {
        checked(&sheet(&text, Paper::A4));
    }
}
