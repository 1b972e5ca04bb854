//! Building the workings of a lesson, chapter by chapter.

mod across;
mod allowables;
mod balance;
mod beam_givens;
mod bending;
mod builder;
mod check;
mod check_skew;
mod check_walls;
mod cut;
mod deflection_limit;
mod diagrams;
mod fasteners;
mod free_body;
mod integral;
mod joints;
mod least_depth;
mod materials;
mod names;
mod pieces;
mod planks;
mod point;
mod reactions;
mod redundants;
mod released;
mod released_moment;
mod resultants;
mod section;
mod shear;
mod skew;
mod skew_corners;
mod skew_stress;
mod slice;
mod straight_cuts;
mod two_equations;
mod virtual_work;
mod wall_cells;
mod wall_centre;
mod wall_closing;
mod wall_flow;
mod wall_lines;
mod wall_torsion;
mod wall_ways;
mod walls;
mod zones;

use crate::dimension::Dimension;
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::graph::Workings;
use crate::problem::Problem;
use crate::quantity::Quantity;
use crate::role::Role;
use crate::solved::SolveFault;
use crate::style::Style;
use crate::working::{Chapter, Id};
use allowables::AllowableParts;
pub use allowables::{AllowableWorkings, GrowthWorkings, LimitWorkings, RatioWorkings};
pub(crate) use allowables::{LimitKind, governs};
use balance::{MomentBalance, Reactions};
use beam_givens::{BeamGivens, Rigidity};
use builder::{Builder, Entry};
use diagrams::DiagramWorkings;
use free_body::{Inner, Station};
use mechanics::beam::{Load, Redundant, Side, Solution};
use mechanics::section::Section;
use section::SectionWorkings;
use shear::ShearWorkings;
pub(crate) use skew::SkewWorkings;
use slice::SliceParts;
use virtual_work::MovementCheck;
use walls::WallWorkings;
pub use walls::{CellCondition, CellWorkings, OneCell, WallFlow};
pub(crate) use walls::{CellWall, CentreWorkings};

pub(crate) use beam_givens::{HoldGiven, LoadGiven, LoadKind, SupportGiven};
pub(crate) use builder::{SAME_STATION, zero};
pub(crate) use cut::{CutWorkings, narrow_contact};
pub(crate) use diagrams::Stop;
pub(crate) use joints::JointWorkings;
pub(crate) use names::{with_article, with_the};
pub use planks::PlankWorkings;
pub(crate) use resultants::{PlaceAs, Shape, StretchWorkings};
pub(crate) use section::{PieceWorkings, Placed, Size};
pub use skew_corners::{Corner, MaterialCorners, SkewCorners};
pub use slice::{Approach, SliceWorkings};
pub use straight_cuts::StraightCutWorkings;
pub use zones::{StepWorkings, ZoneWorkings};

/// Standard gravity, m/s²; exact by definition (ISO 80000-3).
const STANDARD_GRAVITY: f64 = 9.806_65;

/// What the builder leaves.
#[derive(Clone, Debug)]
pub(crate) struct Built {
    pub(crate) workings: Workings,
    pub(crate) slice: SliceWorkings,
    pub(crate) key: KeyWorkings,
    pub(crate) chapters: Chapters,
    /// Movements by formula beside those of the engine.
    movement_checks: Vec<MovementCheck>,
    /// Whether the course's depth axis points down.
    pub(crate) axis_down: bool,
}

/// The workings of each chapter by what they are, for whoever replaces them.
#[derive(Clone, Debug)]
pub(crate) struct Chapters {
    pub(crate) beam: BeamGivens,
    pub(crate) reactions: Reactions,
    pub(crate) moment_balances: Vec<MomentBalance>,
    pub(crate) stretches: Vec<StretchWorkings>,
    pub(crate) diagrams: DiagramWorkings,
    pub(crate) section: SectionWorkings,
    /// Of a pile of planks, what they are when they lie loose.
    pub(crate) planks: Option<PlankWorkings>,
    /// Distance of the cut from the neutral axis.
    pub(crate) cut_distance: Id,
    /// Station of the slice.
    pub(crate) station: Id,
    /// V and M just left of the slice, where one of them jumps there.
    pub(crate) left_of_slice: Option<Inner>,
    pub(crate) shear: ShearWorkings,
    pub(crate) further_cuts: Vec<StraightCutWorkings>,
    pub(crate) joints: Vec<JointWorkings>,
    pub(crate) allowables: Option<AllowableWorkings>,
    /// Where the level axis is no principal axis.
    pub(crate) skew: Option<SkewWorkings>,
    /// Where the walls are thin, open or with closed cells.
    pub(crate) walls: Option<WallWorkings>,
}

