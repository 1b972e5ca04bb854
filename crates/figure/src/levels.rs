//! What drawings that share the section's height axis have in common: level lines, axes, values in a column.

use crate::cross_section::Frame;
use crate::drawing::Mark;
use crate::geometry::Point;
use crate::palette::{Ink, MEDIUM, Stroke, THIN};
use crate::scene::Scene;
use crate::text::{Align, Label, SIZE};

/// Where the level lines begin, px; the section's left edge is at 0.
pub(crate) const LEFT: f64 = -14.0;

/// Neutral axis, cut, top and bottom carried across to the diagrams.
pub(crate) fn level_lines(scene: &Scene, frame: &Frame, end: f64) -> Vec<Mark> {
    let line = |height: f64, stroke: Stroke| Mark::Line {
        from: Point::new(LEFT, frame.y(height)),
        to: Point::new(end, frame.y(height)),
        stroke,
    };
    let mut marks: Vec<Mark> = [scene.extent.bottom, scene.extent.top]
        .into_iter()
        .map(|height| Mark::Line {
            from: Point::new(frame.right() + 6.0, frame.y(height)),
            to: Point::new(end, frame.y(height)),
            stroke: Stroke::solid(Ink::Faint, THIN),
        })
        .collect();
    marks.push(line(scene.values.neutral_axis, Stroke::dash_dot(Ink::Line, THIN)));
    marks.push(line(scene.cut, Stroke::dash_dot(Ink::Cut, MEDIUM)));
    marks
}

/// The axis of a diagram.
pub(crate) fn height_axis(scene: &Scene, frame: &Frame, x: f64) -> Mark {
    Mark::Line {
        from: Point::new(x, frame.y(scene.extent.bottom)),
        to: Point::new(x, frame.y(scene.extent.top)),
        stroke: Stroke::solid(Ink::Line, MEDIUM),
    }
}

/// What stands over a panel about `middle` px in letters of `size` px: words and a symbol.
pub(crate) fn head(
    scene: &Scene,
    frame: &Frame,
    (middle, size): (f64, f64),
    words: &str,
    symbol: Label,
) -> Mark {
    Mark::Text {
        at: Point::new(middle, frame.y(scene.extent.top) - 34.0),
        label: Label::words(format!("{words}\u{a0}")).followed_by(symbol),
        align: Align::Middle,
        size,
        ink: Ink::Quiet,
    }
}

/// A value of the curve that is written beside it.
pub(crate) struct Tag {
    /// The point of the curve.
    pub at: Point,
    /// Its value.
    pub label: Label,
    /// Colour of the value.
    pub ink: Ink,
}

/// The values in a column at `x`, each tied to its point, pushed apart where they would touch.
pub(crate) fn column(mut tags: Vec<Tag>, x: f64) -> Vec<Mark> {
    const PITCH: f64 = 17.0;
    // Of two values at one height, the two sides of a jump, that just below was added first and stands lower.
    tags.reverse();
    tags.sort_by(|a, b| a.at.y.total_cmp(&b.at.y));
    let mut ys: Vec<f64> = tags.iter().map(|tag| tag.at.y).collect();
    // A few hundred rounds of pushing neighbours apart by equal amounts keep each near its own height.
    for _ in 0..400 {
        for k in 1..ys.len() {
            let lack = PITCH - (ys[k] - ys[k - 1]);
            if lack > 0.0 {
                ys[k - 1] -= 0.5 * lack;
                ys[k] += 0.5 * lack;
            }
        }
    }
    let mut marks = Vec::new();
    for (tag, y) in tags.into_iter().zip(ys) {
        let end = Point::new(x - 4.0, y);
        marks.push(Mark::Line { from: tag.at.moved(4.0, 0.0), to: end, stroke: Stroke::LEADER });
        let at = Point::new(x, y + 0.5 * crate::metrics::CAP_HEIGHT * SIZE);
        marks.push(Mark::Text { at, label: tag.label, align: Align::Start, size: SIZE, ink: tag.ink });
    }
    marks
}
