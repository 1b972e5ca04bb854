//! The drawings of a lesson, each made once.

use figure::drawing::Drawing;
use figure::scale::Sheet;
use figure::view::BeamView;
use workings::solved::Solved;

/// The drawings of a lesson, by their names.
#[derive(Clone, Debug, Default)]
pub struct Drawings(Vec<Drawing>);

impl Drawings {
    /// The drawings of a solved lesson.
    pub fn of(solved: &Solved) -> Self {
        let mut drawings = vec![figure::beam::given(&BeamView::of(solved))];
        drawings.extend(figure::all(solved));
        Self(drawings)
    }

    /// With another one, where there is one.
    pub(crate) fn and(mut self, drawings: impl IntoIterator<Item = Drawing>) -> Self {
        self.0.extend(drawings);
        self
    }

    /// Those of these names that apply to the lesson, on a sheet; no other is made.
    pub(crate) fn some_on(solved: &Solved, sheet: Sheet, names: &[&str]) -> Self {
        Self(match names.is_empty() {
            true => Vec::new(),
            false => figure::some_on(solved, sheet, |name| names.contains(&name)),
        })
    }

    /// The drawing of this name; `None` where it does not apply to the lesson.
    pub fn get(&self, name: &str) -> Option<Drawing> {
        self.0.iter().find(|drawing| drawing.name == name).cloned()
    }
}
