//! From what stands in the file to what was read of it.

use super::asked::{PaperAsked, PartAsked};
use super::doubt::{Doubt, DoubtKind};
use super::gather::Given;
use super::habit::{Evidence, Habit, MarkBy};
use super::reading::{Cell, Read, cell};
use crate::fault::{Fault, shortened};
use std::collections::BTreeMap;

/// What was read, by the place of the paper and of the part.
pub(super) struct Resolved {
    pub reads: BTreeMap<(usize, usize), (Read, Option<MarkBy>)>,
    pub remarks: Vec<Fault>,
}

/// Reads all answers: first each for itself, then those that read in two ways by what the others say.
pub(super) fn resolve(
    given: &BTreeMap<(usize, usize), Given>,
    asked: &[PaperAsked],
    habit: Habit,
) -> Resolved {
    let part = |paper: usize, part: usize| asked.get(paper).and_then(|paper| paper.parts.get(part));
    let cells: Vec<((usize, usize), &PartAsked, Cell)> = given
        .iter()
        .filter_map(|(&place, given)| {
            let part = part(place.0, place.1)?;
            Some((place, part, of_given(given, part)))
        })
        .collect();
    let mut evidence = Evidence::default();
    for ((student, _), part, cell) in &cells {
        if let Cell::With(mark, _) = cell {
            evidence.add(*student, &part.label, *mark);
        }
    }
    let mut reads = BTreeMap::new();
    let mut decided_by: BTreeMap<MarkBy, Vec<usize>> = BTreeMap::new();
    for (place, part, cell) in cells {
        let read = match cell {
            Cell::Sure(read) => (read, None),
            Cell::With(_, number) => (Read::of(number, &part.kind), None),
            Cell::Either { point, comma } => {
                match evidence.decide(habit, (place.0, &part.label), (point, comma)) {
                    Ok((number, by)) => {
                        decided_by.entry(by).or_default().extend(given.get(&place).map(|given| given.row));
                        (Read::of(number, &part.kind), Some(by))
                    }
                    Err(doubt) => (Read::ByHand(doubt), None),
                }
            }
        };
        reads.insert(place, read);
    }
    let remarks = decided_by.into_iter().filter(|(by, _)| *by != MarkBy::Declared).map(told);
    Resolved { reads, remarks: remarks.collect() }
}

/// What a cell says, with the unit beside it.
fn of_given(given: &Given, part: &PartAsked) -> Cell {
    match &given.beside {
        None => cell(&given.raw, part, None),
        Some(Ok(beside)) => cell(&given.raw, part, Some(beside)),
        // Something stands where a unit should, and whatever it says, it is not nothing.
        Some(Err(text)) => match cell(&given.raw, part, None) {
            Cell::Sure(Read::Blank) => Cell::Sure(Read::Blank),
            _ => {
                let what = format!("{:?} beside it is no unit that is known", shortened(text));
                Cell::Sure(Read::ByHand(Doubt::new(DoubtKind::Unit, what)))
            }
        },
    }
}

/// A remark on numbers whose comma or point could be read in two ways.
fn told((by, mut rows): (MarkBy, Vec<usize>)) -> Fault {
    rows.sort_unstable();
    rows.dedup();
    let shown: Vec<String> = rows.iter().take(8).map(usize::to_string).collect();
    let more = if rows.len() > shown.len() { ", …" } else { "" };
    let what = format!(
        "a comma or point that may part decimals or thousands was read by {}, in rows {}{more}",
        by.in_words(),
        shown.join(", ")
    );
    Fault::of_file(what, "declare the decimal mark of the file if this is wrong")
}
