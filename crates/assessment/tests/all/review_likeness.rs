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
    found.found.iter().map(|pair| (pair.student.as_str(), pair.others[0].as_str())).collect()
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
    assert_eq!(
        pair.words(),
        "of 4 wrong answers of s3 that nothing on the own paper explains, 2 are right and 1 are known mistakes on the paper of s17; \
         chance alone makes about 4e-3 such pairs in a class like this one"
    );
}

/// In an exam of two forms everybody has one of two papers: an answer that belongs to the other form belongs to all who have it.
#[test]
fn students_with_one_form_have_one_paper() {
    let two = class(2, 3);
    let mut all: Vec<StudentValues> =
        (0..20).map(|at| StudentValues { student: format!("s{at}"), ..two[at % 2].clone() }).collect();
    all[4].given = (0..3).map(|item| of_another(&two, 1, item, 1.0)).collect();
    let found = likeness(&all);
    assert_eq!((found.papers, found.pairs, found.found.len()), (2, 1, 1));
    assert_eq!((found.found[0].others.len(), found.found[0].right.len()), (10, 3));
    // By hand: no third paper tells how common such numbers are, so each has the chance 1/2.
    assert_eq!(found.found[0].by_chance, 0.125);
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

/// The chance that stands beside a pair is honest: of classes in which nobody knows of anybody, so that all likeness is chance, at most
/// about one in twenty shows a pair of which chance makes less than 0.05.
#[test]
fn in_classes_without_any_likeness_rare_pairs_are_as_rare_as_they_are_said_to_be() {
    const CLASSES: usize = 200;
    let mut state = 1_u64;
    // Knuth's linear congruential generator (MMIX), its upper bits.
    let mut below = |n: u64| {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) % n
    };
    let mut rare = 0;
    for _ in 0..CLASSES {
        // Right values and wrong answers come from the same few values of each item, as from numbers of a lesson that vary in steps.
        let kinds: Vec<u64> = (0..8).map(|_| 3 + below(40)).collect();
        let class: Vec<StudentValues> = (0..60)
            .map(|at| StudentValues {
                student: at.to_string(),
                given: kinds.iter().map(|&n| Some(given(100.0 + below(n) as f64, below(2) == 0))).collect(),
                belonging: kinds
                    .iter()
                    .map(|&n| {
                        Some(Belonging {
                            right: 100.0 + below(n) as f64,
                            wrong: vec![100.0 + below(n) as f64],
                        })
                    })
                    .collect(),
            })
            .collect();
        rare += usize::from(likeness(&class).found.first().is_some_and(|pair| pair.by_chance < 0.05));
    }
    // Three standard deviations above one in twenty: 10 + 3 · sqrt(200 · 0.05 · 0.95).
    assert!(rare <= 19, "{rare} of {CLASSES} classes show a pair that is said to be rare");
}
