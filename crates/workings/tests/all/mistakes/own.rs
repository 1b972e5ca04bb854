//! A lecturer's own mistakes.

use crate::common::{assert_close, reference};
use proptest::prelude::*;
use workings::mistake::{Kind, Mistake, OwnFault, OwnField, OwnMistake, all};
use workings::reading::FaultKind;
use workings::solved::Solved;
use workings::working::Chapter;

const WRITTEN: OwnMistake<'_> = OwnMistake {
    id: "over-the-part",
    replaces: "shear stress on the cut",
    formula: "shear force at the slice / area beyond the cut",
    does: None,
    feedback: "V does not act on the flange alone.",
    kind: Some(Kind::Concept),
};

fn faults(written: &OwnMistake<'_>) -> Vec<OwnFault> {
    Mistake::own(&reference().solved(), written).expect_err("it is refused")
}

fn gives(solved: &Solved, formula: &str) -> f64 {
    let mistake = Mistake::own(solved, &OwnMistake { formula, ..WRITTEN }).expect("it is sound");
    let made = mistake.applied(solved);
    assert_eq!(made.len(), 1);
    made[0].value(solved, made[0].working()).expect("it can be evaluated")
}

/// The same as one of the catalogue.
#[test]
fn an_own_mistake_is_made_as_one_of_the_catalogue() {
    let solved = reference().solved();
    let mistake = Mistake::own(&solved, &WRITTEN).expect("it is sound");
    assert_eq!((mistake.chapter(), mistake.kind()), (Chapter::Shear, Some(Kind::Concept)));
    let style = solved.style();
    assert_eq!(mistake.feedback(style).text(style), WRITTEN.feedback);
    let (own, all) = (mistake.applied(&solved), all(&solved));
    let usual = all.iter().find(|made| made.id() == "v-over-the-part").expect("it can be made");
    assert_eq!(own[0].replacements(), usual.replacements());
    assert_eq!(own[0].id(), "over-the-part");
}

/// 25e3/(20·150) MPa; numbers, units, roots and powers as in every quantity of a lesson.
#[test]
fn a_formula_may_hold_quantities_and_functions() {
    let solved = reference().solved();
    let web = gives(&solved, "shear force at the slice / (width at the cut * 150 mm)");
    assert_close("web", web, 25.0 / 3.0 * 1e6);
    let same = gives(&solved, "shear force at the slice/sqrt((width at the cut)^2*abs(0 mm - 150 mm)^2)");
    assert_close("web", same, web);
    assert_close("half", gives(&solved, "1/2 * shear stress on the cut"), 6e6);
    assert_close("zero", gives(&solved, "0"), 0.0);
}

/// "shear stress on the cut" begins as "shear stress at the neutral axis" does, and "area" as "area beyond the cut":
/// the longer name is meant.
#[test]
fn the_longer_of_two_names_is_meant() {
    let solved = reference().solved();
    let ratio = "shear stress at the neutral axis * area beyond the cut / area";
    assert_close("part of area", gives(&solved, ratio), 12.25e6 * 0.6);
}

#[test]
fn an_unknown_name_is_told_with_the_nearest() {
    let [fault] = &faults(&OwnMistake { replaces: "shear stres on the cut", ..WRITTEN })[..] else {
        panic!()
    };
    assert_eq!((fault.field, fault.fault.kind), (OwnField::Replaces, FaultKind::UnknownName));
    assert_eq!(fault.fault.what, "this lesson has no value called \"shear stres on the cut\"");
    assert_eq!(fault.fault.mend, "did you mean `shear stress on the cut`?");

    let formula = "shear at the slice / area beyond";
    let [one, other] = &faults(&OwnMistake { formula, ..WRITTEN })[..] else { panic!() };
    assert_eq!(&formula[one.fault.range.clone()], "shear at the slice");
    assert!(one.fault.mend.contains("`shear force at the slice`"), "{}", one.fault.mend);
    assert_eq!(&formula[other.fault.range.clone()], "area beyond");
    assert!(other.fault.mend.contains("`area beyond the cut`"), "{}", other.fault.mend);
}

#[test]
fn dimensions_that_do_not_agree_are_told() {
    let formula = "shear force at the slice * first moment at the cut / second moment";
    let [fault] = &faults(&OwnMistake { formula, ..WRITTEN })[..] else { panic!() };
    assert_eq!((fault.field, fault.fault.kind), (OwnField::Formula, FaultKind::WrongDimension));
    let what = "the shear stress on the cut is a stress, but this formula gives a force per length";
    assert_eq!(fault.fault.what, what);

    let formula = "shear force at the slice / (area + width at the cut)";
    let [fault] = &faults(&OwnMistake { formula, ..WRITTEN })[..] else { panic!() };
    assert_eq!(&formula[fault.fault.range.clone()], "width at the cut");
    assert_eq!(fault.fault.what, "width at the cut is a length, but area is an area: they do not add");
}

#[test]
fn everything_that_is_wrong_is_told_at_once() {
    let told = faults(&OwnMistake { id: "q-to-the-cut", feedback: " ", formula: "area +", ..WRITTEN });
    let fields: Vec<OwnField> = told.iter().map(|fault| fault.field).collect();
    assert_eq!(fields, [OwnField::Id, OwnField::Feedback, OwnField::Formula]);
}

#[test]
fn the_right_formula_is_no_mistake() {
    let formula = "shear force at the slice * first moment at the cut / (second moment * width at the cut)";
    let [fault] = &faults(&OwnMistake { formula, ..WRITTEN })[..] else { panic!() };
    assert_eq!(fault.fault.what, "this is the right formula of the shear stress on the cut");
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever stands there: it is read or refused with a place in the text, never worse.
    #[test]
    fn any_text_is_read_or_refused(
        pieces in prop::collection::vec(prop::sample::select(&[
            "area", "area beyond the cut", "second moment", "shear force at the slice", "secnd moment", "force P",
            " ", "+", "-", "*", "/", "^2", "(", ")", "sqrt", "abs(", "pi", "2", "3 mm", "ü", "′", "√", ",", "{V}",
        ][..]), 0..12),
    ) {
        let text = pieces.concat();
        let solved = reference().solved();
        for (replaces, formula) in [(text.as_str(), WRITTEN.formula), (WRITTEN.replaces, text.as_str())] {
            match Mistake::own(&solved, &OwnMistake { replaces, formula, ..WRITTEN }) {
                Ok(mistake) => prop_assert_eq!(mistake.applied(&solved).len(), 1),
                Err(faults) => {
                    prop_assert!(!faults.is_empty());
                    for OwnFault { field, fault } in faults {
                        let text = if field == OwnField::Replaces { replaces } else { formula };
                        prop_assert!(text.get(fault.range.clone()).is_some(), "{text:?}: {fault:?}");
                        prop_assert!(!fault.what.is_empty() && !fault.mend.is_empty());
                    }
                }
            }
        }
    }
}

/// It is looked up anew in each lesson, and not made where a name is missing.
#[test]
fn another_lesson_may_not_have_its_names() {
    let written = OwnMistake { formula: "force P / area", ..WRITTEN };
    let mistake = Mistake::own(&reference().solved(), &written).expect("it is sound");
    let other = super::cases::at_3_m().solved();
    assert_eq!(mistake.applied(&other).len(), 1);
    let without = super::cases::rising().solved();
    assert_eq!(mistake.applied(&without), []);
}
