//! Worked examples of textbooks and tables of handbooks, through the whole graph. All from memory; each printed
//! number was recomputed. Published: to half the last printed digit.

use crate::common::{Maker, assert_close, assert_within, rectangle, tee, value};
use mechanics::beam::{Hold, Support};
use mechanics::section::HeightSide::{Above, Below};
use workings::problem::SupportKind;

const INCH: f64 = 0.0254;
const POUND: f64 = 4.448_221_615_260_5;
const PSI: f64 = POUND / (INCH * INCH);

/// Source: Beer & Johnston, Mechanics of Materials, sample problem on a beam of three nailed planks, 20 mm x 100 mm,
/// V = 500 N, nails 25 mm apart: Q = 120e-6 m³, I = 16.20e-6 m⁴, q = 3704 N/m, 92.6 N on each nail.
#[test]
fn three_planks_nailed_to_an_i() {
    let planks = vec![
        ("upper plank", rectangle(0.0, 0.120, 0.100, 0.020)),
        ("middle plank", rectangle(0.040, 0.020, 0.020, 0.100)),
        ("lower plank", rectangle(0.0, 0.0, 0.100, 0.020)),
    ];
    let solved = Maker::new(2.0, planks)
        .pin("A", 0.0)
        .pin("B", 2.0)
        .force("P", 1.0, 1000.0)
        .slice(0.5, 0.025)
        .nails("upper nails", &[0], 1, Some(0.025), None)
        .solved();
    assert_within("Q", value(&solved, "first moment at upper nails"), 120e-6, 0.5e-9);
    assert_within("I", value(&solved, "second moment"), 16.20e-6, 0.005e-6);
    assert_within("q", value(&solved, "shear flow at upper nails"), 3704.0, 0.5);
    assert_within("F", value(&solved, "force on one fastener of upper nails"), 92.6, 0.05);
}

/// Source: Hibbeler, Mechanics of Materials, box beam of four boards 1.5 in thick, 7.5 in outside, nails of 30 lb in
/// two rows, V = 80 lb: spacing 5.10 in at the top and 8.50 in at the bottom.
#[test]
fn nails_of_a_box_of_four_boards() {
    let inches = |x: f64, y: f64, b: f64, h: f64| rectangle(x * INCH, y * INCH, b * INCH, h * INCH);
    let boards = vec![
        ("top", inches(0.0, 6.0, 7.5, 1.5)),
        ("left", inches(0.0, 0.0, 1.5, 6.0)),
        ("right", inches(6.0, 0.0, 1.5, 6.0)),
        ("bottom", inches(1.5, 0.0, 4.5, 1.5)),
    ];
    let solved = Maker::new(4.0, boards)
        .pin("A", 0.0)
        .pin("B", 4.0)
        .force("P", 2.0, 160.0 * POUND)
        .slice(1.0, 0.05)
        .nails("top nails", &[0], 2, None, Some(30.0 * POUND))
        .nails("bottom nails", &[3], 2, None, Some(30.0 * POUND))
        .solved();
    let inches = |name: &str| value(&solved, name) / INCH;
    assert_within("top", inches("largest spacing at top nails"), 5.10, 0.005);
    assert_within("bottom", inches("largest spacing at bottom nails"), 8.50, 0.005);
}

/// Source: Gere, Mechanics of Materials, example on a metal beam of 1 m under 28 kN/m, 25 mm x 100 mm, at a point 25 mm
/// below the top and 200 mm from the right support: M = 2240 N m, V = -8400 N, sigma = -26.9 MPa, tau = -3.8 MPa.
#[test]
fn a_point_of_a_rectangular_beam() {
    let solved = Maker::new(1.0, vec![("beam", rectangle(0.0, 0.0, 0.025, 0.100))])
        .pin("A", 0.0)
        .pin("B", 1.0)
        .spread("q", 0.0, 1.0, 28e3)
        .slice(0.8, 0.01)
        .cut(0.075, Below, Above)
        .solved();
    assert_close("M", value(&solved, "bending moment at the slice"), 2240.0);
    assert_close("V", value(&solved, "shear force at the slice"), -8400.0);
    assert_within("sigma", value(&solved, "bending stress at the cut"), -26.9e6, 0.05e6);
    assert_within("tau", value(&solved, "shear stress on the cut"), -3.8e6, 0.05e6);
}

/// Source: Gere, Mechanics of Materials, example on a wide-flange beam: b = 165, t = 7.5, h = 320, h1 = 290 mm,
/// V = 45 kN: I = 130.45e6 mm⁴, tau 21.0 MPa at the axis, 17.4 MPa at the top of the web.
#[test]
fn the_web_of_a_wide_flange_beam() {
    let parts = vec![
        ("upper flange", rectangle(0.0, 0.305, 0.165, 0.015)),
        ("web", rectangle(0.07875, 0.015, 0.0075, 0.290)),
        ("lower flange", rectangle(0.0, 0.0, 0.165, 0.015)),
    ];
    let solved = Maker::new(2.0, parts)
        .pin("A", 0.0)
        .pin("B", 2.0)
        .force("P", 1.0, 90e3)
        .slice(0.5, 0.01)
        .cut(0.305, Below, Above)
        .solved();
    assert_within("I", value(&solved, "second moment"), 130.45e-6, 0.005e-6);
    assert_within("tau at the axis", value(&solved, "shear stress at the neutral axis"), 21.0e6, 0.05e6);
    assert_within("tau on the cut", value(&solved, "shear stress on the cut"), 17.4e6, 0.05e6);
}

