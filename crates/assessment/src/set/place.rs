//! Where a value holds.

use super::band::Band;
use super::fault::Why;
use super::unit::AnswerUnit;
use crate::fair::Judge;
use mechanics::beam::{Curve, Extreme, Reached};
use serde::Serialize;
use workings::dimension::Dimension;
use workings::quantity::Quantity;
use workings::role::Role;
use workings::solved::Solved;
use workings::working::Working;

/// Along what a place is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Along {
    /// The beam: a station, from its left end.
    Beam,
    /// The depth: a height, from the lowest fibre.
    Depth,
}

/// The place at which a value holds.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PlacePart {
    /// The name of the working whose place it is.
    pub working: String,
    /// Along what it is told.
    pub along: Along,
    /// Every place that is right, from left to right or from the lowest up, m: `lower` and `upper` of one are equal, or the ends of
    /// a stretch all over which the value holds.
    pub right: Vec<Band>,
    /// How far off an answer may be, m.
    pub half_width: f64,
    /// The unit of the answer as the course shows it.
    pub unit: AnswerUnit,
    /// The unit of an answer that is typed; see [`AnswerUnit::for_typing`].
    pub typed_unit: AnswerUnit,
}

/// The band of a place never falls below that of a tenth of the beam's length or of the depth. Common practice, no source.
const NEAR_THE_START: f64 = 0.1;

impl PlacePart {
    pub(super) fn new(working: &str, judge: &Judge<'_>) -> Result<Self, Why> {
        let solved = judge.solved();
        let no_place = || Why::NoPlace { working: working.to_owned() };
        let found = solved.workings().get(working).ok_or_else(no_place)?;
        let section = solved.section().properties();
        let (along, right, whole) = match (found.place.station, found.place.height) {
            (Some(station), _) => {
                (Along::Beam, stations(found, station, solved), solved.problem().beam.length)
            }
            (None, Some(height)) => {
                (Along::Depth, heights(found, height - section.bottom, solved), section.height())
            }
            (None, None) => return Err(no_place()),
        };
        let farthest = right.iter().fold(0.0_f64, |most, band| most.max(band.upper.abs()));
        let role = match along {
            Along::Beam => Role::Station,
            Along::Depth => Role::CutHeight,
        };
        let quantity = Quantity::new(farthest, Dimension::LENGTH);
        let style = solved.style();
        let unit = AnswerUnit::of_the_course(quantity, role, style);
        // Half a unit of the last figure that the course shows.
        let shown = style.show(quantity, role);
        let decimals = shown.digits.split_once('.').map_or(0, |(_, decimals)| decimals.len());
        let last_place = (0..decimals).fold(unit.in_si(), |place, _| place / 10.0);
        let share = judge.course().tolerance;
        let half_width = (share * farthest.max(NEAR_THE_START * whole)).max(0.5 * last_place);
        let typed_unit = AnswerUnit::for_typing(quantity, role, style);
        Ok(Self { working: working.to_owned(), along, right, half_width, unit, typed_unit })
    }

    /// Whether an answer is right, m.
    pub fn accepts(&self, answer: f64) -> bool {
        self.accepted().any(|band| band.contains(answer))
    }

    /// The bands of right answers, m.
    pub fn accepted(&self) -> impl Iterator<Item = Band> {
        let wider =
            |band: &Band| Band { lower: band.lower - self.half_width, upper: band.upper + self.half_width };
        self.right.iter().map(wider)
    }
}

/// Every station at which the value of a working is reached that is an extreme along the beam; else its own.
fn stations(working: &Working, own: f64, solved: &Solved) -> Vec<Band> {
    let beam = solved.beam();
    let value = working.value.value;
    let shear = || vec![beam.extremes(Curve::Shear).largest_size];
    let moments = || {
        let extremes = beam.extremes(Curve::BendingMoment);
        extremes.highest.into_iter().chain(extremes.lowest)
    };
    let near = |one: f64, other: f64| (one - other).abs() <= 1e-9 * other.abs();
    let extremes: Vec<Extreme> = match working.symbol.role {
        Role::ShearForce | Role::ShearStress => {
            let largest = solved.value(solved.key().largest_shear);
            let id = solved.workings().id(&working.name);
            let reads = id.map(|id| solved.workings().reads(id)).unwrap_or_default();
            let is_largest =
                id == Some(solved.key().largest_shear) || reads.contains(&solved.key().largest_shear);
            if is_largest && largest != 0.0 { shear() } else { Vec::new() }
        }
        Role::BendingMoment => moments().filter(|extreme| near(extreme.value, value)).collect(),
        Role::BendingStress => {
            let properties = solved.section().properties();
            let reached = |extreme: &Extreme| {
                let stress = solved.stress().under(extreme.value, 0.0);
                let fibres = [properties.top, properties.bottom];
                fibres.into_iter().any(|height| near(stress.bending_stress(height), value))
            };
            moments().filter(reached).collect()
        }
        _ => Vec::new(),
    };
    let mut all: Vec<Band> = extremes.iter().flat_map(|extreme| &extreme.reached).map(stretch).collect();
    if !all.iter().any(|band| band.contains(own)) {
        // No extreme, or one that is told from a place of its own.
        all = vec![Band::about(own, 0.0)];
    }
    all.sort_by(|one, other| one.lower.total_cmp(&other.lower));
    all
}

fn stretch(reached: &Reached) -> Band {
    match *reached {
        Reached::At(place) => Band::about(place.station, 0.0),
        Reached::Over { from, to } => Band { lower: from, upper: to },
    }
}

/// Every height at which the largest shear stress is reached, above the lowest fibre; else its own.
fn heights(working: &Working, own: f64, solved: &Solved) -> Vec<Band> {
    let bottom = solved.section().properties().bottom;
    let largest = solved.stress().largest_shear_stress();
    let is_largest = working.name == "largest shear stress over the depth";
    if !is_largest || largest.value == 0.0 {
        return vec![Band::about(own, 0.0)];
    }
    largest.places.iter().map(|place| Band::about(place.height - bottom, 0.0)).collect()
}
