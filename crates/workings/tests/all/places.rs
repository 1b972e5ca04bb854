//! Stations and cuts at awkward places, and lessons that cannot be solved.

use crate::common::{Maker, assert_close, assert_within, rectangle, reference, value};
use mechanics::beam::Side;
use mechanics::section::HeightSide::{Above, Below};
use workings::derivation::{Remainder, derivation};
use workings::expression::Expression;
use workings::notation::{Notation, Profile};
use workings::print;
use workings::solved::{SolveFault, Solved};
use workings::style::Style;
use workings::value::values;

/// Closed form: V = R_A - P - w (x - 2 m).
#[test]
fn the_same_lesson_at_another_place() {
    let solved = reference().solved();
    let other = solved.at(3.0, 0.105, Below).expect("on the beam and on the section");
    assert_close("V", value(&other, "shear force at the slice"), -15e3);
    assert_close("tau", value(&other, "shear stress on the cut"), -15e3 * 110.25e-6 / (11.25e-6 * 0.020));
}

/// At a force V jumps: the value right of it counts, and that left of it is told too.
#[test]
fn a_slice_at_a_force() {
    let solved = reference().slice(1.0, 0.050).solved();
    assert_close("right", value(&solved, "shear force at the slice"), 5e3);
    assert_close("left", value(&solved, "shear force just left of the slice"), 25e3);
}

/// At the right end the values just left of it count, and the slice lies left of it.
#[test]
fn at_the_right_end() {
    let solved = reference().solved();
    let end = solved.at(4.0, 0.120, Below).expect("the end belongs to the beam");
    assert_close("V", value(&end, "shear force at the slice"), -35e3);
    assert_within("M", value(&end, "bending moment at the slice"), 0.0, 1e-9);
    assert_close("left face", value(&end, "station of the left face"), 3.95);
    assert_within("M on the right", value(&end, "bending moment on the right face"), 0.0, 1e-9);
    let near = solved.at(3.99, 0.120, Below).expect("the slice is shortened");
    assert_within("slice", value(&near, "length of the slice"), 0.01, 1e-12);
}

/// Nothing lies beyond the outer fibre: no first moment, no stress.
#[test]
fn a_cut_at_the_outer_fibre() {
    let solved = reference().solved();
    for (height, side, beyond) in [(0.150, Below, Above), (0.0, Above, Below)] {
        let mut problem = solved.problem().clone();
        problem.cut.beyond = beyond;
        problem.cut.height = height;
        problem.cut.side = side;
        let outer = Solved::new(problem, Style::default()).expect("the outer fibre can be asked for");
        assert_eq!(value(&outer, "first moment at the cut"), 0.0);
        assert_eq!(value(&outer, "shear stress on the cut"), 0.0);
        assert_eq!(value(&outer, "force on the cut"), 0.0);
    }
}

/// The whole section lies beyond: Q of the whole section about its own centroid is zero.
#[test]
fn a_cut_that_leaves_nothing_behind() {
    let solved = reference().cut(0.0, Above, Above).solved();
    assert_within("Q", value(&solved, "first moment at the cut"), 0.0, 1e-18);
}

/// With the depth axis down the cut above the neutral axis lies at a negative distance, and the stress is the same.
#[test]
fn with_the_depth_axis_down() {
    let style = Style { notation: Notation::of(Profile::CodeAxes), ..Style::default() };
    let solved = Solved::new(reference().problem, style).expect("the same lesson in another notation");
    assert_close("z'", value(&solved, "distance of the cut from the neutral axis"), -0.015);
    assert_close("sigma", value(&solved, "bending stress at the cut"), -25e6);
    assert_close("tau", value(&solved, "shear stress on the cut"), 12e6);
    for step in derivation(&solved) {
        assert!(step.residual.is_none_or(|closure| closure.closes()), "{}", step.title);
    }
    let cut = solved.workings().id("bending stress at the cut").expect("a working");
    let formula = solved.workings().formula(cut).expect("a formula");
    assert_eq!(print::plain(&formula, solved.style()), "M_y z′/I_y");
}

