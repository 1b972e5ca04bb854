//! A straight prismatic beam: what holds it, what loads it, and how it carries that.
//!
//! [`Beam`] is plain data. [`Beam::faults`] tells everything that is wrong with it at once, [`Beam::solve`]
//! gives the [`Solution`]: reactions, and V, M, slope and deflection as exact piecewise polynomials, whether
//! the beam is statically determinate or not.

mod balance;
mod banded;
mod check;
mod element;
mod extreme;
mod fault;
mod layout;
mod mechanism;
mod nodes;
mod place;
mod redundant;
mod roots;
mod segment;
mod sizes;
mod solution;
mod solve;
mod twofold;
mod zero;

pub use balance::{Balance, Law};
pub use fault::{Fault, Given};
pub use mechanism::{HingeAt, Motion, MovingPiece, PieceMotion};
pub use place::{Extreme, Extremes, Place, Reached, Zero};
pub use redundant::Redundant;
pub use segment::{Curve, Segment};
pub use solution::{Jump, Reaction, Solution};

// Two stations nearer than this share of the beam's length are one: a force at 1.5 m and a load from 1.5 m,
// each read from text and converted, may differ in the last bits.
const SAME_STATION: f64 = 1e-12;

/// One of the two ways in which a beam can move at a station.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Freedom {
    /// Up and down.
    Transverse,
    /// Turning.
    Rotation,
}

/// How one degree of freedom of the beam is held at a support.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Hold {
    /// Nothing holds it.
    Free,
    /// Held still, or moved by a given amount: m up, or rad counter-clockwise (a settlement of 5 mm is -0.005).
    Rigid {
        /// The imposed movement, m or rad; 0 where there is none.
        moved: f64,
    },
    /// Held by a spring.
    Spring {
        /// Stiffness, N/m or N m/rad; greater than zero.
        stiffness: f64,
    },
}

impl Hold {
    /// Held still.
    pub const STILL: Hold = Hold::Rigid { moved: 0.0 };
}

/// A support: a station and how the beam is held there against moving up or down and against turning.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Support {
    /// Position along the beam, m.
    pub station: f64,
    /// Against moving up or down.
    pub transverse: Hold,
    /// Against turning.
    pub rotation: Hold,
}

impl Support {
    /// A pin or a roller: holds the beam up and lets it turn. (Along the axis nothing is asked of either.)
    pub const fn pin(station: f64) -> Self {
        Self { station, transverse: Hold::STILL, rotation: Hold::Free }
    }

    /// A fixed end.
    pub const fn fixed(station: f64) -> Self {
        Self { station, transverse: Hold::STILL, rotation: Hold::STILL }
    }

    /// A guided end: kept from turning, free to move up and down.
    pub const fn guided(station: f64) -> Self {
        Self { station, transverse: Hold::Free, rotation: Hold::STILL }
    }

    /// A spring under the beam, stiffness in N/m.
    pub const fn spring(station: f64, stiffness: f64) -> Self {
        Self { station, transverse: Hold::Spring { stiffness }, rotation: Hold::Free }
    }
}

/// A load on the beam.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Load {
    /// A point force.
    Force {
        /// Position, m.
        station: f64,
        /// Size, N, positive down.
        down: f64,
    },
    /// An applied couple.
    Couple {
        /// Position, m.
        station: f64,
        /// Size, N m, positive counter-clockwise.
        ccw: f64,
    },
    /// A load spread over a stretch, its intensity running in a straight line between its ends.
    Spread {
        /// Where it begins, m.
        from: f64,
        /// Where it ends, m; greater than `from`.
        to: f64,
        /// Intensity at its beginning, N/m, positive down.
        down_from: f64,
        /// Intensity at its end, N/m, positive down.
        down_to: f64,
    },
}

/// One side of a station.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Side {
    /// The limit from the left.
    Left,
    /// The limit from the right.
    Right,
}

/// A straight prismatic beam.
#[derive(Clone, Debug, PartialEq)]
pub struct Beam {
    /// Length, m; the beam lies over `0 ..= length`.
    pub length: f64,
    /// Flexural rigidity `E I`, N m²; greater than zero.
    pub flexural_rigidity: f64,
    /// What holds the beam, in any order.
    pub supports: Vec<Support>,
    /// Stations of the internal hinges, m, in any order.
    pub hinges: Vec<f64>,
    /// What loads the beam, in any order.
    pub loads: Vec<Load>,
}
