//! Figures as the course writes numbers.

use workings::style::{DecimalMark, Style};

/// A minus as it is printed.
const MINUS: char = '\u{2212}';

/// With so many decimals.
pub(super) fn fixed(value: f64, decimals: usize, style: &Style) -> String {
    let text = format!("{value:.decimals$}");
    // What rounds to nothing has no sign.
    let text = match text.strip_prefix('-') {
        Some(size) if size.chars().any(|c| ('1'..='9').contains(&c)) => format!("{MINUS}{size}"),
        Some(size) => size.to_owned(),
        None => text,
    };
    match style.decimal_mark {
        DecimalMark::Point => text,
        DecimalMark::Comma => text.replace('.', ","),
    }
}

/// A share as a whole percentage.
pub(super) fn percent(share: f64) -> String {
    format!("{}\u{a0}%", whole_percent(share))
}

/// The same without its sign.
pub(super) fn whole_percent(share: f64) -> String {
    format!("{:.0}", 100.0 * share)
}

/// A number that may be very small: `0.12`, `3×10⁻⁴`.
pub(super) fn rare(value: f64, style: &Style) -> String {
    if value >= 0.095 || value == 0.0 {
        return fixed(value, 1, style);
    }
    let text = format!("{value:.0e}");
    match text.split_once('e').map(|(digits, power)| (digits, power.parse::<i32>())) {
        Some((digits, Ok(power))) => format!("{digits}×10{}", workings::unit::raised_number(power)),
        _ => text,
    }
}
