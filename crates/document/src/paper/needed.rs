//! Whether the questions of a paper need the slice and the cut of the lesson: one that asks for reactions alone shows neither.

use super::worked::asked;
use crate::wording::belongs_to_the_slice;
use assessment::set::{Ask, Part, SetPaper};
use lesson::question::Sketch;
use workings::solved::Solved;
use workings::working::{Chapter, Id};

/// What of the slice the questions of a paper need.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Needed {
    /// Where it is.
    pub slice: bool,
    /// Where it is cut, and how long it is.
    pub cut: bool,
}

impl Needed {
    /// Of a paper. A lecturer's own words may speak of either whatever they ask for: in English it is seen whether they do.
    pub fn by(set: &SetPaper) -> Self {
        let in_english = set.lesson.about.language.to_lowercase().starts_with("en");
        let speaks = |text: &str| {
            let text = text.to_lowercase();
            !in_english || ["slice", "cut"].iter().any(|word| text.contains(word))
        };
        let own_words =
            set.lesson.questions.iter().filter_map(|question| question.text.as_deref()).any(speaks);
        let cut = own_words || set.parts().any(|part| cut_is_needed(part, &set.solved));
        let slice = cut || set.parts().any(|part| slice_is_needed(part, &set.solved));
        Self { slice, cut }
    }
}

fn cut_is_needed(part: &Part, solved: &Solved) -> bool {
    let workings = solved.workings();
    let key = solved.key();
    let of_the_cut = [key.cut_height, key.area_beyond, key.first_moment, key.width, key.stress_on_cut];
    let follows_from_the_cut =
        |id: Id| workings.downstream(&of_the_cut).get(id.0 as usize).copied().unwrap_or(false);
    match &part.ask {
        Ask::Sketch { sketch } => *sketch == Sketch::PartBeyond,
        _ => id_of(part, solved)
            .is_some_and(|id| workings.working(id).chapter == Chapter::Slice || follows_from_the_cut(id)),
    }
}

fn slice_is_needed(part: &Part, solved: &Solved) -> bool {
    match &part.ask {
        Ask::Sketch { sketch } => matches!(sketch, Sketch::BendingStress | Sketch::ShearStress),
        _ => id_of(part, solved).is_some_and(|id| belongs_to_the_slice(solved, id)),
    }
}

/// The working that a part asks for, or asks where to find.
fn id_of(part: &Part, solved: &Solved) -> Option<Id> {
    asked(part).and_then(|name| solved.workings().id(name))
}
