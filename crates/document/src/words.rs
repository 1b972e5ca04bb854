//! What is heard instead of seen: descriptions of drawings as blocks, equations as sentences.

use crate::characters::is_silent;
use crate::tree::{Alignment, Block, Equation, Inline, Relation, Table};
use figure::drawing::{Description, Passage};
use workings::print;
use workings::style::Style;

/// A drawing's long description as blocks of the tree.
pub fn described(description: &Description) -> Vec<Block> {
    description.passages.iter().map(passage).collect()
}

fn passage(passage: &Passage) -> Block {
    match passage {
        Passage::Sentence(sentence) => Block::Paragraph(vec![Inline::text(sentence)]),
        Passage::List(items) => Block::List {
            ordered: false,
            items: items.iter().map(|item| vec![Block::Paragraph(vec![Inline::text(item)])]).collect(),
        },
        Passage::Table(table) => {
            let cells = |row: &Vec<String>| row.iter().map(|cell| vec![Inline::text(cell)]).collect();
            Block::Table(Table {
                caption: vec![Inline::text(&table.caption)],
                number: None,
                alignment: vec![Alignment::Left; table.head.len()],
                header: cells(&table.head),
                rows: table.rows.iter().map(cells).collect(),
                row_heads: false,
                total: false,
            })
        }
    }
}

impl Equation {
    /// The equation as it is spoken.
    pub fn spoken(&self, style: &Style) -> String {
        if let Some(speech) = &self.speech {
            return speech.clone();
        }
        let mut out = String::new();
        for row in &self.rows {
            if let Some(left) = &row.left {
                if !out.is_empty() {
                    out.push_str("; ");
                }
                out.push_str(&print::speech(left, style));
            }
            match row.relation {
                Some(Relation::Equal) => out.push_str(", equals "),
                Some(Relation::About) => out.push_str(", about equals "),
                Some(Relation::Plus) => out.push_str(", plus "),
                Some(Relation::Minus) => out.push_str(", minus "),
                None if out.is_empty() => {}
                None => out.push_str("; "),
            }
            out.push_str(&print::speech(&row.right, style));
        }
        // An equation of nothing is still an equation to PDF/UA-1.
        if is_silent(&out) { "equation".to_owned() } else { out.trim_start_matches(", ").to_owned() }
    }
}
