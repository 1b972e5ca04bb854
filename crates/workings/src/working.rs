//! One working: a named quantity with its formula, its value and one sentence. The graph of them all is
//! [`crate::graph::Workings`].

use crate::engine::Call;
use crate::expression::Expression;
use crate::quantity::Quantity;
use crate::role::Symbol;
use mechanics::beam::Side;
pub use mechanics::section::HeightSide;

/// Which working: its place in the order of the graph. A working reads only workings before it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Id(pub u32);

/// The chapter of the worked solution in which a working stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Chapter {
    /// What the lesson gives.
    Given,
    /// Reactions.
    Reactions,
    /// Shear force and bending moment.
    Diagrams,
    /// Area, centroid, second moment.
    Section,
    /// Bending stress.
    Bending,
    /// Bending stress in each of several materials.
    Materials,
    /// First moment, width, shear stress on the cut.
    Shear,
    /// Bending about an axis that is no principal one.
    Skew,
    /// Shear flow in thin walls, shear centre; where bending is askew it reads what that chapter found.
    Walls,
    /// Principal stresses at the cut; where the beam is governed.
    Point,
    /// The finite slice and its balances.
    Slice,
    /// Joints: shear flow, fasteners.
    Joints,
    /// What the beam may carry for what its material may bear.
    Allowables,
}

impl Chapter {
    /// All chapters in the order of the worked solution.
    pub const ALL: [Self; 13] = [
        Self::Given,
        Self::Reactions,
        Self::Diagrams,
        Self::Section,
        Self::Bending,
        Self::Materials,
        Self::Shear,
        Self::Skew,
        Self::Walls,
        Self::Point,
        Self::Slice,
        Self::Joints,
        Self::Allowables,
    ];

    /// What the chapter is called, wherever it is printed.
    pub fn title(self) -> &'static str {
        match self {
            Self::Given => "Given",
            Self::Reactions => "Reactions",
            Self::Diagrams => "Shear force and bending moment",
            Self::Section => "Section",
            Self::Bending => "Bending stress",
            Self::Materials => "Stress in each material",
            Self::Shear => "Shear stress on the cut",
            Self::Walls => "Shear flow in the walls",
            Self::Point => "Stress at a point",
            Self::Skew => "Bending askew",
            Self::Slice => "The finite slice",
            Self::Joints => "Joints",
            Self::Allowables => "What the beam may carry",
        }
    }
}

/// Where a value holds, where that is not the whole beam.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Place {
    /// Station, m.
    pub station: Option<f64>,
    /// Side of the station, where the value jumps there.
    pub side: Option<Side>,
    /// Height in the section's own coordinates, m.
    pub height: Option<f64>,
    /// Side of the height, where the value jumps there.
    pub height_side: Option<HeightSide>,
}

/// How a working comes by its value.
#[derive(Clone, Debug, PartialEq)]
pub enum Formula {
    /// Given by the lesson.
    Given,
    /// Evaluated from the expression.
    Expression(Expression),
    /// Found by the engine's exact solution, in the stated way, where a formula in closed form would not help a
    /// reader (the integral over an outline with arcs, the solution of several simultaneous equations).
    Engine {
        /// One sentence: how it was found.
        how: String,
        /// What it depends on.
        reads: Vec<Id>,
        /// How it is found again when what it reads is replaced.
        call: Call,
    },
}

/// One named quantity with its formula, its value and one sentence.
#[derive(Clone, Debug, PartialEq)]
pub struct Working {
    /// Stable name in words, unique in the lesson: `reaction at A`, `shear stress on the cut`.
    pub name: String,
    /// Its symbol by role.
    pub symbol: Symbol,
    /// The chapter it stands in.
    pub chapter: Chapter,
    /// Where it holds.
    pub place: Place,
    /// How it comes by its value.
    pub formula: Formula,
    /// Its value, full precision.
    pub value: Quantity,
    /// One sentence that says what is done and why.
    pub sentence: String,
}
