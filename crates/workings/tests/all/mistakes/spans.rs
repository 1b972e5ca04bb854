use super::cases::{Case, case, check, count};
use crate::common::{Maker, rectangle, reference, tee};

const A: &str = "reaction at A";
const B: &str = "reaction at B";
const C: &str = "reaction at C";
const V: &str = "shear force at the slice";
const M: &str = "bending moment at the slice";
const OVER_B: &str = "bending moment at B";
const HOGS: &str = "largest hogging moment";
const BOTTOM: &str = "bending stress at the bottom";

/// A T with y = 140 mm and I = 20e6 mm⁴ on supports at 0 and 4 m, 12.5 kN at 2 m and 5 kN at its end, 5 m; sliced at 4.5 m.
///
/// R_A = (12.5·2 - 5·1)/4 = 5 kN, R_B = 12.5 kN; M(2) = 10, M(4) = -5, M(4.5) = -2.5 kN m.
fn overhang() -> Maker {
    Maker::new(5.0, tee((0.090, 0.040), (0.015, 0.160)))
        .pin("A", 0.0)
        .pin("B", 4.0)
        .force("P_1", 2.0, 12.5e3)
        .force("P_2", 5.0, 5e3)
        .slice(4.5, 0.050)
}

fn plank(length: f64) -> Maker {
    Maker::new(length, vec![("plank", rectangle(0.0, 0.0, 0.1, 0.2))]).slice(1.0, 0.050)
}

/// 8 kN/m over all of 5 m, supports at 0 and 4 m: R_A = 40·1.5/4 = 15 kN.
fn loaded_throughout() -> Maker {
    plank(5.0).pin("A", 0.0).pin("B", 4.0).spread("w", 0.0, 5.0, 8e3)
}

/// 12.5 kN at 2 m and 6 kN/m on the overhang alone: R_A = (25 - 6·0.5)/4 = 5.5 kN.
fn loaded_beyond() -> Maker {
    plank(5.0).pin("A", 0.0).pin("B", 4.0).force("P", 2.0, 12.5e3).spread("w", 4.0, 5.0, 6e3)
}

/// The overhang on the left: supports at 1 and 5 m, 5 kN at 0 and 12.5 kN at 3 m; R_B = (12.5·2 - 5·1)/4 = 5 kN.
fn overhang_on_the_left() -> Maker {
    plank(5.0).pin("A", 1.0).pin("B", 5.0).force("P_2", 0.0, 5e3).force("P_1", 3.0, 12.5e3)
}

/// Two spans of 4 m under 8 kN/m: R_A = 3/8·32 = 12 kN, R_B = 40 kN.
fn two_spans() -> Maker {
    plank(8.0).pin("A", 0.0).pin("B", 4.0).pin("C", 8.0).spread("w", 0.0, 8.0, 8e3)
}

/// The same under a load that grows by 2 kN/m every metre.
fn two_spans_under_a_growing_load() -> Maker {
    plank(8.0).pin("A", 0.0).pin("B", 4.0).pin("C", 8.0).linear("w", (0.0, 8.0), (0.0, 16e3))
}

/// The same with 6 kN at 2 m, 4 kN right over B, and 8 kN m counter-clockwise at 6 m.
fn two_spans_under_single_loads() -> Maker {
    plank(8.0)
        .pin("A", 0.0)
        .pin("B", 4.0)
        .pin("C", 8.0)
        .force("P_1", 2.0, 6e3)
        .force("P_2", 4.0, 4e3)
        .couple("M_0", 6.0, 8e3)
}

/// Supports at 0, 4 and 10 m, a hinge at 6 m; 6 kN at 2 m and 4 kN at 8 m: R_C = 2 kN.
fn hinged() -> Maker {
    plank(10.0)
        .pin("A", 0.0)
        .pin("B", 4.0)
        .pin("C", 10.0)
        .hinge(6.0)
        .force("P_1", 2.0, 6e3)
        .force("P_2", 8.0, 4e3)
}

/// A fixed end, a support at 4 m, 8 kN/m: R_A = 5/8·32 = 20 kN.
fn propped() -> Maker {
    plank(4.0).fixed("A", 0.0).pin("B", 4.0).spread("w", 0.0, 4.0, 8e3)
}

