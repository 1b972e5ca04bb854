//! The search for numbers that teach: round, well conditioned, and with every mistake to be seen.
//!
//! A lesson says what may vary, and by which choices. [`Search`] goes over all of them, or over as many as there is time for,
//! and keeps those whose results come out shortest: exact in the course's figures, with few digits. The best are then read,
//! solved and judged ([`crate::fair`]): what rounding on the way, or a hidden mistake, speaks against is left out, and so is
//! what asks for other work than the rest. What remains is ranked, each with the reasons in words; where nothing remains, the
//! [`Census`] says which condition stands in the way, and what to widen.
//!
//! ```
//! use assessment::tune::Search;
//! use lesson::papers::Papers;
//!
//! let conveyor = lesson::builtin::find("conveyor").expect("a lesson of ours").text;
//! let papers = Papers::read(conveyor, "conveyor.toml").expect("a sound lesson");
//! let tuned = Search::new(papers, &["reaction at A"])?.run(3);
//! // Two equal spans l under w: the end reaction is 3/8 w l.
//! assert!(tuned.rows.iter().all(|row| row.results[0].exact));
//! # Ok::<(), assessment::tune::TuneFault>(())
//! ```

mod advice;
mod census;
mod judged;
mod row;
mod score;
mod short;
mod sweep;

pub use census::{Census, HiddenBy, LongResult};
pub use row::{Choice, Miss, Row, RowResult};
pub use short::{MOST_DIGITS, Short};

use crate::candidates::{Candidates, UnknownResult};
use crate::fair::ClassTable;
use crate::fair::mistakes::same;
use lesson::papers::Papers;
use score::Results;
use serde::Serialize;
use std::collections::BTreeSet;
use std::fmt;
use sweep::Effort;
use workings::solved::Solved;
use workings::working::{Formula, Id};

/// How many of the roundest are judged, besides those that are asked for,
const JUDGED_AT_LEAST: usize = 200;

/// and for each of these: some hide a mistake, and some ask for other work.
const JUDGED_FOR_EACH: usize = 20;

/// The most that can be asked for.
const MOST_ROWS: usize = 500;

/// A search for round numbers.
#[derive(Debug)]
pub struct Search {
    candidates: Candidates,
    results: Results,
    /// What students are asked for, and what else is to be round: all that is judged.
    judged: Vec<String>,
}

/// Why there is nothing to search.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum TuneFault {
    /// Nothing varies in the lesson.
    NothingVaries,
    /// The lesson has no working of a name.
    Unknown(UnknownResult),
}

impl fmt::Display for TuneFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NothingVaries => f.write_str(
                "nothing varies in this lesson, so there are no other numbers; say under [vary] what may change",
            ),
            Self::Unknown(unknown) => unknown.fmt(f),
        }
    }
}

impl std::error::Error for TuneFault {}

/// What a search found.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Tuned {
    /// The names of the results that are to be round, the asked ones first.
    pub results: Vec<String>,
    /// How many of them, from the first, must be exact in the course's figures; the others are on the way to them, and the
    /// more of these are exact the better.
    pub exact: usize,
    /// The numbers that were found, from the best. All of them may be papers of one class.
    pub rows: Vec<Row>,
    /// What students are asked for that is the same on all of these papers, though others that fit have other values.
    pub collapsed: Vec<String>,
    /// These papers side by side.
    pub class: ClassTable,
    /// How many draws there were, and what stood against them.
    pub census: Census,
    /// Where nothing was found: the nearest, with what stands against it.
    pub misses: Vec<Miss>,
    /// What to widen, in words; nothing where as many were found as were wanted.
    pub advice: Vec<String>,
}

impl Search {
    /// For a lesson, all combinations of its choices; `results` are the names of what is to come out round. Of none these are
    /// the values that its questions ask for (of a lesson without questions V, the centroid, I, Q, t and tau), and all on
    /// the way to them. With names given only these are to be round; what the questions ask for is judged all the same.
    ///
    /// # Errors
    /// See [`TuneFault`].
    pub fn new(papers: Papers, results: &[&str]) -> Result<Self, TuneFault> {
        let papers = papers.unrestricted();
        let lesson = papers.lesson();
        if lesson.vary.is_empty() {
            return Err(TuneFault::NothingVaries);
        }
        let unknown = |name: &str| TuneFault::Unknown(UnknownResult(name.to_owned()));
        let named =
            results.first().copied().or(lesson.questions.iter().flat_map(lesson::Question::workings).next());
        // A checked lesson is solvable; if it is not, none of its workings are there.
        let solved = Solved::new(lesson.problem.clone(), lesson.style.clone())
            .map_err(|_| unknown(named.unwrap_or("shear stress on the cut")))?;
        let asked: Vec<String> = match results {
            [] => asked_for(lesson, &solved),
            named => unique(named.iter().copied()),
        };
        if let Some(name) = asked.iter().find(|name| solved.workings().get(name).is_none()) {
            return Err(unknown(name));
        }
        let questions = lesson.questions.iter().flat_map(lesson::Question::workings);
        let judged = unique(asked.iter().map(String::as_str).chain(questions));
        let way = if results.is_empty() { on_the_way(&solved, &asked) } else { Vec::new() };
        let results = Results::new(&solved, &asked, &way, lesson.style.figures);
        let names: Vec<&str> = results.names.iter().map(String::as_str).collect();
        let candidates = Candidates::new(papers, &names).map_err(TuneFault::Unknown)?;
        Ok(Self { candidates, results, judged })
    }

