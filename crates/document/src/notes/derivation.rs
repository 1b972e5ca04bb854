//! From the balance of the piece to the formula.

use super::author::Author;
use super::line;
use crate::tree::{Block, Equation, Inline};
use lesson::{Scene, When};
use workings::derivation::{Closure, derivation};

impl Author<'_> {
    pub(crate) fn derivation(&mut self) {
        self.chapter("From the balance to the formula");
        self.own_words(Scene::Derivation, When::Before);
        self.say(line![
            "Each step stands first in symbols, for any beam, and then with the numbers of this one. Where two ways lead to \
             one number, what is left between them stands beside the most that it may be. Numbers are shown rounded but \
             carried in full, so a difference of two shown numbers may seem off in its last figure."
        ]);
        let mut steps = Vec::new();
        for step in derivation(self.solved) {
            let mut blocks = vec![Block::Paragraph(line![
                Inline::Strong(line![format!("{}. ", step.title)]),
                self.style.notation.in_its_words(&step.sentence)
            ])];
            if !step.symbols.is_empty() {
                blocks.push(self.numbered(Equation::aligned(&step.symbols, self.style)));
            }
            if !step.numbers.is_empty() {
                blocks.push(Block::Equation(Equation::aligned(&step.numbers, self.style)));
            }
            blocks.extend(step.residual.map(left_over));
            steps.push(blocks);
        }
        self.blocks.push(Block::Steps(steps));
        self.own_words(Scene::Derivation, When::After);
    }
}

fn left_over(closure: Closure) -> Block {
    Block::Paragraph(line![
        Inline::Emphasis(line!["Left over: "]),
        Inline::Quantity(closure.residual, closure.role),
        "; the bound is ",
        Inline::Quantity(closure.bound, closure.role),
        "."
    ])
}
