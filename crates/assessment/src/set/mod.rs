//! What a paper asks and what is right, before anything is printed: the one source of a student's paper, of its key, of
//! questions for a learning platform and of marking.
//!
//! [`SetPaper::new`] takes a lesson whose numbers are settled and gives each of its questions as [`Part`]s: the steps first,
//! then the value itself, then the place where it holds.
//!
//! Values are SI and full precision, signed as in the workings: y up from the neutral axis, a sagging moment and tension
//! positive, reactions positive upwards. The unit in which the student answers goes with each value as an [`AnswerUnit`].
//!
//! ```
//! use assessment::set::{Ask, SetPaper};
//!
//! let text = lesson::builtin::find("conveyor").expect("a lesson of ours").text;
//! let reading = lesson::read(text, "conveyor.toml");
//! let (lesson, solved) = reading.lesson.zip(reading.solved).expect("a sound lesson");
//! let paper = SetPaper::new(lesson, solved).expect("all of its questions can be set");
//! let Ask::Value(reaction) = &paper.questions[0].parts[0].ask else { panic!("a value is asked for") };
//! assert_eq!(reaction.working, "reaction at A");
//! assert!(reaction.accepts(reaction.right) && !reaction.accepts(2.0 * reaction.right));
//! ```

mod band;
mod choice;
mod fault;
mod place;
mod recognised;
mod unit;
mod value;

pub use band::Band;
pub use choice::{Alternative, ChoicePart, letter};
pub use fault::{SetFault, Why};
pub use place::{Along, PlacePart};
pub use recognised::Recognised;
pub use unit::AnswerUnit;
pub use value::ValuePart;
pub(crate) use value::{either_sign, rounded_down, step_of};

use crate::fair::{Course, Judge, Judgement};
use lesson::question::{AskedValue, Sketch};
use lesson::{Lesson, Question};
use serde::{Serialize, Serializer};
use workings::solved::Solved;

/// A paper: a lesson whose numbers are settled, what it asks, and what is right.
#[derive(Clone, Debug, Serialize)]
pub struct SetPaper {
    /// The lesson.
    #[serde(skip)]
    pub lesson: Lesson,
    /// The same, solved.
    #[serde(skip)]
    pub solved: Solved,
    /// One for each question of the lesson, in its order.
    pub questions: Vec<SetQuestion>,
}

/// A question as it is set.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SetQuestion {
    /// What the whole of it earns.
    pub marks: f64,
    /// What is answered one by one, in order; at least one.
    pub parts: Vec<Part>,
}

/// One answer that a student gives.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Part {
    /// What it is called on the paper and in a list of marks: `3` where its question has no other part, else `3a`, `3b`.
    pub label: String,
    /// What a right answer earns.
    pub marks: f64,
    /// What is asked.
    pub ask: Ask,
}

/// What a part asks.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Ask {
    /// A value.
    Value(ValuePart),
    /// Where a value holds.
    Place(PlacePart),
    /// One of several values.
    Choice(ChoicePart),
    /// A drawing by hand.
    Sketch {
        /// What is drawn.
        #[serde(serialize_with = "written")]
        sketch: Sketch,
    },
}

fn written<S: Serializer>(sketch: &Sketch, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(sketch.written())
}

impl SetPaper {
    /// Sets all questions of a lesson; `solved` is the same lesson, solved.
    ///
    /// Where the place of a value is asked for too, half of the question's marks are for the place.
    ///
    /// # Errors
    /// Every [`SetFault`], in the order of the questions.
    pub fn new(lesson: Lesson, solved: Solved) -> Result<Self, Vec<SetFault>> {
        Self::judged(lesson, solved, &[])
    }

    /// As [`SetPaper::new`], with judgements of this very paper that are known already: they are not made again.
    ///
    /// # Errors
    /// As [`SetPaper::new`].
    pub fn judged(lesson: Lesson, solved: Solved, known: &[Judgement]) -> Result<Self, Vec<SetFault>> {
        let judge = Judge::new(&solved, Course::of(&lesson)).beside(&lesson.mistakes).knowing(known);
        let (mut questions, mut faults) = (Vec::new(), Vec::new());
        for (index, question) in lesson.questions.iter().enumerate() {
            match asked(question, (index, &lesson.questions), &judge) {
                Ok(parts) => questions
                    .push(SetQuestion { marks: question.all_marks(), parts: labelled(index + 1, parts) }),
                Err(why) => faults.push(SetFault { question: index + 1, why }),
            }
        }
        if faults.is_empty() { Ok(Self { lesson, solved, questions }) } else { Err(faults) }
    }

    /// What the whole paper earns.
    pub fn marks(&self) -> f64 {
        self.questions.iter().map(|question| question.marks).sum()
    }

    /// All parts in the order of the paper.
    pub fn parts(&self) -> impl Iterator<Item = &Part> {
        self.questions.iter().flat_map(|question| &question.parts)
    }
}

/// What one question asks, with what each answer earns.
fn asked(
    question: &Question,
    (number, all): (usize, &[Question]),
    judge: &Judge<'_>,
) -> Result<Vec<(f64, Ask)>, Why> {
    let value = match &question.ask {
        lesson::question::Ask::Value(value) => value,
        lesson::question::Ask::Sketch(sketch) => {
            return Ok(vec![(question.marks, Ask::Sketch { sketch: *sketch })]);
        }
    };
    let AskedValue { working, place, steps, step_marks, choose } = value;
    let mut parts = Vec::with_capacity(steps.len() + 2);
    for step in steps {
        parts.push((*step_marks, Ask::Value(ValuePart::new(step, judge)?)));
    }
    let marks = if *place { 0.5 * question.marks } else { question.marks };
    let main = ValuePart::new(working, judge)?;
    parts.push((
        marks,
        match choose {
            Some(count) => {
                let others =
                    all.iter().enumerate().filter(|(other, _)| *other != number).map(|(_, other)| other);
                let answers = answers(
                    others.flat_map(Question::workings).chain(steps.iter().map(String::as_str)),
                    &main,
                    judge,
                )?;
                Ask::Choice(ChoicePart::new(main, *count, judge, &answers)?)
            }
            None => Ask::Value(main),
        },
    ));
    if *place {
        parts.push((marks, Ask::Place(PlacePart::new(working, judge)?)));
    }
    Ok(parts)
}

/// The right answers of these workings, as far as they are of the kind of `main` and not `main` itself.
fn answers<'a>(
    asked: impl Iterator<Item = &'a str>,
    main: &ValuePart,
    judge: &Judge<'_>,
) -> Result<Vec<Band>, Why> {
    let workings = judge.solved().workings();
    let kind = |name: &str| workings.get(name).map(|working| working.value.dimension);
    let wanted = kind(&main.working);
    let mut bands = Vec::new();
    for name in asked.filter(|name| *name != main.working && kind(name) == wanted) {
        let judgement = judge.judge(name)?;
        bands.push(Band::about(judgement.right, judgement.half_width));
    }
    Ok(bands)
}

fn labelled(number: usize, parts: Vec<(f64, Ask)>) -> Vec<Part> {
    let several = parts.len() > 1;
    let parts = parts.into_iter().enumerate().map(|(index, (marks, ask))| {
        let letter = if several { letters(index) } else { String::new() };
        Part { label: format!("{number}{letter}"), marks, ask }
    });
    parts.collect()
}

/// `a` to `z`, then `aa`, `ab`.
fn letters(index: usize) -> String {
    let letter = char::from(b'a' + (index % 26) as u8);
    match index / 26 {
        0 => letter.to_string(),
        more => format!("{}{letter}", letters(more - 1)),
    }
}
