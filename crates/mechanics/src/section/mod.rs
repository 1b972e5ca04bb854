//! A cross-section: loops of straight lines and circular arcs, with holes, in parts that may differ in material.
//!
//! [`Section::new`] checks the parts, all faults at once, and integrates round their outlines; heights and places
//! are in the coordinates of the outlines throughout.

pub mod catalogue;
mod check;
mod contact;
mod cut;
mod fault;
mod flank;
mod hull;
mod joint;
mod level;
pub(crate) mod meeting;
mod properties;
pub(crate) mod ring;
pub mod shapes;
mod split;
mod straight;
pub(crate) mod strip;

pub use contact::Contact;
pub use cut::{CutFault, LevelCut};
pub use fault::{Dimension, Fault, Ring};
pub use joint::{Fasteners, JointCut};
pub use level::{Chord, WidthJump};
pub(crate) use properties::product_that_counts;
pub use properties::{PartProperties, PrincipalMoments, Properties, Section};
pub(crate) use ring::turn;
pub use straight::StraightCut;

/// One side of a height in the section.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum HeightSide {
    /// The limit from below, or the piece below.
    Below,
    /// The limit from above, or the piece above.
    Above,
}

/// A point of the section's plane, m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// To the right, m.
    pub x: f64,
    /// Up, m.
    pub y: f64,
}

/// One side of a loop, from the point before it to `to`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Edge {
    /// A straight side.
    Line {
        /// Where it ends.
        to: Point,
    },
    /// A circular arc of less than a full turn.
    Arc {
        /// Where it ends.
        to: Point,
        /// Centre of the circle; both ends lie at the same distance from it.
        centre: Point,
        /// Whether it runs counter-clockwise about the centre.
        counter_clockwise: bool,
    },
}

/// A closed loop of edges; a last straight side closes it where the last edge does not end at `start`.
#[derive(Clone, Debug, PartialEq)]
pub struct Loop {
    /// First corner.
    pub start: Point,
    /// The sides in order, in either sense of turning.
    pub path: Vec<Edge>,
}

/// One piece of the section: what a lecturer would name when the section is taken apart.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// Its outline.
    pub outline: Loop,
    /// Holes in it.
    pub holes: Vec<Loop>,
    /// Modulus of elasticity over the reference modulus; 1 where the section is of one material.
    pub modular_ratio: f64,
    /// The simple figure that it is, where it is one: so that workings can write `b h` instead of an integral.
    pub figure: Figure,
}

/// The simple figures whose area, centroid and second moment stand in every handbook.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Figure {
    /// Sides level and upright: breadth and height, m.
    Rectangle {
        /// Level side, m.
        breadth: f64,
        /// Upright side, m.
        height: f64,
    },
    /// A full circle.
    Circle {
        /// Diameter, m.
        diameter: f64,
    },
    /// Half a circle on its diameter, round side up or down.
    HalfCircle {
        /// Diameter, m.
        diameter: f64,
        /// Whether the round side is above.
        round_above: bool,
    },
    /// A triangle with one level side.
    Triangle {
        /// The level side, m.
        base: f64,
        /// Height, m.
        height: f64,
        /// Whether the corner opposite the level side is above it.
        apex_above: bool,
    },
    /// Anything else: its integrals are taken round the outline.
    Outline,
}
