//! Why there is no elastic solution: facts, to be put in words above.

/// What stood in the way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Fault {
    /// Poisson's ratio is no number from -1 (excluded) to 0.5.
    PoissonRatio {
        /// As given.
        ratio: f64,
    },
    /// A shear modulus, or its ratio to another, is no number greater than zero; or there is not one for each part.
    ShearModulus,
    /// The sizes of the section are so large or small that their powers leave the range of the numbers.
    Size {
        /// Size of the section, m.
        size: f64,
    },
    /// Walls or gaps are so thin beside the whole that too many triangles would be needed.
    TooFine {
        /// How many sides or corners of triangles were reached.
        sides: usize,
    },
    /// A part could not be filled with triangles: its sides come nearer to each other than can be told apart.
    NoMesh {
        /// The part.
        part: usize,
    },
    /// A triangle beside an arc folds over: the arc runs into a corner of no angle.
    FoldedTriangle {
        /// The part.
        part: usize,
    },
    /// The equations could not be solved: the parts hang together by less than can be told apart, or their materials differ
    /// by too much.
    NotSolvable,
    /// The stresses do not add up to the shear force: what was left, of the force.
    DoesNotClose {
        /// Left over.
        residual: f64,
    },
}
