//! Workings that the engine finds: how each is found again when what it reads is replaced.

use crate::working::{HeightSide, Id};
use mechanics::beam::{Beam, Curve, Freedom, Hold, Load, Redundant, Side};
use mechanics::section::Section;
use mechanics::thin_wall::flows_round_cells;
use std::sync::Arc;

/// What is nearer to a whole number than this part of it is that number: 60 mm, computed as 59.999999999, is not to be
/// rounded down to 55 mm.
const WHOLE: f64 = 1e-9;

/// A question to the engine, asked again when what it reads is replaced.
#[derive(Clone, Debug, PartialEq)]
pub enum Call {
    /// The value does not depend on any other working: the outline of a part is given as it is.
    Fixed,
    /// How the released beam moves where a redundant acted.
    Movement(Arc<BeamQuestion>, Movement),
    /// A reaction of the beam; reads its numbers.
    Reaction(Arc<BeamQuestion>, usize, Freedom),
    /// The bending moment at a station; reads the numbers of the beam, then the station.
    BendingMoment(Arc<BeamQuestion>, Side),
    /// The zero of the bending moment between two places of a stretch without any load but a spread one; reads M and
    /// V just right of the start of the stretch, the intensity there, that just left of its end, the stations of
    /// both, and the stations of the two places.
    ZeroOfMoment,
    /// The least of what it reads.
    Least,
    /// The largest size of what it reads.
    LargestSize,
    /// The largest size of the deflection; reads the numbers of the beam.
    LargestDeflection(Arc<BeamQuestion>),
    /// The same with that of shear; reads the numbers of the beam, then the form factor, the shear modulus and the area.
    LargestDeflectionWithShear(Arc<BeamQuestion>),
    /// The depth at which that is what is allowed; reads the same, then what is allowed and the depth of the section.
    DepthForDeflection(Arc<BeamQuestion>),
    /// The first of what it reads, rounded down to a multiple of the second.
    RoundedDown,
    /// The same, but no more than from the third of what it reads to the fourth.
    RoundedDownWithin,
    /// What it reads, rounded up to a whole number.
    RoundedUp,
    /// What of a piece of the section lies beyond a level cut; reads the height of the cut.
    Beyond {
        /// The piece alone.
        piece: Alone,
        /// Which side counts.
        beyond: HeightSide,
        /// What is asked for.
        wanted: BeyondWanted,
    },
    /// The flow round one of several cells, by its place; reads `∮ ds / t` round each cell, then between the cells of each pair, then
    /// what is wanted of each cell.
    FlowRoundCell(Arc<CellEquations>, usize),
    /// The width of a piece of the section at a height; reads the height.
    Width {
        /// The piece alone.
        piece: Alone,
        /// On which side of the height.
        side: HeightSide,
    },
}

/// The conditions of several closed cells of thin walls: round each the sum of the flow over the thickness is what is wanted.
#[derive(Clone, Debug, PartialEq)]
pub struct CellEquations {
    /// How many cells there are.
    pub count: usize,
    /// The cells that share a wall, two by two.
    pub shared: Vec<(usize, usize)>,
    /// How many times what is read for a cell is wanted of it.
    pub times: f64,
}

/// What is asked for of a piece beyond a cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BeyondWanted {
    /// Its area, m².
    Area,
    /// The height of its centroid, m.
    CentroidHeight,
}

/// One piece of the section alone, of one material.
#[derive(Clone, Debug)]
pub struct Alone(pub Arc<Section>);

impl PartialEq for Alone {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.0, &other.0) || self.0.parts() == other.0.parts()
    }
}

/// Which movement of the released beam is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Movement {
    /// Where: the place of this redundant.
    pub at: usize,
    /// Under what: the loads, or a unit of this redundant alone.
    pub under_unit: Option<usize>,
}

/// A number of a beam that a working holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Field {
    /// The beam's length.
    Length,
    /// Its flexural rigidity.
    Rigidity,
    /// A support's station.
    SupportStation(usize),
    /// A support's imposed movement.
    SupportMovement(usize, Freedom),
    /// A support's stiffness.
    SupportStiffness(usize, Freedom),
    /// A hinge's station.
    Hinge(usize),
    /// The station of a force or couple, or the start of a spread load.
    LoadStart(usize),
    /// The end of a spread load.
    LoadEnd(usize),
    /// A force, a couple, or the intensity of a spread load at its start.
    LoadSize(usize),
    /// The intensity of a spread load at its end.
    LoadSizeAtEnd(usize),
}

/// A beam whose numbers are workings.
#[derive(Clone, Debug, PartialEq)]
pub struct BeamQuestion {
    /// The beam as the lesson gives it.
    pub beam: Beam,
    /// The redundants of the force method.
    pub redundants: Vec<Redundant>,
    /// What each working that is read stands for.
    pub fields: Vec<Field>,
}

impl BeamQuestion {
    /// The beam with the present values of the workings.
    fn with(&self, values: impl Iterator<Item = f64>) -> Beam {
        let mut beam = self.beam.clone();
        for (field, value) in self.fields.iter().zip(values) {
            set(&mut beam, *field, value);
        }
        beam
    }
}

