//! What is said of one answer while somebody practises: whether it is right, at which step to look again, and the drawing that
//! shows why. It does not work the answer out: that is what hints are for.

use super::first::drawing_of;
use super::verdict::{told, unit, why_unknown};
use super::{Context, Sheet};
use crate::notes::line;
use crate::paper::value_words::name;
use crate::tree::{Block, Inline};
use assessment::mark::Verdict;
use assessment::review::wrong_answers;
use assessment::set::Ask;
use figure::paper::Letters;

/// What is said of the answer to a part; nothing where the paper has no such part.
pub fn checked(sheet: &Sheet<'_>, label: &str) -> Vec<Block> {
    let context = Context::new(sheet, Letters::Usual);
    let Some(one) = context.one(label) else { return Vec::new() };
    let say = |words: &str| vec![Block::Paragraph(line![words.to_owned()])];
    match &one.judged.verdict {
        Verdict::Blank => return say("Nothing stands here yet. Write a number, with its unit."),
        Verdict::ByHand if !one.unclear.is_empty() => {
            return say(&format!(
                "This is not clear: {}. Write it so that it means one thing only, with its unit, as in 12.5 kN, -3.2 MPa or \
                 1.25e6 mm3.",
                one.unclear
            ));
        }
        Verdict::ByHand => {
            return say(
                "This cannot be read as one number with its unit. Write it as 12.5 kN, -3.2 MPa or 1.25e6 mm3.",
            );
        }
        _ => {}
    }
    let mut blocks = match &one.judged.verdict {
        // No solution stands here to lay a working beside.
        Verdict::Unknown { perhaps } => {
            let mut words = line![Inline::Strong(line!["Not right. "])];
            words.extend(why_unknown(perhaps));
            words.push("Look at your working line by line, or take a hint.".into());
            [Block::Paragraph(words)].into_iter().chain(unit(one)).collect()
        }
        _ => told(&context, one, false),
    };
    let wrong = wrong_answers(&[context.as_marked()]).into_iter().find(|wrong| wrong.item == label);
    let workings = context.solved().workings();
    // Where nobody knows what went wrong no drawing could show it; it would only give away what was asked for.
    let explained = wrong.filter(|wrong| wrong.mistake.is_some());
    if let Some((wrong, working)) =
        explained.and_then(|wrong| workings.id(&wrong.working).map(|id| (wrong, id)))
    {
        // A mistake that is made on the way is not to be looked for in the last step.
        if one.about() != Some(&wrong.working) {
            let step = name(&wrong.working, context.solved());
            blocks.push(Block::Paragraph(line![
                Inline::Strong(line!["Look again at an earlier step: "]),
                format!("the {step}.")
            ]));
        }
        let drawing = drawing_of(wrong.mistake.as_deref(), working, &context);
        blocks.extend(drawing.map(|block| without_answers(block, &context)));
    }
    blocks
}

/// A drawing without the values that are asked for and not found yet.
fn without_answers(block: Block, context: &Context<'_>) -> Block {
    let Block::Figure(mut figure) = block else { return block };
    let open = context
        .ones
        .iter()
        .filter(|one| !matches!(one.judged.verdict, Verdict::Right | Verdict::FollowThrough(_)));
    let values: Vec<f64> = open
        .flat_map(|one| match &one.part.ask {
            Ask::Value(value) => vec![value.right],
            Ask::Choice(choice) => vec![choice.value.right],
            Ask::Place(place) => place.right.iter().flat_map(|band| [band.lower, band.upper]).collect(),
            Ask::Sketch { .. } => Vec::new(),
        })
        .collect();
    figure.drawing = figure.drawing.without_numbers(&values);
    Block::Figure(figure)
}
