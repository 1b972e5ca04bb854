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

/// The notes and the sheet print the lesson's own numbers worked.
#[test]
fn what_the_lesson_works_out_is_not_asked() {
    for (name, numbers) in [("boat-shed", 40), ("short-joist", 40), ("walkway", 20)] {
        let papers = papers(name);
        let own = papers.lesson();
        let given = |number| practice_paper(&papers, number).unwrap().lesson.problem;
        let worked: Vec<u32> = (1..=numbers).filter(|&number| given(number) == own.problem).collect();
        assert!(worked.is_empty(), "{name}: {worked:?}");
    }
}

/// A plank of which P is 4 kN in the notes: where a paper may have but one other load, every number has that one; where
/// none other, the questions are asked as they are.
#[test]
fn of_two_draws_practice_has_the_other_and_of_one_that_one() {
    let text = |loads: &str, only: &str| {
        format!(
            "title = \"A plank\"\n[values]\nP = \"4 kN\"\n[vary]\nP = {loads}\n{only}[beam]\nlength = \"4 m\"\n\
             supports = [{{ pin = \"0 m\" }}, {{ roller = \"4 m\" }}]\nloads = [{{ force = \"P\", at = \"1 m\" }}]\n\
             [material]\nE = \"11 GPa\"\n[section]\nshape = \"rectangle\"\nwidth = \"60 mm\"\nheight = \"100 mm\"\n\
             [slice]\nat = \"0.5 m\"\nlength = \"20 mm\"\n[cut]\nat = \"neutral axis\"\n[[question]]\nask = \"reaction at A\"\n"
        )
    };
    let reaction = |text: &str, number| {
        let papers = Papers::read(text, "plank.toml").unwrap();
        rights(&practice_paper(&papers, number).unwrap())[0].abs()
    };
    // Moments about B: R_A = P 3/4.
    let two = text("[\"4000 N\", \"6 kN\"]", "");
    let one = text("[\"4 kN\", \"6 kN\"]", "[papers]\nonly = [{ P = \"4 kN\" }]\n");
    for number in 1..=6 {
        assert!((reaction(&two, number) - 4500.0).abs() < 1e-6, "{}", reaction(&two, number));
        assert!((reaction(&one, number) - 3000.0).abs() < 1e-6, "{}", reaction(&one, number));
    }
}

#[test]
fn a_lesson_without_questions_says_so() {
    let text = lesson::builtin::find("conveyor").unwrap().text;
    let silent = text.split("[[question]]").next().unwrap();
    let papers = Papers::read(silent, "silent.toml").unwrap();
    assert_eq!(practice_paper(&papers, 1).unwrap_err(), NoPractice::NoQuestions);
}
