//! Which of several attempts counts.

use super::gather::Given;
use super::time::seconds;
use crate::fault::{Fault, shortened};

/// When an answer was given, as far as its row says.
#[derive(Clone, Copy, Debug)]
pub(super) struct When {
    attempt: Option<f64>,
    /// Seconds, and whether they are told with their zone.
    time: Option<(f64, bool)>,
    /// Whether the row tells a time at all.
    told: bool,
    row: usize,
}

impl When {
    pub fn of(row: usize, attempt: Option<&str>, time: Option<&str>) -> Self {
        let attempt = attempt.and_then(|text| text.parse().ok()).filter(|attempt: &f64| attempt.is_finite());
        Self { attempt, time: time.and_then(seconds), told: time.is_some(), row }
    }
}

/// What was given at one time, by the place of the part.
pub(super) type Attempt = (When, Vec<(usize, Given)>);

/// By what attempts are put in order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum By {
    Number,
    Time,
    Row,
    RowForTime,
}

impl By {
    fn of(all: &[Attempt]) -> Self {
        let zoned = |zoned: bool| all.iter().all(|(when, _)| when.time.is_some_and(|(_, own)| own == zoned));
        if all.iter().all(|(when, _)| when.attempt.is_some()) {
            Self::Number
        } else if zoned(true) || zoned(false) {
            Self::Time
        } else if all.iter().any(|(when, _)| when.told) {
            Self::RowForTime
        } else {
            Self::Row
        }
    }

    fn in_words(self) -> &'static str {
        match self {
            Self::Number => "the attempt's number",
            Self::Time => "the time",
            Self::Row => "the order of the rows",
            Self::RowForTime => {
                "the order of the rows, since times cannot be compared (write 2026-11-29 14:05)"
            }
        }
    }

    /// What grows from one attempt to the next.
    fn key(self, when: &When) -> f64 {
        match self {
            Self::Number => when.attempt.unwrap_or_default(),
            Self::Time => when.time.map_or(0.0, |(time, _)| time),
            Self::Row | Self::RowForTime => when.row as f64,
        }
    }
}

/// The attempt that counts, of equal ones the later row.
fn latest(all: &[Attempt]) -> Option<usize> {
    let by = By::of(all);
    let later = |one: &usize, other: &usize| {
        let key = |at: usize| all.get(at).map_or(0.0, |(when, _)| by.key(when));
        key(*one).total_cmp(&key(*other)).then(one.cmp(other))
    };
    (0..all.len()).max_by(later)
}

/// The answers of the last attempt: by its number where every row has one, else by its time, else by its row.
pub(super) fn last(mut all: Vec<Attempt>) -> Option<Vec<(usize, Given)>> {
    latest(&all).map(|at| all.swap_remove(at).1)
}

/// What a student answered more than once.
#[derive(Debug, Default)]
pub(super) struct Several {
    parts: Vec<String>,
    /// The rows that count.
    taken: Vec<usize>,
    by: Vec<By>,
    rows: usize,
}

impl Several {
    /// Adds the attempts at a part, or at the whole paper.
    pub fn add(&mut self, all: &[Attempt], part: Option<&str>) {
        self.parts.extend(part.map(str::to_owned));
        self.taken.extend(latest(all).and_then(|at| all.get(at)).map(|(when, _)| when.row));
        self.by.push(By::of(all));
        self.rows += all.len();
    }

    /// The remark on all of them.
    pub fn remark(mut self, student: &str) -> Fault {
        const MOST: usize = 12; // a line
        let listed = |all: &[String]| {
            let more = if all.len() > MOST { ", …" } else { "" };
            format!("{}{more}", all.iter().take(MOST).cloned().collect::<Vec<_>>().join(", "))
        };
        let parts = match self.parts.is_empty() {
            true => String::new(),
            false => format!(" to {}", listed(&self.parts)),
        };
        self.by.sort_unstable();
        self.by.dedup();
        let by: Vec<&str> = self.by.iter().map(|by| by.in_words()).collect();
        let rows: Vec<String> = self.taken.iter().map(usize::to_string).collect();
        let what = format!(
            "the student {:?} answered{parts} more than once, in {} rows; the last by {} counts: row {}",
            shortened(student),
            self.rows,
            by.join(" or "),
            listed(&rows)
        );
        let mend = "take the other rows away if another attempt is to count";
        Fault { row: self.taken.first().copied(), ..Fault::of_file(what, mend) }
    }
}
