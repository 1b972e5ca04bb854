//! Spread loads as resultants: a rectangle, a triangle, or both.

use super::builder::{Builder, Entry};
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::role::Role;
use crate::working::{Chapter, Id};

/// A stretch of a spread load.
pub(crate) struct Stretch<'a> {
    pub(crate) chapter: Chapter,
    /// The load, by its place among the beam's.
    pub(crate) load: usize,
    /// `spread load 1`.
    pub(crate) words: &'a str,
    /// What tells this stretch from others of the same load: empty for the whole, `left of the slice`.
    pub(crate) which: &'a str,
    /// The index of the load's symbol.
    pub(crate) index: &'a str,
    pub(crate) from: Id,
    pub(crate) to: Id,
    /// Intensity at the two ends of the stretch.
    pub(crate) down_from: Id,
    pub(crate) down_to: Id,
}

/// A force that stands for a stretch, or for one triangle or rectangle of it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Resultant {
    pub(crate) down: Id,
    /// Its station, or its arm about the stretch's right end, as asked.
    pub(crate) place: Id,
    /// What tells it from the other resultant of the same stretch; empty where it is the only one.
    pub(crate) figure: &'static str,
    pub(crate) shape: Shape,
}

/// The workings of a stretch.
#[derive(Clone, Debug)]
pub(crate) struct StretchWorkings {
    /// The load, by its place among the beam's.
    pub(crate) load: usize,
    pub(crate) place_as: PlaceAs,
    pub(crate) from: Id,
    pub(crate) to: Id,
    pub(crate) length: Id,
    pub(crate) down_from: Id,
    pub(crate) down_to: Id,
    pub(crate) resultants: Vec<Resultant>,
}

/// From where the place of a resultant is told.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum PlaceAs {
    Station,
    ArmAboutRightEnd,
}

/// What a resultant stands for: thick all along, at its right end, at its left end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Shape {
    Rectangle,
    Rising,
    Falling,
}

