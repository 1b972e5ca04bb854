//! Further straight cuts of a lesson: an upright one through a flange, a sloping one across a web.

use crate::common::{Maker, assert_close, rectangle, value};
use mechanics::section::Point;
use workings::problem::FurtherCut;
use workings::solved::Solved;
use workings::working::Formula;

fn with_cut(from: (f64, f64), to: (f64, f64), keep: (f64, f64)) -> Solved {
    let point = |(x, y): (f64, f64)| Point { x, y };
    let parts = vec![
        ("lower flange", rectangle(0.0, 0.0, 0.12, 0.02)),
        ("web", rectangle(0.055, 0.02, 0.01, 0.16)),
        ("upper flange", rectangle(0.0, 0.18, 0.12, 0.02)),
    ];
    let mut maker = Maker::new(4.0, parts).pin("A", 0.0).pin("B", 4.0).force("P", 2.0, 20e3);
    maker.problem.further_cuts =
        vec![FurtherCut { name: "the slit".into(), from: point(from), to: point(to), keep: point(keep) }];
    maker.solved()
}

/// I = (120·200³ - 110·160³)/12 mm⁴.
const SECOND_MOMENT: f64 = (0.12 * 0.2 * 0.2 * 0.2 - 0.11 * 0.16 * 0.16 * 0.16) / 12.0;

/// The flow in a flange at a distance x from its tip is `V (h/2) x t / I` and the stress `V (h/2) x / I`, h from middle to middle of
/// the flanges (Gere and Timoshenko, Mechanics of Materials, on the shear centre of thin-walled sections; from memory).
#[test]
fn an_upright_cut_through_a_flange() {
    let x = 0.04;
    let solved = with_cut((x, 0.17), (x, 0.21), (0.01, 0.19));
    assert_close("A'", value(&solved, "area beyond the slit"), x * 0.02);
    assert_close("arm", value(&solved, "centroid distance of the part beyond the slit"), 0.09);
    // Of a plain rectangle that is worked out by hand, with the breadth beyond the cut.
    assert_close("breadth", value(&solved, "breadth beyond the slit"), x);
    for name in ["area beyond the slit", "centroid distance of the part beyond the slit"] {
        let formula = solved.workings().get(name).map(|working| working.formula.clone());
        assert!(matches!(formula, Some(Formula::Expression(_))), "{name}: {formula:?}");
    }
    assert_close("t", value(&solved, "length of the slit"), 0.02);
    assert_close("q", value(&solved, "shear flow on the slit"), 10e3 * 0.09 * x * 0.02 / SECOND_MOMENT);
    assert_close("tau", value(&solved, "shear stress on the slit"), 10e3 * 0.09 * x / SECOND_MOMENT);
}

/// A cut that slopes across the web frees the same first moment on either side, and is longer than the web is thick: at 45° by √2.
#[test]
fn a_sloping_cut_across_the_web() {
    let (from, to) = ((0.055 - 0.005, 0.10 - 0.010), (0.065 + 0.005, 0.10 + 0.010));
    let [above, below] = [(0.06, 0.19), (0.06, 0.01)]
        .map(|keep| value(&with_cut(from, to, keep), "first moment beyond the slit"));
    assert_close("Q", above, below);
    // Flange, web above the axis, and the two halves of the cut, of which one is missing above it and one is not below.
    let by_hand = 0.12 * 0.02 * 0.09 + 0.01 * 0.08_f64.powi(2) / 2.0 - 0.01 * 0.01_f64.powi(2) / 24.0;
    assert_close("Q", above, by_hand);
    let solved = with_cut(from, to, (0.06, 0.19));
    assert_close("t", value(&solved, "length of the slit"), 0.01 * 2.0_f64.sqrt());
    let flow = 10e3 * above / SECOND_MOMENT;
    assert_close("tau", value(&solved, "shear stress on the slit"), flow / (0.01 * 2.0_f64.sqrt()));
}

/// A cut that parts nothing has no workings, and the rest of the lesson stands.
#[test]
fn a_cut_that_parts_nothing() {
    let solved = with_cut((0.2, 0.0), (0.3, 0.1), (0.06, 0.19));
    assert!(solved.further_cuts().is_empty());
}
