//! From a class that was marked to its review.

use assessment::mark::{Answer, Marked, Marker, Units, Written};
use assessment::review::{MarkedStudent, Review, likeness, matrix, mistakes, values, wrong_answers};
use assessment::set::{Ask, SetPaper, ValuePart};

fn paper(questions: &str) -> SetPaper {
    let conveyor = lesson::builtin::find("conveyor").expect("a lesson of ours").text;
    let start = conveyor.find("[[question]]").expect("a lesson that asks");
    let reading = lesson::read(&format!("{}{questions}", &conveyor[..start]), "conveyor.toml");
    let (lesson, solved) = reading.lesson.zip(reading.solved).expect("a sound lesson");
    SetPaper::new(lesson, solved).expect("all of its questions can be set")
}

fn value(paper: &SetPaper, at: usize) -> &ValuePart {
    match paper.parts().nth(at).map(|part| &part.ask) {
        Some(Ask::Value(value)) => value,
        other => panic!("no value: {other:?}"),
    }
}

/// A number of four figures, in SI.
fn written(value: f64) -> Answer {
    let rounded: f64 = format!("{value:.3e}").parse().expect("a number");
    Answer::Value(Written::new(rounded, Some(5e-4 * rounded.abs())).expect("a number"))
}

#[test]
fn a_class_that_was_marked_is_reviewed() {
    let set = paper(
        "[[question]]\nask = \"shear stress on the cut\"\nsteps = [\"second moment\", \"first moment at the cut\"]\nstep-marks = 1\n",
    );
    let right = |at: usize| written(value(&set, at).right);
    let tau = value(&set, 2);
    let known =
        tau.mistakes.iter().find(|known| known.made_at == tau.working).expect("a mistake made at tau");
    let sheets: Vec<(&str, Vec<(String, Answer)>)> = vec![
        ("A", vec![("1a".into(), right(0)), ("1b".into(), right(1)), ("1c".into(), right(2))]),
        ("B", vec![("1a".into(), right(0)), ("1b".into(), right(1)), ("1c".into(), written(known.value))]),
        (
            "C",
            vec![
                ("1a".into(), Answer::Unreadable("smudged".into())),
                ("1c".into(), written(2.357 * tau.right)),
            ],
        ),
    ];
    let mut marker = Marker::new(&set).expect("its formulas can be evaluated");
    let marked: Vec<Marked> =
        sheets.iter().map(|(_, answers)| marker.mark(answers).expect("its own parts")).collect();
    let class: Vec<MarkedStudent<'_>> = sheets
        .iter()
        .zip(&marked)
        .map(|((student, answers), marked)| MarkedStudent { student, paper: &set, answers, marked })
        .collect();

    let review = Review::of(&matrix(&class).expect("a matrix"));
    assert_eq!((review.students, review.complete), (3, 2), "what is smudged waits for a person");
    assert_eq!(
        (review.items[0].label.as_str(), review.items[0].not_marked, review.items[0].full),
        ("1a", 1, 2)
    );
    assert_eq!((review.items[1].blank, review.items[1].full), (1, 2));
    assert_eq!(review.items[2].full, 1);

    let wrong = wrong_answers(&class);
    assert_eq!(wrong.iter().map(|answer| answer.student.as_str()).collect::<Vec<_>>(), ["B", "C"]);
    assert!(wrong.iter().all(|answer| answer.item == "1c" && answer.scene == "shear"), "{wrong:?}");
    let counted = mistakes(&wrong);
    assert_eq!(counted.wrong, 2);
    assert!(counted.made.len() <= 1 && counted.first.len() == 2);

    // All have one paper, so nothing belongs to another.
    let found = likeness(&values(&class, Units::Printed));
    assert_eq!((found.papers, found.pairs, found.answers), (1, 0, 1));
}

