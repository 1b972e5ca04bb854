//! Shapes made of rectangles: flanges, webs, legs and walls.

use super::super::{Dimension, Fault, Part, Point};
use super::{Demands, Shape};

fn plate(x: f64, y: f64, breadth: f64, height: f64) -> Part {
    Part::rectangle(Point::new(x, y), breadth, height)
}

/// A T with its flange above or below, m; `height` is that of the whole.
///
/// # Errors
/// Dimensions that are not greater than zero, a flange as thick as the whole, a web broader than the flange.
pub fn tee(
    flange_breadth: f64,
    flange_thickness: f64,
    web_thickness: f64,
    height: f64,
    flange_above: bool,
) -> Result<Shape, Vec<Fault>> {
    Demands::default()
        .positive(&[
            (Dimension::FlangeBreadth, flange_breadth),
            (Dimension::FlangeThickness, flange_thickness),
            (Dimension::WebThickness, web_thickness),
            (Dimension::Height, height),
        ])
        .fit(&[(Dimension::FlangeThickness, flange_thickness)], (Dimension::Height, height))
        .fill(&[(Dimension::WebThickness, web_thickness)], (Dimension::FlangeBreadth, flange_breadth))
        .then(|| {
            let web_height = height - flange_thickness;
            let web_x = 0.5 * (flange_breadth - web_thickness);
            let (flange_y, web_y) = if flange_above { (web_height, 0.0) } else { (0.0, flange_thickness) };
            let flange = ("flange", plate(0.0, flange_y, flange_breadth, flange_thickness));
            let web = ("web", plate(web_x, web_y, web_thickness, web_height));
            Shape::of("T-section", vec![flange, web])
        })
}

/// An I with flanges that may differ, m; `height` is that of the whole. For equal flanges give them twice.
///
/// # Errors
/// Dimensions that are not greater than zero, flanges that do not fit in the height, a web broader than a flange.
pub fn i_section(
    height: f64,
    top_flange: (f64, f64),
    bottom_flange: (f64, f64),
    web_thickness: f64,
) -> Result<Shape, Vec<Fault>> {
    let ((top_breadth, top_thickness), (bottom_breadth, bottom_thickness)) = (top_flange, bottom_flange);
    Demands::default()
        .positive(&[
            (Dimension::Height, height),
            (Dimension::TopFlangeBreadth, top_breadth),
            (Dimension::TopFlangeThickness, top_thickness),
            (Dimension::BottomFlangeBreadth, bottom_breadth),
            (Dimension::BottomFlangeThickness, bottom_thickness),
            (Dimension::WebThickness, web_thickness),
        ])
        .fit(
            &[
                (Dimension::TopFlangeThickness, top_thickness),
                (Dimension::BottomFlangeThickness, bottom_thickness),
            ],
            (Dimension::Height, height),
        )
        .fill(&[(Dimension::WebThickness, web_thickness)], (Dimension::TopFlangeBreadth, top_breadth))
        .fill(&[(Dimension::WebThickness, web_thickness)], (Dimension::BottomFlangeBreadth, bottom_breadth))
        .then(|| {
            let middle = 0.5 * top_breadth.max(bottom_breadth);
            let centred = |breadth: f64| middle - 0.5 * breadth;
            let web_height = height - top_thickness - bottom_thickness;
            let top_y = bottom_thickness + web_height;
            Shape::of(
                "I-section",
                vec![
                    ("top flange", plate(centred(top_breadth), top_y, top_breadth, top_thickness)),
                    ("web", plate(centred(web_thickness), bottom_thickness, web_thickness, web_height)),
                    ("bottom flange", plate(centred(bottom_breadth), 0.0, bottom_breadth, bottom_thickness)),
                ],
            )
        })
}

/// A channel with its web upright on the left, m; `flange_breadth` is that of the whole.
///
/// # Errors
/// Dimensions that are not greater than zero, flanges that do not fit in the height, a web as broad as the flanges.
pub fn channel(
    height: f64,
    flange_breadth: f64,
    web_thickness: f64,
    flange_thickness: f64,
) -> Result<Shape, Vec<Fault>> {
    let flange = (Dimension::FlangeThickness, flange_thickness);
    Demands::default()
        .positive(&[
            (Dimension::Height, height),
            (Dimension::FlangeBreadth, flange_breadth),
            (Dimension::WebThickness, web_thickness),
            flange,
        ])
        .fit(&[flange, flange], (Dimension::Height, height))
        .fit(&[(Dimension::WebThickness, web_thickness)], (Dimension::FlangeBreadth, flange_breadth))
        .then(|| {
            let web_height = height - 2.0 * flange_thickness;
            let top_y = flange_thickness + web_height;
            Shape::of(
                "channel",
                vec![
                    ("top flange", plate(0.0, top_y, flange_breadth, flange_thickness)),
                    ("web", plate(0.0, flange_thickness, web_thickness, web_height)),
                    ("bottom flange", plate(0.0, 0.0, flange_breadth, flange_thickness)),
                ],
            )
        })
}

