//! A class whose every answer is known for what it is.
//!
//! Each student works through the graph of the paper as students do: with the right formulas or with one or two of them replaced,
//! rounding every step, some, or none. The answers are written to the figures of the course. What an answer truly is follows from
//! what was done, never from what the marker knows: the marker's tables are not read here.

pub mod chance;
pub mod student;
pub mod table;
pub mod truth;

use assessment::fair::{Course, Judge, Judgement};
use assessment::set::{AnswerUnit, Ask, Part, SetPaper};
use assessment::space::Space;
use lesson::papers::Papers;
use workings::mistake::{self, Applied};
use workings::rounding::Figures;
use workings::working::Id;

/// A paper of the class, with all that can be done wrong in it.
pub struct Paper {
    pub set: SetPaper,
    pub mistakes: Vec<Applied>,
    /// The parts that ask for a value, in the order of the graph.
    pub values: Vec<Value>,
    pub figures: Figures,
}

/// A part that asks for a value.
pub struct Value {
    pub label: String,
    pub id: Id,
    pub right: f64,
    pub unit: AnswerUnit,
    pub judgement: Judgement,
}

/// Some papers of a lesson, spread over its draws.
pub fn papers(text: &str, count: u32) -> Vec<Paper> {
    let papers = Papers::read(text, "class.toml").unwrap_or_else(|_| panic!("a sound lesson"));
    let space = Space::of(papers.lesson());
    let all: u128 = space.counts().iter().map(|&count| count as u128).product();
    (0..u128::from(count))
        .filter_map(|at| {
            let draw = space.draw((at * 0x9e37_79b9) % all)?;
            let reading = papers.reading(&draw).ok()?;
            paper(reading.lesson?, reading.solved?)
        })
        .collect()
}

fn paper(lesson: lesson::Lesson, solved: workings::solved::Solved) -> Option<Paper> {
    let course = Course::of(&lesson);
    let judge = Judge::new(&solved, course);
    let asked = lesson.questions.iter().flat_map(lesson::Question::workings);
    let judgements: Vec<Judgement> = asked.filter_map(|asked| judge.judge(asked).ok()).collect();
    let set = SetPaper::judged(lesson, solved, &judgements).ok()?;
    let workings = set.solved.workings();
    let value = |part: &Part| {
        let Ask::Value(value) = &part.ask else { return None };
        Some(Value {
            label: part.label.clone(),
            id: workings.id(&value.working)?,
            right: value.right,
            unit: value.unit.clone(),
            judgement: judgements.iter().find(|judgement| judgement.working == value.working)?.clone(),
        })
    };
    let mut values: Vec<Value> = set.parts().filter_map(value).collect();
    values.sort_by_key(|value| value.id);
    Some(Paper { mistakes: mistake::all(&set.solved), values, figures: course.figures, set })
}
