//! What can be dragged in a drawing: which grips there are, and that a drag carries its mark along.
#![allow(clippy::unwrap_used, reason = "a test fails where it panics")]

use figure::drawing::{Drawing, Mark, bounds};
use figure::grip::{Axis, Grip, PartSide, Subject};
use lesson::builtin;
use mechanics::beam::Load;
use workings::problem::Problem;
use workings::solved::Solved;
use workings::style::Style;

fn lessons() -> impl Iterator<Item = (&'static str, Problem, Style)> {
    builtin::ALL.iter().map(|builtin| {
        let lesson = lesson::read(builtin.text, builtin.name).lesson.unwrap();
        (builtin.name, lesson.problem, lesson.style)
    })
}

fn drawings(problem: &Problem, style: &Style) -> Vec<Drawing> {
    figure::all(&Solved::new(problem.clone(), style.clone()).unwrap())
}

fn named<'a>(drawings: &'a [Drawing], name: &str) -> &'a Drawing {
    drawings.iter().find(|drawing| drawing.name == name).unwrap()
}

fn grip(drawing: &Drawing, subject: Subject) -> &Grip {
    drawing.grips().into_iter().find(|grip| grip.subject == subject).unwrap()
}

/// The marks of a group, wherever it is nested.
fn group<'a>(marks: &'a [Mark], wanted: &str) -> Option<&'a [Mark]> {
    marks.iter().find_map(|mark| match mark {
        Mark::Group { id, marks, .. } if id == wanted => Some(marks.as_slice()),
        Mark::Group { marks, .. } => group(marks, wanted),
        _ => None,
    })
}

/// A motion of ten px along the axis, or against it where the range ends; with the value that it leads to.
fn ten_px(grip: &Grip) -> (f64, f64) {
    let motion = if grip.value + 10.0 * grip.per_px <= grip.high { 10.0 } else { -10.0 };
    let value = grip.value + motion * grip.per_px;
    assert!((value - grip.moved_by(motion)).abs() <= 1e-12 * value.abs());
    (motion, value)
}

/// Closed form: the beam is drawn to scale along its axis.
#[test]
fn a_dragged_station_carries_the_slice_along() {
    for (name, problem, style) in lessons() {
        let before = drawings(&problem, &style);
        for drawing in ["beam", "diagrams"] {
            let before = named(&before, drawing);
            let grip = grip(before, Subject::Station);
            assert_eq!((grip.axis, grip.value), (Axis::Along, problem.slice.at), "{name}");
            let (motion, value) = ten_px(grip);
            let mut problem = problem.clone();
            problem.slice.at = value;
            let after = drawings(&problem, &style);
            // measured from the left end of the beam: labels may widen the sheet
            let at = |drawing: &Drawing| {
                // half the width of its line stands out to the left
                bounds(group(&drawing.marks, "slice").unwrap()).left + 0.5 - left_end(drawing)
            };
            let moved = at(named(&after, drawing)) - at(before);
            assert!((moved - motion).abs() < 1e-6, "{name} {drawing}: {moved} px");
            let end = |drawing: &Drawing| grip_offset(drawing, Subject::Station);
            assert!((end(before) - at(before)).abs() < 1e-6, "{name} {drawing}: the grip is off its mark");
        }
    }
}

/// Where the beam begins on the sheet, px.
fn left_end(drawing: &Drawing) -> f64 {
    match &group(&drawing.marks, "beam").unwrap()[0] {
        Mark::Polygon { points, .. } => points[0].x,
        other => panic!("{other:?}"),
    }
}

/// How far a grip stands from the left end of the beam, px.
fn grip_offset(drawing: &Drawing, subject: Subject) -> f64 {
    grip(drawing, subject).at.x - left_end(drawing)
}

/// Closed form: the section is drawn to scale.
#[test]
fn a_dragged_cut_carries_its_trace_along() {
    for (name, problem, style) in lessons() {
        let before = drawings(&problem, &style);
        for (drawing, lines) in [("section", "lines"), ("depth", "levels")] {
            let before = named(&before, drawing);
            let grip = grip(before, Subject::Cut);
            assert_eq!((grip.axis, grip.value), (Axis::Up, problem.cut.height), "{name}");
            let (motion, value) = ten_px(grip);
            let mut problem = problem.clone();
            problem.cut.height = value;
            problem.cut.joint = None;
            let after = drawings(&problem, &style);
            // the height of the trace above the lowest fibre, px
            let height = |drawing: &Drawing| {
                let mut traces = group(&drawing.marks, lines).unwrap().iter().filter_map(|mark| match mark {
                    Mark::Line { from, stroke, .. } if stroke.ink == figure::palette::Ink::Cut => {
                        Some(from.y)
                    }
                    _ => None,
                });
                let trace = traces.next_back().unwrap();
                (bounds(group(&drawing.marks, "outline").unwrap()).bottom - trace, trace)
            };
            assert!(
                (grip.at.y - height(before).1).abs() < 1e-6,
                "{name} {drawing}: the grip is off its mark"
            );
            let moved = height(named(&after, drawing)).0 - height(before).0;
            assert!((moved - motion).abs() < 1e-6, "{name} {drawing}: {moved} px");
        }
    }
}

