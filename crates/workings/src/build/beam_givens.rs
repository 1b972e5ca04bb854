//! What the lesson gives of the beam: lengths, supports, loads, the slice's place.

use super::builder::{Builder, Entry};
use super::names::{index_of, is_number, with_below};
use crate::dimension::Dimension;
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::problem::SupportKind;
use crate::role::Role;
use crate::working::{Chapter, Id};
use mechanics::beam::{Hold, Load};

/// The workings of a support's givens.
#[derive(Clone, Debug)]
pub(crate) struct SupportGiven {
    pub(crate) name: String,
    pub(crate) station: Id,
    pub(crate) transverse: HoldGiven,
    pub(crate) rotation: HoldGiven,
}

/// How one degree of freedom is held, with the working of its stiffness or movement.
#[derive(Clone, Copy, Debug)]
pub(crate) enum HoldGiven {
    Free,
    Still,
    Moved(Id),
    Spring(Id),
}

impl HoldGiven {
    pub(crate) fn holds(self) -> bool {
        !matches!(self, Self::Free)
    }
}

/// The workings of a load's givens.
#[derive(Clone, Debug)]
pub(crate) struct LoadGiven {
    /// `force P`, `spread load 1`.
    pub(crate) words: String,
    /// The index of what is made from it: its resultant, its arm.
    pub(crate) index: String,
    /// The index of its arms: its name, or words for it.
    pub(crate) mark: String,
    /// Its name as far as its symbol shows it: empty where its letter stands alone.
    pub(crate) symbol: String,
    pub(crate) kind: LoadKind,
}

#[derive(Clone, Copy, Debug)]
pub(crate) enum LoadKind {
    Force { station: Id, down: Id },
    Couple { station: Id, ccw: Id },
    Spread { from: Id, to: Id, down_from: Id, down_to: Id },
}

/// All that is given of the beam.
#[derive(Clone, Debug)]
pub(crate) struct BeamGivens {
    pub(crate) length: Id,
    pub(crate) supports: Vec<SupportGiven>,
    /// Inside the beam, from left to right.
    pub(crate) hinges: Vec<Id>,
    pub(crate) loads: Vec<LoadGiven>,
    /// Where the reactions depend on it, or the deflection has a limit.
    pub(crate) rigidity: Option<Id>,
}

/// Where the flexural rigidity comes from.
pub(crate) enum Rigidity {
    /// Neither the reactions nor a limit depends on it.
    NotAsked,
    /// From the elastic modulus and the section.
    Product(Expression),
    /// As the beam has it.
    Given,
}

const GIVEN: Chapter = Chapter::Given;