/// The workings that every lesson is about, by id.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct KeyWorkings {
    /// V at the slice's station.
    pub shear: Id,
    /// M at the slice's station.
    pub moment: Id,
    /// Height of the neutral axis.
    pub centroid: Id,
    /// I of the whole section.
    pub second_moment: Id,
    /// A'.
    pub area_beyond: Id,
    /// Distance of the centroid of A' from the neutral axis; none where nothing lies beyond the cut.
    pub centroid_beyond: Option<Id>,
    /// Q.
    pub first_moment: Id,
    /// t on the asked side.
    pub width: Id,
    /// tau on the cut, on the asked side.
    pub stress_on_cut: Id,
    /// Height of the cut.
    pub cut_height: Id,
    /// The shear force of largest size along the beam.
    pub largest_shear: Id,
}

/// Builds the workings and checks them against the engine.
pub(crate) fn build(
    problem: &Problem,
    style: &Style,
    solution: &Solution,
    section: &Section,
) -> Result<Built, Vec<SolveFault>> {
    let redundants = problem
        .beam
        .redundants()
        .map_err(|faults| faults.into_iter().map(SolveFault::Beam).collect::<Vec<_>>())?;
    let built = all(problem, style, &redundants, (solution, section))
        .map_err(|error| vec![SolveFault::Formula(error)])?;
    let faults = check::check(problem, solution, section, &built);
    if faults.is_empty() { Ok(built) } else { Err(faults) }
}

fn all(
    problem: &Problem,
    style: &Style,
    redundants: &[Redundant],
    (solution, engine): (&Solution, &Section),
) -> Result<Built, EvaluationError> {
    let mut builder = Builder::new(problem, style);
    let mut section = builder.section(engine)?;
    let planks = builder.planks(&section)?;
    let height = builder.cut_height(&section, engine.properties().height())?;
    let rigidity = builder.rigidity(&section, redundants)?;
    let weight = builder.own_weight(&section)?;
    let beam = builder.beam_givens(rigidity, weight)?;
    let reactions = builder.reactions(&beam, redundants, solution)?;
    let diagrams = builder.diagrams(&beam, &reactions)?;

    let (station, length) = builder.slice_givens()?;
    let x = builder.value(station);
    // At the right end of the beam V and M are those just left of it, and the slice ends there.
    let at_end = builder.same_station(x, problem.beam.length);
    let side = if at_end { Side::Left } else { Side::Right };
    let left_of_slice = match !at_end && builder.jumps_at(x, solution) {
        true => Some(builder.free_body(
            &beam,
            &reactions,
            &Station {
                chapter: Chapter::Diagrams,
                station,
                side: Side::Left,
                words: "just left of the slice",
                left_of: "left of the slice's left side",
                index: "left",
            },
        )?),
        false => None,
    };
    let here = builder.free_body(
        &beam,
        &reactions,
        &Station {
            chapter: Chapter::Diagrams,
            station,
            side,
            words: "at the slice",
            left_of: "left of the slice",
            index: "",
        },
    )?;
    let cut_distance = builder.cut_distance(&section, height)?;
    let fibres = builder.in_materials(&mut section, engine, here.moment, &diagrams)?;
    let bending = builder.bending(&section, engine, here.moment, (cut_distance, &fibres), &diagrams)?;
    let shear = builder.shear(&section, engine, height, here.shear, diagrams.largest_shear)?;
    // Where bending is askew the stress changes across the section too: no height has one state of stress, and no load may be
    // told from M y / I.
    let askew = engine.properties().bends_askew();
    if !askew {
        builder.point(engine, bending.at_cut, shear.stress_on_cut)?;
        builder.governing(&section, engine, &bending, &shear, &diagrams)?;
    }
    let skew = builder.skew(&skew::Before {
        section: &section,
        engine,
        moment: here.moment,
        shear_force: here.shear,
        cut: &shear.cut,
        simple: [bending.top, bending.bottom],
        diagrams: &diagrams,
    })?;
    let walls = builder.walls(&section, engine, (here.shear, skew.as_ref()))?;
    let (left_station, left) = if at_end {
        builder.slice_left_of_end(&beam, &reactions, (station, length))?
    } else {
        (station, here)
    };
    let parts = SliceParts {
        beam: &beam,
        reactions: &reactions,
        section: &section,
        shear: &shear,
        station: left_station,
        length,
        left,
        at_end,
    };
    let slice = builder.slice(&parts)?;
    let further_cuts = builder.straight_cuts(&section, engine, here.shear)?;
    let joints = builder.joints(&section, engine, (here.shear, &shear.cut), &diagrams, skew.as_ref())?;
    let allowables = builder.allowables(&AllowableParts {
        beam: &beam,
        section: &section,
        engine,
        solution,
        bending: &bending,
        diagrams: &diagrams,
        shear_along: shear.largest_along_beam,
        joints: &joints,
    })?;
    let key = KeyWorkings {
        shear: here.shear,
        moment: here.moment,
        centroid: section.centroid,
        second_moment: section.second_moment,
        area_beyond: shear.cut.area,
        centroid_beyond: shear.cut.arm,
        first_moment: shear.cut.first_moment,
        width: shear.cut.width,
        stress_on_cut: shear.stress_on_cut,
        cut_height: height,
        largest_shear: diagrams.largest_shear,
    };
    let chapters = Chapters {
        beam,
        reactions,
        moment_balances: builder.moment_balances,
        stretches: builder.stretches,
        diagrams,
        section,
        planks,
        cut_distance,
        station,
        left_of_slice,
        shear,
        further_cuts,
        joints,
        allowables,
        skew,
        walls,
    };
    let Builder { axis_down, workings, movement_checks, .. } = builder;
    Ok(Built { axis_down, workings, slice, key, chapters, movement_checks })
}

