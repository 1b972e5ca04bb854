//! The results of the workings as HTML, kept from one state of the board to the next.
//!
//! While something is dragged most equations stay as they are, and to print one costs far more than to see that it is the
//! same.

use crate::difference::Splice;
use document::html::fragment;
use document::tree::{Block, Equation};
use std::collections::BTreeMap;
use workings::expression::Expression;
use workings::solved::Solved;
use workings::style::Style;
use workings::working::Chapter;

/// The equations that were printed last, chapter by chapter, each with its HTML.
#[derive(Debug, Default)]
pub struct Results {
    style: Style,
    printed: BTreeMap<Chapter, Vec<(Expression, String)>>,
}

impl Results {
    /// The workings of a chapter: each in symbols, with numbers, and its result.
    pub fn all(&mut self, chapter: Chapter, solved: &Solved) -> String {
        self.changes(chapter, solved, |_| true);
        let lines = self.printed.get(&chapter).into_iter().flatten();
        lines.map(|(_, html)| html.as_str()).collect()
    }

    /// What is another now than when the chapter was printed last. An equation that is not `wanted`, told by its place,
    /// stays in its last state, unless there are more of them now, or fewer.
    pub fn changes(
        &mut self,
        chapter: Chapter,
        solved: &Solved,
        wanted: impl Fn(usize) -> bool,
    ) -> Vec<Splice> {
        let (workings, style) = (solved.workings(), solved.style());
        if self.style != *style {
            self.style = style.clone();
            self.printed.clear();
        }
        let before = self.printed.entry(chapter).or_default();
        let now: Vec<Expression> = workings.chapter(chapter).map(|(id, _)| workings.equation(id)).collect();
        if before.len() == now.len() {
            let mut others = Vec::new();
            for (place, (line, equation)) in before.iter_mut().zip(now).enumerate() {
                if wanted(place) && line.0 != equation {
                    let html = printed(&equation, style);
                    others.push(Splice(place, 1, html.clone()));
                    *line = (equation, html);
                }
            }
            return others;
        }
        let start = before.iter().zip(&now).take_while(|(line, equation)| line.0 == **equation).count();
        let ends = before[start..].iter().rev().zip(now[start..].iter().rev());
        let end = ends.take_while(|(line, equation)| line.0 == **equation).count();
        let between = start..before.len() - end;
        let lines: Vec<_> = now[start..now.len() - end]
            .iter()
            .map(|equation| match before[between.clone()].iter().find(|line| line.0 == *equation) {
                Some(same) => same.clone(),
                None => (equation.clone(), printed(equation, style)),
            })
            .collect();
        let html = lines.iter().map(|(_, html)| html.as_str()).collect();
        let splice = Splice(start, between.len(), html);
        before.splice(between, lines);
        vec![splice]
    }
}

/// An equation as HTML, broken into lines where it is long.
pub(crate) fn printed(equation: &Expression, style: &Style) -> String {
    fragment(&[Block::Equation(Equation::aligned([equation], style))], style)
}
