//! The habits of a course, each a named switch.
//!
//! The signs of V and M themselves are the same in every profile: V is positive when it turns the slice clockwise (with
//! the depth axis down: along that axis on the face that looks along the beam), M when it sags, so that `dM/dx = V` and
//! `dV/dx = -w`. Courses that turn one of these about are not served yet.

use super::Profile;

/// The direction of the depth axis.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DepthAxis {
    /// Up; the bending stress is `-M y / I`.
    Up,
    /// Down; the bending stress is `M z / I`.
    Down,
}

/// On which side the bending moment is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MomentSide {
    /// Positive up.
    PositiveUp,
    /// Positive down.
    PositiveDown,
    /// On the side in tension; for a level beam, as positive down when sagging is positive.
    TensionSide,
}

/// On which side the shear force is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ShearSide {
    /// Positive up.
    PositiveUp,
    /// Positive down.
    PositiveDown,
}

/// What tells the sign of an area of a diagram.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SignMarks {
    /// Plus and minus.
    Signs,
    /// Bow marks, drawn as the slice is deformed.
    BowMarks,
    /// Both.
    Both,
}

/// What I is called.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SecondMomentWords {
    /// "second moment of area"
    SecondMomentOfArea,
    /// "moment of inertia"
    MomentOfInertia,
}

/// All habits of a course.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Habits {
    /// The direction of the depth axis, and with it the sign of the bending stress formula.
    pub depth_axis: DepthAxis,
    /// The side of the bending moment diagram.
    pub moment_side: MomentSide,
    /// The side of the shear force diagram.
    pub shear_side: ShearSide,
    /// What tells signs in diagrams.
    pub sign_marks: SignMarks,
    /// What I is called.
    pub second_moment_words: SecondMomentWords,
}

impl Habits {
    /// The habits of a profile.
    pub fn of(profile: Profile) -> Self {
        let upward = Self {
            depth_axis: DepthAxis::Up,
            moment_side: MomentSide::PositiveUp,
            shear_side: ShearSide::PositiveUp,
            sign_marks: SignMarks::Signs,
            second_moment_words: SecondMomentWords::MomentOfInertia,
        };
        match profile {
            Profile::Upward | Profile::UpwardB => upward,
            Profile::AreaArm => Self { second_moment_words: SecondMomentWords::SecondMomentOfArea, ..upward },
            Profile::CodeAxes | Profile::Downward => Self {
                depth_axis: DepthAxis::Down,
                moment_side: MomentSide::TensionSide,
                second_moment_words: SecondMomentWords::SecondMomentOfArea,
                ..upward
            },
            Profile::BowMarks => Self {
                depth_axis: DepthAxis::Down,
                moment_side: MomentSide::TensionSide,
                sign_marks: SignMarks::BowMarks,
                second_moment_words: SecondMomentWords::SecondMomentOfArea,
                ..upward
            },
        }
    }
}
