//! What to widen where too few numbers fit.

use super::census::Census;
use super::score::{Results, Score};
use crate::candidates::Candidates;
use lesson::papers::Draw;
use std::collections::BTreeSet;
use workings::solved::Solved;
use workings::working::{Formula, Id};

/// How many choices of one thing are tried to see what depends on it.
const TRIED: usize = 8;

/// So many givens are named from which a result is made; more would be no advice.
const NAMED: usize = 6;

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
        let such_as = match best.first().is_some_and(|(_, draw)| section_varies(candidates, draw)) {
            true => "",
            false => ", as the sizes of the section",
        };
        advice.push(format!(
            "whatever is drawn, {} behind a right value, such as {} behind {}: to see them let something else vary{such_as}",
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
    if let Some(fixed) = best.first().and_then(|(_, draw)| never_round(candidates, census, draw)) {
        words.push_str(&fixed);
        return words;
    }
    let hardest = census.long_results.iter().enumerate().max_by_key(|(_, result)| result.long);
    if let Some((at, hardest)) = hardest {
        if results.asked > 1 {
            words.push_str(&format!("; the hardest is {}, {}", hardest.name, exact(hardest.long)));
        }
        let on = best.first().map(|(_, draw)| depends_on(candidates, at, draw)).unwrap_or_default();
        if !on.is_empty() {
            words.push_str(&format!(": give {} more choices, or finer steps", on.join(", ")));
        }
    }
    words
}

/// The asked results that are exact in no draw and that nothing which varies changes, in words, with what they are made from: no choice
/// more of anything else makes them round. None where there are none.
fn never_round(candidates: &Candidates, census: &Census, draw: &Draw) -> Option<String> {
    let always_long = census.long_results.iter().enumerate().filter(|(_, one)| one.long == census.sound());
    let fixed: Vec<&str> = always_long
        .filter(|(at, _)| depends_on(candidates, *at, draw).is_empty())
        .map(|(_, one)| one.name.as_str())
        .collect();
    if fixed.is_empty() {
        return None;
    }
    let lesson = candidates.papers().lesson();
    let solved = Solved::new(lesson.problem.clone(), lesson.style.clone()).ok()?;
    let workings = solved.workings();
    let read: Vec<Vec<bool>> =
        fixed.iter().filter_map(|name| Some(workings.upstream(workings.id(name)?))).collect();
    let is_read = |id: Id| read.iter().any(|read| read.get(id.0 as usize) == Some(&true));
    let given: Vec<&str> = workings
        .in_order()
        .filter(|(id, working)| working.formula == Formula::Given && is_read(*id))
        .map(|(_, working)| working.name.as_str())
        .collect();
    let (be, made) = match fixed.len() {
        1 => ("cannot be made round by what varies, for nothing of it changes this", "it is made from"),
        _ => ("cannot be made round by what varies, for nothing of it changes these", "they are made from"),
    };
    let given = match given.len() {
        0 => "other things".to_owned(),
        count if count <= NAMED => and(&given),
        count => format!("{} and {} more", given[..NAMED].join(", "), count - NAMED),
    };
    Some(format!("; {} {be}: {made} the {given}; give these other numbers, or let them vary", and(&fixed)))
}

/// `V, I and Q`.
fn and(names: &[&str]) -> String {
    match names {
        [] => String::new(),
        [only] => (*only).to_owned(),
        [others @ .., last] => format!("{} and {last}", others.join(", ")),
    }
}

/// Whether anything that varies changes the section, seen from one draw.
fn section_varies(candidates: &Candidates, from: &Draw) -> bool {
    let papers = candidates.papers();
    let parts = |draw: &Draw| papers.reading(draw).ok()?.lesson.map(|lesson| lesson.problem.parts);
    let own = parts(from);
    papers.lesson().vary.iter().enumerate().any(|(axis, variation)| {
        (0..variation.count().min(TRIED)).any(|choice| {
            let mut other = from.clone();
            if let Some(place) = other.choices.get_mut(axis) {
                *place = choice;
            }
            other != *from && parts(&other).is_some_and(|parts| Some(parts) != own)
        })
    })
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

#[cfg(test)]
mod tests {
    use super::*;
    use lesson::papers::Papers;

    /// The flange's breadth and the web's height vary in the lesson as it stands; without them only the force and its place.
    #[test]
    fn whether_the_section_varies_is_seen_in_the_section() {
        let text = include_str!("../../tests/lessons/class.toml");
        let of_the_section = |line: &&str| line.starts_with("b = [") || line.starts_with("h = [");
        let loads: Vec<&str> = text.lines().filter(|line| !of_the_section(line)).collect();
        for (text, varies) in [(text.to_owned(), true), (loads.join("\n"), false)] {
            let papers = Papers::read(&text, "class.toml").expect("a sound lesson").unrestricted();
            let choices = vec![0; papers.lesson().vary.len()];
            let candidates = Candidates::new(papers, &["second moment"]).expect("it has one");
            assert_eq!(section_varies(&candidates, &Draw { choices }), varies, "{text}");
        }
    }
}
