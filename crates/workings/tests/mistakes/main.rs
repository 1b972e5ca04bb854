//! The usual mistakes of students, each with the value that it gives.
//!
//! Expected values come from the catalogue of the unit's mistakes, worked out in the reference lesson, in which every
//! number is exact; what the catalogue leaves open is worked out by hand beside the case. Closed form throughout.

#[path = "../common/mod.rs"]
mod common;

mod bending;
mod cases;
mod graph;
mod inner_forces;
mod joints;
mod own;
mod properties;
mod reactions;
mod section;
mod shear;
mod slip;
mod us_units;

use std::collections::BTreeSet;
use workings::mistake::{catalogue, named};

#[test]
fn every_mistake_of_the_catalogue_has_a_case() {
    let chapters =
        [reactions::CASES, inner_forces::CASES, section::CASES, bending::CASES, shear::CASES, joints::CASES];
    let tested: BTreeSet<&str> = chapters.into_iter().flatten().map(|case| case.id).collect();
    let listed: BTreeSet<&str> = catalogue().map(|mistake| mistake.id()).collect();
    assert_eq!(tested, listed);
    assert_eq!(catalogue().count(), listed.len(), "two mistakes have one id");
}

#[test]
fn every_mistake_says_what_is_done_and_what_is_wrong() {
    for mistake in catalogue() {
        let id = mistake.id();
        assert!(id.chars().all(|c| c.is_ascii_lowercase() || c == '-'), "{id}");
        assert!(mistake.kind().is_some() && !mistake.does().is_empty(), "{id}");
        assert!(mistake.feedback().ends_with(['.', '?', ')']), "{id}: {}", mistake.feedback());
        assert!(!mistake.sources().is_empty(), "{id} has no source");
        assert!(mistake.sources().iter().all(|source| !source.citation().is_empty()), "{id}");
        assert_eq!(named(id).map(|found| found.id()), Some(id));
    }
}
