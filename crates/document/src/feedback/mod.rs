//! What a student is told of a marked paper: every answer as it was read, what is right, where it first went wrong and why, and the
//! worked solution with the numbers of this very paper.
//!
//! It is made from one student's paper and answers alone, so nothing of anybody else can be in it. What explains a wrong answer comes
//! from `assessment::mark`, which step was the first to go wrong from `assessment::review`, all numbers from the workings.

mod answer;
mod cause;
mod check;
mod first;
mod next;
mod teaches;
mod verdict;

use crate::notes::line;
use crate::paper::value_words::part_name;
use crate::paper::worked::Worked;
use crate::paper::{Form, Who, framed, marks, number, part_letter, question_label};
use crate::tree::{Alignment, Block, Document, Fact, Inline, Table, words};
use crate::wording::worded;
use answer::{as_read, right};
use assessment::mark::{Answer, Judged, Marked, Units, Verdict};
use assessment::review::MarkedStudent;
use assessment::set::{Ask, Part, SetPaper};
use figure::paper::Letters;
use first::First;
use workings::solved::Solved;
use workings::style::Style;

pub use check::checked;
pub use teaches::drawing_that_teaches;

/// A student's paper, answered and marked.
#[derive(Clone, Copy, Debug)]
pub struct Sheet<'a> {
    /// The paper.
    pub paper: &'a SetPaper,
    /// Whether anything came from this student; without it nothing is told of the solution, which may still lie ahead.
    pub handed_in: bool,
    /// The answers as they were written, one for each part in the order of the paper; empty where nothing was.
    pub written: &'a [String],
    /// Of each of these what is not clear, in words without a full stop; empty where it is clear.
    pub unclear: &'a [String],
    /// The same as they were read, by the labels of the parts.
    pub answers: &'a [(String, Answer)],
    /// The same, marked.
    pub marked: &'a Marked,
    /// In which units numbers without one stand.
    pub units: Units,
}

/// What the document is called above its title.
const KIND: &str = "Feedback";

/// One answer with all that is known of it.
#[derive(Clone, Copy, Debug)]
struct One<'a> {
    part: &'a Part,
    judged: &'a Judged,
    answer: &'a Answer,
    written: &'a str,
    unclear: &'a str,
}

impl One<'_> {
    fn label(&self) -> &str {
        &self.part.label
    }

    /// The name of what is asked for, or of what holds at the place that is asked for; none for a drawing.
    fn about(&self) -> Option<&str> {
        match &self.part.ask {
            Ask::Place(place) => Some(&place.working),
            _ => self.working(),
        }
    }

    /// The name of the value that is asked for; none for a drawing, nor for a place: what holds there is of another kind than the
    /// place.
    fn working(&self) -> Option<&str> {
        match &self.part.ask {
            Ask::Value(value) => Some(&value.working),
            Ask::Choice(choice) => Some(&choice.value.working),
            Ask::Place(_) | Ask::Sketch { .. } => None,
        }
    }

    /// Whether it counts as wrong.
    fn is_wrong(&self) -> bool {
        matches!(
            self.judged.verdict,
            Verdict::Explained(_) | Verdict::Ambiguous { .. } | Verdict::Unknown { .. }
        )
    }
}

/// The sheet, part by part.
struct Context<'a> {
    sheet: &'a Sheet<'a>,
    ones: Vec<One<'a>>,
    /// Those of the drawings.
    letters: Letters,
}

impl<'a> Context<'a> {
    fn new(sheet: &'a Sheet<'a>, letters: Letters) -> Self {
        const BLANK: &Answer = &Answer::Blank;
        let one = |(place, (part, judged)): (usize, (&'a Part, &'a Judged))| {
            let answer = sheet.answers.iter().find(|(label, _)| *label == part.label);
            let written = sheet.written.get(place).map_or("", String::as_str);
            let unclear = sheet.unclear.get(place).map_or("", String::as_str);
            One { part, judged, answer: answer.map_or(BLANK, |(_, answer)| answer), written, unclear }
        };
        let ones = sheet.paper.parts().zip(&sheet.marked.parts).enumerate().map(one).collect();
        Self { sheet, ones, letters }
    }

    fn solved(&self) -> &'a Solved {
        &self.sheet.paper.solved
    }

    fn style(&self) -> &'a Style {
        self.solved().style()
    }

    fn one(&self, label: &str) -> Option<&One<'a>> {
        self.ones.iter().find(|one| one.label() == label)
    }

    fn name(&self, one: &One<'_>) -> String {
        part_name(one.part, self.solved())
    }

    fn as_marked(&self) -> MarkedStudent<'a> {
        let Sheet { paper, answers, marked, .. } = *self.sheet;
        MarkedStudent { student: "", paper, answers, marked }
    }
}

