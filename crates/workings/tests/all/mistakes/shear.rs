use super::cases::{Case, case, check, count, cross, nailed, section, tube, values};
use crate::common::{assert_close, rectangle, reference};
use mechanics::section::HeightSide;

const TAU: &str = "shear stress on the cut";
const Q: &str = "first moment at the cut";
const T: &str = "width at the cut";
const AXIS: &str = "shear stress at the neutral axis";
const Q_AXIS: &str = "first moment at the neutral axis";
const MOST: &str = "largest shear stress over the depth";
const ALONG: &str = "largest shear stress along the beam";

/// Right: tau = 12 MPa on the cut, 12.25 MPa at the neutral axis; V = 25 kN, Q = 108 000 mm³, t = 20 mm.
pub const CASES: &[Case] = &[
    case("mean-over-the-section", reference, (TAU, TAU), &[25.0 / 6.0 * 1e6]),
    case("rectangle-factor", reference, (TAU, TAU), &[6.25e6]),
    case("mean-over-the-web", reference, (TAU, TAU), &[25.0 / 3.0 * 1e6]),
    case("v-over-the-part", reference, (TAU, TAU), &[25.0 / 3.6 * 1e6]),
    case("q-to-the-cut", reference, (Q, TAU), &[6e6]),
    case("q-to-the-edge", reference, (Q, TAU), &[18e6]),
    case("q-about-own-edge", reference, (Q, TAU), &[6e6]),
    case("q-about-the-base", reference, (Q, TAU), &[54e6]),
    case("q-of-the-whole-area", reference, (Q, TAU), &[20e6]),
    case("q-at-the-neutral-axis", reference, (Q, TAU), &[12.25e6]),
    // By hand, Q at the neutral axis without the flange, 20·15·7.5, and without the piece of web, 108 000 mm³.
    case("q-leaves-out-a-part", reference, (Q_AXIS, AXIS), &[0.25e6, 12e6]),
    case("distance-squared-in-q", reference, (Q, TAU), &[360e6]),
    case("q-about-mid-depth", reference, (Q, TAU), &[24e6]),
    case("width-of-the-other-side", reference, (T, TAU), &[2e6]),
    case("depth-for-width", reference, (T, TAU), &[8e6]),
    // Twice the right one; half of it takes a second web.
    case("cut-not-the-shortest", reference, (T, TAU), &[6e6]),
    // A box cut at its axis, its hole forgotten: Q = 100·100·50 - 60·80·40 = 308 000 mm³, I = (800 - 245.76)/12·10⁶ mm⁴, t = 100 mm.
    case("hole-in-the-width", tube, (T, TAU), &[25e3 * 0.308 / (554.24 / 12.0 * 100.0) * 1e6]),
    case("t-forgotten", reference, (TAU, TAU), &[240e6]),
    case("bracket-slip", reference, (TAU, TAU), &[4800e6]),
    case("m-for-v", reference, (TAU, TAU), &[9000e6]),
    // About its own axis 120·30³/12 = 270 000, about the neutral axis 270 000 + 3600·30² = 3 510 000 mm⁴.
    case("i-of-the-part", reference, (TAU, TAU), &[500e6, 25e3 * 108e3 / (3.51e6 * 20.0) * 1e6]),
    case("zero-where-bending-is-zero", reference, (AXIS, AXIS), &[0.0]),
    case("largest-at-the-edge", reference, (MOST, MOST), &[12e6]),
    // By hand: Q = 1200·50 + 2400·10 mm³, t = 120 mm, I = 7.36e6 mm⁴.
    case("largest-at-the-axis", cross, (MOST, MOST), &[25e3 * 84e3 / (7.36e6 * 120.0) * 1e6]),
    // Where M is largest V is zero; by hand, at midspan V = 5 kN: 5e3·110 250/(11.25e6·20) MPa.
    case("v-at-the-wrong-station", reference, (ALONG, ALONG), &[0.0, 2.45e6]),
];

#[test]
fn mistakes_of_the_shear_stress() {
    check(CASES);
}

