//! Usual mistakes of students as replacements of one formula, in the reference lesson. Closed form: the wrong formula
//! evaluated by hand with the lesson's exact numbers.

mod common;

use common::{assert_close, reference};
use workings::evaluate::{CoherentUnits, EvaluationError, Replacement};
use workings::expression::Expression;
use workings::solved::Solved;
use workings::working::Id;

const MM: CoherentUnits = CoherentUnits::NEWTON_MILLIMETRE;

struct Lesson(Solved);

impl Lesson {
    fn id(&self, name: &str) -> Id {
        self.0.workings().id(name).unwrap_or_else(|| panic!("no working {name:?}"))
    }

    fn e(&self, name: &str) -> Expression {
        self.id(name).into()
    }

    /// The value of `asked` when the formula of `replaced` is another one of the same dimension.
    fn with(&self, replaced: &str, by: Expression, asked: &str) -> f64 {
        self.replace(replaced, Replacement::Expression(by), asked)
    }

    /// The same, computed with plain numbers in N and mm.
    fn with_numbers(&self, replaced: &str, by: Expression, asked: &str) -> f64 {
        self.replace(replaced, Replacement::Numbers(by, MM), asked)
    }

    fn replace(&self, replaced: &str, by: Replacement, asked: &str) -> f64 {
        let values = self.0.workings().evaluate_with(&[(self.id(replaced), by)]);
        values.expect("the replacement can be evaluated")[self.id(asked).0 as usize]
    }
}

fn lesson() -> Lesson {
    Lesson(reference().solved())
}

fn at_3_m() -> Lesson {
    Lesson(reference().slice(3.0, 0.050).solved())
}

fn half(e: Expression) -> Expression {
    e / 2.0.into()
}

#[test]
fn mistakes_of_the_reactions() {
    let l = lesson();
    let loads = l.e("force P") + l.e("resultant of spread load w");
    assert_close("equal-shares", l.with("reaction at A", half(loads), "reaction at A"), 30e3);
    let resultant = "resultant of spread load w";
    let station = "station of the resultant of spread load w";
    let start = l.e("start of spread load w");
    assert_close("spread-load-at-its-start", l.with(station, start, "reaction at A"), 35e3);
    assert_close(
        "spread-load-at-its-end",
        l.with(station, l.e("end of spread load w"), "reaction at A"),
        15e3,
    );
    let none = l.replace(resultant, Replacement::Value(0.0), "reaction at A");
    assert_close("spread-load-left-out", none, 15e3);
    let kn = Replacement::Numbers(l.e("intensity of spread load w"), CoherentUnits::KILONEWTON_METRE);
    assert_close("intensity-as-force", l.replace(resultant, kn, "reaction at A"), 20e3);
    // The right value of a working that stands later and depends on the replaced one.
    let other = l.e("reaction at B");
    assert_close("arm-from-the-other-support", l.with("reaction at A", other, "reaction at A"), 35e3);
}

#[test]
fn mistakes_of_shear_force_and_bending_moment() {
    let l = at_3_m();
    let (v, m) = ("shear force at the slice", "bending moment at the slice");
    let (p, w) = (l.e("force P"), l.e("resultant of spread load w left of the slice"));
    assert_close("reaction-forgotten", l.with(v, -(p.clone() + w), v), -40e3);
    let whole = l.e("resultant of spread load w");
    let not_cut = l.e("reaction at A") - p.clone() - whole;
    assert_close("spread-load-not-cut", l.with(v, not_cut, v), -35e3);
    let part = "resultant of spread load w left of the slice";
    assert_close("spread-load-forgotten", l.replace(part, Replacement::Value(0.0), v), 5e3);
    let arm = "arm of spread load w left of the slice";
    let whole_length = l.e("length of spread load w left of the slice");
    assert_close("spread-load-full-arm", l.with(arm, whole_length, m), 15e3);
    let v_times_x = l.e(v) * l.e("station of the slice");
    assert_close("v-times-x", l.with(m, v_times_x, m), -45e3);

    let l = lesson();
    let left = "shear force just left of force P";
    let right = l.e("shear force just right of force P");
    assert_close("wrong-side-of-the-jump", l.with(left, right, left), 5e3);
    let most = "largest sagging moment";
    assert_close("m-max-under-the-force", l.with(most, l.e("bending moment at force P"), most), 25e3);
}