/// Source: Gere, Mechanics of Materials, example on a T-beam: flange 4 in x 1 in, web 1 in x 7 in, V = 10 000 lb:
/// tau 1460 psi at the top of the web, 1760 psi the largest. Closed form: y = 54.5/11 in,
/// I = 4/12 + 4 (7.5 - y)² + 343/12 + 7 (y - 3.5)².
#[test]
fn the_web_of_a_t_beam() {
    let parts = tee((4.0 * INCH, 1.0 * INCH), (1.0 * INCH, 7.0 * INCH));
    let solved = Maker::new(2.0, parts)
        .pin("A", 0.0)
        .pin("B", 2.0)
        .force("P", 1.0, 20_000.0 * POUND)
        .slice(0.5, 0.01)
        .cut(7.0 * INCH, Below, Above)
        .solved();
    let y: f64 = 54.5 / 11.0;
    let i = 4.0 / 12.0 + 4.0 * (7.5 - y).powi(2) + 343.0 / 12.0 + 7.0 * (y - 3.5).powi(2);
    assert_close("I", value(&solved, "second moment") / INCH.powi(4), i);
    assert_within("tau on the cut", value(&solved, "shear stress on the cut") / PSI, 1460.0, 5.0);
    assert_within("largest", value(&solved, "largest shear stress over the depth") / PSI, 1760.0, 5.0);
}

fn plank() -> Vec<(&'static str, mechanics::section::Part)> {
    vec![("plank", rectangle(0.0, 0.0, 0.1, 0.2))]
}

/// Source: AISC Steel Construction Manual, table of shears, moments and deflections, beam fixed at one end, supported
/// at the other, uniform load: R = 3 w l / 8 and 5 w l / 8, M = w l² / 8.
#[test]
fn a_propped_cantilever_by_the_force_method() {
    let solved = Maker::new(4.0, plank()).fixed("A", 0.0).pin("B", 4.0).spread("w", 0.0, 4.0, 6e3).solved();
    assert_close("R_B", value(&solved, "reaction at B"), 9e3);
    assert_close("R_A", value(&solved, "reaction at A"), 15e3);
    assert_close("M_A", value(&solved, "largest hogging moment"), -12e3);
    assert_close("couple", value(&solved, "couple at A"), 12e3);
}

/// Source: as above, continuous beams of equal spans under uniform load: two spans 0.375, 1.25, 0.375 w l; three spans
/// 0.400, 1.100, 1.100, 0.400 w l. The second has two redundants, solved by determinants.
#[test]
fn continuous_beams_by_the_force_method() {
    let two = Maker::new(8.0, plank())
        .pin("A", 0.0)
        .pin("B", 4.0)
        .pin("C", 8.0)
        .spread("w", 0.0, 8.0, 1e3)
        .solved();
    assert_within("two spans", value(&two, "reaction at B"), 5e3, 1e-6);
    let three = Maker::new(12.0, plank())
        .pin("A", 0.0)
        .pin("B", 4.0)
        .pin("C", 8.0)
        .pin("D", 12.0)
        .spread("w", 0.0, 12.0, 1e3)
        .solved();
    for (name, expected) in [("A", 1.6e3), ("B", 4.4e3), ("C", 4.4e3), ("D", 1.6e3)] {
        assert_within(name, value(&three, &format!("reaction at {name}")), expected, 1e-6);
    }
}

/// Source: as above, five equal spans: 0.395, 1.132, 0.974 w l. More redundants than a reader can follow: the engine
/// finds them, and they follow the loads when those are replaced.
#[test]
fn five_spans_by_the_engine() {
    let mut maker = Maker::new(20.0, plank()).spread("w", 0.0, 20.0, 1e3);
    for (place, name) in ["A", "B", "C", "D", "E", "F"].into_iter().enumerate() {
        maker = maker.pin(name, 4.0 * place as f64);
    }
    let solved = maker.solved();
    for (name, expected) in [("A", 0.395), ("B", 1.132), ("C", 0.974)] {
        let share = value(&solved, &format!("reaction at {name}")) / 4e3;
        assert_within(name, share, expected, 0.5e-3);
    }
    let workings = solved.workings();
    let load = workings.id("intensity of spread load w").expect("the load is given");
    let doubled = workings::evaluate::Replacement::Value(2e3);
    let values = workings.evaluate_with(&[(load, doubled)]).expect("a value can be put in");
    let b = workings.id("reaction at B").expect("B holds the beam up");
    assert_within("doubled", values[b.0 as usize], 2.0 * value(&solved, "reaction at B"), 1e-6);
}

