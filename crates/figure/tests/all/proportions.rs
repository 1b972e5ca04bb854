//! What is drawn is true to what it stands for: lengths, directions and sides, read off the marks.

use crate::beams::{case, problem};
use figure::drawing::{Drawing, Mark, Step};
use figure::geometry::Point;
use figure::palette::Ink;
use mechanics::beam::{Beam, Load, Support};
use workings::notation::{Notation, Profile};

fn group<'a>(marks: &'a [Mark], wanted: &str) -> &'a [Mark] {
    find(marks, wanted).unwrap_or_else(|| panic!("no group {wanted}"))
}

fn find<'a>(marks: &'a [Mark], wanted: &str) -> Option<&'a [Mark]> {
    marks.iter().find_map(|mark| match mark {
        Mark::Group { id, marks, .. } if id == wanted => Some(marks.as_slice()),
        Mark::Group { marks, .. } => find(marks, wanted),
        _ => None,
    })
}

/// Tail and tip of each straight arrow: a line followed by a head whose first corner is the tip.
fn arrows(marks: &[Mark]) -> Vec<(Point, Point)> {
    let pairs = marks.windows(2).filter_map(|pair| match (&pair[0], &pair[1]) {
        (Mark::Line { from, .. }, Mark::Polygon { points, stroke: None, .. }) => Some((*from, points[0])),
        _ => None,
    });
    pairs.collect()
}

/// Turn of each arc that is not the white line below one, rad, counter-clockwise positive.
fn turns(marks: &[Mark]) -> Vec<f64> {
    let turns = marks.iter().filter_map(|mark| match mark {
        Mark::Arc { turn, stroke, .. } if stroke.ink != Ink::Paper => Some(*turn),
        _ => None,
    });
    turns.collect()
}

fn drawn(length: f64, supports: Vec<Support>, loads: Vec<Load>) -> Drawing {
    let beam = Beam { length, flexural_rigidity: 1.0e6, supports, hinges: Vec::new(), loads };
    let case = case("proportions", problem(beam, length / 2.0)).expect("solved");
    figure::beam::free_body(&case.view())
}

/// Closed form: 4 kN down at the left quarter gives reactions of 3 kN and 1 kN.
#[test]
fn arrows_are_as_long_as_what_they_stand_for() {
    let drawing = drawn(
        4.0,
        vec![Support::pin(0.0), Support::pin(4.0)],
        vec![Load::Force { station: 1.0, down: 4.0e3 }],
    );
    let length = |arrow: (Point, Point)| arrow.0.distance(arrow.1);
    let load = arrows(group(&drawing.marks, "forces"));
    let reactions = arrows(group(&drawing.marks, "reactions"));
    assert_eq!((load.len(), reactions.len()), (1, 2));
    assert!((length(reactions[0]) / length(load[0]) - 0.75).abs() < 1e-9);
    assert!(load[0].1.y > load[0].0.y, "the load points down");
    assert!(reactions[0].1.y < reactions[0].0.y, "the reaction points up");
    // the station of the load: a quarter of the way between the reactions
    let part = (load[0].1.x - reactions[0].1.x) / (reactions[1].1.x - reactions[0].1.x);
    assert!((part - 0.25).abs() < 1e-9);
}

/// Closed form: a force beyond the right support lifts the beam off the left one.
#[test]
fn a_reaction_that_holds_down_points_down() {
    let drawing = drawn(
        6.0,
        vec![Support::pin(0.0), Support::pin(4.0)],
        vec![Load::Force { station: 6.0, down: 4.0e3 }],
    );
    let reactions = arrows(group(&drawing.marks, "reactions"));
    assert!(reactions[0].1.y > reactions[0].0.y, "2 kN down at the left");
    assert!(reactions[1].1.y < reactions[1].0.y, "6 kN up at the right");
}

/// Closed form: a cantilever fixed at the left and pressed down is held by a counter-clockwise couple `P l`.
#[test]
fn couples_turn_as_they_act() {
    let drawing = drawn(
        3.0,
        vec![Support::fixed(0.0)],
        vec![
            Load::Force { station: 3.0, down: 4.0e3 },
            Load::Couple { station: 1.0, ccw: 1.0e3 },
            Load::Couple { station: 2.0, ccw: -1.0e3 },
        ],
    );
    let loads = turns(group(&drawing.marks, "couples"));
    assert_eq!(loads.len(), 2);
    assert!(loads[0] > 0.0 && loads[1] < 0.0, "{loads:?}");
    let reactions = turns(group(&drawing.marks, "reactions"));
    assert_eq!(reactions.len(), 1);
    assert!(reactions[0] > 0.0);
}

