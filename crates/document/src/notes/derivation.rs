//! From the balance of the piece to the formula.

use super::author::{Author, share};
use super::line;
use crate::paper::recognised::spelt;
use crate::tree::{Block, Equation, Inline};
use lesson::{Scene, When};
use mechanics::balance::Residual;
use workings::derivation::{Closure, Remainder, Step, derivation};
use workings::dimension::Dimension;
use workings::quantity::Quantity;
use workings::role::Role;
use workings::style::Style;

impl Author<'_> {
    pub(crate) fn derivation(&mut self) {
        self.chapter("From the balance to the formula");
        self.own_words(Scene::Derivation, When::Before);
        self.say(line![
            "Each step stands first in symbols, for any beam, and then with the numbers of this one. Numbers are shown rounded but carried in full, so a difference of two shown \
             numbers may seem off in its last figure."
        ]);
        let mut steps = Vec::new();
        let mut worst: f64 = 0.0;
        for step in derivation(self.solved) {
            worst = step.residual.iter().filter_map(Closure::share_of_rounding).fold(worst, f64::max);
            let symbols = (!step.symbols.is_empty())
                .then(|| self.numbered(Equation::aligned(&step.symbols, self.style)));
            steps.push(step_blocks(&step, symbols, self.style));
        }
        self.blocks.push(Block::Steps(steps));
        self.say(line![
            format!("Where two ways lead to one number, rounding leaves at most {} of it between them; more than ", share(worst)),
            Inline::Given(Quantity::new(Residual::BOUND, Dimension::NONE), Role::Ratio),
            " would be a mistake."
        ]);
        self.own_words(Scene::Derivation, When::After);
    }
}

/// One step of the derivation: what is done, in symbols, with the numbers, and what is left over.
pub fn derivation_step(step: &Step, style: &Style) -> Vec<Block> {
    let symbols =
        (!step.symbols.is_empty()).then(|| Block::Equation(Equation::aligned(&step.symbols, style)));
    let mut blocks = step_blocks(step, symbols, style);
    blocks.extend(step.residual.filter(|closure| closure.from == Remainder::Rounding).map(|closure| {
        let residual = Inline::Quantity(closure.residual, closure.role);
        Block::Paragraph(line![Inline::Emphasis(line!["Left over by rounding: "]), residual, "."])
    }));
    blocks
}

/// What a finite slice leaves over stands at its step; what rounding leaves does not.
fn step_blocks(step: &Step, symbols: Option<Block>, style: &Style) -> Vec<Block> {
    let mut words = vec![Inline::Strong(line![format!("{}. ", step.title)])];
    words.extend(spelt(step.sentence.clone()));
    let mut blocks = vec![Block::Paragraph(words)];
    blocks.extend(symbols);
    if !step.numbers.is_empty() {
        blocks.push(Block::Equation(Equation::aligned(&step.numbers, style)));
    }
    blocks.extend(step.residual.and_then(left_over));
    blocks
}

fn left_over(closure: Closure) -> Option<Block> {
    let residual = Inline::Quantity(closure.residual, closure.role);
    let bound = Inline::Quantity(closure.bound, closure.role);
    let why = match closure.from {
        Remainder::Rounding => return None,
        Remainder::FiniteSlice => {
            ": this is no rounding. The slice has a length, over which the shear force changes; with a shorter slice less is \
             left. It cannot be more than the load on the slice, "
        }
        Remainder::LoadAtPoint => {
            ": this is no rounding. A load at a point stands on the slice, and the shear force jumps there; with a slice so \
             short that the load stands beside it, this is gone. It cannot be more than what acts on the slice, "
        }
    };
    Some(Block::Paragraph(line![
        Inline::Emphasis(line!["The mean differs from the value at the left face by "]),
        residual,
        why,
        bound,
        "."
    ]))
}
