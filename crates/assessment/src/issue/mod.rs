//! Papers for a whole class: every student's draw is read, solved and held against what the lesson requires and against the
//! class, and where it may not be given out the student's next draw is taken.
//!
//! What the class is follows from the lesson alone ([`Issue::new`] looks at a sample of its draws); of a student's draws only those
//! that another has, in their numbers or in all their answers, are passed over for that. What is found of a draw is kept,
//! so that a class is looked at once, on all cores.

mod better;
mod class;
mod forms;
mod look;
mod never;
mod practice;
mod prospect;
mod thrown_out;

use better::Apart;

pub use forms::LETTERS;
pub use look::{Against, Looked};
pub use never::Never;
pub use practice::{NoPractice, practice_paper};
pub use prospect::{Outlook, Prospect};
pub use thrown_out::{ThrownOut, Why};

use crate::cores;
use crate::fair::Class;
use crate::ledger::{Ledger, LedgerFault};
use crate::secret::Secret;
use crate::space::Space;
use lesson::papers::{Draw, Papers};
use lesson::{Choices, Lesson, Variation};
use std::collections::{BTreeMap, HashMap};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Arc, Mutex, PoisonError};

/// The workings that the questions of a lesson ask for, each once, in their order.
fn asked(lesson: &Lesson) -> Vec<String> {
    let mut asked: Vec<String> = Vec::new();
    for name in lesson.questions.iter().flat_map(lesson::Question::workings) {
        if !asked.iter().any(|known| known == name) {
            asked.push(name.to_owned());
        }
    }
    asked
}

/// The papers of a lesson, to be given to a class.
#[derive(Debug)]
pub struct Issue {
    papers: Papers,
    space: Space,
    asked: Vec<String>,
    /// By variant.
    classes: BTreeMap<String, Class>,
    /// By variant.
    apart: BTreeMap<String, Apart>,
    sample: Vec<Draw>,
    looked: Mutex<HashMap<Draw, Arc<Looked>>>,
}

impl Issue {
    /// For a lesson. A sample of its draws, the same in every run, says what its class is: which way to the answers most
    /// draws take that nothing else speaks against, and how strongly the answers answer to their inputs there.
    pub fn new(papers: Papers) -> Self {
        let space = Space::of(papers.lesson());
        let asked = asked(papers.lesson());
        let variants = papers.lesson().vary.iter().filter(|of| matches!(of.choices, Choices::Variants(_)));
        let variants = variants.map(Variation::count).fold(1, usize::saturating_mul);
        let sample = class::sample(&space, variants);
        let read = cores::each(&sample, |draw| look::read(&papers, &asked, draw));
        let classes = class::of_variants(read.iter().filter_map(|read| read.looked.paper.as_ref()));
        let finished = read.into_iter().map(|read| Arc::new(look::finish(read, &classes, space.size())));
        let finished: Vec<Arc<Looked>> = finished.collect();
        let fitting =
            finished.iter().filter(|looked| looked.fits()).filter_map(|looked| looked.paper.as_ref());
        let apart = Apart::of_variants(fitting);
        let looked = Mutex::new(sample.iter().cloned().zip(finished).collect());
        Self { papers, space, asked, classes, apart, sample, looked }
    }

    /// The lesson.
    pub fn papers(&self) -> &Papers {
        &self.papers
    }

    /// The space of all draws.
    pub fn space(&self) -> &Space {
        &self.space
    }

    /// The workings that are asked for, each once, in the order of the questions.
    pub fn asked(&self) -> &[String] {
        &self.asked
    }

    /// What the papers of the class have in common that are of one variant of the lesson; none where no draw of it can be judged.
    pub fn class(&self, variant: &str) -> Option<&Class> {
        self.classes.get(variant)
    }

    /// What was found of the draws of the sample, each once.
    pub fn sampled(&self) -> Vec<Arc<Looked>> {
        self.sample.iter().map(|draw| self.look(draw)).collect()
    }

    /// What is found of a draw: kept, so that it is looked at once.
    pub fn look(&self, draw: &Draw) -> Arc<Looked> {
        let known = || self.looked.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(looked) = known().get(draw) {
            return Arc::clone(looked);
        }
        let read = look::read(&self.papers, &self.asked, draw);
        let looked = Arc::new(look::finish(read, &self.classes, self.space.size()));
        Arc::clone(known().entry(draw.clone()).or_insert(looked))
    }

    /// Of a sample that nothing fits of, a paper would have to be searched for among many hundreds of draws.
    fn refuse_the_hopeless(&self, ledger: &Ledger, students: &[&str]) -> Result<(), LedgerFault> {
        let wanted = students.iter().any(|student| ledger.paper(student).is_none());
        if wanted && !self.sampled().iter().any(|looked| looked.fits()) {
            let tried = self.sample.len();
            return Err(LedgerFault::NothingFits { tried, all: self.space.size().count == tried as u128 });
        }
        Ok(())
    }

    /// Gives every student a paper who has none, in the order of their ids, whatever the order of the list; `told` is called
    /// with the number of those whose draws have been looked at, from any thread.
    ///
    /// # Errors
    /// As [`Ledger::give`]. Those before have got their papers. Where something speaks against every draw of the sample, none is
    /// searched for.
    pub fn give<S: Secret + Sync>(
        &self,
        secret: &S,
        ledger: &mut Ledger,
        students: &[&str],
        told: &(dyn Fn(usize) + Sync),
    ) -> Result<(), LedgerFault> {
        let mut students: Vec<&str> = students.to_vec();
        students.sort_unstable();
        students.dedup();
        self.refuse_the_hopeless(ledger, &students)?;
        // Most students keep the draw that is best by itself, and those are found on all cores; who gets which of the draws that several
        // come to is then settled one after the other.
        let (done, before) = (AtomicUsize::new(0), &*ledger);
        cores::each(&students, |student| {
            match before.paper(student) {
                Some(entry) => {
                    for draw in before.passed_over(secret, student).iter().chain([&entry.draw]) {
                        self.look(draw);
                    }
                }
                None => drop(self.better(secret, before, student, &[])),
            }
            told(done.fetch_add(1, Ordering::Relaxed) + 1);
        });
        let mut given: Vec<Arc<Looked>> = ledger.papers().map(|(_, entry)| self.look(&entry.draw)).collect();
        for student in students {
            if ledger.paper(student).is_some() {
                continue;
            }
            match self.better(secret, ledger, student, &given) {
                Some(better) => {
                    let (drawn, looked) = better.parted();
                    ledger.give_this(secret, student, drawn)?;
                    given.push(looked);
                }
                // Nothing is free: it shares, or nothing fits at all.
                None => drop(ledger.give(secret, student, |draw| self.look(draw).fits())?),
            }
        }
        Ok(())
    }
}
