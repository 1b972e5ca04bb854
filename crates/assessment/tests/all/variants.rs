//! Papers of a lesson whose shape of section and supports vary, and what is preferred among draws that fit.

use crate::common::papers;
use assessment::fair::{ClassTable, Paper, pairs_alike};
use assessment::issue::Issue;
use assessment::ledger::Ledger;
use assessment::secret::ExamSecret;
use std::collections::BTreeSet;

const HEAD: &str = r#"
title = "Shapes and supports"
units = "kN-cm"
[values]
P = "10 kN"
[vary]
P = { from = "6 kN", to = "14 kN", step = "1 kN" }
[beam]
length = "5 m"
supports = [{ pin = "0 m" }, { roller = "5 m" }]
loads = [{ force = "P", at = "2 m" }]
[material]
E = "210 GPa"
[section]
shape = "I"
width = "10 cm"
height = "20 cm"
flange-thickness = "12 mm"
web-thickness = "8 mm"
[slice]
at = "1 m"
length = "2 cm"
[cut]
at = "bottom of top flange"
side = "below"
"#;

const VARIANTS: &str = r#"
[[variant]]
of = "the section"
name = "I"
[[variant]]
of = "the section"
name = "box"
[variant.section]
shape = "box"
width = "10 cm"
height = "20 cm"
flange-thickness = "12 mm"
web-thickness = "4 mm"
[variant.cut]
at = "bottom of top"
side = "below"
"#;

const QUESTIONS: &str = r#"
[[question]]
ask = "reaction at A"
[[question]]
ask = "second moment"
[[question]]
ask = "shear stress on the cut"
"#;

fn given(text: &str, students: usize) -> (Issue, Vec<Paper>) {
    let issue = Issue::new(papers(text));
    let secret = ExamSecret::new(b"a secret of the term for tests alone").expect("long enough");
    let mut ledger = Ledger::new::<ExamSecret>("a lesson", issue.space().clone());
    let ids: Vec<String> = (100..100 + students).map(|id| id.to_string()).collect();
    let ids: Vec<&str> = ids.iter().map(String::as_str).collect();
    issue.give(&secret, &mut ledger, &ids, &|_| {}).unwrap_or_else(|fault| {
        panic!("{fault}: {:?}", issue.refused_of_sample().why);
    });
    let found = ledger.papers().filter_map(|(_, entry)| issue.look(&entry.draw).paper.clone()).collect();
    (issue, found)
}

/// Every variant comes, and within each all papers go one way; between them the ways differ.
#[test]
fn papers_of_a_variant_go_one_way() {
    let (issue, all) = given(&format!("{HEAD}{VARIANTS}{QUESTIONS}"), 12);
    let variants: BTreeSet<&str> = all.iter().map(|paper| paper.variant.as_str()).collect();
    assert_eq!(variants, ["the section: I", "the section: box"].into());
    for one in &all {
        let same = all.iter().filter(|other| other.variant == one.variant);
        assert!(same.into_iter().all(|other| other.path == one.path));
    }
    let table = ClassTable::of(&all);
    assert!(table.other_ways.is_empty(), "{:?}", table.other_ways);
    assert_eq!(table.variants.len(), 2);
    assert_eq!(table.variants.iter().map(|of| of.papers).sum::<usize>(), 12);
    assert!(issue.never_drawn().is_empty());
}

/// A requirement that a variant never meets.
#[test]
fn a_variant_that_never_comes_is_named_with_the_reason() {
    let text = format!("{HEAD}{VARIANTS}{QUESTIONS}[papers]\nrequire = [\"width at the cut > 0.85 cm\"]\n");
    let text = text.replace("web-thickness = \"8 mm\"", "web-thickness = \"9 mm\"");
    let (issue, all) = given(&text, 6);
    assert!(all.iter().all(|paper| paper.variant == "the section: I"));
    let never = issue.never_drawn();
    assert_eq!(never.len(), 1);
    assert_eq!((never[0].variant.as_str(), never[0].draws), ("the section: box", 9));
    assert!(never[0].why[0].reason.contains("width at the cut"), "{:?}", never[0].why);
}

/// Source: the unit's notes on assessment, section 4: condition numbers within a factor of two, over the whole class.
#[test]
fn condition_numbers_are_within_a_factor_of_two_of_one_another() {
    let text = format!("{HEAD}{QUESTIONS}")
        .replace("P = { from", "a = { from = \"1.5 m\", to = \"4.75 m\", step = \"0.25 m\" }\nP = { from");
    let text =
        text.replace("P = \"10 kN\"", "P = \"10 kN\"\na = \"2 m\"").replace("at = \"2 m\" }", "at = \"a\" }");
    let (_, all) = given(&text, 20);
    let sampled: Vec<Paper> =
        Issue::new(papers(&text)).sampled().iter().filter_map(|one| one.paper.clone()).collect();
    let ratio = |papers: &[Paper]| {
        let table = ClassTable::of(papers);
        table.rows.iter().map(|row| row.condition.max / row.condition.min).fold(1.0, f64::max)
    };
    assert!(ratio(&all) <= 2.001, "{}", ratio(&all));
    // Not by itself: near the right support R_A answers strongly to the place of the force.
    assert!(ratio(&sampled) > 2.5, "{}", ratio(&sampled));
}

/// Nine forces, and a length of the slice that changes no answer: as long as there are other forces no two papers have the same answers.
#[test]
fn answers_are_spread_before_any_comes_again() {
    let text = format!("{HEAD}{QUESTIONS}")
        .replace("[vary]", "[vary]\ns = { from = \"1 cm\", to = \"8 cm\", step = \"1 cm\" }")
        .replace("P = \"10 kN\"", "P = \"10 kN\"\ns = \"2 cm\"")
        .replace("length = \"2 cm\"", "length = \"s\"");
    let (_, all) = given(&text, 6);
    let reactions: BTreeSet<u64> = all.iter().map(|paper| paper.judgements[0].right.to_bits()).collect();
    assert_eq!(reactions.len(), 6);
}

/// Where other draws keep them apart, mistakes of one value are rare on the papers that are given.
#[test]
fn mistakes_are_kept_apart_where_they_can_be() {
    let text = crate::common::JETTY;
    let (issue, all) = given(text, 12);
    let pairs = |papers: &[Paper]| {
        papers.iter().map(|paper| pairs_alike(paper).len()).sum::<usize>() as f64 / papers.len() as f64
    };
    let fitting: Vec<Paper> =
        issue.sampled().iter().filter(|one| one.fits()).filter_map(|one| one.paper.clone()).collect();
    assert!(pairs(&fitting) > 0.0);
    assert!(pairs(&all) < 0.75 * pairs(&fitting), "{} of {}", pairs(&all), pairs(&fitting));
}
