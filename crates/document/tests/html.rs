//! The HTML page: well-formed, self-contained, and safe from every word in it.

mod common;
#[path = "common/page.rs"]
mod page;

use common::{HOSTILE, sheet, slides};
use document::html::html;
use document::tree::Paper;
use page::checked;
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

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]
    #[test]
    fn any_words_make_a_well_formed_page(text in "(?s).{0,60}") {
        checked(&sheet(&text, Paper::A4));
    }
}
