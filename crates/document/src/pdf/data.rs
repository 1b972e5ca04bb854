//! The tree as the data that the template reads.

use std::collections::BTreeSet;

use crate::characters::{is_direction_control, is_ignorable};
use crate::levels::Levels;
use crate::tree::{
    Alignment, Block, Callout, CalloutKind, Document, Equation, Figure, Inline, Paper, Relation, Slide, Table,
};
use crate::words::described;
use figure::drawing::Drawing;
use serde_json::{Value, json};
use workings::print;

/// The data of a document, and the characters that no embedded face has and that `\u{fffd}` stands for.
pub struct Data {
    /// JSON.
    pub bytes: Vec<u8>,
    /// In the order of their code points.
    pub replaced: Vec<char>,
}

/// The data of a document; `has` tells whether some face has a character.
pub fn data(document: &Document, has: impl Fn(char) -> bool) -> Data {
    let mut writer = Writer {
        document,
        has: &has,
        levels: Levels::default(),
        equations: Vec::new(),
        figures: Vec::new(),
        replaced: BTreeSet::new(),
    };
    let mut body = writer.blocks(&document.body);
    if document.paper != Paper::Wide {
        body.extend(writer.figures_in_words());
    }
    let (lang, region) = language(&document.language);
    let value = json!({
        "paper": match document.paper {
            Paper::A4 => "a4",
            Paper::UsLetter => "us-letter",
            Paper::Wide => "wide",
        },
        "title": writer.text(title(document)),
        "short-title": writer.text(&shortened(title(document), 70)),
        "kind": writer.text(&document.kind),
        "course": writer.text(&document.course),
        "author": writer.text(&document.author),
        "lead": writer.line(&document.lead),
        "lang": lang,
        "region": region,
        "numbered": document.paper != Paper::Wide,
        "body": body,
        "equations": writer.equations,
    });
    Data { bytes: value.to_string().into_bytes(), replaced: writer.replaced.into_iter().collect() }
}

/// The data of one drawing on a page of its own.
pub fn drawing_data(drawing: &Drawing, language_tag: &str, has: impl Fn(char) -> bool) -> Data {
    let mut replaced = BTreeSet::new();
    let value = json!({
        "title": settable(&drawing.title, &has, &mut replaced),
        "lang": language(language_tag).0,
        "width": drawing.width,
        "height": drawing.height,
        "svg": settable(&drawing.svg(), &has, &mut replaced),
        "alt": format!("{} {}", drawing.short, drawing.long.plain().replace('\n', " ")).trim(),
    });
    Data { bytes: value.to_string().into_bytes(), replaced: replaced.into_iter().collect() }
}

/// Text that the typesetter can set: what no face has is replaced and noted down.
pub fn settable(text: &str, has: &dyn Fn(char) -> bool, replaced: &mut BTreeSet<char>) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            ' '..='~' => out.push(c),
            '\t' | '\n' | '\r' => out.push(' '),
            c if c.is_control() || is_direction_control(c) || is_ignorable(c) => {}
            c if has(c) => out.push(c),
            c => {
                replaced.insert(c);
                out.push('\u{fffd}');
            }
        }
    }
    out
}

/// PDF/UA-1 asks for a title; a lesson without one still has a kind.
fn title(document: &Document) -> &str {
    if document.title.trim().is_empty() { "Untitled" } else { &document.title }
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

struct Writer<'a> {
    document: &'a Document,
    has: &'a dyn Fn(char) -> bool,
    levels: Levels,
    equations: Vec<String>,
    /// Number, title and words of each drawing so far.
    figures: Vec<(u32, String, Vec<Block>)>,
    replaced: BTreeSet<char>,
}

impl Writer<'_> {
    fn text(&mut self, text: &str) -> String {
        settable(text, self.has, &mut self.replaced)
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
            Inline::Math(expression) => json!({
                "k": "math",
                "m": self.text(&print::typst(expression, style)),
                "alt": print::speech(expression, style),
            }),
            Inline::Quantity(quantity, role) => {
                json!({ "k": "quantity", "t": self.text(&style.text(*quantity, *role)) })
            }
            Inline::Code(words) => json!({ "k": "code", "t": self.text(words) }),
            Inline::Link { to, text } => match crate::markdown::followable(to) {
                Some(to) => json!({ "k": "link", "to": to, "c": self.line(text) }),
                None => json!({ "k": "span", "c": self.line(text) }),
            },
            Inline::EquationNumber(number) => json!({ "k": "equation-number", "n": number }),
            Inline::LineBreak => json!({ "k": "break" }),
        }
    }

    fn blocks(&mut self, blocks: &[Block]) -> Vec<Value> {
        blocks.iter().map(|block| self.block(block)).collect()
    }

    fn items(&mut self, items: &[Vec<Block>]) -> Vec<Value> {
        items.iter().map(|item| Value::Array(self.blocks(item))).collect()
    }

    fn block(&mut self, block: &Block) -> Value {
        match block {
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
            Block::PageBreak => json!({ "k": "page-break" }),
            Block::Slide(slide) => self.slide(slide),
        }
    }

    fn equation(&mut self, equation: &Equation) -> Value {
        let style = &self.document.style;
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
        if let Some(number) = &equation.number {
            self.equations.push(number.clone());
        }
        json!({
            "k": "equation",
            "m": self.text(&math),
            "alt": equation.spoken(style),
            "n": equation.number,
            "wide": equation.is_broad(style),
        })
    }

    fn figure(&mut self, figure: &Figure) -> Value {
        let drawing = &figure.drawing;
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
            "svg": self.text(&drawing.svg()),
            "alt": alt.trim(),
            "short": if drawing.short.is_empty() { &drawing.title } else { &drawing.short },
            "width": drawing.width,
            "height": drawing.height,
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
            "header": self.lines(&table.header),
            "cells": rows,
            "count": table.rows.len(),
            "total": table.total,
            "n": table.number.map(|number| number.to_string()),
            "caption": self.line(&table.caption),
        })
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
            out.push(json!({ "k": "heading", "level": self.levels.next(3), "c": [title] }));
            out.push(json!({ "k": "small", "c": self.blocks(&words) }));
        }
        out
    }
}
