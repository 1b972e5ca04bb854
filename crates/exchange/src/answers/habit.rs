//! Whether `1,234` is a little more than one or more than a thousand: by what the same student, the same column and the
//! same file write elsewhere.

use super::doubt::{Doubt, DoubtKind};
use super::number::Number;
use super::numeral::Mark;
use std::collections::BTreeMap;

/// What is known of the decimal mark of a file before it is read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Habit {
    /// The mark that somebody has declared: then nothing is in doubt.
    pub declared: Option<Mark>,
    /// The mark that the papers are printed with: where no number of the file says otherwise, students write as they read.
    pub printed: Mark,
}

impl Default for Habit {
    fn default() -> Self {
        Self { declared: None, printed: Mark::Point }
    }
}

/// What decided whether a comma or a point parts decimals or thousands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum MarkBy {
    /// The mark that somebody has declared.
    Declared,
    /// The other numbers of the same student.
    Student,
    /// The other numbers of the same column.
    Column,
    /// The other numbers of the file.
    File,
    /// The mark of the papers, where no number of the file says otherwise.
    Printed,
}

impl MarkBy {
    /// In words that follow on "by".
    pub fn in_words(self) -> &'static str {
        match self {
            Self::Declared => "the declared decimal mark",
            Self::Student => "the other numbers of the same student",
            Self::Column => "the other numbers of the same column",
            Self::File => "the other numbers of the file",
            Self::Printed => "the decimal mark of the papers, since no number of the file says otherwise",
        }
    }
}

/// How often each mark was seen where it could only be that one.
#[derive(Clone, Copy, Debug, Default)]
struct Seen {
    point: usize,
    comma: usize,
}

impl Seen {
    fn add(&mut self, mark: Mark) {
        match mark {
            Mark::Point => self.point += 1,
            Mark::Comma => self.comma += 1,
        }
    }

    /// The one mark that was seen; an error where both were.
    fn only(self) -> Result<Option<Mark>, ()> {
        match (self.point, self.comma) {
            (0, 0) => Ok(None),
            (_, 0) => Ok(Some(Mark::Point)),
            (0, _) => Ok(Some(Mark::Comma)),
            _ => Err(()),
        }
    }
}

/// Which decimal marks were seen, and where.
#[derive(Debug, Default)]
pub(super) struct Evidence {
    students: BTreeMap<usize, Seen>,
    columns: BTreeMap<String, Seen>,
    file: Seen,
}

impl Evidence {
    pub fn add(&mut self, student: usize, column: &str, mark: Mark) {
        self.students.entry(student).or_default().add(mark);
        self.columns.entry(column.to_owned()).or_default().add(mark);
        self.file.add(mark);
    }

    /// The number that is meant, of a text that reads with either mark.
    pub fn decide(
        &self,
        habit: Habit,
        (student, column): (usize, &str),
        (point, comma): (Number, Number),
    ) -> Result<(Number, MarkBy), Doubt> {
        let of = |map: Option<&Seen>| map.copied().unwrap_or_default().only();
        let scopes = [
            (MarkBy::Declared, Ok(habit.declared)),
            (MarkBy::Student, of(self.students.get(&student))),
            (MarkBy::Column, of(self.columns.get(column))),
            (MarkBy::File, self.file.only()),
        ];
        let mut mark = None;
        let mut mixed = false;
        for (by, seen) in scopes {
            match seen {
                Ok(Some(seen)) => {
                    mark = Some((seen, by));
                    break;
                }
                Ok(None) => {}
                // Both are in use here, so a wider circle says nothing.
                Err(()) => {
                    mixed = true;
                    break;
                }
            }
        }
        // The mark that stands in the text is the one that makes the smaller number of it.
        let smaller = if point.number.abs() < comma.number.abs() { Mark::Point } else { Mark::Comma };
        if mark.is_none() && !mixed && smaller == habit.printed {
            mark = Some((smaller, MarkBy::Printed));
        }
        match mark {
            Some((Mark::Point, by)) => Ok((point, by)),
            Some((Mark::Comma, by)) => Ok((comma, by)),
            None => {
                let readings = vec![point.text(), comma.text()];
                let what = "the comma or point may part decimals or thousands";
                Err(Doubt::between(DoubtKind::DecimalMark, what, readings))
            }
        }
    }
}