/// By hand: the integral of the depth over the part beyond is Q where that part lies on the positive side of the axis, and -Q elsewhere.
/// So where the resultant is `a (M/I) ∫` and `b M Q/I`, and the stress `c (dM/dx)/(I t) ∫`, c must be a b: with the axis up and down, and with
/// the part above and below.
#[test]
fn the_signs_of_the_derivation_agree() {
    let sign = |of: &Expression| if matches!(of, Expression::Negative(_)) { -1.0 } else { 1.0 };
    for (profile, down) in [(Profile::Upward, false), (Profile::Downward, true)] {
        for (beyond, above) in [(Above, true), (Below, false)] {
            let style = Style { notation: Notation::of(profile), ..Style::default() };
            let problem = reference().cut(0.120, Below, beyond).problem;
            let solved = Solved::new(problem, style).expect("a sound lesson");
            let steps = derivation(&solved);
            let of = |title: &str| {
                let step = steps.iter().find(|step| step.title == title).expect("a step");
                match &step.symbols[0] {
                    Expression::Equal(sides) => sides.clone(),
                    other => panic!("{other:?}"),
                }
            };
            let (resultant, divided) =
                (of("Resultant on the part beyond the cut"), of("Divide by the area of the cut"));
            let [a, b] = [2, 3].map(|place| sign(&resultant[place]));
            assert_eq!(sign(&divided[1]), a * b, "{profile:?} {beyond:?}");
            assert_eq!(a * b > 0.0, above != down, "{profile:?} {beyond:?}");
            assert!(steps.iter().all(|step| step.residual.is_none_or(|closure| closure.closes())));
        }
    }
}

/// All that is wrong is told at once.
#[test]
fn faults_of_beam_section_and_cut_together() {
    let mut problem = reference().problem;
    problem.beam.supports.pop();
    problem.supports.pop();
    problem.cut.height = 0.2;
    problem.slice.at = 9.0;
    let faults = Solved::new(problem, Style::default()).expect_err("a mechanism with a cut off the section");
    assert!(faults.iter().any(|fault| matches!(fault, SolveFault::Beam(_))), "{faults:?}");
    assert!(faults.iter().any(|fault| matches!(fault, SolveFault::CutMisses { .. })), "{faults:?}");
    assert!(faults.iter().any(|fault| matches!(fault, SolveFault::SliceOffBeam { .. })), "{faults:?}");
    assert!(faults.iter().all(|fault| !fault.is_ours()));
}

/// Under a uniform load the mean over the slice differs from the formula by w dx Q / (2 I t): half the slice, half the
/// difference.
#[test]
fn the_slice_tends_to_the_formula() {
    let solved = Maker::new(4.0, vec![("plank", rectangle(0.0, 0.0, 0.1, 0.2))])
        .pin("A", 0.0)
        .pin("B", 4.0)
        .spread("w", 0.0, 4.0, 10e3)
        .slice(1.0, 0.4)
        .solved();
    let approach = &solved.slice().approach;
    assert_eq!(approach.len(), 6);
    let first = -10e3 * 0.4 / 2.0 * 1.5 / 0.02;
    assert_within("first", solved.value(approach[0].difference), first, 1e-3);
    for line in &approach[1..] {
        let ratio = line.ratio.expect("there is a difference to halve");
        assert_within("ratio", solved.value(ratio), 2.0, 1e-6);
    }
}

/// What the last step leaves is told for what it is. Closed form: under a uniform load the mean of V over the slice lies w dx/2
/// below its left face, so half the slice leaves half; without a load on the slice what is left is rounding.
#[test]
fn what_a_finite_slice_leaves_is_no_rounding() {
    let limit = |maker: Maker| {
        let mut steps = derivation(&maker.solved()).into_iter();
        steps
            .find_map(|step| step.residual.filter(|_| step.title == "Let the slice shrink"))
            .expect("the step")
    };
    let beam = || Maker::new(4.0, vec![("plank", rectangle(0.0, 0.0, 0.1, 0.2))]).pin("A", 0.0).pin("B", 4.0);
    for length in [0.4, 0.2] {
        let left = limit(beam().spread("w", 0.0, 4.0, 10e3).slice(1.0, length));
        assert_eq!(left.from, Remainder::FiniteSlice);
        assert_close("w dx/2", left.residual.value, -10e3 * length / 2.0);
    }
    // The force stands a quarter of the slice from its left face, so V is less by P on three quarters of it.
    let jumped = limit(beam().spread("w", 3.0, 3.5, 1.0).force("P", 1.1, 10e3).slice(1.0, 0.4));
    assert_eq!(jumped.from, Remainder::LoadAtPoint);
    assert_close("three quarters of P", jumped.residual.value, -7.5e3);
    assert_eq!(limit(beam().force("P", 2.0, 10e3).slice(1.0, 0.4)).from, Remainder::Rounding);
}

