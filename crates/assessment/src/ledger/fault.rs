//! Why a ledger cannot be used, or has no paper to give.

use super::FORM;
use crate::number::PaperNumber;
use std::fmt;

/// Why a ledger cannot be used, or has no paper to give.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LedgerFault {
    /// The file does not read as a ledger.
    Unreadable {
        /// What is wrong.
        what: String,
        /// Line, from 1.
        line: usize,
        /// Column, from 1.
        column: usize,
    },
    /// It is written in a way that this program does not know.
    OtherForm(u32),
    /// It belongs to another lesson.
    OtherLesson {
        /// The lesson that it names.
        found: String,
        /// The lesson that was asked for.
        wanted: String,
    },
    /// It belongs to papers of another purpose.
    OtherPurpose {
        /// What it says.
        found: String,
        /// What was asked for.
        wanted: String,
    },
    /// The lesson has other choices than when the papers were drawn.
    OtherChoices {
        /// The numbers of choices then.
        then: Vec<usize>,
        /// The numbers of choices now.
        now: Vec<usize>,
    },
    /// A student stands in it twice.
    StudentTwice(String),
    /// Two students have one number.
    NumberTwice(PaperNumber),
    /// A draw that the lesson does not have.
    NoSuchDraw(String),
    /// A form that has no capital letter from A to Z.
    NoSuchForm(String),
    /// A student's name is empty.
    NoStudent,
    /// No draw may be given out.
    NothingFits {
        /// How many draws were tried.
        tried: usize,
        /// Whether that was all of them.
        all: bool,
    },
}

impl fmt::Display for LedgerFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unreadable { what, line, column } => write!(
                f,
                "the ledger cannot be read (line {line}, column {column}: {what}); take the last good copy of it, for \
                 without it papers that were given out cannot be drawn again"
            ),
            Self::OtherForm(form) => write!(
                f,
                "the ledger is written in form {form}, this program knows form {FORM}; use the program that wrote it"
            ),
            Self::OtherLesson { found, wanted } => {
                write!(
                    f,
                    "the ledger belongs to the lesson {found:?}, not to {wanted:?}; take the ledger of this lesson"
                )
            }
            Self::OtherPurpose { found, wanted } => {
                write!(f, "the ledger holds papers for {found}, not for {wanted}; keep a ledger for each")
            }
            Self::OtherChoices { then, now } => write!(
                f,
                "what varies has changed since the papers of this ledger were drawn: {then:?} choices then, {now:?} now; \
                 put the lesson back as it was, or begin a new ledger under another name"
            ),
            Self::StudentTwice(student) => {
                write!(f, "the student {student:?} stands in the ledger twice; take one of the two lines out")
            }
            Self::NumberTwice(number) => {
                write!(
                    f,
                    "the paper number {number} stands in the ledger twice; take one of the two lines out"
                )
            }
            Self::NoSuchDraw(student) => write!(
                f,
                "the draw of the student {student:?} is none that the lesson has; take the line out, or the last good copy of \
                 the ledger"
            ),
            Self::NoSuchForm(student) => write!(
                f,
                "the form of the student {student:?} is none: forms are called A to Z; take the last good copy of the ledger"
            ),
            Self::NoStudent => f.write_str("a student has no name; give each a name or a number"),
            Self::NothingFits { tried, all: true } => write!(
                f,
                "none of all {tried} draws may be given out; let more vary, or ask and require less"
            ),
            Self::NothingFits { tried, all: false } => write!(
                f,
                "{tried} draws were tried and none may be given out; let other values vary, or ask and require less"
            ),
        }
    }
}

impl std::error::Error for LedgerFault {}
