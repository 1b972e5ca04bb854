//! Reactions of a determinate beam: the balance of each piece between hinges, one unknown after the other.

use super::beam_givens::{BeamGivens, LoadKind};
use super::builder::{Builder, Entry, zero};
use super::names::{with_below, with_the};
use super::resultants::{PlaceAs, Stretch, joined};
use crate::dimension::Dimension;
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::role::Role;
use crate::working::{Chapter, Id};
use mechanics::beam::{Freedom, Redundant};

/// The workings of the reactions, by support; `None` where the support does not hold the beam so.
#[derive(Clone, Debug, Default)]
pub(crate) struct Reactions {
    pub(crate) forces: Vec<Option<Id>>,
    pub(crate) couples: Vec<Option<Id>>,
}

impl Reactions {
    /// Sets a redundant's reaction.
    pub(crate) fn set(&mut self, redundant: &Redundant, id: Id) {
        match redundant.against {
            Freedom::Transverse => self.forces[redundant.support] = Some(id),
            Freedom::Rotation => self.couples[redundant.support] = Some(id),
        }
    }
}

/// A reaction found from a balance of moments.
#[derive(Clone, Copy, Debug)]
pub(crate) struct MomentBalance {
    /// The reaction.
    pub(crate) unknown: Id,
    /// The station of the point about which the moments are taken.
    pub(crate) about: Id,
}

#[derive(Clone, Copy, PartialEq)]
enum Target {
    Force(usize),
    /// The force in a hinge, up on the piece to its right: V there.
    Hinge(usize),
}

/// A force up on a piece: `sign` times the unknown or known value.
#[derive(Clone, Copy)]
struct Up {
    sign: f64,
    target: Target,
    station: Id,
}

struct LoadOnPiece {
    down: Id,
    station: Id,
    words: String,
    /// The index of its arm.
    mark: String,
}

#[derive(Default)]
struct Piece {
    ups: Vec<Up>,
    holding_couples: Vec<usize>,
    loads: Vec<LoadOnPiece>,
    couples: Vec<Id>,
    words: String,
    solved: bool,
}

const CHAPTER: Chapter = Chapter::Reactions;

