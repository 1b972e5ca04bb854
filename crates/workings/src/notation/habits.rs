//! The sign habits of a course, each a named switch.

use super::Profile;

/// Which shear force is positive. With the depth axis down both agree; with it up they differ in sign.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PositiveShear {
    /// Left face up, right face down.
    TurnsClockwise,
    /// Along the depth axis on the face whose outward normal is the beam's axis.
    AlongTheAxis,
}

/// Which bending moment is positive.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PositiveMoment {
    /// The one that makes the beam sag.
    Sagging,
    /// The one about the cross axis.
    AboutTheCrossAxis,
}

/// The slope of the bending moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MomentSlope {
    /// `dM/dx = V`
    PlusShear,
    /// `dM/dx = -V`
    MinusShear,
}

/// The slope of the shear force.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ShearSlope {
    /// `dV/dx = -w`, a load down being positive.
    MinusLoad,
    /// `dV/dx = q`, a load along the depth axis being positive.
    PlusLoad,
}

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
    /// Which shear force is positive.
    pub positive_shear: PositiveShear,
    /// Which bending moment is positive.
    pub positive_moment: PositiveMoment,
    /// The slope of the bending moment.
    pub moment_slope: MomentSlope,
    /// The slope of the shear force.
    pub shear_slope: ShearSlope,
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
            positive_shear: PositiveShear::TurnsClockwise,
            positive_moment: PositiveMoment::Sagging,
            moment_slope: MomentSlope::PlusShear,
            shear_slope: ShearSlope::MinusLoad,
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
                positive_shear: PositiveShear::AlongTheAxis,
                depth_axis: DepthAxis::Down,
                moment_side: MomentSide::TensionSide,
                second_moment_words: SecondMomentWords::SecondMomentOfArea,
                ..upward
            },
            Profile::BowMarks => Self {
                positive_shear: PositiveShear::AlongTheAxis,
                depth_axis: DepthAxis::Down,
                moment_side: MomentSide::TensionSide,
                sign_marks: SignMarks::BowMarks,
                second_moment_words: SecondMomentWords::SecondMomentOfArea,
                ..upward
            },
        }
    }
}
