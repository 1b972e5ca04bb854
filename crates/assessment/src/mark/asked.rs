//! One asked value of a paper, as the marker holds it.

use super::answer::Written;
use super::desk::Pin;
use crate::fair::figures::Grid;
use crate::fair::{Course, kind};
use crate::set::{Along, AnswerUnit, Band, PlacePart, ValuePart, rounded_down, step_of};
use workings::dimension::Dimension;
use workings::mistake::slip::{self, Slip};
use workings::role::Role;
use workings::solved::Solved;
use workings::working::{Chapter, Formula, Id, Working};

/// An asked value.
#[derive(Clone, Debug)]
pub(super) struct Asked {
    /// The working; none for a place that the graph does not find.
    pub(super) id: Option<Id>,
    /// SI.
    pub(super) right: f64,
    /// The answers that are right.
    pub(super) accepted: Vec<Band>,
    /// How far an answer may be off that was rounded too early, as a share of its value; zero where that is not known.
    early: f64,
    /// How far an answer may be off as a share of its value.
    share: f64,
    /// How far an answer may be off that is taken for a mistake's, as a share.
    tolerance: f64,
    /// What values of its kind are not small beside, SI.
    least: f64,
    pub(super) unit: AnswerUnit,
    pub(super) typed_unit: AnswerUnit,
    pub(super) slips: Vec<Slip>,
    /// What a spacing may be rounded down to a multiple of, m.
    step: Option<f64>,
    grid: Grid,
    possible: Possible,
}

/// Which values can be gone on with.
#[derive(Clone, Copy, Debug)]
struct Possible {
    lower: f64,
    upper: f64,
}

/// Answers nearer to a bound than this part of their size meet it.
const SLACK: f64 = 1e-9;

impl Asked {
    pub(super) fn value(part: &ValuePart, solved: &Solved, course: Course) -> Option<Self> {
        let workings = solved.workings();
        let id = workings.id(&part.working)?;
        let least = kind::least_size(solved, id);
        let half_width = 0.5 * (part.band.upper - part.band.lower);
        let dimension = workings.working(id).value.dimension;
        Some(Self {
            id: Some(id),
            right: part.right,
            accepted: part.accepted().collect(),
            early: part.rounded_early / part.right.abs().max(least),
            share: half_width / part.right.abs().max(least),
            tolerance: course.tolerance,
            least,
            unit: part.unit.clone(),
            typed_unit: part.typed_unit.clone(),
            slips: slip::slips(dimension, solved.style().units),
            step: step_of(solved, &part.working),
            grid: Grid::of(course.figures),
            possible: Possible::of(part.symbol.role, part.right, solved),
        })
    }

    pub(super) fn place(part: &PlacePart, solved: &Solved, course: Course) -> Self {
        let right = part.right.first().map_or(0.0, |band| band.lower);
        let whole = match part.along {
            Along::Beam => solved.problem().beam.length,
            Along::Depth => solved.section().properties().height(),
        };
        let several = part.right.len() > 1 || part.right.iter().any(|band| band.lower != band.upper);
        let id = match part.along {
            Along::Beam if !several => station(solved, &part.working, right),
            _ => None,
        };
        Self {
            id,
            right,
            accepted: part.accepted().collect(),
            early: 0.0,
            share: course.tolerance,
            tolerance: course.tolerance,
            least: part.half_width / course.tolerance,
            unit: part.unit.clone(),
            typed_unit: part.typed_unit.clone(),
            slips: slip::slips(Dimension::LENGTH, solved.style().units),
            step: None,
            grid: Grid::of(course.figures),
            possible: Possible { lower: 0.0, upper: whole },
        }
    }

    /// Whether an answer is right, SI.
    pub(super) fn accepts(&self, answer: f64) -> bool {
        self.accepted.iter().any(|band| band.contains(answer))
    }

    /// Whether an answer is what follows from the student's own values, `expected`; all SI. Zero where it is not right has to be
    /// earned: from own values that are all zero it comes of itself.
    pub(super) fn follows(&self, answer: f64, expected: f64, own: &[Pin]) -> bool {
        let trivial = expected == 0.0 && self.right != 0.0 && own.iter().all(|pin| pin.written == 0.0);
        let rounded = self.step.and_then(|step| rounded_down(expected, step));
        let is_rounded = rounded.is_some_and(|rounded| near(answer, rounded, SLACK * rounded));
        is_rounded || (!trivial && near(answer, expected, self.share * expected.abs().max(self.least)))
    }

    /// How far an answer may be off `expected` that was rounded too early; SI.
    pub(super) fn early_off(&self, expected: f64) -> f64 {
        self.early * expected.abs().max(self.least)
    }

