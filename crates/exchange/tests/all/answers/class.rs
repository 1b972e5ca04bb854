//! Papers and their answers, as the tests put them.

use assessment::set::AnswerUnit;
use exchange::answers::{
    self, Answers, AskedOn, Chosen, Decisions, DoubtKind, Habit, Kind, Number, PaperAsked, PartAsked, Read,
    Signs,
};
use workings::unit::Unit;

pub fn unit(text: &str, power: i32) -> AnswerUnit {
    let unit = if text.is_empty() { Unit::NONE } else { Unit::read(text).expect("a unit") };
    AnswerUnit { unit, power }
}

pub fn value(label: &str, text: &str, power: i32, signs: Signs) -> PartAsked {
    PartAsked {
        label: label.into(),
        kind: Kind::Value { unit: unit(text, power), signs },
        about: None,
        on: AskedOn::Paper,
    }
}

pub fn stress(label: &str) -> PartAsked {
    value(label, "MPa", 0, Signs::None)
}

pub fn paper(student: &str, number: &str, parts: Vec<PartAsked>) -> PaperAsked {
    PaperAsked { student: student.into(), paper: number.into(), parts }
}

fn megapascals(number: u32) -> Chosen {
    Chosen { value: 1e6 * f64::from(number), printed: format!("{number} MPa") }
}

/// Two students, a chain of two steps and a choice.
pub fn class() -> Vec<PaperAsked> {
    let parts = || {
        vec![
            value("1", "kN", 0, Signs::Upward),
            stress("2a"),
            value("2b", "mm⁴", 6, Signs::None),
            PartAsked {
                label: "3".into(),
                kind: Kind::Choice { unit: unit("MPa", 0), values: [6, 12, 18].map(megapascals).into() },
                about: None,
                on: AskedOn::Paper,
            },
            PartAsked { label: "4".into(), kind: Kind::Drawing, about: None, on: AskedOn::Paper },
        ]
    };
    vec![paper("007", "7K3Q-9MXD", parts()), paper("12", "", parts())]
}

pub fn read_with(text: &str, asked: &[PaperAsked], habit: Habit) -> Answers {
    answers::read(text.as_bytes(), asked, habit, &Decisions::default())
        .unwrap_or_else(|faults| panic!("{faults:#?}"))
}

pub fn read(text: &str, asked: &[PaperAsked]) -> Answers {
    read_with(text, asked, Habit::default())
}

pub fn answer<'a>(answers: &'a Answers, student: &str, part: &str) -> &'a answers::Answer {
    let paper = answers.papers.iter().find(|paper| paper.student == student).expect("the student");
    paper.answers.iter().find(|answer| answer.part == part).expect("the part")
}

pub fn number<'a>(answers: &'a Answers, student: &str, part: &str) -> &'a Number {
    match &answer(answers, student, part).read {
        Read::Number(number) => number,
        other => panic!("no number: {other:?}"),
    }
}

/// What a single answer to a single part reads as.
pub fn one(part: PartAsked, written: &str) -> Read {
    let asked = [paper("1", "", vec![PartAsked { label: "1".into(), ..part }])];
    let text = format!("id\t1\n1\t\"{}\"\n", written.replace('"', "\"\""));
    read(&text, &asked).papers[0].answers[0].read.clone()
}

pub fn si(part: PartAsked, written: &str) -> f64 {
    match one(part, written) {
        Read::Number(number) => number.value,
        other => panic!("{written:?} is no number: {other:?}"),
    }
}

pub fn doubt(part: PartAsked, written: &str) -> DoubtKind {
    match one(part, written) {
        Read::ByHand(doubt) => doubt.kind,
        other => panic!("{written:?} is not left to a person: {other:?}"),
    }
}

pub fn close(found: f64, expected: f64) -> bool {
    (found - expected).abs() <= 1e-12 * expected.abs()
}
