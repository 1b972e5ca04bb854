//! Shapes of one part.

use super::super::{Dimension, Edge, Fault, Figure, Loop, Part, Point};
use super::{Demands, Shape};

/// A rectangle, sides level and upright, m.
///
/// # Errors
/// A dimension that is not greater than zero.
pub fn rectangle(breadth: f64, height: f64) -> Result<Shape, Vec<Fault>> {
    Demands::default()
        .positive(&[(Dimension::Breadth, breadth), (Dimension::Height, height)])
        .then(|| Shape::single("rectangle", Part::rectangle(Point::new(0.0, 0.0), breadth, height)))
}

/// A solid circle standing on y = 0, m.
///
/// # Errors
/// A diameter that is not greater than zero.
pub fn circle(diameter: f64) -> Result<Shape, Vec<Fault>> {
    Demands::default().positive(&[(Dimension::Diameter, diameter)]).then(|| {
        let outline = Loop::circle(Point::new(0.0, 0.5 * diameter), 0.5 * diameter);
        let figure = Figure::Circle { diameter };
        Shape::single("circle", Part { outline, holes: Vec::new(), modular_ratio: 1.0, figure })
    })
}

/// A round tube of outer diameter and wall, m, standing on y = 0.
///
/// # Errors
/// Dimensions that are not greater than zero, or a wall that is not less than the radius.
pub fn round_tube(diameter: f64, wall: f64) -> Result<Shape, Vec<Fault>> {
    let radius = 0.5 * diameter;
    Demands::default()
        .positive(&[(Dimension::Diameter, diameter), (Dimension::Wall, wall)])
        .fit(&[(Dimension::Wall, wall)], (Dimension::Radius, radius))
        .then(|| {
            let centre = Point::new(0.0, radius);
            let hole = Loop::circle(centre, radius - wall);
            Shape::single("round tube", Part::of_outline(Loop::circle(centre, radius), vec![hole]))
        })
}

/// Half a circle on its diameter, m, standing on y = 0.
///
/// # Errors
/// A diameter that is not greater than zero.
pub fn half_circle(diameter: f64, round_above: bool) -> Result<Shape, Vec<Fault>> {
    Demands::default().positive(&[(Dimension::Diameter, diameter)]).then(|| {
        let radius = 0.5 * diameter;
        let centre = Point::new(0.0, if round_above { 0.0 } else { radius });
        let (left, right) = (Point::new(-radius, centre.y), Point::new(radius, centre.y));
        let (start, to) = if round_above { (right, left) } else { (left, right) };
        let outline = Loop { start, path: vec![Edge::Arc { to, centre, counter_clockwise: true }] };
        let figure = Figure::HalfCircle { diameter, round_above };
        Shape::single("half circle", Part { outline, holes: Vec::new(), modular_ratio: 1.0, figure })
    })
}

/// A triangle with one level side, m: the corner opposite stands `apex_offset` to the right of the left end of that
/// side, half the base for an isosceles triangle, and above it or below it.
///
/// # Errors
/// A base or height that is not greater than zero.
pub fn triangle(base: f64, height: f64, apex_offset: f64, apex_above: bool) -> Result<Shape, Vec<Fault>> {
    Demands::default()
        .positive(&[(Dimension::Base, base), (Dimension::Height, height)])
        .finite(Dimension::ApexOffset, apex_offset)
        .then(|| {
            let (level, apex) = if apex_above { (0.0, height) } else { (height, 0.0) };
            let corners = [Point::new(0.0, level), Point::new(base, level), Point::new(apex_offset, apex)];
            let figure = Figure::Triangle { base, height, apex_above };
            let outline = Loop::polygon(&corners);
            Shape::single("triangle", Part { outline, holes: Vec::new(), modular_ratio: 1.0, figure })
        })
}

/// A trapezoid with level sides below and above, m; the upper side begins `top_offset` to the right of the lower one,
/// half the difference of the two for a symmetric one.
///
/// # Errors
/// A breadth or height that is not greater than zero.
pub fn trapezoid(
    bottom_breadth: f64,
    top_breadth: f64,
    height: f64,
    top_offset: f64,
) -> Result<Shape, Vec<Fault>> {
    Demands::default()
        .positive(&[
            (Dimension::BottomBreadth, bottom_breadth),
            (Dimension::TopBreadth, top_breadth),
            (Dimension::Height, height),
        ])
        .finite(Dimension::TopOffset, top_offset)
        .then(|| {
            let outline = Loop::polygon(&[
                Point::new(0.0, 0.0),
                Point::new(bottom_breadth, 0.0),
                Point::new(top_offset + top_breadth, height),
                Point::new(top_offset, height),
            ]);
            Shape::single("trapezoid", Part::of_outline(outline, Vec::new()))
        })
}

/// A polygon through the corners in order, m. Whether its sides cross is for [`super::super::Section::new`] to tell.
///
/// # Errors
/// Fewer than three corners.
pub fn polygon(corners: &[Point]) -> Result<Shape, Vec<Fault>> {
    if corners.len() < 3 {
        return Err(vec![Fault::TooFewCorners { corners: corners.len() }]);
    }
    Ok(Shape::single("polygon", Part::of_outline(Loop::polygon(corners), Vec::new())))
}
