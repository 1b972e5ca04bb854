//! The key: what is right, how it is found, and which wrong answers are known.

use super::recognised::{recognised, row};
use super::value_words::{beside, exact, part_name, place, rounded};
use super::worked::{Worked, right_places};
use super::{Form, KEY, Who, facts, framed, marks, part_letter, question_label};
use crate::notes::line;
use crate::tree::{Alignment, Block, Document, Inline, Table};
use crate::wording::worded;
use assessment::set::{Ask, Band, ChoicePart, Part, PlacePart, SetPaper, ValuePart, letter};
use figure::paper::Letters;
use workings::expression::Expression;
use workings::solved::Solved;
use workings::working::Id;

/// The key of a paper.
pub fn key(set: &SetPaper, who: &Who, form: &Form) -> Document {
    let mut writer = Writer::new(set, form.letters());
    let mut body = vec![facts(set, who, form), Block::Paragraph(rules())];
    for (place, question) in set.questions.iter().enumerate() {
        let style = set.solved.style();
        let mut blocks = match set.lesson.questions.get(place) {
            Some(asked) => worded(asked, &set.lesson, &set.solved),
            None => Vec::new(),
        };
        for part in &question.parts {
            let solved = writer.part(part);
            match part_letter(&part.label) {
                letter if letter.is_empty() => blocks.extend(solved),
                letter => {
                    let marks = marks(part.marks, style);
                    let text = line![format!("{letter} {}: {marks}", part_name(part, writer.solved()))];
                    blocks.push(Block::Heading { level: 2, text });
                    blocks.extend(solved);
                }
            }
        }
        let marks = marks(question.marks, style);
        body.push(Block::Heading {
            level: 1,
            text: line![format!("{}: {marks}", question_label(place + 1))],
        });
        body.extend(blocks);
    }
    framed(set, who, form, KEY, body)
}

fn rules() -> Vec<Inline> {
    line![
        "An answer is right within its band, bounds included. An answer that follows rightly from an earlier wrong one earns its \
         marks as well. Values are shown rounded and carried in full; what was found before is not found again."
    ]
}

struct Writer<'a> {
    worked: Worked<'a>,
    /// The asked workings so far.
    asked: Vec<Id>,
}

impl<'a> Writer<'a> {
    fn new(set: &'a SetPaper, letters: Letters) -> Self {
        Self { worked: Worked::new(set, letters), asked: Vec::new() }
    }

    fn solved(&self) -> &'a Solved {
        self.worked.solved()
    }

    fn part(&mut self, part: &Part) -> Vec<Block> {
        let mut blocks = match &part.ask {
            Ask::Value(value) => vec![Block::Paragraph(self.right(value))],
            Ask::Choice(choice) => vec![self.alternatives(choice)],
            Ask::Place(place) => vec![Block::Paragraph(places(place))],
            Ask::Sketch { .. } => Vec::new(),
        };
        blocks.extend(self.worked.part(part));
        if let Ask::Value(value) = &part.ask {
            blocks.extend(self.mistakes(value));
        }
        blocks
    }

    /// The right value and the answers that are right.
    fn right(&self, value: &ValuePart) -> Vec<Inline> {
        let solved = self.solved();
        let of = |value_si: f64| exact(value_si, &value.working, solved);
        let symbol = Expression::Symbol(value.symbol.clone());
        let right = match rounded(value.right, &value.working, solved) {
            Inline::Quantity(quantity, role) => Expression::Quantity(quantity, role),
            _ => return Vec::new(),
        };
        let Band { lower, upper } = value.band;
        let mut words = line![
            Inline::Strong(line!["Right: "]),
            Inline::Math(Expression::Equal(vec![symbol, right])),
            "; from ",
            of(lower),
            " to ",
            of(upper)
        ];
        if value.either_sign {
            words.push(", with either sign".into());
        }
        if let Some(practical) = value.rounded_down {
            words.extend(line!["; rounded down to what can be marked out, ", of(practical), ", as well"]);
        }
        words.push(".".into());
        let right_by = 0.5 * (upper - lower);
        if value.rounded_early > right_by * (1.0 + 1e-9) && value.rounded_early.is_finite() {
            words.extend(line![
                " What is off by up to ",
                rounded(value.rounded_early, &value.working, solved),
                " may come of rounding too early."
            ]);
        }
        words
    }

    /// The known wrong answers that come to light here for the first time.
    fn mistakes(&mut self, value: &ValuePart) -> Option<Block> {
        let workings = self.solved().workings();
        let shows_before = |made_at: &str| {
            let Some(made_at) = workings.id(made_at) else { return false };
            let reached = workings.downstream(&[made_at]);
            self.asked.iter().any(|asked| reached.get(asked.0 as usize).copied().unwrap_or(false))
        };
        let here = value.mistakes.iter().filter(|known| !shows_before(&known.made_at)).collect();
        let table = recognised(here, value, self.solved());
        self.asked.extend(workings.id(&value.working));
        table
    }

    /// Every value that there is to choose from, with the mistake that leads to it.
    fn alternatives(&mut self, choice: &ChoicePart) -> Block {
        let solved = self.solved();
        let rows = choice.alternatives.iter().enumerate().map(|(place, one)| {
            let mut cells = match &one.mistake {
                None => {
                    let value = Inline::Strong(vec![beside(one.value, &choice.value, solved)]);
                    vec![vec![value], line!["right"], Vec::new()]
                }
                Some(known) => row(known, &choice.value, solved),
            };
            if let Some(value) = cells.first_mut() {
                value.insert(0, format!("{})\u{2002}", letter(place)).into());
            }
            cells
        });
        let table = Block::Table(Table {
            caption: line!["What there is to choose from."],
            number: None,
            alignment: vec![Alignment::Right, Alignment::Left, Alignment::Left],
            header: vec![line!["Answer"], line!["What was done"], line!["What to say"]],
            rows: rows.collect(),
            row_heads: true,
            total: false,
        });
        self.asked.extend(solved.workings().id(&choice.value.working));
        table
    }
}

/// Every place that is right.
fn places(part: &PlacePart) -> Vec<Inline> {
    let from_where = super::value_words::place_equals(part).trim_end_matches(':');
    let mut words = line![Inline::Strong(line!["Right: "])];
    words.extend(right_places(part));
    words.extend(line![
        format!(" {from_where}; up to "),
        place(part.half_width, part.along),
        " to either side."
    ]);
    words
}
