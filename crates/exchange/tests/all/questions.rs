//! The questions of a paper as items: the numbers are the graph's, what follows from earlier answers is credited, and a
//! platform is asked nothing that is drawn by hand.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on stops")]

use assessment::set::SetPaper;
use exchange::qti::{Answer, Given, Identifier, Package, Questions, Value, Version, left_out};

const ASKED: &str = r#"
[[question]]
ask = "shear stress on the cut"
steps = ["shear force at the slice", "second moment", "first moment at the cut", "width at the cut"]
marks = 2

[[question]]
ask = "largest shear force"
place = true
marks = 2

[[question]]
ask = "shear stress on the cut"
choose = 4
marks = 1

[[question]]
sketch = "bending moment"
marks = 3
"#;

fn set() -> SetPaper {
    let builtin = lesson::builtin::find("overhang").unwrap().text;
    let kept = builtin.split("[[question]]").next().unwrap();
    let reading = lesson::read(&format!("{kept}{ASKED}"), "overhang.toml");
    let findings: Vec<String> = reading.findings.iter().map(|finding| finding.render(false)).collect();
    let Some((lesson, solved)) = reading.lesson.zip(reading.solved) else { panic!("{findings:?}") };
    SetPaper::new(lesson, solved).unwrap()
}

fn questions() -> (SetPaper, Questions) {
    let set = set();
    let name = Identifier::new("paper-7KQ2").unwrap();
    let questions = Questions::of(&set, &name, &Given::default()).unwrap();
    (set, questions)
}

fn values(answers: &[Answer]) -> Vec<&Value> {
    let mut values = Vec::new();
    for answer in answers {
        if let Answer::Value(value) = answer {
            values.push(value);
        }
    }
    values
}

/// By hand: the first question has 2 marks and one for each of its four steps, the others 2, 1 and, for the drawing, 3.
#[test]
fn what_is_drawn_by_hand_is_told_to_be_left_out() {
    let said = left_out(&set().lesson).unwrap();
    assert_eq!(said, "Question 4 is drawn by hand and is not in the package, which has 9 of all 12 marks.");
    let mut lesson = set().lesson;
    lesson.questions.insert(0, lesson.questions[3].clone());
    let said = left_out(&lesson).unwrap();
    assert!(said.starts_with("Questions 1 and 5 are drawn by hand"), "{said}");
    assert!(said.ends_with("which has 9 of all 15 marks."), "{said}");
    lesson.questions.retain(|question| question.value().is_some());
    assert_eq!(left_out(&lesson), None);
}

#[test]
fn the_numbers_of_the_items_are_those_of_the_workings() {
    let (set, questions) = questions();
    assert_eq!(questions.by_hand, ["4"]);
    let names: Vec<&str> = questions.items.iter().map(|item| item.identifier.as_str()).collect();
    assert_eq!(names, ["paper-7KQ2-1", "paper-7KQ2-2", "paper-7KQ2-3"]);
    let of = |name: &str| set.solved.workings().get(name).unwrap().value.value;
    // In kN, 10^6 mm4, 10^3 mm3, mm and MPa.
    let wanted = [
        of("shear force at the slice") / 1e3,
        of("second moment") / 1e-6,
        of("first moment at the cut") / 1e-6,
        of("width at the cut") / 1e-3,
        of("shear stress on the cut") / 1e6,
    ];
    let found = values(&questions.items[0].answers);
    assert_eq!(found.len(), wanted.len());
    for (value, wanted) in found.iter().zip(wanted) {
        let near = |one: f64, other: f64| (one - other).abs() <= 1e-9 * other.abs();
        assert!(
            (0..12).any(|power| near(value.right * 10_f64.powi(power), wanted * 1e6)),
            "{value:?} {wanted}"
        );
        assert!(value.bounds.hold(value.right) && !value.bounds.hold(1.03 * value.right), "{value:?}");
    }
}

#[test]
fn what_follows_from_earlier_answers_is_credited() {
    let (_, questions) = questions();
    let all = values(&questions.items[0].answers);
    let followed: Vec<bool> = all.iter().map(|value| value.follow_through.is_some()).collect();
    // tau = V Q / (I t) follows from the four before it. Q hangs on the centroid as I does, not on I itself.
    assert_eq!(followed, [false, false, false, false, true]);
    assert!(!all[4].mistakes.is_empty());
}

#[test]
fn they_make_a_sound_package_in_both_versions() {
    let (_, questions) = questions();
    let package = Package {
        identifier: Identifier::new("overhang").unwrap(),
        title: "A hoist rail over a loading bay".to_owned(),
        items: questions.items,
        left_out: None,
    };
    for version in [Version::Qti21, Version::Qti30] {
        // The package looks at each follow-through again: from right answers it must give the right value, also where
        // products are rounded to three decimals.
        package.zip(version).unwrap();
    }
}

#[test]
fn a_choice_has_one_right_alternative_and_says_why_the_others_are_wrong() {
    let (_, questions) = questions();
    let [Answer::Choice(choice)] = questions.items[2].answers.as_slice() else { panic!("a choice") };
    assert_eq!(choice.alternatives.len(), 4);
    let right =
        choice.alternatives.iter().filter(|alternative| alternative.marks != Default::default()).count();
    assert_eq!(right, 1);
    assert!(choice.alternatives.iter().all(|alternative| !alternative.feedback.is_empty()));
}
