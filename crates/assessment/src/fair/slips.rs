//! Slips of the pen (a sign, a power of ten, a unit) after which a value is one that is known for something else.
//!
//! Marking knows them: a wrong answer that a slip explains is told as that slip. So two things are to be known of a paper. Where a
//! slip of the right value leads to the value of a mistake, marking can only offer both. Where a slip after a mistake leads to the
//! right value, two errors are marked right.
//!
//! What is thrown out: a paper on which one slip alone is taken as right, as far as the tolerance can tell ([`Taken`]); that is a
//! right value so near zero that its band holds its opposite. The other two are reported and throw out nothing: of a few dozen
//! mistakes and a few dozen factors some pair meets by chance on every second paper, it takes two errors in one answer, and
//! marking claims them only where chance would hardly fit.

use super::mistakes::{Led, Wrong, all_same, same};
use serde::Serialize;
use workings::mistake::slip::Slip;

/// A slip of the right value that the tolerance takes as right.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Taken {
    /// The slip's id: `sign`.
    pub slip: String,
    /// The wrong value over the right one.
    pub factor: f64,
}

/// A mistake and a slip of which one leads to the other's value, as far as the tolerance can tell.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Meets {
    /// The mistake.
    #[serde(flatten)]
    pub wrong: Wrong,
    /// The slip's id.
    pub slip: String,
    /// By what the slip changes the value that it befalls.
    pub factor: f64,
    /// Whether they meet with any numbers; otherwise other numbers would part them.
    pub by_structure: bool,
}

/// What slips make of an asked value and of the mistakes that can show in it; a half and a double, which have many causes, are left
/// out.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Slips {
    /// Slips of the right value that are taken as right.
    pub taken: Vec<Taken>,
    /// Mistakes after which a slip leads back to the right value.
    pub back: Vec<Meets>,
    /// Mistakes that lead to where a slip of the right value leads.
    pub as_mistake: Vec<Meets>,
    /// How many pairs of mistakes there are of which the one after a slip has the value of the other.
    pub between_mistakes: usize,
}

/// The right value, in the lesson and in each of the other worlds, and how far an answer may be off it, SI.
pub(super) struct Right<'a> {
    pub value: f64,
    pub elsewhere: &'a [f64],
    pub half_width: f64,
    /// Whether an answer is right with either sign.
    pub either_sign: bool,
}

impl Slips {
    /// Of the mistakes that the right value does not hide, sorted by their values; `band` is the half-width about a wrong value.
    pub(super) fn of(right: &Right<'_>, shown: &[Led], slips: &[Slip], band: impl Fn(f64) -> f64) -> Self {
        let mut found = Self::default();
        for slip in slips.iter().filter(|slip| !slip.last_resort) {
            // With either sign right, the sign is nothing to lose.
            if right.either_sign && slip.factor == -1.0 {
                continue;
            }
            let factor = slip.factor;
            let slipped = factor * right.value;
            // Zero has no sign, and no other digits with other powers of ten.
            if right.value != 0.0 && (slipped - right.value).abs() <= right.half_width {
                found.taken.push(Taken { slip: slip.id.to_owned(), factor });
            }
            let meets = |led: &Led, one: f64, other: f64, parts: (f64, f64)| Meets {
                wrong: led.wrong.clone(),
                slip: slip.id.to_owned(),
                factor,
                by_structure: same(one, other) && {
                    let times =
                        |part: f64, all: &[f64]| all.iter().map(|value| part * value).collect::<Vec<_>>();
                    all_same(&times(parts.0, &led.elsewhere), &times(parts.1, right.elsewhere))
                },
            };
            for led in shown {
                let value = led.wrong.value;
                if (factor * value - right.value).abs() <= right.half_width {
                    found.back.push(meets(led, factor * value, right.value, (factor, 1.0)));
                }
                // What one mistake alone leads to is more likely than a slip: they meet where the digits are the same.
                if value != 0.0 && (value - slipped).abs() <= band(value).min(band(slipped)) {
                    found.as_mistake.push(meets(led, value, slipped, (1.0, factor)));
                }
                found.between_mistakes += others_at(shown, factor * value, &band)
                    .filter(|other| other.wrong.mistake != led.wrong.mistake)
                    .count();
            }
        }
        found
    }
}

/// The mistakes, sorted by their values, that lead to a value as far as the tolerance can tell.
fn others_at<'a>(sorted: &'a [Led], value: f64, band: &impl Fn(f64) -> f64) -> impl Iterator<Item = &'a Led> {
    let half = band(value);
    let first = sorted.partition_point(|led| led.wrong.value < value - half);
    sorted.iter().skip(first).take_while(move |led| led.wrong.value <= value + half)
}