    /// Searches, and gives at most so many rows, 500 at most.
    pub fn run(&self, count: usize) -> Tuned {
        let count = count.min(MOST_ROWS);
        let keep = JUDGED_AT_LEAST + JUDGED_FOR_EACH * count;
        let swept = sweep::sweep(&self.candidates, &self.results, keep, Effort::usual());
        let asked: Vec<&str> = self.judged.iter().map(String::as_str).collect();
        let judged = judged::judge(&self.candidates, &self.results, &asked, &swept.best);
        let mut census = Census::of(&self.candidates, &self.results, &swept.counts);
        let any = judged::judge(&self.candidates, &self.results, &asked, &sweep::any(&self.candidates));
        let rows = judged::rank(judged, any, count, &mut census);
        let advice = if rows.fits.len() < count {
            advice::advice(&self.candidates, &self.results, &census, &swept.best)
        } else {
            Vec::new()
        };
        let all: Vec<Vec<f64>> = rows.fits.iter().map(judged::Judged::asked_values).collect();
        let fits = judged::spread(rows.fits, count);
        let found: Vec<Vec<f64>> = fits.iter().map(judged::Judged::asked_values).collect();
        let collapsed = self.judged.iter().enumerate().filter(|(at, _)| {
            let differs = |values: &[Vec<f64>]| {
                let mut of = values.iter().filter_map(|values| values.get(*at).copied());
                of.next().is_some_and(|first| of.any(|other| !same(first, other)))
            };
            found.len() > 1 && !differs(&found) && differs(&all)
        });
        let collapsed = collapsed.map(|(_, name)| name.clone()).collect();
        let papers: Vec<_> = fits.iter().map(|judged| judged.paper.clone()).collect();
        let row = |judged: judged::Judged| Row::of(&self.candidates, &self.results, judged);
        Tuned {
            results: self.results.names.clone(),
            exact: self.results.asked,
            class: ClassTable::of(&papers),
            collapsed,
            rows: fits.into_iter().map(row).collect(),
            misses: if papers.is_empty() {
                Miss::all(&self.candidates, &self.results, rows.misses)
            } else {
                Vec::new()
            },
            census,
            advice,
        }
    }
}

fn unique<'a>(names: impl Iterator<Item = &'a str>) -> Vec<String> {
    let mut seen = BTreeSet::new();
    names.filter(|name| seen.insert(*name)).map(str::to_owned).collect()
}

/// What the questions of a lesson ask for, in their order; of a lesson without any the chain of the unit.
fn asked_for(lesson: &lesson::Lesson, solved: &Solved) -> Vec<String> {
    let asked = unique(lesson.questions.iter().flat_map(lesson::Question::workings));
    if !asked.is_empty() {
        return asked;
    }
    let key = solved.key();
    let chain = [key.shear, key.centroid, key.second_moment, key.first_moment, key.width, key.stress_on_cut];
    unique(chain.iter().map(|&id| solved.workings().working(id).name.as_str()))
}

/// What is found on the way to some workings, in the order of the graph.
fn on_the_way(solved: &Solved, asked: &[String]) -> Vec<String> {
    let workings = solved.workings();
    let mut needed: BTreeSet<Id> = BTreeSet::new();
    let mut open: Vec<Id> = asked.iter().filter_map(|name| workings.id(name)).collect();
    while let Some(id) = open.pop() {
        if needed.insert(id) {
            open.extend(workings.reads(id));
        }
    }
    let on_the_way = needed
        .into_iter()
        .map(|id| workings.working(id))
        .filter(|working| working.formula != Formula::Given && !asked.contains(&working.name));
    on_the_way.map(|working| working.name.clone()).collect()
}
