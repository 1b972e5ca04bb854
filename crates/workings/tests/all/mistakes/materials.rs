use super::cases::{Case, case, check, count, section};
use crate::common::{Maker, rectangle, reference};
use mechanics::section::HeightSide::Below;

const N: &str = "modular ratio of plate";
const I: &str = "second moment";
const OWN: &str = "own second moment of plate";
const BOTTOM: &str = "bending stress in plate at the bottom";
const JOINT: &str = "bending stress in plate at the top of the plate";
const Q: &str = "first moment at the cut";
const T: &str = "width at the cut";
const TAU: &str = "shear stress on the cut";

/// Timber of 100 x 200 mm on a plate of 100 x 10 mm with 20 times its modulus, cut just below the joint; M = 18.75 kN m,
/// V = 25 kN. Both count 20 000 mm²: ȳ = 57.5 mm, both centroids 52.5 mm from it.
fn plated() -> Maker {
    let mut plate = rectangle(0.0, 0.0, 0.100, 0.010);
    plate.modular_ratio = 20.0;
    section(vec![("timber", rectangle(0.0, 0.010, 0.100, 0.200)), ("plate", plate)])
        .cut(0.010, Below, Below)
        .nails("screws", &[1], 1, None, None)
}

/// 100·200³/12 mm⁴.
const TIMBER: f64 = 200.0 / 3.0 * 1e6;
/// 52.5² mm².
const ARM_2: f64 = 2756.25;
/// 2000·10³/12 for the plate, 20 000·52.5² for each: 177 083 333 mm⁴.
const RIGHT: f64 = TIMBER + 1e6 / 6.0 + 40_000.0 * ARM_2;

pub const CASES: &[Case] = &[
    case("ratio-upside-down", plated, (N, N), &[0.05]),
    // ȳ = (20 000·110 + 50·5)/20 050 mm.
    case("ratio-upside-down", plated, (N, "centroid height"), &[2_200_250.0 / 20_050.0 * 1e-3]),
    // ȳ = (20 000·110 + 1000·5)/21 000 = 105 mm, so d = 5 and -100 mm.
    case(
        "ratio-left-out",
        plated,
        (N, I),
        &[(TIMBER + 1e5 / 12.0 + 20_000.0 * 25.0 + 1000.0 * 10_000.0) * 1e-12],
    ),
    case("i-as-drawn", plated, (I, I), &[(TIMBER + 1e5 / 12.0 + 21_000.0 * ARM_2) * 1e-12]),
    // 100·(20·10)³/12 mm⁴: as much as the timber's.
    case("height-transformed", plated, (OWN, OWN), &[TIMBER * 1e-12]),
    case("height-transformed", plated, (OWN, I), &[(2.0 * TIMBER + 40_000.0 * ARM_2) * 1e-12]),
    case("stress-of-the-reference", plated, (BOTTOM, BOTTOM), &[18.75e6 * 57.5 / RIGHT * 1e6]),
    case("stress-of-the-reference", plated, (JOINT, JOINT), &[18.75e6 * 47.5 / RIGHT * 1e6]),
    case("stress-divided-by-the-ratio", plated, (BOTTOM, BOTTOM), &[18.75e6 * 57.5 / RIGHT / 20.0 * 1e6]),
    // 1000·52.5 mm³ for 20 000·52.5.
    case("q-as-drawn", plated, (Q, Q), &[52_500e-9]),
    case("q-as-drawn", plated, (Q, TAU), &[25e3 * 52_500.0 / (RIGHT * 100.0) * 1e6]),
    case(
        "q-as-drawn",
        plated,
        ("first moment at screws", "shear flow at screws"),
        &[25e3 * 52_500.0 / RIGHT * 1e3],
    ),
    case("transformed-width", plated, (T, T), &[2.0]),
    case("transformed-width", plated, (T, TAU), &[25e3 * 1_050_000.0 / (RIGHT * 2000.0) * 1e6]),
];

#[test]
fn mistakes_with_several_materials() {
    check(CASES);
}

/// A beam of one material has no ratio that could be forgotten.
#[test]
fn one_material_has_none_of_them() {
    let solved = reference().solved();
    for case in CASES {
        assert_eq!(count(&solved, case.id), 0, "{}", case.id);
    }
}