/// All by hand, from balance.
pub const CASES: &[Case] = &[
    // 12.5·2/4, then 12.5 - 5; nothing hangs over B.
    case("overhang-left-out", overhang, (A, A), &[6.25e3]),
    case("overhang-left-out", overhang, (B, B), &[7.5e3]),
    case("overhang-left-out", overhang, (OVER_B, OVER_B), &[0.0]),
    // W = 8·4 at 2 m.
    case("overhang-left-out", loaded_throughout, ("resultant of spread load w", A), &[16e3]),
    case("overhang-left-out", loaded_beyond, ("resultant of spread load w", A), &[6.25e3]),
    // (12.5·2 + 5·1)/4.
    case("overhang-turns-the-same-way", overhang, (A, A), &[7.5e3]),
    // (25 + 3)/4.
    case("overhang-turns-the-same-way", loaded_beyond, (A, A), &[7e3]),
    // What lies beyond A turns about B as all else does; about A it does not: (12.5·2 + 5·1)/4.
    case("overhang-turns-the-same-way", overhang_on_the_left, (A, A), &[]),
    case("overhang-turns-the-same-way", overhang_on_the_left, (B, B), &[7.5e3]),
    case("overhang-left-out", overhang_on_the_left, (A, A), &[6.25e3]),
    // Half of 32 kN from each span. The redundant, which is found first, is R_B.
    case("each-span-alone", two_spans, (B, A), &[16e3]),
    case("each-span-alone", two_spans, (B, B), &[32e3]),
    case("each-span-alone", two_spans, (B, C), &[16e3]),
    case("each-span-alone", two_spans, (OVER_B, OVER_B), &[0.0]),
    // A triangle of 16 kN on the left span; on the right one a rectangle of 32 kN and a triangle of 16 kN.
    case("each-span-alone", two_spans_under_a_growing_load, (B, A), &[16e3 / 3.0]),
    case("each-span-alone", two_spans_under_a_growing_load, (B, B), &[16e3 * 2.0 / 3.0 + 16e3 + 16e3 / 3.0]),
    case("each-span-alone", two_spans_under_a_growing_load, (B, C), &[16e3 + 16e3 * 2.0 / 3.0]),
    // 6/2; 6/2 + 4 + 8/4; -8/4.
    case("each-span-alone", two_spans_under_single_loads, (B, A), &[3e3]),
    case("each-span-alone", two_spans_under_single_loads, (B, B), &[9e3]),
    case("each-span-alone", two_spans_under_single_loads, (B, C), &[-2e3]),
    // A hinge at 6 m of 10 m: each crate to the supports beside it, 6/2, then 6/2 + 4·2/6 more over B.
    case("hinge-not-used", hinged, (C, C), &[4e3 * 4.0 / 6.0]),
    case("each-span-alone", hinged, (C, C), &[]),
    case("fixed-end-as-a-pin", propped, (B, A), &[16e3]),
    case("fixed-end-as-a-pin", propped, (B, "couple at A"), &[0.0]),
    // 5 - 12.5; 5·4.5 - 12.5·2.5.
    case("support-without-its-reaction", overhang, (V, V), &[-7.5e3]),
    case("support-without-its-reaction", overhang, (M, M), &[-8.75e3]),
    case("hogging-as-sagging", overhang, (OVER_B, OVER_B), &[5e3]),
    case("hogging-as-sagging", overhang, (M, M), &[2.5e3]),
    case("hogging-as-sagging", overhang, (HOGS, HOGS), &[5e3]),
];

#[test]
fn mistakes_of_beams_that_run_on() {
    check(CASES);
}

/// M(4.5) = -2.5 kN m stretches the top: -2.5e6·140/20e6 = -17.5 MPa at the bottom. The largest compression is 5e6·140/20e6 = 35 MPa, at
/// the bottom over B; the larger moment gives 10e6·60/20e6 = 30 MPa at the top.
pub const OF_STRESSES: &[Case] = &[
    case("tension-as-if-sagging", overhang, (BOTTOM, BOTTOM), &[17.5e6]),
    case(
        "smaller-moment-not-compared",
        overhang,
        ("largest compression along the beam", "largest compression along the beam"),
        &[-30e6],
    ),
];

#[test]
fn mistakes_with_the_stresses_of_a_beam_that_runs_on() {
    check(OF_STRESSES);
}

/// A beam that ends at its supports, or hangs on one, has no such mistake.
#[test]
fn only_what_can_be_done_is_done() {
    let simple = reference().solved();
    let cantilever = plank(4.0).fixed("A", 0.0).force("P", 4.0, 5e3).solved();
    for id in CASES.iter().chain(OF_STRESSES).map(|case| case.id) {
        assert_eq!(count(&simple, id), 0, "{id}");
        // A cantilever hogs all along: its tension lies at the top.
        assert_eq!(count(&cantilever, id) > 0, id == "tension-as-if-sagging", "{id}");
    }
}
