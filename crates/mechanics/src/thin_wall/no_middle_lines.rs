//! Why a section has no middle lines.

/// Why the walls of a section are not taken as lines.
#[derive(Clone, Debug, PartialEq)]
pub enum NoMiddleLines {
    /// It is one solid piece, or plates laid flat on one another: nobody would look for walls.
    Solid,
    /// Its parts are of different material.
    Materials,
    /// A wall is too thick for a line.
    Thick {
        /// The part.
        part: String,
        /// Its length, or the radius of its middle line, m.
        length: f64,
        /// Its thickness, m.
        thickness: f64,
        /// Whether the length is a radius.
        is_radius: bool,
    },
    /// A part is no strip of one thickness, straight or round.
    NoStrip {
        /// The part.
        part: String,
    },
    /// The straight sides of the one outline do not run in pairs with thin material of one thickness between them, or not everywhere.
    Unpaired,
    /// The middle lines do not hang together: no end of a strip stands on the flank of another, or meets its end.
    Apart,
}
