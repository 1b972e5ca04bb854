//! Papers as PDF: held to PDF/UA-1, nothing parted that belongs together, each on sheets of its own.

use crate::common::asked::{LESSONS, QUESTIONS, Set, set_of};
use crate::common::structure::{Element, checked, count, elements, read};
use document::paper::{Form, Who, key, paper};
use document::pdf::{pdf, pdf_of_all};
use document::tree::{Document, Paper, Print};

fn set(name: &'static str) -> Set {
    let (_, text) = LESSONS.iter().find(|(known, _)| *known == name).expect("a lesson of ours");
    Set { name, set: set_of(name, text, QUESTIONS) }
}

fn who() -> Who {
    Who { name: Some("Ada Example".into()), id: Some("0042".into()) }
}

/// A heading and what follows it up to the next, with the pages of each.
fn under_headings(elements: &[Element]) -> Vec<Vec<&Element>> {
    let mut groups: Vec<Vec<&Element>> = Vec::new();
    for element in elements {
        if matches!(element.kind.as_str(), "H1" | "H2") {
            groups.push(Vec::new());
        }
        if let Some(group) = groups.last_mut() {
            group.push(element);
        }
    }
    groups
}

/// Two lessons, one with a crowd of loads; both sheets, both prints.
#[test]
fn a_question_is_not_parted_from_its_marks_nor_from_its_answer() {
    for Set { name, set } in [set("overhang"), set("lighting-bridge")] {
        for sheet in [Paper::A4, Paper::UsLetter] {
            for print in [Print::Usual, Print::Large] {
                let form = Form { sheet, print, ..Form::default() };
                let elements = checked(&paper(&set, &who(), &form));
                let groups = under_headings(&elements);
                // The first heading is that of what is given.
                let questions = &groups[1..];
                let several = set.questions.iter().map(|question| question.parts.len()).filter(|&n| n > 1);
                assert_eq!(questions.len(), set.questions.len() + several.sum::<usize>(), "{name}");
                for group in questions {
                    let pages: Vec<usize> =
                        group.iter().flat_map(|element| &element.pages).copied().collect();
                    let first = pages.first().expect("a heading is printed somewhere");
                    assert!(pages.iter().all(|page| page == first), "{name} {form:?}: {group:?}");
                }
                // The words of a question with parts keep to the first of them.
                for pair in questions.windows(2) {
                    let [whole, part] = pair else { continue };
                    if whole[0].kind == "H1" && part[0].kind == "H2" {
                        assert_eq!(whole[0].pages, part[0].pages, "{name} {form:?}");
                    }
                }
            }
        }
    }
}

#[test]
fn a_key_is_accessible() {
    for Set { name, set } in [set("overhang"), set("lintel")] {
        let elements = checked(&key(&set, &who(), &Form::default()));
        // A drawing for each kind of sketch: V with M, sigma with tau, the part beyond.
        assert_eq!(count(&elements, "Figure"), 3, "{name}");
        assert!(count(&elements, "Table") >= 5 && count(&elements, "Formula") >= 20, "{name}");
    }
}

fn pages(document: &Document) -> usize {
    read(&pdf(document).expect("a PDF").bytes).pages().len()
}

#[test]
fn papers_in_one_file_have_sheets_of_their_own() {
    let Set { set, .. } = set("overhang");
    let short = set_of("overhang", LESSONS[0].1, "[[question]]\nask = \"reaction at A\"\n");
    let all = [
        paper(&set, &who(), &Form::default()),
        paper(&short, &Who::default(), &Form::default()),
        key(&set, &who(), &Form::default()),
    ];
    let all: Vec<&Document> = all.iter().collect();
    let counts = all.iter().map(|document| pages(document));
    let even = |count: usize| count + count % 2;
    let counts: Vec<usize> = counts.collect();
    let made = pdf_of_all(&all, "Papers of a class", "class 1").expect("a PDF");
    let file = read(&made.all);
    assert_eq!(file.pages().len(), even(counts[0]) + even(counts[1]) + counts[2]);
    let elements = elements(&file);
    // Each begins where the one before it has left its last sheet.
    let begins: Vec<usize> = elements
        .iter()
        .filter(|element| element.kind == "Title")
        .filter_map(|element| element.pages.first().copied())
        .collect();
    assert_eq!(begins, [1, 1 + even(counts[0]), 1 + even(counts[0]) + even(counts[1])]);
    assert!(begins.iter().all(|page| page % 2 == 1));
    // Each by itself is as if it had been made alone.
    assert_eq!(made.each.len(), all.len());
    for (one, document) in made.each.iter().zip(&all) {
        let alone = pdf(document).expect("a PDF");
        assert!(one.bytes == alone.bytes, "{}", document.title);
        assert_eq!(one.replaced, alone.replaced);
    }
    // The same papers are the same bytes; another file of them is another file.
    assert_eq!(pdf_of_all(&all, "Papers of a class", "class 1").expect("a PDF").all, made.all);
    assert_ne!(pdf_of_all(&all, "Papers of a class", "class 2").expect("a PDF").all, made.all);
    assert_eq!(read(&pdf_of_all(&[], "Nothing", "nothing").expect("a PDF").all).pages().len(), 1);
}
