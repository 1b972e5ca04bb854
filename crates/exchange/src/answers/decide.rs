//! Putting in what a person has decided, and listing what is still to be read.

use super::asked::{PaperAsked, PartAsked};
use super::decision::{Decisions, ToRead, reference};
use super::gather::Given;
use super::habit::Habit;
use super::number::{Beside, UnitFrom};
use super::numeral::Mark;
use super::reading::{Cell, Read, cell};
use super::{Answer, Answers, PaperAnswers};
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
        let mut remarks = Vec::new();
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
                    remarks.extend(
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
                remarks.push(no_answer(*row, decision, asked, &self.papers));
                self.to_read.push(decision.clone());
            }
        }
        self.of_decisions = remarks;
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
        Cell::Either(either) => match habit.declared.or(either.power.then(|| either.written())) {
            Some(Mark::Point) => Ok(Read::of(either.point, &part.kind)),
            Some(Mark::Comma) => Ok(Read::of(either.comma, &part.kind)),
            None => Err(format!("it may be {} or {}", either.point.text(), either.comma.text())),
        },
    }
}

fn refused(row: usize, decided: &str, why: &str) -> Fault {
    let what = format!("{:?} cannot be taken as decided: {why}", shortened(decided));
    Fault::of_row(row, what, "write a number with its unit, the letter of a choice, blank, or unreadable")
}

/// Why a decision belongs to no answer: its student or its part is not there, or the answer is another by now.
fn no_answer(row: usize, decision: &ToRead, asked: &[PaperAsked], papers: &[PaperAnswers]) -> Fault {
    const KEPT: &str = "the row is kept and has no effect";
    let (student, part) = (shortened(&decision.student), shortened(&decision.part));
    // A spreadsheet takes the noughts off that an id begins with.
    let bare = |id: &str| id.trim_start_matches('0').to_owned();
    let found = asked.iter().zip(papers).find(|(one, _)| one.student == decision.student);
    let found = found
        .or_else(|| asked.iter().zip(papers).find(|(one, _)| bare(&one.student) == bare(&decision.student)));
    let Some((asked, paper)) = found else {
        let what = format!("no student of these papers has the id {student:?}");
        let mend = format!("write an id of the class list, as in the list that was written; {KEPT}");
        return Fault::of_row(row, what, mend);
    };
    let Some(answer) = paper.answers.iter().find(|answer| answer.part == decision.part) else {
        let labels: Vec<&str> = asked.parts.iter().map(|part| part.label.as_str()).collect();
        let what = format!("the paper of {student:?} has no part {part:?}");
        return Fault::of_row(row, what, format!("it has {}; {KEPT}", labels.join(", ")));
    };
    let right = reference(&paper.student, &answer.part, &answer.raw);
    if answer.raw == decision.raw {
        let what = format!("{:?} is not the reference of this answer", shortened(&decision.reference));
        return Fault::of_row(row, what, format!("write {right}; {KEPT}"));
    }
    let what = format!(
        "the answer {:?} of {student:?} to part {part} does not stand in the file any more",
        shortened(&decision.raw)
    );
    let now = match answer.raw.trim() {
        "" => "there is none now".to_owned(),
        now => format!("now {:?} stands there", shortened(now)),
    };
    Fault::of_row(row, what, format!("nothing, or take the row away: {now}; {KEPT}"))
}