#[test]
fn mistakes_of_the_section() {
    let l = lesson();
    let (n, i) = ("centroid height", "second moment");
    let (top, bottom) = (l.e("height of the top fibre"), l.e("height of the bottom fibre"));
    assert_close("axis-at-mid-depth", l.with(n, half(top.clone() - bottom), n), 0.075);
    let (y1, y2) = (l.e("centroid height of flange"), l.e("centroid height of web"));
    assert_close("centroid-unweighted", l.with(n, half(y1 + y2), n), 0.0975);
    let (i1, i2) = (l.e("own second moment of flange"), l.e("own second moment of web"));
    let (a1, a2) = (l.e("area of flange"), l.e("area of web"));
    let d1 = l.e("distance of flange from the neutral axis");
    let d2 = l.e("distance of web from the neutral axis");
    let own = i1.clone() + i2.clone();
    assert_close("no-parallel-axis", l.with(i, own.clone(), i), 3.15e-6);
    let steiner = a1.clone() * d1.clone().power(2) + a2.clone() * d2.clone().power(2);
    assert_close("only-parallel-axis", l.with(i, steiner, i), 8.10e-6);
    let not_squared = own + a1 * d1.size() + a2 * d2.size();
    assert_close("distance-not-squared", l.with_numbers(i, not_squared, i), 3.366e-6);
    let about_base = l.e(i) + l.e("area") * l.e(n).power(2);
    assert_close("about-the-base", l.with(i, about_base, i), 77.4e-6);
    let about_middle = l.e(i) + l.e("area") * (l.e(n) - half(top.clone())).power(2);
    assert_close("about-mid-depth", l.with(i, about_middle, i), 16.65e-6);
    let turned = |part: &str| {
        l.e(&format!("height of {part}")) * l.e(&format!("breadth of {part}")).power(3) / 12.0.into()
    };
    assert_close("wrong-axis", l.with(i, turned("flange") + turned("web"), i), 4.40e-6);
    let outer = l.e("breadth of flange") * top.power(3) / 12.0.into();
    assert_close("outer-rectangle", l.with(i, outer, i), 33.75e-6);
}

#[test]
fn mistakes_of_the_bending_stress() {
    let l = lesson();
    let (m, i) = (l.e("bending moment at the slice"), l.e("second moment"));
    let sigma = |y: Expression| m.clone() * y / i.clone();
    let (top, bottom, cut) =
        ("bending stress at the top", "bending stress at the bottom", "bending stress at the cut");
    let height = l.e("height of the top fibre");
    assert_close("y-from-the-base", l.with(top, -sigma(height.clone()), top), -250e6);
    assert_close("half-depth", l.with(bottom, sigma(half(height)), bottom), 125e6);
    assert_close("nearer-fibre", l.with(bottom, sigma(l.e("distance of the top fibre")), bottom), 75e6);
    let v_for_m = l.e("shear force at the slice") * l.e("distance of the bottom fibre") / i.clone();
    let value = l.with_numbers(bottom, v_for_m, bottom);
    assert_close("v-for-m", value, 25e3 * 105.0 / 11.25e6 * 1e6);
    let centroid = l.e("centroid distance of the part beyond the cut");
    assert_close("centroid-for-the-point", l.with(cut, -sigma(centroid), cut), -50e6);
}

