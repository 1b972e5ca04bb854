//! The replacements themselves: follow-through, and what is refused.

use crate::common::{assert_close, reference};
use workings::evaluate::{EvaluationError, Evaluator, Replacement};
use workings::expression::Expression;
use workings::mistake;
use workings::solved::Solved;
use workings::working::Id;

fn id(solved: &Solved, name: &str) -> Id {
    solved.workings().id(name).unwrap_or_else(|| panic!("no working {name:?}"))
}

/// Follow-through: a student's own V and own Q at once.
#[test]
fn two_values_of_a_student_are_followed_through() {
    let l = reference().solved();
    let own = [
        (id(&l, "shear force at the slice"), Replacement::Value(24e3)),
        (id(&l, "first moment at the cut"), Replacement::Value(100e-6)),
    ];
    let values = l.workings().evaluate_with(&own).expect("values can always be put in");
    let tau = values[id(&l, "shear stress on the cut").0 as usize];
    assert_close("tau", tau, 24e3 * 100e-6 / (11.25e-6 * 0.020));
}

/// A student's own I, and then a mistake of his: 25e3 · Q_n / (10e6 · 20), Q_n being read ahead; a wrong neutral axis put
/// in changes what is read ahead as well: y_n = 100, A' = 3600 + 20·20, Q_n = 3600·35 + 400·10 mm³.
#[test]
fn a_mistake_on_top_of_a_students_own_value() {
    let l = reference().solved();
    let all = mistake::all(&l);
    let largest = all.iter().find(|made| made.id() == "q-at-the-neutral-axis").expect("it can be made");
    let tau = id(&l, "shear stress on the cut");
    let own = [(id(&l, "second moment"), Replacement::Value(10e-6))];
    let found = largest.value_with(&l, &own, tau).expect("it can be evaluated");
    assert_close("own I", found, 25e3 * 110_250.0 / (10e6 * 20.0) * 1e6);
    let own = [
        (id(&l, "second moment"), Replacement::Value(10e-6)),
        (id(&l, "centroid height"), Replacement::Value(0.100)),
    ];
    let found = largest.value_with(&l, &own, tau).expect("it can be evaluated");
    assert_close("own axis", found, 25e3 * 130_000.0 / (10e6 * 20.0) * 1e6);
}

/// Prepared once, evaluated often: another load each time.
#[test]
fn a_mistake_is_compiled_once_for_many_loads() {
    let l = reference().solved();
    let force = id(&l, "force P");
    let all = mistake::all(&l);
    let halved = all.iter().find(|made| made.id() == "equal-shares").expect("it can be made");
    let mut replacements = halved.replacements();
    replacements.push((force, Replacement::Value(0.0)));
    let mut prepared = l.workings().prepare(&replacements).expect("it can be evaluated");
    let mut evaluator = Evaluator::new(l.workings());
    for load in [10e3, 20e3, 30e3] {
        prepared.set(force, load);
        let values = evaluator.run(&prepared);
        assert_close("R_B", values[id(&l, "reaction at B").0 as usize], (load + 40e3) / 2.0);
    }
}

/// A formula of another dimension is refused, by the name of what it was to replace.
#[test]
fn a_formula_of_another_dimension_is_refused() {
    let l = reference().solved();
    let e = |name: &str| Expression::from(id(&l, name));
    let flow = e("shear force at the slice") * e("first moment at the cut") / e("second moment");
    let tau = id(&l, "shear stress on the cut");
    let refused = l.workings().evaluate_with(&[(tau, Replacement::Expression(flow))]);
    let Err(EvaluationError::WrongKind { working, .. }) = refused else { panic!("{refused:?}") };
    assert_eq!(working, "shear stress on the cut");
    let mixed = e("area") + e("second moment");
    assert!(matches!(l.workings().evaluate(&mixed), Err(EvaluationError::TermsDiffer { .. })));
}

/// What stands before a mistake, or beside it, does not show it.
#[test]
fn a_mistake_reaches_what_depends_on_it_alone() {
    let l = reference().solved();
    let all = mistake::all(&l);
    let reach = |mistake: &str, asked: &str| {
        let made = all.iter().find(|made| made.id() == mistake).expect("it can be made");
        made.changes(&l, id(&l, asked))
    };
    let tau = "shear stress on the cut";
    for (mistake, asked, expected) in [
        ("equal-shares", "reaction at B", true),
        ("equal-shares", tau, true),
        ("equal-shares", "force P", false),
        ("equal-shares", "second moment", false),
        ("depth-for-width", tau, true),
        ("depth-for-width", "first moment at the cut", false),
        ("depth-for-width", "shear stress at the neutral axis", false),
        ("m-max-at-midspan", "bending moment at the slice", false),
        ("m-max-at-midspan", "largest tension along the beam", true),
    ] {
        assert_eq!(reach(mistake, asked), expected, "{mistake}: {asked}");
    }
}
