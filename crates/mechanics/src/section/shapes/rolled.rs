//! Rolled profiles with root and toe radii.

use super::super::{Dimension, Edge, Fault, Loop, Part, Point};
use super::{Demands, Shape};
use crate::real;

/// Draws an outline side by side.
struct Pen(Loop);

impl Pen {
    fn at(x: f64, y: f64) -> Self {
        Self(Loop { start: Point::new(x, y), path: Vec::new() })
    }

    fn line(mut self, x: f64, y: f64) -> Self {
        self.0.path.push(Edge::Line { to: Point::new(x, y) });
        self
    }

    /// No side at all where the radius is zero: the corner is then sharp.
    fn arc(mut self, to: (f64, f64), centre: (f64, f64), radius: f64, counter_clockwise: bool) -> Self {
        if radius > 0.0 {
            let (to, centre) = (Point::new(to.0, to.1), Point::new(centre.0, centre.1));
            self.0.path.push(Edge::Arc { to, centre, counter_clockwise });
        }
        self
    }
}

/// A rolled I or H profile with parallel flanges and root radii, m; its web stands over x = 0.
///
/// # Errors
/// Dimensions that are not greater than zero (the radius may be zero), flanges and radii that do not fit in the
/// height, web and radii that do not fit in the breadth.
pub fn rolled_i(
    height: f64,
    breadth: f64,
    web_thickness: f64,
    flange_thickness: f64,
    root_radius: f64,
) -> Result<Shape, Vec<Fault>> {
    let (web, flange) =
        ((Dimension::WebThickness, web_thickness), (Dimension::FlangeThickness, flange_thickness));
    let root = (Dimension::RootRadius, root_radius);
    Demands::default()
        .positive(&[(Dimension::Height, height), (Dimension::Breadth, breadth), web, flange])
        .not_negative(&[root])
        .fit(&[flange, flange], (Dimension::Height, height))
        .fill(&[flange, flange, root, root], (Dimension::Height, height))
        .fill(&[web, root, root], (Dimension::Breadth, breadth))
        .fit(&[web], (Dimension::Breadth, breadth))
        .then(|| {
            let (b, w, r) = (0.5 * breadth, 0.5 * web_thickness, root_radius);
            let (low, high) = (flange_thickness, height - flange_thickness);
            let outline = Pen::at(-b, 0.0)
                .line(b, 0.0)
                .line(b, low)
                .line(w + r, low)
                .arc((w, low + r), (w + r, low + r), r, false)
                .line(w, high - r)
                .arc((w + r, high), (w + r, high - r), r, false)
                .line(b, high)
                .line(b, height)
                .line(-b, height)
                .line(-b, high)
                .line(-w - r, high)
                .arc((-w, high - r), (-w - r, high - r), r, false)
                .line(-w, low + r)
                .arc((-w - r, low), (-w - r, low + r), r, false)
                .line(-b, low);
            Shape::single("rolled I-section", Part::of_outline(outline.0, Vec::new()))
        })
}

/// A rolled channel with parallel flanges and root radii, m; the back of its web stands at x = 0.
///
/// # Errors
/// As [`rolled_i`].
pub fn rolled_channel(
    height: f64,
    breadth: f64,
    web_thickness: f64,
    flange_thickness: f64,
    root_radius: f64,
) -> Result<Shape, Vec<Fault>> {
    let (web, flange) =
        ((Dimension::WebThickness, web_thickness), (Dimension::FlangeThickness, flange_thickness));
    let root = (Dimension::RootRadius, root_radius);
    Demands::default()
        .positive(&[(Dimension::Height, height), (Dimension::Breadth, breadth), web, flange])
        .not_negative(&[root])
        .fit(&[flange, flange], (Dimension::Height, height))
        .fill(&[flange, flange, root, root], (Dimension::Height, height))
        .fill(&[web, root], (Dimension::Breadth, breadth))
        .fit(&[web], (Dimension::Breadth, breadth))
        .then(|| {
            let (b, w, r) = (breadth, web_thickness, root_radius);
            let (low, high) = (flange_thickness, height - flange_thickness);
            let outline = Pen::at(0.0, 0.0)
                .line(b, 0.0)
                .line(b, low)
                .line(w + r, low)
                .arc((w, low + r), (w + r, low + r), r, false)
                .line(w, high - r)
                .arc((w + r, high), (w + r, high - r), r, false)
                .line(b, high)
                .line(b, height)
                .line(0.0, height);
            Shape::single("rolled channel", Part::of_outline(outline.0, Vec::new()))
        })
}