/// The ends of the curve's pieces, without the lines to and along the axis.
fn curve(drawing: &Drawing, panel: &str) -> Vec<Point> {
    let path = group(&drawing.marks, panel).iter().find_map(|mark| match mark {
        Mark::Path { steps, stroke: Some(_), .. } => Some(steps),
        _ => None,
    });
    let ends = path.expect("a curve").iter().filter_map(|step| match *step {
        Step::Move(to) | Step::Line(to) | Step::Curve { to, .. } => Some(to),
        Step::Close => None,
    });
    ends.collect()
}

/// Closed form: under 8 kN at 1 m of 4 m, M is 6 kN m at the force, 4 kN m at midspan, 0 at both ends.
#[test]
fn the_bending_moment_is_drawn_to_scale_and_on_the_side_of_the_course() {
    for (profile, side) in [(Profile::Upward, -1.0), (Profile::Downward, 1.0), (Profile::BowMarks, 1.0)] {
        let beam = Beam {
            length: 4.0,
            flexural_rigidity: 1.0e6,
            supports: vec![Support::pin(0.0), Support::pin(4.0)],
            hinges: Vec::new(),
            loads: vec![Load::Force { station: 1.0, down: 8.0e3 }, Load::Couple { station: 2.0, ccw: 1e-6 }],
        };
        let mut case = case("scale", problem(beam, 0.5)).expect("solved");
        case.style.notation = Notation::of(profile);
        let drawing = figure::diagrams::diagrams(&case.view());
        let points = curve(&drawing, "bending-moment");
        let axis = points[0].y;
        let (left, right) = (points[0].x, points[points.len() - 1].x);
        let height = |part: f64| {
            let near = |point: &&Point| (point.x - (left + part * (right - left))).abs() < 1e-6;
            points.iter().find(near).expect("a breakpoint").y - axis
        };
        assert!(height(0.25) * side > 50.0, "{profile:?}: {}", height(0.25));
        assert!((height(0.5) / height(0.25) - 4.0 / 6.0).abs() < 1e-6);
        assert!(drawing.overlaps().is_empty());
    }
}

/// A uniform load: V is a straight line, M the parabola `w x (l - x) / 2`, drawn by one cubic exactly.
#[test]
fn a_parabola_is_drawn_by_its_own_control_points() {
    let beam = Beam {
        length: 6.0,
        flexural_rigidity: 1.0e6,
        supports: vec![Support::pin(0.0), Support::pin(6.0)],
        hinges: Vec::new(),
        loads: vec![Load::Spread { from: 0.0, to: 6.0, down_from: 2.0e3, down_to: 2.0e3 }],
    };
    let case = case("parabola", problem(beam, 2.0)).expect("solved");
    let drawing = figure::diagrams::diagrams(&case.view());
    let marks = group(&drawing.marks, "bending-moment");
    let (axis, controls) = marks
        .iter()
        .find_map(|mark| match mark {
            Mark::Path { steps, stroke: Some(_), .. } => steps.iter().find_map(|step| match *step {
                Step::Curve { first, second, to } => Some((to.y, (first, second))),
                _ => None,
            }),
            _ => None,
        })
        .expect("a curve");
    // M is largest at midspan, w l² / 8 = 9 kN m; the cubic's control points lie at w l² / 6 = 12 kN m
    let peak = drawing.labels().into_iter().find(|label| label.text == "9").expect("the peak's value");
    let rise = axis - controls.0.y;
    assert!((controls.0.y - controls.1.y).abs() < 1e-9);
    assert!(peak.rect.bottom < axis - 0.75 * rise, "the label of the peak stands above it");
    let dot = marks.iter().find_map(|mark| match mark {
        Mark::Circle { centre, stroke: None, .. } => Some(*centre),
        _ => None,
    });
    assert!((axis - dot.expect("a dot").y - 0.75 * rise).abs() < 1e-6);
}
