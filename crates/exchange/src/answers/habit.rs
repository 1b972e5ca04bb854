//! Whether `1,234` is a little more than one or more than a thousand: by what the same student writes elsewhere, or as the
//! papers are printed. What other students write decides nothing: one of a class of twenty may have another keyboard.

use super::doubt::{Doubt, DoubtKind};
use super::number::{FAR, Number, is_off};
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
    /// The power of ten behind the number: who writes one has no thousands before it.
    Exponent,
    /// The other numbers of the same student.
    Student,
    /// The mark of the papers, where no number of the file says otherwise.
    Printed,
}

impl MarkBy {
    /// In words that follow on "by".
    pub fn in_words(self) -> &'static str {
        match self {
            Self::Declared => "the declared decimal mark",
            Self::Exponent => "the power of ten behind the number",
            Self::Student => "the other numbers of the same student",
            Self::Printed => "the decimal mark of the papers, since no number of the file says otherwise",
        }
    }
}

/// A number that reads with either mark.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Either {
    /// With a point before the decimals.
    pub point: Number,
    /// With a comma before the decimals.
    pub comma: Number,
    /// Whether a power of ten stands behind it.
    pub power: bool,
}

impl Either {
    /// The mark that stands in the text: read as that before the decimals it makes the smaller number.
    pub fn written(&self) -> Mark {
        if self.point.number.abs() < self.comma.number.abs() { Mark::Point } else { Mark::Comma }
    }

    /// The two numbers: that of this mark before the decimals, and the other.
    pub fn with(&self, mark: Mark) -> (&Number, &Number) {
        match mark {
            Mark::Point => (&self.point, &self.comma),
            Mark::Comma => (&self.comma, &self.point),
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

    /// The one mark that was seen and how often; an error where both were.
    fn only(self) -> Result<Option<(Mark, usize)>, ()> {
        match (self.point, self.comma) {
            (0, 0) => Ok(None),
            (count, 0) => Ok(Some((Mark::Point, count))),
            (0, count) => Ok(Some((Mark::Comma, count))),
            _ => Err(()),
        }
    }
}

/// Which decimal marks were seen, and where.
#[derive(Debug, Default)]
pub(super) struct Evidence {
    students: BTreeMap<usize, Seen>,
    file: Seen,
}

/// One number that slipped in with the other mark is no habit: before thousands are read, a student has written this many decimals.
/// Common practice, no source.
const A_HABIT: usize = 2;

impl Evidence {
    pub fn add(&mut self, student: usize, mark: Mark) {
        self.students.entry(student).or_default().add(mark);
        self.file.add(mark);
    }

    /// The number that is meant, of a text that reads with either mark. `about` is how large an answer is, SI, where that is known.
    pub fn decide(
        &self,
        habit: Habit,
        student: usize,
        either: &Either,
        about: Option<f64>,
    ) -> Result<(Number, MarkBy), Doubt> {
        let doubt = || {
            let readings = vec![either.point.text(), either.comma.text()];
            let what = "the comma or point may part decimals or thousands";
            Doubt::between(DoubtKind::DecimalMark, what, readings)
        };
        let (mark, by) = match habit.declared {
            Some(mark) => (mark, MarkBy::Declared),
            None => self.mark(habit.printed, student, either).ok_or_else(doubt)?,
        };
        let (taken, other) = either.with(mark);
        // Nobody is marked wrong for a mark that was read in one of two ways, where only the other comes near.
        let odd =
            about.is_some_and(|about| is_off(taken.value, about, FAR) && !is_off(other.value, about, FAR));
        if odd && matches!(by, MarkBy::Student | MarkBy::Printed) {
            Err(doubt())
        } else {
            Ok((taken.clone(), by))
        }
    }

    /// The mark before the decimals, where the student's own numbers say it, or nothing speaks against that of the papers.
    fn mark(&self, printed: Mark, student: usize, either: &Either) -> Option<(Mark, MarkBy)> {
        let written = either.written();
        let own = self.students.get(&student).copied().unwrap_or_default().only().ok()?;
        match own {
            _ if either.power && own.is_none_or(|(mark, _)| mark == written) => {
                Some((written, MarkBy::Exponent))
            }
            Some((mark, _)) if mark == written => Some((mark, MarkBy::Student)),
            Some((mark, count)) => (count >= A_HABIT && !either.power).then_some((mark, MarkBy::Student)),
            None => {
                let all = self.file.only().ok()?;
                let agreed = all.is_none_or(|(mark, _)| mark == printed);
                (agreed && written == printed).then_some((written, MarkBy::Printed))
            }
        }
    }
}
