//! Each profile of the catalogue: its printed area and second moment follow from its printed dimensions.
//!
//! Sources: EN 10365 (IPE, HE, UPE, UPN), AISC Steel Construction Manual (W), from memory.

use mechanics::section::Section;
use mechanics::section::catalogue::{Printed, profile, profiles};

/// W shapes whose printed second moment differs in its last digit: the manual rounds their dimensions to three figures
/// after computing. They must still agree within 0.3 %.
const ROUNDED_DIMENSIONS: [&str; 1] = ["W8x24"];

#[test]
fn every_profile_has_its_printed_area_and_second_moment() {
    let mut checked = 0;
    for profile in profiles() {
        let shape = profile.shape().expect("a published profile fits together");
        let section = Section::new(shape.parts).expect("a published profile is sound");
        let properties = section.properties();
        let check = |what: &str, found: f64, printed: Printed| {
            let tolerance = if ROUNDED_DIMENSIONS.contains(&profile.name) {
                0.003 * printed.value
            } else {
                // Half the last printed digit, and what the conversion of units costs.
                (0.5 + 1e-9) * printed.last_digit
            };
            assert!(
                (found - printed.value).abs() <= tolerance,
                "{}: {what}: found {found}, printed {}",
                profile.name,
                printed.value
            );
        };
        check("area", properties.area, profile.area);
        check("second moment", properties.second_moment, profile.second_moment);
        checked += 1;
    }
    assert_eq!(checked, 50);
}

#[test]
fn names_are_found_whatever_their_case_and_spaces() {
    assert_eq!(profile("ipe300").map(|profile| profile.name), Some("IPE 300"));
    assert_eq!(profile(" HEB  200 ").map(|profile| profile.name), Some("HEB 200"));
    assert_eq!(profile("w24X76").map(|profile| profile.name), Some("W24x76"));
    assert_eq!(profile("IPE 301"), None);
}

#[test]
fn no_name_stands_twice() {
    let mut names: Vec<&str> = profiles().map(|profile| profile.name).collect();
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), profiles().count());
}