/// Two loads, a support and a load of one name, planks of one name: the names and symbols stay apart.
#[test]
fn names_that_meet() {
    let planks = vec![("plank", rectangle(0.0, 0.0, 0.1, 0.05)), ("plank", rectangle(0.0, 0.05, 0.1, 0.05))];
    let solved = Maker::new(4.0, planks)
        .pin("A", 0.0)
        .pin("B", 4.0)
        .force("A", 1.0, 1e3)
        .force("P", 2.0, 1e3)
        .force("P", 3.0, 1e3)
        .solved();
    assert_close("area", value(&solved, "area of plank (2)"), 0.005);
    assert_close("force", value(&solved, "force P (2)"), 1e3);
}

/// The rows of the table hold what the graph holds, in SI with its unit.
#[test]
fn the_table_of_values() {
    let rows = values(&reference().solved());
    let row =
        |name: &str| rows.iter().find(|row| row.name == name).unwrap_or_else(|| panic!("no row {name}"));
    let tau = row("shear stress on the cut");
    assert_eq!((tau.symbol.as_str(), tau.unit.as_str(), tau.shown.as_str()), ("τ", "Pa", "12.00\u{a0}MPa"));
    assert_close("tau", tau.value, 12e6);
    assert_eq!(tau.formula.as_deref(), Some("V Q/(I t)"));
    assert_eq!((tau.station, tau.height, tau.height_side), (Some(0.75), Some(0.120), Some("below")));
    let load = row("force P");
    assert_eq!((load.shown.as_str(), &load.formula), ("20\u{a0}kN", &None));
}

/// Timber on a steel plate of 20 times its modulus, cut at the joint: each side has the stress of its own material.
/// Closed form: sigma = n M y / I of the transformed section; Mohr's circle for the rest.
#[test]
fn stresses_at_a_cut_between_two_materials() {
    let mut plate = rectangle(0.0, 0.0, 0.1, 0.01);
    plate.modular_ratio = 20.0;
    let timber = rectangle(0.0, 0.01, 0.1, 0.2);
    let solved = Maker::new(4.0, vec![("plate", plate), ("timber", timber)])
        .pin("A", 0.0)
        .pin("B", 4.0)
        .force("P", 2.0, 10e3)
        .slice(1.0, 0.05)
        .cut(0.01, Below, Below)
        .solved();
    // Two transformed rectangles of 0.02 m2 each, centroids 5 mm and 110 mm up.
    let axis = (0.005 + 0.110) / 2.0;
    let second = 20.0 * 0.1 * 0.01_f64.powi(3) / 12.0
        + 0.1 * 0.2_f64.powi(3) / 12.0
        + 2.0 * 0.02 * (0.0525_f64).powi(2);
    let in_timber = 5e3 * (axis - 0.01) / second;
    let tau = value(&solved, "shear stress on the cut");
    let sigma = 20.0 * in_timber;
    let radius = (sigma * sigma / 4.0 + tau * tau).sqrt();
    assert_close("in-plane shear", value(&solved, "largest shear stress in the plane at the cut"), radius);
    assert_close("largest", value(&solved, "largest principal stress at the cut"), sigma / 2.0 + radius);
    let at = solved.values_at_cut(1.0, Side::Right, 0.01).expect("the cut meets the section");
    let of = |name: &str| at.iter().find(|row| row.name == name).expect("a row").value;
    assert_close("plate", of("bending stress in plate"), sigma);
    assert_close("timber", of("bending stress in timber"), in_timber);
}
