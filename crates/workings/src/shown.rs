//! A value as it is shown: digits, a power of ten, a unit.

use crate::quantity::Quantity;
use crate::role::Role;
use crate::rounding::{Decimal, Figures};
use crate::style::{DecimalMark, Style};
use crate::unit::{Unit, raised_number};
use crate::unit_system::suited;

/// The thin space between groups of three digits; it does not break.
const GROUP: char = '\u{202f}';
/// The space between a number and its unit; it does not break.
const BEFORE_UNIT: char = '\u{a0}';
/// The minus sign.
const MINUS: char = '\u{2212}';

/// A value ready to be written. Its parts are kept apart, so that every printer sets them in its own way.
#[derive(Clone, Debug, PartialEq)]
pub struct Shown {
    /// Whether a minus stands before it; never for zero.
    pub negative: bool,
    /// Unsigned decimal digits with a point and no grouping: `12.0`, `108000`.
    pub digits: String,
    /// The power of ten that the digits are to be multiplied with; 0 for none.
    pub power: i32,
    /// The unit.
    pub unit: Unit,
    /// The course's decimal mark.
    pub decimal_mark: DecimalMark,
}

/// How many figures a value that the lesson gives may have.
const FIGURES_GIVEN: Figures = Figures::Significant(6);

/// A number that somebody typed has no more figures than this: with more it was reckoned, such as a part of a span.
const FIGURES_TYPED: i32 = 7;

/// Whether a number is whole, but for the last bits.
fn is_whole(number: f64) -> bool {
    let decimal = Decimal::of(number).trimmed();
    decimal.is_zero() || decimal.figures() <= decimal.exponent() + 1
}

impl Shown {
    pub(crate) fn rounded(style: &Style, quantity: Quantity, role: Role) -> Self {
        let unit = style.unit(role, quantity.dimension);
        if role == Role::Count && is_whole(quantity.value) {
            return Self::in_unit(style, quantity.value, unit, Figures::Decimals(0), false);
        }
        match style.figures {
            // With fixed decimals a column stays in one unit.
            Figures::Decimals(_) => Self::in_unit(style, quantity.value, unit, style.figures, false),
            figures => Self::in_unit(style, quantity.value, suited(unit, quantity.value), figures, false),
        }
    }

    /// A computed value with these figures, in the unit that it has with those of the course.
    pub(crate) fn rounded_to(style: &Style, quantity: Quantity, role: Role, figures: Figures) -> Self {
        let unit = Self::rounded(style, quantity, role).unit;
        Self::in_unit(style, quantity.value, unit, figures, false)
    }

    /// A computed value in this unit, whatever its size.
    pub(crate) fn rounded_in(style: &Style, quantity: Quantity, unit: Unit) -> Self {
        Self::in_unit(style, quantity.value, unit, style.figures, false)
    }

    pub(crate) fn given(style: &Style, quantity: Quantity, role: Role) -> Self {
        let unit = suited(style.unit(role, quantity.dimension), quantity.value);
        // A limit is told as a part of the span, and nobody reckons with its digits.
        let figures = Decimal::of(unit.from_si(quantity.value)).trimmed().figures();
        if role == Role::Deflection && figures > FIGURES_TYPED {
            return Self::rounded(style, quantity, role);
        }
        Self::in_unit(style, quantity.value, unit, FIGURES_GIVEN, true)
    }

    fn in_unit(style: &Style, value: f64, unit: Unit, figures: Figures, trimmed: bool) -> Self {
        let decimal = Decimal::of(unit.from_si(value));
        let at = |power: i32| {
            let rounded = decimal.clone().shifted(-power).rounded(figures, style.rounding);
            if trimmed { rounded.trimmed() } else { rounded }
        };
        let mut power = power_of_ten(&at(0), &decimal, &unit, figures);
        if power != 0 && at(power).exponent() >= 3 {
            // 999.96×10³ rounds to 1000×10³, which is 1.00×10⁶.
            power += 3;
        }
        let number = at(power);
        let power = if number.is_zero() { 0 } else { power };
        Self {
            negative: value < 0.0 && !number.is_zero(),
            digits: number.to_string(),
            power,
            unit,
            decimal_mark: style.decimal_mark,
        }
    }

    /// The same without noughts behind the decimal mark that say nothing: `14` for `14.00` where the value is exactly
    /// that, to 12 figures. For the labels of a diagram, where room is short and whole values should look whole.
    pub fn whole(mut self, quantity: Quantity) -> Self {
        let exact = (self.in_si() - quantity.value).abs() <= 1e-12 * quantity.value.abs();
        if exact && self.digits.contains('.') {
            self.digits.truncate(self.digits.trim_end_matches('0').trim_end_matches('.').len());
        }
        self
    }

