//! Whether any paper can be drawn from a lesson: its draws are looked at one at a time, so that who waits for the answer may do
//! something else in between.

use super::look::read;
use super::practice::practice_draw;
use super::thrown_out::Why;
use crate::space::Space;
use lesson::papers::{Draw, Papers};

/// What is known of the papers of a lesson.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Outlook {
    /// Nothing yet: further draws are to be looked at.
    Open,
    /// There is a draw that is sound, meets what the lesson requires and can be asked.
    Good,
    /// There is none among so many.
    Hopeless {
        /// So many were looked at.
        draws: usize,
        /// What stands most often against them.
        why: Why,
    },
}

/// The most draws that are looked at: where one in twenty can be given out, all of them fail twice in a thousand times.
const MOST: usize = 120;

/// A look ahead at the papers of a lesson.
///
/// Whether a draw is fair is not asked here: that is held against the whole class, which takes longer.
#[derive(Clone, Debug)]
pub struct Prospect {
    papers: Papers,
    asked: Vec<String>,
    space: Space,
    against: Vec<Why>,
    looked_at: usize,
}

impl Prospect {
    /// For a lesson: of few draws all are looked at, of many some, the same whenever it is asked.
    pub fn new(papers: Papers) -> Self {
        let (asked, space) = (super::asked(papers.lesson()), Space::of(papers.lesson()));
        Self { papers, asked, space, against: Vec::new(), looked_at: 0 }
    }

    /// Looks at one draw more. A lesson that asks nothing has no papers, so nothing can be wrong with them.
    pub fn further(&mut self) -> Outlook {
        if self.papers.lesson().questions.is_empty() {
            return Outlook::Good;
        }
        let Some(draw) = self.next() else {
            let most = self.against.iter().max_by_key(|why| why.draws).cloned();
            // Of no draws at all nothing is known.
            return most.map_or(Outlook::Good, |why| Outlook::Hopeless { draws: self.looked_at, why });
        };
        self.looked_at += 1;
        let Some(against) = read(&self.papers, &self.asked, &draw).looked.against.into_iter().next() else {
            return Outlook::Good;
        };
        let reason = against.to_string();
        match self.against.iter_mut().find(|why| why.reason == reason) {
            Some(why) => why.draws += 1,
            None => self.against.push(Why { reason, draws: 1 }),
        }
        Outlook::Open
    }

    fn next(&self) -> Option<Draw> {
        if self.looked_at == MOST {
            return None;
        }
        if self.space.size().count > MOST as u128 {
            return practice_draw(&self.papers, 0, self.looked_at as u64, &self.space);
        }
        self.space.draw(self.looked_at as u128)
    }
}
