//! The usual sections by the sizes of their middle lines, m. Webs stand upright.

use super::{ThinWallFault, ThinWalls, Wall};
use crate::section::Point;

type Made = Result<ThinWalls, ThinWallFault>;

fn points<const N: usize>(of: [(f64, f64); N]) -> Vec<Point> {
    of.into_iter().map(|(x, y)| Point::new(x, y)).collect()
}

impl ThinWalls {
    /// An I about its centre: its web on x = 0, centred on y = 0. Each flange by its breadth and thickness.
    ///
    /// # Errors
    /// A dimension that is not greater than zero; so for all of them.
    pub fn i_section(height: f64, top: (f64, f64), bottom: (f64, f64), web_thickness: f64) -> Made {
        let (y, a, b) = (0.5 * height, 0.5 * top.0, 0.5 * bottom.0);
        let joints = points([(-b, -y), (0.0, -y), (b, -y), (-a, y), (0.0, y), (a, y)]);
        let walls = vec![
            Wall::straight("bottom flange, left", 0, 1, bottom.1),
            Wall::straight("bottom flange, right", 2, 1, bottom.1),
            Wall::straight("web", 1, 4, web_thickness),
            Wall::straight("top flange, left", 4, 3, top.1),
            Wall::straight("top flange, right", 4, 5, top.1),
        ];
        Self::new(joints, walls)
    }

    /// A T with its flange above, the two meeting in the origin.
    ///
    /// # Errors
    /// See [`ThinWalls::i_section`].
    pub fn tee(flange_breadth: f64, height: f64, flange_thickness: f64, web_thickness: f64) -> Made {
        let b = 0.5 * flange_breadth;
        let walls = vec![
            Wall::straight("web", 0, 1, web_thickness),
            Wall::straight("flange, left", 1, 2, flange_thickness),
            Wall::straight("flange, right", 1, 3, flange_thickness),
        ];
        Self::new(points([(0.0, -height), (0.0, 0.0), (-b, 0.0), (b, 0.0)]), walls)
    }

    /// A channel, its web on x = 0 and centred on y = 0, its flanges to the right. The walls run from the tip of the lower
    /// flange over the web to the tip of the upper one.
    ///
    /// # Errors
    /// See [`ThinWalls::i_section`].
    pub fn channel(flange_breadth: f64, height: f64, flange_thickness: f64, web_thickness: f64) -> Made {
        Self::flanged_web((flange_breadth, flange_breadth), height, flange_thickness, web_thickness)
    }

    /// A Z, its web on x = 0 and centred on y = 0, the lower flange to the left and the upper one to the right.
    ///
    /// # Errors
    /// See [`ThinWalls::i_section`].
    pub fn zed(flange_breadth: f64, height: f64, flange_thickness: f64, web_thickness: f64) -> Made {
        Self::flanged_web((-flange_breadth, flange_breadth), height, flange_thickness, web_thickness)
    }

    /// A web with one flange at each end; the lower and the upper flange end so far to the right.
    fn flanged_web((low, high): (f64, f64), height: f64, flange_thickness: f64, web_thickness: f64) -> Made {
        let y = 0.5 * height;
        let walls = vec![
            Wall::straight("bottom flange", 0, 1, flange_thickness),
            Wall::straight("web", 1, 2, web_thickness),
            Wall::straight("top flange", 2, 3, flange_thickness),
        ];
        Self::new(points([(low, -y), (0.0, -y), (0.0, y), (high, y)]), walls)
    }

    /// An angle with its corner in the origin, one leg up and the other to the right.
    ///
    /// # Errors
    /// See [`ThinWalls::i_section`].
    pub fn angle(height: f64, breadth: f64, upright_thickness: f64, level_thickness: f64) -> Made {
        let walls = vec![
            Wall::straight("level leg", 2, 1, level_thickness),
            Wall::straight("upright leg", 1, 0, upright_thickness),
        ];
        Self::new(points([(0.0, height), (0.0, 0.0), (breadth, 0.0)]), walls)
    }

