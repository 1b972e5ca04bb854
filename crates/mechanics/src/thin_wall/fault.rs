//! What can be wrong with the walls of a section.

/// Why walls make no section.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ThinWallFault {
    /// There is no wall.
    NoWalls,
    /// A wall begins or ends at a joint that there is not.
    NoSuchJoint {
        /// Index of the wall.
        wall: usize,
    },
    /// A length or thickness is not greater than zero, or a number is none.
    Size {
        /// Index of the wall.
        wall: usize,
    },
    /// A round wall does not end at its last joint.
    EndsElsewhere {
        /// Index of the wall.
        wall: usize,
    },
    /// No wall leads from the first joint to this one.
    Apart {
        /// Index of the joint.
        joint: usize,
    },
    /// All walls lie on one straight line: a plate, which these formulas do not cover.
    OnOneLine,
}
