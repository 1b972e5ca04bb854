//! Building the workings of a lesson, chapter by chapter.

mod balance;
mod beam_givens;
mod builder;
mod free_body;
mod names;
mod reactions;
mod redundants;
mod resultants;

use crate::graph::Workings;
use crate::problem::Problem;
use crate::solved::SolveFault;
use crate::style::Style;
use crate::working::{Chapter, Id};
use builder::{Builder, Entry};
use mechanics::beam::{Side, Solution};
use mechanics::section::Section;

pub(crate) use builder::SAME_STATION;

/// What the builder leaves.
#[derive(Clone, Debug)]
pub(crate) struct Built {
    pub(crate) workings: Workings,
}

/// Builds the workings and checks them against the engine.
pub(crate) fn build(
    problem: &Problem,
    style: &Style,
    solution: &Solution,
    section: &Section,
) -> Result<Built, Vec<SolveFault>> {
    let _ = (style, section);
    let redundants = problem
        .beam
        .redundants()
        .map_err(|faults| faults.into_iter().map(SolveFault::Beam).collect::<Vec<_>>())?;
    let mut builder = Builder::new(problem);
    let mut all = || {
        let beam = builder.beam_givens(None, None)?;
        let reactions = builder.reactions(&beam, &redundants, solution)?;
        let mut wholes = free_body::WholeResultants::default();
        let entry = Entry::new(Chapter::Given, crate::role::Role::Station, "", "station of the slice");
        let station = builder.given(entry, problem.slice.at, crate::dimension::Dimension::LENGTH)?;
        builder.free_body(
            &beam,
            &reactions,
            &mut wholes,
            &free_body::Station {
                chapter: Chapter::Diagrams,
                station,
                side: Side::Right,
                words: "at the slice",
                index: "",
            },
        )?;
        Ok::<(), crate::evaluate::EvaluationError>(())
    };
    all().map_err(|error| vec![SolveFault::Formula(error)])?;
    let _: Option<Id> = None;
    Ok(Built { workings: builder.workings })
}
