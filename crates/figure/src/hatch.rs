//! Hatching as explicit lines, clipped to a shape: every reader of SVG draws them alike, patterns do not.

use crate::drawing::Mark;
use crate::geometry::{Point, Rect};
use crate::palette::Stroke;
use mechanics::real;

/// The stretches of parallel lines inside a shape given by closed loops, holes by the even-odd rule.
///
/// The lines run at `angle` (rad, counter-clockwise from the right as seen on the sheet), `spacing` px apart,
/// in step with the sheet's origin, so that shapes side by side hatch as one.
pub fn lines(loops: &[Vec<Point>], angle: f64, spacing: f64) -> Vec<(Point, Point)> {
    let (cos, sin) = (real::cos(angle), real::sin(angle));
    // (u, v): u along the lines, v across them
    let turned = |point: Point| Point::new(point.x * cos - point.y * sin, point.x * sin + point.y * cos);
    let back = |u: f64, v: f64| Point::new(u * cos + v * sin, -u * sin + v * cos);
    let loops: Vec<Vec<Point>> =
        loops.iter().map(|points| points.iter().map(|&p| turned(p)).collect()).collect();
    let rect = loops.iter().fold(Rect::NOTHING, |all, points| all.joined(Rect::around(points)));
    let mut stretches = Vec::new();
    // a shape of no size has no lines, and one of absurd size would have no end of them
    if !(rect.height() > 0.0 && rect.height() / spacing < 1e5) {
        return stretches;
    }
    let mut number = (rect.top / spacing).ceil();
    loop {
        // half a line off the whole multiples: edges of drawings tend to lie on these
        let v = (number + 0.5) * spacing;
        if v >= rect.bottom {
            break;
        }
        let mut crossings = Vec::new();
        for points in &loops {
            for (place, &one) in points.iter().enumerate() {
                let other = points[(place + 1) % points.len()];
                if (one.y <= v) != (other.y <= v) {
                    crossings.push(one.x + (other.x - one.x) * (v - one.y) / (other.y - one.y));
                }
            }
        }
        crossings.sort_by(f64::total_cmp);
        for pair in crossings.chunks_exact(2) {
            if pair[1] - pair[0] > 0.2 {
                stretches.push((back(pair[0], v), back(pair[1], v)));
            }
        }
        number += 1.0;
    }
    stretches
}

/// The hatch of a shape as marks.
pub fn marks(loops: &[Vec<Point>], angle: f64, spacing: f64, stroke: Stroke) -> Vec<Mark> {
    lines(loops, angle, spacing).into_iter().map(|(from, to)| Mark::Line { from, to, stroke }).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use core::f64::consts::{FRAC_PI_2, FRAC_PI_4};

    fn square(left: f64, top: f64, side: f64) -> Vec<Point> {
        vec![
            Point::new(left, top),
            Point::new(left + side, top),
            Point::new(left + side, top + side),
            Point::new(left, top + side),
        ]
    }

    /// Closed form: lines `spacing` apart cover area / spacing of length, but for the ends.
    #[test]
    fn hatch_fills_the_shape_and_spares_its_hole() {
        let loops = [square(0.0, 0.0, 100.0), square(40.0, 40.0, 20.0)];
        for angle in [0.0, FRAC_PI_4, FRAC_PI_2, 2.0] {
            let lines = lines(&loops, angle, 0.5);
            let length: f64 = lines.iter().map(|(from, to)| from.distance(*to)).sum();
            assert!((length * 0.5 - 9600.0).abs() < 10.0, "{angle}: {length}");
            let hole = Rect { left: 40.0, top: 40.0, right: 60.0, bottom: 60.0 }.grown(-1e-6);
            assert!(lines.iter().all(|(from, to)| !hole.is_crossed(*from, *to)));
        }
    }
}