    /// How far a value may be off that is taken for that of a mistake, `expected`, however it was rounded; SI.
    pub(super) fn most_off(&self, expected: f64) -> f64 {
        self.tolerance * expected.abs().max(self.least)
    }

    /// How far an answer may be off and still be right, as a share of a value that is not small beside its kind.
    pub(super) fn share(&self) -> f64 {
        self.share
    }

    /// How far a value may be off that is taken for that of a mistake, as a share of a value that is not small beside its kind.
    pub(super) fn share_off(&self) -> f64 {
        self.tolerance
    }

    /// Whether others go on with this value, SI: not with one that nothing can have, nor with zero, which makes all that follows
    /// trivial.
    pub(super) fn can_be_followed(&self, answer: f64) -> bool {
        let Possible { lower, upper } = self.possible;
        (lower..=upper).contains(&answer) && (answer != 0.0 || self.right == 0.0)
    }

    /// How exactly an answer is known by its written figures: half a unit of the last of them, and at least of the last figure that
    /// the course asks for where the number has no more of them; SI.
    pub(super) fn half_place(&self, written: Written) -> f64 {
        let in_si = self.unit.in_si();
        let number = written.number() / in_si;
        let of_the_course = 0.5 * self.grid.last_place(number) * in_si;
        let on_grid = (self.grid.round(number, true) - number).abs() <= 1e-9 * number.abs();
        let own = written.half_place().unwrap_or(1e-6 * written.number().abs());
        if on_grid { own.max(of_the_course) } else { own }
    }
}

impl Asked {
    /// Whether a number has fewer figures than the course asks for.
    pub(super) fn is_coarse(&self, written: Written) -> bool {
        let in_si = self.unit.in_si();
        let of_the_course = 0.5 * self.grid.plain().last_place(written.number() / in_si) * in_si;
        written.half_place().is_some_and(|half| half > 2.0 * of_the_course)
    }
}

/// Whether two values are no farther apart than this, but for the last bits.
fn near(one: f64, other: f64, most: f64) -> bool {
    (one - other).abs() <= most * (1.0 + SLACK)
}

impl Possible {
    /// Source of the rule: the unit's notes on assessment, section 5: no credit goes on from what is impossible, such as a
    /// neutral axis outside of the section or a negative second moment.
    fn of(role: Role, right: f64, solved: &Solved) -> Self {
        let section = solved.section().properties();
        let (height, length) = (section.height(), solved.problem().beam.length);
        let (lower, upper) = match role {
            Role::CentroidHeight | Role::CutHeight => (section.bottom, section.top),
            Role::CutDistance | Role::CentroidBeyond | Role::ExtremeDistance => (-height, height),
            Role::Station => (0.0, length),
            Role::Area
            | Role::AreaBeyond
            | Role::SecondMoment
            | Role::SecondMomentUpright
            | Role::SectionModulus
            | Role::WidthAtCut
            | Role::Breadth
            | Role::Height
            | Role::Thickness
            | Role::Diameter
            | Role::Length
            | Role::SliceLength
            | Role::Spacing
                if right > 0.0 =>
            {
                (f64::MIN_POSITIVE, f64::INFINITY)
            }
            _ => (f64::NEG_INFINITY, f64::INFINITY),
        };
        // What is written down is rounded: an axis at the edge of the section may lie a last figure beyond it.
        let slack = SLACK * (upper - lower).abs();
        let slack = if slack.is_finite() { slack } else { 0.0 };
        Self { lower: lower - slack, upper: upper + slack }
    }
}

/// The working that finds the place at which another holds: where a curve passes through zero. None where the place is that of a
/// support, of a load, or of anything else that is given: what lies there by chance, such as the resultant of a load, has a place of
/// its own, which goes into the reactions, and is not what was asked for.
fn station(solved: &Solved, working: &str, right: f64) -> Option<Id> {
    let workings = solved.workings();
    let near = SLACK * solved.problem().beam.length;
    let mut open = vec![workings.id(working)?];
    let mut next = 0;
    while let Some(&id) = open.get(next) {
        next += 1;
        let found = workings.working(id);
        if determines_a_place(found) && (found.value.value - right).abs() <= near {
            return Some(id);
        }
        for read in workings.reads(id) {
            if !open.contains(&read) {
                open.push(read);
            }
        }
    }
    None
}

/// Whether a working finds where V, M or the load passes through zero: such a station is called so in its index, `V=0`.
fn determines_a_place(found: &Working) -> bool {
    found.symbol.role == Role::Station
        && found.chapter == Chapter::Diagrams
        && found.formula != Formula::Given
        && found.symbol.index.contains("=0")
}
