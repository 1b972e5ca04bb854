//! A mistake, the lesson that it is made in, and the values that it gives.

use crate::common::{Maker, assert_close, rectangle, reference};
use mechanics::section::{HeightSide, shapes};
use workings::mistake;
use workings::problem::Allowable;
use workings::solved::Solved;
use workings::style::Style;

pub struct Case {
    pub id: &'static str,
    pub lesson: fn() -> Maker,
    /// The working that it replaces.
    pub replaces: &'static str,
    pub asked: &'static str,
    /// What it gives, SI; one value for each way in which it can be made at that working.
    pub gives: &'static [f64],
}

pub const fn case(
    id: &'static str,
    lesson: fn() -> Maker,
    (replaces, asked): (&'static str, &'static str),
    gives: &'static [f64],
) -> Case {
    Case { id, lesson, replaces, asked, gives }
}

/// All cases of a chapter.
pub fn check(cases: &[Case]) {
    for case in cases {
        let solved = (case.lesson)().solved();
        let found = values(&solved, case.id, case.replaces, case.asked);
        assert_eq!(found.len(), case.gives.len(), "{} gives {found:?}", case.id);
        for (found, expected) in found.into_iter().zip(case.gives) {
            assert_close(case.id, found, *expected);
        }
    }
}

/// The values of what is asked under a mistake that replaces one working.
pub fn values(solved: &Solved, id: &str, replaces: &str, asked: &str) -> Vec<f64> {
    let workings = solved.workings();
    let named = |name: &str| workings.id(name).unwrap_or_else(|| panic!("no working {name:?}"));
    let (replaces, asked) = (named(replaces), named(asked));
    let made = mistake::all(solved).into_iter().filter(|made| made.id() == id && made.working() == replaces);
    made.map(|made| {
        assert!(made.changes(solved, asked), "{id} does not reach what is asked");
        made.value(solved, asked).expect("it can be evaluated")
    })
    .collect()
}

/// How often a mistake of the catalogue can be made in a lesson.
pub fn count(solved: &Solved, id: &str) -> usize {
    mistake::all(solved).iter().filter(|made| made.id() == id).count()
}

pub fn at_3_m() -> Maker {
    reference().slice(3.0, 0.050)
}

/// 8 m on two supports, a load that rises from nothing to 12 kN/m over the first 6 m; sliced at 3 m.
///
/// W = 36 kN at 4 m, R_A = 18 kN; of the part up to 3 m, where w is 6 kN/m, W = 9 kN with an arm of 1 m.
pub fn rising() -> Maker {
    Maker::new(8.0, vec![("plank", rectangle(0.0, 0.0, 0.1, 0.2))])
        .pin("A", 0.0)
        .pin("B", 8.0)
        .linear("w", (0.0, 6.0), (0.0, 12e3))
        .slice(3.0, 0.1)
}

/// The same load the other way round: W = 36 kN at 2 m, R_A = 27 kN.
pub fn falling() -> Maker {
    Maker::new(8.0, vec![("plank", rectangle(0.0, 0.0, 0.1, 0.2))])
        .pin("A", 0.0)
        .pin("B", 8.0)
        .linear("w", (0.0, 6.0), (12e3, 0.0))
        .slice(7.0, 0.1)
}

/// 4 m on two supports, 8 kN m counter-clockwise at 1 m, 20 kN down at 2 m; sliced at 3 m.
///
/// R_A = (20·2 + 8)/4 = 12 kN, M(1-) = 12, M(1+) = 4, M(3) = 12·3 - 8 - 20 = 8 kN m.
pub fn with_couple() -> Maker {
    Maker::new(4.0, vec![("plank", rectangle(0.0, 0.0, 0.1, 0.2))])
        .pin("A", 0.0)
        .pin("B", 4.0)
        .couple("M", 1.0, 8e3)
        .force("P", 2.0, 20e3)
        .slice(3.0, 0.1)
}

/// A section under the loads of the reference lesson: V = 25 kN at the slice.
pub fn section(parts: Vec<(&str, mechanics::section::Part)>) -> Maker {
    Maker::new(4.0, parts)
        .pin("A", 0.0)
        .pin("B", 4.0)
        .force("P", 1.0, 20e3)
        .spread("w", 2.0, 4.0, 20e3)
        .slice(0.75, 0.050)
}

/// A box of 100 x 200 mm with walls of 20 mm.
pub fn tube() -> Maker {
    let shape = shapes::rectangular_tube(0.100, 0.200, 0.020).expect("a sound shape");
    section(shape.part_names.iter().copied().zip(shape.parts).collect())
}

/// 20 x 60, 120 x 40 and 20 x 60 mm on top of each other: broad at the neutral axis. I = 7.36e6 mm⁴.
pub fn cross() -> Maker {
    section(vec![
        ("foot", rectangle(0.050, 0.0, 0.020, 0.060)),
        ("arms", rectangle(0.0, 0.060, 0.120, 0.040)),
        ("head", rectangle(0.050, 0.100, 0.020, 0.060)),
    ])
    .cut(0.100, HeightSide::Above, HeightSide::Above)
}

/// The T of the reference lesson, nailed: what one nail carries is 600 N, so that s = 600/240 = 2.5 mm.
pub fn nailed() -> Maker {
    reference().nails("nails", &[0], 1, None, Some(600.0))
}

/// The same with two rows of nails: s = 5 mm.
pub fn nailed_twice() -> Maker {
    reference().nails("nails", &[0], 2, None, Some(600.0))
}

/// Two flanges of 120 x 30 and 60 x 30 mm on a web of 20 x 120 mm, each nailed.
pub fn two_joints() -> Maker {
    section(vec![
        ("head", rectangle(0.0, 0.150, 0.120, 0.030)),
        ("web", rectangle(0.050, 0.030, 0.020, 0.120)),
        ("foot", rectangle(0.030, 0.0, 0.060, 0.030)),
    ])
    .nails("upper nails", &[0], 1, None, None)
    .nails("lower nails", &[2], 1, None, None)
}

/// A plank of 100 x 200 mm, 2 m on two supports, 3 kN in the middle, and 10 MPa in bending or 1 MPa in shear to be borne.
pub fn allowed() -> Maker {
    let mut maker = Maker::new(2.0, vec![("plank", rectangle(0.0, 0.0, 0.1, 0.2))])
        .pin("A", 0.0)
        .pin("B", 2.0)
        .force("P", 1.0, 3e3);
    maker.problem.allowable = Allowable {
        bending: Some(10e6),
        tension: None,
        compression: None,
        shear: Some(1e6),
        deflection: None,
    };
    maker
}

/// A lesson in the style of another course.
pub fn in_style(maker: Maker, style: Style) -> Solved {
    Solved::new(maker.problem, style).unwrap_or_else(|faults| panic!("{faults:?}"))
}
