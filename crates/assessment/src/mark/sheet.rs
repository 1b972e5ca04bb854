//! One student's sheet while it is judged: own values, and the mistakes that were counted.

use super::desk::{Behind, Pin};
use super::verdict::{Cause, Verdict};

/// One student's sheet while it is judged.
#[derive(Clone, Debug)]
pub(super) struct Sheet {
    /// By part.
    own: Vec<Option<Own>>,
    /// The mistakes that were counted, by their places in the list of all.
    pub(super) counted: Vec<usize>,
}

/// A student's own value, once judged.
#[derive(Clone, Copy, Debug)]
struct Own {
    written: f64,
    /// Whether it was written with fewer figures than the course asks for.
    coarse: bool,
    behind: Behind,
    /// What it was before a slip in writing it down, and what stands behind that.
    before_slip: Option<(f64, Behind)>,
}

/// How far a student's own values go on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum GoesOn {
    /// As they were written.
    Written,
    /// As they were before a slip in writing them down.
    BeforeSlips,
}

/// The own values that a part rests on, in the order of the graph.
#[derive(Clone, Debug, Default)]
pub(super) struct Basis {
    pub(super) pins: Vec<Pin>,
    /// The parts whose values they are.
    parts: Vec<usize>,
}

impl Sheet {
    pub(super) fn new(parts: usize) -> Self {
        Self { own: vec![None; parts], counted: Vec::new() }
    }

    /// Keeps an own value to be gone on with, SI, with its verdict.
    pub(super) fn keep(
        &mut self,
        part: usize,
        written: f64,
        coarse: bool,
        behind: Behind,
        verdict: &Verdict,
    ) {
        let factor = match verdict.explanations() {
            [only] => match &only.cause {
                Cause::Slip { slip } | Cause::MistakeAndSlip { slip, .. } => Some(slip.factor),
                _ => None,
            },
            _ => None,
        };
        if let Some(own) = self.own.get_mut(part) {
            *own = Some(match factor {
                Some(factor) => {
                    let before_slip = Some((written / factor, behind));
                    Own { written, coarse, behind: Behind::Itself, before_slip }
                }
                None => Own { written, coarse, behind, before_slip: None },
            });
        }
    }

    /// The own values of some parts, with the workings that they are of; nothing where none of them goes on otherwise than it was
    /// written, and that is asked for.
    pub(super) fn basis(
        &self,
        parts: impl Iterator<Item = (usize, workings::working::Id)>,
        goes_on: GoesOn,
    ) -> Option<Basis> {
        let mut any = goes_on == GoesOn::Written;
        let mut found: Vec<(usize, Pin)> = parts
            .filter_map(|(part, id)| {
                let own = self.own.get(part).copied().flatten()?;
                let (written, behind) = match (goes_on, own.before_slip) {
                    (GoesOn::BeforeSlips, Some(before)) => {
                        any = true;
                        before
                    }
                    _ => (own.written, own.behind),
                };
                Some((part, Pin { id, written, coarse: own.coarse, behind }))
            })
            .collect();
        found.sort_by_key(|(_, pin)| pin.id);
        found.dedup_by_key(|(_, pin)| pin.id);
        let (parts, pins) = found.into_iter().unzip();
        any.then_some(Basis { pins, parts })
    }
}

impl Basis {
    /// The places of the values that are wrong.
    pub(super) fn wrong(&self) -> Vec<usize> {
        let wrong = |at: &usize| self.pins.get(*at).is_some_and(|pin| pin.behind != Behind::Right);
        (0..self.pins.len()).filter(wrong).collect()
    }

    /// The parts whose values those at some places are.
    pub(super) fn parts(&self, places: &[usize]) -> Vec<usize> {
        places.iter().filter_map(|&at| self.parts.get(at).copied()).collect()
    }
}
