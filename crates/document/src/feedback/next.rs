//! What to do next, in a few lines.

use super::first::First;
use super::{Context, One};
use crate::notes::line;
use crate::tree::{Block, Callout, CalloutKind, Inline};
use assessment::mark::Verdict;

/// A box with the steps; the first thing that is read.
pub(super) fn what_to_do(context: &Context<'_>, first: Option<&First<'_>>) -> Block {
    let items: Vec<Vec<Block>> =
        steps(context, first).into_iter().map(|words| vec![Block::Paragraph(words)]).collect();
    let body = match <[Vec<Block>; 1]>::try_from(items) {
        Ok([only]) => only,
        Err(items) => vec![Block::List { ordered: true, items }],
    };
    Block::Callout(Callout { kind: CalloutKind::Key, title: "What to do next".into(), body })
}

fn steps(context: &Context<'_>, first: Option<&First<'_>>) -> Vec<Vec<Inline>> {
    let labels = |wanted: &dyn Fn(&One<'_>) -> bool| -> Vec<&str> {
        context.ones.iter().filter(|one| wanted(one)).map(|one| one.part.label.as_str()).collect()
    };
    let mut steps = Vec::new();
    let blank = labels(&|one| one.judged.verdict == Verdict::Blank && one.judged.decided.is_none());
    if let Some(first) = first {
        steps.extend(of_first(context, first));
        let others = first.in_order(labels(&|one| first.is_beside(one, context)));
        if !others.is_empty() {
            steps.push(line![format!(
                "Then look at {}: something else went wrong there.",
                questions(&others)
            )]);
        }
        let perhaps = first.in_order(labels(&|one| one.is_wrong() && first.may_lead_to(one, context)));
        if !perhaps.is_empty() {
            steps.push(line![format!(
                "Then work {} out anew: what went wrong there may come from question {}, and need not be looked for.",
                questions(&perhaps),
                first.one().label()
            )]);
        }
    }
    if !blank.is_empty() {
        steps.push(line![format!(
            "You left {} blank. Read how {} worked out, close this page, and work {} out with the numbers of your paper.",
            questions(&blank),
            if blank.len() == 1 { "it is" } else { "they are" },
            if blank.len() == 1 { "it" } else { "them" }
        )]);
    }
    let units = labels(&|one| one.judged.unit.is_some());
    if !units.is_empty() {
        steps.push(line![format!("Mind the unit of your answer in {}.", questions(&units))]);
    }
    let waiting = labels(&|one| one.judged.marks().is_none());
    if !waiting.is_empty() {
        steps.push(line![format!(
            "Wait for {}: a person still has to look at {}, and your marks can only rise.",
            questions(&waiting),
            if waiting.len() == 1 { "it" } else { "them" }
        )]);
    }
    if !labels(&|one| matches!(one.judged.verdict, Verdict::Unknown { .. })).is_empty() {
        steps.push(line![
            "If you do not find what went wrong, bring your working and this page to your lecturer."
        ]);
    }
    if steps.is_empty() {
        let marks = (context.sheet.marked.marks() - context.sheet.paper.marks()).abs() < 1e-9;
        steps.push(line![if marks {
            "Everything is right. There is nothing to mend: say to yourself, or to somebody else, why each step is done as it is."
        } else {
            "Nothing went wrong in the numbers. Where marks are missing, the remarks below say why."
        }]);
    }
    steps
}

/// What to do about the first step that went wrong.
fn of_first(context: &Context<'_>, first: &First<'_>) -> Vec<Vec<Inline>> {
    let one = first.one();
    let label = one.label();
    let name = context.name(one);
    if first.is_rounding() {
        return vec![line![format!(
            "Keep one figure more on the way. In question {label}, {name}, your value is off by no more than may come of rounding."
        )]];
    }
    let why = if first.is_explained() {
        "what was done there, and why it is wrong, is told right below the table of your answers"
    } else {
        "it is not known why, so lay your own working beside the solution and find the first line that differs"
    };
    let order = if first.is_behind_another(context) {
        " in the order in which the solution goes, which is not that of the questions"
    } else {
        ""
    };
    let mut steps = vec![
        line![
            "Begin with ",
            Inline::Strong(line![format!("question {label}, {name}")]),
            format!(". It is the first step that went wrong{order}; {why}.")
        ],
        line![format!(
            "Then close this page, work question {label} out again with the numbers of your paper, and compare."
        )],
    ];
    let follow = following(context, label);
    if !follow.is_empty() {
        steps.push(line![format!(
            "Leave {} as {}: what you did there is right, only the value that it began from is not.",
            questions(&follow),
            if follow.len() == 1 { "it is" } else { "they are" }
        )]);
    }
    steps
}

/// What follows from the answer to a part: from it, from what follows from it, or from a mistake that was counted already.
fn following<'a>(context: &Context<'a>, label: &str) -> Vec<&'a str> {
    let throughs = || {
        context.ones.iter().filter_map(|one| match &one.judged.verdict {
            Verdict::FollowThrough(through) => Some((one.part.label.as_str(), through)),
            _ => None,
        })
    };
    let mut found: Vec<&str> = Vec::new();
    loop {
        let reached = |from: &String| from == label || found.contains(&from.as_str());
        let next = throughs().find(|(part, through)| {
            let mut own = through.answers.iter().chain(&through.or);
            !found.contains(part) && (through.answers.is_empty() || own.any(reached))
        });
        match next {
            Some((part, _)) => found.push(part),
            // In the order of the paper.
            None => return throughs().map(|(part, _)| part).filter(|part| found.contains(part)).collect(),
        }
    }
}

/// `question 2a`, `questions 2a, 2b and 3`.
fn questions(labels: &[&str]) -> String {
    match labels {
        [] => String::new(),
        [one] => format!("question {one}"),
        [others @ .., last] => format!("questions {} and {last}", others.join(", ")),
    }
}
