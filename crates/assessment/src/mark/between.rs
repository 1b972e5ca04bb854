//! What lies between a student's own values and an asked value: the mistakes that can be made there, and where they lead.

use super::desk::{Behind, Desk, Ground, Led, Pin};
use workings::evaluate::{EvaluationError, Prepared, Replacement};
use workings::working::Id;

/// A mistake on the way to an asked value, by its place in the list of all.
#[derive(Clone, Debug)]
pub(super) struct Way {
    pub(super) mistake: usize,
    prepared: Prepared,
}

/// The mistakes on the way to an asked value.
#[derive(Clone, Debug, Default)]
pub(super) struct Ways {
    /// From the very beginning; those made nearest to it first.
    pub(super) all: Vec<Way>,
    /// What they read.
    pub(super) read: Vec<Id>,
}

/// The mistakes on the way to an asked value.
pub(super) fn ways(desk: &Desk<'_>, asked: Id) -> Result<Ways, EvaluationError> {
    let mut all = Vec::new();
    let upstream = desk.solved().workings().upstream(asked);
    for (mistake, made) in desk.mistakes().iter().enumerate() {
        if made.shows_in(&upstream)
            && let Some(prepared) = desk.prepare(mistake, Some(asked))?
        {
            all.push(Way { mistake, prepared });
        }
    }
    // Stable: mistakes made at one working stay in the order of the catalogue.
    let place = |way: &Way| desk.mistakes().get(way.mistake).map(|made| made.working());
    all.sort_by_key(|way| std::cmp::Reverse(place(way)));
    let mut read = Vec::new();
    for made in all.iter().filter_map(|way| desk.mistakes().get(way.mistake)) {
        for (_, replacement) in made.replacements() {
            if let Replacement::Expression(formula) | Replacement::Numbers(formula, _) = replacement {
                formula.each_working(&mut |id| read.push(id));
            }
        }
    }
    read.sort_unstable();
    read.dedup();
    Ok(Ways { all, read })
}

/// What lies between some own values and an asked value.
#[derive(Clone, Debug)]
pub(super) struct Between {
    asked: Id,
    /// What the mistakes read.
    pub(super) read: Vec<Id>,
    /// The mistakes that can be made there.
    pub(super) ways: Vec<Way>,
    /// The own values being right ones: where each of the mistakes leads; nothing where that is nowhere.
    pub(super) from_right: Vec<Option<Led>>,
    pairs_from_right: Option<Vec<Pair>>,
}

/// Two mistakes made together, by their places among the ways, and where they lead.
#[derive(Clone, Copy, Debug)]
pub(super) struct Pair {
    /// That which comes first in the solution first.
    pub(super) ways: [usize; 2],
    pub(super) led: Led,
}

impl Between {
    pub(super) fn new(
        desk: &mut Desk<'_>,
        known: &Ways,
        pins: &[Pin],
        asked: Id,
    ) -> Result<Self, EvaluationError> {
        let open = open(desk, pins, asked);
        let is_open = |way: &Way| {
            let made = desk.mistakes().get(way.mistake);
            let replaced = made.map(|made| made.replacements()).unwrap_or_default();
            replaced.iter().any(|(id, _)| open.get(id.0 as usize).copied().unwrap_or(false))
        };
        let ways: Vec<Way> = known.all.iter().filter(|way| is_open(way)).cloned().collect();
        let ground = from_right(desk, pins, asked, &known.read)?;
        let from_right = ways.iter().map(|way| desk.led(&ground, &way.prepared, asked)).collect();
        Ok(Self { asked, read: known.read.clone(), ways, from_right, pairs_from_right: None })
    }

    /// Where each of the mistakes leads on a ground.
    pub(super) fn led(&self, desk: &mut Desk<'_>, ground: &Ground) -> Vec<Option<Led>> {
        self.ways.iter().map(|way| desk.led(ground, &way.prepared, self.asked)).collect()
    }

    /// How many pairs of mistakes there are at most.
    pub(super) fn count_of_pairs(&self) -> usize {
        self.ways.len() * self.ways.len().saturating_sub(1) / 2
    }

    /// The own values being right ones: where any two of the mistakes lead.
    pub(super) fn pairs_from_right(
        &mut self,
        desk: &mut Desk<'_>,
        pins: &[Pin],
    ) -> Result<&[Pair], EvaluationError> {
        if self.pairs_from_right.is_none() {
            let ground = from_right(desk, pins, self.asked, &self.read)?;
            self.pairs_from_right = Some(self.pairs(desk, &ground)?);
        }
        Ok(self.pairs_from_right.as_deref().unwrap_or_default())
    }

    /// Where any two of the mistakes lead on a ground.
    pub(super) fn pairs(&self, desk: &mut Desk<'_>, ground: &Ground) -> Result<Vec<Pair>, EvaluationError> {
        let mut pairs = Vec::new();
        let reach: Vec<(Vec<Id>, Vec<bool>)> = self
            .ways
            .iter()
            .filter_map(|way| {
                let made = desk.mistakes().get(way.mistake)?;
                let ids: Vec<Id> = made.replacements().into_iter().map(|(id, _)| id).collect();
                let downstream = desk.solved().workings().downstream(&ids);
                Some((ids, downstream))
            })
            .collect();
        // After one mistake another is led on, unless it would undo the first: then it comes before that.
        let undoes = |later: usize, first: usize| match (reach.get(later), reach.get(first)) {
            (Some((_, downstream)), Some((ids, _))) => {
                ids.iter().any(|id| downstream.get(id.0 as usize).copied().unwrap_or(true))
            }
            _ => true,
        };
        for (first, way) in self.ways.iter().enumerate() {
            let Some(prepared) = desk.prepare(way.mistake, None)? else { continue };
            let mut after = None;
            for (later, other) in self.ways.iter().enumerate() {
                let before = later < first;
                if later == first || undoes(later, first) || (before && !undoes(first, later)) {
                    continue;
                }
                let after = after.get_or_insert_with(|| desk.after(ground, &prepared));
                if let Some(led) = desk.led(after, &other.prepared, self.asked) {
                    pairs.push(Pair { ways: [first.max(later), first.min(later)], led });
                }
            }
        }
        Ok(pairs)
    }
}

fn from_right(desk: &mut Desk<'_>, pins: &[Pin], asked: Id, read: &[Id]) -> Result<Ground, EvaluationError> {
    if pins.is_empty() {
        return Ok(desk.bare());
    }
    let right = |pin: &Pin| Pin { written: desk.solved().value(pin.id), behind: Behind::Right, ..*pin };
    let pins: Vec<Pin> = pins.iter().map(right).collect();
    desk.ground(&pins, asked, read)
}

/// By id, the workings on which an asked value rests and that are not behind own values.
fn open(desk: &Desk<'_>, pins: &[Pin], asked: Id) -> Vec<bool> {
    let workings = desk.solved().workings();
    let mut open = vec![false; workings.len()];
    let mut next = vec![asked];
    while let Some(id) = next.pop() {
        if pins.iter().any(|pin| pin.id == id) {
            continue;
        }
        let Some(known) = open.get_mut(id.0 as usize) else { continue };
        if !std::mem::replace(known, true) {
            next.extend(workings.reads(id));
        }
    }
    open
}
