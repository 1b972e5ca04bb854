//! When a graph that was built for one draw stands for another.
//!
//! The builder of a graph looks at the values as it goes: what stands left of the slice, where V changes its sign, which
//! moment is the largest. Where all that it looks at is the same for another draw, it would build the same graph, so it
//! is enough to evaluate this one. What it looks at of the section is told by the section's own print; the rest stands here.

use lesson::requirement::Test;
use std::collections::BTreeSet;
use workings::graph::Workings;
use workings::role::Role;
use workings::working::{Chapter, Formula, Id, Working};

/// Two stations nearer than this part of the beam's length are one, as the builder of the graph has it.
const SAME_STATION: f64 = 1e-12;

/// A force or a moment smaller than this part of the largest is zero,
const NOTHING: f64 = 1e-11;

/// and one larger than this is something; in between nothing is said, and the draw is solved.
const SOMETHING: f64 = 1e-7;

/// What must be the same.
#[derive(Clone, Debug, Default)]
pub(super) struct Guards {
    length: Option<Id>,
    /// Stations from left to right, with how each stands to the next.
    stations: Vec<(Id, Step)>,
    /// Inputs that vary, with their signs.
    signs: Vec<(Id, Sign)>,
    /// Spread loads that change along the beam: how the sizes at both ends compare, which decides into what parts the
    /// load is split.
    tapers: Vec<(Id, Id, std::cmp::Ordering)>,
    /// Shear forces, bending moments and load intensities, each kind with its signs.
    curves: Vec<Vec<(Id, Sign)>>,
    largest: Vec<Largest>,
    bending: Option<Bending>,
    /// Whether something is wanted for which the builder compares stresses of many places: no draw stands for another.
    governing: bool,
}

/// How a station stands to the next one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Step {
    Before,
    Same,
    Last,
}

/// The sign of a value; none where it is so small that it may be rounding or not.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Sign {
    Minus,
    Zero,
    Plus,
    Unsure,
}

impl Sign {
    fn exact(value: f64) -> Self {
        if value > 0.0 {
            Self::Plus
        } else if value < 0.0 {
            Self::Minus
        } else {
            Self::Zero
        }
    }

    fn beside(value: f64, scale: f64) -> Self {
        let size = value.abs();
        if size <= NOTHING * scale {
            Self::Zero
        } else if size >= SOMETHING * scale {
            Self::exact(value)
        } else {
            Self::Unsure
        }
    }
}

/// A largest value that takes over that of one working among others.
#[derive(Clone, Debug)]
struct Largest {
    winner: Id,
    among: Vec<Id>,
    by: By,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum By {
    Size,
    Most,
    Least,
}

impl By {
    fn of(self, value: f64) -> f64 {
        match self {
            By::Size => value.abs(),
            By::Most => value,
            By::Least => -value,
        }
    }
}

/// The largest bending stresses along the beam: which of the largest moments gives them at which fibre.
#[derive(Clone, Debug)]
struct Bending {
    /// What the distances of the top and of the bottom fibre are made of.
    fibres: [Vec<Id>; 2],
    moments: Vec<Id>,
    /// Fibre and moment of the largest tension and of the largest compression.
    winners: [(usize, usize); 2],
}

fn at(values: &[f64], id: Id) -> f64 {
    values.get(id.0 as usize).copied().unwrap_or(f64::NAN)
}

impl Guards {
    /// What must hold for the results and the requirements of a graph; `varying` are its inputs that vary.
    pub(super) fn new(
        workings: &Workings,
        varying: &[(Id, usize, usize)],
        wanted: &[Option<Id>],
        tests: &[Option<Test>],
    ) -> Self {
        let values = workings.values();
        let mut guards = Self { length: workings.id("length of the beam"), ..Self::default() };
        guards.signs = varying.iter().map(|&(id, ..)| (id, Sign::exact(at(values, id)))).collect();
        for (start, working) in
            workings.in_order().filter(|(_, working)| working.symbol.role == Role::SpreadLoad)
        {
            if let Some(end) = working
                .name
                .strip_suffix(" at its start")
                .and_then(|name| workings.id(&format!("{name} at its end")))
            {
                guards.tapers.push((start, end, at(values, start).abs().total_cmp(&at(values, end).abs())));
            }
        }
        let reads = wanted.iter().flatten().copied();
        let reads: Vec<Id> = reads.chain(tests.iter().flatten().flat_map(Test::reads)).collect();
        let cone = cone(workings, &reads);
        // A working that is not there, and a condition on the moments, hang on the whole diagrams.
        let missing = wanted.iter().any(Option::is_none)
            || tests.iter().any(|test| test.as_ref().is_none_or(|test| test.reads().is_empty()));
        let materials = workings.chapter(Chapter::Materials).next().is_some();
        guards.governing = cone.iter().any(|&id| {
            let working = workings.working(id);
            is_governing(working) || (materials && is_largest_stress(working))
        });
        let diagrams = missing || cone.iter().any(|&id| is_of_diagrams(workings.working(id)));
        guards.set_stations(workings, diagrams);
        if diagrams {
            guards.set_diagrams(workings);
        }
        let stresses = ["largest tension along the beam", "largest compression along the beam"];
        if missing || stresses.iter().any(|name| workings.id(name).is_some_and(|id| cone.contains(&id))) {
            guards.set_bending(workings);
        }
        guards
    }

