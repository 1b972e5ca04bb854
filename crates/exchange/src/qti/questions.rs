//! The questions of a paper as items.
//!
//! Nothing is computed here but what a follow-through needs: numbers come from what `assessment` has set, words from
//! `document`.

use super::formula::Formula;
use super::identifier::Identifier;
use super::item::{Alternative, Answer, Bounds, Choice, FollowThrough, Item, Marks, Mistake, Picture, Value};
use super::passage::{Line, Passage};
use super::through;
use crate::fault::Fault;
use assessment::fair::Course;
use assessment::set::{self, Along, AnswerUnit, Band, ChoicePart, Part, PlacePart, SetPaper, ValuePart};
use document::tree::{Block, Inline, words};
use document::wording::worded;
use lesson::question::Ask;
use lesson::{Lesson, Question};
use workings::expression::Expression;
use workings::quantity::Quantity;
use workings::style::Style;

/// What stands above the question in each item of a paper.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Given {
    /// What is given, in words.
    pub words: Passage,
    /// Its drawings, which must tell nothing that is asked for.
    pub pictures: Vec<Picture>,
}

/// The questions of a paper that a platform can ask.
#[derive(Clone, Debug, PartialEq)]
pub struct Questions {
    /// An item for each.
    pub items: Vec<Item>,
    /// The labels of the parts that are drawn by hand and are in no item.
    pub by_hand: Vec<String>,
}

impl Questions {
    /// The questions of a paper; the names of their items begin with `name`.
    ///
    /// # Errors
    /// If a name or a wording cannot stand in an item.
    pub fn of(set: &SetPaper, name: &Identifier, given: &Given) -> Result<Self, Fault> {
        let mut all = Self { items: Vec::new(), by_hand: Vec::new() };
        for (place, (question, asked)) in set.questions.iter().zip(&set.lesson.questions).enumerate() {
            let mut answers = Vec::new();
            for (number, part) in question.parts.iter().enumerate() {
                match answer(set, part, &question.parts[..number])? {
                    Some(answer) => answers.push(answer),
                    None => all.by_hand.push(part.label.clone()),
                }
            }
            if answers.is_empty() {
                continue;
            }
            let style = set.solved.style();
            let mut prompt = worded(asked, &set.lesson, &set.solved);
            if answers.iter().any(|answer| matches!(answer, Answer::Value(_))) {
                prompt.push(Block::Paragraph(words(HOW_TO_TYPE)));
            }
            let mut passage = given.words.clone();
            passage.0.extend(Passage::of(&prompt, style)?.0);
            all.items.push(Item {
                identifier: named(&format!("{}-{}", name.as_str(), place + 1))?,
                title: format!("{}, question {}", set.lesson.about.title, place + 1),
                language: set.lesson.about.language.clone(),
                prompt: passage,
                pictures: given.pictures.clone(),
                answers,
            });
        }
        Ok(all)
    }
}

/// What of a lesson no package can ask for, as a sentence: which questions are drawn by hand, and how many of the marks are in a package.
/// None where all of it can be asked.
pub fn left_out(lesson: &Lesson) -> Option<String> {
    let drawn = |question: &Question| matches!(question.ask, Ask::Sketch(_));
    let numbered = lesson.questions.iter().zip(1..);
    let numbers: Vec<String> = numbered
        .filter(|(question, _)| drawn(question))
        .map(|(_, number): (_, usize)| number.to_string())
        .collect();
    let marks = |all: &mut dyn Iterator<Item = &Question>| all.map(Question::all_marks).sum::<f64>();
    let all = marks(&mut lesson.questions.iter());
    let asked = marks(&mut lesson.questions.iter().filter(|question| !drawn(question)));
    match numbers.as_slice() {
        [] => None,
        _ if asked == 0.0 => Some(
            "All questions are drawn by hand, which no platform can ask for: there are no packages."
                .to_owned(),
        ),
        [only] => Some(format!(
            "Question {only} is drawn by hand and is not in the package, which has {asked} of all {all} marks."
        )),
        [others @ .., last] => Some(format!(
            "Questions {} and {last} are drawn by hand and are not in the package, which has {asked} of all {all} marks.",
            others.join(", ")
        )),
    }
}

/// Platforms differ in which decimal mark they read; all read the point.
const HOW_TO_TYPE: &str = "Type plain numbers, with a point before the decimals.";

fn named(name: &str) -> Result<Identifier, Fault> {
    Identifier::new(name).ok_or_else(|| {
        Fault::of_file(format!("{name:?} cannot be a name in a package"), "use letters, digits and hyphens")
    })
}

/// The answer of a part; `None` for a drawing by hand. `before` are the parts of its question that come before it.
fn answer(set: &SetPaper, part: &Part, before: &[Part]) -> Result<Option<Answer>, Fault> {
    let identifier = named(&format!("part-{}", part.label))?;
    Ok(match &part.ask {
        set::Ask::Sketch { .. } => None,
        set::Ask::Value(value) => Some(Answer::Value(typed(set, identifier, part.marks, value, before)?)),
        set::Ask::Place(place) => Some(Answer::Value(located(identifier, part.marks, place)?)),
        set::Ask::Choice(choice) => Some(Answer::Choice(chosen(set, identifier, part.marks, choice)?)),
    })
}

