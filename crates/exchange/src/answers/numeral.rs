//! A number at the start of a text, as students write it, for one decimal mark.
//!
//! A text is read once for the point and once for the comma: where both give a number and the numbers differ, the text
//! alone does not say which is meant.

use workings::reading::fraction as vulgar;
use workings::unit::lowered;

/// The decimal mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Mark {
    /// A point: `1250.5`, `1,250.5`.
    Point,
    /// A comma: `1250,5`, `1.250,5`.
    Comma,
}

impl Mark {
    /// Both.
    pub const BOTH: [Self; 2] = [Self::Point, Self::Comma];

    /// The character that parts whole from decimals.
    pub fn character(self) -> char {
        match self {
            Self::Point => '.',
            Self::Comma => ',',
        }
    }

    /// The other one.
    pub fn other(self) -> Self {
        match self {
            Self::Point => Self::Comma,
            Self::Comma => Self::Point,
        }
    }
}

/// A number without its sign.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Numeral {
    /// The value; may be infinite where the power of ten is too large.
    pub value: f64,
    /// How many figures are written, from the first that is not zero; none for zero, for a fraction, for a bare power of
    /// ten.
    pub figures: Option<u32>,
    /// The power of ten of the last place that is written; none for a fraction.
    pub last_place: Option<i32>,
    /// Whether a power of ten is written.
    pub power: bool,
}

/// What stands at the start of a text.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Start {
    /// A number, and how many bytes it has.
    Number(Numeral, usize),
    /// `1.2·103`: a power of ten whose exponent may have slipped down. The number if it has, and its bytes.
    LostPower(Numeral, usize),
}

/// The number at the start of `text`, in which every blank is a plain space except thin ones between digits, and every
/// minus is a hyphen.
pub(super) fn start(text: &str, mark: Mark) -> Option<Start> {
    if let Some((value, length)) = fraction(text) {
        let numeral = Numeral { value, figures: None, last_place: None, power: false };
        return Some(Start::Number(numeral, length));
    }
    let (digits, mut length) = mantissa(text, mark)?;
    let rest = text.get(length..)?;
    if digits == "10"
        && let Some((power, count)) = raised(rest)
    {
        // A bare power of ten: 10^6.
        let numeral =
            Numeral { value: decimal("1", power), figures: None, last_place: Some(power), power: true };
        return Some(Start::Number(numeral, length + count));
    }
    let (mut power, mut lost) = (None, false);
    if let Some((exponent, count)) = exponent(rest) {
        power = Some(exponent);
        length += count;
    } else if let Some((found, count)) = times_ten(rest) {
        (power, lost) = match found {
            Ten::Power(found) => (Some(found), false),
            Ten::Lost(found) => (Some(found), true),
        };
        length += count;
    }
    let decimals = digits.split_once('.').map_or(0, |(_, decimals)| decimals.len() as i32);
    let plain: String = digits.chars().filter(|c| *c != '.').collect();
    let figures = plain.trim_start_matches('0').len() as u32;
    let numeral = Numeral {
        value: decimal(&digits, power.unwrap_or(0)),
        figures: (figures > 0).then_some(figures),
        last_place: Some(power.unwrap_or(0) - decimals),
        power: power.is_some(),
    };
    Some(if lost { Start::LostPower(numeral, length) } else { Start::Number(numeral, length) })
}

/// A decimal times a power of ten, rounded once.
fn decimal(digits: &str, power: i32) -> f64 {
    format!("{digits}e{power}").parse().unwrap_or(f64::INFINITY)
}

/// How many bytes of digits a text begins with.
fn digits(text: &str) -> usize {
    text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len())
}

fn blanks(text: &str) -> usize {
    text.len() - text.trim_start_matches(' ').len()
}

/// Thin spaces, which stand between groups of digits on our own papers, behind the decimal mark too.
const THIN: [char; 2] = ['\u{202f}', '\u{2009}'];

/// Digits with a point before the decimals, and the bytes they took.
fn mantissa(text: &str, mark: Mark) -> Option<(String, usize)> {
    let first = digits(text);
    let mut plain = text.get(..first)?.to_owned();
    let mut length = first;
    // Groups of three, all with the same sign between; a number that begins with 0 has none.
    if (1..=3).contains(&first) && !plain.starts_with('0') {
        let sign = text.get(length..)?.chars().next();
        let sign = sign.filter(|&sign| {
            THIN.contains(&sign) || matches!(sign, ' ' | '\'' | '’') || sign == mark.other().character()
        });
        while let Some(group) = sign.and_then(|sign| text.get(length..)?.strip_prefix(sign)) {
            if digits(group) != 3 {
                break;
            }
            plain.push_str(group.get(..3)?);
            length = text.len() - group.len() + 3;
        }
    }
    let part = text.get(length..)?.strip_prefix(mark.character());
    if let Some(part) = part.filter(|part| digits(part) > 0) {
        if plain.is_empty() {
            plain.push('0');
        }
        plain.push('.');
        let mut left = part;
        loop {
            let count = digits(left);
            plain.push_str(left.get(..count)?);
            left = left.get(count..)?;
            match left.strip_prefix(THIN).filter(|next| digits(next) > 0) {
                Some(next) => left = next,
                None => break,
            }
        }
        length = text.len() - left.len();
    }
    (!plain.is_empty()).then_some((plain, length))
}

