//! How exact a course wants its answers.

use lesson::Lesson;
use workings::rounding::Figures;

/// How exact a course wants its answers, and how its students round.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Course {
    /// How far an answer may be off, as a share of the right one: 0.01 for 1 %.
    pub tolerance: f64,
    /// To how many figures values are rounded, those on the way and those that are asked for.
    ///
    /// What becomes of a half in the last place is left open: a key must not depend on it, so both ways count.
    pub figures: Figures,
}

impl Course {
    /// The course of a lesson: its tolerance, and the figures that its values are shown with.
    pub fn of(lesson: &Lesson) -> Self {
        Self { tolerance: lesson.tolerance, figures: lesson.style.figures }
    }
}
