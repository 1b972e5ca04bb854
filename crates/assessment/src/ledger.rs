//! The ledger: who got which paper. It is kept with the lesson, so that a student who comes later changes no paper of
//! those who were there before.

use crate::number::PaperNumber;
use crate::secret::{Secret, draw};
use crate::space::Space;
use lesson::papers::Draw;
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, HashMap, HashSet};
use std::fmt;

/// How a ledger is written; another number is another way.
const FORM: u32 = 1;

/// The most draws that are made for one student before the search is given up, where the space is too large to be gone
/// through: of numbers of which fewer than one in some thousands will do, no class can be supplied.
const MOST_DRAWS: u64 = 20_000;

/// The largest space that is gone through from end to end.
const GONE_THROUGH: u128 = 50_000;

/// Who got which paper of a lesson.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ledger {
    lesson: String,
    purpose: String,
    space: Space,
    entries: BTreeMap<String, Entry>,
    /// How many students have each draw.
    taken: HashMap<Draw, usize>,
    numbers: HashSet<PaperNumber>,
}

/// One student's paper.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// The number that stands on it.
    pub number: PaperNumber,
    /// What was drawn.
    pub draw: Draw,
    /// Whether another student had the same draw already, since no other was left.
    pub shared: bool,
}

/// The file: plain data.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    form: u32,
    lesson: String,
    purpose: String,
    choices: Vec<usize>,
    papers: Vec<Line>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Line {
    student: String,
    number: PaperNumber,
    draw: Vec<usize>,
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    shared: bool,
}

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
    /// A student's name is empty.
    NoStudent,
    /// No draw meets what the lesson requires.
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
            Self::NoStudent => f.write_str("a student has no name; give each a name or a number"),
            Self::NothingFits { tried, all: true } => write!(
                f,
                "none of all {tried} draws meets what the lesson requires; require less, or let more vary"
            ),
            Self::NothingFits { tried, all: false } => write!(
                f,
                "{tried} draws were tried and none meets what the lesson requires; require less, or let other values vary"
            ),
        }
    }
}

impl std::error::Error for LedgerFault {}

impl Ledger {
    /// An empty ledger for the papers of a lesson, drawn by secrets of a kind.
    pub fn new<S: Secret>(lesson: &str, space: Space) -> Self {
        Self {
            lesson: lesson.to_owned(),
            purpose: S::PURPOSE.to_owned(),
            space,
            entries: BTreeMap::new(),
            taken: HashMap::new(),
            numbers: HashSet::new(),
        }
    }

    /// Reads a ledger of this lesson.
    ///
    /// # Errors
    /// If it is spoilt, or belongs to something else: see [`LedgerFault`].
    pub fn read<S: Secret>(text: &str, lesson: &str, space: &Space) -> Result<Self, LedgerFault> {
        let file: File = serde_json::from_str(text).map_err(|error| {
            let (line, column) = (error.line(), error.column());
            let place = format!(" at line {line} column {column}");
            LedgerFault::Unreadable { what: error.to_string().replace(&place, ""), line, column }
        })?;
        if file.form != FORM {
            return Err(LedgerFault::OtherForm(file.form));
        }
        if file.lesson != lesson {
            return Err(LedgerFault::OtherLesson { found: file.lesson, wanted: lesson.to_owned() });
        }
        if file.purpose != S::PURPOSE {
            return Err(LedgerFault::OtherPurpose { found: file.purpose, wanted: S::PURPOSE.to_owned() });
        }
        if file.choices != space.counts() {
            let (then, now) = (file.choices, space.counts().to_vec());
            return Err(LedgerFault::OtherChoices { then, now });
        }
        let mut ledger = Self::new::<S>(lesson, space.clone());
        for line in file.papers {
            let draw = Draw { choices: line.draw };
            if line.student.trim().is_empty() {
                return Err(LedgerFault::NoStudent);
            }
            // A paper that was given out before the lesson was restricted stays what it is.
            if !space.has_choices(&draw) {
                return Err(LedgerFault::NoSuchDraw(line.student));
            }
            if ledger.entries.contains_key(&line.student) {
                return Err(LedgerFault::StudentTwice(line.student));
            }
            if ledger.numbers.contains(&line.number) {
                return Err(LedgerFault::NumberTwice(line.number));
            }
            ledger.enter(line.student, Entry { number: line.number, draw, shared: line.shared });
        }
        Ok(ledger)
    }

