//! A student's paper and its key, from what `assessment` has set.
//!
//! The paper holds nothing of the key: no right value, no value of a mistake, no drawing that shows or tells what follows from the
//! given. The key is the same questions with the worked solution of each, from the same workings.

mod answers;
mod given;
mod hints;
mod key;
mod needed;
mod practice;
pub(crate) mod recognised;
mod student;
pub(crate) mod value_words;
pub(crate) mod worked;

use crate::notes::document;
use crate::tree::{Block, Document, Fact, Inline, Paper, Print, words};
use assessment::set::SetPaper;
use figure::paper::Letters;
use workings::style::{DecimalMark, Style};

pub(crate) use answers::alternatives_in_words;
pub use given::what_is_given;
pub use hints::hints;
pub use key::key;
pub use practice::{part_title, place_to_answer, question};
pub use student::paper;

/// Whose paper it is. What is not there is left to be written by hand.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Who {
    /// The student's name.
    pub name: Option<String>,
    /// The student's number.
    pub id: Option<String>,
}

/// What a paper is printed as.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Form {
    /// The number of the paper, which stands for its draw; none where there is only one.
    pub number: Option<String>,
    /// The letter of the form: `B`; none where there is only one.
    pub letter: Option<String>,
    /// The sheet; a paper is never projected.
    pub sheet: Paper,
    /// How large it is printed.
    pub print: Print,
}

impl Form {
    /// The letters of its drawings.
    pub(crate) fn letters(&self) -> Letters {
        match self.print {
            Print::Usual => Letters::Usual,
            Print::Large => Letters::Large,
        }
    }
}

/// The frame that a paper and its key have in common.
pub(crate) fn framed(set: &SetPaper, who: &Who, form: &Form, kind: &str, body: Vec<Block>) -> Document {
    let number = form.number.as_ref().map(|number| format!("paper {number}"));
    let letter = form.letter.as_ref().map(|letter| format!("form {letter}"));
    let mut running: Vec<String> =
        [who.name.clone(), who.id.clone(), number, letter].into_iter().flatten().collect();
    if running.is_empty() {
        running.push(set.lesson.about.title.clone());
    }
    // What lies among papers must not be taken for one.
    if kind != PAPER {
        running.insert(0, kind.to_owned());
    }
    let sheet = if form.sheet == Paper::Wide { Paper::A4 } else { form.sheet };
    Document {
        // What the lesson is to teach may say what comes out.
        lead: Vec::new(),
        print: form.print,
        identity: format!("{kind}: {} ({})", set.lesson.about.title, running.join(", ")),
        running,
        ..document(&set.lesson, &set.solved, sheet, kind, body)
    }
}

/// What a paper is called above its title.
const PAPER: &str = "Paper";
/// What a key is called above its title.
const KEY: &str = "Key";

/// Whose paper it is, and what it earns in all.
fn facts(set: &SetPaper, who: &Who, form: &Form) -> Block {
    let fact = |word: &str, value: &Option<String>| Fact {
        word: word.to_owned(),
        stands_for: value.as_ref().map(words).unwrap_or_default(),
    };
    let mut facts = vec![fact("Name", &who.name), fact("Student number", &who.id)];
    facts.extend(form.number.is_some().then(|| fact("Paper", &form.number)));
    facts.extend(form.letter.is_some().then(|| fact("Form", &form.letter)));
    facts.push(Fact {
        word: "Marks in all".to_owned(),
        stands_for: vec![Inline::text(number(set.marks(), set.solved.style()))],
    });
    Block::Facts(facts)
}

/// `2 marks`, `1 mark`, `0.5 marks`.
pub(crate) fn marks(marks: f64, style: &Style) -> String {
    let noun = if marks == 1.0 { "mark" } else { "marks" };
    format!("{} {noun}", number(marks, style))
}

/// A number of marks, with the course's decimal mark; thirds of a mark to three decimals.
pub(crate) fn number(marks: f64, style: &Style) -> String {
    let text = ((marks * 1e3).round() / 1e3).to_string();
    if style.decimal_mark == DecimalMark::Comma { text.replace('.', ",") } else { text }
}

/// What a working is called in a sentence: in the words of the course, with what it is counted from.
pub fn called(working: &str, solved: &workings::solved::Solved) -> String {
    value_words::name(working, solved)
}

/// What a question or a part is called above its words: `Question 3`, `(b) shear force at the slice`.
pub(crate) fn question_label(number: usize) -> String {
    format!("Question {number}")
}

/// The letter of a part, from its label: `(b)` of `3b`; empty where the question has no other part.
pub(crate) fn part_letter(label: &str) -> String {
    let letter = label.trim_start_matches(|c: char| c.is_ascii_digit());
    if letter.is_empty() { String::new() } else { format!("({letter})") }
}