/// A channel lying on its web, open above, m: a bottom with a side wall at each end.
///
/// # Errors
/// Dimensions that are not greater than zero, walls that do not fit in the breadth, a bottom as thick as the height.
pub fn trough(breadth: f64, height: f64, side_wall: f64, bottom_thickness: f64) -> Result<Shape, Vec<Fault>> {
    let side = (Dimension::SideWall, side_wall);
    let bottom = (Dimension::BottomThickness, bottom_thickness);
    Demands::default()
        .positive(&[(Dimension::Breadth, breadth), (Dimension::Height, height), side, bottom])
        .fit(&[side, side], (Dimension::Breadth, breadth))
        .fit(&[bottom], (Dimension::Height, height))
        .then(|| {
            let wall_height = height - bottom_thickness;
            Shape::of(
                "trough",
                vec![
                    ("left web", plate(0.0, bottom_thickness, side_wall, wall_height)),
                    ("right web", plate(breadth - side_wall, bottom_thickness, side_wall, wall_height)),
                    ("bottom", plate(0.0, 0.0, breadth, bottom_thickness)),
                ],
            )
        })
}

/// An angle with its corner at the lower left, m; the legs may differ in length and thickness.
///
/// # Errors
/// Dimensions that are not greater than zero, a leg thicker than the other is long.
pub fn angle(
    height: f64,
    breadth: f64,
    upright_thickness: f64,
    level_thickness: f64,
) -> Result<Shape, Vec<Fault>> {
    Demands::default()
        .positive(&[
            (Dimension::Height, height),
            (Dimension::Breadth, breadth),
            (Dimension::UprightLegThickness, upright_thickness),
            (Dimension::LevelLegThickness, level_thickness),
        ])
        .fit(&[(Dimension::UprightLegThickness, upright_thickness)], (Dimension::Breadth, breadth))
        .fit(&[(Dimension::LevelLegThickness, level_thickness)], (Dimension::Height, height))
        .then(|| {
            Shape::of(
                "angle",
                vec![
                    ("upright leg", plate(0.0, level_thickness, upright_thickness, height - level_thickness)),
                    ("level leg", plate(0.0, 0.0, breadth, level_thickness)),
                ],
            )
        })
}

/// A box of four plates, m: top and bottom over the whole breadth, two webs between them.
///
/// # Errors
/// Dimensions that are not greater than zero, webs that do not fit in the breadth, plates not in the height.
pub fn box_girder(
    breadth: f64,
    height: f64,
    side_wall: f64,
    top_wall: f64,
    bottom_wall: f64,
) -> Result<Shape, Vec<Fault>> {
    let side = (Dimension::SideWall, side_wall);
    let (top, bottom) = ((Dimension::TopWall, top_wall), (Dimension::BottomWall, bottom_wall));
    Demands::default()
        .positive(&[(Dimension::Breadth, breadth), (Dimension::Height, height), side, top, bottom])
        .fit(&[side, side], (Dimension::Breadth, breadth))
        .fit(&[top, bottom], (Dimension::Height, height))
        .then(|| {
            let web_height = height - top_wall - bottom_wall;
            Shape::of(
                "box",
                vec![
                    ("top", plate(0.0, bottom_wall + web_height, breadth, top_wall)),
                    ("left web", plate(0.0, bottom_wall, side_wall, web_height)),
                    ("right web", plate(breadth - side_wall, bottom_wall, side_wall, web_height)),
                    ("bottom", plate(0.0, 0.0, breadth, bottom_wall)),
                ],
            )
        })
}

/// A rectangular tube of one wall all round, sharp corners, m.
///
/// # Errors
/// Dimensions that are not greater than zero, walls that do not fit in breadth or height.
pub fn rectangular_tube(breadth: f64, height: f64, wall: f64) -> Result<Shape, Vec<Fault>> {
    let one = (Dimension::Wall, wall);
    Demands::default()
        .positive(&[(Dimension::Breadth, breadth), (Dimension::Height, height), one])
        .fit(&[one, one], (Dimension::Breadth, breadth))
        .fit(&[one, one], (Dimension::Height, height))
        .then(|| {
            let outer = plate(0.0, 0.0, breadth, height).outline;
            let hole = plate(wall, wall, breadth - 2.0 * wall, height - 2.0 * wall).outline;
            Shape::single("rectangular tube", Part::of_outline(outer, vec![hole]))
        })
}
