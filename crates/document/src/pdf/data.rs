//! The tree as the data that the template reads.

use std::collections::BTreeSet;

use crate::characters::{is_direction_control, is_ignorable};
use crate::equation::Room;
use crate::levels::Levels;
use crate::tree::{
    Alignment, Block, Callout, CalloutKind, Document, Equation, Fact, Figure, Inline, Paper, Print, Question,
    Relation, Slide, Table, plain,
};
use crate::words::described;
use figure::drawing::Drawing;
use serde_json::{Value, json};
use unicode_segmentation::UnicodeSegmentation;
use workings::print;

/// The data of documents.
pub struct Data {
    /// JSON.
    pub bytes: Vec<u8>,
    /// What the file is called.
    pub title: String,
    /// What is to be known of each document.
    pub sheets: Vec<Sheet>,
}

/// What is to be known of one document of the data.
pub struct Sheet {
    /// Its title, as it is set.
    pub title: String,
    /// Characters that no embedded face has and that `\u{fffd}` stands for, in the order of their code points.
    pub replaced: Vec<char>,
}

/// Which characters can be set: in text, and in drawings.
pub struct Faces {
    /// Whether some face has a letter with its marks.
    pub text: fn(&str) -> bool,
    /// Whether the face of the drawings has it.
    pub drawings: fn(&str) -> bool,
}

/// The data of documents that go into one file, which is called `title`. The first says which sheet, which print and which
/// language they all have.
pub fn data(documents: &[&Document], title: &str, faces: &Faces) -> Data {
    let first = documents.first();
    let (lang, region) = language(first.map_or("en", |document| document.language.as_str()));
    let (values, sheets): (Vec<Value>, Vec<Sheet>) =
        documents.iter().enumerate().map(|(place, document)| sheet(document, place, faces)).unzip();
    // What is missing in the title and the author is missing in each document too.
    let mut told = BTreeSet::new();
    let value = json!({
        "paper": match first.map_or(Paper::A4, |document| document.paper) {
            Paper::A4 => "a4",
            Paper::UsLetter => "us-letter",
            Paper::Wide => "wide",
        },
        "large": first.is_some_and(|document| document.print == Print::Large),
        "author": settable(first.map_or("", |document| document.author.as_str()), faces.text, &mut told),
        "lang": lang,
        "region": region,
        "sheets": values,
    });
    Data { bytes: value.to_string().into_bytes(), title: titled(title, faces, &mut BTreeSet::new()), sheets }
}

fn rows_of_equations(blocks: &[Block]) -> usize {
    let rows = |block: &Block| match block {
        Block::Equation(equation) => equation.rows.len(),
        Block::Question(question) => rows_of_equations(&question.body),
        Block::Quote(inner) => rows_of_equations(inner),
        Block::List { items, .. } | Block::Steps(items) => {
            items.iter().map(|item| rows_of_equations(item)).sum()
        }
        _ => 0,
    };
    blocks.iter().map(rows).sum()
}

/// PDF/UA-1 asks for a title.
fn titled(title: &str, faces: &Faces, replaced: &mut BTreeSet<char>) -> String {
    let title = settable(title, faces.text, replaced);
    if title.trim().is_empty() { "Untitled".to_owned() } else { title }
}

/// One document, the `place`th of its file.
fn sheet(document: &Document, place: usize, faces: &Faces) -> (Value, Sheet) {
    let mut writer = Writer {
        document,
        place,
        equations: document.equation_numbers(),
        faces,
        levels: Levels::default(),
        numbered: BTreeSet::new(),
        figures: Vec::new(),
        replaced: BTreeSet::new(),
    };
    let mut body = writer.blocks(&document.body);
    if document.paper != Paper::Wide {
        body.extend(writer.figures_in_words());
    }
    let title = titled(&document.title, faces, &mut writer.replaced);
    let value = json!({
        "place": place.to_string(),
        "short-title": shortened(&title, 70),
        "title": title,
        "above": writer.capitals(&[&document.kind, &document.course]),
        "kind": writer.text(&document.kind),
        "course": writer.text(&document.course),
        "author": writer.text(&document.author),
        "lead": writer.line(&document.lead),
        // Papers have a line on every page, no room for notes beside the words, and no numbers of chapters.
        "running": document.running.iter().map(|words| shortened(&writer.text(words), 40)).collect::<Vec<_>>(),
        "numbered": document.paper != Paper::Wide && document.running.is_empty(),
        "body": body,
    });
    (value, Sheet { title, replaced: writer.replaced.into_iter().collect() })
}