fn set(beam: &mut Beam, field: Field, value: f64) {
    let support = match field {
        Field::SupportStation(of) | Field::SupportMovement(of, _) | Field::SupportStiffness(of, _) => {
            beam.supports.get_mut(of)
        }
        _ => None,
    };
    match field {
        Field::Length => beam.length = value,
        Field::Rigidity => beam.flexural_rigidity = value,
        Field::Hinge(of) => {
            if let Some(hinge) = beam.hinges.get_mut(of) {
                *hinge = value;
            }
        }
        Field::SupportStation(_) => {
            if let Some(support) = support {
                support.station = value;
            }
        }
        Field::SupportMovement(_, freedom) | Field::SupportStiffness(_, freedom) => {
            if let Some(support) = support {
                let hold = match field {
                    Field::SupportMovement(..) => Hold::Rigid { moved: value },
                    _ => Hold::Spring { stiffness: value },
                };
                match freedom {
                    Freedom::Transverse => support.transverse = hold,
                    Freedom::Rotation => support.rotation = hold,
                }
            }
        }
        Field::LoadStart(of) | Field::LoadEnd(of) | Field::LoadSize(of) | Field::LoadSizeAtEnd(of) => {
            if let Some(load) = beam.loads.get_mut(of) {
                set_load(load, field, value);
            }
        }
    }
}

fn set_load(load: &mut Load, field: Field, value: f64) {
    let number = match (load, field) {
        (Load::Force { station, .. } | Load::Couple { station, .. }, Field::LoadStart(_)) => station,
        (Load::Force { down, .. }, Field::LoadSize(_)) => down,
        (Load::Couple { ccw, .. }, Field::LoadSize(_)) => ccw,
        (Load::Spread { from, .. }, Field::LoadStart(_)) => from,
        (Load::Spread { to, .. }, Field::LoadEnd(_)) => to,
        (Load::Spread { down_from, .. }, Field::LoadSize(_)) => down_from,
        (Load::Spread { down_to, .. }, Field::LoadSizeAtEnd(_)) => down_to,
        _ => return,
    };
    *number = value;
}

impl Call {
    /// The value from the present values of what it reads, SI; not a number where the engine refuses.
    pub(crate) fn evaluate(&self, reads: &[Id], values: &[f64]) -> f64 {
        let mut read = reads.iter().map(|id| values[id.0 as usize]);
        match self {
            Self::Fixed => f64::NAN,
            Self::Movement(question, movement) => movement.of(question, read),
            Self::Reaction(question, support, freedom) => {
                let solved = question.with(read).solve();
                let reaction = solved.ok().and_then(|solved| solved.reactions().get(*support).copied());
                reaction.map_or(f64::NAN, |reaction| match freedom {
                    Freedom::Transverse => reaction.force,
                    Freedom::Rotation => reaction.couple,
                })
            }
            Self::BendingMoment(question, side) => {
                let beam = question.with(read.by_ref().take(question.fields.len()));
                let station = read.next().unwrap_or(f64::NAN);
                beam.solve().map_or(f64::NAN, |solved| solved.value(Curve::BendingMoment, station, *side))
            }
            Self::ZeroOfMoment => zero_of_moment(next(&mut read)),
            Self::Least => {
                read.reduce(|least, value| if value >= least { least } else { value }).unwrap_or(f64::NAN)
            }
            Self::LargestSize => read.map(f64::abs).reduce(f64::max).unwrap_or(f64::NAN),
            Self::LargestDeflection(question) => question
                .with(read)
                .solve()
                .map_or(f64::NAN, |solved| solved.extremes(Curve::Deflection).largest_size.value),
            Self::LargestDeflectionWithShear(question) => {
                let beam = question.with(read.by_ref().take(question.fields.len()));
                let [form_factor, modulus, area] = next(&mut read);
                sheared_deflection(&beam, form_factor / (modulus * area))
            }
            Self::DepthForDeflection(question) => {
                let beam = question.with(read.by_ref().take(question.fields.len()));
                let [form_factor, modulus, area, allowed, depth] = next(&mut read);
                let sinks_more = read.next().unwrap_or(1.0);
                depth * stretch_for_deflection(&beam, form_factor / (modulus * area), (allowed, sinks_more))
            }
            Self::RoundedDown => {
                let [value, step] = next(&mut read);
                rounded_down(value, step)
            }
            Self::RoundedDownWithin => {
                let [value, step, from, to] = next(&mut read);
                let rounded = rounded_down(value, step);
                if rounded > to - from { to - from } else { rounded }
            }
            Self::RoundedUp => (read.next().unwrap_or(f64::NAN) * (1.0 - WHOLE)).ceil(),
            Self::Beyond { piece, beyond, wanted } => {
                let properties = piece.0.properties();
                let height = read.next().unwrap_or(f64::NAN).clamp(properties.bottom, properties.top);
                piece.0.level_cut(height, *beyond).map_or(f64::NAN, |cut| match wanted {
                    BeyondWanted::Area => cut.area,
                    BeyondWanted::CentroidHeight => cut.centroid.y,
                })
            }
            Self::FlowRoundCell(equations, cell) => {
                equations.flows(&read.collect::<Vec<_>>()).get(*cell).copied().unwrap_or(f64::NAN)
            }
            Self::Width { piece, side } => piece.0.width(read.next().unwrap_or(f64::NAN), *side),
        }
    }
}

