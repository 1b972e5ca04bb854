//! What can be wrong with the parts of a section: facts and places, to be put in words above.

use super::Point;

/// One closed loop of a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Ring {
    /// The part's outline.
    Outline,
    /// One of its holes, by index.
    Hole(usize),
}

/// A dimension of one of the shapes of [`super::shapes`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[allow(missing_docs, reason = "each name is the trade's own word")]
pub enum Dimension {
    Breadth,
    Height,
    Diameter,
    Radius,
    Wall,
    SideWall,
    TopWall,
    BottomWall,
    Base,
    TopBreadth,
    BottomBreadth,
    ApexOffset,
    TopOffset,
    FlangeBreadth,
    FlangeThickness,
    TopFlangeBreadth,
    TopFlangeThickness,
    BottomFlangeBreadth,
    BottomFlangeThickness,
    WebThickness,
    UprightLegThickness,
    LevelLegThickness,
    BottomThickness,
    RootRadius,
    ToeRadius,
    FlangeSlope,
}

/// One thing wrong with a section. Parts, holes and sides are counted from 0; side 0 of a loop is the first of its
/// path, and the straight side that closes it comes last.
#[derive(Clone, Debug, PartialEq)]
pub enum Fault {
    /// There are no parts.
    NoParts,
    /// A coordinate is infinite or no number.
    NotFinite {
        /// The part.
        part: usize,
        /// Which of its loops.
        ring: Ring,
        /// The side; its end or centre is not finite, or the start where it is the first.
        side: usize,
    },
    /// The modular ratio is zero, negative or no finite number.
    ModularRatio {
        /// The part.
        part: usize,
        /// The ratio as given.
        ratio: f64,
    },
    /// A loop encloses no area.
    NoArea {
        /// The part.
        part: usize,
        /// Which of its loops.
        ring: Ring,
    },
    /// Two sides of a loop cross or touch elsewhere than at a shared corner, or run back over each other.
    SidesCross {
        /// The part.
        part: usize,
        /// Which of its loops.
        ring: Ring,
        /// The earlier side.
        first: usize,
        /// The later side.
        second: usize,
        /// Where they meet.
        at: Point,
    },
    /// The ends of an arc lie at different distances from its centre.
    ArcOffCentre {
        /// The part.
        part: usize,
        /// Which of its loops.
        ring: Ring,
        /// The side.
        side: usize,
        /// Distance of its start from the centre, m.
        start_distance: f64,
        /// Distance of its end from the centre, m.
        end_distance: f64,
    },
    /// An arc ends where it starts, so that it may mean a full turn or nothing: a circle wants two arcs.
    ArcEndsMeet {
        /// The part.
        part: usize,
        /// Which of its loops.
        ring: Ring,
        /// The side.
        side: usize,
    },
    /// A hole crosses or touches the outline: a notch must be drawn as part of the outline.
    HoleCrossesOutline {
        /// The part.
        part: usize,
        /// The hole.
        hole: usize,
        /// A place where they meet.
        at: Point,
    },
    /// A hole lies wholly outside the outline.
    HoleOutside {
        /// The part.
        part: usize,
        /// The hole.
        hole: usize,
    },
    /// Two holes cross, touch, or lie one in the other.
    HolesOverlap {
        /// The part.
        part: usize,
        /// The earlier hole.
        first: usize,
        /// The later hole.
        second: usize,
    },
    /// Two parts lie on the same ground, which would count twice.
    PartsOverlap {
        /// The earlier part.
        first: usize,
        /// The later part.
        second: usize,
        /// Lowest height of the ground they share, m.
        from: f64,
        /// Highest height of the ground they share, m.
        to: f64,
    },
    /// Some parts do not touch the others along any line, so that no shear can pass between them.
    PartsApart {
        /// The parts that hang together and do not touch part 0.
        parts: Vec<usize>,
        /// A single point in which they touch the others, where there is one.
        touching_at: Option<Point>,
    },
    /// A dimension of a shape must be greater than zero (or at least zero, for offsets and radii).
    DimensionSize {
        /// Which dimension.
        dimension: Dimension,
        /// Its value as given.
        value: f64,
    },
    /// Dimensions of a shape that do not fit in another one.
    DoesNotFit {
        /// What has to fit, each with its size in m; together they are too much.
        pieces: Vec<(Dimension, f64)>,
        /// What they have to fit in, with its size in m.
        room: (Dimension, f64),
    },
    /// A polygon has fewer than three corners.
    TooFewCorners {
        /// How many there are.
        corners: usize,
    },
}