impl Builder<'_> {
    fn slice_givens(&mut self) -> Result<(Id, Id), EvaluationError> {
        let place = self.problem.slice;
        let entry = Entry::new(Chapter::Given, Role::Station, "", "station of the slice")
            .at(place.at, None)
            .says("The slice is taken here, measured from the left end.");
        let station = self.given(entry, place.at, Dimension::LENGTH)?;
        let entry = Entry::new(Chapter::Given, Role::SliceLength, "", "length of the slice")
            .says("The length of the slice along the beam.");
        let length = self.given(entry, place.length, Dimension::LENGTH)?;
        Ok((station, length))
    }

    /// Whether V or M jumps at a station inside the beam.
    fn jumps_at(&self, x: f64, solution: &Solution) -> bool {
        !self.same_station(x, 0.0)
            && solution.jumps().iter().any(|jump| {
                self.same_station(jump.station, x) && (jump.force_up != 0.0 || jump.couple_ccw != 0.0)
            })
    }

    /// The slice that ends at the right end of the beam: its left face.
    fn slice_left_of_end(
        &mut self,
        beam: &BeamGivens,
        reactions: &Reactions,
        (station, length): (Id, Id),
    ) -> Result<(Id, Inner), EvaluationError> {
        let x = self.value(station) - self.value(length);
        let entry = Entry::new(Chapter::Slice, Role::Station, "left", "station of the left face")
            .at(x, None)
            .says("The beam ends here, so the slice is taken to the left.");
        let left_station = self.formula(entry, Expression::from(station) - length.into())?;
        let left = self.free_body(
            beam,
            reactions,
            &Station {
                chapter: Chapter::Slice,
                station: left_station,
                side: Side::Right,
                words: "on the left face",
                left_of: "left of the left face",
                index: "left",
            },
        )?;
        Ok((left_station, left))
    }

    /// The flexural rigidity, where reactions depend on it or the deflection has a limit: `E I`, where that is what the beam
    /// was given.
    fn rigidity(
        &mut self,
        section: &SectionWorkings,
        redundants: &[Redundant],
    ) -> Result<Rigidity, EvaluationError> {
        let modulus = self.problem.elastic_modulus;
        let given = self.problem.beam.flexural_rigidity;
        if redundants.is_empty() && self.problem.allowable.deflection.is_none() {
            return Ok(Rigidity::NotAsked);
        }
        let product = modulus * self.value(section.second_moment);
        if !(modulus > 0.0 && (product - given).abs() <= 1e-12 * given) {
            return Ok(Rigidity::Given);
        }
        let modulus = match self.workings.id("elastic modulus") {
            Some(known) => known,
            None => {
                let entry = Entry::new(Chapter::Given, Role::ElasticModulus, "", "elastic modulus")
                    .says("The modulus of elasticity of the material.");
                self.given(entry, modulus, Dimension::STRESS)?
            }
        };
        Ok(Rigidity::Product(Expression::from(modulus) * section.second_moment.into()))
    }

    /// Density times area times g, where that is the self-weight that the beam was given.
    fn own_weight(&mut self, section: &SectionWorkings) -> Result<Option<Expression>, EvaluationError> {
        let Some(density) = self.problem.density else { return Ok(None) };
        let intensity =
            self.problem.loads.iter().zip(&self.problem.beam.loads).find_map(|(label, load)| match load {
                Load::Spread { down_from, down_to, .. } if label.self_weight && down_from == down_to => {
                    Some(*down_from)
                }
                _ => None,
            });
        let Some(intensity) = intensity else { return Ok(None) };
        let expected = density * self.value(section.area) * STANDARD_GRAVITY;
        if (expected - intensity).abs() > 1e-12 * intensity.abs() {
            return Ok(None);
        }
        let entry = Entry::new(Chapter::Given, Role::Density, "", "density").says("The density of the beam.");
        let density = self.given(entry, density, Dimension::DENSITY)?;
        let gravity = Quantity::new(STANDARD_GRAVITY, Dimension::ACCELERATION);
        let gravity = Expression::Given(gravity, Role::GravityAcceleration);
        Ok(Some(Expression::from(density) * section.area.into() * gravity))
    }
}