/// The data of one drawing on a page of its own, as JSON.
pub fn drawing_data(drawing: &Drawing, language_tag: &str, faces: &Faces) -> Data {
    let mut replaced = BTreeSet::new();
    let value = json!({
        "lang": language(language_tag).0,
        "width": drawing.width,
        "height": drawing.height,
        "svg": settable(&drawing.svg(), faces.drawings, &mut replaced),
        "alt": format!("{} {}", drawing.short, drawing.long.plain().replace('\n', " ")).trim(),
    });
    Data {
        bytes: value.to_string().into_bytes(),
        title: titled(&drawing.title, faces, &mut replaced),
        sheets: Vec::new(),
    }
}

/// Text that the typesetter can set: what no face has is replaced and noted down.
pub fn settable(text: &str, has: fn(&str) -> bool, replaced: &mut BTreeSet<char>) -> String {
    if text.bytes().all(|byte| matches!(byte, b' '..=b'~')) {
        return text.to_owned();
    }
    let mut out = String::with_capacity(text.len());
    for letter in text.graphemes(true) {
        let first = letter.chars().next().unwrap_or(' ');
        if first.is_ascii() && letter.len() == 1 {
            out.push(if first.is_ascii_control() { ' ' } else { first });
            continue;
        }
        let shown: String = letter.chars().filter(|&c| !is_hidden(c)).collect();
        if has(&shown) {
            out.push_str(&shown);
            continue;
        }
        // The letter without its marks is better than nothing of it.
        let mut letters = shown.chars();
        let base = letters.next().filter(|base| has(base.encode_utf8(&mut [0; 4])));
        out.push(base.unwrap_or('\u{fffd}'));
        replaced.extend(shown.chars().filter(|&c| Some(c) != base));
    }
    out
}

fn is_hidden(c: char) -> bool {
    c.is_control() || is_direction_control(c) || is_ignorable(c)
}

/// A running head has one line.
fn shortened(text: &str, most: usize) -> String {
    if text.chars().count() <= most {
        return text.to_owned();
    }
    let cut: String = text.chars().take(most).collect();
    format!("{}…", cut.trim_end())
}

/// The language and the region that the typesetter takes: two or three letters, and two letters or none.
fn language(tag: &str) -> (String, Option<String>) {
    let mut parts = tag.split('-');
    let letters = |part: &str, least, most| {
        (least..=most).contains(&part.len()) && part.bytes().all(|b| b.is_ascii_alphabetic())
    };
    let language = parts.next().filter(|part| letters(part, 2, 3)).unwrap_or("en").to_ascii_lowercase();
    let region = parts.find(|part| letters(part, 2, 2)).map(str::to_ascii_lowercase);
    (language, region)
}

/// A table of no more rows than this stands on one page where it can.
const MOST_ROWS: usize = 14;

struct Writer<'a> {
    document: &'a Document,
    /// Which document of its file it is.
    place: usize,
    /// The numbers of its equations.
    equations: BTreeSet<&'a str>,
    faces: &'a Faces,
    levels: Levels,
    /// Equations so far.
    numbered: BTreeSet<String>,
    /// Number, title and words of each drawing so far.
    figures: Vec<(u32, String, Vec<Block>)>,
    replaced: BTreeSet<char>,
}