/// The feedback of one student.
pub fn feedback(sheet: &Sheet<'_>, who: &Who, form: &Form) -> Document {
    let context = Context::new(sheet, form.letters());
    let mut body = vec![facts(&context, who, form)];
    if sheet.handed_in {
        let first = First::of(&context);
        body.push(next::what_to_do(&context, first.as_ref()));
        body.push(Block::Heading { level: 1, text: line!["All answers"] });
        body.push(glance(&context));
        body.extend(first.iter().flat_map(|first| first.blocks(&context)));
        body.extend(questions(&context, first.as_ref()));
    } else {
        body.push(Block::Paragraph(line![
            "No answer of yours was found. If you handed in this paper, tell your lecturer, with the number of the paper."
        ]));
    }
    framed(sheet.paper, who, form, KIND, body)
}

/// Whose it is, and what it earned.
fn facts(context: &Context<'_>, who: &Who, form: &Form) -> Block {
    let fact = |word: &str, value: &Option<String>| {
        let value = value.as_ref().filter(|value| !value.is_empty())?;
        Some(Fact { word: word.to_owned(), stands_for: words(value) })
    };
    let mut facts: Vec<Fact> = [
        fact("Name", &who.name),
        fact("Student number", &who.id),
        fact("Paper", &form.number),
        fact("Form", &form.letter),
    ]
    .into_iter()
    .flatten()
    .collect();
    let style = context.style();
    let (marked, all) = (context.sheet.marked, context.sheet.paper.marks());
    let so_far = if marked.waits() { " so far; a person still has to look at some of it" } else { "" };
    let earned = format!("{} of {}", number(marked.marks(), style), number(all, style));
    facts.push(Fact { word: "Marks".to_owned(), stands_for: line![Inline::Strong(words(earned)), so_far] });
    Block::Facts(facts)
}

/// Every answer in a line.
fn glance(context: &Context<'_>) -> Block {
    let row = |one: &One<'_>| {
        vec![
            line![format!("{}\u{2002}{}", one.label(), context.name(one))],
            as_read(context, one),
            line![verdict::word(one)],
            line![earned(one, context.style())],
            right(context, one),
        ]
    };
    Block::Table(Table {
        caption: line!["Your answers, as they were read."],
        number: None,
        alignment: vec![Alignment::Left, Alignment::Left, Alignment::Left, Alignment::Right, Alignment::Left],
        header: vec![
            line!["Question"],
            line!["Your answer"],
            line!["What was found"],
            line!["Marks"],
            line!["Right"],
        ],
        rows: context.ones.iter().map(row).collect(),
        row_heads: true,
        total: false,
    })
}

/// `1.5 of 2`; nothing yet where it waits for a person.
fn earned(one: &One<'_>, style: &Style) -> String {
    let most = number(one.judged.most, style);
    match one.judged.marks() {
        Some(earned) => format!("{} of {most}", number(earned, style)),
        None => format!("? of {most}"),
    }
}

/// Every question with what was found, and how it is worked out.
fn questions(context: &Context<'_>, first: Option<&First<'_>>) -> Vec<Block> {
    let paper = context.sheet.paper;
    let style = context.style();
    let mut worked = Worked::new(paper, context.letters);
    let mut ones = context.ones.iter();
    let mut body = Vec::new();
    for (place, question) in paper.questions.iter().enumerate() {
        let label = format!("{}: {}", question_label(place + 1), marks(question.marks, style));
        body.push(Block::Heading { level: 1, text: line![label] });
        if let Some(asked) = paper.lesson.questions.get(place) {
            body.extend(worded(asked, &paper.lesson, &paper.solved));
        }
        for one in ones.by_ref().take(question.parts.len()) {
            let letter = part_letter(one.label());
            if !letter.is_empty() {
                let text = line![format!("{letter} {}", context.name(one))];
                body.push(Block::Heading { level: 2, text });
            }
            body.push(answered(context, one));
            let is_first = first.is_some_and(|first| first.is(one));
            body.extend(verdict::told(context, one, is_first));
            let solution = worked.part_told(one.part);
            if !solution.is_empty() {
                let text = line!["How it is worked out, with your numbers"];
                body.push(Block::Heading { level: 3, text });
                body.extend(solution);
            }
        }
    }
    body
}

/// The answer beside what is right.
fn answered(context: &Context<'_>, one: &One<'_>) -> Block {
    let fact = |word: &str, stands_for| Fact { word: word.to_owned(), stands_for };
    Block::Facts(vec![
        fact("Your answer", as_read(context, one)),
        fact("Right", right(context, one)),
        fact("Marks", line![earned(one, context.style())]),
    ])
}
