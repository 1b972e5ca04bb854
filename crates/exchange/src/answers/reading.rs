//! What one cell says.

use super::asked::{AskedOn, Kind, PartAsked};
use super::choice::choice;
use super::doubt::{Doubt, DoubtKind};
use super::habit::Either;
use super::number::{Beside, Number, number};
use super::numeral::Mark;
use super::written::{plain, written};

/// What was read of an answer.
#[derive(Clone, Debug, PartialEq)]
pub enum Read {
    /// Nothing; on a platform a dash alone too.
    Blank,
    /// A number of the kind that was asked for.
    Number(Number),
    /// A number of another kind: a force where a stress was asked for.
    OtherDimension(Number),
    /// One of the values to choose from, by its place among them, from 0.
    Choice(usize),
    /// Something where a drawing is asked for: it is looked at with the drawing, when that is marked.
    BesideADrawing,
    /// A person has looked and found nothing that can be read.
    Unreadable,
    /// A person has to read it.
    ByHand(Doubt),
}

impl Read {
    pub(super) fn of(number: Number, kind: &Kind) -> Self {
        match kind {
            Kind::Value { unit, .. } if unit.unit.dimension() != number.dimension => {
                Self::OtherDimension(number)
            }
            _ => Self::Number(number),
        }
    }
}

/// What a cell says by itself.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Cell {
    /// The same whichever the decimal mark is.
    Sure(Read),
    /// It reads with this decimal mark only.
    With(Mark, Number),
    /// It reads with either, and the values differ.
    Either(Either),
}

/// Reads a cell; `beside` is the unit that stands outside of it.
pub(super) fn cell(raw: &str, part: &PartAsked, beside: Option<&Beside>) -> Cell {
    let text = plain(raw);
    if text.chars().all(|c| matches!(c, '-' | ' ')) {
        let is_nothing = text.is_empty() || part.on == AskedOn::Platform || part.kind == Kind::Drawing;
        let what = "a dash alone: a minus whose number is missing, or nothing";
        return Cell::Sure(match is_nothing {
            true => Read::Blank,
            false => Read::ByHand(Doubt::new(DoubtKind::Sign, what)),
        });
    }
    let (unit, signs) = match &part.kind {
        Kind::Value { unit, signs } => (unit, *signs),
        Kind::Choice { unit, values } => {
            return Cell::Sure(choice(raw, unit, values, beside).map_or_else(Read::ByHand, Read::Choice));
        }
        Kind::Drawing => return Cell::Sure(Read::BesideADrawing),
    };
    let of = |mark| {
        let written = written(&text, mark, &unit.unit)?;
        Ok((number(&written, unit, signs, (beside, part.about))?, written.numeral.power))
    };
    match (of(Mark::Point), of(Mark::Comma)) {
        (Ok((point, _)), Ok((comma, _))) if point == comma => Cell::Sure(Read::of(point, &part.kind)),
        (Ok((point, power)), Ok((comma, _))) => Cell::Either(Either { point, comma, power }),
        (Ok((point, _)), Err(_)) => Cell::With(Mark::Point, point),
        (Err(_), Ok((comma, _))) => Cell::With(Mark::Comma, comma),
        (Err(one), Err(other)) => Cell::Sure(Read::ByHand(told(one, other))),
    }
}

/// Why neither decimal mark gives a number: what says more.
fn told(point: Doubt, comma: Doubt) -> Doubt {
    if point == comma {
        return point;
    }
    let mut readings = point.readings.clone();
    for reading in &comma.readings {
        if !readings.contains(reading) {
            readings.push(reading.clone());
        }
    }
    // A number that was read with one mark and then doubted says more than that the other mark gives none.
    let more = if point.readings.is_empty() && !comma.readings.is_empty() { comma } else { point };
    Doubt { readings, ..more }
}
