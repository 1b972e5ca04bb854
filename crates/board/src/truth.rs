//! The elastic truth on the board: worked out when it is asked for, then kept in step whenever the hand rests.

use crate::page::push_drawing;
use document::html::fragment;
use document::notes;
use figure::scale::Sheet;
use lesson::Lesson;
use workings::elastic::ElasticTruth;
use workings::solved::Solved;

/// What the board knows of it.
#[derive(Clone, Debug, Default)]
pub(crate) enum Truth {
    /// Nobody has asked.
    #[default]
    Unasked,
    /// It is to be told; what was found last is kept, for the section may stay while the loads change.
    Asked(Option<Box<ElasticTruth>>),
}

impl Truth {
    /// It is told from now on.
    pub fn ask(&mut self) {
        if matches!(self, Self::Unasked) {
            *self = Self::Asked(None);
        }
    }

    /// What stands on the page: a button, or the drawing with its words.
    pub fn content(&mut self, lesson: &Lesson, solved: &Solved, sheet: Sheet) -> String {
        let Self::Asked(kept) = self else {
            return "<p>The formula gives the mean over the width. How the stress is spread over the width of this very section is worked \
                    out by elastic theory, which takes a moment.</p>\n\
                    <p><button type=\"button\" data-truth>Work out the elastic truth</button></p>\n"
                .to_owned();
        };
        let truth = match kept.as_deref() {
            Some(before) => before.again(solved),
            None => ElasticTruth::of(solved),
        };
        let mut out = String::new();
        if let Some(drawing) =
            truth.as_ref().ok().and_then(|truth| figure::elastic::elastic_on(solved, truth, sheet))
        {
            let words = fragment(&document::described(&drawing.long), solved.style());
            push_drawing(&mut out, "drawing-elastic", &drawing, &drawing.svg_for_a_page(), Some(&words));
        }
        out.push_str(&fragment(&notes::elastic(lesson, solved, &truth), solved.style()));
        *kept = truth.ok().map(Box::new);
        out
    }
}
