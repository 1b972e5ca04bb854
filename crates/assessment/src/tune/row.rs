//! What was found: numbers, what comes of them, and why they are good, in words.

use super::judged::Judged;
use super::score::Results;
use crate::candidates::Candidates;
use crate::fair::Judgement;
use lesson::papers::Draw;
use serde::Serialize;
use std::collections::BTreeSet;

/// The most misses that are told, and the most reasons for each.
const MOST_MISSES: usize = 3;
const MOST_REASONS: usize = 5;

/// What one thing that varies is.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Choice {
    /// The thing: a name under `[vary]`, or what the variants are variants of.
    pub name: String,
    /// What it is, as the lecturer would write it.
    pub is: String,
}

/// A result of numbers that were found.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RowResult {
    /// Its name.
    pub name: String,
    /// Its value, SI.
    pub value: f64,
    /// As the course shows it.
    pub shown: String,
    /// Whether that is all of it.
    pub exact: bool,
    /// Its digits in the course's unit; none where they never end, or nearly so.
    pub digits: Option<u32>,
}

/// Numbers that were found.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Row {
    /// The choices, from 0, in the order of the lesson.
    #[serde(skip)]
    pub draw: Draw,
    /// The same in words.
    pub choices: Vec<Choice>,
    /// The results, in the order of the search.
    pub results: Vec<RowResult>,
    /// What each result that is asked for is judged by.
    pub judgements: Vec<Judgement>,
    /// Why these numbers are good, and what is not perfect about them: one sentence for each of the three conditions.
    pub explanation: Vec<String>,
}

/// Numbers that nearly fit.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Miss {
    /// The choices in words.
    pub choices: Vec<Choice>,
    /// What stands against them, in words.
    pub reasons: Vec<String>,
}

impl Row {
    pub(super) fn of(candidates: &Candidates, results: &Results, judged: Judged) -> Self {
        let exact = results.asked;
        let named = results.names.iter().zip(&judged.values).enumerate();
        let results: Vec<RowResult> = named
            .map(|(at, (name, (value, shown)))| RowResult {
                name: name.clone(),
                value: *value,
                shown: shown.clone(),
                exact: results.is_exact(at, *value),
                digits: results.short(at, *value).map(|short| short.digits),
            })
            .collect();
        let judgements = judged.paper.judgements;
        let (asked, way) = results.split_at(exact.min(results.len()));
        Self {
            choices: choices(candidates, &judged.draw),
            explanation: vec![round(asked, way), well_conditioned(&judgements), separate(&judgements)],
            draw: judged.draw,
            results,
            judgements,
        }
    }
}

impl Miss {
    pub(super) fn all(candidates: &Candidates, results: &Results, misses: Vec<Judged>) -> Vec<Self> {
        let miss = |judged: Judged| {
            let mut reasons: Vec<String> =
                long(results, &judged).chain(judged.reasons.iter().map(ToString::to_string)).collect();
            let more = reasons.len().saturating_sub(MOST_REASONS);
            if more > 1 {
                reasons.truncate(MOST_REASONS);
                reasons.push(format!("and {more} more"));
            }
            Self { choices: choices(candidates, &judged.draw), reasons }
        };
        misses.into_iter().take(MOST_MISSES).map(miss).collect()
    }
}

/// The results that should be exact and are not, in words.
fn long<'a>(results: &'a Results, judged: &'a Judged) -> impl Iterator<Item = String> + 'a {
    let named = results.names.iter().zip(&judged.values).take(results.asked).enumerate();
    named
        .filter(|(at, (_, (value, _)))| !results.is_exact(*at, *value))
        .map(|(_, (name, (_, shown)))| format!("{name}: {shown} is not exact"))
}

fn choices(candidates: &Candidates, draw: &Draw) -> Vec<Choice> {
    let varies = candidates.papers().lesson().vary.iter().zip(&draw.choices);
    varies
        .map(|(variation, &choice)| Choice {
            name: variation.name.clone(),
            is: variation.words(choice).unwrap_or_default().to_owned(),
        })
        .collect()
}

/// `one result`, `3 results`.
fn counted(count: usize, noun: &str) -> String {
    if count == 1 { format!("one {noun}") } else { format!("{count} {noun}s") }
}

fn round(asked: &[RowResult], way: &[RowResult]) -> String {
    let mut text = match asked {
        [_] => "round: the result is exact in the course's figures".to_owned(),
        all => format!("round: all {} are exact in the course's figures", counted(all.len(), "result")),
    };
    let long: Vec<&str> =
        way.iter().filter(|result| !result.exact).map(|result| result.name.as_str()).collect();
    match long[..] {
        [] if way.is_empty() => {}
        [] => text.push_str("; so is every value on the way"),
        [one] => text.push_str(&format!("; on the way {one} is not")),
        [one, ..] => text.push_str(&format!(
            "; on the way {} of {} are not, such as {one}",
            long.len(),
            counted(way.len(), "value")
        )),
    }
    text
}

fn well_conditioned(judgements: &[Judgement]) -> String {
    let largest = |of: fn(&Judgement) -> f64| {
        judgements
            .iter()
            .max_by(|one, other| of(one).total_cmp(&of(other)))
            .map(|one| (of(one), &one.working))
    };
    let mut text = match largest(|judgement| judgement.carried.band / judgement.tolerance) {
        Some((share, working)) if share > 1e-6 => format!(
            "well conditioned: rounding on the way leads at most {share:.2} of the tolerance off ({working})"
        ),
        _ => "well conditioned: rounding on the way changes nothing".to_owned(),
    };
    if let Some((condition, working)) = largest(|judgement| judgement.condition) {
        text.push_str(&format!("; the condition number is at most {condition:.1} ({working})"));
    }
    text
}

fn separate(judgements: &[Judgement]) -> String {
    let count: usize = judgements.iter().map(|judgement| judgement.mistakes).max().unwrap_or(0);
    let pairs: usize = judgements.iter().map(|judgement| judgement.alike_by_numbers().count()).sum();
    let mut text = match (count, pairs) {
        (0, _) => "separate: no mistake can be made on the way".to_owned(),
        (_, 0) => format!("separate: no mistake gives a right value, of up to {count} that can show in one"),
        _ => {
            format!(
                "not all separate: no mistake gives a right value, of up to {count} that can show in one, but some give one and the same"
            )
        }
    };
    let hidden = judgements.iter().flat_map(|judgement| &judgement.hidden);
    let always: BTreeSet<&str> = hidden.map(|hidden| hidden.wrong.mistake.as_str()).collect();
    if let Some(first) = always.first() {
        let all = counted(always.len(), "mistake");
        text.push_str(&format!(", but for {all} that may give it whatever is drawn, such as {first}"));
    }
    let first =
        judgements.iter().find_map(|judgement| Some((judgement.alike_by_numbers().next()?, judgement)));
    if let Some((pair, judgement)) = first {
        text.push_str(&format!(
            "; {} of them cannot be told apart, such as {} and {} ({})",
            counted(pairs, "pair"),
            pair.one.mistake,
            pair.other.mistake,
            judgement.working
        ));
    }
    let back =
        |judgement: &'_ Judgement| judgement.slips.back.iter().filter(|meets| !meets.by_structure).count();
    let slipped: usize = judgements.iter().map(back).sum();
    if slipped > 0 {
        text.push_str(&format!(
            "; after {} a slip would lead back to a right value",
            counted(slipped, "mistake")
        ));
    }
    text
}