impl Builder<'_> {
    /// `a - b`, or `a` alone where `b` is the left end of the beam.
    pub(crate) fn difference(&self, a: Id, b: Id) -> Expression {
        if self.value(b) == 0.0 { a.into() } else { Expression::from(a) - b.into() }
    }

    /// How much a value grows from `first` to `last`, without what is zero.
    pub(crate) fn growth(&self, first: Id, last: Id) -> Expression {
        match self.value(last) == 0.0 && self.value(first) != 0.0 {
            true => -Expression::from(first),
            false => self.difference(last, first),
        }
    }

    /// The intensity of a spread load at a station inside it, as a formula.
    pub(crate) fn intensity_at(
        &self,
        station: Id,
        (from, to): (Id, Id),
        (first, last): (Id, Id),
    ) -> Expression {
        if first == last {
            return first.into();
        }
        let length = self.difference(to, from);
        if self.value(first) == 0.0 {
            Expression::from(last) * self.difference(station, from) / length
        } else if self.value(last) == 0.0 {
            Expression::from(first) * self.difference(to, station) / length
        } else {
            Expression::from(first) + self.growth(first, last) * self.difference(station, from) / length
        }
    }

    /// The resultants of a stretch of a spread load, each with its place.
    pub(crate) fn resultants(
        &mut self,
        stretch: &Stretch<'_>,
        place_as: PlaceAs,
    ) -> Result<Vec<Resultant>, EvaluationError> {
        let Stretch { chapter, load, words, which, index, from, to, down_from, down_to } = *stretch;
        let which_words = if which.is_empty() { String::new() } else { format!(" {which}") };
        let (x_from, x_to) = (self.value(from), self.value(to));
        let length = self.difference(to, from);
        let length = self.formula(
            Entry::new(chapter, Role::Length, &joined("W", index), format!("length of {words}{which_words}"))
                .says(format!("The length over which {words} acts{which_words}.")),
            length,
        )?;
        let (first, last) = (Expression::from(down_from), Expression::from(down_to));
        let (at_first, at_last) = (self.value(down_from), self.value(down_to));
        let pieces = if down_from == down_to {
            vec![(Shape::Rectangle, first)]
        } else if at_first == 0.0 {
            vec![(Shape::Rising, last)]
        } else if at_last == 0.0 {
            vec![(Shape::Falling, first)]
        } else if at_first * at_last < 0.0 {
            vec![(Shape::Falling, first), (Shape::Rising, last)]
        } else if at_first.abs() <= at_last.abs() {
            vec![(Shape::Rectangle, first.clone()), (Shape::Rising, last - first)]
        } else {
            vec![(Shape::Rectangle, last.clone()), (Shape::Falling, first - last)]
        };
        let alone = pieces.len() == 1;
        let mut resultants = Vec::with_capacity(pieces.len());
        for (shape, peak) in pieces {
            let (figure, share, from_start, from_end) = match shape {
                Shape::Rectangle => ("rectangle", 1.0, 0.5, 0.5),
                Shape::Rising => ("rising triangle", 0.5, 2.0 / 3.0, 1.0 / 3.0),
                Shape::Falling => ("falling triangle", 0.5, 1.0 / 3.0, 2.0 / 3.0),
            };
            let of = if alone {
                format!("{words}{which_words}")
            } else {
                format!("{words}{which_words} ({figure})")
            };
            let told_by = match (alone, shape) {
                (true, _) => "",
                (false, Shape::Rectangle) => "r",
                (false, Shape::Rising) => "t",
                (false, Shape::Falling) => "f",
            };
            let mark = joined(index, told_by);
            let (resultant, why) = if share == 1.0 {
                (peak * length.into(), "intensity times loaded length")
            } else {
                (peak * length.into() / 2.0.into(), "a triangle holds half of its rectangle")
            };
            let station = x_from + from_start * (x_to - x_from);
            let down = self.formula(
                Entry::new(chapter, Role::LoadResultant, &mark, format!("resultant of {of}"))
                    .at(station, None)
                    .says(format!("The resultant of {of}: {why}.")),
                resultant,
            )?;
            // Thirds are written as a division, so that the formula reads 2 l / 3 and not 0.667 l.
            let share_of_length = |share: f64| {
                if share == 0.5 {
                    Expression::from(length) / 2.0.into()
                } else if share < 0.5 {
                    Expression::from(length) / 3.0.into()
                } else {
                    Expression::from(2.0) * length.into() / 3.0.into()
                }
            };
            let stands = match shape {
                Shape::Rectangle => "at the middle of the loaded length",
                Shape::Rising | Shape::Falling => "a third of the loaded length from the thick end",
            };
            let place = match place_as {
                PlaceAs::Station => {
                    let offset = share_of_length(from_start);
                    let expression = if x_from == 0.0 { offset } else { Expression::from(from) + offset };
                    self.formula(
                        Entry::new(
                            chapter,
                            Role::Station,
                            &joined("W", &mark),
                            format!("station of the resultant of {of}"),
                        )
                        .at(station, None)
                        .says(format!("It stands {stands}.")),
                        expression,
                    )?
                }
                PlaceAs::ArmAboutRightEnd => self.formula(
                    Entry::new(chapter, Role::Distance, &joined("W", &mark), format!("arm of {of}"))
                        .says(format!("Its arm about the cut: the resultant stands {stands}.")),
                    share_of_length(from_end),
                )?,
            };
            resultants.push(Resultant { down, place, figure: told_by, shape });
        }
        self.stretches.push(StretchWorkings {
            load,
            place_as,
            from,
            to,
            length,
            down_from,
            down_to,
            resultants: resultants.clone(),
        });
        Ok(resultants)
    }
}

/// An index and what is added to it.
pub(crate) fn joined(index: &str, more: &str) -> String {
    match (index.is_empty(), more.is_empty()) {
        (true, _) => more.to_owned(),
        (_, true) => index.to_owned(),
        _ => format!("{index}, {more}"),
    }
}
