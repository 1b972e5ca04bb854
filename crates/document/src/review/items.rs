//! Question by question: how hard, how telling, how often blank; and what does not work.

use super::numbers::{fixed, percent};
use super::{Class, heading};
use crate::notes::line;
use crate::paper::number;
use crate::tree::{Alignment, Block, Inline, Table};
use assessment::review::{ItemFigures, SMALL_CLASS};

pub(super) fn question_by_question(class: &Class<'_>) -> Vec<Block> {
    let large = class.figures.complete >= SMALL_CLASS;
    let style = class.style();
    let row = |item: &ItemFigures| {
        let figure = |value: Option<f64>| {
            line![value.map_or_else(|| "\u{2013}".to_owned(), |value| fixed(value, 2, style))]
        };
        let mut row = vec![
            line![class.item(&item.label)],
            line![number(item.out_of, style)],
            line![item.facility.map_or_else(|| "\u{2013}".to_owned(), percent)],
            line![item.facility_interval.map_or_else(String::new, |interval| format!(
                "{} to {}",
                percent(interval.lower).trim_end_matches("\u{a0}%"),
                percent(interval.upper)
            ))],
            line![item.full.to_string()],
            line![item.nothing.to_string()],
            line![item.blank.to_string()],
        ];
        if large {
            row.push(figure(item.discrimination.map(|found| found.d)));
            row.push(figure(item.with_rest.map(|found| found.r)));
            row.push(figure(item.point_biserial));
        }
        row
    };
    let mut header =
        vec!["Question", "Marks", "Difficulty", "95 % interval", "All marks", "No marks", "Blank"];
    if large {
        header.extend(["Discrimination", "With the rest", "Point-biserial"]);
    }
    let mut alignment = vec![Alignment::Right; header.len()];
    if let Some(first) = alignment.first_mut() {
        *first = Alignment::Left;
    }
    let table = Table {
        caption: line![
            "The figures of each answer. Difficulty is the share of its marks that the class earned: high is easy."
        ],
        number: None,
        alignment,
        header: header.into_iter().map(|word| line![word]).collect(),
        rows: class.figures.items.iter().map(row).collect(),
        row_heads: true,
        total: false,
    };
    let mut blocks = vec![heading("Question by question"), Block::Table(table)];
    if !large {
        blocks.push(Block::Paragraph(line![format!(
            "Discrimination and correlations need many students: below {SMALL_CLASS} that are marked in full they are not shown."
        )]));
    }
    blocks
}

pub(super) fn that_do_not_work(class: &Class<'_>) -> Vec<Block> {
    let mut items = Vec::new();
    for item in &class.figures.items {
        for flag in &item.flags {
            items.push(vec![Block::Paragraph(line![
                Inline::Strong(line![format!("{}: ", class.item(&item.label))]),
                format!("{}.", flag.words)
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