impl Writer<'_> {
    fn text(&mut self, text: &str) -> String {
        settable(text, self.faces.text, &mut self.replaced)
    }

    /// What stands above a title, in capitals where the faces have them: of some scripts they have only the small letters.
    fn capitals(&mut self, words: &[&str]) -> String {
        let words = words.iter().map(|words| self.text(words)).filter(|words| !words.is_empty());
        let small = words.collect::<Vec<_>>().join("  ·  ");
        let (large, mut missing) = (small.to_uppercase(), BTreeSet::new());
        let large = settable(&large, self.faces.text, &mut missing);
        if missing.is_empty() { large } else { small }
    }

    fn is_blank(&mut self, line: &[Inline]) -> bool {
        let words = plain(line, &self.document.style);
        self.text(&words).trim().is_empty()
    }

    fn lines(&mut self, lines: &[Vec<Inline>]) -> Vec<Value> {
        lines.iter().map(|line| self.line(line)).collect()
    }

    fn line(&mut self, line: &[Inline]) -> Value {
        Value::Array(line.iter().map(|inline| self.inline(inline)).collect())
    }

    fn inline(&mut self, inline: &Inline) -> Value {
        let style = &self.document.style;
        match inline {
            Inline::Text(words) => Value::String(self.text(words)),
            Inline::Strong(inner) => json!({ "k": "strong", "c": self.line(inner) }),
            Inline::Emphasis(inner) => json!({ "k": "emphasis", "c": self.line(inner) }),
            Inline::Math(expression) => {
                let spoken = print::speech(expression, style);
                // What is not heard says nothing either.
                if spoken.trim().is_empty() {
                    Value::String(String::new())
                } else {
                    json!({ "k": "math", "m": self.text(&print::typst(expression, style)), "alt": spoken })
                }
            }
            Inline::Quantity(quantity, role) => {
                json!({ "k": "quantity", "t": self.text(&style.text(*quantity, *role)) })
            }
            Inline::Given(quantity, role) => {
                json!({ "k": "quantity", "t": self.text(&style.given_text(*quantity, *role)) })
            }
            Inline::Code(words) => json!({ "k": "code", "t": self.text(words) }),
            Inline::Link { to, text } => match crate::markdown::followable(to) {
                Some(to) => json!({ "k": "link", "to": to, "c": self.line(text) }),
                None => json!({ "k": "span", "c": self.line(text) }),
            },
            Inline::File { text, .. } => json!({ "k": "span", "c": self.line(text) }),
            Inline::EquationNumber(number) => {
                json!({ "k": "equation-number", "n": number, "label": self.label(number) })
            }
            Inline::LineBreak => json!({ "k": "break" }),
        }
    }

    fn blocks(&mut self, blocks: &[Block]) -> Vec<Value> {
        blocks.iter().map(|block| self.block(block)).filter(|value| !value.is_null()).collect()
    }

    fn items(&mut self, items: &[Vec<Block>]) -> Vec<Value> {
        items.iter().map(|item| Value::Array(self.blocks(item))).collect()
    }

    fn block(&mut self, block: &Block) -> Value {
        match block {
            // A heading of nothing is none, and PDF/UA-1 forbids it.
            Block::Heading { text, .. } if self.is_blank(text) => Value::Null,
            Block::Heading { level, text } => {
                let level = self.levels.next(*level);
                json!({ "k": "heading", "level": level, "c": self.line(text) })
            }
            Block::Paragraph(line) => json!({ "k": "paragraph", "c": self.line(line) }),
            Block::Equation(equation) => self.equation(equation),
            Block::Figure(figure) => self.figure(figure),
            Block::Table(table) => self.table(table),
            Block::List { ordered, items } => {
                json!({ "k": "list", "ordered": ordered, "items": self.items(items) })
            }
            Block::Steps(items) => json!({ "k": "steps", "items": self.items(items) }),
            Block::Callout(callout) => self.callout(callout),
            Block::Quote(inner) => json!({ "k": "quote", "c": self.blocks(inner) }),
            Block::Columns(columns) => json!({
                "k": "columns",
                "shares": columns.iter().map(|(share, _)| *share).collect::<Vec<f64>>(),
                "columns": columns.iter().map(|(_, inner)| self.blocks(inner)).collect::<Vec<_>>(),
            }),
            Block::Facts(facts) => self.facts(facts),
            Block::Question(question) => self.question(question),
            Block::Answer(answer) => json!({
                "k": "answer",
                "before": self.line(&answer.before),
                "behind": self.line(&answer.behind),
            }),
            Block::Choices(choices) => json!({ "k": "choices", "items": self.lines(&choices.items) }),
            Block::Room(room) => json!({ "k": "room", "height": room.height.clamp(0.0, 240.0) }),
            Block::PageBreak => json!({ "k": "page-break" }),
            Block::Slide(slide) => self.slide(slide),
        }
    }

    /// By what the equation of a number is found, where there is one: no other document of the file has the same.
    fn label(&self, number: &str) -> Option<String> {
        let there = self.document.paper != Paper::Wide && self.equations.contains(number);
        there.then(|| format!("equation-{}-{number}", self.place))
    }

    fn facts(&mut self, facts: &[Fact]) -> Value {
        let one = |writer: &mut Self, fact: &Fact| json!({ "word": writer.text(&fact.word), "c": writer.line(&fact.stands_for) });
        json!({ "k": "facts", "facts": facts.iter().map(|fact| one(self, fact)).collect::<Vec<_>>() })
    }

    fn question(&mut self, question: &Question) -> Value {
        // A heading of nothing is none, and PDF/UA-1 forbids it.
        let unnamed = [Inline::text("Question")];
        let label: &[Inline] =
            if self.is_blank(&question.label) { &unnamed } else { question.label.as_slice() };
        json!({
            "k": "question",
            "label": self.line(label),
            "marks": self.text(&question.marks),
            "part": question.is_part,
            "level": self.levels.next(if question.is_part { 2 } else { 1 }),
            "long": self.is_long(&question.body),
            "c": self.blocks(&question.body),
        })
    }

    /// Whether blocks are sure to take more than half a page, by the rows of their equations alone: then nobody has to set them to see.
    fn is_long(&self, blocks: &[Block]) -> bool {
        let half = match self.document.print {
            Print::Usual => 14,
            Print::Large => 9,
        };
        rows_of_equations(blocks) > half
    }

    fn equation(&mut self, equation: &Equation) -> Value {
        let style = &self.document.style;
        let alt = equation.spoken(style);
        let broken;
        let equation = match self.document.print {
            Print::Usual => equation,
            Print::Large => {
                broken = equation.broken_for(style, Room::LARGE_PRINT);
                &broken
            }
        };
        let mut math = String::new();
        for (place, row) in equation.rows.iter().enumerate() {
            if place > 0 {
                math.push_str(" \\ ");
            }
            if let Some(left) = &row.left {
                math.push_str(&print::typst(left, style));
            }
            math.push_str(match row.relation {
                Some(Relation::Equal) => " &= ",
                Some(Relation::About) => " &approx ",
                Some(Relation::Plus) => " &quad + ",
                Some(Relation::Minus) => " &quad - ",
                None => " ",
            });
            math.push_str(&print::typst(&row.right, style));
        }
        // A number given twice leads to its first equation; a slide is there more than once.
        let number = equation.number.as_deref();
        let label = number.filter(|number| self.numbered.insert((*number).to_owned()));
        let label = label.and_then(|number| self.label(number));
        json!({
            "k": "equation",
            "m": self.text(&math),
            "alt": alt,
            "n": equation.number,
            "label": label,
            "broad": equation.is_broad(style, self.document.print),
        })
    }

    fn figure(&mut self, figure: &Figure) -> Value {
        let drawing = &figure.drawing;
        // On the wall every bit of room counts: the free margin at the sides goes.
        let trimmed = (self.document.paper == Paper::Wide)
            .then(|| Drawing::fitted(&drawing.name, &drawing.title, 4.0, 0.0, drawing.marks.clone()));
        let sheet = trimmed.as_ref().unwrap_or(drawing);
        // On paper the long description stands at the end, as text and tables; on the wall there is no such place.
        let alt = match figure.number {
            Some(number) if !drawing.long.passages.is_empty() && self.document.paper != Paper::Wide => {
                format!(
                    "{} Figure {number} is described in words at the end of this document.",
                    drawing.short
                )
            }
            _ => format!("{} {}", drawing.short, drawing.long.plain().replace('\n', " ")),
        };
        if let (Some(number), false) = (figure.number, drawing.long.passages.is_empty()) {
            self.figures.push((number, drawing.title.clone(), described(&drawing.long)));
        }
        json!({
            "k": "figure",
            "svg": settable(&sheet.svg(), self.faces.drawings, &mut self.replaced),
            "alt": alt.trim(),
            "short": if drawing.short.is_empty() { &drawing.title } else { &drawing.short },
            "width": sheet.width,
            "height": sheet.height,
            "n": figure.number.map(|number| number.to_string()),
            "caption": self.line(&figure.caption),
        })
    }

    fn table(&mut self, table: &Table) -> Value {
        let rows: Vec<Value> = table
            .rows
            .iter()
            .flat_map(|row| row.iter())
            .map(|cell| json!({ "c": self.line(cell) }))
            .collect();
        json!({
            "k": "table",
            "align": table.alignment.iter().map(|alignment| match alignment {
                Alignment::Left => "left",
                Alignment::Centre => "centre",
                Alignment::Right => "right",
            }).collect::<Vec<_>>(),
            "words": self.columns_of_words(table),
            "header": self.lines(&table.header),
            "cells": rows,
            "count": table.rows.len(),
            "may-break": self.may_break(table),
            "total": table.total,
            "n": table.number.map(|number| number.to_string()),
            "caption": self.line(&table.caption),
        })
    }

    /// How many characters in the size of tables a column has room for, where all columns are alike.
    fn in_column(&self, table: &Table) -> usize {
        let across = match self.document.print {
            Print::Usual => 100,
            Print::Large => 56,
        };
        (across / table.alignment.len().max(1)).max(1)
    }

    /// By column whether it is of words, some of which take more than a column's share of the sheet.
    fn columns_of_words(&self, table: &Table) -> Vec<bool> {
        let room = self.in_column(table);
        let long = |cell: &Vec<Inline>| plain(cell, &self.document.style).chars().count() > room;
        let columns = table.alignment.iter().enumerate();
        columns
            .map(|(column, alignment)| {
                *alignment == Alignment::Left && table.rows.iter().filter_map(|row| row.get(column)).any(long)
            })
            .collect()
    }

    /// Whether a table is so long that it may go on on the next page: of many rows, or of so many lines that half a page could be
    /// left empty before it.
    fn may_break(&self, table: &Table) -> bool {
        let half_a_page = match self.document.print {
            Print::Usual => 28,
            Print::Large => 14,
        };
        let room = self.in_column(table);
        let of_cell =
            |cell: &Vec<Inline>| plain(cell, &self.document.style).chars().count().div_ceil(room).max(1);
        let lines: usize = table.rows.iter().map(|row| row.iter().map(of_cell).max().unwrap_or(1)).sum();
        table.rows.len() > MOST_ROWS || lines > half_a_page
    }

    fn callout(&mut self, callout: &Callout) -> Value {
        json!({
            "k": "callout",
            "kind": match callout.kind {
                CalloutKind::Key => "key",
                CalloutKind::Note => "note",
                CalloutKind::Caution => "caution",
            },
            "title": self.text(&callout.title),
            "c": self.blocks(&callout.body),
        })
    }

    fn slide(&mut self, slide: &Slide) -> Value {
        json!({
            "k": "slide",
            "titled": !self.is_blank(&slide.title),
            "title": self.line(&slide.title),
            "side": self.blocks(&slide.side),
            "steps": self.items(&slide.steps),
        })
    }

    /// The last chapter of a document on paper: every drawing in words, for who cannot see it.
    fn figures_in_words(&mut self) -> Vec<Value> {
        let figures = std::mem::take(&mut self.figures);
        if figures.is_empty() {
            return Vec::new();
        }
        let mut out =
            vec![json!({ "k": "heading", "level": self.levels.next(1), "c": ["The figures in words"] })];
        for (number, title, words) in figures {
            let title = self.text(&format!("Figure {number}: {title}"));
            out.push(json!({ "k": "heading", "level": self.levels.next(3), "c": [title], "plain": true }));
            out.push(json!({ "k": "small", "c": self.blocks(&words) }));
        }
        out
    }
}

