//! What must be equal on every paper of a class, so that all of them ask for the same work.

use serde::Serialize;
use sha2::{Digest as _, Sha256};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt;
use workings::role::Role;
use workings::solved::Solved;
use workings::working::{Chapter, Formula, Id};

/// One thing that must be equal on every paper of a class. Source: the unit's notes on assessment, section 4.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Feature {
    /// The workings on the way to what is asked, each with what it is made from, in their order.
    Workings,
    /// The forces and couples left of the slice.
    LeftOfSlice,
    /// The signs of V and M along the beam, of the reactions, and of what is asked.
    Signs,
    /// The kind of place (support, load, in between) where V and M are largest.
    Extremes,
    /// The parts that lie beyond the cut.
    PartsBeyond,
    /// Whether the cut lies above the neutral axis, at it or below it.
    SideOfAxis,
    /// The part in which the neutral axis lies.
    AxisPart,
    /// Where over the depth the shear stress is largest.
    LargestShearStress,
    /// The figures of the data: of that which has the most; one figure and two are alike, as 4 kN and 4.5 kN are (common
    /// practice, no source).
    DataFigures,
}

impl fmt::Display for Feature {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Workings => "the workings on the way",
            Self::LeftOfSlice => "what stands left of the slice",
            Self::Signs => "the signs of V, M, the reactions or the answers",
            Self::Extremes => "the kind of place where V or M is largest",
            Self::PartsBeyond => "the parts beyond the cut",
            Self::SideOfAxis => "the side of the neutral axis on which the cut lies",
            Self::AxisPart => "the part in which the neutral axis lies",
            Self::LargestShearStress => "where the shear stress is largest",
            Self::DataFigures => "the number of figures of the data",
        })
    }
}

/// The way to the answers of a paper: what must be equal on every paper of a class.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Path {
    /// A short name of it, equal where the paths are.
    digest: String,
    #[serde(skip)]
    features: BTreeMap<Feature, String>,
}

/// What is smaller than this part of the largest of its kind has no sign: it is the rounding of floats.
const NOTHING: f64 = 1e-9;

impl Path {
    /// The way to the workings of these names; names that the lesson does not have are passed over.
    pub fn of(solved: &Solved, asked: &[&str]) -> Self {
        let ids: Vec<Id> = asked.iter().filter_map(|name| solved.workings().id(name)).collect();
        let key = solved.key();
        let features: BTreeMap<Feature, String> = [
            (Feature::Workings, way(solved, &ids)),
            (Feature::LeftOfSlice, [key.shear, key.moment].map(|id| read(solved, id)).join("; ")),
            (Feature::Signs, signs(solved, &ids)),
            (Feature::Extremes, extremes(solved)),
            (Feature::PartsBeyond, read(solved, key.area_beyond)),
            (Feature::SideOfAxis, side_of_axis(solved)),
            (Feature::AxisPart, read_by_name(solved, "width at the neutral axis")),
            (Feature::LargestShearStress, read_by_name(solved, "largest shear stress over the depth")),
            (Feature::DataFigures, data_figures(solved).to_string()),
        ]
        .into();
        let mut hasher = Sha256::new();
        for (feature, text) in &features {
            hasher.update(format!("{feature:?} {}\n{text}\n", text.len()));
        }
        let digest = hasher.finalize().iter().take(8).map(|byte| format!("{byte:02x}")).collect();
        Self { digest, features }
    }

    /// A short name of the path: equal paths have equal ones.
    pub fn digest(&self) -> &str {
        &self.digest
    }

    /// In which features another path differs.
    pub fn differs(&self, other: &Self) -> Vec<Feature> {
        let differs =
            self.features.iter().filter(|(feature, text)| other.features.get(feature) != Some(text));
        differs.map(|(feature, _)| *feature).collect()
    }
}

fn name(solved: &Solved, id: Id) -> &str {
    &solved.workings().working(id).name
}

/// What a working is made from.
fn read(solved: &Solved, id: Id) -> String {
    let names: Vec<&str> = solved.workings().reads(id).into_iter().map(|id| name(solved, id)).collect();
    names.join(", ")
}

