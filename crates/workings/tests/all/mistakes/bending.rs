use super::cases::{Case, case, check};
use crate::common::{assert_close, reference};
use workings::notation::{Notation, Profile};
use workings::style::Style;

const TOP: &str = "bending stress at the top";
const BOTTOM: &str = "bending stress at the bottom";
const CUT: &str = "bending stress at the cut";
const MOST: &str = "largest tension along the beam";

/// Right: sigma = -75 MPa at the top, 175 MPa at the bottom, -25 MPa at the cut.
pub const CASES: &[Case] = &[
    case("y-from-the-base", reference, (TOP, TOP), &[-250e6]),
    // By hand: 18.75e6 · 120 / 11.25e6, the cut lying 120 mm above the base; 150 from the upper edge to the bottom.
    case("y-from-the-base", reference, (CUT, CUT), &[-200e6]),
    case("y-from-the-base", reference, (BOTTOM, BOTTOM), &[250e6]),
    case("half-depth", reference, (BOTTOM, BOTTOM), &[125e6]),
    case("half-depth", reference, (TOP, TOP), &[-125e6]),
    case("nearer-fibre", reference, (BOTTOM, BOTTOM), &[75e6]),
    // By hand: 30.625e6 · 45 / 11.25e6 MPa.
    case("nearer-fibre", reference, (MOST, MOST), &[122.5e6]),
    case("tension-for-compression", reference, (BOTTOM, BOTTOM), &[-175e6]),
    case("tension-for-compression", reference, (TOP, TOP), &[75e6]),
    // In plain numbers: 25e3 · 105 / 11.25e6.
    case("v-for-m", reference, (BOTTOM, BOTTOM), &[0.7 / 3.0 * 1e6]),
    case("centroid-for-the-point", reference, (CUT, CUT), &[-50e6]),
];

#[test]
fn mistakes_of_the_bending_stress() {
    check(CASES);
}

/// A course whose depth axis points down makes the same mistakes.
#[test]
fn the_depth_axis_may_point_down() {
    for notation in Profile::ALL.map(Notation::of) {
        let solved = super::cases::in_style(reference(), Style { notation, ..Style::default() });
        for (id, asked, expected) in [
            ("y-from-the-base", CUT, -200e6),
            ("centroid-for-the-point", CUT, -50e6),
            ("half-depth", TOP, -125e6),
        ] {
            let found = super::cases::values(&solved, id, asked, asked);
            assert_eq!(found.len(), 1);
            assert_close(id, found[0], expected);
        }
        let f = "force on the cut";
        assert_close(f, super::cases::values(&solved, "stress-at-the-cut-times-part", f, f)[0], 6e3);
    }
}