/// M over B and I are both wrong: the diagrams come before the section, in the solution as on the paper, although the section is needed for the
/// rigidity of the beam on three supports, which falls out.
#[test]
fn what_comes_first_in_the_solution_is_told_first() {
    let asked = ["second moment", "bending moment at B", "reaction at A"];
    let set = paper(&asked.map(|ask| format!("[[question]]\nask = \"{ask}\"\n")).concat());
    let first = |wrong: &[&str]| {
        let answers: Vec<(String, Answer)> = set
            .parts()
            .enumerate()
            .map(|(at, part)| {
                let factor = if wrong.contains(&part.label.as_str()) { 1.37 } else { 1.0 };
                (part.label.clone(), written(factor * value(&set, at).right))
            })
            .collect();
        let marked = Marker::new(&set).expect("formulas of ours").mark(&answers).expect("its own parts");
        let class = [MarkedStudent { student: "A", paper: &set, answers: &answers, marked: &marked }];
        mistakes(&wrong_answers(&class)).first[0].item.clone()
    };
    assert_eq!(first(&["1", "2"]), "2");
    assert_eq!(first(&["1", "2", "3"]), "3");
    assert_eq!(first(&["1"]), "1");
}

/// A lost sign, of a reaction or of V, and a lost power of ten are slips: no scene of the lecture teaches against the power of ten, and
/// that in which the sign is settled against the sign. A load left out is no slip.
#[test]
fn a_slip_has_no_scene_but_that_of_its_sign() {
    let asked = ["reaction at A", "shear force at the slice", "bending moment at B"];
    let set = paper(&asked.map(|ask| format!("[[question]]\nask = \"{ask}\"\n")).concat());
    let told = |label: &str, factor: f64| {
        let at = set.parts().position(|part| part.label == label).expect("a part");
        let answers = vec![(label.to_owned(), written(factor * value(&set, at).right))];
        let marked = Marker::new(&set).expect("formulas of ours").mark(&answers).expect("its own parts");
        let class = [MarkedStudent { student: "A", paper: &set, answers: &answers, marked: &marked }];
        let wrong = wrong_answers(&class);
        let [one] = wrong.as_slice() else { panic!("{wrong:?}") };
        (one.mistake.clone().unwrap_or_default(), one.is_slip, one.scene.clone())
    };
    let slip = |name: &str, scene: &str| (name.to_owned(), true, scene.to_owned());
    assert_eq!(told("1", -1.0), slip("sign", "reactions"));
    assert_eq!(told("1", 1e3), slip("power-of-ten", ""));
    assert_eq!(told("2", -1.0), slip("v-sign", "diagrams"));
    // Which way the beam bends over B is more than a sign.
    assert_eq!(told("3", -1.0), ("hogging-as-sagging".to_owned(), false, "diagrams".to_owned()));
    // Each span alone: 4/3 of 3 w L / 8.
    assert_eq!(told("1", 4.0 / 3.0), ("each-span-alone".to_owned(), false, "reactions".to_owned()));
}

/// A load that lies on a part of the beam only, taken to act at its start when the reactions are found, and with its whole length as its
/// arm when the moment at the slice is: each is taught in the scene in which it is made, whatever was asked for.
#[test]
fn the_scene_to_teach_is_that_in_which_the_mistake_is_made() {
    let text = include_str!("../lessons/class.toml");
    let start = text.find("[[question]]").expect("a lesson that asks");
    let text = format!(
        "{}[[question]]\nask = \"reaction at B\"\n[[question]]\nask = \"bending moment at the slice\"\n",
        text[..start]
            .replace("at = \"0.75 m\"", "at = \"3 m\"")
            .replace("from = \"2 m\", to = \"4 m\"", "from = \"1.7 m\", to = \"3.6 m\"")
    );
    let reading = lesson::read(&text, "class.toml");
    let (lesson, solved) =
        reading.lesson.zip(reading.solved).unwrap_or_else(|| panic!("{:?}", reading.findings));
    let set = SetPaper::new(lesson, solved).expect("its questions can be set");
    for (mistake, expected) in
        [("spread-load-at-its-start", "reactions"), ("spread-load-full-arm", "diagrams")]
    {
        let found = set.parts().enumerate().find_map(|(at, part)| {
            let known = value(&set, at).mistakes.iter().find(|known| known.mistake == mistake)?;
            Some((part.label.clone(), known.value))
        });
        let (label, wrong) = found.unwrap_or_else(|| panic!("{mistake} can be made here"));
        let answers = vec![(label, written(wrong))];
        let marked = Marker::new(&set).expect("formulas of ours").mark(&answers).expect("its own parts");
        let class = [MarkedStudent { student: "A", paper: &set, answers: &answers, marked: &marked }];
        let [one] = &wrong_answers(&class)[..] else { panic!("one is wrong") };
        assert_eq!((one.mistake.as_deref(), one.scene.as_str()), (Some(mistake), expected));
    }
}