impl Builder<'_> {
    /// Adds the beam's givens. `weight` gives the intensity of the self-weight as a formula, where there is one.
    pub(crate) fn beam_givens(
        &mut self,
        rigidity: Rigidity,
        weight: Option<Expression>,
    ) -> Result<BeamGivens, EvaluationError> {
        let problem = self.problem;
        let beam = &problem.beam;
        let length = self.given(
            Entry::new(GIVEN, Role::Length, "", "length of the beam").says("The length of the beam."),
            beam.length,
            Dimension::LENGTH,
        )?;
        let entry = Entry::new(GIVEN, Role::FlexuralRigidity, "", "flexural rigidity");
        let rigidity = match rigidity {
            Rigidity::NotAsked => None,
            Rigidity::Product(product) => {
                let says = "The flexural rigidity E I: what the beam sets against bending.";
                Some(self.formula(entry.says(says), product)?)
            }
            Rigidity::Given => {
                let value = beam.flexural_rigidity;
                Some(self.given(
                    entry.says("The flexural rigidity, as given."),
                    value,
                    Dimension::RIGIDITY,
                )?)
            }
        };
        let mut supports = Vec::with_capacity(beam.supports.len());
        for (place, support) in beam.supports.iter().enumerate() {
            let label = problem.supports.get(place);
            let name = label.map_or_else(|| (place + 1).to_string(), |label| label.name.clone());
            let kind = label.map_or("support", |label| kind_words(label.kind));
            let station = self.given(
                Entry::new(GIVEN, Role::Station, &name, format!("station of {name}"))
                    .at(support.station, None)
                    .says(format!("The {kind} {name} stands here, measured from the left end.")),
                support.station,
                Dimension::LENGTH,
            )?;
            let transverse = self.hold_given(&name, support.transverse, true, support.station)?;
            let rotation = self.hold_given(&name, support.rotation, false, support.station)?;
            supports.push(SupportGiven { name, station, transverse, rotation });
        }
        let mut stations: Vec<f64> = beam.hinges.clone();
        stations.retain(|&station| {
            station > 0.0
                && station < beam.length
                && !self.same_station(station, 0.0)
                && !self.same_station(station, beam.length)
        });
        stations.sort_by(f64::total_cmp);
        stations.dedup_by(|a, b| self.same_station(*a, *b));
        let mut hinges = Vec::with_capacity(stations.len());
        for (place, &station) in stations.iter().enumerate() {
            let name = if stations.len() == 1 { "the hinge".into() } else { format!("hinge {}", place + 1) };
            let index = if stations.len() == 1 { "hinge".into() } else { format!("hinge {}", place + 1) };
            hinges.push(
                self.given(
                    Entry::new(GIVEN, Role::Station, &index, format!("station of {name}"))
                        .at(station, None)
                        .says("The beam is hinged here: no bending moment passes."),
                    station,
                    Dimension::LENGTH,
                )?,
            );
        }
        let mut loads = Vec::with_capacity(beam.loads.len());
        for place in 0..beam.loads.len() {
            loads.push(self.load_given(place, weight.as_ref())?);
        }
        Ok(BeamGivens { length, supports, hinges, loads, rigidity })
    }

    fn hold_given(
        &mut self,
        name: &str,
        hold: Hold,
        transverse: bool,
        station: f64,
    ) -> Result<HoldGiven, EvaluationError> {
        let what = if transverse { "" } else { ", turning" };
        Ok(match hold {
            Hold::Free => HoldGiven::Free,
            Hold::Rigid { moved: 0.0 } => HoldGiven::Still,
            Hold::Rigid { moved } => {
                let (dimension, role, says) = if transverse {
                    (Dimension::LENGTH, Role::Settlement, "moves by this much, up being positive")
                } else {
                    (Dimension::NONE, Role::Slope, "turns by this much, counter-clockwise being positive")
                };
                HoldGiven::Moved(
                    self.given(
                        Entry::new(GIVEN, role, name, format!("movement of {name}{what}"))
                            .at(station, None)
                            .says(format!("The support {name} {says}.")),
                        moved,
                        dimension,
                    )?,
                )
            }
            Hold::Spring { stiffness } => {
                let (dimension, index) = if transverse {
                    (Dimension::FORCE_PER_LENGTH, name.to_owned())
                } else {
                    (Dimension::MOMENT, format!("{name}, turning"))
                };
                HoldGiven::Spring(
                    self.given(
                        Entry::new(
                            GIVEN,
                            Role::SupportStiffness,
                            &index,
                            format!("stiffness of {name}{what}"),
                        )
                        .at(station, None)
                        .says(format!("The support {name} gives way as a spring of this stiffness.")),
                        stiffness,
                        dimension,
                    )?,
                )
            }
        })
    }

    fn load_given(
        &mut self,
        place: usize,
        weight: Option<&Expression>,
    ) -> Result<LoadGiven, EvaluationError> {
        let problem = self.problem;
        let load = problem.beam.loads[place];
        let label = problem.loads.get(place);
        let own_weight = label.is_some_and(|label| label.self_weight);
        let name = label.map_or_else(|| (place + 1).to_string(), |label| label.name.clone());
        let kind = |load: &Load| std::mem::discriminant(load);
        let others: Vec<&str> = problem
            .loads
            .iter()
            .zip(&problem.beam.loads)
            .filter(|(_, other)| kind(other) == kind(&load))
            .map(|(label, _)| label.name.as_str())
            .collect();
        let index = if own_weight { "self".to_owned() } else { index_of(&name, &others) };
        let index = if others.len() == 1 && is_number(&name) { String::new() } else { index };
        // The load's own symbol: the notation writes the lecturer's name as it is.
        let symbol =
            if own_weight || index.is_empty() && is_number(&name) { index.clone() } else { name.clone() };
        let letter = match load {
            Load::Force { .. } => self.letters.force.as_str(),
            // The letter of a couple is often that of a support.
            Load::Couple { .. } => "couple",
            Load::Spread { .. } => self.letters.spread.as_str(),
        };
        let mark = match own_weight || is_number(&name) {
            true => format!("{letter}{index}"),
            false => name.clone(),
        };
        let plain = match load {
            Load::Force { .. } => "force",
            Load::Couple { .. } => "couple",
            Load::Spread { .. } => "spread load",
        };
        let words = if own_weight {
            "the self-weight".to_owned()
        } else if others.len() == 1 && is_number(&name) {
            format!("the {plain}")
        } else {
            format!("{plain} {name}")
        };
        let station_index = mark.clone();
        let at = |builder: &mut Self, station: f64, words: String, index: String, says: &str| {
            builder.given(
                Entry::new(GIVEN, Role::Station, &index, words).at(station, None).says(says),
                station,
                Dimension::LENGTH,
            )
        };
        let kind = match load {
            Load::Force { station, down } => {
                let entry = Entry::new(GIVEN, Role::PointForce, &symbol, words.clone())
                    .at(station, None)
                    .says("A point force, positive down.");
                let down = self.given(entry, down, Dimension::FORCE)?;
                let says = "The force stands here, measured from the left end.";
                let station = at(self, station, format!("station of {words}"), station_index, says)?;
                LoadKind::Force { station, down }
            }
            Load::Couple { station, ccw } => {
                let entry = Entry::new(GIVEN, Role::Couple, &symbol, words.clone())
                    .at(station, None)
                    .says("An applied couple, positive counter-clockwise.");
                let ccw = self.given(entry, ccw, Dimension::MOMENT)?;
                let says = "The couple acts here, measured from the left end.";
                let station = at(self, station, format!("station of {words}"), station_index, says)?;
                LoadKind::Couple { station, ccw }
            }
            Load::Spread { from, to, down_from, down_to } => {
                let uniform = down_from == down_to;
                let entry = |name: String, index: String, station: Option<f64>, says: &str| {
                    let entry = Entry::new(GIVEN, Role::SpreadLoad, &index, name).says(says);
                    match station {
                        Some(station) => entry.at(station, None),
                        None => entry,
                    }
                };
                let (first, second) = if uniform {
                    let intensity = format!("intensity of {words}");
                    let one = match weight {
                        Some(weight) if own_weight => self.formula(
                            entry(
                                intensity,
                                symbol.clone(),
                                None,
                                "The beam's own weight per unit length: density times area times g.",
                            ),
                            weight.clone(),
                        )?,
                        _ => self.given(
                            entry(intensity, symbol.clone(), None, "A uniform load, positive down."),
                            down_from,
                            Dimension::FORCE_PER_LENGTH,
                        )?,
                    };
                    (one, one)
                } else {
                    let end = |which: &str| with_below(&self.letters.spread, &symbol, which);
                    let ends = [end("start"), end("end")];
                    let says = "The intensity runs in a straight line between its ends, positive down.";
                    let name = |which: &str| format!("intensity of {words} at its {which}");
                    (
                        self.given(
                            entry(name("start"), ends[0].clone(), Some(from), says),
                            down_from,
                            Dimension::FORCE_PER_LENGTH,
                        )?,
                        self.given(
                            entry(name("end"), ends[1].clone(), Some(to), says),
                            down_to,
                            Dimension::FORCE_PER_LENGTH,
                        )?,
                    )
                };
                let starts = "The load begins here, measured from the left end.";
                let from =
                    at(self, from, format!("start of {words}"), format!("{station_index}, start"), starts)?;
                let ends = "The load ends here, measured from the left end.";
                let to = at(self, to, format!("end of {words}"), format!("{station_index}, end"), ends)?;
                LoadKind::Spread { from, to, down_from: first, down_to: second }
            }
        };
        Ok(LoadGiven { words, index, mark, symbol, kind })
    }
}

fn kind_words(kind: SupportKind) -> &'static str {
    match kind {
        SupportKind::Pin => "pin",
        SupportKind::Roller => "roller",
        SupportKind::Fixed => "fixed support",
        SupportKind::Guided => "guided support",
        SupportKind::Spring => "spring",
    }
}
