//! Text that a spreadsheet would run as a formula (CWE-1236; OWASP ASVS 5.0, 1.2.10).
//!
//! A text that begins like a formula gets an apostrophe before it, and loses it again when it is read. So that reading
//! gives back what was written, a text that already has apostrophes before such a beginning gets one more.

/// A text as it is to be written. `decimal` is the decimal mark of the file: what is wholly a number stays as it is.
pub(crate) fn guarded(text: &str, decimal: char) -> String {
    if is_number(text, decimal) || !begins_like_a_formula(text.trim_start_matches('\'')) {
        return text.to_owned();
    }
    format!("'{text}")
}

/// A text as it was before it was written.
pub(crate) fn unguarded(text: &str) -> &str {
    match text.strip_prefix('\'') {
        Some(rest) if begins_like_a_formula(rest.trim_start_matches('\'')) => rest,
        _ => text,
    }
}

/// The signs of a formula, tab and line ends, which some programs skip, and the full-width forms of the signs.
fn begins_like_a_formula(text: &str) -> bool {
    text.starts_with(['=', '+', '-', '@', '\t', '\r', '\n', '＝', '＋', '－', '＠'])
}

/// Digits with at most a minus before, a decimal mark between and a power of ten behind: `-12.0`, `3e-5`. Nothing else
/// is a number here, not even with a plus before it.
fn is_number(text: &str, decimal: char) -> bool {
    let all_digits = |digits: &str| !digits.is_empty() && digits.bytes().all(|byte| byte.is_ascii_digit());
    let (mantissa, power) = text.split_once(['e', 'E']).unwrap_or((text, "0"));
    let mantissa = mantissa.strip_prefix('-').unwrap_or(mantissa);
    let (whole, part) = mantissa.split_once(decimal).unwrap_or((mantissa, "0"));
    all_digits(whole) && all_digits(part) && all_digits(power.strip_prefix(['-', '+']).unwrap_or(power))
}
