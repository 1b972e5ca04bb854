//! What a graph starts from: the workings that follow from no other.

use std::collections::BTreeMap;
use std::hash::{DefaultHasher, Hash, Hasher};
use workings::engine::Call;
use workings::graph::Workings;
use workings::solved::Solved;
use workings::working::{Chapter, Formula, Id, Working};

/// Whether a working follows from no other: it is given, or the engine finds it from an outline, which is no working.
pub(super) fn is_input(working: &Working) -> bool {
    match &working.formula {
        Formula::Given => true,
        Formula::Expression(_) => false,
        Formula::Engine { call, .. } => {
            matches!(call, Call::Fixed | Call::Beyond { .. } | Call::Width { .. })
        }
    }
}

/// The inputs of a graph.
pub(super) fn inputs(workings: &Workings) -> impl Iterator<Item = (Id, &Working)> {
    workings.in_order().filter(|(_, working)| is_input(working))
}

/// The inputs of one draw, and what its section is like.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Snapshot {
    /// The inputs by name, SI.
    pub(super) inputs: BTreeMap<String, f64>,
    pub(super) section: SectionPrint,
}

/// What tells one way of computing a section from another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct SectionPrint {
    /// Of the formulas of all that is computed from the section alone.
    pub(super) formulas: u64,
    /// Of the outlines and the cut themselves.
    shape: u64,
}

impl Snapshot {
    pub(super) fn of(solved: &Solved) -> Self {
        let workings = solved.workings();
        let inputs =
            inputs(workings).map(|(_, working)| (working.name.clone(), working.value.value)).collect();
        Self { inputs, section: SectionPrint::of(solved) }
    }
}

impl SectionPrint {
    pub(super) fn of(solved: &Solved) -> Self {
        let workings = solved.workings();
        let mut formulas = DefaultHasher::new();
        for (id, working) in workings.in_order() {
            let of_section = match working.chapter {
                Chapter::Section | Chapter::Shear | Chapter::Walls | Chapter::Skew | Chapter::Joints => true,
                // Which moment gives the largest stress hangs on the diagrams.
                Chapter::Materials => !working.name.ends_with(" along the beam"),
                _ => false,
            };
            if !of_section {
                continue;
            }
            working.name.hash(&mut formulas);
            is_input(working).hash(&mut formulas);
            for read in workings.reads(id) {
                workings.working(read).name.hash(&mut formulas);
            }
            if let Some(formula) = workings.formula(id) {
                format!("{formula:?}").hash(&mut formulas);
            }
        }
        let problem = solved.problem();
        let mut shape = DefaultHasher::new();
        format!("{:?}{:?}{:?}", problem.parts, problem.joints, problem.cut).hash(&mut shape);
        Self { formulas: formulas.finish(), shape: shape.finish() }
    }
}
