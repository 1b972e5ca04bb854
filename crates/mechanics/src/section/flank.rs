//! A flank: a piece of boundary that runs up or down all the way, with the integrals of the ground beside it.
//!
//! By Green's theorem each integral over the area is a sum over the flanks, of `x dy`, `x²/2 dy`, `x y dy` and so on.
//! Level sides add nothing, and so a level cut needs no more than the flanks cut off at its height.

use super::ring::{Curve, Stretch};
use super::{HeightSide, Point};
use crate::gauss;
use crate::real;

/// Area with its first and second moments about the axes through the local origin.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Moments {
    /// Area, m².
    pub area: f64,
    /// `∫ x dA`, m³.
    pub x: f64,
    /// `∫ y dA`, m³.
    pub y: f64,
    /// `∫ x² dA`, m⁴.
    pub xx: f64,
    /// `∫ x y dA`, m⁴.
    pub xy: f64,
    /// `∫ y² dA`, m⁴.
    pub yy: f64,
}

impl Moments {
    pub(crate) fn add(&mut self, other: &Moments, times: f64) {
        self.area += times * other.area;
        self.x += times * other.x;
        self.y += times * other.y;
        self.xx += times * other.xx;
        self.xy += times * other.xy;
        self.yy += times * other.yy;
    }

    /// Adds the ground between the y axis and a strip of height `dy` that ends at (x, y).
    fn add_strip(&mut self, x: f64, y: f64, dy: f64) {
        let ground = x * dy;
        self.area += ground;
        self.x += 0.5 * x * ground;
        self.y += y * ground;
        self.xx += x * x * ground * (1.0 / 3.0);
        self.xy += 0.5 * x * y * ground;
        self.yy += y * y * ground;
    }
}

/// A piece of boundary that runs up or down all the way, in local coordinates.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Flank {
    pub part: usize,
    /// +1 where the material lies to its left, -1 where it lies to its right.
    pub sign: f64,
    pub lower: Point,
    pub upper: Point,
    pub shape: FlankShape,
}

#[derive(Clone, Copy, Debug)]
pub(crate) enum FlankShape {
    Straight,
    /// On the right (`half` is +1) or the left half (-1) of a circle.
    Round {
        centre: Point,
        radius: f64,
        half: f64,
    },
}

impl Flank {
    /// From a stretch that runs up or down all the way, its ends at the heights given; none where it is level.
    pub(crate) fn of(part: usize, stretch: &Stretch, from_y: f64, to_y: f64) -> Option<Flank> {
        let (from, to) = (Point::new(stretch.from.x, from_y), Point::new(stretch.to.x, to_y));
        let shape = match stretch.curve {
            Curve::Straight => FlankShape::Straight,
            Curve::Round { centre, radius, .. } => {
                FlankShape::Round { centre, radius, half: stretch.right_or_left() }
            }
        };
        if to_y > from_y {
            Some(Flank { part, sign: 1.0, lower: from, upper: to, shape })
        } else if to_y < from_y {
            Some(Flank { part, sign: -1.0, lower: to, upper: from, shape })
        } else {
            None
        }
    }

    /// Whether it runs through the height, seen from one side of it.
    pub(crate) fn reaches(&self, y: f64, side: HeightSide) -> bool {
        match side {
            HeightSide::Below => self.lower.y < y && y <= self.upper.y,
            HeightSide::Above => self.lower.y <= y && y < self.upper.y,
        }
    }

    /// Where it stands at a height within its ends.
    pub(crate) fn x_at(&self, y: f64) -> f64 {
        if y <= self.lower.y {
            return self.lower.x;
        }
        if y >= self.upper.y {
            return self.upper.x;
        }
        match self.shape {
            FlankShape::Straight => {
                let part = (y - self.lower.y) / (self.upper.y - self.lower.y);
                self.lower.x + (self.upper.x - self.lower.x) * part
            }
            FlankShape::Round { centre, radius, half } => {
                let up = y - centre.y;
                centre.x + half * ((radius - up) * (radius + up)).max(0.0).sqrt()
            }
        }
    }

    /// How fast it moves to the right as the height grows, `dx/dy`; infinite at the top of a circle.
    pub(crate) fn slope_at(&self, y: f64) -> f64 {
        match self.shape {
            FlankShape::Straight => (self.upper.x - self.lower.x) / (self.upper.y - self.lower.y),
            FlankShape::Round { centre, radius, half } => {
                let up = y - centre.y;
                -half * up / ((radius - up) * (radius + up)).max(0.0).sqrt()
            }
        }
    }

    /// Area and moments of the ground between the y axis and the flank, from height `bottom` to `top`.
    pub(crate) fn moments(&self, bottom: f64, top: f64) -> Moments {
        let mut sum = Moments::default();
        let (bottom, top) = (bottom.max(self.lower.y), top.min(self.upper.y));
        if bottom >= top {
            return sum;
        }
        match self.shape {
            // The integrands are at most cubic in y, and Simpson's rule is exact for a cubic.
            FlankShape::Straight => {
                let (first, last) = (self.x_at(bottom), self.x_at(top));
                let sixth = (top - bottom) * (1.0 / 6.0);
                sum.add_strip(first, bottom, sixth);
                sum.add_strip(0.5 * (first + last), 0.5 * (bottom + top), 4.0 * sixth);
                sum.add_strip(last, top, sixth);
            }
            FlankShape::Round { centre, radius, half } => {
                // By atan2 and not asin, which loses half its digits near the top of the circle.
                let angle = |y: f64| real::atan2(y - centre.y, half * (self.x_at(y) - centre.x));
                gauss::for_each_node(angle(bottom), angle(top), |turn, weight| {
                    let (up, out) = (radius * real::sin(turn), radius * real::cos(turn));
                    sum.add_strip(centre.x + half * out, centre.y + up, out * weight);
                });
            }
        }
        sum
    }
}