    fn set_stations(&mut self, workings: &Workings, diagrams: bool) {
        let values = workings.values();
        let is_station = |working: &Working| match working.symbol.role {
            Role::Length => true,
            Role::Station => match working.formula {
                Formula::Given => true,
                _ => working.chapter == Chapter::Slice || diagrams,
            },
            _ => false,
        };
        let mut stations: Vec<Id> =
            workings.in_order().filter(|(_, working)| is_station(working)).map(|(id, _)| id).collect();
        stations.sort_by(|&a, &b| at(values, a).total_cmp(&at(values, b)));
        let steps: Vec<Step> = (0..stations.len()).map(|place| self.step(&stations, place, values)).collect();
        self.stations = stations.into_iter().zip(steps).collect();
    }

    fn step(&self, stations: &[Id], place: usize, values: &[f64]) -> Step {
        match stations.get(place + 1) {
            None => Step::Last,
            Some(&next) => {
                self.stands(at(values, stations[place]), at(values, next), values).unwrap_or(Step::Same)
            }
        }
    }

    /// How a station stands to another; `None` where it stands after it.
    fn stands(&self, one: f64, other: f64, values: &[f64]) -> Option<Step> {
        let near = SAME_STATION * self.length.map_or(1.0, |id| at(values, id));
        if (one - other).abs() <= near { Some(Step::Same) } else { (one < other).then_some(Step::Before) }
    }

    fn set_diagrams(&mut self, workings: &Workings) {
        let values = workings.values();
        for role in [Role::ShearForce, Role::BendingMoment, Role::SpreadLoad] {
            let of_role = |working: &Working| {
                working.symbol.role == role && !is_largest(&working.name) && working.chapter != Chapter::Slice
            };
            let ids: Vec<Id> =
                workings.in_order().filter(|(_, working)| of_role(working)).map(|(id, _)| id).collect();
            let scale = scale(ids.iter().copied(), values);
            let curve: Vec<(Id, Sign)> =
                ids.iter().map(|&id| (id, Sign::beside(at(values, id), scale))).collect();
            for (name, by) in
                LARGEST.iter().filter(|(_, _, of)| *of == role).map(|(name, by, _)| (*name, *by))
            {
                let winner = workings.id(name).and_then(|id| workings.reads(id).first().copied());
                if let Some(winner) = winner {
                    self.largest.push(Largest { winner, among: ids.clone(), by });
                }
            }
            self.curves.push(curve);
        }
    }

    fn set_bending(&mut self, workings: &Workings) {
        let values = workings.values();
        let fibre = |name: &str| -> Vec<Id> {
            let apart = ["bending moment at the slice", "second moment"].map(|name| workings.id(name));
            let reads = workings.id(name).map(|id| workings.reads(id)).unwrap_or_default();
            reads.into_iter().filter(|&id| !apart.contains(&Some(id))).collect()
        };
        let moments = ["largest sagging moment", "largest hogging moment"];
        let mut bending = Bending {
            fibres: [fibre("bending stress at the top"), fibre("bending stress at the bottom")],
            moments: moments.into_iter().filter_map(|name| workings.id(name)).collect(),
            winners: [(0, 0); 2],
        };
        let pairs = || (0..2).flat_map(|fibre| (0..bending.moments.len()).map(move |moment| (fibre, moment)));
        let stress = |&(fibre, moment): &(usize, usize)| bending.stress(fibre, moment, values);
        let by_stress = |a: &(usize, usize), b: &(usize, usize)| stress(a).total_cmp(&stress(b));
        if let (Some(most), Some(least)) = (pairs().max_by(by_stress), pairs().min_by(by_stress)) {
            bending.winners = [most, least];
            self.bending = Some(bending);
        }
    }

    /// The workings whose values are looked at.
    pub(super) fn reads(&self) -> impl Iterator<Item = Id> + '_ {
        let signs = self.signs.iter().chain(self.curves.iter().flatten()).map(|(id, _)| *id);
        let stations = self.stations.iter().map(|(id, _)| *id).chain(self.length);
        let tapers = self.tapers.iter().flat_map(|(start, end, _)| [*start, *end]);
        let largest =
            self.largest.iter().flat_map(|largest| largest.among.iter().copied().chain([largest.winner]));
        let bending = self
            .bending
            .iter()
            .flat_map(|bending| bending.fibres.iter().flatten().chain(&bending.moments).copied());
        signs.chain(stations).chain(tapers).chain(largest).chain(bending)
    }

