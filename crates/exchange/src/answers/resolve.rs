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
    for ((student, _), _, cell) in &cells {
        match cell {
            Cell::With(mark, _) => evidence.add(*student, *mark),
            Cell::Either(either) if either.power => evidence.add(*student, either.written()),
            Cell::Either(_) | Cell::Sure(_) => {}
        }
    }
    let mut reads = BTreeMap::new();
    let mut told = Vec::new();
    for (place, part, cell) in cells {
        let read = match cell {
            Cell::Sure(read) => (read, None),
            Cell::With(_, number) => (Read::of(number, &part.kind), None),
            Cell::Either(either) => match evidence.decide(habit, place.0, &either, part.about) {
                Ok((number, by)) => {
                    // Decimals are what a student writes who writes decimals elsewhere; thousands are worth a word.
                    let thousands = number != *either.with(either.written()).0;
                    if thousands && by == MarkBy::Student {
                        told.extend(given.get(&place).map(|given| given.row));
                    }
                    (Read::of(number, &part.kind), Some(by))
                }
                Err(doubt) => (Read::ByHand(doubt), None),
            },
        };
        reads.insert(place, read);
    }
    let remarks = remark(told).into_iter().collect();
    Resolved { reads, remarks }
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

/// A remark on numbers whose comma or point was read as one between thousands.
fn remark(mut rows: Vec<usize>) -> Option<Fault> {
    rows.sort_unstable();
    rows.dedup();
    let shown: Vec<String> = rows.iter().take(8).map(usize::to_string).collect();
    let more = if rows.len() > shown.len() { ", …" } else { "" };
    let in_rows = if rows.len() == 1 { "in row" } else { "in rows" };
    let what = format!(
        "a comma or point that may part decimals or thousands was taken to part thousands by {}, {in_rows} {}{more}",
        MarkBy::Student.in_words(),
        shown.join(", ")
    );
    let mend = "if this is wrong, declare the decimal mark of the file: --decimal point, or --decimal comma";
    (!rows.is_empty()).then(|| Fault::of_file(what, mend))
}
