//! The drawings over the side of the beam: lines of equal stress end where something ends them, and what is symmetrical is drawn
//! so.
#![allow(clippy::unwrap_used, reason = "a test fails where it panics")]

use figure::drawing::{Drawing, Mark, Step};
use figure::geometry::Point;
use figure::palette::{Dash, Ink, Stroke};
use workings::solved::Solved;

/// A beam of 4 m on two supports with these loads and a T-section.
fn solved(loads: &str) -> Solved {
    let text = format!(
        "title = \"A beam\"\nunits = \"metric\"\n[beam]\nlength = \"4 m\"\n\
         supports = [{{ pin = \"0 m\" }}, {{ roller = \"4 m\" }}]\nloads = [{loads}]\n\
         [material]\nname = \"oak\"\nE = \"11 GPa\"\n[section]\nshape = \"T\"\nwidth = \"120 mm\"\nheight = \"150 mm\"\nflange-thickness = \"30 mm\"\nweb-thickness = \"30 mm\"\n\
         [slice]\nat = \"0.5 m\"\nlength = \"50 mm\"\n[cut]\nat = \"neutral axis\"\n"
    );
    let reading = lesson::read(&text, "side.toml");
    let told: Vec<String> = reading.findings.iter().map(|finding| finding.render(false)).collect();
    reading.solved.unwrap_or_else(|| panic!("{told:?}"))
}

fn drawing(solved: &Solved, name: &str) -> Drawing {
    figure::some(solved, |other| other == name).into_iter().next().unwrap()
}

fn each<'a>(marks: &'a [Mark], visit: &mut impl FnMut(&'a Mark)) {
    for mark in marks {
        visit(mark);
        if let Mark::Group { marks, .. } = mark {
            each(marks, visit);
        }
    }
}

/// The lines of the paths of some strokes, each as the points that it goes through.
fn lines(drawing: &Drawing, of: impl Fn(Stroke) -> bool) -> Vec<Vec<Point>> {
    let mut lines: Vec<Vec<Point>> = Vec::new();
    each(&drawing.marks, &mut |mark| {
        let Mark::Path { steps, stroke: Some(stroke), fill: None } = mark else { return };
        if !of(*stroke) {
            return;
        }
        for step in steps {
            match *step {
                Step::Move(to) => lines.push(vec![to]),
                Step::Line(to) | Step::Curve { to, .. } => lines.last_mut().unwrap().push(to),
                Step::Close => {}
            }
        }
    });
    lines
}

fn outlines(drawing: &Drawing) -> Vec<Vec<Point>> {
    let mut all = Vec::new();
    each(&drawing.marks, &mut |mark| {
        if let Mark::Polygon { points, fill: None, .. } = mark {
            let mut points = points.clone();
            points.extend(points.first().copied());
            all.push(points);
        }
    });
    all
}

/// How far a point lies from a polyline, px.
fn off(at: Point, line: &[Point]) -> f64 {
    let to_stretch = |pair: &[Point]| {
        let (a, b) = (pair[0], pair[1]);
        let length = a.distance(b);
        let along = if length == 0.0 {
            0.0
        } else {
            (((at.x - a.x) * (b.x - a.x) + (at.y - a.y) * (b.y - a.y)) / (length * length)).clamp(0.0, 1.0)
        };
        at.distance(a.towards(b, along))
    };
    line.windows(2).map(to_stretch).fold(f64::INFINITY, f64::min)
}

/// Closed form: the bending moment of a symmetrical beam under symmetrical loads is symmetrical about midspan and its shear force
/// antisymmetrical, so that both families of trajectories are symmetrical.
#[test]
fn the_trajectories_of_a_symmetrical_beam_are_symmetrical() {
    for loads in [
        "{ spread = \"3 kN/m\", from = \"0 m\", to = \"4 m\" }",
        "{ force = \"3 kN\", at = \"1 m\" }, { force = \"3 kN\", at = \"3 m\" }",
        "{ force = \"5 kN\", at = \"2 m\" }",
    ] {
        let drawing = drawing(&solved(loads), "trajectories");
        let outline = outlines(&drawing).into_iter().next().unwrap();
        let middle = 0.5 * (outline[0].x + outline[1].x);
        for ink in [Ink::Tension, Ink::Compression] {
            let lines = lines(&drawing, |stroke| stroke.ink == ink);
            assert!(lines.len() > 8, "{loads}: {} lines", lines.len());
            for line in &lines {
                let image: Vec<Point> = line.iter().map(|at| Point::new(2.0 * middle - at.x, at.y)).collect();
                let same = |other: &&Vec<Point>| {
                    let near = |a: &Point, b: &Point| a.distance(*b) < 0.05;
                    other.len() == image.len()
                        && (other.iter().zip(&image).all(|(a, b)| near(a, b))
                            || other.iter().rev().zip(&image).all(|(a, b)| near(a, b)))
                };
                assert!(
                    lines.iter().any(|other| same(&other)),
                    "{loads}, {ink:?}: no image of {:?}",
                    line[0]
                );
            }
        }
    }
}

#[test]
fn lines_of_equal_stress_end_at_an_edge_a_jump_or_a_value() {
    for loads in [
        "{ spread = \"3 kN/m\", from = \"0 m\", to = \"4 m\" }",
        "{ force = \"3 kN\", at = \"1 m\" }, { spread = \"1 kN/m\", from = \"2 m\", to = \"4 m\" }",
        "{ force = \"3 kN\", at = \"1.2 m\" }, { couple = \"2 kN m\", at = \"2.5 m\" }",
    ] {
        let drawing = drawing(&solved(loads), "fields");
        let mut ends = outlines(&drawing);
        assert_eq!(ends.len(), 3);
        let jumps = lines(&drawing, |stroke| stroke.ink == Ink::Quiet && stroke.dash == Dash::Solid);
        assert!(!jumps.is_empty(), "{loads}: the width jumps");
        ends.extend(jumps);
        let mut values = Vec::new();
        each(&drawing.marks, &mut |mark| {
            if matches!(mark, Mark::Text { .. }) {
                values.push(mark.rect().grown(2.0));
            }
        });
        let found =
            lines(&drawing, |stroke| [Ink::Tension, Ink::Compression, Ink::Shear].contains(&stroke.ink));
        assert!(found.len() > 10);
        for line in found {
            let (first, last) = (line[0], *line.last().unwrap());
            if first.distance(last) < 0.3 {
                continue;
            }
            for end in [first, last] {
                let ended = ends.iter().any(|edge| off(end, edge) < 0.6)
                    || values.iter().any(|rect| rect.nearest(end) == end);
                assert!(ended, "{loads}: a line ends in the air at {end:?}");
            }
        }
    }
}