    /// The unsigned number with the course's decimal mark; five digits and more in groups of three: `1230`,
    /// `108 000`, `0.01234`.
    pub fn number(&self) -> String {
        grouped(&self.digits, self.decimal_mark)
    }

    /// The number with its sign and power of ten, without the unit: `−11.3×10⁶`.
    pub fn number_text(&self) -> String {
        let sign = if self.negative { String::from(MINUS) } else { String::new() };
        let number = self.number();
        if self.power == 0 {
            format!("{sign}{number}")
        } else {
            format!("{sign}{number}×10{}", raised_number(self.power))
        }
    }

    /// As plain text: `12.0 kN`, `11.3×10⁶ mm⁴`, `−3.50 kN·m`, `30°`.
    pub fn text(&self) -> String {
        let number = self.number_text();
        match self.unit.text().as_str() {
            "" => number,
            "°" => format!("{number}°"),
            unit => format!("{number}{BEFORE_UNIT}{unit}"),
        }
    }

    /// As it is spoken: `11.3 million millimetres to the fourth`, `minus 3.50 kilonewton metres`.
    pub fn speech(&self) -> String {
        let number = spoken_number(self.negative, &self.digits, self.power);
        let one = self.power == 0 && self.digits.parse() == Ok(1.0);
        match self.unit.in_words(one) {
            unit if unit.is_empty() => number,
            unit => format!("{number} {unit}"),
        }
    }

    /// The value that is shown, in the unit that is shown: what a reader would type into a calculator.
    pub fn value(&self) -> f64 {
        // One parse of the whole decimal, so that 11.3×10⁶ is exactly 11300000.
        let size: f64 = format!("{}e{}", self.digits, self.power).parse().unwrap_or(0.0);
        if self.negative { -size } else { size }
    }

    /// The value that is shown, in SI.
    pub fn in_si(&self) -> f64 {
        self.unit.to_si(self.value())
    }

    /// Whether what is shown is zero.
    pub fn is_zero(&self) -> bool {
        !self.digits.bytes().any(|digit| (b'1'..=b'9').contains(&digit))
    }
}

/// The power of ten, in steps of three, with which a number reads well; 0 for none.
///
/// Large: where the digits would be filled up with zeros, from 10 000 on for areas and higher powers of lengths
/// (`108×10³ mm³`, a habit of textbooks), from a million on for others. Small: below 0.01.
fn power_of_ten(rounded: &Decimal, unrounded: &Decimal, unit: &Unit, figures: Figures) -> i32 {
    let powered = unit.factors.iter().any(|factor| factor.power.unsigned_abs() > 1);
    let large = if powered { 4 } else { 6 };
    if rounded.exponent() >= large && rounded.figures() <= rounded.exponent() {
        return rounded.exponent().div_euclid(3) * 3;
    }
    // Fixed decimals were asked for to see small values as zero, save in m⁴, where every value is small.
    let decimals = matches!(figures, Figures::Decimals(_)) && !powered;
    if unrounded.exponent() < -2 && !decimals { unrounded.exponent().div_euclid(3) * 3 } else { 0 }
}

/// Digits in groups of three where there are five or more on a side of the mark.
pub(crate) fn grouped(digits: &str, mark: DecimalMark) -> String {
    let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
    let mut text = String::with_capacity(digits.len() + 8);
    for (place, digit) in whole.chars().enumerate() {
        if place > 0 && whole.len() >= 5 && (whole.len() - place).is_multiple_of(3) {
            text.push(GROUP);
        }
        text.push(digit);
    }
    if !part.is_empty() {
        text.push(mark.character());
    }
    for (place, digit) in part.chars().enumerate() {
        if place > 0 && part.len() >= 5 && place.is_multiple_of(3) {
            text.push(GROUP);
        }
        text.push(digit);
    }
    text
}

