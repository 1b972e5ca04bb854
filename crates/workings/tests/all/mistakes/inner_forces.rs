use super::cases::{Case, at_3_m, case, check, count, with_couple};
use crate::common::{Maker, rectangle, reference};

const V: &str = "shear force at the slice";
const M: &str = "bending moment at the slice";
const MOST: &str = "largest sagging moment";

/// Right at 3 m: V = -15 kN, M = 25 kN m; at 0.75 m: V = 25 kN, M = 18.75 kN m; the largest M 30.625 kN m.
pub const CASES: &[Case] = &[
    case("v-is-the-load-here", at_3_m, (V, V), &[-40e3]),
    // By hand: at 0.75 m the force at 1 m is nearest.
    case("v-is-the-load-here", reference, (V, V), &[-20e3]),
    case("reaction-forgotten", at_3_m, (V, V), &[-40e3]),
    // By hand: -20·2 - 20·0.5 kN m.
    case("reaction-forgotten", at_3_m, (M, M), &[-50e3]),
    case("spread-load-not-cut", at_3_m, (V, V), &[-35e3]),
    case("spread-load-forgotten", at_3_m, ("resultant of spread load w left of the slice", V), &[5e3]),
    case("spread-load-full-arm", at_3_m, ("arm of spread load w left of the slice", M), &[15e3]),
    case(
        "wrong-side-of-the-jump",
        reference,
        ("shear force just left of force P", "shear force just left of force P"),
        &[5e3],
    ),
    case(
        "wrong-side-of-the-jump",
        reference,
        ("shear force just right of force P", "shear force just right of force P"),
        &[25e3],
    ),
    // By hand: without the jump M(3) = 12·3 - 20·1, M(1+) = M(1-) = 12.
    case("couple-no-jump", with_couple, (M, M), &[16e3]),
    case(
        "couple-no-jump",
        with_couple,
        ("bending moment just right of couple M", "bending moment just right of couple M"),
        &[12e3],
    ),
    case("v-times-x", at_3_m, (M, M), &[-45e3]),
    case("straight-line-m", at_3_m, (M, M), &[15e3]),
    case("m-max-at-midspan", reference, (MOST, MOST), &[30e3]),
    case("m-max-under-the-force", reference, (MOST, MOST), &[25e3]),
    case("v-sign", reference, (V, V), &[-25e3]),
    case("v-sign", reference, ("largest shear force", "largest shear force"), &[35e3]),
    case("m-sign", reference, (M, M), &[-18.75e3]),
];

#[test]
fn mistakes_of_shear_force_and_bending_moment() {
    check(CASES);
}

/// Midspan inside a load that rises: M(4) = 18·4 - 12·(4/6)·4/2·(4/3) kN m, the area of the load up to there and its arm.
#[test]
fn midspan_under_a_load_that_rises() {
    let found = super::cases::values(&super::cases::rising().solved(), "m-max-at-midspan", MOST, MOST);
    assert_eq!(found.len(), 1);
    crate::common::assert_close("M(4)", found[0], 72e3 - 16e3 * 4.0 / 3.0);
}

/// At a jump that lies at the slice V has two sides there too; without a spread load M has no bow to be missed.
#[test]
fn only_what_can_be_done_is_done() {
    let at_force = reference().slice(1.0, 0.050).solved();
    for side in ["shear force just left of the slice", V] {
        assert_eq!(super::cases::values(&at_force, "wrong-side-of-the-jump", side, side).len(), 1, "{side}");
    }
    let plain = Maker::new(4.0, vec![("plank", rectangle(0.0, 0.0, 0.1, 0.2))])
        .pin("A", 0.0)
        .pin("B", 4.0)
        .force("P", 1.0, 20e3)
        .slice(2.0, 0.1)
        .solved();
    for id in ["straight-line-m", "spread-load-not-cut", "spread-load-full-arm", "couple-no-jump"] {
        assert_eq!(count(&plain, id), 0, "{id}");
    }
}