#[cfg(test)]
#[path = "../../tests/all/common/asked.rs"]
mod asked;
#[cfg(test)]
#[allow(dead_code, reason = "the tests of papers take the rest")]
#[path = "../../tests/all/common/leaks.rs"]
mod leaks;

#[cfg(test)]
mod tests {
    use super::asked::{Set, all_sets};
    use super::leaks::{leaks, without_coordinates};
    use super::*;
    use crate::paper::{Form, Who, key, paper};

    /// All texts of the data, a line each; the coordinates of drawings are none of ours.
    fn texts(data: &Value, all: &mut String) {
        match data {
            Value::String(text) if text.starts_with("<svg") => *all += &without_coordinates(text),
            Value::String(text) => *all += text,
            Value::Array(items) => items.iter().for_each(|item| texts(item, all)),
            Value::Object(fields) => fields.values().for_each(|field| texts(field, all)),
            // Sizes of drawings and levels of headings; a value is always text.
            Value::Number(_) | Value::Null | Value::Bool(_) => {}
        }
        all.push('\n');
    }

    /// What the typesetter is given holds all that can come into the file: text, alternative texts, names.
    #[test]
    fn a_paper_tells_the_typesetter_nothing_of_its_key() {
        for Set { name, set } in all_sets() {
            for print in [Print::Usual, Print::Large] {
                let form = Form { print, ..Form::default() };
                let told = |document: Document| {
                    let data = data(&[&document], "Papers", &super::super::FACES);
                    let mut all = String::new();
                    texts(&serde_json::from_slice(&data.bytes).expect("JSON"), &mut all);
                    all
                };
                let found = leaks(&set, &told(paper(&set, &Who::default(), &form)));
                assert_eq!(found, [""; 0], "{name}");
                // The search finds what there is to be found.
                let of_key = leaks(&set, &told(key(&set, &Who::default(), &form)));
                assert!(of_key.len() > 20, "{name}: {of_key:?}");
            }
        }
    }
}
