//! Wrong answers that belong to another paper, with what that is worth.

use super::numbers::rare;
use super::{Class, heading};
use crate::notes::line;
use crate::tree::{Alignment, Block, Callout, CalloutKind, Inline, Table};
use assessment::review::Likeness;

/// So many pairs are listed, those first that chance makes least often.
const LISTED: usize = 10;
/// Of so many papers the holders are named; papers with the same numbers are one.
const NAMED: usize = 4;
/// A pair that chance is expected to make as often as this in any class says nothing.
const AS_CHANCE: f64 = 1.0;

pub(super) fn alike(class: &Class<'_>) -> Vec<Block> {
    let all = class.likenesses;
    let told: Vec<&Likeness> =
        all.found.iter().filter(|found| found.by_chance < AS_CHANCE).take(LISTED).collect();
    let rest = all.found.len() - told.len();
    let title = heading("Answers that are like another paper's");
    if all.papers < 2 {
        let same =
            "All papers have the same numbers, so no wrong answer can be told to belong to another one.";
        return vec![title, Block::Paragraph(line![same])];
    }
    let held = match all.answers {
        0 => "There is no such answer. ".to_owned(),
        1 => format!("One such answer was held against {} different papers. ", all.papers),
        more => format!("{more} such answers were held against {} different papers. ", all.papers),
    };
    let mut words: Vec<Inline> = line![format!(
        "The papers differ in their numbers, so a wrong answer that nothing on the own paper explains may be right on another's. {held}"
    )];
    let pairs = match rest {
        1 => "One pair has".to_owned(),
        more => format!("{more} pairs have"),
    };
    words.push(
        match (told.len(), rest) {
            (0, 0) => "No student has two or more that belong to one other paper.".to_owned(),
            (0, _) => format!("{pairs} two or more in common, as chance makes them in a class like this one."),
            (_, 0) => "Those with two or more in common with one other paper:".to_owned(),
            (_, _) => format!(
                "Those with two or more in common with one other paper and that chance makes least often; {rest} more {} not listed:",
                if rest == 1 { "is" } else { "are" }
            ),
        }
        .into(),
    );
    let mut blocks = vec![title, Block::Paragraph(words)];
    if told.is_empty() {
        return blocks;
    }
    blocks.push(table(class, &told));
    blocks.push(Block::Callout(Callout {
        kind: CalloutKind::Caution,
        title: "What this is worth".into(),
        body: vec![Block::Paragraph(line![all.caution])],
    }));
    blocks
}

fn table(class: &Class<'_>, told: &[&Likeness]) -> Block {
    let row = |found: &&Likeness| {
        let others: Vec<&str> = found.others.iter().take(NAMED).map(String::as_str).collect();
        let more = if found.others.len() > NAMED { " and others" } else { "" };
        vec![
            line![found.student.as_str()],
            line![format!("{}{more}", others.join(", "))],
            line![found.looked_at.to_string()],
            line![found.right.len().to_string()],
            line![found.wrong.len().to_string()],
            line![rare(found.by_chance, class.style())],
        ]
    };
    Block::Table(Table {
        caption: line![
            "Wrong answers of a student that belong to another paper, beside how many such pairs chance alone is expected to make."
        ],
        number: None,
        alignment: vec![
            Alignment::Left,
            Alignment::Left,
            Alignment::Right,
            Alignment::Right,
            Alignment::Right,
            Alignment::Right,
        ],
        header: [
            "Student",
            "The paper of",
            "Answers looked at",
            "Right there",
            "Known mistakes there",
            "Pairs by chance",
        ]
        .map(|word| line![word])
        .into(),
        rows: told.iter().map(row).collect(),
        row_heads: true,
        total: false,
    })
}