    /// Whether all is the same for these values of the graph.
    pub(super) fn hold(&self, values: &[f64]) -> bool {
        !self.governing
            && self.signs.iter().all(|&(id, sign)| {
                let value = at(values, id);
                !value.is_nan() && Sign::exact(value) == sign
            })
            && self.stations.windows(2).all(|pair| {
                self.stands(at(values, pair[0].0), at(values, pair[1].0), values) == Some(pair[0].1)
            })
            && self.tapers.iter().all(|&(start, end, order)| {
                at(values, start).abs().total_cmp(&at(values, end).abs()) == order
            })
            && self.curves.iter().all(|curve| {
                let scale = scale(curve.iter().map(|&(id, _)| id), values);
                curve
                    .iter()
                    .all(|&(id, sign)| sign != Sign::Unsure && Sign::beside(at(values, id), scale) == sign)
            })
            && self.largest.iter().all(|largest| largest.stands(values))
            && self.bending.as_ref().is_none_or(|bending| bending.stands(values))
    }
}

/// The largest values along the beam, each taken over from another working.
const LARGEST: [(&str, By, Role); 3] = [
    ("largest shear force", By::Size, Role::ShearForce),
    ("largest sagging moment", By::Most, Role::BendingMoment),
    ("largest hogging moment", By::Least, Role::BendingMoment),
];

fn is_largest(name: &str) -> bool {
    LARGEST.iter().any(|(largest, ..)| *largest == name)
}

fn scale(ids: impl Iterator<Item = Id>, values: &[f64]) -> f64 {
    ids.map(|id| at(values, id).abs()).fold(0.0, f64::max)
}

/// Whether the winner of two nearly equal values is the larger one does not matter: they are equal to rounding.
const TIE: f64 = 1e-13;

impl Largest {
    fn stands(&self, values: &[f64]) -> bool {
        let most = self.among.iter().map(|&id| self.by.of(at(values, id))).fold(f64::NEG_INFINITY, f64::max);
        self.by.of(at(values, self.winner)) >= most - TIE * most.abs()
    }
}

impl Bending {
    fn stress(&self, fibre: usize, moment: usize, values: &[f64]) -> f64 {
        let distance: f64 = self.fibres[fibre].iter().map(|&id| at(values, id).abs()).product();
        let moment = self.moments.get(moment).map_or(f64::NAN, |&id| at(values, id));
        if fibre == 0 { -moment * distance } else { moment * distance }
    }

    fn stands(&self, values: &[f64]) -> bool {
        let all = || (0..2).flat_map(|fibre| (0..self.moments.len()).map(move |moment| (fibre, moment)));
        let [most, least] = self.winners.map(|(fibre, moment)| self.stress(fibre, moment, values));
        all().all(|(fibre, moment)| {
            let stress = self.stress(fibre, moment, values);
            stress <= most + TIE * most.abs() && stress >= least - TIE * least.abs()
        })
    }
}

/// All that some workings are made from, themselves included.
fn cone(workings: &Workings, from: &[Id]) -> BTreeSet<Id> {
    let mut cone = BTreeSet::new();
    let mut open = from.to_vec();
    while let Some(id) = open.pop() {
        if cone.insert(id) {
            open.extend(workings.reads(id));
        }
    }
    cone
}

/// Whether a working belongs to the place of the beam that governs.
fn is_governing(working: &Working) -> bool {
    working.symbol.role == Role::EquivalentStress
        || working.name.contains("the junction")
        || working.name.starts_with("largest skew")
        || working.name.ends_with("in the walls")
        || working.name.starts_with("share that the simple formula finds")
}

/// Whether a working is a largest bending stress along the beam: of several materials many heights are compared.
fn is_largest_stress(working: &Working) -> bool {
    working.symbol.role == Role::BendingStress && working.name.ends_with(" along the beam")
}

/// Whether a working stands in the diagrams, and does not come from the balance of the piece left of the slice.
fn is_of_diagrams(working: &Working) -> bool {
    working.chapter == Chapter::Diagrams
        && match working.symbol.role {
            Role::ShearForce | Role::BendingMoment => {
                !matches!(working.name.as_str(), "shear force at the slice" | "bending moment at the slice")
            }
            Role::Station => {
                working.name.starts_with("station of zero")
                    || working.name.starts_with("station of the zero")
                    || working.name.starts_with("point of contraflexure")
            }
            _ => false,
        }
}
