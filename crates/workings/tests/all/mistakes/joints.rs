use super::cases::{Case, allowed, case, check, nailed, nailed_twice, two_joints};
use crate::common::reference;

const F: &str = "force on the cut";
const S: &str = "largest spacing at nails";
const ROWS: &str = "rows of nails";

/// Right: F = 12 kN on 50 mm of the cut; q = 240 N/mm.
pub const CASES: &[Case] = &[
    case("cut-force-is-v", reference, (F, F), &[25e3]),
    case("tau-times-part", reference, (F, F), &[43.2e3]),
    case("one-face-only", reference, (F, F), &[180e3]),
    case("stress-at-the-cut-times-part", reference, (F, F), &[6e3]),
    // In plain numbers: 12·50.
    case("no-width", reference, (F, F), &[600.0]),
    // In plain numbers 240/600; right 600/240 mm, so the ratio is (240/600)².
    case("spacing-inverted", nailed, (S, S), &[0.4e-3]),
    case("one-row-for-two", nailed_twice, (ROWS, S), &[2.5e-3]),
    case("one-row-for-two", nailed, (ROWS, S), &[5e-3]),
    // By hand: y_n = (3600·165 + 2400·90 + 1800·15)/7800 = 837/7.8 mm; Q of the foot and of the head.
    case(
        "wrong-cut-for-the-joint",
        two_joints,
        ("first moment at upper nails", "first moment at upper nails"),
        &[1800.0 * (837.0 / 7.8 - 15.0) * 1e-9],
    ),
    case(
        "wrong-cut-for-the-joint",
        two_joints,
        ("first moment at lower nails", "first moment at lower nails"),
        &[3600.0 * (165.0 - 837.0 / 7.8) * 1e-9],
    ),
    // 4 tau b h / 3 by the shear stress, where 4 sigma (b h^2 / 6) / L = 13.33 kN governs.
    case("not-the-least-factor", allowed, ("largest load factor", "largest force P"), &[80e3 / 3.0]),
];

#[test]
fn mistakes_of_the_slice_and_the_joints() {
    check(CASES);
}
