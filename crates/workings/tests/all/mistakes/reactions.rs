use super::cases::{Case, case, check, count, falling, rising, with_couple};
use crate::common::{Maker, rectangle, reference};

const W: &str = "resultant of spread load w";
const AT: &str = "station of the resultant of spread load w";
const A: &str = "reaction at A";
const B: &str = "reaction at B";

/// Right: R_A = 25 kN, R_B = 35 kN.
pub const CASES: &[Case] = &[
    case("equal-shares", reference, (A, A), &[30e3]),
    case("equal-shares", reference, (A, B), &[30e3]),
    case("spread-load-at-its-start", reference, (AT, A), &[35e3]),
    case("spread-load-at-its-end", reference, (AT, A), &[15e3]),
    case("spread-load-left-out", reference, (W, A), &[15e3]),
    case("intensity-as-force", reference, (W, W), &[20e3]),
    // 20·3/4 + 20·1/4 kN.
    case("intensity-as-force", reference, (W, A), &[20e3]),
    // By hand: W = 12·6 = 72 kN at 4 m of 8 m.
    case("linear-load-whole-rectangle", rising, (W, A), &[36e3]),
    // By hand, of the part up to 3 m: W = 6·3 = 18 kN, V = 18 - 18 = 0; M = 18·3 - 18·1 = 36 kN m.
    case(
        "linear-load-whole-rectangle",
        rising,
        ("resultant of spread load w left of the slice", "bending moment at the slice"),
        &[36e3],
    ),
    // By hand: 36 kN at 2 m, R_A = 36·6/8; the other way round at 4 m, R_A = 36·4/8.
    case("linear-load-wrong-third", rising, (AT, A), &[27e3]),
    case("linear-load-wrong-third", falling, (AT, A), &[18e3]),
    // By hand: M = 18·3 - 9·2 kN m.
    case(
        "linear-load-wrong-third",
        rising,
        ("arm of spread load w left of the slice", "bending moment at the slice"),
        &[36e3],
    ),
    case("arm-from-the-other-support", reference, (A, A), &[35e3]),
    case("arm-from-the-other-support", reference, (A, B), &[25e3]),
    // By hand: the couple's distance from B is 3 m, R_A = (20·2 + 8·3)/4 kN; without it 20·2/4 kN.
    case("couple-times-distance", with_couple, (A, A), &[16e3]),
    case("couple-forgotten", with_couple, (A, A), &[10e3]),
];

#[test]
fn mistakes_of_the_reactions() {
    check(CASES);
}

/// A cantilever has one reaction and no shares; its couple can be forgotten in the balance of moments.
#[test]
fn only_what_can_be_done_is_done() {
    let cantilever = Maker::new(2.0, vec![("plank", rectangle(0.0, 0.0, 0.1, 0.2))])
        .fixed("A", 0.0)
        .couple("M", 1.0, 8e3)
        .solved();
    assert_eq!(count(&cantilever, "equal-shares"), 0);
    assert_eq!(count(&cantilever, "arm-from-the-other-support"), 0);
    assert_eq!(count(&cantilever, "spread-load-left-out"), 0);
    assert_eq!(count(&cantilever, "couple-forgotten"), 1);
    let reference = reference().solved();
    assert_eq!(count(&reference, "couple-forgotten"), 0);
    assert_eq!(count(&reference, "linear-load-wrong-third"), 0);
}

/// A load that is a rectangle and a triangle is left out with both.
#[test]
fn a_trapezium_is_left_out_whole() {
    let lesson = Maker::new(4.0, vec![("plank", rectangle(0.0, 0.0, 0.1, 0.2))])
        .pin("A", 0.0)
        .pin("B", 4.0)
        .linear("w", (0.0, 4.0), (6e3, 12e3))
        .solved();
    let made: Vec<_> = workings::mistake::all(&lesson)
        .into_iter()
        .filter(|made| made.id() == "spread-load-left-out")
        .collect();
    let [made] = made.as_slice() else { panic!("{made:?}") };
    assert_eq!(made.replacements().len(), 2);
    let asked = lesson.workings().id(A).expect("a support A");
    assert_eq!(made.value(&lesson, asked), Ok(0.0));
}
