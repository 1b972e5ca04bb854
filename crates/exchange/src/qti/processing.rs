//! What each response earns, and what is said of it.
//!
//! In this order: nothing written, right, right after an earlier slip, known mistakes, all else. A value is compared with
//! two bounds, the lower first: the standard's own comparison with a tolerance takes its bounds the wrong way round
//! for negative values, and players were seen to mark right answers wrong by it.

use super::element::{Element, html, qti};
use super::formula::{absolute, number};
use super::identifier::Identifier;
use super::item::{Answer, Bounds, Choice, FollowThrough, Item, Marks, Value};
use super::passage::{Line, Passage};
use super::variables::{SCORE, Variables};

/// No value that follows from sound answers is larger: right values are 10 000 at most.
const LARGEST: f64 = 1e9;

/// One thing that a response can be.
struct Verdict<'a> {
    /// What it is told by; `None` for all else.
    test: Option<Element>,
    marks: Marks,
    /// Its name among the feedback of the answer.
    name: String,
    feedback: &'a Passage,
}

/// The rules of an item.
pub(super) fn response_processing(item: &Item) -> Element {
    let variables = Variables::of(item);
    let mut rules: Vec<Element> = item.answers.iter().map(|answer| condition(answer, &variables)).collect();
    if variables.several() {
        let scores = item.answers.iter().map(|answer| variable(variables.score(answer.identifier())));
        rules.push(set(SCORE, qti("sum").children(scores)));
    }
    qti("responseProcessing").children(rules)
}

/// What is said, for each verdict that says anything.
pub(super) fn feedback(item: &Item) -> Vec<Element> {
    let variables = Variables::of(item);
    let mut all = Vec::new();
    for answer in &item.answers {
        for verdict in verdicts(answer, &variables).into_iter().filter(|verdict| !verdict.feedback.is_empty())
        {
            let modal = qti("modalFeedback")
                .with("outcomeIdentifier", variables.feedback(answer.identifier()))
                .with("identifier", verdict.name)
                .with("showHide", "show");
            // Several are said at once: each says of what.
            let of_what = variables.several().then(|| html("p").nodes(&asked(answer).0));
            all.push(modal.children(of_what).nodes(&verdict.feedback.0));
        }
    }
    all
}

/// What is asked for, in a line.
fn asked(answer: &Answer) -> &Line {
    match answer {
        Answer::Value(value) => &value.label,
        Answer::Choice(choice) => &choice.question,
    }
}

fn condition(answer: &Answer, variables: &Variables<'_>) -> Element {
    let name = answer.identifier();
    let (response, score) = (variables.response(name), variables.score(name));
    let nothing = qti("isNull").child(variable(response));
    let mut condition =
        qti("responseCondition").child(qti("responseIf").child(nothing).child(set(&score, number(0.0))));
    for verdict in verdicts(answer, variables) {
        let mut branch = match verdict.test {
            Some(test) => qti("responseElseIf").child(test),
            None => qti("responseElse"),
        };
        branch = branch.child(set(&score, number(verdict.marks.0)));
        if !verdict.feedback.is_empty() {
            let which = qti("baseValue").with("baseType", "identifier").text(verdict.name);
            branch = branch.child(set(&variables.feedback(name), which));
        }
        condition = condition.child(branch);
    }
    condition
}

fn verdicts<'a>(answer: &'a Answer, variables: &Variables<'_>) -> Vec<Verdict<'a>> {
    match answer {
        Answer::Value(value) => value_verdicts(value, variables),
        Answer::Choice(choice) => choice_verdicts(choice, variables),
    }
}

fn value_verdicts<'a>(value: &'a Value, variables: &Variables<'_>) -> Vec<Verdict<'a>> {
    let response = variables.response(&value.identifier);
    let verdict =
        |test, marks, name: &str, feedback| Verdict { test, marks, name: name.to_owned(), feedback };
    let right = Some(match value.also.as_slice() {
        [] => within(&response, &value.bounds),
        also => {
            let all = std::iter::once(&value.bounds).chain(also);
            qti("or").children(all.map(|bounds| within(&response, bounds)))
        }
    });
    let mut verdicts = vec![verdict(right, value.marks, "RIGHT", &value.feedback)];
    if let Some(through) = &value.follow_through {
        let test = Some(follows(&response, through, variables));
        verdicts.push(verdict(test, through.marks, "FOLLOWED", &through.feedback));
    }
    for (place, mistake) in value.mistakes.iter().enumerate() {
        let test = Some(within(&response, &mistake.bounds));
        verdicts.push(verdict(test, mistake.marks, &format!("MISTAKE-{}", place + 1), &mistake.feedback));
    }
    verdicts.push(verdict(None, Marks::default(), "OTHER", &value.otherwise));
    verdicts
}

fn choice_verdicts<'a>(choice: &'a Choice, variables: &Variables<'_>) -> Vec<Verdict<'a>> {
    let response = variables.response(&choice.identifier);
    let verdicts = choice.alternatives.iter().map(|alternative| {
        let chosen = qti("baseValue").with("baseType", "identifier").text(&alternative.identifier);
        Verdict {
            test: Some(qti("match").child(variable(response.clone())).child(chosen)),
            marks: alternative.marks,
            name: format!("CHOSEN-{}", alternative.identifier),
            feedback: &alternative.feedback,
        }
    });
    verdicts.collect()
}

fn within(response: &str, bounds: &Bounds) -> Element {
    qti("and").children(compared(response, bounds.lower(), bounds.upper()))
}

/// Not below the lower bound, not above the upper.
fn compared(response: &str, lower: f64, upper: f64) -> [Element; 2] {
    [("gte", lower), ("lte", upper)]
        .map(|(how, bound)| qti(how).child(variable(response.to_owned())).child(number(bound)))
}

/// The response differs from what follows by no more than its share.
///
/// All of it must be looked at first. A player was seen to take what is no number for 0 in a difference, and to leave an
/// answer that is not there out of a product. And what follows must be something: 0 from 0 would make the rest of the
/// question nothing, and to a player that divides by 0 everything is near to the infinite.
fn follows(response: &str, through: &FollowThrough, variables: &Variables<'_>) -> Element {
    let expected = || through.expected.element(&|answer: &Identifier| variables.response(answer));
    let size = || absolute(expected());
    let off = absolute(qti("subtract").child(variable(response.to_owned())).child(expected()));
    let share = qti("product").child(number(through.tolerance)).child(size());
    let earlier = through.expected.answers().into_iter().map(|answer| variables.response(answer));
    let mut all = qti("and").children(is_number(response));
    for earlier in earlier {
        all = all.child(qti("not").child(qti("isNull").child(variable(earlier.clone()))));
        all = all.children(is_number(&earlier));
    }
    all.child(qti("gt").child(size()).child(number(0.0)))
        .child(qti("lt").child(size()).child(number(LARGEST)))
        .child(qti("lte").child(off).child(share))
}

/// What is no number is neither above nor below another.
fn is_number(response: &str) -> [Element; 2] {
    compared(response, -LARGEST, LARGEST)
}

fn variable(name: String) -> Element {
    qti("variable").with("identifier", name)
}

fn set(outcome: &str, to: Element) -> Element {
    qti("setOutcomeValue").with("identifier", outcome).child(to)
}