    /// The ledger as it is kept: JSON with a line for each student, in the order of their names.
    pub fn text(&self) -> String {
        let quoted = |text: &str| serde_json::Value::from(text).to_string();
        let lines = self.entries.iter().map(|(student, entry)| {
            let line = Line {
                student: student.clone(),
                number: entry.number.clone(),
                draw: entry.draw.choices.clone(),
                shared: entry.shared,
            };
            // Text, whole numbers and yes or no: none of them can fail to be written.
            format!("    {}", serde_json::to_string(&line).unwrap_or_default())
        });
        let lines: Vec<String> = lines.collect();
        let between = if lines.is_empty() { "" } else { "\n" };
        format!(
            "{{\n  \"form\": {FORM},\n  \"lesson\": {},\n  \"purpose\": {},\n  \"choices\": {:?},\n  \"papers\": [{between}{}{}]\n}}\n",
            quoted(&self.lesson),
            quoted(&self.purpose),
            self.space.counts(),
            lines.join(",\n"),
            if lines.is_empty() { "" } else { "\n  " },
        )
    }

    /// The paper of a student, where there is one.
    pub fn paper(&self, student: &str) -> Option<&Entry> {
        self.entries.get(student)
    }

    /// All papers, by student.
    pub fn papers(&self) -> impl Iterator<Item = (&str, &Entry)> {
        self.entries.iter().map(|(student, entry)| (student.as_str(), entry))
    }

    /// Whose paper has a number.
    pub fn student(&self, number: &PaperNumber) -> Option<&str> {
        self.papers().find(|(_, entry)| entry.number == *number).map(|(student, _)| student)
    }

    /// How many students have a paper.
    pub fn len(&self) -> usize {
        self.entries.len()
    }

    /// Whether no student has a paper.
    pub fn is_empty(&self) -> bool {
        self.entries.is_empty()
    }

    /// Gives a student a paper, or the one that is in the ledger already. Draws that others have, and draws that
    /// `fits` refuses, are passed over; where every draw that fits is taken the paper is [shared](Entry::shared).
    ///
    /// # Errors
    /// [`LedgerFault::NothingFits`], or [`LedgerFault::NoStudent`]; the ledger is then unchanged.
    pub fn give<S: Secret>(
        &mut self,
        secret: &S,
        student: &str,
        mut fits: impl FnMut(&Draw) -> bool,
    ) -> Result<&Entry, LedgerFault> {
        if student.trim().is_empty() {
            return Err(LedgerFault::NoStudent);
        }
        if !self.entries.contains_key(student) {
            let (draw, shared) = self.found(secret, student, &mut fits)?;
            let mut number = PaperNumber::of(secret, &self.lesson, student, 0);
            for again in 1.. {
                if !self.numbers.contains(&number) {
                    break;
                }
                number = PaperNumber::of(secret, &self.lesson, student, again);
            }
            self.enter(student.to_owned(), Entry { number, draw, shared });
        }
        // It has just been entered, where it was not there.
        self.entries.get(student).ok_or(LedgerFault::NoStudent)
    }

    /// A draw for a student, and whether it is shared.
    fn found<S: Secret>(
        &self,
        secret: &S,
        student: &str,
        fits: &mut dyn FnMut(&Draw) -> bool,
    ) -> Result<(Draw, bool), LedgerFault> {
        let size = self.space.size();
        let small = size.exact && size.count <= GONE_THROUGH;
        // Of a small space, once it is mostly taken or refused, going through it is shorter than drawing on.
        let attempts = if small { 2 * size.count as u64 } else { MOST_DRAWS };
        let mut refused: HashSet<Draw> = HashSet::new();
        let mut taken_that_fits: Option<Draw> = None;
        let mut tried = 0;
        let drawn =
            (0..attempts).map_while(|attempt| draw(secret, &self.lesson, student, attempt, &self.space));
        let start =
            draw(secret, &self.lesson, student, 0, &self.space).and_then(|first| self.space.index(&first));
        let start = start.unwrap_or(0);
        let through = (0..if small { size.count } else { 0 })
            .filter_map(|offset| self.space.draw((start + offset) % size.count.max(1)));
        for draw in drawn.chain(through) {
            if self.taken.contains_key(&draw) {
                // What others have was found to fit when they got it.
                taken_that_fits.get_or_insert(draw);
            } else if !refused.contains(&draw) {
                tried += 1;
                if fits(&draw) {
                    return Ok((draw, false));
                }
                refused.insert(draw);
            }
        }
        taken_that_fits.map(|draw| (draw, true)).ok_or(LedgerFault::NothingFits { tried, all: small })
    }

    fn enter(&mut self, student: String, entry: Entry) {
        *self.taken.entry(entry.draw.clone()).or_default() += 1;
        self.numbers.insert(entry.number.clone());
        self.entries.insert(student, entry);
    }
}
