//! Wrong answers that are known for what they are, in a table.

use super::value_words::beside;
use crate::notes::line;
use crate::tree::{Alignment, Block, Inline, Table};
use assessment::set::{Recognised, ValuePart};
use workings::expression::Expression;
use workings::mistake::{self, Said, Saying};
use workings::solved::Solved;

/// The known wrong answers of a value from the least to the greatest, so that a marker finds one by its number; nothing where
/// there are none.
pub(super) fn recognised(mut known: Vec<&Recognised>, value: &ValuePart, solved: &Solved) -> Option<Block> {
    // Stable: of equal ones those made nearer to the answer come first.
    known.sort_by(|one, other| one.value.total_cmp(&other.value));
    let rows: Vec<_> = known.iter().map(|known| row(known, value, solved)).collect();
    (!rows.is_empty()).then(|| {
        Block::Table(Table {
            caption: line!["Wrong answers that are known."],
            number: None,
            alignment: vec![Alignment::Right, Alignment::Left, Alignment::Left],
            header: vec![line!["Answer"], line!["What was done"], line!["What to say"]],
            rows,
            row_heads: true,
            total: false,
        })
    })
}

/// One of them: its value, what was done, what to say.
pub(super) fn row(known: &Recognised, value: &ValuePart, solved: &Solved) -> Vec<Vec<Inline>> {
    let style = solved.style();
    let said = |own: fn(&mistake::Mistake, &workings::style::Style) -> Saying, text: &str| {
        mistake::named(&known.mistake)
            .map_or_else(|| line![text.to_owned()], |mistake| spelt(own(mistake, style)))
    };
    let mut does = said(mistake::Mistake::does, &known.does);
    if known.made_at != value.working {
        let made_at = style.notation.in_its_words(&known.made_at);
        does.extend(line![" (at the ", made_at, ")"]);
    }
    vec![vec![beside(known.value, value, solved)], does, said(mistake::Mistake::feedback, &known.feedback)]
}

/// A saying as a line.
pub(crate) fn spelt(saying: Saying) -> Vec<Inline> {
    let piece = |piece| match piece {
        Said::Words(words) => Inline::Text(words),
        Said::Symbol(symbol) => Inline::Math(Expression::Symbol(symbol)),
    };
    saying.pieces.into_iter().map(piece).collect()
}
