//! The unit in which a student answers.

use serde::ser::SerializeStruct;
use serde::{Serialize, Serializer};
use workings::quantity::Quantity;
use workings::role::Role;
use workings::style::Style;
use workings::unit::{Unit, raised_number};
use workings::unit_system::neighbours;

/// A unit, and the power of ten that stands before it: `×10⁶ mm⁴`.
#[derive(Clone, Debug, PartialEq)]
pub struct AnswerUnit {
    /// The unit.
    pub unit: Unit,
    /// The power of ten; 0 for none.
    pub power: i32,
}

/// A value in its answer unit is at least this large where it can be, and smaller than [`TYPED_BELOW`]: some learning platforms
/// round to three decimals on the way (source: the unit's notes on assessment, section 7).
const TYPED_FROM: f64 = 1.0;

/// See [`TYPED_FROM`].
const TYPED_BELOW: f64 = 1e4;

impl AnswerUnit {
    /// As the course shows a value of this size.
    pub fn of_the_course(value: Quantity, role: Role, style: &Style) -> Self {
        let shown = style.show(value, role);
        Self { unit: shown.unit, power: shown.power }
    }

    /// For an answer that is typed: as the course shows it, unless the number would not lie between 1 and 10 000; then a unit
    /// nearby in which it does, or a power of ten.
    pub fn for_typing(value: Quantity, role: Role, style: &Style) -> Self {
        let usual = Self::of_the_course(value, role, style);
        let suits = |unit: &Self| {
            let size = unit.from_si(value.value).abs();
            (TYPED_FROM..TYPED_BELOW).contains(&size)
        };
        if value.value == 0.0 || suits(&usual) {
            return usual;
        }
        let nearby = neighbours(&usual.unit).into_iter().map(|unit| Self { unit, power: 0 });
        if let Some(unit) = nearby.into_iter().find(suits) {
            return unit;
        }
        // Powers of ten in steps of three, the nearest to none first.
        let powers = (1..=10).flat_map(|step| [3 * step, -3 * step]);
        let shifted = powers.map(|power| Self { unit: usual.unit.clone(), power });
        shifted.into_iter().find(suits).unwrap_or(usual)
    }

    /// How many SI units one of it is.
    pub fn in_si(&self) -> f64 {
        self.to_si(1.0)
    }

    /// A number in this unit, in SI.
    pub fn to_si(&self, number: f64) -> f64 {
        self.unit.to_si(times_ten_to(number, self.power))
    }

    /// A value in SI as a number of this unit.
    pub fn from_si(&self, value: f64) -> f64 {
        times_ten_to(self.unit.from_si(value), -self.power)
    }

    /// As it is written behind a number: `kN`, `×10⁶ mm⁴`; empty for a plain number.
    pub fn text(&self) -> String {
        match (self.power, self.unit.text()) {
            (0, unit) => unit,
            (power, unit) if unit.is_empty() => format!("×10{}", raised_number(power)),
            (power, unit) => format!("×10{}\u{a0}{unit}", raised_number(power)),
        }
    }

    /// In words, as it is spoken after a number: `kilonewtons`, `million millimetres to the fourth`.
    pub fn in_words(&self) -> String {
        let power = match self.power {
            0 => String::new(),
            3 => "thousand".to_owned(),
            6 => "million".to_owned(),
            9 => "billion".to_owned(),
            power if power < 0 => format!("times ten to the minus {}", power.unsigned_abs()),
            power => format!("times ten to the {power}"),
        };
        [power, self.unit.in_words(false)]
            .into_iter()
            .filter(|words| !words.is_empty())
            .collect::<Vec<_>>()
            .join(" ")
    }
}

/// One rounding for powers up to 22, where the power of ten is exact.
fn times_ten_to(number: f64, power: i32) -> f64 {
    let ten = (0..power.unsigned_abs()).fold(1.0, |product, _| product * 10.0);
    if power < 0 { number / ten } else { number * ten }
}

impl Serialize for AnswerUnit {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut fields = serializer.serialize_struct("AnswerUnit", 3)?;
        fields.serialize_field("unit", &self.unit.text())?;
        fields.serialize_field("power", &self.power)?;
        fields.serialize_field("in_si", &self.in_si())?;
        fields.end()
    }
}
