//! What a number that a student wrote is worth.

use super::asked::Signs;
use super::doubt::{Doubt, DoubtKind};
use super::numeral::Numeral;
use super::written::{Sign, Written};
use assessment::set::AnswerUnit;
use workings::dimension::Dimension;
use workings::unit::Unit;

/// A number that a student wrote.
#[derive(Clone, Debug, PartialEq)]
pub struct Number {
    /// Its value, SI, with its sign.
    pub value: f64,
    /// What it is, from its unit.
    pub dimension: Dimension,
    /// As it is written, in its unit, with its sign.
    pub number: f64,
    /// Its unit.
    pub unit: AnswerUnit,
    /// Who said the unit.
    pub unit_from: UnitFrom,
    /// How many figures are written, counted from the first that is not zero, zeros at the end included; none for zero, for a
    /// fraction such as 3/4 and for a bare power of ten.
    pub figures: Option<u32>,
    /// One unit of the last place that is written, in `unit`; none for a fraction.
    pub last_place: Option<f64>,
}

/// Whoever copies all that a spreadsheet or a calculator holds writes 17 figures. Source: IEEE 754, digits that tell every double apart.
const MOST_FIGURES: u32 = 18;

/// No value of a beam is larger in SI, or smaller than one over it: a second moment of 1 mm⁴ is 1e-12 m⁴, and the flexural rigidity of a bridge
/// 1e12 N m². Common practice, no source.
const LARGEST: f64 = 1e30;

/// Who said the unit of a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum UnitFrom {
    /// The student, behind the number or in a cell for the unit.
    Answer,
    /// The header of the column.
    Header,
    /// Nobody: it is the unit that the question asks for.
    Question,
}

/// A unit that is said beside an answer.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Beside {
    pub unit: AnswerUnit,
    pub from: UnitFrom,
}

impl Number {
    /// A plain number of so many `unit`s.
    fn new(written: &Written, negative: bool, unit: AnswerUnit, unit_from: UnitFrom) -> Result<Self, Doubt> {
        let Numeral { value, figures, last_place, .. } = written.numeral;
        let number = if negative { -value } else { value };
        let last_place = last_place.map(ten_to).filter(|place| *place > 0.0 && place.is_finite());
        let value = unit.to_si(number);
        if figures.is_some_and(|figures| figures > MOST_FIGURES) {
            let what = format!("{} figures in a row, more than anybody writes", figures.unwrap_or(0));
            return Err(Doubt::new(DoubtKind::TooManyFigures, what));
        }
        if value.is_nan() || value.abs() > LARGEST {
            return Err(Doubt::new(DoubtKind::TooLarge, "this number is too large for anything of a beam"));
        }
        // Figures that are not zero may come to less than the arithmetic holds.
        if figures.is_some() && value.abs() < 1.0 / LARGEST {
            return Err(Doubt::new(DoubtKind::TooLarge, "this number is too small for anything of a beam"));
        }
        let dimension = unit.unit.dimension();
        Ok(Self { value, dimension, number, unit, unit_from, figures, last_place })
    }

    /// The same number of the same unit, with the power of ten before it that the question asks for.
    fn with_power_of(self, asked: &AnswerUnit) -> Self {
        let power = asked.power - self.unit.power;
        let fewer = |number: f64| if power > 0 { number / ten_to(power) } else { number * ten_to(-power) };
        let last_place = self.last_place.map(fewer);
        Self { number: fewer(self.number), last_place, unit: asked.clone(), ..self }
    }

    /// Half a unit of the last place that is written, SI: the number stands for what is no farther off. None for a fraction.
    pub fn half_place(&self) -> Option<f64> {
        self.last_place.map(|place| 0.5 * self.unit.to_si(place))
    }

    /// As it would be written plainly: `1250.5 kN`.
    pub fn text(&self) -> String {
        format!("{} {}", shown(self.number), self.unit.text()).trim_end().to_owned()
    }
}

/// A power of ten, rounded once.
fn ten_to(power: i32) -> f64 {
    format!("1e{power}").parse().unwrap_or(f64::INFINITY)
}

/// A number with all its digits, and with a power of ten only where it would be long without.
pub(super) fn shown(number: f64) -> String {
    match number.abs() {
        size if size != 0.0 && !(1e-6..1e15).contains(&size) => format!("{number:e}"),
        _ => format!("{number}"),
    }
}

