//! The reference lesson, in which every number is exact. Closed form: statics and the section's integrals by hand.

use crate::common::{assert_close, reference, value};

#[test]
fn all_numbers_of_the_reference_lesson() {
    let solved = reference().solved();
    for (name, expected) in [
        ("reaction at A", 25e3),
        ("reaction at B", 35e3),
        ("resultant of spread load w", 40e3),
        ("station of the resultant of spread load w", 3.0),
        ("shear force at the slice", 25e3),
        ("bending moment at the slice", 18.75e3),
        ("shear force just left of force P", 25e3),
        ("shear force just right of force P", 5e3),
        ("station of zero shear force between the start of spread load w and B", 2.25),
        ("largest sagging moment", 30.625e3),
        ("largest shear force", -35e3),
        ("area", 6000e-6),
        ("centroid height", 0.105),
        ("second moment", 11.25e-6),
        ("area beyond the cut", 3600e-6),
        ("centroid distance of the part beyond the cut", 0.030),
        ("distance of the cut from the neutral axis", 0.015),
        ("distance of the top fibre", 0.045),
        ("first moment at the cut", 108e-6),
        ("width at the cut", 0.020),
        ("shear stress on the cut", 12e6),
        ("shear stress just above the cut", 2e6),
        ("first moment at the neutral axis", 110.25e-6),
        ("shear stress at the neutral axis", 12.25e6),
        ("largest shear stress over the depth", 12.25e6),
        ("shear flow on the cut", 240e3),
        ("force on the cut", 12e3),
        ("bending stress at the bottom", 175e6),
        ("bending stress at the top", -75e6),
        ("bending stress at the cut", -25e6),
        ("mean shear stress", 25e3 / 6000e-6),
    ] {
        assert_close(name, value(&solved, name), expected);
    }
}

/// Closed form: V = R_A - P - w (x - 2 m), M = R_A x - P (x - 1 m) - w (x - 2 m)²/2.
#[test]
fn another_station_of_the_reference_lesson() {
    let solved = reference().slice(3.0, 0.050).solved();
    assert_close("V(3)", value(&solved, "shear force at the slice"), -15e3);
    assert_close("M(3)", value(&solved, "bending moment at the slice"), 25e3);
}