impl Builder<'_> {
    /// The reactions that follow from balance alone, given those that are known already.
    ///
    /// `None` where the pieces cannot be balanced one after the other.
    pub(crate) fn balance(
        &mut self,
        beam: &BeamGivens,
        known: &Reactions,
    ) -> Result<Option<Reactions>, EvaluationError> {
        let mut pieces = self.pieces(beam)?;
        let mut found = known.clone();
        let mut hinge_forces: Vec<Option<Id>> = vec![None; beam.hinges.len()];
        for _ in 0..pieces.len() {
            let next = pieces.iter().position(|piece| {
                let unknown = piece
                    .ups
                    .iter()
                    .filter(|up| value_of(up.target, &found, &hinge_forces).is_none())
                    .count()
                    + piece.holding_couples.iter().filter(|&&of| found.couples[of].is_none()).count();
                !piece.solved && unknown <= 2
            });
            let Some(next) = next else { return Ok(None) };
            pieces[next].solved = true;
            if !self.balance_piece(beam, &pieces[next], &mut found, &mut hinge_forces)? {
                return Ok(None);
            }
        }
        Ok(Some(found))
    }

    fn piece_of(&self, beam: &BeamGivens, station: f64) -> usize {
        beam.hinges
            .iter()
            .filter(|&&hinge| {
                let hinge = self.value(hinge);
                station > hinge || self.same_station(station, hinge)
            })
            .count()
    }

    fn pieces(&mut self, beam: &BeamGivens) -> Result<Vec<Piece>, EvaluationError> {
        let count = beam.hinges.len() + 1;
        let mut pieces: Vec<Piece> = (0..count).map(|_| Piece::default()).collect();
        for (place, piece) in pieces.iter_mut().enumerate() {
            piece.words = if count == 1 {
                "the whole beam".into()
            } else {
                format!("piece {} (from the left)", place + 1)
            };
        }
        for (at, &station) in beam.hinges.iter().enumerate() {
            pieces[at].ups.push(Up { sign: -1.0, target: Target::Hinge(at), station });
            pieces[at + 1].ups.push(Up { sign: 1.0, target: Target::Hinge(at), station });
        }
        for (of, support) in beam.supports.iter().enumerate() {
            let piece = self.piece_of(beam, self.value(support.station));
            if support.transverse.holds() {
                pieces[piece].ups.push(Up { sign: 1.0, target: Target::Force(of), station: support.station });
            }
            if support.rotation.holds() {
                pieces[piece].holding_couples.push(of);
            }
        }
        for (place, load) in beam.loads.iter().enumerate() {
            match load.kind {
                LoadKind::Force { station, down } => {
                    let piece = self.piece_of(beam, self.value(station));
                    let words = load.words.clone();
                    let mark = load.mark.clone();
                    pieces[piece].loads.push(LoadOnPiece { down, station, words, mark });
                }
                LoadKind::Couple { station, ccw } => {
                    let piece = self.piece_of(beam, self.value(station));
                    pieces[piece].couples.push(ccw);
                }
                LoadKind::Spread { from, to, down_from, down_to } => {
                    let whole = Stretch {
                        chapter: CHAPTER,
                        load: place,
                        words: &load.words,
                        which: "",
                        index: &load.index,
                        from,
                        to,
                        down_from,
                        down_to,
                    };
                    let stretches = self.by_piece(beam, whole, &load.symbol)?;
                    let alone = stretches.len() == 1;
                    for (piece, stretch) in stretches {
                        let resultants = match alone {
                            true => self.whole_resultants(beam, place, CHAPTER)?,
                            false => self.resultants(&stretch.borrowed(), PlaceAs::Station)?,
                        };
                        let count = if alone { String::new() } else { (piece + 1).to_string() };
                        let mark = joined(&load.mark, &count);
                        for resultant in resultants {
                            pieces[piece].loads.push(LoadOnPiece {
                                down: resultant.down,
                                station: resultant.place,
                                words: self.workings.working(resultant.down).name.clone(),
                                mark: joined(&mark, resultant.figure),
                            });
                        }
                    }
                }
            }
        }
        Ok(pieces)
    }

    /// A spread load that runs over hinges is cut there.
    fn by_piece(
        &mut self,
        beam: &BeamGivens,
        whole: Stretch<'_>,
        symbol: &str,
    ) -> Result<Vec<(usize, OwnedStretch)>, EvaluationError> {
        let (start, end) = (self.value(whole.from), self.value(whole.to));
        let inside: Vec<(usize, Id)> = beam
            .hinges
            .iter()
            .copied()
            .enumerate()
            .filter(|&(_, hinge)| {
                let hinge = self.value(hinge);
                hinge > start
                    && hinge < end
                    && !self.same_station(hinge, start)
                    && !self.same_station(hinge, end)
            })
            .collect();
        let first_piece = self.piece_of(beam, start);
        let (mut from, mut down_from) = (whole.from, whole.down_from);
        let mut stretches = Vec::with_capacity(inside.len() + 1);
        for (count, &(_, hinge)) in inside.iter().enumerate() {
            let down = if whole.down_from == whole.down_to {
                whole.down_from
            } else {
                let at_hinge =
                    self.intensity_at(hinge, (whole.from, whole.to), (whole.down_from, whole.down_to));
                let name = self.workings.working(hinge).name.replacen("station of ", "", 1);
                self.formula(
                    Entry::new(
                        CHAPTER,
                        Role::SpreadLoad,
                        &with_below(&self.letters.spread, symbol, &name.replacen("the ", "", 1)),
                        format!("intensity of {} at {name}", whole.words),
                    )
                    .at(self.value(hinge), None)
                    .says("The load is cut at the hinge; this is its intensity there."),
                    at_hinge,
                )?
            };
            let place = first_piece + count;
            stretches.push((place, OwnedStretch::of(&whole, place, (from, hinge), (down_from, down))));
            (from, down_from) = (hinge, down);
        }
        let place = first_piece + inside.len();
        let last = if inside.is_empty() {
            OwnedStretch::whole(&whole)
        } else {
            OwnedStretch::of(&whole, place, (from, whole.to), (down_from, whole.down_to))
        };
        stretches.push((place, last));
        Ok(stretches)
    }

    /// Finds the unknowns of one piece, at most two, from its balance; whether that was possible.
    fn balance_piece(
        &mut self,
        beam: &BeamGivens,
        piece: &Piece,
        found: &mut Reactions,
        hinge_forces: &mut [Option<Id>],
    ) -> Result<bool, EvaluationError> {
        let mut open: Vec<Up> = piece
            .ups
            .iter()
            .copied()
            .filter(|up| value_of(up.target, found, hinge_forces).is_none())
            .collect();
        open.sort_by(|a, b| self.value(a.station).total_cmp(&self.value(b.station)));
        let turning: Vec<usize> =
            piece.holding_couples.iter().copied().filter(|&of| found.couples[of].is_none()).collect();
        match (open.as_slice(), turning.as_slice()) {
            ([first, second], []) => {
                if self.same_station(self.value(first.station), self.value(second.station)) {
                    return Ok(false);
                }
                let id = self.force_from_moments(beam, piece, *first, *second, found, hinge_forces)?;
                set(first.target, id, found, hinge_forces);
                let id = self.force_from_forces(beam, piece, *second, found, hinge_forces)?;
                set(second.target, id, found, hinge_forces);
            }
            ([only], turning) => {
                let id = self.force_from_forces(beam, piece, *only, found, hinge_forces)?;
                set(only.target, id, found, hinge_forces);
                if let &[of] = turning {
                    let id = self.couple_from_moments(beam, piece, of, found, hinge_forces)?;
                    found.couples[of] = Some(id);
                }
            }
            ([], &[of]) => {
                let id = self.couple_from_moments(beam, piece, of, found, hinge_forces)?;
                found.couples[of] = Some(id);
            }
            ([], []) => {}
            _ => return Ok(false),
        }
        Ok(true)
    }

    /// `R = (sum of W a + couples) / l`: moments about the other unknown's station.
    fn force_from_moments(
        &mut self,
        beam: &BeamGivens,
        piece: &Piece,
        unknown: Up,
        about: Up,
        found: &Reactions,
        hinge_forces: &[Option<Id>],
    ) -> Result<Id, EvaluationError> {
        let (name, about_name) =
            (self.station_words(beam, unknown.target), self.station_words(beam, about.target));
        let distance = self.difference(about.station, unknown.station);
        let distance = self.formula(
            Entry::new(
                CHAPTER,
                Role::Distance,
                &format!("{name}{about_name}").replace("the hinge", "h").replace("hinge ", "h"),
                format!("distance from {name} to {about_name}"),
            )
            .says(format!("The arm of the unknown force at {name} about {about_name}.")),
            distance,
        )?;
        let mut terms = Vec::new();
        for load in &piece.loads {
            let arm = self.arm((&load.words, &load.mark), load.station, about.station, &about_name)?;
            terms.extend(arm.map(|arm| Expression::from(load.down) * arm.into()));
        }
        for up in &piece.ups {
            if up.target == unknown.target || up.target == about.target {
                continue;
            }
            let Some(force) = value_of(up.target, found, hinge_forces) else { continue };
            let words = self.workings.working(force).name.clone();
            let mark = self.workings.working(force).symbol.index.clone();
            let arm = self.arm((&words, &mark), up.station, about.station, &about_name)?;
            terms.extend(arm.map(|arm| signed(-up.sign, Expression::from(force) * arm.into())));
        }
        terms.extend(piece.couples.iter().map(|&couple| Expression::from(couple)));
        let held = piece.holding_couples.iter().filter_map(|&of| found.couples[of]);
        terms.extend(held.map(Expression::from));
        let sum = if terms.is_empty() {
            zero(Dimension::FORCE, Role::Reaction)
        } else {
            Expression::sum(terms) / distance.into()
        };
        let entry = self.force_entry(beam, unknown.target).says(format!(
            "Balance of moments of {} about {about_name}, where the other unknown force has no arm.",
            piece.words
        ));
        let force = self.formula(entry, signed(unknown.sign, sum))?;
        self.moment_balances.push(MomentBalance { unknown: force, about: about.station });
        Ok(force)
    }

    /// `R = sum of W - other forces up`: balance of the vertical forces.
    fn force_from_forces(
        &mut self,
        beam: &BeamGivens,
        piece: &Piece,
        unknown: Up,
        found: &Reactions,
        hinge_forces: &[Option<Id>],
    ) -> Result<Id, EvaluationError> {
        let mut terms: Vec<Expression> = piece.loads.iter().map(|load| load.down.into()).collect();
        for up in &piece.ups {
            if up.target != unknown.target
                && let Some(force) = value_of(up.target, found, hinge_forces)
            {
                terms.push(signed(-up.sign, force.into()));
            }
        }
        let sum =
            if terms.is_empty() { zero(Dimension::FORCE, Role::Reaction) } else { Expression::sum(terms) };
        let entry = self.force_entry(beam, unknown.target).says(format!(
            "Balance of the vertical forces on {}: what the loads press down, the supports must hold up.",
            piece.words
        ));
        self.formula(entry, signed(unknown.sign, sum))
    }

    /// The couple of a fixed or guided support: moments about its own station.
    fn couple_from_moments(
        &mut self,
        beam: &BeamGivens,
        piece: &Piece,
        of: usize,
        found: &Reactions,
        hinge_forces: &[Option<Id>],
    ) -> Result<Id, EvaluationError> {
        let (name, station) = (beam.supports[of].name.clone(), beam.supports[of].station);
        let at = self.value(station);
        // Arms are measured towards the side on which most of the piece lies, so that they come out positive.
        let rightward = piece.loads.iter().map(|load| self.value(load.station) - at).sum::<f64>() >= 0.0;
        let toward = if rightward { 1.0 } else { -1.0 };
        let mut terms = Vec::new();
        let arm_of = |builder: &mut Self, named: (&str, &str), from: Id| {
            let (a, b) = if rightward { (station, from) } else { (from, station) };
            builder.arm_between(named, (a, b), (&name, from))
        };
        for load in &piece.loads {
            let arm = arm_of(self, (&load.words, &load.mark), load.station)?;
            terms.extend(arm.map(|arm| signed(toward, Expression::from(load.down) * arm.into())));
        }
        for up in &piece.ups {
            let Some(force) = value_of(up.target, found, hinge_forces) else { continue };
            let words = self.workings.working(force).name.clone();
            let mark = self.workings.working(force).symbol.index.clone();
            let arm = arm_of(self, (&words, &mark), up.station)?;
            terms.extend(arm.map(|arm| signed(-toward * up.sign, Expression::from(force) * arm.into())));
        }
        terms.extend(piece.couples.iter().map(|&couple| -Expression::from(couple)));
        let held = piece.holding_couples.iter().filter(|&&other| other != of);
        let held: Vec<Id> = held.filter_map(|&other| found.couples[other]).collect();
        terms.extend(held.into_iter().map(|couple| -Expression::from(couple)));
        let sum = if terms.is_empty() {
            zero(Dimension::MOMENT, Role::ReactionCouple)
        } else {
            Expression::sum(terms)
        };
        let entry = Entry::new(CHAPTER, Role::ReactionCouple, &name, format!("couple at {name}"))
            .at(at, None)
            .says(format!(
                "Balance of moments of {} about {name}: the support must hold it against turning (positive \
                 counter-clockwise).",
                piece.words
            ));
        let couple = self.formula(entry, sum)?;
        self.moment_balances.push(MomentBalance { unknown: couple, about: station });
        Ok(couple)
    }

    /// The arm of a force about a point to its right; none where the force passes through the point.
    fn arm(
        &mut self,
        named: (&str, &str),
        station: Id,
        about: Id,
        about_name: &str,
    ) -> Result<Option<Id>, EvaluationError> {
        self.arm_between(named, (station, about), (about_name, station))
    }

    fn arm_between(
        &mut self,
        (words, mark): (&str, &str),
        (from, to): (Id, Id),
        (about_name, station): (&str, Id),
    ) -> Result<Option<Id>, EvaluationError> {
        if self.same_station(self.value(from), self.value(to)) {
            return Ok(None);
        }
        let arm = self.difference(to, from);
        let mut says = format!("The arm of {} about {about_name}.", with_the(words));
        if self.value(to) < self.value(from) {
            says.pop();
            says.push_str("; negative, for it stands on the other side and turns the other way.");
        }
        let entry = Entry::new(CHAPTER, Role::Distance, mark, format!("arm of {words} about {about_name}"))
            .at(self.value(station), None)
            .says(says);
        self.formula(entry, arm).map(Some)
    }

    fn station_words(&self, beam: &BeamGivens, target: Target) -> String {
        match target {
            Target::Force(of) => beam.supports[of].name.clone(),
            Target::Hinge(at) => self.workings.working(beam.hinges[at]).name.replacen("station of ", "", 1),
        }
    }

    fn force_entry(&self, beam: &BeamGivens, target: Target) -> Entry {
        let words = self.station_words(beam, target);
        match target {
            Target::Force(of) => Entry::new(CHAPTER, Role::Reaction, &words, format!("reaction at {words}"))
                .at(self.value(beam.supports[of].station), None),
            Target::Hinge(at) => {
                let index = self.workings.working(beam.hinges[at]).symbol.index.clone();
                // What the left piece pushes up on the right one with.
                Entry::new(CHAPTER, Role::Reaction, &index, format!("force in {words}"))
                    .at(self.value(beam.hinges[at]), None)
            }
        }
    }
}

