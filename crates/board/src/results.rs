//! The results of the workings as HTML, kept from one state of the board to the next.
//!
//! While something is dragged most equations stay as they are, and to print one costs far more than to see that it is the
//! same.

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
    pub fn of(&mut self, chapter: Chapter, solved: &Solved) -> String {
        let (workings, style) = (solved.workings(), solved.style());
        if self.style != *style {
            self.style = style.clone();
            self.printed.clear();
        }
        let mut before = self.printed.remove(&chapter).unwrap_or_default().into_iter();
        let equations = workings.chapter(chapter).map(|(id, _)| {
            let equation = workings.equation(id);
            match before.next() {
                Some((same, html)) if same == equation => (same, html),
                _ => {
                    let html = printed(&equation, style);
                    (equation, html)
                }
            }
        });
        let equations: Vec<_> = equations.collect();
        let html = equations.iter().map(|(_, html)| html.as_str()).collect();
        self.printed.insert(chapter, equations);
        html
    }
}

/// An equation as HTML, broken into lines where it is long.
pub(crate) fn printed(equation: &Expression, style: &Style) -> String {
    fragment(&[Block::Equation(Equation::aligned([equation], style))], style)
}