/// A rolled channel whose flanges slope on the inside, m: `flange_thickness` stands `measured_at` from the back of the
/// web, `slope` is the rise over the run, and the inner edge of the toe is rounded.
///
/// # Errors
/// As [`rolled_i`]; also a toe that the slope leaves too thin for its radius.
pub fn rolled_channel_sloping(
    height: f64,
    breadth: f64,
    web_thickness: f64,
    (flange_thickness, measured_at): (f64, f64),
    slope: f64,
    root_radius: f64,
    toe_radius: f64,
) -> Result<Shape, Vec<Fault>> {
    let (web, flange) =
        ((Dimension::WebThickness, web_thickness), (Dimension::FlangeThickness, flange_thickness));
    let (root, toe) = ((Dimension::RootRadius, root_radius), (Dimension::ToeRadius, toe_radius));
    // The inner face is y = c - slope x; a circle of radius r that touches it has its centre r √(1 + slope²) off it,
    // measured upright.
    let stretch = real::hypot(1.0, slope);
    let c = flange_thickness + slope * measured_at;
    let toe_x = breadth - toe_radius;
    let toe_y = c - slope * toe_x - toe_radius * stretch;
    let root_x = web_thickness + root_radius;
    let root_y = c - slope * root_x + root_radius * stretch;
    // The flange where its slope ends and the root begins; the root adds its radius.
    let at_root = (Dimension::FlangeThickness, root_y - root_radius);
    let mut demands = Demands::default()
        .positive(&[(Dimension::Height, height), (Dimension::Breadth, breadth), web, flange])
        .not_negative(&[root, toe, (Dimension::FlangeSlope, slope)])
        .finite(Dimension::FlangeSlope, measured_at)
        .fill(&[web, root, toe], (Dimension::Breadth, breadth))
        .fit(&[web], (Dimension::Breadth, breadth))
        .fit(&[at_root, at_root], (Dimension::Height, height))
        .fill(&[at_root, at_root, root, root], (Dimension::Height, height));
    if demands.0.is_empty() && toe_y < 0.0 {
        let left = (Dimension::FlangeThickness, toe_y + toe_radius);
        demands.0.push(Fault::DoesNotFit { pieces: vec![toe], room: left });
    }
    demands.then(|| {
        let (b, w, h) = (breadth, web_thickness, height);
        // From a centre to the point of contact: along the normal of the inner face, (slope, 1) over its length.
        let (nx, ny) = (slope / stretch, 1.0 / stretch);
        let toe_touch = (toe_x + toe_radius * nx, toe_y + toe_radius * ny);
        let root_touch = (root_x - root_radius * nx, root_y - root_radius * ny);
        let outline = Pen::at(0.0, 0.0)
            .line(b, 0.0)
            .line(b, toe_y)
            .arc(toe_touch, (toe_x, toe_y), toe_radius, true)
            .line(root_touch.0, root_touch.1)
            .arc((w, root_y), (root_x, root_y), root_radius, false)
            .line(w, h - root_y)
            .arc((root_touch.0, h - root_touch.1), (root_x, h - root_y), root_radius, false)
            .line(toe_touch.0, h - toe_touch.1)
            .arc((b, h - toe_y), (toe_x, h - toe_y), toe_radius, true)
            .line(b, h)
            .line(0.0, h);
        Shape::single("rolled channel", Part::of_outline(outline.0, Vec::new()))
    })
}
