//! Hints for one part of a paper, each saying a little more than the one before, and at last the solution.

use super::value_words::name;
use super::worked::Worked;
use crate::notes::{line, listed};
use crate::tree::{Block, Equation, Inline};
use assessment::set::{Ask, Part, SetPaper};
use figure::paper::Letters;
use workings::expression::Expression;
use workings::solved::Solved;
use workings::working::{Formula, Id};

/// So many values make a sentence; a sum over more of them is told by its formula.
const MOST_IN_A_SENTENCE: usize = 4;

/// The hints: what the value rests on, its formula in symbols, the formula with the numbers of this paper, and the worked
/// solution. Each is there only where it says something that those before it did not.
pub fn hints(set: &SetPaper, part: &Part) -> Vec<Vec<Block>> {
    let asked = match &part.ask {
        Ask::Value(value) => set.solved.workings().id(&value.working),
        Ask::Choice(choice) => set.solved.workings().id(&choice.value.working),
        Ask::Place(_) | Ask::Sketch { .. } => None,
    };
    let mut hints: Vec<Vec<Block>> = asked.map(|id| of_value(&set.solved, id)).unwrap_or_default();
    hints.push(Worked::new(set, Letters::Usual).part(part));
    hints.retain(|hint| !hint.is_empty());
    hints
}

fn of_value(solved: &Solved, asked: Id) -> Vec<Vec<Block>> {
    let (workings, style) = (solved.workings(), solved.style());
    let symbol = |id: Id| Expression::Symbol(workings.working(id).symbol.clone());
    let on_the_way =
        workings.reads(asked).into_iter().filter(|id| workings.working(*id).formula != Formula::Given);
    let rests_on: Vec<Vec<Inline>> = on_the_way
        .map(|id| {
            let words = name(&workings.working(id).name, solved);
            line![format!("the {words} "), Inline::Math(symbol(id))]
        })
        .collect();
    let mut hints = Vec::new();
    if (1..=MOST_IN_A_SENTENCE).contains(&rests_on.len()) {
        let mut words = line!["Find first "];
        words.extend(listed(rests_on));
        words.push(".".into());
        hints.push(vec![Block::Paragraph(words)]);
    }
    let equation = |right: Expression| {
        vec![Block::Equation(Equation::of(&Expression::Equal(vec![symbol(asked), right]), style))]
    };
    let in_symbols = workings.formula(asked);
    let in_numbers = workings.substitution(asked).filter(|numbers| in_symbols.as_ref() != Some(numbers));
    hints.extend([in_symbols, in_numbers].into_iter().flatten().map(equation));
    hints
}
