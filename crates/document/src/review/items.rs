//! Question by question: how hard, how telling, how often blank; and what does not work.

use super::flagged::in_words;
use super::numbers::{fixed, percent, whole_percent};
use super::{Class, heading};
use crate::notes::line;
use crate::paper::number;
use crate::tree::{Alignment, Block, Inline, Table};
use assessment::review::{Flag, Interval, ItemFigures, SMALL_CLASS};

/// Stands where a figure cannot be found.
const NONE: &str = "\u{2013}";

pub(super) fn question_by_question(class: &Class<'_>) -> Vec<Block> {
    let mut blocks = vec![heading("Question by question"), how_hard(class)];
    if class.figures.complete >= SMALL_CLASS {
        blocks.push(how_telling(class));
    } else {
        blocks.push(Block::Paragraph(line![format!(
            "Discrimination and correlations need many students: below {SMALL_CLASS} that are marked in full they are not shown."
        )]));
    }
    blocks
}

/// What needs no class of some size.
fn how_hard(class: &Class<'_>) -> Block {
    let style = class.style();
    let row = |item: &ItemFigures| {
        let interval = item.facility_interval.map_or_else(String::new, |interval| {
            format!("{} to {}", whole_percent(interval.lower), percent(interval.upper))
        });
        // Of an answer that nobody has marked yet there is nothing to count.
        let count = |of: usize| if item.students == 0 { NONE.to_owned() } else { of.to_string() };
        vec![
            class.item(&item.label),
            number(item.out_of, style),
            item.facility.map_or_else(|| NONE.to_owned(), percent),
            interval,
            count(item.full),
            count(item.nothing),
            count(item.blank),
        ]
    };
    table(
        "How hard each question was. Difficulty is the share of its marks that the class earned: high is easy.",
        &["Question", "Marks", "Difficulty", "95 % interval", "All marks", "No marks", "Blank"],
        class.figures.items.iter().map(row),
    )
}

/// What needs many students.
fn how_telling(class: &Class<'_>) -> Block {
    let style = class.style();
    let figure = |value: Option<f64>| value.map_or_else(|| NONE.to_owned(), |value| fixed(value, 2, style));
    let between = |interval: Interval| {
        format!("{} to {}", fixed(interval.lower, 2, style), fixed(interval.upper, 2, style))
    };
    let items = &class.figures.items;
    // Where marks are shared out there is no right and wrong to part the totals by.
    let biserial = items.iter().any(|item| item.point_biserial.is_some());
    let row = |item: &ItemFigures| {
        let rest = item.with_rest;
        let mut cells = vec![
            class.item(&item.label),
            figure(item.discrimination.map(|found| found.d)),
            figure(rest.map(|found| found.r)),
            rest.and_then(|found| found.interval).map_or_else(|| NONE.to_owned(), between),
        ];
        if biserial {
            cells.push(match (item.point_biserial, rest) {
                (None, Some(_)) => "part marks".to_owned(),
                (value, _) => figure(value),
            });
        }
        cells
    };
    let mut header = vec!["Question", "Discrimination", "Correlation with the rest", "95 % interval of it"];
    header.extend(biserial.then_some("Point-biserial"));
    let of_part_marks = if biserial {
        "Where some earned part of the marks there is no point-biserial correlation; the one with the rest is found all the same."
    } else {
        "Every question gave part marks to some, so that no point-biserial correlation can be found; the one with the rest takes its place."
    };
    table(
        &format!(
            "How well each question tells who knows more from who knows less. Only where the whole interval lies below zero does a \
             question speak against the rest. {of_part_marks}"
        ),
        &header,
        items.iter().map(row),
    )
}

fn table(caption: &str, header: &[&str], rows: impl Iterator<Item = Vec<String>>) -> Block {
    let mut alignment = vec![Alignment::Right; header.len()];
    if let Some(first) = alignment.first_mut() {
        *first = Alignment::Left;
    }
    Block::Table(Table {
        caption: line![caption],
        number: None,
        alignment,
        header: header.iter().map(|word| line![*word]).collect(),
        rows: rows.map(|row| row.into_iter().map(|cell| line![cell]).collect()).collect(),
        row_heads: true,
        total: false,
    })
}

/// What is amiss with a question itself: that it is not marked yet is no fault of it.
pub(super) fn amiss(item: &ItemFigures) -> impl Iterator<Item = &Flag> {
    item.flags.iter().filter(|flag| **flag != Flag::NotMarked)
}

/// One line for each question, with all that is amiss with it.
pub(super) fn that_do_not_work(class: &Class<'_>) -> Vec<Block> {
    let mut items = Vec::new();
    for item in &class.figures.items {
        let told: Vec<String> = amiss(item).map(|flag| in_words(*flag, item, class.style())).collect();
        if !told.is_empty() {
            items.push(vec![Block::Paragraph(line![
                Inline::Strong(line![format!("{}: ", class.item(&item.label))]),
                format!("{}.", told.join("; "))
            ])]);
        }
    }
    let mut blocks = vec![heading("Questions to look at again")];
    if items.is_empty() {
        blocks.push(Block::Paragraph(line!["None stands out."]));
    } else {
        blocks.push(Block::List { ordered: false, items });
    }
    blocks
}
