//! Putting in what a person has decided, and listing what is still to be read.

use super::asked::{PaperAsked, PartAsked};
use super::decision::{Decisions, ToRead, reference};
use super::gather::Given;
use super::habit::Habit;
use super::number::{Beside, UnitFrom};
use super::numeral::Mark;
use super::reading::{Cell, Read, cell};
use super::{Answer, Answers};
use crate::fault::{Fault, shortened};
use std::collections::{BTreeMap, HashMap};

impl Answers {
    /// A person's decision stands over whatever was read.
    pub(super) fn decide(
        &mut self,
        asked: &[PaperAsked],
        given: &BTreeMap<(usize, usize), Given>,
        habit: Habit,
        decisions: &Decisions,
    ) {
        let mut made: HashMap<&str, (usize, &ToRead)> =
            decisions.made.iter().map(|(row, made)| (made.reference.as_str(), (*row, made))).collect();
        for (at, (paper, asked)) in self.papers.iter_mut().zip(asked).enumerate() {
            for (place, (answer, part)) in paper.answers.iter_mut().zip(&asked.parts).enumerate() {
                let (why, could_mean) = match &answer.read {
                    Read::ByHand(doubt) => (doubt.what.clone(), doubt.readings.join(" or ")),
                    _ if made.is_empty() => continue,
                    _ => ("read without doubt, but decided by a person".to_owned(), String::new()),
                };
                let doubtful = matches!(answer.read, Read::ByHand(_));
                let reference = reference(&paper.student, &answer.part, &answer.raw);
                let decision = made.remove(reference.as_str());
                let decided = decision.map_or_else(String::new, |(_, decision)| decision.decided.clone());
                if !doubtful && decided.is_empty() {
                    continue;
                }
                if let Some((row, _)) = decision.filter(|_| !decided.is_empty()) {
                    let beside =
                        given.get(&(at, place)).and_then(|given| given.beside.as_ref()?.as_ref().ok());
                    self.remarks.extend(
                        put_in(answer, &decided, part, beside, habit).map(|why| refused(row, &decided, &why)),
                    );
                }
                let (student, paper) = (paper.student.clone(), paper.paper.clone());
                let (part, raw) = (answer.part.clone(), answer.raw.clone());
                self.to_read.push(ToRead { reference, student, paper, part, raw, why, could_mean, decided });
            }
        }
        // Kept, so that no work of a person is lost.
        for (row, decision) in &decisions.made {
            if !decision.decided.is_empty() && made.contains_key(decision.reference.as_str()) {
                self.remarks.push(no_answer(*row, decision));
                self.to_read.push(decision.clone());
            }
        }
    }
}

/// Puts a decision in; else why it cannot stand.
fn put_in(
    answer: &mut Answer,
    decided: &str,
    part: &PartAsked,
    beside: Option<&Beside>,
    habit: Habit,
) -> Option<String> {
    match decided_read(decided, part, beside, habit) {
        Ok(read) => {
            answer.read = read;
            answer.decided = true;
            answer.mark_by = None;
            None
        }
        Err(why) => Some(why),
    }
}

/// What a person has decided. Without a unit it is in that which stands beside the answer.
fn decided_read(
    decided: &str,
    part: &PartAsked,
    beside: Option<&Beside>,
    habit: Habit,
) -> Result<Read, String> {
    match decided.to_lowercase().as_str() {
        "blank" => return Ok(Read::Blank),
        "unreadable" => return Ok(Read::Unreadable),
        _ => {}
    }
    // Where the person writes another unit, that one counts.
    let beside = beside.map(|beside| Beside { unit: beside.unit.clone(), from: UnitFrom::Header });
    match cell(decided, part, beside.as_ref()) {
        Cell::Sure(Read::ByHand(doubt)) => Err(doubt.what),
        Cell::Sure(read) => Ok(read),
        Cell::With(_, number) => Ok(Read::of(number, &part.kind)),
        Cell::Either { point, comma } => match habit.declared {
            Some(Mark::Point) => Ok(Read::of(point, &part.kind)),
            Some(Mark::Comma) => Ok(Read::of(comma, &part.kind)),
            None => Err(format!("it may be {} or {}", point.text(), comma.text())),
        },
    }
}

fn refused(row: usize, decided: &str, why: &str) -> Fault {
    let what =
        format!("row {row} of the decisions: {:?} cannot be taken as decided: {why}", shortened(decided));
    Fault::of_file(what, "write a number with its unit, the letter of a choice, blank, or unreadable")
}

fn no_answer(row: usize, decision: &ToRead) -> Fault {
    let what = format!(
        "row {row} of the decisions: the answer {:?} of {:?} to part {} does not stand in the file any more",
        shortened(&decision.raw),
        shortened(&decision.student),
        shortened(&decision.part)
    );
    Fault::of_file(what, "nothing, or take the row away; it is kept and has no effect")
}