/// Closed form: from 2 m on two loads that fall to zero cancel each other, so V and M are zero there; before it they leave
/// -3 kN/m falling to -1.5 kN/m, 4.5 kN up at 2/3 m + 2/9 m from the fixed end.
#[test]
fn loads_that_cancel_each_other() {
    let solved = Maker::new(4.0, plank())
        .fixed("A", 0.0)
        .linear("w1", (2.0, 4.0), (1.5e3, 0.0))
        .linear("w2", (0.0, 4.0), (-3e3, 0.0))
        .slice(1.0, 0.1)
        .solved();
    assert_close("R_A", value(&solved, "reaction at A"), -4.5e3);
    assert_close("couple", value(&solved, "couple at A"), -4.5e3 * 8.0 / 9.0);
    assert_within("M", value(&solved, "bending moment at the end of spread load w1"), 0.0, 1e-9);
}

/// Source: as above, beam fixed at both ends, uniform load: w l / 2, w l² / 12 at the ends, w l² / 24 in the middle.
#[test]
fn a_beam_fixed_at_both_ends() {
    let solved = Maker::new(6.0, plank()).fixed("A", 0.0).fixed("B", 6.0).spread("w", 0.0, 6.0, 2e3).solved();
    assert_within("R_A", value(&solved, "reaction at A"), 6e3, 1e-6);
    assert_within("C_A", value(&solved, "couple at A"), 6e3, 1e-5);
    assert_within("C_B", value(&solved, "couple at B"), -6e3, 1e-5);
    assert_within("M", value(&solved, "largest sagging moment"), 3e3, 1e-5);
}

/// Closed form: a hinged (Gerber) beam, pins at 0 and 4 m, hinge at 6 m, roller at 10 m, 12 kN at 8 m: each end of the
/// hung piece carries 6 kN; moments about the pin at 4 m: R_A = -6·2/4 = -3 kN, R_B = 9 kN, M_B = -12 kN m.
#[test]
fn a_hinged_beam_piece_by_piece() {
    let solved = Maker::new(10.0, plank())
        .pin("A", 0.0)
        .pin("B", 4.0)
        .pin("C", 10.0)
        .hinge(6.0)
        .force("P", 8.0, 12e3)
        .solved();
    for (name, expected) in [
        ("force in the hinge", 6e3),
        ("reaction at C", 6e3),
        ("reaction at A", -3e3),
        ("reaction at B", 9e3),
        ("largest hogging moment", -12e3),
        ("largest sagging moment", 12e3),
    ] {
        assert_close(name, value(&solved, name), expected);
    }
}

/// Closed form: two spans of l = 5 m whose middle support is a spring of k = 48 E I / (2 l)³: the spring and the beam
/// share the load as if in series, R = (5/8) w 2l / (1 + 1).
#[test]
fn a_spring_under_the_middle() {
    let maker = Maker::new(10.0, plank()).pin("A", 0.0).spread("w", 0.0, 10.0, 4e3);
    let stiffness = 48.0 * maker.problem.beam.flexural_rigidity / 1000.0;
    let spring = Support { station: 5.0, transverse: Hold::Spring { stiffness }, rotation: Hold::Free };
    let solved = maker.support("B", SupportKind::Spring, spring).pin("C", 10.0).solved();
    assert_within("R_B", value(&solved, "reaction at B"), 12.5e3, 1e-6);
}

/// Closed form: a composite section, timber 100 x 200 mm with a steel plate 100 x 10 mm below, n = 20: the plate counts
/// as 2000 mm wide, y = (20 000·110 + 20 000·5)/40 000 = 57.5 mm; the stress in the plate is 20 times that of the
/// transformed section.
#[test]
fn timber_with_a_steel_plate() {
    let mut plate = rectangle(0.0, 0.0, 0.100, 0.010);
    plate.modular_ratio = 20.0;
    let timber = rectangle(0.0, 0.010, 0.100, 0.200);
    let solved = Maker::new(4.0, vec![("timber", timber), ("plate", plate)])
        .pin("A", 0.0)
        .pin("B", 4.0)
        .force("P", 2.0, 10e3)
        .slice(1.0, 0.01)
        .cut(0.010, Above, Below)
        .solved();
    assert_close("centroid", value(&solved, "centroid height"), 0.0575);
    let i = 100.0 * 200.0_f64.powi(3) / 12.0 + 2e4 * 52.5 * 52.5 + 2000.0 * 1000.0 / 12.0 + 2e4 * 52.5 * 52.5;
    assert_close("I", value(&solved, "second moment"), i * 1e-12);
    assert_close("bottom", value(&solved, "bending stress at the bottom"), 20.0 * 5e6 * 57.5 / i * 1e6);
    let tau = 5e3 * (2e4 * 52.5) / (i * 100.0);
    assert_close("tau", value(&solved, "shear stress on the cut"), tau * 1e6);
}