#[test]
fn mistakes_of_the_shear_stress() {
    let l = lesson();
    let tau = "shear stress on the cut";
    let (v, a) = (l.e("shear force at the slice"), l.e("area"));
    let (q, t, i) = (l.e("first moment at the cut"), l.e("width at the cut"), l.e("second moment"));
    let (part, arm) = (l.e("area beyond the cut"), l.e("centroid distance of the part beyond the cut"));
    let depth = l.e("depth of the part beyond the cut");
    assert_close("mean-over-the-section", l.with(tau, v.clone() / a.clone(), tau), 25e3 / 6e-3);
    let rectangle = Expression::from(1.5) * v.clone() / a.clone();
    assert_close("rectangle-factor", l.with(tau, rectangle, tau), 6.25e6);
    let web = v.clone() / (t.clone() * l.e("height of the top fibre"));
    assert_close("mean-over-the-web", l.with(tau, web, tau), 25e3 / 3e-3);
    assert_close("v-over-the-part", l.with(tau, v.clone() / part.clone(), tau), 25e3 / 3.6e-3);

    let first = "first moment at the cut";
    let q_as = |wrong: Expression| l.with(first, wrong, tau);
    let to_cut = l.e("distance of the cut from the neutral axis");
    assert_close("q-to-the-cut", q_as(part.clone() * to_cut), 6e6);
    assert_close("q-to-the-edge", q_as(part.clone() * l.e("distance of the top fibre")), 18e6);
    assert_close("q-about-own-edge", q_as(part.clone() * half(depth.clone())), 6e6);
    let about_base = part.clone() * (l.e("centroid height") + arm.clone());
    assert_close("q-about-the-base", q_as(about_base), 54e6);
    assert_close("q-of-the-whole-area", q_as(a * arm.clone()), 20e6);
    assert_close("q-at-the-neutral-axis", q_as(l.e("first moment at the neutral axis")), 12.25e6);
    let middle = half(l.e("height of the top fibre"));
    let about_middle = part.clone() * (arm.clone() + l.e("centroid height") - middle);
    assert_close("q-about-mid-depth", q_as(about_middle), 24e6);
    let squared = l.with_numbers(first, part * arm.power(2), tau);
    assert_close("distance-squared-in-q", squared, 360e6);

    let width = "width at the cut";
    let other = l.e("width at the cut, just above it");
    assert_close("width-of-the-other-side", l.with(width, other, tau), 2e6);
    assert_close("depth-for-width", l.with(width, depth, tau), 8e6);
    assert_close("cut-not-the-shortest", l.with(width, half(t.clone()), tau), 24e6);
    let flow = v.clone() * q.clone() / i.clone();
    assert_close("t-forgotten", l.with_numbers(tau, flow.clone(), tau), 240e6);
    assert_close("bracket-slip", l.with_numbers(tau, flow * t.clone(), tau), 4800e6);
    let m_for_v = l.e("bending moment at the slice") * q.clone() / (i * t.clone());
    assert_close("m-for-v", l.with_numbers(tau, m_for_v, tau), 9000e6);
    let of_part = l.e("own second moment of flange");
    assert_close("i-of-the-part", l.with(tau, v.clone() * q.clone() / (of_part * t.clone()), tau), 500e6);
    let axis = "shear stress at the neutral axis";
    assert_close("zero-where-bending-is-zero", l.replace(axis, Replacement::Value(0.0), axis), 0.0);
}

#[test]
fn mistakes_of_the_slice() {
    let l = lesson();
    let f = "force on the cut";
    assert_close("cut-force-is-v", l.with(f, l.e("shear force at the slice"), f), 25e3);
    let (tau, part) = (l.e("shear stress on the cut"), l.e("area beyond the cut"));
    assert_close("tau-times-part", l.with(f, tau.clone() * part, f), 43.2e3);
    let one_face = -l.e("resultant on the left face");
    assert_close("one-face-only", l.with(f, one_face, f), 180e3);
    let no_width = tau * l.e("length of the slice");
    assert_close("no-width", l.with_numbers(f, no_width, f), 600.0);
}

/// A mistake in an early working is carried through everything after it; here the neutral axis at half depth:
/// c' = 135 - 75 = 60 mm, d = 60 and -15 mm, I = 3.15e6 + 3600·3600 + 2400·225 mm⁴, Q = 216 000 mm³.
#[test]
fn a_mistake_is_carried_downstream() {
    let l = lesson();
    let middle = half(l.e("height of the top fibre"));
    let i: f64 = 3.15e6 + 3600.0 * 3600.0 + 2400.0 * 225.0;
    let tau = 25e3 * 216_000.0 / (i * 20.0);
    assert_close("I", l.with("centroid height", middle.clone(), "second moment"), i * 1e-12);
    assert_close("tau", l.with("centroid height", middle, "shear stress on the cut"), tau * 1e6);
}

/// Follow-through: a student's own V and own Q at once.
#[test]
fn two_values_of_a_student_are_followed_through() {
    let l = lesson();
    let own = [
        (l.id("shear force at the slice"), Replacement::Value(24e3)),
        (l.id("first moment at the cut"), Replacement::Value(100e-6)),
    ];
    let values = l.0.workings().evaluate_with(&own).expect("values can always be put in");
    let tau = values[l.id("shear stress on the cut").0 as usize];
    assert_close("tau", tau, 24e3 * 100e-6 / (11.25e-6 * 0.020));
}

/// A formula of another dimension is refused, by the name of what it was to replace.
#[test]
fn a_formula_of_another_dimension_is_refused() {
    let l = lesson();
    let flow = l.e("shear force at the slice") * l.e("first moment at the cut") / l.e("second moment");
    let refused =
        l.0.workings().evaluate_with(&[(l.id("shear stress on the cut"), Replacement::Expression(flow))]);
    let Err(EvaluationError::WrongKind { working, .. }) = refused else { panic!("{refused:?}") };
    assert_eq!(working, "shear stress on the cut");
    let mixed = l.e("area") + l.e("second moment");
    assert!(matches!(l.0.workings().evaluate(&mixed), Err(EvaluationError::TermsDiffer { .. })));
}
