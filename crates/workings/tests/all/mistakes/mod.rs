//! The usual mistakes of students, each with the value that it gives.
//!
//! Expected values come from the catalogue of the unit's mistakes, worked out in the reference lesson, in which every
//! number is exact; what the catalogue leaves open is worked out by hand beside the case. Closed form throughout.

mod bending;
mod carrying;
mod cases;
mod graph;
mod inner_forces;
mod joints;
mod materials;
mod own;
mod properties;
mod reactions;
mod section;
mod shear;
mod skew;
mod slip;
mod spans;
mod us_units;
mod walls;

use std::collections::BTreeSet;
use workings::mistake::{catalogue, named};
use workings::notation::{Notation, Profile};
use workings::style::Style;

#[test]
fn every_mistake_of_the_catalogue_has_a_case() {
    let chapters = [
        reactions::CASES,
        inner_forces::CASES,
        spans::CASES,
        spans::OF_STRESSES,
        section::CASES,
        bending::CASES,
        materials::CASES,
        shear::CASES,
        walls::CASES,
        skew::CASES,
        joints::CASES,
        carrying::CASES,
    ];
    let tested: BTreeSet<&str> = chapters.into_iter().flatten().map(|case| case.id).collect();
    let listed: BTreeSet<&str> = catalogue().map(|mistake| mistake.id()).collect();
    assert_eq!(tested, listed);
    assert_eq!(catalogue().count(), listed.len(), "two mistakes have one id");
}

fn styles() -> impl Iterator<Item = Style> {
    let notations = Profile::ALL.map(Notation::of).into_iter();
    notations.map(|notation| Style { notation, ..Style::default() })
}

/// Symbols of the profiles as in the tables of the notation: Q is S in some courses, t is b, A' is A*, y is z.
#[test]
fn what_is_said_is_said_in_the_courses_symbols() {
    let said = |id: &str, profile: Profile| {
        let style = Style { notation: Notation::of(profile), ..Style::default() };
        named(id).map(|mistake| mistake.feedback(&style).text(&style)).unwrap_or_default()
    };
    assert_eq!(said("q-at-the-neutral-axis", Profile::Upward), "Q belongs to the cut.");
    assert_eq!(said("q-at-the-neutral-axis", Profile::Downward), "S belongs to the cut.");
    assert_eq!(said("tau-times-part", Profile::Downward), "H acts on the cut, whose area is b Δx.");
    assert_eq!(said("y-from-the-base", Profile::CodeAxes), "z starts at the neutral axis.");
    let part = "Use the distance to the centroid of A*, not to the cut.";
    assert_eq!(said("q-to-the-cut", Profile::Downward), part);
    assert_eq!(said("distance-not-squared", Profile::Upward), "The distance is squared (check: mm⁴).");
}

#[test]
fn every_mistake_says_what_is_done_and_what_is_wrong() {
    for mistake in catalogue() {
        let id = mistake.id();
        assert!(id.chars().all(|c| c.is_ascii_lowercase() || c == '-'), "{id}");
        assert!(mistake.kind().is_some(), "{id}");
        for style in styles() {
            for said in [mistake.does(&style).text(&style), mistake.feedback(&style).text(&style)] {
                let ours = ["{", "}", "^", "sigma", "tau", "mm3", "A'"];
                assert!(!said.is_empty() && !ours.iter().any(|sign| said.contains(sign)), "{id}: {said}");
            }
            let feedback = mistake.feedback(&style).text(&style);
            assert!(feedback.ends_with(['.', '?']), "{id}: {feedback}");
        }
        assert!(!mistake.sources().is_empty(), "{id} has no source");
        assert!(mistake.sources().iter().all(|source| !source.citation().is_empty()), "{id}");
        assert_eq!(named(id).map(|found| found.id()), Some(id));
    }
}
