//! The ledger: who got which paper. It is kept with the lesson, so that a student who comes later changes no paper of
//! those who were there before.

mod fault;

pub use fault::LedgerFault;

use crate::number::PaperNumber;
use crate::secret::{Secret, draw};
use crate::space::Space;
use lesson::papers::Draw;
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, HashMap, HashSet};

/// How a ledger is written; another number is another way.
const FORM: u32 = 1;

/// The most draws that are made for one student before the search is given up, where the space is too large to be gone
/// through: of numbers of which fewer than one in some thousands will do, no class can be supplied.
const MOST_DRAWS: u64 = 20_000;

/// The largest space that is gone through from end to end.
const GONE_THROUGH: u128 = 50_000;

/// What a form is called, and what its draws are made under: `form A`.
pub fn form_name(letter: char) -> String {
    format!("form {letter}")
}

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
    /// Which of the student's draws it is, of those of the form where there is one, counted from 0: so many were passed over before it.
    pub attempt: u64,
    /// Whether another student had the same draw already, since no other was left.
    pub shared: bool,
    /// The letter of the form whose paper it is, where a student of a class has one of a few forms.
    pub form: Option<char>,
}

/// A draw that is given to a student.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Drawn {
    /// What was drawn.
    pub draw: Draw,
    /// As in [`Entry::attempt`].
    pub attempt: u64,
    /// As in [`Entry::form`].
    pub form: Option<char>,
}

/// The papers that were given, from a ledger of any lesson: each student with the number of the paper, in the order of the ledger.
///
/// # Errors
/// If it is no ledger, or is written in another way.
pub fn holders(text: &str) -> Result<Vec<(String, PaperNumber)>, LedgerFault> {
    let lines = read(text)?.papers.into_iter();
    Ok(lines.map(|line| (line.student, line.number)).collect())
}

fn read(text: &str) -> Result<File, LedgerFault> {
    let file: File = serde_json::from_str(text).map_err(|error| {
        let (line, column) = (error.line(), error.column());
        let place = format!(" at line {line} column {column}");
        LedgerFault::Unreadable { what: error.to_string().replace(&place, ""), line, column }
    })?;
    if file.form == FORM { Ok(file) } else { Err(LedgerFault::OtherForm(file.form)) }
}

