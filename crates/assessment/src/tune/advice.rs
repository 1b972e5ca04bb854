//! What to widen where too few numbers fit.

use super::census::Census;
use super::score::{Results, Score};
use crate::candidates::Candidates;
use lesson::papers::Draw;
use std::collections::BTreeSet;

/// How many choices of one thing are tried to see what depends on it.
const TRIED: usize = 8;

/// What stands in the way, the worst first, and what to do about it.
pub(super) fn advice(
    candidates: &Candidates,
    results: &Results,
    census: &Census,
    best: &[(Score, Draw)],
) -> Vec<String> {
    let mut advice = Vec::new();
    let sound = census.sound();
    if census.looked_at > 0 && census.unsound * 2 > census.looked_at {
        advice.push(format!(
            "{} of {} combinations are no sound lesson: `glueline check` tells what is wrong with the first and the last of \
             each choice; keep what varies within what fits together",
            census.unsound, census.looked_at
        ));
    }
    let met_or_not = census.looked_at.saturating_sub(census.unsound);
    if census.unmet * 2 > met_or_not {
        advice.push(format!(
            "{} of {met_or_not} sound combinations do not meet what [papers] requires: loosen it, or let the choices go further",
            census.unmet
        ));
    }
    if census.long * 2 > sound {
        advice.push(seldom_round(candidates, results, census, best));
    }
    let hides = census.hidden_by.first().map_or_else(String::new, |most| {
        format!("a mistake hides behind a right value, most often {} behind {}", most.mistake, most.result)
    });
    let away = "move the slice away from where V is zero, or the cut away from the neutral axis";
    let mut stands = [
        (
            census.hidden,
            hides.as_str(),
            "let the sizes of the section differ more from one another, and the loads stand less alike",
        ),
        (census.carried, "rounding on the way leads out of the tolerance", away),
        (census.ill_conditioned, "a value is a small difference of large ones", away),
        (
            census.unlike,
            "the way to the answers is another than in the rest",
            "let the loads keep their order and their side of the slice, and the neutral axis its part",
        ),
    ];
    stands.sort_by_key(|(count, ..)| std::cmp::Reverse(*count));
    for (count, what, mend) in stands.into_iter().filter(|(count, ..)| *count > 0) {
        advice.push(format!("in {count} of the {} round ones {what}: {mend}", census.round));
    }
    if let Some(first) = census.hidden_on_all.first() {
        let names: BTreeSet<&str> = census.hidden_on_all.iter().map(|hides| hides.mistake.as_str()).collect();
        advice.push(format!(
            "whatever is drawn, {} behind a right value, such as {} behind {}: to see them let something else vary, as the \
             sizes of the section",
            match names.len() {
                1 => "one mistake hides".to_owned(),
                count => format!("{count} mistakes hide"),
            },
            first.mistake,
            first.working
        ));
    }
    if advice.is_empty() && u128::from(census.looked_at) == census.draws {
        advice.push(format!(
            "there are no more than {} combinations: give what varies more choices",
            census.draws
        ));
    }
    advice
}

/// Few combinations have all results exact: which one is the hardest, and what it depends on.
fn seldom_round(
    candidates: &Candidates,
    results: &Results,
    census: &Census,
    best: &[(Score, Draw)],
) -> String {
    let sound = census.sound();
    let exact = |long: u64| match sound.saturating_sub(long) {
        0 => format!("in none of {sound} combinations"),
        exact => format!("in {exact} of {sound} combinations"),
    };
    let mut words = match results.asked {
        1 => format!("the result is exact in the course's figures {}", exact(census.long)),
        _ => {
            format!("all {} results are exact in the course's figures {}", results.asked, exact(census.long))
        }
    };
    let hardest = census.long_results.iter().enumerate().max_by_key(|(_, result)| result.long);
    if let Some((at, hardest)) = hardest {
        if results.asked > 1 {
            words.push_str(&format!("; the hardest is {}, {}", hardest.name, exact(hardest.long)));
        }
        let on = best.first().map(|(_, draw)| depends_on(candidates, at, draw)).unwrap_or_default();
        if on.is_empty() {
            words.push_str(": nothing that varies changes it, so give other numbers to what it is made from");
        } else {
            words.push_str(&format!(": give {} more choices, or finer steps", on.join(", ")));
        }
    }
    words
}

/// The things that vary and on which a result depends, seen from one draw.
fn depends_on(candidates: &Candidates, at: usize, from: &Draw) -> Vec<String> {
    let mut worker = candidates.worker();
    let mut value = |draw: &Draw| worker.evaluate(draw).and_then(|found| found.values.get(at).copied());
    let Some(own) = value(from) else { return Vec::new() };
    let mut names = Vec::new();
    for (axis, variation) in candidates.papers().lesson().vary.iter().enumerate() {
        let mut other = from.clone();
        let changes = (0..variation.count().min(TRIED)).any(|choice| {
            if let Some(place) = other.choices.get_mut(axis) {
                *place = choice;
            }
            value(&other).is_some_and(|value| (value - own).abs() > 1e-9 * own.abs())
        });
        if changes {
            names.push(variation.name.clone());
        }
    }
    names
}
