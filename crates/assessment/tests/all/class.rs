//! The papers of a class side by side.

use crate::common::{reference_with, solved};
use assessment::fair::{
    Class, ClassTable, Course, Feature, Judge, Judgement, MOST_CONDITION, Paper, Path, Reason, verdict,
};

const ASKED: [&str; 3] = ["shear force at the slice", "second moment", "shear stress on the cut"];

fn paper(label: &str, values: &[(&str, &str)]) -> Paper {
    let papers = reference_with(values);
    let solved = solved(&papers);
    let judge = Judge::new(&solved, Course::of(papers.lesson()));
    let judgements = ASKED.iter().map(|asked| judge.judge(asked).expect("a working")).collect();
    Paper { label: label.to_owned(), variant: String::new(), path: Path::of(&solved, &ASKED), judgements }
}

/// By hand: V = (3 P + 40)/4 kN is 25, 28, 31 and 25.12 kN for these P; I is 11.25e6 mm4 on every paper.
#[test]
fn a_class_in_numbers() {
    let papers = [
        paper("A", &[]),
        paper("B", &[("P", "24 kN")]),
        paper("C", &[("P", "28 kN")]),
        paper("D", &[("P", "20.16 kN")]),
    ];
    let table = ClassTable::of(&papers);
    assert_eq!(table.papers, 4);
    let v = &table.rows[0];
    let near = |found: f64, expected: f64| assert!((found - expected).abs() <= 1e-9 * expected, "{found}");
    near(v.right.min, 25e3);
    near(v.right.median, 0.5 * (25.12e3 + 28e3));
    near(v.right.max, 31e3);
    near(v.half_width.max, 0.01 * 31e3);
    // V of 25.12 kN is within 1 % of 25 kN and tau with it; I is the same on all.
    let shared: Vec<(&str, String)> =
        table.shared.iter().map(|shared| (shared.working.as_str(), shared.papers.concat())).collect();
    assert_eq!(shared, [(ASKED[0], "AD".into()), (ASKED[1], "ABCD".into()), (ASKED[2], "AD".into())]);
    // Four figures in the place of two.
    assert_eq!(table.other_ways.len(), 1);
    assert_eq!(
        (table.other_ways[0].paper.as_str(), &table.other_ways[0].features[..]),
        ("D", &[Feature::DataFigures][..])
    );
    let json = serde_json::to_value(&table).expect("it can be written");
    assert_eq!(json["rows"][1]["working"], "second moment");
    assert_eq!(json["other_ways"][0]["features"][0], "data-figures");
    assert_eq!(json["path"], papers[0].path.digest());
}

#[test]
fn a_class_of_no_papers_is_an_empty_table() {
    assert_eq!(ClassTable::of(&[]), ClassTable::default());
    assert!(Class::of(&[]).is_none());
}

/// Source: the unit's notes on assessment, section 4: the same way, and condition numbers within a factor of two.
#[test]
fn a_paper_unlike_its_class_is_told() {
    let usual = [paper("A", &[]), paper("B", &[("P", "24 kN")])];
    let class = Class::of(&usual).expect("two papers");
    for paper in &usual {
        assert!(verdict(&paper.judgements, &paper.path, Some(&class)).may_be_given());
    }
    // Past the force V = 5 kN is a difference of 25 and 20 kN.
    let other = paper("C", &[("x", "1.5 m")]);
    let found = verdict(&other.judgements, &other.path, Some(&class));
    let conditions: Vec<Option<&str>> = found
        .reasons
        .iter()
        .filter(|reason| matches!(reason, Reason::OtherCondition { .. }))
        .map(Reason::working)
        .collect();
    assert_eq!(conditions, [Some(ASKED[0]), Some(ASKED[2])]);
    let ways = found.reasons.iter().any(
        |reason| matches!(reason, Reason::OtherPath { features } if features.contains(&Feature::LeftOfSlice)),
    );
    assert!(ways, "{:?}", found.reasons);
}

/// What is exactly at a bound passes it, and what is not a number does not.
#[test]
fn a_condition_number_at_its_limit() {
    let Paper { path, mut judgements, .. } = paper("A", &[]);
    let reasons = |judgements: &[Judgement]| verdict(judgements, &path, None).reasons.len();
    judgements[0].condition = MOST_CONDITION;
    assert_eq!(reasons(&judgements), 0);
    judgements[0].condition = MOST_CONDITION * 1.01;
    assert_eq!(reasons(&judgements), 1);
    judgements[0].condition = f64::NAN;
    assert_eq!(reasons(&judgements), 1);
    judgements[0].condition = 3.0;
    judgements[1].carried.band = judgements[1].tolerance;
    assert_eq!(reasons(&judgements), 0);
    judgements[1].carried.band = f64::INFINITY;
    let told = verdict(&judgements, &path, None).reasons[0].to_string();
    assert_eq!(told, "second moment: rounding on the way leads anywhere");
}

/// By hand: a flange of 30 mm on a web of 30 mm hides `depth-for-width` on each paper, as only the force varies.
#[test]
fn what_no_paper_shows_does_not_count_against_one_of_them() {
    let thick = |label, p| paper(label, &[("t", "30 mm"), ("P", p)]);
    let papers = [thick("A", "20 kN"), thick("B", "24 kN")];
    let class = Class::of(&papers).expect("two papers");
    let table = ClassTable::of(&papers);
    let told: Vec<&str> = table.hidden_on_all.iter().map(|hides| hides.mistake.as_str()).collect();
    assert!(told.contains(&"depth-for-width"), "{told:?}");
    for paper in &papers {
        assert!(!verdict(&paper.judgements, &paper.path, None).may_be_given());
        let found = verdict(&paper.judgements, &paper.path, Some(&class));
        assert!(found.may_be_given(), "{:?}", found.reasons);
    }
    // Beside a paper that shows it, it does.
    let mixed = [thick("A", "20 kN"), paper("B", &[])];
    let class = Class::of(&mixed).expect("two papers");
    assert!(!verdict(&mixed[0].judgements, &mixed[0].path, Some(&class)).may_be_given());
}