/// A draw for a student.
struct Found {
    draw: Draw,
    attempt: u64,
    shared: bool,
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
    #[serde(default)]
    attempt: u64,
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    shared: bool,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    form: Option<char>,
}

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
        let file = read(text)?;
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
            let Line { student, number, attempt, shared, form, .. } = line;
            if form.is_some_and(|letter| !letter.is_ascii_uppercase()) {
                return Err(LedgerFault::NoSuchForm(student));
            }
            ledger.enter(student, Entry { number, draw, attempt, shared, form });
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
                attempt: entry.attempt,
                shared: entry.shared,
                form: entry.form,
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
            let Found { draw, attempt, shared } = self.found(secret, student, &mut fits)?;
            let number = self.free_number(secret, student);
            self.enter(student.to_owned(), Entry { number, draw, attempt, shared, form: None });
        }
        // It has just been entered, where it was not there.
        self.entries.get(student).ok_or(LedgerFault::NoStudent)
    }

    /// The draws that are tried for a student, in their order; some come more than once. They depend on no other student.
    pub fn draws<'a, S: Secret>(
        &'a self,
        secret: &'a S,
        student: &'a str,
    ) -> impl Iterator<Item = Draw> + use<'a, S> {
        let size = self.space.size();
        let small = self.is_small();
        // Of a small space, once it is mostly taken or refused, going through it is shorter than drawing on.
        let attempts = if small { 2 * size.count as u64 } else { MOST_DRAWS };
        let drawn = move |attempt| draw(secret, &self.lesson, student, attempt, &self.space);
        let start = drawn(0).and_then(|first| self.space.index(&first)).unwrap_or(0);
        let through = (0..if small { size.count } else { 0 })
            .filter_map(move |offset| self.space.draw((start + offset) % size.count.max(1)));
        (0..attempts).map_while(drawn).chain(through)
    }

    /// The draws that a student who has a paper did not get: those before it, of the form where it is one.
    pub fn passed_over<S: Secret>(&self, secret: &S, student: &str) -> Vec<Draw> {
        let Some(entry) = self.paper(student) else { return Vec::new() };
        let drawn_under = entry.form.map_or_else(|| student.to_owned(), form_name);
        let before = usize::try_from(entry.attempt).unwrap_or(usize::MAX);
        self.draws(secret, &drawn_under).take(before).collect()
    }

    /// Whether somebody has a draw.
    pub fn is_taken(&self, draw: &Draw) -> bool {
        self.taken.contains_key(draw)
    }

    /// Whether the space is gone through from end to end before the search for a draw is given up.
    fn is_small(&self) -> bool {
        let size = self.space.size();
        size.exact && size.count <= GONE_THROUGH
    }

    /// Gives a student this very draw, unless there is a paper in the ledger already.
    ///
    /// # Errors
    /// [`LedgerFault::NoStudent`], or [`LedgerFault::NoSuchDraw`].
    pub fn give_this<S: Secret>(
        &mut self,
        secret: &S,
        student: &str,
        Drawn { draw, attempt, form }: Drawn,
    ) -> Result<&Entry, LedgerFault> {
        if student.trim().is_empty() {
            return Err(LedgerFault::NoStudent);
        }
        if !self.space.has_choices(&draw) {
            return Err(LedgerFault::NoSuchDraw(student.to_owned()));
        }
        if !self.entries.contains_key(student) {
            let shared = self.is_taken(&draw);
            let number = self.free_number(secret, student);
            self.enter(student.to_owned(), Entry { number, draw, attempt, shared, form });
        }
        self.entries.get(student).ok_or(LedgerFault::NoStudent)
    }

    /// The first student whose paper's number does not follow from a secret: then it was drawn by another one.
    pub fn not_drawn_by<S: Secret>(&self, secret: &S) -> Option<&str> {
        // A number is seldom taken; twice in a row it never is.
        let follows = |student: &str, entry: &Entry| {
            (0..8).any(|again| PaperNumber::of(secret, &self.lesson, student, again) == entry.number)
        };
        self.papers().find(|(student, entry)| !follows(student, entry)).map(|(student, _)| student)
    }

    /// A number for a student that no paper has.
    fn free_number<S: Secret>(&self, secret: &S, student: &str) -> PaperNumber {
        let mut number = PaperNumber::of(secret, &self.lesson, student, 0);
        for again in 1.. {
            if !self.numbers.contains(&number) {
                break;
            }
            number = PaperNumber::of(secret, &self.lesson, student, again);
        }
        number
    }

    /// A draw for a student.
    fn found<S: Secret>(
        &self,
        secret: &S,
        student: &str,
        fits: &mut dyn FnMut(&Draw) -> bool,
    ) -> Result<Found, LedgerFault> {
        let mut refused: HashSet<Draw> = HashSet::new();
        let mut taken_that_fits: Option<Found> = None;
        let mut tried = 0;
        for (attempt, draw) in (0..).zip(self.draws(secret, student)) {
            if self.taken.contains_key(&draw) {
                // What others have was found to fit when they got it.
                taken_that_fits.get_or_insert(Found { draw, attempt, shared: true });
            } else if !refused.contains(&draw) {
                tried += 1;
                if fits(&draw) {
                    return Ok(Found { draw, attempt, shared: false });
                }
                refused.insert(draw);
            }
        }
        taken_that_fits.ok_or(LedgerFault::NothingFits { tried, all: self.is_small() })
    }

    fn enter(&mut self, student: String, entry: Entry) {
        *self.taken.entry(entry.draw.clone()).or_default() += 1;
        self.numbers.insert(entry.number.clone());
        self.entries.insert(student, entry);
    }
}
