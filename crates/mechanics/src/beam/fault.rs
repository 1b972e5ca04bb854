//! What can be wrong with a beam: the facts, for a caller that knows where each number was written.

use super::mechanism::Motion;
use super::{Freedom, Side};
use std::fmt;

/// A number of the beam.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Given {
    /// The beam's length.
    Length,
    /// The beam's flexural rigidity.
    FlexuralRigidity,
    /// A support's station.
    SupportStation(usize),
    /// A support's imposed movement.
    SupportMovement(usize, Freedom),
    /// A support's stiffness.
    SupportStiffness(usize, Freedom),
    /// A hinge's station.
    HingeStation(usize),
    /// A load's station; for a spread load its left or right end.
    LoadStation(usize, Option<Side>),
    /// A load's size; for a spread load its intensity at the left or right end.
    LoadSize(usize, Option<Side>),
}

/// One thing wrong with a beam. Indices count in [`Beam::supports`](super::Beam::supports),
/// [`Beam::hinges`](super::Beam::hinges) and [`Beam::loads`](super::Beam::loads); all numbers in SI.
#[derive(Clone, Debug, PartialEq)]
pub enum Fault {
    /// A number is infinite or none at all.
    NotFinite {
        /// Which number.
        given: Given,
        /// What it is.
        value: f64,
    },
    /// The beam's length is zero or less.
    LengthNotPositive {
        /// The length, m.
        length: f64,
    },
    /// The flexural rigidity is zero or less.
    RigidityNotPositive {
        /// `E I`, N m².
        flexural_rigidity: f64,
    },
    /// What a unit of shear force tilts the axis by is less than nothing, or no number.
    ShearFlexibility {
        /// `f / (G A)`, 1/N.
        shear_flexibility: f64,
    },
    /// A spring's stiffness is zero or less.
    StiffnessNotPositive {
        /// The support.
        support: usize,
        /// Which of its springs.
        against: Freedom,
        /// The stiffness, N/m or N m/rad.
        stiffness: f64,
    },
    /// A support stands off the beam.
    SupportOffBeam {
        /// The support.
        support: usize,
        /// Where it stands, m.
        station: f64,
        /// Where the beam ends, m; it begins at 0.
        length: f64,
    },
    /// Two supports at one station: their shares are not determined.
    SupportsTogether {
        /// The one listed first.
        first: usize,
        /// The other.
        second: usize,
        /// Where, m.
        station: f64,
    },
    /// A hinge lies off the beam.
    HingeOffBeam {
        /// The hinge.
        hinge: usize,
        /// Where it lies, m.
        station: f64,
        /// Where the beam ends, m; it begins at 0.
        length: f64,
    },
    /// A hinge lies at an end of the beam, where there are no two pieces to join.
    HingeAtEnd {
        /// The hinge.
        hinge: usize,
        /// Where, m.
        station: f64,
    },
    /// Two hinges at one station: the piece between them has no length.
    HingesTogether {
        /// The one listed first.
        first: usize,
        /// The other.
        second: usize,
        /// Where, m.
        station: f64,
    },
    /// A support keeps the beam from turning exactly at a hinge: which of the two pieces is not said.
    RotationHeldAtHinge {
        /// The support.
        support: usize,
        /// The hinge.
        hinge: usize,
        /// Where, m.
        station: f64,
    },
    /// A load, or one end of a spread load, lies off the beam.
    LoadOffBeam {
        /// The load.
        load: usize,
        /// The end of a spread load: left for `from`, right for `to`.
        end: Option<Side>,
        /// Where it lies, m.
        station: f64,
        /// Where the beam ends, m; it begins at 0.
        length: f64,
    },
    /// A spread load begins and ends at one station.
    SpreadOfNoLength {
        /// The load.
        load: usize,
        /// Where, m.
        station: f64,
    },
    /// A spread load ends before it begins.
    SpreadBackwards {
        /// The load.
        load: usize,
        /// Where it begins, m.
        from: f64,
        /// Where it ends, m.
        to: f64,
    },
    /// A couple acts exactly at a hinge: on which of the two pieces is not said.
    CoupleAtHinge {
        /// The load.
        load: usize,
        /// The hinge.
        hinge: usize,
        /// Where, m.
        station: f64,
    },
    /// Nothing prevents a motion of the beam.
    Mechanism(Motion),
    /// The numbers are so large or so small that the results cannot be held.
    OutOfRange,
}