    /// A hat: a top between two webs, a brim outwards at the foot of each; x = 0 halves it, the brims stand on y = 0.
    ///
    /// # Errors
    /// See [`ThinWalls::i_section`].
    pub fn hat(breadth: f64, height: f64, brim: f64, thickness: f64) -> Made {
        let b = 0.5 * breadth;
        let joints =
            points([(-b - brim, 0.0), (-b, 0.0), (-b, height), (b, height), (b, 0.0), (b + brim, 0.0)]);
        let names = ["left brim", "left web", "top", "right web", "right brim"];
        let wall = |(k, name)| Wall::straight(name, k, k + 1, thickness);
        Self::new(joints, names.into_iter().enumerate().map(wall).collect())
    }

    /// A round tube about the origin, slit lengthwise on its right at mid-height; the radius is that of the middle line.
    ///
    /// # Errors
    /// See [`ThinWalls::i_section`].
    pub fn slit_tube(radius: f64, thickness: f64) -> Made {
        let turn = core::f64::consts::TAU;
        let wall = Wall::round("wall", (0, 1), Point::new(0.0, 0.0), turn, thickness);
        Self::new(points([(radius, 0.0), (radius, 0.0)]), vec![wall])
    }

    /// A round tube about the origin, of two halves that run from its lowest point to its highest.
    ///
    /// # Errors
    /// See [`ThinWalls::i_section`].
    pub fn tube(radius: f64, thickness: f64) -> Made {
        let (centre, half) = (Point::new(0.0, 0.0), core::f64::consts::PI);
        let walls = vec![
            Wall::round("left half", (0, 1), centre, -half, thickness),
            Wall::round("right half", (0, 1), centre, half, thickness),
        ];
        Self::new(points([(0.0, -radius), (0.0, radius)]), walls)
    }

    /// A rectangular box about the origin; its walls by their thicknesses.
    ///
    /// # Errors
    /// See [`ThinWalls::i_section`].
    pub fn box_section(breadth: f64, height: f64, thickness: BoxWalls) -> Made {
        let (x, y) = (0.5 * breadth, 0.5 * height);
        let walls = vec![
            Wall::straight("bottom", 0, 1, thickness.bottom),
            Wall::straight("right web", 1, 2, thickness.right),
            Wall::straight("top", 3, 2, thickness.top),
            Wall::straight("left web", 0, 3, thickness.left),
        ];
        Self::new(points([(-x, -y), (x, -y), (x, y), (-x, y)]), walls)
    }

    /// A box of two cells side by side, its left web on x = 0, centred on y = 0: the breadth of each cell, the thickness of
    /// top and bottom over each cell, and those of the left, the middle and the right web.
    ///
    /// # Errors
    /// See [`ThinWalls::i_section`].
    pub fn two_cell_box(breadths: [f64; 2], height: f64, covers: [f64; 2], webs: [f64; 3]) -> Made {
        let (y, middle, right) = (0.5 * height, breadths[0], breadths[0] + breadths[1]);
        let joints = points([(0.0, y), (middle, y), (right, y), (0.0, -y), (middle, -y), (right, -y)]);
        let walls = vec![
            Wall::straight("top, left", 0, 1, covers[0]),
            Wall::straight("top, right", 1, 2, covers[1]),
            Wall::straight("bottom, left", 3, 4, covers[0]),
            Wall::straight("bottom, right", 4, 5, covers[1]),
            Wall::straight("left web", 3, 0, webs[0]),
            Wall::straight("middle web", 4, 1, webs[1]),
            Wall::straight("right web", 5, 2, webs[2]),
        ];
        Self::new(joints, walls)
    }
}

/// The thicknesses of the four walls of a box, m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BoxWalls {
    /// Of the bottom, m.
    pub bottom: f64,
    /// Of the right web, m.
    pub right: f64,
    /// Of the top, m.
    pub top: f64,
    /// Of the left web, m.
    pub left: f64,
}