fn typed(
    set: &SetPaper,
    identifier: Identifier,
    marks: f64,
    part: &ValuePart,
    before: &[Part],
) -> Result<Value, Fault> {
    let style = set.solved.style();
    let unit = &part.typed_unit;
    let called = document::paper::called(&part.working, &set.solved);
    let mut accepted = part.accepted().filter_map(|band| bounds(unit, band));
    let first = accepted.next().ok_or_else(|| nothing_right(&part.working))?;
    let known = part.mistakes.iter().filter_map(|known| {
        Some(Mistake {
            bounds: bounds(unit, known.band)?,
            marks: Marks::default(),
            feedback: Passage::words(&known.feedback),
        })
    });
    let expected = through::expected(set, part, before, &|part| named(&format!("part-{}", part.label)).ok());
    let mut value = Value {
        identifier,
        label: Line::of(
            &[
                Inline::text(format!("{}: ", capital(&called))),
                Inline::Math(Expression::Symbol(part.symbol.clone())),
                Inline::text(" ="),
            ],
            style,
        )?,
        spoken: spoken(&called, unit),
        unit: Line::words(&unit.text()),
        right: unit.from_si(part.right),
        bounds: first,
        also: accepted.collect(),
        marks: earned(marks),
        feedback: Passage::words("Right."),
        follow_through: None,
        mistakes: known.collect(),
        otherwise: Passage::words("This is not right, and none of the usual slips leads to it."),
    };
    value.follow_through = expected.map(|expected: Formula| FollowThrough {
        expected,
        tolerance: Course::of(&set.lesson).tolerance,
        marks: value.marks,
        feedback: Passage::words("This follows rightly from what you found before."),
    });
    Ok(value)
}

fn located(identifier: Identifier, marks: f64, part: &PlacePart) -> Result<Value, Fault> {
    let unit = &part.typed_unit;
    // The place that is farthest from the start is named as the right one: its number is the largest.
    let mut accepted: Vec<Band> = part.accepted().collect();
    accepted.sort_by(|one, other| (other.lower + other.upper).total_cmp(&(one.lower + one.upper)));
    let right = accepted.first().map_or(0.0, |band| unit.from_si(0.5 * (band.lower + band.upper)));
    let mut accepted = accepted.iter().filter_map(|band| bounds(unit, *band));
    let first = accepted.next().ok_or_else(|| nothing_right(&part.working))?;
    let label = match part.along {
        Along::Beam => "It occurs, from the left end, at",
        Along::Depth => "It occurs, above the lowest fibre, at",
    };
    Ok(Value {
        identifier,
        label: Line::words(&format!("{label}:")),
        spoken: spoken(label, unit),
        unit: Line::words(&unit.text()),
        right,
        bounds: first,
        also: accepted.collect(),
        marks: earned(marks),
        feedback: Passage::words("Right."),
        follow_through: None,
        mistakes: Vec::new(),
        otherwise: Passage::words("It does not occur there."),
    })
}

fn chosen(set: &SetPaper, identifier: Identifier, marks: f64, part: &ChoicePart) -> Result<Choice, Fault> {
    let style = set.solved.style();
    let symbol = Inline::Math(Expression::Symbol(part.value.symbol.clone()));
    let mut alternatives = Vec::with_capacity(part.alternatives.len());
    for (place, alternative) in part.alternatives.iter().enumerate() {
        let said = alternative.mistake.as_ref().map_or("Right.", |known| known.feedback.as_str());
        alternatives.push(Alternative {
            identifier: named(&format!("choice-{}", place + 1))?,
            text: Line::words(&shown(set, &part.value, alternative.value, style)),
            marks: earned(if alternative.is_right() { marks } else { 0.0 }),
            feedback: Passage::words(said),
        });
    }
    Ok(Choice { identifier, question: Line::of(&[symbol, Inline::text(" =")], style)?, alternatives })
}

/// A value with its unit as the course writes it.
fn shown(set: &SetPaper, part: &ValuePart, value: f64, style: &Style) -> String {
    let dimension = set.solved.workings().get(&part.working).map(|working| working.value.dimension);
    dimension
        .map(|dimension| style.text(Quantity::new(value, dimension), part.symbol.role))
        .unwrap_or_default()
}

/// The name of a field for who cannot see it: what is asked for, and in which unit.
fn spoken(called: &str, unit: &AnswerUnit) -> String {
    match unit.in_words() {
        words if words.is_empty() => called.to_owned(),
        words => format!("{called}, in {words}"),
    }
}

/// With a capital at its beginning.
fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// What a platform compares with, in the unit of the answer.
fn bounds(unit: &AnswerUnit, band: Band) -> Option<Bounds> {
    Bounds::new(unit.from_si(band.lower), unit.from_si(band.upper))
}

fn earned(marks: f64) -> Marks {
    Marks::new(marks).unwrap_or_default()
}

fn nothing_right(working: &str) -> Fault {
    Fault::of_file(format!("no answer for the {working} would be right"), "look at the numbers of this paper")
}
