//! A few forms of one paper for a whole class: as alike in what they ask as can be found, and no answer of one right for
//! another.

use super::Issue;
use super::look::Looked;
use crate::fair::Judgement;
use crate::ledger::{Drawn, Ledger, LedgerFault, form_name};
use crate::secret::Secret;
use lesson::papers::Draw;
use std::cmp::Ordering;
use std::sync::Arc;

/// The letters of the forms of a paper, of which there are no more.
pub const LETTERS: std::ops::RangeInclusive<char> = 'A'..='Z';

/// Among so many draws that fit the next form is chosen.
///
/// Common practice, no source: the best of some dozens is near enough to the median of each measure, and found at once.
const POOL: usize = 40;

/// A draw that may become a form.
struct Candidate {
    draw: Draw,
    attempt: u64,
    looked: Arc<Looked>,
}

impl Issue {
    /// Gives `count` forms, 26 at most, where they are not in the ledger yet. Of the draws that fit those are taken of which
    /// no answer is right for an earlier form, as far as that can be, whose mistakes are well apart, and whose answers answer to their
    /// inputs as in the class.
    ///
    /// # Errors
    /// As [`Ledger::give`].
    pub fn give_forms<S: Secret + Sync>(
        &self,
        secret: &S,
        ledger: &mut Ledger,
        count: u8,
    ) -> Result<(), LedgerFault> {
        let mut chosen: Vec<Arc<Looked>> = Vec::new();
        let names: Vec<String> = LETTERS.take(count.into()).map(form_name).collect();
        self.refuse_the_hopeless(ledger, &names.iter().map(String::as_str).collect::<Vec<_>>())?;
        for name in names {
            if ledger.paper(&name).is_none() {
                let best = self.pool(secret, ledger, &name).into_iter().min_by(|one, other| {
                    let shared = |candidate: &Candidate| answers_shared(&candidate.looked, &chosen);
                    let apart = |candidate: &Candidate| self.apart_from_the_class(&candidate.looked);
                    let blurred = |candidate: &Candidate| !self.is_well_apart(&candidate.looked);
                    let mistakes = blurred(one).cmp(&blurred(other));
                    let balance = apart(one).partial_cmp(&apart(other)).unwrap_or(Ordering::Equal);
                    let earlier = one.attempt.cmp(&other.attempt);
                    shared(one).cmp(&shared(other)).then(mistakes).then(balance).then(earlier)
                });
                match best {
                    Some(Candidate { draw, attempt, .. }) => {
                        ledger.give_this(secret, &name, Drawn { draw, attempt, form: None })?
                    }
                    // Nothing is free: it shares, or nothing fits at all.
                    None => ledger.give(secret, &name, |draw| self.look(draw).fits())?,
                };
            }
            chosen.extend(ledger.paper(&name).map(|entry| self.look(&entry.draw)));
        }
        Ok(())
    }

    /// The first free draws of a form that fit.
    fn pool<S: Secret>(&self, secret: &S, ledger: &Ledger, name: &str) -> Vec<Candidate> {
        let mut pool: Vec<Candidate> = Vec::new();
        for (attempt, draw) in (0..).zip(ledger.draws(secret, name)) {
            if ledger.is_taken(&draw) || pool.iter().any(|known| known.draw == draw) {
                continue;
            }
            let looked = self.look(&draw);
            if looked.fits() {
                pool.push(Candidate { draw, attempt, looked });
            }
            if pool.len() == POOL {
                break;
            }
        }
        pool
    }

    /// How far the condition numbers of a paper are from those of the class: the largest ratio, the greater over the
    /// less.
    fn apart_from_the_class(&self, looked: &Looked) -> f64 {
        let class = looked.paper.as_ref().and_then(|paper| self.classes.get(&paper.variant));
        let usual = |judgement: &Judgement| Some(class?.conditions.get(&judgement.working)?.median);
        let apart = judgements(looked).iter().map(|judgement| match usual(judgement) {
            Some(usual) if usual > 0.0 && judgement.condition > 0.0 => {
                (judgement.condition / usual).max(usual / judgement.condition)
            }
            _ => 1.0,
        });
        apart.fold(1.0, f64::max)
    }
}

fn judgements(looked: &Looked) -> &[Judgement] {
    looked.paper.as_ref().map_or(&[], |paper| &paper.judgements)
}

/// How many right answers of a paper are right on one of others too, or the other way round.
fn answers_shared(looked: &Looked, others: &[Arc<Looked>]) -> usize {
    let with = |other: &Arc<Looked>| {
        let both = judgements(looked).iter().zip(judgements(other));
        both.filter(|(one, other)| one.accepts(other.right) || other.accepts(one.right)).count()
    };
    others.iter().map(with).sum()
}
