//! V and M at a station from the balance of everything to its left.

use super::balance::Reactions;
use super::beam_givens::{BeamGivens, LoadKind};
use super::builder::{Builder, Entry, zero};
use super::names::with_below;
use super::resultants::{PlaceAs, Resultant, Stretch, joined};
use crate::dimension::Dimension;
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::role::Role;
use crate::working::{Chapter, Id};
use mechanics::beam::Side;

/// Where the beam is cut through, and what that is called.
pub(crate) struct Station<'a> {
    pub(crate) chapter: Chapter,
    pub(crate) station: Id,
    pub(crate) side: Side,
    /// `at the slice`, `just left of the slice`.
    pub(crate) words: &'a str,
    /// What the piece is left of: `left of the slice`.
    pub(crate) left_of: &'a str,
    /// The index of V and M there.
    pub(crate) index: &'a str,
}

/// V and M somewhere.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Inner {
    pub(crate) shear: Id,
    pub(crate) moment: Id,
}

impl Builder<'_> {
    /// Balance of the piece to the left of a station.
    pub(crate) fn free_body(
        &mut self,
        beam: &BeamGivens,
        reactions: &Reactions,
        at: &Station<'_>,
    ) -> Result<Inner, EvaluationError> {
        let x = self.value(at.station);
        let mut on_piece = Terms::default();
        for (of, support) in beam.supports.iter().enumerate() {
            if !self.is_left(support.station, x, at.side) {
                continue;
            }
            if let Some(force) = reactions.forces[of] {
                on_piece.forces.push((self.value(support.station), force.into()));
                on_piece.moments.extend(self.turning(at.station, support.station, force, 1.0));
            }
            if let Some(couple) = reactions.couples[of] {
                on_piece.moments.push((self.value(support.station), -Expression::from(couple)));
            }
        }
        for (place, load) in beam.loads.iter().enumerate() {
            match load.kind {
                LoadKind::Force { station, down } => {
                    if self.is_left(station, x, at.side) {
                        on_piece.forces.push((self.value(station), -Expression::from(down)));
                        on_piece.moments.extend(self.turning(at.station, station, down, -1.0));
                    }
                }
                LoadKind::Couple { station, ccw } => {
                    if self.is_left(station, x, at.side) {
                        on_piece.moments.push((self.value(station), -Expression::from(ccw)));
                    }
                }
                LoadKind::Spread { from, to, .. } => {
                    let (start, end) = (self.value(from), self.value(to));
                    if end < x || self.same_station(end, x) {
                        for whole in self.whole_resultants(beam, place, at.chapter)? {
                            on_piece.forces.push((start, -Expression::from(whole.down)));
                            on_piece.moments.extend(self.turning(at.station, whole.place, whole.down, -1.0));
                        }
                    } else if start < x && !self.same_station(start, x) {
                        for part in self.part_left_of(beam, place, at)? {
                            on_piece.forces.push((start, -Expression::from(part.down)));
                            let moment = Expression::from(part.down) * part.place.into();
                            on_piece.moments.push((start, -moment));
                        }
                    }
                }
            }
        }
        let shear = on_piece.sum(true).unwrap_or_else(|| zero(Dimension::FORCE, Role::ShearForce));
        let shear = self.formula(
            Entry::new(at.chapter, Role::ShearForce, at.index, format!("shear force {}", at.words))
                .at(x, Some(at.side))
                .says(
                    "Balance of the vertical forces on the piece to the left: what pushes it up, less what \
                     presses it down, is what it hands on to the right.",
                ),
            shear,
        )?;
        let moment = on_piece.sum(false).unwrap_or_else(|| zero(Dimension::MOMENT, Role::BendingMoment));
        let moment = self.formula(
            Entry::new(at.chapter, Role::BendingMoment, at.index, format!("bending moment {}", at.words))
                .at(x, Some(at.side))
                .says(
                    "Balance of moments of the piece to the left about the cut, where the shear force has no \
                     arm.",
                ),
            moment,
        )?;
        Ok(Inner { shear, moment })
    }

    /// Whether something at a station acts on the piece to the left.
    fn is_left(&self, station: Id, x: f64, side: Side) -> bool {
        let station = self.value(station);
        if self.same_station(station, x) { side == Side::Right } else { station < x }
    }

    /// Force times its arm about the cut, with its station to sort by; none where it has no arm.
    fn turning(&self, cut: Id, station: Id, force: Id, sign: f64) -> Option<(f64, Expression)> {
        if self.same_station(self.value(cut), self.value(station)) {
            return None;
        }
        let moment = Expression::from(force) * self.difference(cut, station);
        Some((self.value(station), if sign < 0.0 { -moment } else { moment }))
    }

    /// The resultants of a whole spread load, in the chapter that wants them first.
    pub(crate) fn whole_resultants(
        &mut self,
        beam: &BeamGivens,
        place: usize,
        chapter: Chapter,
    ) -> Result<Vec<Resultant>, EvaluationError> {
        if let Some(Some(known)) = self.whole_resultants.get(place) {
            return Ok(known.clone());
        }
        let load = &beam.loads[place];
        let LoadKind::Spread { from, to, down_from, down_to } = load.kind else { return Ok(Vec::new()) };
        let (words, index) = (&load.words, &load.index);
        let whole = Stretch { chapter, load: place, words, which: "", index, from, to, down_from, down_to };
        let found = self.resultants(&whole, PlaceAs::Station)?;
        if let Some(known) = self.whole_resultants.get_mut(place) {
            *known = Some(found.clone());
        }
        Ok(found)
    }

    /// The resultants of the part of a spread load that lies left of the cut.
    fn part_left_of(
        &mut self,
        beam: &BeamGivens,
        place: usize,
        at: &Station<'_>,
    ) -> Result<Vec<Resultant>, EvaluationError> {
        let load = &beam.loads[place];
        let LoadKind::Spread { from, to, down_from, down_to } = load.kind else { return Ok(Vec::new()) };
        let down_here = if down_from == down_to {
            down_from
        } else {
            let here = self.intensity_at(at.station, (from, to), (down_from, down_to));
            let below = if at.index.is_empty() { "x" } else { at.index };
            let entry = Entry::new(
                at.chapter,
                Role::SpreadLoad,
                &with_below(&self.letters.spread, &load.symbol, below),
                format!("intensity of {} {}", load.words, at.words),
            )
            .at(self.value(at.station), None)
            .says("Between its ends the intensity runs in a straight line.");
            self.formula(entry, here)?
        };
        self.resultants(
            &Stretch {
                chapter: at.chapter,
                load: place,
                words: &load.words,
                which: at.left_of,
                index: &joined(&load.index, if at.index.is_empty() { "x" } else { at.index }),
                from,
                to: at.station,
                down_from,
                down_to: down_here,
            },
            PlaceAs::ArmAboutRightEnd,
        )
    }
}

/// What acts on the piece, each with the station that it is sorted by.
#[derive(Default)]
struct Terms {
    forces: Vec<(f64, Expression)>,
    moments: Vec<(f64, Expression)>,
}

impl Terms {
    fn sum(&self, forces: bool) -> Option<Expression> {
        let mut terms = if forces { self.forces.clone() } else { self.moments.clone() };
        terms.sort_by(|a, b| a.0.total_cmp(&b.0));
        (!terms.is_empty()).then(|| Expression::sum(terms.into_iter().map(|(_, term)| term).collect()))
    }
}