fn read_by_name(solved: &Solved, of: &str) -> String {
    solved.workings().id(of).map(|id| read(solved, id)).unwrap_or_default()
}

/// All that some workings rest on, themselves included.
fn rests_on(solved: &Solved, asked: &[Id]) -> BTreeSet<Id> {
    let mut needed = BTreeSet::new();
    let mut open = asked.to_vec();
    while let Some(id) = open.pop() {
        if needed.insert(id) {
            open.extend(solved.workings().reads(id));
        }
    }
    needed
}

fn way(solved: &Solved, asked: &[Id]) -> String {
    let lines = rests_on(solved, asked).into_iter().map(|id| {
        // Formulas that read the same workings may still differ: a term may be taken off or added.
        let formula = solved.workings().formula(id).map(|formula| format!("{formula:?}")).unwrap_or_default();
        format!("{} from {} by {formula}\n", name(solved, id), read(solved, id))
    });
    lines.collect()
}

fn sign(value: f64, scale: f64) -> char {
    match value {
        _ if value.abs() <= NOTHING * scale => '0',
        _ if value > 0.0 => '+',
        _ => '-',
    }
}

fn signs(solved: &Solved, asked: &[Id]) -> String {
    let workings = solved.workings();
    let along = |role: Role| {
        let of_role = workings.chapter(Chapter::Diagrams).filter(|(_, working)| working.symbol.role == role);
        let mut places: Vec<(f64, bool, f64)> = of_role
            .filter_map(|(_, working)| {
                let right = working.place.side == Some(mechanics::beam::Side::Right);
                Some((working.place.station?, right, working.value.value))
            })
            .collect();
        places.sort_by(|one, other| one.0.total_cmp(&other.0).then(one.1.cmp(&other.1)));
        let scale = places.iter().map(|(.., value)| value.abs()).fold(0.0, f64::max);
        let mut signs: Vec<char> = places.iter().map(|(.., value)| sign(*value, scale)).collect();
        signs.dedup();
        signs.into_iter().collect::<String>()
    };
    let reactions = workings
        .chapter(Chapter::Reactions)
        .filter(|(_, working)| matches!(working.symbol.role, Role::Reaction | Role::ReactionCouple));
    let reactions = reactions.map(|(_, working)| sign(working.value.value, 1.0)).collect::<String>();
    let answers = asked.iter().map(|&id| sign(solved.value(id), super::kind::least_size(solved, id)));
    let answers = answers.collect::<String>();
    format!("{} {} {reactions} {answers}", along(Role::ShearForce), along(Role::BendingMoment))
}

fn extremes(solved: &Solved) -> String {
    let (workings, beam) = (solved.workings(), &solved.problem().beam);
    let near = |one: f64, other: f64| (one - other).abs() <= NOTHING * beam.length;
    let kind = |of: &str| {
        let place = workings.id(of).and_then(|id| workings.reads(id).first().copied());
        let Some(x) = place.and_then(|id| workings.working(id).place.station) else { return "none" };
        let load = |load: &mechanics::beam::Load| match *load {
            mechanics::beam::Load::Force { station, .. } | mechanics::beam::Load::Couple { station, .. } => {
                near(station, x)
            }
            mechanics::beam::Load::Spread { .. } => false,
        };
        if beam.supports.iter().any(|support| near(support.station, x)) {
            "support"
        } else if beam.loads.iter().any(load) {
            "load"
        } else {
            "between"
        }
    };
    ["largest shear force", "largest sagging moment", "largest hogging moment"].map(kind).join(" ")
}

fn side_of_axis(solved: &Solved) -> String {
    let key = solved.key();
    let above = solved.value(key.cut_height) - solved.value(key.centroid);
    sign(above, solved.section().properties().height()).to_string()
}

/// The figures of the datum that has the most; at least two.
fn data_figures(solved: &Solved) -> usize {
    let given = solved.workings().in_order().filter(|(_, working)| working.formula == Formula::Given);
    let figures = given.map(|(_, working)| {
        let shown = solved.style().show_given(working.value, working.symbol.role);
        let digits: String = shown.digits.chars().filter(char::is_ascii_digit).collect();
        digits.trim_matches('0').len()
    });
    figures.fold(2, usize::max)
}