/// The number that is meant. `about` is how large an answer is, SI.
pub(super) fn number(
    written: &Written,
    asked: &AnswerUnit,
    signs: Signs,
    (beside, about): (Option<&Beside>, Option<f64>),
) -> Result<Number, Doubt> {
    // A share may be written as one; of what has a unit of its own a percentage says nothing.
    let is_share = asked.unit == Unit::NONE && asked.power == 0;
    if has_percent(written.unit.as_ref()) && !has_percent(Some(&asked.unit)) && !is_share {
        return Err(Doubt::new(DoubtKind::Percent, "a percentage"));
    }
    let negative = negative(written, signs)?;
    if let (Some(own), Some(beside)) = (&written.unit, beside)
        && beside.from == UnitFrom::Answer
        && *own != beside.unit.unit
    {
        let what = format!("two units: {own} behind the number, {} beside it", beside.unit.text());
        return Err(Doubt::new(DoubtKind::Unit, what));
    }
    let (unit, from) = match (&written.unit, beside) {
        (Some(unit), _) => (AnswerUnit { unit: unit.clone(), power: 0 }, UnitFrom::Answer),
        (None, Some(beside)) => (beside.unit.clone(), beside.from),
        (None, None) => (asked.clone(), UnitFrom::Question),
    };
    // The header is nobody's answer: a slip in it is not the students'.
    if from == UnitFrom::Header && unit.unit.dimension() != asked.unit.dimension() {
        let (said, wanted) = (unit.unit.dimension().in_words(), asked.unit.dimension().in_words());
        let what = format!("the header says {}, {said}, where {wanted} is asked for", unit.text());
        return Err(Doubt::new(DoubtKind::Unit, what));
    }
    let power_written = written.numeral.power;
    let meant = Number::new(written, negative, unit.clone(), from)?;
    // The power of ten that is printed behind an answer may have been written again, or left out.
    let printed = asked.power;
    let whole = AnswerUnit { unit: asked.unit.clone(), power: 0 };
    let doubtful = match unit.power {
        0 => {
            printed != 0
                && unit.unit == asked.unit
                && !power_written
                && !holds(written.numeral.value, printed)
        }
        power => power_written || holds(written.numeral.value, power),
    };
    if !doubtful || written.numeral.value == 0.0 {
        return Ok(meant);
    }
    let other = if unit.power == 0 { asked.clone() } else { whole };
    let other = Number::new(written, negative, other, from)?;
    if let Some(about) = about {
        let off = |farther: f64| [&meant, &other].map(|number| is_off(number.value, about, farther));
        match (off(FAR), off(ABSURD)) {
            // What is written says it, and nothing is odd about it.
            ([false, true], _) | (_, [false, true]) => return Ok(meant),
            (_, [true, false]) => return Ok(other.with_power_of(asked)),
            _ => {}
        }
    }
    let what = "whether the power of ten of the answer's unit is meant or not";
    Err(Doubt::between(DoubtKind::PowerOfTen, what, vec![meant.text(), other.text()]))
}

/// What is farther off than this factor is no value of the question: a slip in a unit seldom leads so far. Common practice, no source.
const ABSURD: f64 = 1e4;

/// Mistakes seldom lead farther than about this: half of a printed power of three, 10^1.5. Common practice, no source.
pub(super) const FAR: f64 = 30.0;

/// Whether a value is off what an answer is about by more than a factor, either way; both SI.
pub(super) fn is_off(value: f64, about: f64, factor: f64) -> bool {
    let ratio = value.abs() / about;
    ratio.is_finite() && !(1.0 / factor..=factor).contains(&ratio)
}

/// Whether a number is of such a size that a printed power of ten is likely to be contained in it.
fn holds(number: f64, power: i32) -> bool {
    if power > 0 { number >= ten_to(power) } else { number < 1.0 }
}

fn has_percent(unit: Option<&Unit>) -> bool {
    unit.is_some_and(|unit| unit.factors.iter().any(|factor| factor.unit.symbol == "%"))
}

/// Whether the number is below zero, by its sign and by the words beside it.
fn negative(written: &Written, signs: Signs) -> Result<bool, Doubt> {
    let minus = written.sign == Some(Sign::Minus);
    let Some((way, words)) = &written.way else { return Ok(minus) };
    let Some(positive) = way.is_positive(signs) else {
        let what = format!("{words:?} does not say whether this is positive or negative");
        return Err(Doubt::new(DoubtKind::Sign, what));
    };
    // "-12 kN down" may be twice the same or once undone; "-12 MPa, compression" is only ever the former.
    let agrees = match written.sign {
        None => true,
        Some(Sign::Plus) => positive,
        Some(Sign::Minus) => !positive && signs == Signs::Tension,
    };
    if agrees {
        return Ok(!positive);
    }
    let what = format!("a sign before the number and {words:?} beside it");
    let size = shown(written.numeral.value);
    Err(Doubt::between(DoubtKind::Sign, what, vec![size.clone(), format!("-{size}")]))
}
