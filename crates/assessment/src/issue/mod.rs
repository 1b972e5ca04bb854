//! Papers for a whole class: every student's draw is read, solved and held against what the lesson requires and against the
//! class, and where it may not be given out the student's next draw is taken.
//!
//! What the class is follows from the lesson alone ([`Issue::new`] looks at a sample of its draws), so no paper depends on
//! who else gets one. What is found of a draw is kept, so that a class is looked at once, on all cores.

mod class;
mod forms;
mod look;
mod practice;
mod prospect;
mod thrown_out;

pub use forms::{FORMS, form_name};
pub use look::{Against, Looked};
pub use practice::{NoPractice, practice_paper};
pub use prospect::{Outlook, Prospect};
pub use thrown_out::{ThrownOut, Why};

use crate::cores;
use crate::fair::Class;
use crate::ledger::{Ledger, LedgerFault};
use crate::secret::Secret;
use crate::space::Space;
use lesson::Lesson;
use lesson::papers::{Draw, Papers};
use std::collections::HashMap;
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
    class: Option<Class>,
    sample: Vec<Draw>,
    looked: Mutex<HashMap<Draw, Arc<Looked>>>,
}

impl Issue {
    /// For a lesson. A sample of its draws, the same in every run, says what its class is: which way to the answers most
    /// draws take that nothing else speaks against, and how strongly the answers answer to their inputs there.
    pub fn new(papers: Papers) -> Self {
        let space = Space::of(papers.lesson());
        let asked = asked(papers.lesson());
        let sample = class::sample(&space);
        let read = cores::each(&sample, |draw| look::read(&papers, &asked, draw));
        let class = class::of(read.iter().filter_map(|read| read.looked.paper.as_ref()));
        let finished =
            read.into_iter().map(|read| Arc::new(look::finish(read, class.as_ref(), space.size())));
        let looked = Mutex::new(sample.iter().cloned().zip(finished).collect());
        Self { papers, space, asked, class, sample, looked }
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

    /// What the papers of the class have in common; none where no draw can be judged.
    pub fn class(&self) -> Option<&Class> {
        self.class.as_ref()
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
        let looked = Arc::new(look::finish(read, self.class.as_ref(), self.space.size()));
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
        // Most students keep the first draw that nothing speaks against, and those are found on all cores; who gets which of
        // the draws that several come to is then settled one after the other.
        let (done, before) = (AtomicUsize::new(0), &*ledger);
        cores::each(&students, |student| {
            match before.paper(student) {
                Some(entry) => {
                    for draw in before.passed_over(secret, student).chain([entry.draw.clone()]) {
                        self.look(&draw);
                    }
                }
                None => {
                    let free = before.draws(secret, student).filter(|draw| !before.is_taken(draw));
                    free.take_while(|draw| !self.look(draw).fits()).for_each(drop);
                }
            }
            told(done.fetch_add(1, Ordering::Relaxed) + 1);
        });
        for student in students {
            ledger.give(secret, student, |draw| self.look(draw).fits())?;
        }
        Ok(())
    }
}
