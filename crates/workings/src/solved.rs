//! A lesson, solved: the engine's exact curves and properties beside the workings that lead there.

use crate::build::{self, Built, Chapters};
pub use crate::build::{
    AllowableWorkings, Approach, CellCondition, CellWorkings, Corner, GrowthWorkings, KeyWorkings,
    LimitWorkings, MaterialCorners, OneCell, PlankWorkings, RatioWorkings, SkewCorners, SliceWorkings,
    StepWorkings, StraightCutWorkings, WallFlow, ZoneWorkings,
};
use crate::evaluate::{EvaluationError, Replacement};
use crate::graph::Workings;
use crate::problem::{Joint, Problem};
use crate::style::Style;
use crate::working::{HeightSide, Id};
use mechanics::beam::{self, Solution};
use mechanics::section::{self, Section};
use mechanics::stress::StressOverDepth;
use std::fmt;

/// Why a lesson cannot be solved.
#[derive(Clone, Debug, PartialEq)]
pub enum SolveFault {
    /// Something is wrong with the beam.
    Beam(beam::Fault),
    /// Something is wrong with the section.
    Section(section::Fault),
    /// The cut misses the section.
    CutMisses {
        /// Height of the cut, m.
        height: f64,
        /// Lowest fibre, m.
        bottom: f64,
        /// Highest fibre, m.
        top: f64,
    },
    /// The slice does not lie on the beam, or has no length.
    SliceOffBeam {
        /// Station of its left face, m.
        at: f64,
        /// Its length, m.
        length: f64,
        /// Length of the beam, m.
        beam_length: f64,
    },
    /// A mistake of ours: a formula that does not agree with itself.
    Formula(EvaluationError),
    /// A mistake of ours: a working and the engine differ.
    Differs {
        /// Name of the working.
        working: String,
        /// Its value, SI.
        value: f64,
        /// The engine's value, SI.
        engine: f64,
        /// The scale on which they are compared, SI.
        scale: f64,
    },
    /// A mistake of ours: a balance that does not close.
    DoesNotClose {
        /// What does not close.
        what: String,
        /// What is left, SI.
        residual: f64,
        /// What may be left, SI.
        bound: f64,
    },
}

impl SolveFault {
    /// Whether it is a mistake of this program, not of the lesson.
    pub fn is_ours(&self) -> bool {
        matches!(self, Self::Formula(_) | Self::Differs { .. } | Self::DoesNotClose { .. })
    }
}

impl fmt::Display for SolveFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Beam(fault) => write!(f, "the beam cannot be solved: {fault:?}"),
            Self::Section(fault) => write!(f, "the section cannot be computed: {fault:?}"),
            Self::CutMisses { height, bottom, top } => {
                write!(
                    f,
                    "the cut at {height} m misses the section, which reaches from {bottom} m to {top} m"
                )
            }
            Self::SliceOffBeam { at, length, beam_length } => write!(
                f,
                "the slice of {length} m at {at} m does not lie on the beam, which is {beam_length} m long"
            ),
            Self::Formula(error) => write!(f, "a mistake of this program, not of the lesson: {error}"),
            Self::Differs { working, value, engine, .. } => write!(
                f,
                "a mistake of this program, not of the lesson: {working} comes out as {value} by its formula \
                 and as {engine} by the engine (SI units)"
            ),
            Self::DoesNotClose { what, residual, bound } => write!(
                f,
                "a mistake of this program, not of the lesson: {what} leaves {residual}, more than {bound} (SI \
                 units)"
            ),
        }
    }
}

impl std::error::Error for SolveFault {}

/// A lesson, solved.
#[derive(Clone, Debug)]
pub struct Solved {
    problem: Problem,
    style: Style,
    solution: Solution,
    section: Section,
    built: Built,
}

impl Solved {
    /// Solves a lesson and checks every working against the engine, to 1e-9 of its scale.
    ///
    /// # Errors
    /// All faults of the beam and of the section; or a mistake of ours, see [`SolveFault::is_ours`].
    pub fn new(problem: Problem, style: Style) -> Result<Self, Vec<SolveFault>> {
        let mut faults = Vec::new();
        let solution =
            problem.beam.solve().map_err(|all| faults.extend(all.into_iter().map(SolveFault::Beam)));
        let section = Section::new(problem.parts.clone())
            .map_err(|all| faults.extend(all.into_iter().map(SolveFault::Section)));
        faults.extend(slice_fault(&problem));
        if let Ok(section) = &section {
            faults.extend(cut_fault(&problem, section));
        }
        let (Ok(solution), Ok(section), true) = (solution, section, faults.is_empty()) else {
            return Err(faults);
        };
        let built = build::build(&problem, &style, &solution, &section)?;
        Ok(Self { problem, style, solution, section, built })
    }

    /// The lesson that was solved.
    pub fn problem(&self) -> &Problem {
        &self.problem
    }

    /// How the course writes.
    pub fn style(&self) -> &Style {
        &self.style
    }

    /// The beam's exact curves: V, M, slope and deflection.
    pub fn beam(&self) -> &Solution {
        &self.solution
    }

    /// The section's exact properties; asks it for any cut.
    pub fn section(&self) -> &Section {
        &self.section
    }

    /// All workings.
    pub fn workings(&self) -> &Workings {
        &self.built.workings
    }

    /// The workings that every lesson is about, by id.
    pub fn key(&self) -> &KeyWorkings {
        &self.built.key
    }

    /// The workings of the slice, by id.
    pub fn slice(&self) -> &SliceWorkings {
        &self.built.slice
    }

    /// Whether the bending moment is the same on both faces of the slice: then the cut has nothing to carry.
    pub fn moment_stays(&self) -> bool {
        self.value(self.slice().moment_change) == 0.0
    }