/// A number in words as far as a voice needs them: `minus 11.3 million`, `2.5 times ten to the minus 6`.
fn spoken_number(negative: bool, digits: &str, power: i32) -> String {
    let sign = if negative { "minus " } else { "" };
    match power {
        0 => format!("{sign}{digits}"),
        3 => format!("{sign}{digits} thousand"),
        6 => format!("{sign}{digits} million"),
        9 => format!("{sign}{digits} billion"),
        power if power < 0 => format!("{sign}{digits} times ten to the minus {}", power.unsigned_abs()),
        power => format!("{sign}{digits} times ten to the {power}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dimension::Dimension as D;
    use crate::unit_system::UnitSystem;

    fn text(units: UnitSystem, value: f64, dimension: D, role: Role) -> String {
        three_figures(units).text(Quantity::new(value, dimension), role)
    }

    fn three_figures(units: UnitSystem) -> Style {
        Style { units, figures: Figures::Significant(3), ..Style::default() }
    }

    fn metric(value: f64, dimension: D, role: Role) -> String {
        text(UnitSystem::Metric, value, dimension, role)
    }

    fn given(value: f64, dimension: D, role: Role) -> String {
        Style::default().given_text(Quantity::new(value, dimension), role)
    }

    #[test]
    fn what_is_counted_has_no_decimals_where_it_is_whole() {
        assert_eq!(metric(40.0, D::NONE, Role::Count), "40");
        assert_eq!(metric(0.0, D::NONE, Role::Count), "0");
        assert_eq!(metric(1200.0, D::NONE, Role::Count), "1200");
        assert_eq!(metric(38.62, D::NONE, Role::Count), "38.6");
    }

    #[test]
    fn a_limit_of_deflection_that_nobody_could_have_typed_has_the_figures_of_the_computed_ones() {
        assert_eq!(given(1.0 / 300.0, D::LENGTH, Role::Deflection), "3.33\u{a0}mm");
        assert_eq!(given(0.003_25, D::LENGTH, Role::Deflection), "3.25\u{a0}mm");
    }

    #[test]
    fn a_value_in_the_unit_of_its_role() {
        assert_eq!(metric(12.0e3, D::FORCE, Role::ShearForce), "12.0\u{a0}kN");
        assert_eq!(metric(-3.5e3, D::MOMENT, Role::BendingMoment), "\u{2212}3.50\u{a0}kN·m");
        assert_eq!(metric(1.25, D::LENGTH, Role::Station), "1.25\u{a0}m");
        assert_eq!(metric(0.120, D::LENGTH, Role::Breadth), "120\u{a0}mm");
        assert_eq!(metric(0.48e6, D::STRESS, Role::ShearStress), "0.480\u{a0}MPa");
        assert_eq!(metric(210e9, D::STRESS, Role::ElasticModulus), "210\u{a0}GPa");
        assert_eq!(metric(12.0e3, D::FORCE_PER_LENGTH, Role::ShearFlow), "12.0\u{a0}N/mm");
        assert_eq!(metric(12.0e3, D::FORCE_PER_LENGTH, Role::SpreadLoad), "12.0\u{a0}kN/m");
    }

    /// Closed form: the T-section of 120 mm x 30 mm on 20 mm x 120 mm has I = 11.25e6 mm⁴, Q = 108 000 mm³.
    #[test]
    fn powers_of_ten_in_steps_of_three() {
        assert_eq!(metric(11.25e-6, D::LENGTH_4, Role::SecondMoment), "11.2×10⁶\u{a0}mm⁴");
        assert_eq!(given(11.25e-6, D::LENGTH_4, Role::SecondMoment), "11.25×10⁶\u{a0}mm⁴");
        assert_eq!(metric(108e-6, D::LENGTH_3, Role::FirstMoment), "108×10³\u{a0}mm³");
        assert_eq!(metric(6.0e-3, D::AREA, Role::Area), "6000\u{a0}mm²");
        assert_eq!(
            text(UnitSystem::KilonewtonMetre, 11.25e-6, D::LENGTH_4, Role::SecondMoment),
            "11.2×10⁻⁶\u{a0}m⁴"
        );
        assert_eq!(metric(0.999_96e-3, D::LENGTH_4, Role::SecondMoment), "1.00×10⁹\u{a0}mm⁴");
        assert_eq!(
            text(UnitSystem::NewtonMillimetre, 25.3e3, D::MOMENT, Role::BendingMoment),
            "25.3×10⁶\u{a0}N·mm"
        );
    }

    #[test]
    fn a_neighbouring_unit_for_small_and_large_values() {
        assert_eq!(metric(50.0, D::FORCE, Role::ForceOnCut), "50.0\u{a0}N");
        assert_eq!(metric(12.345e6, D::FORCE, Role::ForceOnCut), "12.3\u{a0}MN");
        assert_eq!(metric(0.05e6, D::STRESS, Role::ShearStress), "50.0\u{a0}kPa");
        assert_eq!(metric(0.00123, D::NONE, Role::Slope), "1.23\u{a0}mrad");
        assert_eq!(metric(2.0e-6, D::LENGTH, Role::Deflection), "2.00\u{a0}µm");
        assert_eq!(text(UnitSystem::KipFoot, 222.411_080_763_025, D::FORCE, Role::Reaction), "50.0\u{a0}lb");
    }

    /// Closed form: a change of unit alone.
    #[test]
    fn beside_a_larger_value_a_small_one_keeps_the_unit() {
        let stress = |value| Quantity::new(value, D::STRESS);
        let style = three_figures(UnitSystem::Metric);
        let text = |value, largest| style.show_beside(stress(value), Role::ShearStress, largest).text();
        assert_eq!(text(14.8e3, 1.12e6), "0.0148\u{a0}MPa");
        assert_eq!(text(14.8e3, 50.0e3), "14.8\u{a0}kPa");
        assert_eq!(text(-1.5e3, 1.12e6), "\u{2212}1.50×10⁻³\u{a0}MPa");
        assert_eq!(text(0.0, 1.12e6), style.text(stress(0.0), Role::ShearStress));
    }

    #[test]
    fn given_values_keep_their_own_digits() {
        assert_eq!(given(12.5e3, D::FORCE, Role::PointForce), "12.5\u{a0}kN");
        assert_eq!(given(12.0e3, D::FORCE, Role::PointForce), "12\u{a0}kN");
        assert_eq!(given(0.120, D::LENGTH, Role::Breadth), "120\u{a0}mm");
        assert_eq!(given(12_345.0, D::FORCE, Role::PointForce), "12.345\u{a0}kN");
        assert_eq!(given(7850.0, D::DENSITY, Role::Density), "7850\u{a0}kg/m³");
        assert_eq!(given(1.0 / 3.0, D::LENGTH, Role::Length), "0.333\u{202f}333\u{a0}m");
        let us = Style { units: UnitSystem::KipFoot, ..Style::default() };
        assert_eq!(us.given_text(Quantity::new(3.81, D::LENGTH), Role::Length), "12.5\u{a0}ft");
        assert_eq!(us.given_text(Quantity::new(0.0381, D::LENGTH), Role::Breadth), "1.5\u{a0}in");
    }

    #[test]
    fn zero_and_what_is_zero_within_the_noise() {
        assert_eq!(metric(0.0, D::FORCE, Role::ShearForce), "0\u{a0}kN");
        assert_eq!(metric(-0.0, D::FORCE, Role::ShearForce), "0\u{a0}kN");
        let noise = Style::default().show_settled(Quantity::new(-3e-12, D::FORCE), Role::ShearForce, 1e-9);
        assert_eq!(noise.text(), "0\u{a0}kN");
        let decimals = Style { figures: Figures::Decimals(2), ..Style::default() };
        assert_eq!(decimals.text(Quantity::new(-1.0, D::FORCE), Role::ShearForce), "0.00\u{a0}kN");
        assert!(decimals.show(Quantity::new(-1.0, D::FORCE), Role::ShearForce).is_zero());
    }

    #[test]
    fn decimal_mark_and_groups() {
        let style = Style { decimal_mark: DecimalMark::Comma, ..Style::default() };
        assert_eq!(style.text(Quantity::new(0.48e6, D::STRESS), Role::ShearStress), "0,480\u{a0}MPa");
        assert_eq!(grouped("1230", DecimalMark::Point), "1230");
        assert_eq!(grouped("123456.5", DecimalMark::Point), "123\u{202f}456.5");
        assert_eq!(grouped("0.0123456", DecimalMark::Comma), "0,012\u{202f}345\u{202f}6");
    }

    #[test]
    fn numbers_in_speech() {
        let speech = |value, dimension, role| {
            Style::default().show_given(Quantity::new(value, dimension), role).speech()
        };
        assert_eq!(
            speech(11.25e-6, D::LENGTH_4, Role::SecondMoment),
            "11.25 million millimetres to the fourth"
        );
        assert_eq!(speech(-3.5e3, D::MOMENT, Role::BendingMoment), "minus 3.5 kilonewton metres");
        assert_eq!(speech(1.0e3, D::FORCE, Role::PointForce), "1 kilonewton");
        assert_eq!(speech(2.0e3, D::FORCE_PER_LENGTH, Role::SpreadLoad), "2 kilonewtons per metre");
        assert_eq!(speech(6.0e-3, D::AREA, Role::Area), "6000 square millimetres");
        assert_eq!(speech(0.0, D::FORCE, Role::PointForce), "0 kilonewtons");
    }

    #[test]
    fn whole_values_look_whole_and_rounded_ones_do_not() {
        let shown = |value: f64| {
            let quantity = Quantity::new(value, D::FORCE);
            Style::default().show(quantity, Role::ShearForce).whole(quantity).text()
        };
        assert_eq!(shown(14e3), "14\u{a0}kN");
        assert_eq!(shown(-2.5e3), "\u{2212}2.5\u{a0}kN");
        assert_eq!(shown(100e3), "100\u{a0}kN");
        assert_eq!(shown(7e3 + 1e-3), "7.00\u{a0}kN");
    }

    #[test]
    fn what_is_shown_can_be_typed_back() {
        let style = three_figures(UnitSystem::Metric);
        let shown = style.show(Quantity::new(11.25e-6, D::LENGTH_4), Role::SecondMoment);
        assert_eq!(shown.value(), 11_200_000.0);
        assert_eq!(shown.in_si(), 11.2e-6);
    }
}
