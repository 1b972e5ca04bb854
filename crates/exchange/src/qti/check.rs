//! What an item must hold to before it is written: what some reader of QTI would otherwise get wrong.

use super::identifier::Identifier;
use super::item::{Answer, Choice, FollowThrough, Item, Value};
use crate::fault::Fault;
use std::collections::HashSet;

/// The size of right values. A player was seen to round products to three decimals, and a field takes ten characters.
const SIZES: std::ops::RangeInclusive<f64> = 1.0..=10_000.0;

/// Every fault of the items of a package.
pub(super) fn faults(items: &[Item]) -> Vec<Fault> {
    let mut faults = Vec::new();
    if items.is_empty() {
        faults.push(Fault::of_file("the package has no item", "put at least one question into it"));
    }
    // As names of files on systems that take capitals for small letters.
    for name in twice(items.iter().map(|item| item.identifier.as_str().to_lowercase())) {
        faults.push(Fault::of_file(
            format!("two items are called {name:?}"),
            "give each item a name of its own",
        ));
    }
    for item in items {
        let mut told = |what: String, mend: &str| {
            faults.push(Fault::of_file(format!("item {:?}: {what}", item.identifier.as_str()), mend));
        };
        if item.answers.is_empty() {
            told("nothing is asked for".to_owned(), "ask for at least one answer");
        }
        for name in twice(item.answers.iter().map(Answer::identifier)) {
            told(format!("two answers are called {:?}", name.as_str()), "give each answer a name of its own");
        }
        for name in twice(item.pictures.iter().map(|picture| picture.name.as_str().to_lowercase())) {
            told(format!("two pictures are called {name:?}"), "give each picture a name of its own");
        }
        for picture in item.pictures.iter().filter(|picture| picture.alt.trim().is_empty()) {
            told(
                format!("the picture {:?} says nothing in words", picture.name.as_str()),
                "write what it shows",
            );
        }
        for (place, answer) in item.answers.iter().enumerate() {
            let earlier = item.answers.get(..place).unwrap_or_default();
            match answer {
                Answer::Value(value) => check_value(value, earlier, &mut told),
                Answer::Choice(choice) => check_choice(choice, &mut told),
            }
        }
    }
    faults
}

/// What comes a second time.
fn twice<T: Eq + std::hash::Hash + Clone>(all: impl Iterator<Item = T>) -> Vec<T> {
    let mut seen = HashSet::new();
    all.filter(|one| !seen.insert(one.clone())).collect()
}

fn check_value(value: &Value, earlier: &[Answer], told: &mut impl FnMut(String, &str)) {
    let name = value.identifier.as_str();
    let right = value.right;
    if value.spoken.trim().is_empty() {
        told(
            format!("the field of {name:?} has no name for who cannot see it"),
            "write what is asked for, with its unit",
        );
    }
    if !value.bounds.hold(right) {
        let what = format!("the right value of {name:?}, {right}, is outside what is taken as right");
        told(what, "give bounds on either side of it, the lower first");
    }
    if right != 0.0 && !SIZES.contains(&right.abs()) {
        told(
            format!("the right value of {name:?} is {right}"),
            "ask for it in a unit in which it is from 1 to 10 000 in size",
        );
    }
    let Some(FollowThrough { expected, tolerance, .. }) = &value.follow_through else { return };
    if !(*tolerance > 0.0 && *tolerance < 1.0) {
        let what = format!("what follows through to {name:?} may be {tolerance} of its size off");
        told(what, "give a share between 0 and 1, such as 0.01");
    }
    let right_before = |wanted: &Identifier| {
        earlier.iter().find_map(|answer| match answer {
            Answer::Value(value) if value.identifier == *wanted => Some(value.right),
            _ => None,
        })
    };
    // Once as it is, once as in a player that rounds products to three decimals.
    let exact = expected.value(&right_before, &|product| product);
    let rounded = expected.value(&right_before, &|product| (product * 1000.0).round() / 1000.0);
    match (exact, rounded) {
        (Some(exact), _) if !value.bounds.hold(exact) => {
            let what = format!("what follows through to {name:?} from right answers is {exact}, not {right}");
            told(what, "mend the formula or the factors of its units");
        }
        (Some(_), Some(rounded)) if !value.bounds.hold(rounded) => {
            let what = format!(
                "what follows through to {name:?} is {rounded}, not {right}, if products are rounded to three decimals"
            );
            told(what, "write the formula in units in which every product is from 1 to 10 000 in size");
        }
        (None, _) => {
            let what = format!(
                "what follows through to {name:?} is computed from an answer that does not come before it"
            );
            told(what, "compute it from numbers that are asked for earlier in the same item");
        }
        _ => {}
    }
}

fn check_choice(choice: &Choice, told: &mut impl FnMut(String, &str)) {
    let name = choice.identifier.as_str();
    if choice.alternatives.len() < 2 {
        told(format!("there is nothing to choose in {name:?}"), "give at least two alternatives");
    }
    if !choice.alternatives.iter().any(|alternative| alternative.marks.0 > 0.0) {
        told(format!("nothing in {name:?} earns a mark"), "give marks to the right alternative");
    }
    for double in twice(choice.alternatives.iter().map(|alternative| &alternative.identifier)) {
        let what = format!("two alternatives of {name:?} are called {:?}", double.as_str());
        told(what, "give each alternative a name of its own");
    }
}