fn value_of(target: Target, found: &Reactions, hinge_forces: &[Option<Id>]) -> Option<Id> {
    match target {
        Target::Force(of) => found.forces[of],
        Target::Hinge(at) => hinge_forces[at],
    }
}

fn set(target: Target, id: Id, found: &mut Reactions, hinge_forces: &mut [Option<Id>]) {
    match target {
        Target::Force(of) => found.forces[of] = Some(id),
        Target::Hinge(at) => hinge_forces[at] = Some(id),
    }
}

/// An expression, or its negative where the sign is.
pub(super) fn signed(sign: f64, expression: Expression) -> Expression {
    if sign < 0.0 { -expression } else { expression }
}

/// A stretch that owns its words.
struct OwnedStretch {
    load: usize,
    words: String,
    which: String,
    index: String,
    ends: (Id, Id),
    down: (Id, Id),
}

impl OwnedStretch {
    fn whole(of: &Stretch<'_>) -> Self {
        Self {
            load: of.load,
            words: of.words.to_owned(),
            which: String::new(),
            index: of.index.to_owned(),
            ends: (of.from, of.to),
            down: (of.down_from, of.down_to),
        }
    }

    fn of(whole: &Stretch<'_>, piece: usize, ends: (Id, Id), down: (Id, Id)) -> Self {
        Self {
            which: format!("on piece {}", piece + 1),
            index: joined(whole.index, &(piece + 1).to_string()),
            ends,
            down,
            ..Self::whole(whole)
        }
    }

    fn borrowed(&self) -> Stretch<'_> {
        Stretch {
            chapter: CHAPTER,
            load: self.load,
            words: &self.words,
            which: &self.which,
            index: &self.index,
            from: self.ends.0,
            to: self.ends.1,
            down_from: self.down.0,
            down_to: self.down.1,
        }
    }
}
