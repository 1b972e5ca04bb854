use super::cases::{Case, allowed, case, check};
use crate::common::{Maker, reference, tee};

const V: &str = "largest size of the shear force between force P and the start of spread load w";
const S: &str = "largest spacing at nails between force P and the start of spread load w";
const N: &str = "number of fasteners of nails between force P and the start of spread load w";
const V_FALLING: &str = "largest size of the shear force in zone 1 of nails";
const S_FALLING: &str = "largest spacing at nails in zone 1";
const LAMBDA: &str = "load factor for tension";
const DEPTH: &str = "least depth for tension";

/// The T of the reference lesson, whose Q/I is 9.6/m, with nails of 600 N, zone by zone: V = 25, 5, 5 to 0 and 0 to -35 kN;
/// M = 25 kN m at P and 30 kN m where w begins.
fn zoned() -> Maker {
    zones(reference(), 1)
}

fn zoned_twice() -> Maker {
    zones(reference(), 2)
}

/// The same T under 10 kN/m and 20 kN in the middle of 4 m: V falls from 30 kN at A to 10 kN at P, so there are two steps.
fn falling() -> Maker {
    let maker = Maker::new(4.0, tee((0.120, 0.030), (0.020, 0.120))).pin("A", 0.0).pin("B", 4.0);
    zones(maker.force("P", 2.0, 20e3).spread("w", 0.0, 4.0, 10e3), 1)
}

fn zones(maker: Maker, rows: u32) -> Maker {
    let mut maker = maker.nails("nails", &[0], rows, None, Some(600.0));
    maker.problem.joints[0].zones = true;
    maker
}

pub const CASES: &[Case] = &[
    // By 35 kN: q = 336 N/mm; right 48 N/mm and 12.5 mm.
    case("one-spacing-for-all", zoned, (V, S), &[600.0 / 336e3]),
    // The first of two steps, by the 20 kN at its end: q = 192 N/mm; right 288 N/mm.
    case("v-at-the-wrong-end", falling, (V_FALLING, S_FALLING), &[600.0 / 192e3]),
    // 9.6/m · 30 kN m / 600 N; right 9.6/m · 5 kN m / 600 N = 80.
    case("moment-not-its-change", zoned, (N, N), &[480.0]),
    case("rows-in-the-number", zoned_twice, (N, N), &[40.0]),
    // sigma = 6·1.5 kN m / (0.1·0.2² m³) = 2.25 MPa of 10.
    case("factor-inverted", allowed, (LAMBDA, LAMBDA), &[0.225]),
    // 200 mm · 0.225; right 200 mm · √0.225.
    case("depth-in-proportion", allowed, (DEPTH, DEPTH), &[0.045]),
];

#[test]
fn mistakes_of_fasteners_along_the_beam_and_of_what_it_may_carry() {
    check(CASES);
}
