//! Wrong answers that are known for what they are.

use super::band::Band;
use super::fault::Why;
use super::value::ValuePart;
use crate::fair::{Judge, Wrong};
use serde::Serialize;

/// A wrong answer that a known mistake leads to.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Recognised {
    /// The mistake's id: `q-to-the-cut`.
    pub mistake: String,
    /// The name of the working at which it is made.
    pub made_at: String,
    /// Where it leads, SI.
    pub value: f64,
    /// The answers that are taken for it: within the course's tolerance, and never right ones.
    #[serde(flatten)]
    pub band: Band,
    /// What the student does, in one line that follows on "the student", in the course's symbols.
    pub does: String,
    /// What to say to the student, in the course's symbols.
    pub feedback: String,
}

/// Two values nearer than this part of their size are the same.
const SAME: f64 = 1e-9;

/// The mistakes that show in a value: made at the value itself first, then the nearer to it in the order of the solution the
/// sooner. Of one mistake that leads to the same value from several workings, the nearest counts.
pub(super) fn of(part: &ValuePart, judge: &Judge<'_>) -> Result<Vec<Recognised>, Why> {
    let solved = judge.solved();
    let mut wrongs = judge.wrongs(&part.working)?;
    let place = |wrong: &Wrong| solved.workings().id(&wrong.made_at);
    // Stable: mistakes made at one working stay in the order of the catalogue.
    wrongs.sort_by_key(|wrong| std::cmp::Reverse(place(wrong)));
    let mut all: Vec<Recognised> = Vec::new();
    for wrong in wrongs {
        let Wrong { mistake, made_at, value } = wrong;
        let Some(known) = judge.mistake(&mistake) else { continue };
        let told = |other: &Recognised| {
            other.mistake == mistake
                && (other.value - value).abs() <= SAME * value.abs().max(other.value.abs())
        };
        if part.accepts(value) || all.iter().any(told) {
            continue;
        }
        let share = judge.course().tolerance;
        let band = Band::about(value, share * value.abs().max(judge.least_size(&part.working)?));
        let band = part.accepted().fold(band, |band, right| band.beside(right, value));
        let style = solved.style();
        all.push(Recognised {
            does: known.does(style).text(style),
            feedback: known.feedback(style).text(style),
            mistake,
            made_at,
            value,
            band,
        });
    }
    Ok(all)
}
