//! Wrong answers that belong to somebody else's numbers.

use assessment::review::{Belonging, CAUTION, GivenValue, Likenesses, StudentValues, likeness};

/// A class in which the right value of item j on paper i is 100 (j + 1) + 1.7 i, and the one known mistake doubles it.
fn class(students: usize, items: usize) -> Vec<StudentValues> {
    let paper = |student: usize| {
        let right = |item: usize| 100.0 * (item + 1) as f64 + 1.7 * student as f64;
        StudentValues {
            student: format!("s{student}"),
            given: (0..items).map(|item| Some(given(right(item), false))).collect(),
            belonging: (0..items)
                .map(|item| Some(Belonging { right: right(item), wrong: vec![2.0 * right(item)] }))
                .collect(),
        }
    };
    (0..students).map(paper).collect()
}

fn given(value: f64, wrong: bool) -> GivenValue {
    GivenValue { value, half_place: 0.05, wrong }
}

/// The right value on another's paper, or its double.
fn of_another(class: &[StudentValues], other: usize, item: usize, factor: f64) -> Option<GivenValue> {
    class[other].belonging[item].as_ref().map(|belonging| given(factor * belonging.right, true))
}

fn pairs(found: &Likenesses) -> Vec<(&str, &str)> {
    found.found.iter().map(|pair| (pair.student.as_str(), pair.other.as_str())).collect()
}

#[test]
fn another_s_right_and_wrong_values_are_found_and_the_chance_is_told() {
    let mut all = class(30, 4);
    all[3].given = vec![
        of_another(&all, 17, 0, 1.0),
        of_another(&all, 17, 1, 1.0),
        of_another(&all, 17, 2, 2.0),
        Some(given(1.0, true)),
    ];
    let found = likeness(&all);
    assert_eq!(pairs(&found), [("s3", "s17")]);
    let pair = &found.found[0];
    assert_eq!((pair.right.as_slice(), pair.wrong.as_slice(), pair.looked_at), (&[0, 1][..], &[2][..], 4));
    assert_eq!((found.answers, found.pairs, found.single, found.caution), (4, 29, 0, CAUTION));
    // By hand: no other of 28 papers has any of the values, so each has the chance 1/30; three or four of four by chance.
    let p = 1.0 / 30.0_f64;
    let expected = 29.0 * (4.0 * p.powi(3) * (1.0 - p) + p.powi(4));
    assert!((pair.by_chance - expected).abs() <= 1e-12 * expected, "{} {expected}", pair.by_chance);
}

#[test]
fn what_the_student_s_own_paper_explains_says_nothing() {
    let mut all = class(10, 3);
    // Paper 5 has the numbers of paper 4: what is wrong for the known reason on both belongs to one's own paper first.
    all[5].belonging = all[4].belonging.clone();
    all[5].given = (0..3).map(|item| of_another(&all, 4, item, 2.0)).collect();
    let found = likeness(&all);
    assert_eq!((found.answers, found.found.len(), found.single), (0, 0, 0));
}

#[test]
fn a_single_answer_and_a_number_that_many_have_are_worth_little() {
    let mut all = class(30, 3);
    all[3].given[0] = of_another(&all, 17, 0, 1.0);
    let found = likeness(&all);
    assert_eq!((found.found.len(), found.single), (0, 1));
    // Half of the papers have the same two values: then two in common are what chance makes.
    for student in (1..30).step_by(2) {
        for item in 0..2 {
            all[student].belonging[item] = Some(Belonging { right: 50.0, wrong: Vec::new() });
        }
    }
    all[4].given = vec![Some(given(50.0, true)), Some(given(50.0, true)), None];
    let found = likeness(&all);
    let chance = found.found.iter().filter(|pair| pair.student == "s4").map(|pair| pair.by_chance);
    assert!(
        chance.clone().count() == 15 && chance.clone().all(|by_chance| by_chance > 5.0),
        "{:?}",
        chance.collect::<Vec<_>>()
    );
}

#[test]
fn a_class_without_answers_and_odd_values_are_no_fault() {
    assert_eq!(likeness(&[]).pairs, 0);
    let mut all = class(3, 2);
    all[0].given = vec![Some(given(f64::NAN, true)), Some(given(f64::INFINITY, true))];
    all[1].given = Vec::new();
    all[2].belonging = vec![None];
    let found = likeness(&all);
    assert!(found.found.is_empty());
}
