//! Feedback and review as PDF: held to PDF/UA-1, hostile words and all.

use crate::common::asked::{Set, all_sets};
use crate::common::structure::{checked, count};
use assessment::mark::{Answer, Decision, Marked, Marker, Units, Written};
use assessment::review::{self as figures, MarkedStudent, Review};
use assessment::set::{Ask, SetPaper};
use document::feedback::{Sheet, feedback};
use document::paper::{Form, Who};
use document::pdf::pdf;
use document::review::{ByHand, Class, review};
use document::tree::{Paper, Print};

/// The first value wrong by a known mistake, one answer that nobody can read, all else right or left out.
fn answered(set: &SetPaper) -> (Vec<(String, Answer)>, Marked) {
    let mut wrong = false;
    let answer = |ask: &Ask| match ask {
        Ask::Value(value) => {
            let known = value.mistakes.first().filter(|_| !std::mem::replace(&mut wrong, true));
            let value = known.map_or(value.right, |known| known.value);
            Answer::Value(Written::new(value, None).expect("a number"))
        }
        Ask::Place(_) => Answer::Unreadable("#strong[x] </p> \u{202e}عشرة".to_owned()),
        Ask::Choice(_) => Answer::Choice(0),
        Ask::Sketch { .. } => Answer::Blank,
    };
    let mut answer = answer;
    let answers: Vec<(String, Answer)> =
        set.parts().map(|part| (part.label.clone(), answer(&part.ask))).collect();
    let marked = Marker::new(set).expect("formulas of ours").mark(&answers).expect("its own labels");
    (answers, marked)
}

#[test]
fn feedback_is_accessible() {
    for Set { name, set } in all_sets().take(2) {
        let (answers, marked) = answered(&set);
        let written: Vec<String> = answers
            .iter()
            .map(|(_, answer)| match answer {
                Answer::Unreadable(raw) => raw.clone(),
                _ => String::new(),
            })
            .collect();
        let sheet = Sheet {
            paper: &set,
            handed_in: true,
            written: &written,
            unclear: &[],
            answers: &answers,
            marked: &marked,
            units: Units::Printed,
        };
        let who = Who { name: Some("Ada Example".into()), id: Some("0042".into()) };
        for print in [Print::Usual, Print::Large] {
            let document = feedback(&sheet, &who, &Form { print, ..Form::default() });
            let elements = checked(&document);
            assert!(count(&elements, "Figure") >= 3 && count(&elements, "Table") >= 1, "{name}");
            assert_eq!(pdf(&document).expect("a PDF").bytes, pdf(&document).expect("a PDF").bytes, "{name}");
        }
    }
}

#[test]
fn a_review_is_accessible() {
    let Set { name, set } = all_sets().next().expect("a lesson");
    let (answers, mut marked) = answered(&set);
    // What waits for a person leaves nobody with a total, and the class without figures.
    let waits = marked.parts.iter().filter(|judged| judged.marks().is_none());
    let decision =
        |part: &str| Decision { paper: String::new(), part: part.into(), marks: 0.5, note: String::new() };
    let decisions: Vec<Decision> = waits.map(|judged| decision(&judged.part)).collect();
    marked.decide("", &decisions).expect("its own parts");
    let student = MarkedStudent { student: "0042", paper: &set, answers: &answers, marked: &marked };
    let class = vec![student; 25];
    let document = review(
        &Class {
            paper: &set,
            papers: 25,
            figures: &Review::of(&figures::matrix(&class).expect("a matrix")),
            mistakes: &figures::mistakes(&figures::wrong_answers(&class)),
            likenesses: &figures::likeness(&figures::values(&class, Units::Printed)),
            by_hand: ByHand::default(),
        },
        Paper::A4,
    );
    let elements = checked(&document);
    assert!(count(&elements, "Table") >= 3, "{name}");
}
