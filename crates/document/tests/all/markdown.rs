//! The lecturer's own words: what is taken, and that nothing else gets through.
//!
//! Expected results are by the CommonMark specification 0.31.2, save where this project refuses something.

use document::markdown::{blocks, followable, line};
use document::tree::{Block, Inline};
use proptest::prelude::*;

/// The words of blocks, with their nesting, in one line.
fn told(blocks: &[Block]) -> String {
    blocks.iter().map(told_block).collect::<Vec<_>>().join(" | ")
}

fn told_block(block: &Block) -> String {
    match block {
        Block::Heading { level, text } => format!("h{level}({})", told_line(text)),
        Block::Paragraph(text) => format!("p({})", told_line(text)),
        Block::List { ordered, items } => {
            let items: Vec<String> = items.iter().map(|item| told(item)).collect();
            format!("{}[{}]", if *ordered { "ol" } else { "ul" }, items.join("; "))
        }
        Block::Quote(inner) => format!("quote({})", told(inner)),
        other => panic!("the reader makes no {other:?}"),
    }
}

fn told_line(line: &[Inline]) -> String {
    line.iter()
        .map(|inline| match inline {
            Inline::Text(words) => words.clone(),
            Inline::Strong(inner) => format!("strong({})", told_line(inner)),
            Inline::Emphasis(inner) => format!("em({})", told_line(inner)),
            Inline::Code(words) => format!("code({words})"),
            Inline::Link { to, text } => format!("link({to}: {})", told_line(text)),
            Inline::LineBreak => "/".to_owned(),
            other => panic!("the reader makes no {other:?}"),
        })
        .collect()
}

#[test]
fn what_reads_well_in_a_handout_is_taken() {
    let text = "# Why\n\nA *glued* beam is **nine** times as stiff.\nSee [the page](https://example.org/a?b=c&d).\n\n\
                1. first\n2. second\n   - inner\n\n> said\n\n`P = 3 kN`  \nnext\n\n    code *as is*\n";
    assert_eq!(
        told(&blocks(text)),
        "h3(Why) | p(A em(glued) beam is strong(nine) times as stiff. See link(https://example.org/a?b=c&d: the \
         page).) | ol[p(first); p(second) | ul[p(inner)]] | quote(p(said)) | p(code(P = 3 kN)/next) | \
         p(code(code *as is*))"
    );
}

#[test]
fn raw_html_and_pictures_are_shown_as_text() {
    assert_eq!(
        told(&blocks(
            "<script>alert(1)</script>\n\na <b onclick=x>b</b> c\n\n![a beam](http://example.org/x.png)"
        )),
        "p(<script>alert(1)</script> ) | p(a <b onclick=x>b</b> c) | p(a beam)"
    );
}

#[test]
fn only_web_and_mail_addresses_are_followed() {
    for address in ["https://example.org", "HTTP://example.org/x", "mailto:a@example.org"] {
        assert_eq!(followable(address).as_deref(), Some(address));
    }
    for address in [
        "javascript:alert(1)",
        " JaVaScRiPt:alert(1)",
        "java\nscript:alert(1)",
        "data:text/html,x",
        "file:///x",
        "/relative",
        "#here",
        "",
        "https://a b",
        "https://a\u{0}b",
    ] {
        assert_eq!(followable(address), None, "{address:?}");
    }
    assert_eq!(told(&blocks("[press](javascript:alert)")), "p(press)");
}

#[test]
fn a_line_runs_blocks_together() {
    assert_eq!(told_line(&line("one\n\n* two\n* **three**")), "one two strong(three)");
}

#[test]
fn nesting_is_bounded() {
    fn depth(blocks: &[Block]) -> usize {
        let inner = |block: &Block| match block {
            Block::Quote(inner) => 1 + depth(inner),
            Block::List { items, .. } => 1 + items.iter().map(|item| depth(item)).max().unwrap_or(0),
            Block::Paragraph(line) => stress(line),
            _ => 0,
        };
        blocks.iter().map(inner).max().unwrap_or(0)
    }
    fn stress(line: &[Inline]) -> usize {
        let inner = |inline: &Inline| match inline {
            Inline::Strong(inner) | Inline::Emphasis(inner) | Inline::Link { text: inner, .. } => {
                1 + stress(inner)
            }
            _ => 0,
        };
        line.iter().map(inner).max().unwrap_or(0)
    }
    for text in [
        format!("{} deep", ">".repeat(5000)),
        format!("{} deep", "- ".repeat(5000)),
        format!("{}deep{}", "*a **b ".repeat(2000), "** *".repeat(2000)),
        "[".repeat(5000),
    ] {
        let read = blocks(&text);
        assert!(depth(&read) <= 12, "{}", depth(&read));
    }
    assert!(told(&blocks(&format!("{} deep", ">".repeat(50)))).contains("deep"));
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]
    #[test]
    fn every_text_is_accepted(text in "(?s).{0,200}") {
        told(&blocks(&text));
    }

    #[test]
    fn every_mixture_of_marks_is_accepted(text in "[-*_#>`<>\\[\\]()!1. a\n\\\\&;:|~+$@]{0,120}") {
        told(&blocks(&text));
    }
}
