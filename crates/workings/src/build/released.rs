//! The released beam of the force method: held in two ways only, under its loads or under a unit of one redundant.
//!
//! Its reactions follow from balance. Positive as everywhere: up, and counter-clockwise.

use super::balance::{Reactions, signed};
use super::beam_givens::{BeamGivens, HoldGiven, LoadKind};
use super::builder::{Builder, Entry};
use super::diagrams::Key;
use super::released_moment::{Place, Point};
use crate::dimension::Dimension;
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::role::Role;
use crate::working::{Chapter, Id};
use mechanics::beam::{Freedom, Redundant};
use std::collections::BTreeMap;

pub(super) const CHAPTER: Chapter = Chapter::Reactions;

/// How the index of a symbol names the loads.
pub(super) const LOADS: &str = "0";

/// What the released beam is under.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Case {
    /// Its loads.
    Loads,
    /// A unit of this redundant alone: a force of 1 up, or a couple of 1 counter-clockwise.
    Unit(usize),
}

/// One way in which the released beam is still held.
#[derive(Clone, Copy)]
pub(super) struct Held {
    pub(super) support: usize,
    pub(super) against: Freedom,
    pub(super) by: HoldGiven,
    pub(super) station: Id,
}

/// The released beam, with what has been found of it so far.
pub(super) struct Released<'a> {
    pub(super) beam: &'a BeamGivens,
    pub(super) redundants: &'a [Redundant],
    /// The stations between which its moments have one law each, from left to right.
    pub(super) keys: Vec<Key>,
    pub(super) held: [Held; 2],
    reactions: BTreeMap<(Case, usize), Id>,
    pub(super) moments: BTreeMap<(Case, Place), Id>,
    /// Said once, with the first working.
    opening: Option<String>,
}

/// What acts on a part of the beam beside a station.
#[derive(Clone, Copy)]
pub(super) enum Act {
    /// One of the two ways in which the beam is held.
    Held(usize),
    Force {
        station: Id,
        down: Id,
    },
    Couple {
        station: Id,
        ccw: Id,
    },
    Spread(usize),
    /// The unit itself.
    Unit {
        station: Id,
        against: Freedom,
    },
}

