//! What was found, in plain words.

use super::answer::{reckoned, value};
use super::cause::{cause, feedback_of, is_last_resort, someone_who};
use super::{Context, One};
use crate::notes::{line, listed};
use crate::paper::value_words::place_role;
use crate::tree::{Block, Inline};
use assessment::mark::{Answer, Cause, Explanation, Through, UnitFault, Verdict};
use assessment::set::Ask;
use workings::dimension::Dimension;
use workings::expression::Expression;
use workings::quantity::Quantity;
use workings::role::Symbol;

/// In a few words, for a line of a table.
pub(super) fn word(one: &One<'_>) -> &'static str {
    if one.judged.decided.is_some() {
        return "marked by a person";
    }
    match (&one.judged.verdict, one.judged.unit) {
        (Verdict::Right, None) => "right",
        (Verdict::Right, Some(UnitFault::Missing)) => "right, but the unit is missing",
        (Verdict::Right, Some(UnitFault::OtherKind)) => "right, but with a wrong unit",
        (Verdict::FollowThrough(_), _) => "right from your own values",
        (Verdict::Explained(Explanation { cause, .. }), _) => match cause {
            Cause::Slip { slip } if slip.slip == "sign" => "right size, other sign",
            Cause::Slip { .. } => "a slip",
            Cause::RoundedEarly => "may be rounded too early",
            Cause::Mistake { .. } => "a known mistake",
            Cause::MistakeAndSlip { .. } => "a known mistake and a slip",
            Cause::TwoMistakes { .. } => "two known mistakes",
        },
        (Verdict::Ambiguous { .. }, _) => "not right; several mistakes fit",
        (Verdict::Unknown { .. }, _) => "not right; not known why",
        (Verdict::Blank, _) => "left blank",
        (Verdict::ByHand, _) => "not marked yet",
    }
}

/// At length. Of the first step that went wrong it is told elsewhere.
pub(super) fn told(context: &Context<'_>, one: &One<'_>, is_first: bool) -> Vec<Block> {
    let mut blocks = Vec::new();
    let mut say = |strong: &str, rest: Vec<Inline>| {
        let mut words = line![Inline::Strong(line![format!("{strong} ")])];
        words.extend(rest);
        blocks.push(Block::Paragraph(words));
    };
    match &one.judged.verdict {
        Verdict::Right => say("Right.", Vec::new()),
        Verdict::FollowThrough(through) => say("Right from your own values.", follows(context, one, through)),
        Verdict::Blank => say("Left blank.", line!["There is nothing to mark."]),
        Verdict::ByHand if one.judged.decided.is_none() => by_hand(one, &mut say),
        Verdict::ByHand => {}
        _ if is_first => {
            say(not_right(one), line!["This is the first step that went wrong; it is told above."])
        }
        Verdict::Explained(explanation) => {
            say(not_right(one), Vec::new());
            blocks.extend(cause(context, one, explanation));
        }
        Verdict::Ambiguous { candidates } => {
            say("Not right.", Vec::new());
            blocks.extend(several(context, one, candidates));
        }
        Verdict::Unknown { perhaps } => say("Not right.", unknown(perhaps)),
    }
    blocks.extend(unit(one));
    blocks.extend(decided(one));
    blocks
}

/// How wrong an answer is, in two words. What earns nothing is not nearly right, and half or double the value has many causes, of
/// which none is known.
pub(super) fn not_right(one: &One<'_>) -> &'static str {
    let Verdict::Explained(Explanation { cause, .. }) = &one.judged.verdict else { return "Not right." };
    let little = match cause {
        Cause::Slip { slip } => !is_last_resort(slip),
        Cause::RoundedEarly => true,
        _ => false,
    };
    let earns = one.judged.earned.is_none_or(|earned| earned > 0.0);
    if little && earns { "Nearly right." } else { "Not right." }
}

/// What nothing explains, or too much would, where the solution stands below.
pub(super) fn unknown(perhaps: &[Explanation]) -> Vec<Inline> {
    let mut words = why_unknown(perhaps);
    words.push("Lay your own working beside the solution and look for the first line that differs.".into());
    words
}

/// Why no mistake is named.
pub(super) fn why_unknown(perhaps: &[Explanation]) -> Vec<Inline> {
    let why = match perhaps {
        [] => "No mistake that is known leads to this number, so nothing is guessed. ",
        _ => {
            "No mistake that is known leads to just this number; of two things gone wrong at once too many would, so nothing is guessed. "
        }
    };
    line![why]
}

/// What several mistakes explain.
pub(super) fn several(context: &Context<'_>, one: &One<'_>, candidates: &[Explanation]) -> Vec<Block> {
    let mut items: Vec<Vec<Block>> = Vec::new();
    for candidate in candidates {
        let mut words = someone_who(context, one, candidate);
        words.push(": ".into());
        words.extend(feedback_of(context, one, candidate));
        let item = vec![Block::Paragraph(words)];
        let text = |item: &[Block]| format!("{item:?}");
        if !items.iter().any(|other| text(other) == text(&item)) {
            items.push(item);
        }
    }
    vec![
        Block::Paragraph(line![
            "Different mistakes lead to this very number; which of them was yours, only you can tell. It comes out for someone"
        ]),
        Block::List { ordered: false, items },
    ]
}

fn by_hand(one: &One<'_>, say: &mut impl FnMut(&str, Vec<Inline>)) {
    match (&one.part.ask, one.answer) {
        (Ask::Sketch { .. }, _) => {
            say("A person marks your drawing.", line!["Its marks are not counted yet."]);
        }
        (_, Answer::Unreadable(_)) if !one.unclear.is_empty() => say(
            "A person will read this.",
            line![format!("It is in doubt: {}. Its marks are not counted yet.", one.unclear)],
        ),
        (_, Answer::Unreadable(_)) => say(
            "A person will read this.",
            line!["What you wrote could not be read as a number; its marks are not counted yet."],
        ),
        _ => say("A person will look at this.", line!["Its marks are not counted yet."]),
    }
}

/// From which own values an answer follows.
fn follows(context: &Context<'_>, one: &One<'_>, through: &Through) -> Vec<Inline> {
    let mut words = Vec::new();
    let own = own_values(context, &through.answers);
    if own.is_empty() {
        words.push("With what you found before, ".into());
    } else {
        words.push("With your own ".into());
        words.extend(own);
        let others = through.or.iter().map(|label| own_values(context, std::slice::from_ref(label)));
        let others: Vec<_> = others.filter(|other| !other.is_empty()).collect();
        for other in &others {
            words.push(", or with your own ".into());
            words.extend(other.iter().cloned());
        }
        words.push(if others.is_empty() { ", " } else { " (it does not show with which), " }.into());
    }
    words.extend(line![
        "the right way leads to ",
        reckoned(context, one, through.expected),
        ", as you have it. What went wrong before costs marks only where it was done."
    ]);
    words
}

/// The student's own answers to some parts: `Q = 54 000 mm³ of question 2a`.
pub(super) fn own_values(context: &Context<'_>, labels: &[String]) -> Vec<Inline> {
    let own = |label: &String| {
        let one = context.one(label)?;
        let (symbol, dimension) = match &one.part.ask {
            Ask::Place(place) => (Symbol::plain(place_role(place.along)), Dimension::LENGTH),
            _ => {
                let working = context.solved().workings().get(one.working()?)?;
                (working.symbol.clone(), working.value.dimension)
            }
        };
        let quantity = Quantity::new(value(one, context.sheet.units)?, dimension);
        let given = Expression::Given(quantity, symbol.role);
        let equal = Expression::Equal(vec![Expression::Symbol(symbol), given]);
        Some(line![Inline::Math(equal), format!(" of question {label}")])
    };
    listed(labels.iter().filter_map(own).collect())
}

/// What is wrong with the unit.
pub(super) fn unit(one: &One<'_>) -> Option<Block> {
    let words = match one.judged.unit? {
        UnitFault::Missing => {
            "No unit stands beside your number. Write it: without one a number says nothing.".to_owned()
        }
        UnitFault::OtherKind => {
            let wanted = match &one.part.ask {
                Ask::Value(value) => value.unit.unit.dimension(),
                Ask::Choice(choice) => choice.value.unit.unit.dimension(),
                Ask::Place(_) | Ask::Sketch { .. } => Dimension::LENGTH,
            };
            format!(
                "The unit beside your number is not one of {}. The number was judged as if the right unit stood there.",
                wanted.in_words()
            )
        }
    };
    Some(Block::Paragraph(line![Inline::Strong(line!["The unit. "]), words]))
}

/// What a person decided.
fn decided(one: &One<'_>) -> Option<Block> {
    let decided = one.judged.decided.as_ref()?;
    let mut words = line![Inline::Strong(line!["A person has marked this. "])];
    if !decided.note.is_empty() {
        words.push(decided.note.clone().into());
    }
    Some(Block::Paragraph(words))
}