/// Exponents beyond this belong to no value, and would overflow while they are added up.
const LARGEST_EXPONENT: i32 = 9_999;

/// Digits with a sign perhaps, as a power of ten.
fn signed(text: &str) -> Option<(i32, usize)> {
    let unsigned = text.strip_prefix(['-', '+']).unwrap_or(text);
    let count = digits(unsigned);
    let value: i32 = unsigned.get(..count)?.parse().ok().filter(|value| *value <= LARGEST_EXPONENT)?;
    let value = if text.starts_with('-') { -value } else { value };
    Some((value, text.len() - unsigned.len() + count))
}

/// `e3`, `E-3`, with a space before it or not.
fn exponent(text: &str) -> Option<(i32, usize)> {
    let gap = blanks(text);
    let after = text.get(gap..)?.strip_prefix(['e', 'E'])?;
    let (power, count) = signed(after)?;
    Some((power, gap + 1 + count))
}

enum Ten {
    Power(i32),
    Lost(i32),
}

/// `×10^3`, `x 10³`, `·10**3`; lost where the exponent stands on the line: `x103`, `·10-3`.
fn times_ten(text: &str) -> Option<(Ten, usize)> {
    let rest = text.get(blanks(text)..)?;
    let rest = rest.strip_prefix(['×', 'x', 'X', '*', '·', '\u{22c5}', '∙', '•'])?;
    let rest = rest.get(blanks(rest)..)?.strip_prefix("10")?;
    let before = text.len() - rest.len();
    if let Some((power, count)) = raised(rest) {
        return Some((Ten::Power(power), before + count));
    }
    let (power, count) = signed(rest)?;
    Some((Ten::Lost(power), before + count))
}

/// A power behind its base: `^3`, `^-3`, `^{3}`, `^(3)`, `**3`, `³`, `⁻³`.
fn raised(text: &str) -> Option<(i32, usize)> {
    if let Some(after) = text.strip_prefix('^').or_else(|| text.strip_prefix("**")) {
        let after = after.get(blanks(after)..)?;
        let (inside, closing) = match after.chars().next() {
            Some('{') => (after.get(1..)?, Some('}')),
            Some('(') => (after.get(1..)?, Some(')')),
            _ => (after, None),
        };
        let (power, count) = signed(inside)?;
        let rest = inside.get(count..)?;
        let rest = match closing {
            Some(closing) => rest.strip_prefix(closing)?,
            None => rest,
        };
        return Some((power, text.len() - rest.len()));
    }
    let end = text.find(|c| lowered(c).is_none()).unwrap_or(text.len());
    let plain: String = text.get(..end)?.chars().filter_map(lowered).collect();
    let (power, count) = signed(&plain)?;
    (count == plain.len()).then_some((power, end))
}

/// `½`, `12½`, `12 ½`, `3/4`, `1 1/2`; whole numbers without groups only.
fn fraction(text: &str) -> Option<(f64, usize)> {
    let whole_length = digits(text);
    let whole: f64 = match whole_length {
        0 => 0.0,
        _ => text.get(..whole_length)?.parse().ok()?,
    };
    let gap = blanks(text.get(whole_length..)?);
    let rest = text.get(whole_length + gap..)?;
    if let Some((sign, part)) = rest.chars().next().and_then(|sign| Some((sign, vulgar(sign)?))) {
        return Some((whole + part, whole_length + gap + sign.len_utf8()));
    }
    if let Some((value, length)) = quotient(text) {
        return Some((value, length));
    }
    let (value, length) = quotient(rest).filter(|(value, _)| gap == 1 && whole_length > 0 && *value < 1.0)?;
    Some((whole + value, whole_length + gap + length))
}

/// Two whole numbers with a slash between.
fn quotient(text: &str) -> Option<(f64, usize)> {
    let above = digits(text);
    let below = text.get(above..)?.strip_prefix(['/', '\u{2044}', '\u{2215}'])?;
    let count = digits(below);
    let goes_on = below.get(count..)?.starts_with(['.', ',', '/', '^', '*']);
    let (above, below_value): (f64, f64) =
        (text.get(..above)?.parse().ok()?, below.get(..count)?.parse().ok()?);
    (!goes_on && below_value != 0.0).then_some((above / below_value, text.len() - below.len() + count))
}