/// A cut dragged as far as it goes can still be solved and drawn, and so at each of its snaps.
#[test]
fn a_cut_may_be_dragged_all_over_its_range() {
    for (name, problem, style) in lessons() {
        let before = drawings(&problem, &style);
        let grip = grip(named(&before, "section"), Subject::Cut);
        for value in [grip.low, grip.high].into_iter().chain(grip.snaps.iter().map(|snap| snap.value)) {
            let mut problem = problem.clone();
            problem.cut.height = value;
            problem.cut.joint = None;
            let solved = Solved::new(problem, style.clone());
            assert!(solved.is_ok_and(|solved| !figure::all(&solved).is_empty()), "{name} {value}");
        }
    }
}

/// The joints of a lesson are snaps of its cut, by their names.
#[test]
fn a_cut_comes_to_rest_at_level_joints() {
    let mut met = 0;
    for (name, problem, style) in lessons() {
        let before = drawings(&problem, &style);
        let grip = grip(named(&before, "section"), Subject::Cut);
        if let Some(joint) = &problem.cut.joint {
            met += 1;
            let snap = grip.snaps.iter().find(|snap| snap.name == *joint);
            let snap = snap.unwrap_or_else(|| panic!("{name}: {joint} is not among {:?}", grip.snaps));
            assert!((snap.value - problem.cut.height).abs() < 1e-9, "{name}");
        }
        assert!(grip.snaps.iter().any(|snap| snap.name == "neutral axis"), "{name}");
    }
    assert!(met > 0, "no lesson cuts at a joint");
}

/// Every load but the beam's own weight, every support and every rectangle can be taken hold of, each with the
/// value that the lesson states.
#[test]
fn given_values_have_grips() {
    for (name, problem, style) in lessons() {
        let drawn = drawings(&problem, &style);
        let beam = named(&drawn, "beam");
        for (number, load) in problem.beam.loads.iter().enumerate() {
            let wanted = match *load {
                Load::Force { station, down: size } | Load::Couple { station, ccw: size } => {
                    vec![(Subject::LoadPlace(number), station), (Subject::LoadSize(number), size)]
                }
                Load::Spread { from, to, down_from, down_to } => vec![
                    (Subject::LoadFrom(number), from),
                    (Subject::LoadTo(number), to),
                    (Subject::LoadSize(number), down_from),
                    (Subject::LoadEndSize(number), down_to),
                ],
            };
            for (subject, value) in wanted {
                let found = beam.grips().into_iter().find(|grip| grip.subject == subject);
                let value = Some(value).filter(|_| !problem.loads[number].self_weight);
                assert_eq!(found.map(|grip| grip.value), value, "{name} {subject:?}");
            }
        }
        for (number, support) in problem.beam.supports.iter().enumerate() {
            assert_eq!(grip(beam, Subject::SupportPlace(number)).value, support.station, "{name}");
        }
        let length = grip(named(&drawn, "slice"), Subject::SliceLength);
        assert_eq!(length.value, problem.slice.length, "{name}");
        for (part, given) in problem.parts.iter().enumerate() {
            if let mechanics::section::Figure::Rectangle { breadth, height } = given.figure {
                for (which, value) in [(PartSide::Width, breadth), (PartSide::Height, height)] {
                    let section = named(&drawn, "section");
                    assert_eq!(grip(section, Subject::PartSize { part, which }).value, value, "{name}");
                }
            }
        }
    }
}

/// Closed form: an arrow is as long as its size, so that a drag by its whole length to its foot leaves nothing, and
/// a drag away from the beam makes the load larger, whichever way it acts.
#[test]
fn a_drag_away_from_the_beam_makes_a_load_larger() {
    for (name, problem, style) in lessons() {
        let drawn = drawings(&problem, &style);
        for grip in named(&drawn, "beam").grips() {
            let (Subject::LoadSize(load) | Subject::LoadEndSize(load)) = grip.subject else { continue };
            let feet =
                |subject| named(&drawn, "beam").grips().into_iter().find(|grip| grip.subject == subject);
            let at_a_point = feet(Subject::LoadPlace(load));
            // Of a load at a point the grip lies a little within the free end, off its lettering.
            let inwards = if at_a_point.is_some() { 10.0 } else { 0.0 };
            let foot = at_a_point.or_else(|| feet(Subject::LoadFrom(load))).unwrap();
            let (up, length) = (foot.at.y - grip.at.y, grip.value / grip.per_px);
            let wanted = length - length.signum() * f64::min(inwards, 0.5 * length.abs());
            assert!((up - wanted).abs() <= 1e-9 * length.abs(), "{name} {grip:?}");
        }
    }
}

/// A grip is no part of what is drawn: the SVG of a drawing without its grips is the same.
#[test]
fn grips_are_not_drawn() {
    for (name, problem, style) in lessons() {
        for mut drawing in drawings(&problem, &style) {
            let (svg, labels) = (drawing.svg(), drawing.labels());
            drawing.marks.retain(|mark| !matches!(mark, Mark::Grip(_)));
            assert!(drawing.grips().is_empty(), "{name} {}", drawing.name);
            assert_eq!((drawing.svg(), drawing.labels()), (svg, labels), "{name} {}", drawing.name);
        }
    }
}