impl fmt::Display for Given {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Given::Length => write!(f, "the length"),
            Given::FlexuralRigidity => write!(f, "the flexural rigidity"),
            Given::SupportStation(i) => write!(f, "the station of support {}", i + 1),
            Given::SupportMovement(i, _) => write!(f, "the movement of support {}", i + 1),
            Given::SupportStiffness(i, _) => write!(f, "the stiffness of support {}", i + 1),
            Given::HingeStation(i) => write!(f, "the station of hinge {}", i + 1),
            Given::LoadStation(i, _) => write!(f, "the station of load {}", i + 1),
            Given::LoadSize(i, _) => write!(f, "the size of load {}", i + 1),
        }
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Fault::NotFinite { given, value } => write!(f, "{given} is {value}, where a number is wanted"),
            Fault::LengthNotPositive { length } => {
                write!(f, "the length must be greater than zero; it is {length} m")
            }
            Fault::RigidityNotPositive { flexural_rigidity } => {
                write!(f, "the flexural rigidity must be greater than zero; it is {flexural_rigidity} N m²")
            }
            Fault::ShearFlexibility { shear_flexibility } => {
                write!(
                    f,
                    "the flexibility in shear must be a number and no less than zero; it is {shear_flexibility} /N"
                )
            }
            Fault::StiffnessNotPositive { support, stiffness, against } => {
                let unit = match against {
                    Freedom::Transverse => "N/m",
                    Freedom::Rotation => "N m/rad",
                };
                write!(
                    f,
                    "the stiffness of support {} must be greater than zero; it is {stiffness} {unit}",
                    support + 1
                )
            }
            Fault::SupportOffBeam { support, station, length } => write!(
                f,
                "support {} at {station} m lies off the beam, which reaches from 0 to {length} m",
                support + 1
            ),
            Fault::SupportsTogether { first, second, station } => write!(
                f,
                "supports {} and {} both stand at {station} m: their shares are not determined",
                first + 1,
                second + 1
            ),
            Fault::HingeOffBeam { hinge, station, length } => write!(
                f,
                "hinge {} at {station} m lies off the beam, which reaches from 0 to {length} m",
                hinge + 1
            ),
            Fault::HingeAtEnd { hinge, station } => {
                write!(f, "hinge {} lies at the beam's end at {station} m and joins nothing", hinge + 1)
            }
            Fault::HingesTogether { first, second, station } => {
                write!(f, "hinges {} and {} both lie at {station} m", first + 1, second + 1)
            }
            Fault::RotationHeldAtHinge { support, hinge, station } => write!(
                f,
                "support {} keeps the beam from turning exactly at hinge {} at {station} m: of which piece?",
                support + 1,
                hinge + 1
            ),
            Fault::LoadOffBeam { load, end, station, length } => {
                let part = match end {
                    None => "",
                    Some(Side::Left) => "the beginning of ",
                    Some(Side::Right) => "the end of ",
                };
                write!(
                    f,
                    "{part}load {} at {station} m lies off the beam, which reaches from 0 to {length} m",
                    load + 1
                )
            }
            Fault::SpreadOfNoLength { load, station } => {
                write!(f, "the spread load {} begins and ends at {station} m", load + 1)
            }
            Fault::SpreadBackwards { load, from, to } => {
                write!(f, "the spread load {} begins at {from} m and ends before it, at {to} m", load + 1)
            }
            Fault::CoupleAtHinge { load, hinge, station } => write!(
                f,
                "the couple, load {}, acts exactly at hinge {} at {station} m: on which piece?",
                load + 1,
                hinge + 1
            ),
            Fault::Mechanism(motion) => write!(f, "{motion}"),
            Fault::OutOfRange => write!(f, "the numbers are too large or too small to compute with"),
        }
    }
}

impl std::error::Error for Fault {}
