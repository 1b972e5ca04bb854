//! Lines that strike through labels.

use figure::drawing::{Drawing, Mark, PlacedLabel, Step, arc_points};
use figure::geometry::{Point, Rect};
use figure::palette::{MEDIUM, Stroke};

/// What the eye meets on the sheet, in the order in which it is painted.
enum Seen {
    Label(PlacedLabel),
    /// A filled box without an outline: it hides what was painted before.
    Patch(Rect),
    Stretch(Point, Point, Stroke),
}

fn polyline(points: &[Point], stroke: Stroke, seen: &mut Vec<Seen>) {
    seen.extend(points.windows(2).map(|pair| Seen::Stretch(pair[0], pair[1], stroke)));
}

fn gather(marks: &[Mark], seen: &mut Vec<Seen>) {
    for mark in marks {
        match mark {
            Mark::Line { from, to, stroke } => seen.push(Seen::Stretch(*from, *to, *stroke)),
            Mark::Polygon { points, stroke, fill } => {
                if fill.is_some() {
                    seen.push(Seen::Patch(Rect::around(points)));
                }
                if let Some(stroke) = stroke {
                    let closed: Vec<Point> = points.iter().chain(points.first()).copied().collect();
                    polyline(&closed, *stroke, seen);
                }
            }
            Mark::Path { steps, stroke: Some(stroke), .. } => {
                let mut pen = None;
                for step in steps {
                    match *step {
                        Step::Move(to) => pen = Some(to),
                        Step::Line(to) | Step::Curve { to, .. } => {
                            if let Some(from) = pen.replace(to) {
                                seen.push(Seen::Stretch(from, to, *stroke));
                            }
                        }
                        Step::Close => {}
                    }
                }
            }
            Mark::Arc { centre, radius, from, turn, stroke } => {
                polyline(&arc_points(*centre, *radius, *from, *turn), *stroke, seen);
            }
            Mark::Text { label, .. } => {
                seen.push(Seen::Label(PlacedLabel { text: label.plain(), rect: mark.rect() }));
            }
            Mark::Group { marks, .. } => gather(marks, seen),
            Mark::Circle { .. } | Mark::Path { .. } | Mark::Grip(_) => {}
        }
    }
}

/// The labels that a line runs through, with how that line is drawn; what a patch hides is not seen. Of a heavy line its whole breadth
/// counts.
pub fn struck(drawing: &Drawing) -> Vec<(PlacedLabel, Stroke)> {
    let mut seen = Vec::new();
    gather(&drawing.marks, &mut seen);
    let mut found = Vec::new();
    for (place, mark) in seen.iter().enumerate() {
        let Seen::Label(label) = mark else { continue };
        // The room of the letters themselves: a line may graze what is left free for those that reach deeper.
        let height = label.rect.height();
        let letters = Rect {
            top: label.rect.top + 0.22 * height,
            bottom: label.rect.bottom - 0.22 * height,
            ..label.rect
        };
        let ground = seen[..place]
            .iter()
            .rposition(|mark| matches!(mark, Seen::Patch(rect) if rect.grown(0.1).holds(letters)))
            .unwrap_or(0);
        let strikes = |from: &Point, to: &Point, stroke: &Stroke| {
            let around = if stroke.width > MEDIUM { letters.grown(0.5 * stroke.width) } else { letters };
            around.is_crossed(*from, *to)
        };
        found.extend(seen[ground..].iter().filter_map(|mark| match mark {
            Seen::Stretch(from, to, stroke) if strikes(from, to, stroke) => Some((label.clone(), *stroke)),
            _ => None,
        }));
    }
    found
}

/// No line strikes through a label.
pub fn labels_are_free_of_lines(name: &str, drawing: &Drawing) {
    let struck = struck(drawing);
    assert!(struck.is_empty(), "{name} {}: {struck:?}", drawing.name);
}

/// A leader is so long that it is seen as one: a shorter one looks like a sign of its label.
pub fn leaders_are_seen(name: &str, drawing: &Drawing) {
    each_group(&drawing.marks, &mut |id, marks| {
        for mark in marks.iter().filter(|_| id == "labels") {
            let Mark::Line { from, to, stroke } = mark else { continue };
            let is_seen = *stroke != Stroke::LEADER || from.distance(*to) > 6.0;
            assert!(is_seen, "{name} {}: {from:?} {to:?}", drawing.name);
        }
    });
}

/// Every group with its marks, groups within groups too.
pub fn each_group(marks: &[Mark], see: &mut dyn FnMut(&str, &[Mark])) {
    for mark in marks {
        if let Mark::Group { id, marks, .. } = mark {
            see(id, marks);
            each_group(marks, see);
        }
    }
}
