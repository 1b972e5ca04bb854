use super::cases::{Case, case, check};
use crate::common::{Maker, rectangle};
use mechanics::section::HeightSide;
use workings::notation::{Notation, Profile};
use workings::style::Style;

const F: &str = "skew bending stress at F";
const MOST: &str = "largest skew tension at the slice";
const PRODUCT: &str = "product moment of area";
const UPRIGHT: &str = "second moment of area about the upright axis";
const INCLINATION: &str = "inclination of the neutral axis";
const SHEAR: &str = "skew shear stress on the cut";

/// A Z of three strips, 100 mm high, flanges of 50 mm, 10 mm throughout, on 4 m under 0.6 kN/m; sliced at 1 m, cut under the
/// top flange.
///
/// By hand: I = 2.46e6, I_y = 0.615e6, I_yz = 0.9e6 mm⁴, I I_y - I_yz² = 0.7029e12 mm⁸; M = 0.9 kN m, V = 0.6 kN. F, the lower
/// corner of web and flange, lies 50 mm below the centroid and 5 mm to the right of it: 0.9e6 · 35.25e6 / 0.7029e12 = 45.13 MPa.
pub fn zed() -> Maker {
    let parts = vec![
        ("bottom flange", rectangle(0.0, 0.0, 0.05, 0.01)),
        ("web", rectangle(0.04, 0.01, 0.01, 0.08)),
        ("top flange", rectangle(0.04, 0.09, 0.05, 0.01)),
    ];
    Maker::new(4.0, parts)
        .pin("A", 0.0)
        .pin("B", 4.0)
        .linear("w", (0.0, 4.0), (600.0, 600.0))
        .slice(1.0, 0.05)
        .cut(0.09, HeightSide::Below, HeightSide::Above)
}

/// A joist of 60 x 200 mm with a flat ten times as stiff, 10 x 100 mm, on the right side of its foot.
///
/// By hand, in mm: areas 12 000 and 10 · 1000, so the centroid lies 505/11 from the left (of 30 and 65) and 850/11 above the foot (of
/// 100 and 50). I = 40e6 + 10 · 100³ · 10 / 12 + 1650e6 / 121, I_y = 3.6e6 + 10 · 100 · 10³ / 12 + 808.5e6 / 121 and
/// I_yz = 1155e6 / 121 by its size; M = 0.9 kN m. J, the lower right corner of the flat, lies 850/11 below the centroid and 265/11 to the right.
pub fn joist_with_a_flat() -> Maker {
    let mut flat = rectangle(0.06, 0.0, 0.01, 0.1);
    flat.modular_ratio = 10.0;
    Maker::new(4.0, vec![("joist", rectangle(0.0, 0.0, 0.06, 0.2)), ("flat", flat)])
        .pin("A", 0.0)
        .pin("B", 4.0)
        .linear("w", (0.0, 4.0), (600.0, 600.0))
        .slice(1.0, 0.05)
        .cut(0.15, HeightSide::Below, HeightSide::Above)
}

const LEVEL: f64 = 40e6 + 100e6 / 12.0 + 1650e6 / 121.0;
const SIDE: f64 = 3.6e6 + 1e6 / 12.0 + 808.5e6 / 121.0;
const BOTH: f64 = 1155e6 / 121.0;
const J: &str = "skew bending stress in flat at J";
const FLAT: &str = "own second moment of flat about its upright axis";

pub const CASES: &[Case] = &[
    // 0.9e6 · 50 / 2.46e6
    case("product-moment-forgotten", zed, (F, F), &[45e6 / 2.46]),
    case("product-moment-forgotten", zed, (F, MOST), &[45e6 / 2.46]),
    case("product-moment-sign", zed, (PRODUCT, PRODUCT), &[-0.9e-6]),
    // 0.9e6 (0.615e6 · 50 - 0.9e6 · 5) / 0.7029e12
    case("product-moment-sign", zed, (PRODUCT, F), &[0.9 * 26.25e6 / 0.7029]),
    case("second-term-added", zed, (F, F), &[0.9 * 26.25e6 / 0.7029]),
    // 0.9e6 (2.46e6 · 50 + 0.9e6 · 5) / 0.7029e12
    case("second-moments-exchanged", zed, (F, F), &[0.9 * 127.5e6 / 0.7029]),
    // 2 · 10 · 50³ / 12 + 80 · 10³ / 12
    case("no-parallel-axis-across", zed, (UPRIGHT, UPRIGHT), &[0.215e-6]),
    // Half of arctan(-1.8 / 1.845) and arctan(0.9 / 2.46), rad.
    case("principal-axis-for-neutral-axis", zed, (INCLINATION, INCLINATION), &[-0.386_526_555_776_611_9]),
    case("neutral-axis-upside-down", zed, (INCLINATION, INCLINATION), &[0.350_727_948_248_203_5]),
    // 600 · 22 500 / (2.46e6 · 10)
    case("simple-shear-askew", zed, (SHEAR, SHEAR), &[13.5e6 / 24.6]),
    // 100 (10 · 10)³ / 12
    case("transformed-breadth-cubed", joist_with_a_flat, (FLAT, FLAT), &[100e-6 / 12.0]),
    case("product-moment-forgotten", joist_with_a_flat, (J, J), &[10.0 * 0.9e12 * 850.0 / 11.0 / LEVEL]),
    case(
        "stress-of-the-reference",
        joist_with_a_flat,
        (J, J),
        &[0.9e12 * (SIDE * 850.0 - BOTH * 265.0) / 11.0 / (LEVEL * SIDE - BOTH * BOTH)],
    ),
];

#[test]
fn mistakes_of_bending_askew() {
    check(CASES);
}

/// A course whose depth axis points down makes the same mistakes, of the same size.
#[test]
fn the_depth_axis_may_point_down() {
    for profile in Profile::ALL {
        for case in CASES.iter().filter(|case| case.asked != PRODUCT) {
            let solved = super::cases::in_style(
                (case.lesson)(),
                Style { notation: Notation::of(profile), ..Style::default() },
            );
            let found = super::cases::values(&solved, case.id, case.replaces, case.asked);
            assert_eq!(found.len(), 1);
            crate::common::assert_close(case.id, found[0], case.gives[0]);
        }
    }
}

/// Where the level axis is a principal one, nobody can make them.
#[test]
fn they_cannot_be_made_without_a_product_moment() {
    let solved = crate::common::reference().solved();
    for case in CASES {
        assert_eq!(super::cases::count(&solved, case.id), 0, "{}", case.id);
    }
}
