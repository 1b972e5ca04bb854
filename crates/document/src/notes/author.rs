//! Who writes the notes: counts figures, tables and equations, and finds values by their names.

use super::{Drawings, line};
use crate::markdown;
use crate::tree::{Alignment, Block, Callout, CalloutKind, Equation, Figure, Inline, Table};
use figure::drawing::Drawing;
use lesson::{Lesson, Scene, When};
use workings::expression::Expression;
use workings::graph::Workings;
use workings::solved::Solved;
use workings::style::Style;
use workings::unit::raised_number;
use workings::working::{Formula, Id, Working};

pub(crate) struct Author<'a> {
    pub(crate) lesson: &'a Lesson,
    pub(crate) solved: &'a Solved,
    pub(crate) style: &'a Style,
    drawings: Drawings,
    pub(crate) blocks: Vec<Block>,
    figures: u32,
    tables: u32,
    pub(super) equations: u32,
}

impl<'a> Author<'a> {
    pub(crate) fn new(lesson: &'a Lesson, solved: &'a Solved, drawings: Drawings) -> Self {
        let style = solved.style();
        Self { lesson, solved, style, drawings, blocks: Vec::new(), figures: 0, tables: 0, equations: 0 }
    }

    pub(crate) fn workings(&self) -> &'a Workings {
        self.solved.workings()
    }

    // ---- what is found ----

    pub(crate) fn working(&self, id: Id) -> &'a Working {
        self.workings().working(id)
    }

    /// The value of a working, with its unit.
    pub(crate) fn value(&self, id: Id) -> Inline {
        value_of(self.working(id))
    }

    /// `V = 7.00 kN`
    pub(crate) fn symbol_and_value(&self, id: Id) -> Inline {
        let working = self.working(id);
        let symbol = Expression::Symbol(working.symbol.clone());
        Inline::Math(Expression::Equal(vec![symbol, self.workings().result(id)]))
    }

    /// The drawing of a name, where it applies to the lesson.
    pub(crate) fn drawing(&self, name: &str) -> Option<Drawing> {
        self.drawings.get(name)
    }

    // ---- what is written ----

    pub(crate) fn chapter(&mut self, title: &str) {
        self.blocks.push(Block::Heading { level: 1, text: line![title] });
    }

    pub(crate) fn part(&mut self, title: &str) {
        self.blocks.push(Block::Heading { level: 2, text: line![title] });
    }

    pub(crate) fn say(&mut self, words: Vec<Inline>) {
        self.blocks.push(Block::Paragraph(words));
    }

    /// The lecturer's own words before or after a scene.
    pub(crate) fn own_words(&mut self, scene: Scene, when: When) {
        if let Some(text) = self.lesson.texts.get(scene, when) {
            self.blocks.extend(markdown::blocks(text));
        }
    }

    /// The drawing of a name, with its caption.
    pub(crate) fn figure(&mut self, name: &str, caption: Vec<Inline>) {
        let Some(drawing) = self.drawing(name) else { return };
        self.figures += 1;
        let figure = Figure { drawing, number: Some(self.figures), caption };
        self.blocks.push(Block::Figure(Box::new(figure)));
    }

    /// The number that the next figure will have.
    pub(crate) fn next_figure(&self) -> u32 {
        self.figures + 1
    }

    /// A displayed equation with its number, which is given back.
    pub(crate) fn equation(&mut self, expression: &Expression) -> String {
        let block = self.numbered(Equation::of(expression, self.style));
        self.blocks.push(block);
        self.equations.to_string()
    }

    /// An equation with the next number.
    pub(crate) fn numbered(&mut self, equation: Equation) -> Block {
        self.equations += 1;
        Block::Equation(equation.numbered(self.equations.to_string()))
    }

    pub(crate) fn table(
        &mut self,
        caption: Vec<Inline>,
        header: Vec<Vec<Inline>>,
        alignment: Vec<Alignment>,
        rows: Vec<Vec<Vec<Inline>>>,
    ) {
        if rows.is_empty() {
            return;
        }
        self.tables += 1;
        let number = Some(self.tables);
        let table = Table { caption, number, alignment, header, rows, row_heads: true, total: false };
        self.blocks.push(Block::Table(table));
    }

    pub(crate) fn callout(&mut self, kind: CalloutKind, title: &str, body: Vec<Block>) {
        self.blocks.push(Block::Callout(Callout { kind, title: title.to_owned(), body }));
    }

    /// A table of workings: what it is, its symbol, its value.
    pub(crate) fn table_of_workings(&mut self, caption: Vec<Inline>, ids: &[Id]) {
        let rows = ids
            .iter()
            .map(|&id| {
                let working = self.workings().working(id);
                let name = self.style.notation.in_its_words(&working.name);
                vec![line![name], vec![symbol_of(working)], vec![value_of(working)]]
            })
            .collect();
        self.table(
            caption,
            vec![line!["Quantity"], line!["Symbol"], line!["Value"]],
            vec![Alignment::Left, Alignment::Left, Alignment::Right],
            rows,
        );
    }
}

pub(crate) fn symbol_of(working: &Working) -> Inline {
    Inline::Math(Expression::Symbol(working.symbol.clone()))
}

pub(crate) fn value_of(working: &Working) -> Inline {
    match working.formula {
        Formula::Given => Inline::Given(working.value, working.symbol.role),
        _ => Inline::Quantity(working.value, working.symbol.role),
    }
}

/// A list of things in a sentence: `A, B and C`.
pub(crate) fn listed(items: Vec<Vec<Inline>>) -> Vec<Inline> {
    joined(items, " and ")
}

/// A list of things of which one will do: `A, B or C`.
pub(crate) fn alternatives(items: Vec<Vec<Inline>>) -> Vec<Inline> {
    joined(items, " or ")
}

fn joined(items: Vec<Vec<Inline>>, last: &str) -> Vec<Inline> {
    let count = items.len();
    let mut out = Vec::new();
    for (place, item) in items.into_iter().enumerate() {
        if place > 0 {
            out.push(if place + 1 == count { last.into() } else { ", ".into() });
        }
        out.extend(item);
    }
    out
}

/// The share of its largest term by which a balance stays open: `3.1×10⁻¹³`, `0`.
pub(crate) fn share(relative: f64) -> String {
    if relative == 0.0 {
        return "0".to_owned();
    }
    let text = format!("{relative:.0e}");
    let (digits, power) = text.split_once('e').unwrap_or((&text, "0"));
    let power: i32 = power.parse().unwrap_or(0);
    if power == 0 { digits.to_owned() } else { format!("{digits}\u{a0}×\u{a0}10{}", raised_number(power)) }
}