impl Builder<'_> {
    /// The released beam; none where it is hinged, for then its pieces would have to be balanced one by one.
    pub(super) fn released<'a>(
        &mut self,
        beam: &'a BeamGivens,
        redundants: &'a [Redundant],
    ) -> Result<Option<Released<'a>>, EvaluationError> {
        if !beam.hinges.is_empty() {
            return Ok(None);
        }
        let mut held = Vec::with_capacity(2);
        for (of, support) in beam.supports.iter().enumerate() {
            for (by, against) in
                [(support.transverse, Freedom::Transverse), (support.rotation, Freedom::Rotation)]
            {
                let gone = redundants.iter().any(|one| one.support == of && one.against == against);
                if by.holds() && !gone {
                    held.push(Held { support: of, against, by, station: support.station });
                }
            }
        }
        let &[one, other] = held.as_slice() else { return Ok(None) };
        let supports = beam.supports.len();
        let none = Reactions { forces: vec![None; supports], couples: vec![None; supports] };
        let keys = self.keys(beam, &none)?;
        let opening = Some(opening(beam, redundants));
        Ok(Some(Released {
            beam,
            redundants,
            keys,
            held: [one, other],
            reactions: BTreeMap::new(),
            moments: BTreeMap::new(),
            opening,
        }))
    }

    /// The reaction of one of the two ways in which the beam is held; none where it is zero by its nature.
    pub(super) fn released_reaction(
        &mut self,
        released: &mut Released<'_>,
        case: Case,
        of: usize,
    ) -> Result<Option<Id>, EvaluationError> {
        if let Some(known) = released.reactions.get(&(case, of)) {
            return Ok(Some(*known));
        }
        let (held, other) = (released.held[of], released.held[1 - of]);
        let moments = held.against == Freedom::Rotation || other.against == Freedom::Transverse;
        // Moments about the station of the other force; its arm and those of the loads are measured from there towards this one.
        let (own, about) = (self.value(held.station), self.value(other.station));
        let rightward = own > about || (own == about && about == 0.0);
        let arm = |builder: &Self, station: Id| match rightward {
            true => builder.difference(station, other.station),
            false => builder.difference(other.station, station),
        };
        let couples = if rightward { -1.0 } else { 1.0 };
        let mut terms = Vec::new();
        for act in self.acts(released, case) {
            match act {
                Act::Held(_) => {}
                Act::Force { station, down } if moments => {
                    terms.push(Expression::from(down) * arm(self, station));
                }
                Act::Force { down, .. } => terms.push(down.into()),
                Act::Couple { ccw, .. } if moments => terms.push(signed(couples, ccw.into())),
                Act::Spread(load) => {
                    if let Some((from, to, down)) = uniform(released.beam, load) {
                        terms.push(match moments {
                            true => self.uniform_moment(
                                (from, to, down),
                                Point::Station(other.station),
                                !rightward,
                            ),
                            false => Expression::from(down) * self.difference(to, from),
                        });
                        continue;
                    }
                    for whole in self.whole_resultants(released.beam, load, CHAPTER)? {
                        terms.push(match moments {
                            true => Expression::from(whole.down) * arm(self, whole.place),
                            false => whole.down.into(),
                        });
                    }
                }
                Act::Unit { station, against: Freedom::Transverse } if moments => {
                    terms.push(-arm(self, station));
                }
                Act::Unit { against: Freedom::Transverse, .. } => terms.push(-Expression::from(1.0)),
                Act::Unit { .. } if moments => terms.push(signed(couples, 1.0.into())),
                Act::Couple { .. } | Act::Unit { .. } => {}
            }
        }
        if terms.is_empty() {
            return Ok(None);
        }
        let sum = Expression::sum(terms);
        let formula = match (held.against, moments) {
            (Freedom::Transverse, true) => match sum {
                Expression::Negative(sum) => -(*sum / arm(self, held.station)),
                sum => sum / arm(self, held.station),
            },
            (Freedom::Transverse, false) => sum,
            // The couple turns against what the loads do: counter-clockwise where they stand to the right.
            (Freedom::Rotation, _) => signed(-couples, sum),
        };
        let entry = self.released_entry(released, case, of, moments);
        let id = self.formula(entry, formula)?;
        released.reactions.insert((case, of), id);
        Ok(Some(id))
    }

    fn released_entry(&self, released: &mut Released<'_>, case: Case, of: usize, moments: bool) -> Entry {
        let (held, other) = (released.held[of], released.held[1 - of]);
        let beam = released.beam;
        let name = &beam.supports[held.support].name;
        let about = &released.beam.supports[other.support].name;
        let (role, what) = match held.against {
            Freedom::Transverse => (Role::Reaction, "reaction"),
            Freedom::Rotation => (Role::ReactionCouple, "couple"),
        };
        let (under, cause) = match case {
            Case::Loads => (String::new(), LOADS.to_owned()),
            Case::Unit(unit) => (format!(" under {}", released.unit_words(unit)), released.unit_index(unit)),
        };
        let loads = match case {
            Case::Loads => " under its loads".to_owned(),
            Case::Unit(_) => format!("{under} alone"),
        };
        let balance = match moments {
            true => format!("balance of moments about {about}"),
            false => "balance of the vertical forces".to_owned(),
        };
        let says = format!("The {what} of the released beam at {name}{loads}: {balance}.");
        Entry::new(
            CHAPTER,
            role,
            &place_and_cause(name, &cause),
            format!("{what} of the released beam at {name}{under}"),
        )
        .at(self.value(held.station), None)
        .says(released.opened(says))
    }

    /// All that acts on the released beam.
    pub(super) fn acts(&self, released: &Released<'_>, case: Case) -> Vec<Act> {
        let mut acts = vec![Act::Held(0), Act::Held(1)];
        match case {
            Case::Unit(unit) => acts.extend(released.redundants.get(unit).map(|redundant| Act::Unit {
                station: released.beam.supports[redundant.support].station,
                against: redundant.against,
            })),
            Case::Loads => {
                acts.extend(released.beam.loads.iter().enumerate().map(|(place, load)| match load.kind {
                    LoadKind::Force { station, down } => Act::Force { station, down },
                    LoadKind::Couple { station, ccw } => Act::Couple { station, ccw },
                    LoadKind::Spread { .. } => Act::Spread(place),
                }));
            }
        }
        acts
    }
}

