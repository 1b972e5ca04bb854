//! How findings quote the lecturer's text and write values.

use std::fmt::Write;
use workings::dimension::Dimension;
use workings::quantity::Quantity;
use workings::role::Role;
use workings::style::Style;

/// Characters of the lecturer's text that a headline quotes at most.
const QUOTED: usize = 60;

/// The lecturer's text as it may stand in a headline: on one line, not too long, without control characters, which
/// could play tricks on a terminal.
pub(crate) fn quoted(text: &str) -> String {
    let mut shown = String::new();
    for (count, character) in text.chars().enumerate() {
        if count == QUOTED {
            shown.push('…');
            break;
        }
        if character.is_control() || is_direction_mark(character) {
            let _ = write!(shown, "{}", character.escape_unicode());
        } else {
            shown.push(character);
        }
    }
    shown
}

/// Marks that turn the direction of writing, and could make a finding read other than it is.
fn is_direction_mark(character: char) -> bool {
    matches!(character, '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// Text in quotes as it would be written in a lesson file.
pub(crate) fn in_quotes(text: &str) -> String {
    format!("\"{}\"", quoted(text).replace('\\', "\\\\").replace('"', "\\\""))
}

/// Words joined as in a sentence: `a, b and c`.
pub(crate) fn listed<T: AsRef<str>>(words: &[T], last: &str) -> String {
    match words {
        [] => String::new(),
        [one] => one.as_ref().to_owned(),
        [first @ .., end] => {
            let first: Vec<&str> = first.iter().map(AsRef::as_ref).collect();
            format!("{} {last} {}", first.join(", "), end.as_ref())
        }
    }
}

/// A position along the beam, m, in the units of the course, as it would be written in a lesson file.
pub(crate) fn along(style: &Style, station: f64) -> String {
    as_written(&style.given_text(Quantity::new(station, Dimension::LENGTH), Role::Station))
}

/// A force, N, in the units of the course, as it would be written in a lesson file.
pub(crate) fn force_in_words(style: &Style, force: f64) -> String {
    as_written(&style.given_text(Quantity::new(force, Dimension::FORCE), Role::PointForce))
}

/// A computed modulus, Pa, in the units and figures of the course.
pub(crate) fn modulus_about(style: &Style, modulus: f64) -> String {
    as_written(&style.text(Quantity::new(modulus, Dimension::STRESS), Role::ShearModulus))
}

/// A modulus of elasticity, Pa, in the units of the course, as it would be written in a lesson file.
pub(crate) fn modulus_in_words(style: &Style, modulus: f64) -> String {
    as_written(&style.given_text(Quantity::new(modulus, Dimension::STRESS), Role::ElasticModulus))
}

/// The signs of a shown value as a keyboard has them, without spaces in a long number, so that it can be copied.
fn as_written(shown: &str) -> String {
    shown.replace('\u{2212}', "-").replace(['\u{2009}', '\u{202f}'], "").replace('\u{a0}', " ")
}

/// A size or a height in the section, m, in the units of the course, as it would be written in a lesson file.
pub(crate) fn across(style: &Style, size: f64) -> String {
    as_written(&style.given_text(Quantity::new(size, Dimension::LENGTH), Role::Height))
}
