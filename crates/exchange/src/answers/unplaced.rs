//! Rows whose answers nobody's paper takes: a list, so that none of them is lost from sight.

use crate::fault::Fault;
use crate::table::{Cell, Number, Table};

/// A row that belongs to no paper, or to no part of one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unplaced {
    /// The row as a spreadsheet counts it, from 1, the header included.
    pub row: usize,
    /// The student's id as it stands there; empty where none does.
    pub student: String,
    /// The number of the paper as it stands there; empty where none does.
    pub paper: String,
    /// The part, where the row is for one answer.
    pub part: String,
    /// Why it belongs to none.
    pub why: String,
    /// The id that may be meant, as the class list has it; empty where none is like it.
    pub meant: String,
}

/// The list as a table.
///
/// # Errors
/// None that is known: every row has as many cells as the header.
pub fn table(list: &[Unplaced]) -> Result<Table, Fault> {
    let header = ["row", "student id", "paper", "part", "why", "perhaps meant"];
    let mut table = Table::new(header.map(str::to_owned).into());
    for entry in list {
        let row = Number::new(entry.row as f64).map_or_else(|| Cell::text(""), Cell::Number);
        let words = [&entry.student, &entry.paper, &entry.part, &entry.why, &entry.meant];
        table.push([row].into_iter().chain(words.map(Cell::text)).collect())?;
    }
    Ok(table)
}