impl CellEquations {
    /// The flows round all cells; none where too few values are read.
    fn flows(&self, read: &[f64]) -> Vec<f64> {
        let own = self.count + self.shared.len();
        if read.len() < own + self.count {
            return Vec::new();
        }
        let mut flexibility = vec![vec![0.0; self.count]; self.count];
        for (cell, &round) in read[..self.count].iter().enumerate() {
            flexibility[cell][cell] = round;
        }
        for (&(one, other), &between) in self.shared.iter().zip(&read[self.count..]) {
            for (row, column) in [(one, other), (other, one)] {
                if let Some(entry) = flexibility.get_mut(row).and_then(|row| row.get_mut(column)) {
                    *entry = between;
                }
            }
        }
        flows_round_cells(
            flexibility,
            read[own..own + self.count].iter().map(|wanted| self.times * wanted).collect(),
        )
    }
}

impl Movement {
    fn of(self, question: &BeamQuestion, values: impl Iterator<Item = f64>) -> f64 {
        let beam = question.with(values);
        let mut redundants = question.redundants.clone();
        for redundant in &mut redundants {
            if let Some(support) = beam.supports.get(redundant.support) {
                redundant.station = support.station;
            }
        }
        let released = match self.under_unit.and_then(|unit| redundants.get(unit)) {
            Some(unit) => beam.released_under_unit(&redundants, unit),
            None => beam.released(&redundants),
        };
        let (Ok(solution), Some(at)) = (released.solve(), redundants.get(self.at)) else { return f64::NAN };
        match at.against {
            Freedom::Transverse => solution.deflection(at.station),
            Freedom::Rotation => solution.slope(at.station, Side::Right),
        }
    }
}

/// The next so many values; not a number where there are no more.
fn next<const COUNT: usize>(read: &mut impl Iterator<Item = f64>) -> [f64; COUNT] {
    std::array::from_fn(|_| read.next().unwrap_or(f64::NAN))
}

/// The largest size of the deflection, with the slope of the axis under a unit of shear force.
fn sheared_deflection(beam: &Beam, shear_flexibility: f64) -> f64 {
    let solved = beam.solve_with_shear(shear_flexibility);
    solved.map_or(f64::NAN, |solved| solved.extremes(Curve::Deflection).largest_size.value)
}

/// How many times as deep a section must be for its deflection to be what is allowed: by halving, for a deeper one bends less.
/// Its deflection of bending is so many times that of a beam held sideways, whatever its depth: both moments and the product moment are
/// stretched so that what is left of I is the same part of it.
fn stretch_for_deflection(beam: &Beam, shear_flexibility: f64, (allowed, sinks_more): (f64, f64)) -> f64 {
    let at = |times: f64| {
        let deeper = Beam { flexural_rigidity: beam.flexural_rigidity * times.powi(3), ..beam.clone() };
        let held = sheared_deflection(&deeper, shear_flexibility / times);
        match sinks_more == 1.0 {
            true => held,
            false => held + (sinks_more - 1.0) * sheared_deflection(&deeper, 0.0),
        }
    };
    // What bending alone asks for, and what shear alone would: the depth is not far from both together.
    let bent = sheared_deflection(beam, 0.0);
    let by_bending = mechanics::real::cbrt(sinks_more * bent / allowed);
    let by_shear = (sheared_deflection(beam, shear_flexibility) - bent).abs() / allowed;
    let (mut low, mut high) = (0.5 * by_bending.max(by_shear), 2.0 * (by_bending + by_shear));
    for _ in 0..MOST_DOUBLINGS {
        if at(low) < allowed {
            low *= 0.5;
        } else if at(high) > allowed {
            high *= 2.0;
        } else {
            break;
        }
    }
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if at(middle) > allowed { low = middle } else { high = middle }
    }
    0.5 * (low + high)
}

/// The first guesses are doubled or halved no more often than this: they hardly ever are.
const MOST_DOUBLINGS: usize = 60;

fn rounded_down(value: f64, step: f64) -> f64 {
    (value / step * (1.0 + WHOLE)).floor() * step
}

/// By halving: the moment is a cubic that changes its sign once between the stations.
fn zero_of_moment([moment, shear, first, last, from, to, left, right]: [f64; 8]) -> f64 {
    let length = to - from;
    let at = |s: f64| moment + s * (shear - s * (first / 2.0 + (last - first) * s / (6.0 * length)));
    let (mut low, mut high) = (left - from, right - from);
    if at(low) * at(high) > 0.0 {
        return f64::NAN;
    }
    // 200 halvings exhaust the bits of any length.
    for _ in 0..200 {
        let middle = 0.5 * (low + high);
        if at(middle) * at(low) > 0.0 { low = middle } else { high = middle }
    }
    from + 0.5 * (low + high)
}