impl Released<'_> {
    /// A sentence, with the opening before the first.
    pub(super) fn opened(&mut self, says: String) -> String {
        match self.opening.take() {
            Some(opening) => format!("{opening} {says}"),
            None => says,
        }
    }

    /// The dimension of something under a case, where under the loads it has this one.
    pub(super) fn dimension(&self, case: Case, under_loads: Dimension) -> Dimension {
        let Case::Unit(unit) = case else { return under_loads };
        let of = self.redundants.get(unit).map_or(Dimension::NONE, |unit| unit_dimension(unit.against));
        under_loads.over(of).unwrap_or(under_loads)
    }

    /// A unit of a redundant in words: `a unit at B`.
    pub(super) fn unit_words(&self, unit: usize) -> String {
        let Some(redundant) = self.redundants.get(unit) else { return String::new() };
        unit_words(self.beam, redundant)
    }

    /// How the index of a symbol names a unit: `B`.
    pub(super) fn unit_index(&self, unit: usize) -> String {
        let Some(redundant) = self.redundants.get(unit) else { return String::new() };
        unit_index(self.beam, redundant)
    }
}

/// A unit of a redundant in words: `a unit at B`, `a unit couple at B`.
pub(super) fn unit_words(beam: &BeamGivens, redundant: &Redundant) -> String {
    let name = &beam.supports[redundant.support].name;
    match redundant.against {
        Freedom::Transverse => format!("a unit at {name}"),
        Freedom::Rotation => format!("a unit couple at {name}"),
    }
}

/// How the index of a symbol names a unit: `B`, `couple B`.
pub(super) fn unit_index(beam: &BeamGivens, redundant: &Redundant) -> String {
    let name = &beam.supports[redundant.support].name;
    match redundant.against {
        Freedom::Transverse => name.clone(),
        Freedom::Rotation => format!("couple {name}"),
    }
}

/// The dimension of a redundant.
pub(super) fn unit_dimension(against: Freedom) -> Dimension {
    match against {
        Freedom::Transverse => Dimension::FORCE,
        Freedom::Rotation => Dimension::MOMENT,
    }
}

/// The ends of a spread load and its intensity, where it is the same all along.
pub(super) fn uniform(beam: &BeamGivens, load: usize) -> Option<(Id, Id, Id)> {
    match beam.loads.get(load)?.kind {
        LoadKind::Spread { from, to, down_from, down_to } if down_from == down_to => {
            Some((from, to, down_from))
        }
        _ => None,
    }
}

/// Where, then from what: `B0`, `BB`; names of more than a letter stand apart.
pub(super) fn place_and_cause(place: &str, cause: &str) -> String {
    match is_letter(place) && is_letter(cause) {
        true => format!("{place}{cause}"),
        false => format!("{place}, {cause}"),
    }
}

pub(super) fn is_letter(name: &str) -> bool {
    name.chars().count() == 1
}

/// What the released beam is, and how its symbols tell what they are.
fn opening(beam: &BeamGivens, redundants: &[Redundant]) -> String {
    let (mut taken, mut causes) = (Vec::new(), Vec::new());
    for redundant in redundants {
        let name = &beam.supports[redundant.support].name;
        let index = unit_index(beam, redundant);
        let (holds, unit) = match redundant.against {
            Freedom::Transverse => (format!("the support at {name}"), "a force of 1 up"),
            Freedom::Rotation => {
                (format!("what keeps it from turning at {name}"), "a couple of 1 counter-clockwise")
            }
        };
        // Both ways in which one support holds are the support itself.
        let alone = redundant.against == Freedom::Transverse
            || redundants
                .iter()
                .all(|other| other.support != redundant.support || other.against == redundant.against);
        taken.extend(alone.then_some(holds));
        causes.push(format!("{index} for {unit} at {name} alone"));
    }
    format!(
        "Without {} the beam is determinate: that is the released beam. Of the two indices of a symbol the first tells where, \
         the second what acts: 0 for the loads, {}. A moment under such a unit has a bar.",
        taken.join(" and "),
        causes.join(", ")
    )
}
