//! The drawings of a lesson, each made once.

use figure::drawing::Drawing;
use workings::solved::Solved;

/// The drawings of a lesson, in the order of the lecture. One that is not there does not apply to the lesson.
#[derive(Clone, Debug, Default)]
pub struct Drawings {
    /// The beam as given.
    pub given: Option<Drawing>,
    /// The beam as a free body.
    pub free_body: Option<Drawing>,
    /// Load, shear force and bending moment on one axis.
    pub diagrams: Option<Drawing>,
    /// The deflected beam.
    pub deflected: Option<Drawing>,
    /// The section with its dimensions, the neutral axis and the part beyond the cut.
    pub section: Option<Drawing>,
    /// Loose planks against glued planks.
    pub planks: Option<Drawing>,
    /// The slice as a free body.
    pub slice: Option<Drawing>,
    /// Bending stress on the two faces.
    pub faces: Option<Drawing>,
    /// The part beyond the cut as a free body.
    pub piece: Option<Drawing>,
    /// The slice in the round, the part beyond the cut lifted off.
    pub pictorial: Option<Drawing>,
    /// Bending and shear stress over the depth.
    pub depth: Option<Drawing>,
}

impl Drawings {
    /// The drawings of a solved lesson.
    pub fn of(_solved: &Solved) -> Self {
        Self::default()
    }
}
