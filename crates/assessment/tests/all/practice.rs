//! Papers to practise with.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on stops")]

use assessment::issue::{Issue, NoPractice, practice_paper};
use assessment::ledger::Ledger;
use assessment::secret::ExamSecret;
use assessment::set::{Ask, SetPaper};
use lesson::papers::Papers;

fn papers(name: &str) -> Papers {
    Papers::read(lesson::builtin::find(name).unwrap().text, name).unwrap()
}

fn rights(set: &SetPaper) -> Vec<f64> {
    let right = |ask: &Ask| match ask {
        Ask::Value(value) => Some(value.right),
        Ask::Choice(choice) => Some(choice.value.right),
        _ => None,
    };
    set.parts().filter_map(|part| right(&part.ask)).collect()
}

#[test]
fn every_lesson_of_ours_can_be_practised_and_a_number_gives_the_same_paper_again() {
    for lesson in lesson::builtin::ALL {
        let papers = papers(lesson.name);
        let first = practice_paper(&papers, 7).unwrap();
        assert_eq!(rights(&first), rights(&practice_paper(&papers, 7).unwrap()), "{}", lesson.name);
        for requirement in &papers.lesson().requirements {
            assert!(requirement.is_met(first.solved.workings()).unwrap(), "{}", requirement.written);
        }
    }
}

#[test]
fn other_numbers_give_other_papers() {
    let papers = papers("conveyor");
    let all: Vec<_> = (1..=8).map(|number| rights(&practice_paper(&papers, number).unwrap())).collect();
    for (place, one) in all.iter().enumerate() {
        let same = all[..place].iter().filter(|other| *other == one).count();
        assert!(same <= 1, "of 8 papers out of some hundreds hardly any two are alike");
    }
}

/// The very bytes that draw practice papers, taken as the secret of an exam for students of the same names, draw others.
#[test]
fn nobody_finds_an_exam_by_practising() {
    let papers = papers("conveyor");
    let exam = ExamSecret::new(b"practice papers are drawn for everybody").unwrap();
    let issue = Issue::new(papers.clone());
    let mut ledger = Ledger::new::<ExamSecret>(&papers.lesson().about.title, issue.space().clone());
    let names: Vec<String> = (1..=6).map(|number: u32| number.to_string()).collect();
    let students: Vec<&str> = names.iter().map(String::as_str).collect();
    issue.give(&exam, &mut ledger, &students, &|_| ()).unwrap();
    let same = students.iter().filter(|student| {
        let exam = papers.reading(&ledger.paper(student).unwrap().draw).unwrap();
        let exam = SetPaper::new(exam.lesson.unwrap(), exam.solved.unwrap()).unwrap();
        rights(&exam) == rights(&practice_paper(&papers, student.parse().unwrap()).unwrap())
    });
    assert!(same.count() <= 1);
}

#[test]
fn a_lesson_without_questions_says_so() {
    let text = lesson::builtin::find("conveyor").unwrap().text;
    let silent = text.split("[[question]]").next().unwrap();
    let papers = Papers::read(silent, "silent.toml").unwrap();
    assert_eq!(practice_paper(&papers, 1).unwrap_err(), NoPractice::NoQuestions);
}
