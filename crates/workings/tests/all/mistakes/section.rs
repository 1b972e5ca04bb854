use super::cases::{Case, case, check, count, section, tube};
use crate::common::{rectangle, reference};

const N: &str = "centroid height";
const I: &str = "second moment";

/// Right: y_n = 105 mm, I = 11.25e6 mm⁴.
pub const CASES: &[Case] = &[
    case("axis-at-mid-depth", reference, (N, N), &[0.075]),
    case("centroid-unweighted", reference, (N, N), &[0.0975]),
    case("no-parallel-axis", reference, (I, I), &[3.15e-6]),
    case("only-parallel-axis", reference, (I, I), &[8.10e-6]),
    // 3.15e6 + 3600·30 + 2400·45 mm⁴, in plain numbers.
    case("distance-not-squared", reference, (I, I), &[3.366e-6]),
    case("about-the-base", reference, (I, I), &[77.4e-6]),
    case("about-mid-depth", reference, (I, I), &[16.65e-6]),
    case("wrong-axis", reference, (I, I), &[4.40e-6]),
    case("outer-rectangle", reference, (I, I), &[33.75e-6]),
    // By hand: 100·200³/12 mm⁴, the hole forgotten.
    case("outer-rectangle", tube, (I, I), &[200.0 / 3.0 * 1e-6]),
    // By hand: (100·200³ + 60·160³)/12 mm⁴, and the area 100·200 + 60·160 mm².
    case("hole-added", tube, ("area of hole in rectangular tube", I), &[(800.0 + 245.76) / 12.0 * 1e-6]),
    case("hole-added", tube, ("area of hole in rectangular tube", "area"), &[29_600e-6]),
];

#[test]
fn mistakes_of_the_section() {
    check(CASES);
}

/// A mistake in an early working is carried through everything after it; here the neutral axis at half depth:
/// c' = 135 - 75 = 60 mm, d = 60 and -15 mm, I = 3.15e6 + 3600·3600 + 2400·225 mm⁴, Q = 216 000 mm³.
#[test]
fn a_mistake_is_carried_downstream() {
    let solved = reference().solved();
    let i: f64 = 3.15e6 + 3600.0 * 3600.0 + 2400.0 * 225.0;
    let tau = 25e3 * 216_000.0 / (i * 20.0);
    for (asked, expected) in [(I, i * 1e-12), ("shear stress on the cut", tau * 1e6)] {
        let found = super::cases::values(&solved, "axis-at-mid-depth", N, asked);
        assert_eq!(found.len(), 1);
        crate::common::assert_close(asked, found[0], expected);
    }
}

/// A rectangle has no parts, no hole, and an outline that is full; its breadth can be cubed.
#[test]
fn a_rectangle_has_no_parts() {
    let plank = section(vec![("plank", rectangle(0.0, 0.0, 0.1, 0.2))]).solved();
    let ids = ["centroid-unweighted", "no-parallel-axis", "only-parallel-axis", "distance-not-squared"];
    for id in ids.into_iter().chain(["outer-rectangle", "hole-added"]) {
        assert_eq!(count(&plank, id), 0, "{id}");
    }
    assert_eq!(count(&plank, "wrong-axis"), 1);
    assert_eq!(count(&plank, "axis-at-mid-depth"), 1, "that it gives the right value is another's to see");
}
