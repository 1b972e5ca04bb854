//! Names in words that are symbols, such as P_1, set as the symbols that they are.

use crate::tree::{Block, Inline};
use std::collections::BTreeMap;
use workings::expression::Expression;
use workings::role::Symbol;
use workings::solved::Solved;

/// The symbols of a lesson that are written with an index, by what they look like in plain text.
pub(crate) struct Symbols(BTreeMap<String, Symbol>);

impl Symbols {
    /// Of all workings.
    pub fn of(solved: &Solved) -> Self {
        let written = solved.workings().in_order().map(|(_, working)| {
            let symbol = &working.symbol;
            (solved.style().symbol(symbol).plain(), symbol.clone())
        });
        Self(written.filter(|(text, _)| text.contains('_') && text.chars().all(is_of_a_name)).collect())
    }

    /// Sets them in all words of these blocks, but for facts: what stands there is a student's own.
    pub fn set(&self, blocks: &mut [Block]) {
        if !self.0.is_empty() {
            blocks.iter_mut().for_each(|block| each_line(block, &mut |line| self.set_in(line)));
        }
    }

    fn set_in(&self, line: &mut Vec<Inline>) {
        let set = std::mem::take(line).into_iter().flat_map(|inline| match inline {
            Inline::Text(words) if words.contains('_') => self.parted(&words),
            Inline::Strong(mut inner) => {
                self.set_in(&mut inner);
                vec![Inline::Strong(inner)]
            }
            Inline::Emphasis(mut inner) => {
                self.set_in(&mut inner);
                vec![Inline::Emphasis(inner)]
            }
            other => vec![other],
        });
        *line = set.collect();
    }

    /// Words and symbols in turn.
    fn parted(&self, words: &str) -> Vec<Inline> {
        let mut line = Vec::new();
        let mut plain = String::new();
        let mut rest = words;
        while let Some(first) = rest.chars().next() {
            let kind = is_of_a_name(first);
            let end = rest.find(|c| is_of_a_name(c) != kind).unwrap_or(rest.len());
            let (token, after) = rest.split_at(end);
            match self.0.get(token) {
                Some(symbol) => {
                    if !plain.is_empty() {
                        line.push(Inline::Text(std::mem::take(&mut plain)));
                    }
                    line.push(Inline::Math(Expression::Symbol(symbol.clone())));
                }
                None => plain.push_str(token),
            }
            rest = after;
        }
        if !plain.is_empty() {
            line.push(Inline::Text(plain));
        }
        line
    }
}

/// Every line of words within a block, to be changed; facts are left as they are.
fn each_line(block: &mut Block, visit: &mut impl FnMut(&mut Vec<Inline>)) {
    fn all(blocks: &mut [Block], visit: &mut impl FnMut(&mut Vec<Inline>)) {
        blocks.iter_mut().for_each(|block| each_line(block, visit));
    }
    match block {
        Block::Heading { text, .. } | Block::Paragraph(text) => visit(text),
        Block::Figure(figure) => visit(&mut figure.caption),
        Block::Table(table) => {
            visit(&mut table.caption);
            table.header.iter_mut().chain(table.rows.iter_mut().flatten()).for_each(visit);
        }
        Block::List { items, .. } | Block::Steps(items) => {
            items.iter_mut().for_each(|item| all(item, visit));
        }
        Block::Callout(callout) => all(&mut callout.body, visit),
        Block::Quote(inner) => all(inner, visit),
        Block::Columns(columns) => columns.iter_mut().for_each(|(_, inner)| all(inner, visit)),
        Block::Question(question) => {
            visit(&mut question.label);
            all(&mut question.body, visit);
        }
        Block::Answer(answer) => {
            visit(&mut answer.before);
            visit(&mut answer.behind);
        }
        Block::Choices(choices) => choices.items.iter_mut().for_each(visit),
        Block::Slide(slide) => {
            visit(&mut slide.title);
            all(&mut slide.side, visit);
            slide.steps.iter_mut().for_each(|step| all(step, visit));
        }
        Block::Equation(_) | Block::Facts(_) | Block::Room(_) | Block::PageBreak => {}
    }
}

/// Whether a character can be part of a name that is written as one word.
fn is_of_a_name(c: char) -> bool {
    c.is_alphanumeric() || matches!(c, '_' | '\'' | '\u{304}' | '\u{2032}')
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tree::words;

    #[test]
    fn only_whole_names_are_symbols() {
        let text = lesson::builtin::find("overhang").expect("a lesson of ours").text;
        let solved = lesson::read(text, "overhang.toml").solved.expect("a sound lesson");
        let mut blocks = vec![Block::Paragraph(words("force P_1, not P_10 nor xP_1 nor P_1_; (P_2)"))];
        Symbols::of(&solved).set(&mut blocks);
        let Block::Paragraph(line) = &blocks[0] else { panic!("{blocks:?}") };
        let shape: Vec<&str> = line
            .iter()
            .map(|inline| match inline {
                Inline::Text(words) => words.as_str(),
                Inline::Math(Expression::Symbol(_)) => "*",
                other => panic!("{other:?}"),
            })
            .collect();
        assert_eq!(shape, ["force ", "*", ", not P_10 nor xP_1 nor P_1_; (", "*", ")"]);
    }
}