    /// The limits of the lesson, by id; none where nothing is said of what may be borne.
    pub fn allowables(&self) -> Option<&AllowableWorkings> {
        self.built.chapters.allowables.as_ref()
    }

    /// The workings of the further straight cuts, in the order of the problem's; a cut that parts nothing has none.
    pub fn further_cuts(&self) -> &[StraightCutWorkings] {
        &self.built.chapters.further_cuts
    }

    /// The joints whose fasteners are set from key station to key station, each by its name with its zones from left to right.
    pub fn zones(&self) -> impl Iterator<Item = (&str, &[ZoneWorkings])> {
        let joints = self.built.chapters.joints.iter();
        let zones = joints.map(|joint| (joint.name.as_str(), joint.zones.as_slice()));
        zones.filter(|(_, zones)| !zones.is_empty())
    }

    /// The stretches, each from station to station, where V is zero and a joint with zones passes nothing on.
    pub fn stretches_without_shear(&self, joint: &str) -> &[[Id; 2]] {
        let own = self.built.chapters.joints.iter().find(|known| known.name == joint);
        own.map_or(&[], |own| own.idle.as_slice())
    }

    /// Whether no shear flows across the faces of a joint, because the centroid of what it holds lies on the neutral axis.
    pub fn passes_no_shear_flow(&self, joint: &Joint) -> bool {
        let own = self.built.chapters.joints.iter().find(|known| known.name == joint.name);
        own.is_some_and(|own| self.value(own.counting.first_moment) == 0.0)
    }

    /// Each thin wall as it is gone, in the order of the middle lines; none where its flow is no working.
    pub fn walls(&self) -> &[WallFlow] {
        self.built.chapters.walls.as_ref().map_or(&[], |walls| &walls.walls)
    }

    /// Of a section of planks, one on another, what they are when they lie loose; none of any other section.
    pub fn planks(&self) -> Option<PlankWorkings> {
        self.built.chapters.planks
    }

    /// How the flows round the closed cells of thin walls are found, by id; none where there is no such cell.
    pub fn cells(&self) -> Option<&CellWorkings> {
        self.built.chapters.walls.as_ref()?.cells.as_ref()
    }

    /// The torque of a load over the centroid of thin walls, and what it does, in order; none where it does not twist.
    pub fn torsion(&self) -> &[Id] {
        let centre = self.built.chapters.walls.as_ref().and_then(|walls| walls.centre.as_ref());
        centre.map_or(&[], |centre| &centre.torsion)
    }

    /// The workings of each chapter by what they are.
    pub(crate) fn chapters(&self) -> &Chapters {
        &self.built.chapters
    }

    /// The flexural rigidity, where the formulas of a working lead over it and it falls out of the value, as it does of the reactions of a beam
    /// on rigid supports; none elsewhere.
    pub fn rigidity_that_falls_out(&self, of: Id) -> Option<Id> {
        const SAME: f64 = 1e-9;
        let rigidity = self.built.chapters.beam.rigidity?;
        let workings = self.workings();
        if of == rigidity || !workings.downstream(&[rigidity]).get(of.0 as usize).copied()? {
            return None;
        }
        let (own, stiffer) = (self.value(of), 2.0 * self.value(rigidity));
        let found = workings.evaluate_with(&[(rigidity, Replacement::Value(stiffer))]).ok()?;
        let found = found.get(of.0 as usize)?;
        ((found - own).abs() <= SAME * own.abs()).then_some(rigidity)
    }

    /// A value of the graph, SI.
    pub fn value(&self, id: Id) -> f64 {
        self.built.workings.working(id).value.value
    }

    /// The stresses over the depth at the slice's station.
    pub fn stress(&self) -> StressOverDepth {
        let key = self.key();
        StressOverDepth::new(&self.section, self.value(key.moment), self.value(key.shear))
    }

    /// The same lesson sliced and cut at another place.
    ///
    /// The slice moves left where it would run off the beam's end. At a jump of V the values just right of the
    /// station count, at the beam's right end those just left of it.
    ///
    /// # Errors
    /// As [`Solved::new`]: the place may lie off the beam or off the section.
    pub fn at(&self, station: f64, height: f64, side: HeightSide) -> Result<Self, Vec<SolveFault>> {
        let mut problem = self.problem.clone();
        problem.slice.at = station;
        problem.cut.height = height;
        problem.cut.side = side;
        problem.cut.joint = None;
        let beam_length = problem.beam.length;
        // A slice that would run off the beam is shortened; at the very end it is taken to the left.
        let room = beam_length - station;
        if room > 0.0 && room < problem.slice.length {
            problem.slice.length = room;
        }
        Self::new(problem, self.style.clone())
    }
}

fn slice_fault(problem: &Problem) -> Option<SolveFault> {
    let (slice, beam_length) = (problem.slice, problem.beam.length);
    let end = slice.at + slice.length;
    let slack = build::SAME_STATION * beam_length;
    let at_end = (slice.at - beam_length).abs() <= slack;
    let lies_on = slice.length > 0.0
        && slice.at >= -slack
        && (end <= beam_length + slack || (at_end && slice.length <= beam_length));
    (!lies_on).then_some(SolveFault::SliceOffBeam { at: slice.at, length: slice.length, beam_length })
}

fn cut_fault(problem: &Problem, section: &Section) -> Option<SolveFault> {
    let properties = section.properties();
    let height = problem.cut.height;
    section.level_cut(height, problem.cut.beyond).err().map(|_| SolveFault::CutMisses {
        height,
        bottom: properties.bottom,
        top: properties.top,
    })
}
