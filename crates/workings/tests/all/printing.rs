//! The printers, on the formulas of the unit and on random ones.

use crate::formulas::{random, samples};
use proptest::prelude::*;
use workings::expression::Expression;
use workings::notation::{Notation, Profile};
use workings::print::{
    latex, latex_aligned, mathml, mathml_block, plain, speech, speech_in_words, typst, typst_aligned,
};
use workings::style::{DecimalMark, Multiplication, Style};

type Printer = fn(&Expression, &Style) -> String;

fn listing(printer: Printer, style: &Style) -> String {
    let line =
        |(name, expression): (&str, Expression)| format!("{name}\n    {}\n", printer(&expression, style));
    samples().into_iter().map(line).collect()
}

/// Pinned: looked at, in type and by ear.
#[test]
fn the_formulas_of_the_unit() {
    let style = Style::default();
    insta::assert_snapshot!("plain", listing(plain, &style));
    insta::assert_snapshot!("speech", listing(speech, &style));
    insta::assert_snapshot!("speech_in_words", listing(speech_in_words, &style));
    insta::assert_snapshot!("typst", listing(typst, &style));
    insta::assert_snapshot!("latex", listing(latex, &style));
    insta::assert_snapshot!("mathml", listing(mathml, &style));
}

/// Pinned: the same in every notation.
#[test]
fn the_formulas_in_other_notations() {
    for profile in Profile::ALL {
        let style = Style {
            notation: Notation::of(profile),
            multiplication: if profile == Profile::Downward {
                Multiplication::Dot
            } else {
                Multiplication::Space
            },
            decimal_mark: if profile == Profile::Downward { DecimalMark::Comma } else { DecimalMark::Point },
            ..Style::default()
        };
        insta::assert_snapshot!(format!("plain_{}", profile.name()), listing(plain, &style));
    }
}

/// Pinned.
#[test]
fn chains_are_aligned_at_their_signs() {
    let style = Style::default();
    insta::assert_snapshot!("typst_aligned", listing(typst_aligned, &style));
    insta::assert_snapshot!("latex_aligned", listing(latex_aligned, &style));
    insta::assert_snapshot!("mathml_block", listing(mathml_block, &style));
}

/// Brackets close in the order in which they open; strings, where the language has them, are passed over.
fn assert_balanced(text: &str, strings: bool) {
    let mut open = Vec::new();
    let mut characters = text.chars();
    while let Some(character) = characters.next() {
        match character {
            '"' if strings => {
                let mut escaped = false;
                let end = characters.by_ref().find(|c| {
                    let ends = *c == '"' && !escaped;
                    escaped = *c == '\\' && !escaped;
                    ends
                });
                assert!(end.is_some(), "a string does not end: {text}");
            }
            '(' | '[' | '{' => open.push(character),
            ')' => assert_eq!(open.pop(), Some('('), "{text}"),
            ']' => assert_eq!(open.pop(), Some('['), "{text}"),
            '}' => assert_eq!(open.pop(), Some('{'), "{text}"),
            _ => {}
        }
    }
    assert!(open.is_empty(), "{text}");
}

/// In LaTeX an escaped brace is text, and brackets that are text come in no pairs.
fn assert_latex_balanced(text: &str) {
    let text = text.replace("\\{", "").replace("\\}", "");
    let braces: String = text.chars().filter(|c| matches!(c, '{' | '}')).collect();
    assert_balanced(&braces, false);
    assert_eq!(text.matches("\\left").count(), text.matches("\\right").count(), "{text}");
    assert_eq!(text.matches("\\begin").count(), text.matches("\\end").count(), "{text}");
}

/// How many children each element of MathML Core must have.
fn assert_well_formed(markup: &str) {
    let document = roxmltree::Document::parse(markup).unwrap_or_else(|error| panic!("{error}: {markup}"));
    assert_eq!(document.root_element().tag_name().name(), "math");
    assert!(document.root_element().has_attribute("alttext"), "{markup}");
    for node in document.descendants().filter(roxmltree::Node::is_element) {
        let children = node.children().filter(roxmltree::Node::is_element).count();
        let wanted = match node.tag_name().name() {
            "mfrac" | "msub" | "msup" | "munder" | "mover" => Some(2),
            "msubsup" => Some(3),
            "mi" | "mn" | "mo" | "mtext" | "mspace" => Some(0),
            "math" | "mrow" | "msqrt" | "mtable" | "mtr" | "mtd" => None,
            other => panic!("{other} is not in use"),
        };
        assert!(wanted.is_none_or(|wanted| wanted == children), "{markup}");
    }
}

fn styles() -> impl Strategy<Value = Style> {
    (0..6_usize, any::<bool>(), any::<bool>()).prop_map(|(profile, dot, comma)| Style {
        notation: Notation::of(Profile::ALL[profile]),
        multiplication: if dot { Multiplication::Dot } else { Multiplication::Space },
        decimal_mark: if comma { DecimalMark::Comma } else { DecimalMark::Point },
        ..Style::default()
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1000, ..ProptestConfig::default() })]

    #[test]
    fn any_formula_prints_well_formed(expression in random(), style in styles()) {
        assert_well_formed(&mathml(&expression, &style));
        assert_well_formed(&mathml_block(&expression, &style));
        assert_balanced(&typst(&expression, &style), true);
        assert_balanced(&typst_aligned(&expression, &style), true);
        assert_latex_balanced(&latex(&expression, &style));
        assert_latex_balanced(&latex_aligned(&expression, &style));
        for spoken in [speech(&expression, &style), speech_in_words(&expression, &style)] {
            prop_assert!(!spoken.contains("  ") && !spoken.contains(",,"));
            prop_assert_eq!(spoken.matches("open bracket").count(), spoken.matches("close bracket").count());
        }
    }
}