/// The largest stress along the beam, right 35e3·110 250/(11.25e6·20) MPa, goes wrong as that on the cut does; its M is
/// the largest, 30.625 kN m.
#[test]
fn the_largest_along_the_beam_goes_wrong_too() {
    let solved = reference().solved();
    for (id, expected) in [
        ("mean-over-the-section", 35e3 / 6000.0),
        ("t-forgotten", 35e3 * 110_250.0 / 11.25e6),
        ("m-for-v", 30.625e6 * 110_250.0 / (11.25e6 * 20.0)),
    ] {
        let found = values(&solved, id, ALONG, ALONG);
        assert_eq!(found.len(), 1, "{id}");
        assert_close(id, found[0], expected * 1e6);
    }
}

/// The lower half of a plank 100 x 200 mm: Q = 100·100·50 mm³ whichever part is kept.
#[test]
fn the_part_below_goes_wrong_as_the_part_above() {
    let plank = || section(vec![("plank", rectangle(0.0, 0.0, 0.1, 0.2))]);
    let above = plank().cut(0.120, HeightSide::Below, HeightSide::Above).solved();
    let below = plank().cut(0.080, HeightSide::Above, HeightSide::Below).solved();
    for id in
        ["q-to-the-cut", "q-to-the-edge", "q-about-own-edge", "q-of-the-whole-area", "q-about-mid-depth"]
    {
        let [one] = values(&above, id, Q, TAU)[..] else { panic!("{id}") };
        let [other] = values(&below, id, Q, TAU)[..] else { panic!("{id}") };
        assert_close(id, other, one);
    }
}

/// Nothing lies beyond the outer fibre; a plank has no other width and no web.
#[test]
fn only_what_can_be_done_is_done() {
    let plank = section(vec![("plank", rectangle(0.0, 0.0, 0.1, 0.2))]);
    let plank = plank.cut(0.2, HeightSide::Below, HeightSide::Above).solved();
    let ids = ["q-to-the-cut", "q-of-the-whole-area", "v-over-the-part", "width-of-the-other-side"];
    for id in ids.into_iter().chain(["mean-over-the-web", "depth-for-width", "largest-at-the-edge"]) {
        let at_cut = workings::mistake::all(&plank).iter().any(|made| {
            let replaced = &plank.workings().working(made.working()).name;
            made.id() == id && (replaced.ends_with("at the cut") || replaced.ends_with("on the cut"))
        });
        assert!(!at_cut, "{id}");
    }
    assert_eq!(count(&plank, "largest-at-the-edge"), 0);
}

/// Who takes one web of a box instead of two has half the width and twice the stress.
#[test]
fn half_the_width_needs_a_second_web() {
    let solved = tube().solved();
    let right = solved.value(solved.workings().id(TAU).expect("there is a cut"));
    let found = values(&solved, "cut-not-the-shortest", T, TAU);
    let [one, other] = found[..] else { panic!("{found:?}") };
    assert_close("half", one, 2.0 * right);
    assert_close("twice", other, 0.5 * right);
}

/// The nails hold the part beyond the cut, so a Q that is wrong there is wrong for them: half of 240 N/mm. Those of another cut have a
/// Q of their own.
#[test]
fn a_joint_of_the_cut_goes_on_with_its_first_moment() {
    let found = values(&nailed().solved(), "q-to-the-cut", Q, "shear flow at nails");
    assert_eq!(found.len(), 1);
    assert_close("flow", found[0], 120e3);
    let elsewhere = nailed().cut(0.060, HeightSide::Below, HeightSide::Below).solved();
    let at = |name: &str| elsewhere.workings().id(name).expect("it is there");
    let changed = elsewhere.workings().downstream(&[at(Q)]);
    assert!(!changed[at("shear flow at nails").0 as usize]);
}

/// A lesson that cuts elsewhere still has an edge of the web: tau there is 12 MPa.
#[test]
fn the_edge_of_the_web_need_not_be_the_cut() {
    let solved = reference().cut(0.060, HeightSide::Below, HeightSide::Below).solved();
    let found = values(&solved, "largest-at-the-edge", MOST, MOST);
    assert_eq!(found.len(), 1);
    assert_close("edge", found[0], 12e6);
}
