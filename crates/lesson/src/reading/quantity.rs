//! A quantity as text, with its faults at their places in the file.

use super::node::{Given, What};
use super::words::{in_quotes, quoted};
use crate::finding::{Finding, Report};
use crate::key::{Form, Key, Sign};
use std::collections::HashSet;
use std::ops::Range;
use workings::dimension::Dimension;
use workings::quantity::Quantity;
use workings::reading::{self, Fault, FaultKind, Names, nearest};
use workings::unit::UNITS;

/// Standard acceleration of free fall, m/s², which turns a weight per volume into a density. Exact by definition:
/// BIPM, *The International System of Units* (SI), 9th edition 2019, resolution of the 3rd CGPM.
pub(super) const STANDARD_FALL: f64 = 9.806_65;

/// Quotes as a word processor sets them.
pub(super) const CURLY_QUOTES: [char; 7] = ['“', '”', '„', '‘', '’', '«', '»'];

/// The named values of the file as far as they are known.
#[derive(Debug, Default)]
pub(super) struct Known {
    /// Those with a value.
    pub(super) names: Names,
    /// Those that were given and refused; what uses them is not told again.
    pub(super) refused: HashSet<String>,
}

/// A text of the file with its place, quotes included.
#[derive(Clone, Debug)]
pub(super) struct Written<'a> {
    pub(super) text: &'a str,
    pub(super) span: Range<usize>,
    /// Whether the text stands in the file as it is between its quotes, so that places in it are places in the file.
    pub(super) plain: bool,
}

impl<'a> Written<'a> {
    pub(super) fn new(text: &'a str, span: Range<usize>, file: &str) -> Self {
        let inside = file.get(span.start + 1..span.end.saturating_sub(1));
        Self { text, plain: inside == Some(text), span }
    }

    /// The place in the file of a range of the text.
    fn place(&self, range: &Range<usize>) -> Range<usize> {
        if self.plain && range.start <= range.end && range.end <= self.text.len() && !range.is_empty() {
            self.span.start + 1 + range.start..self.span.start + 1 + range.end
        } else {
            self.span.clone()
        }
    }
}

/// The value of a text of any dimension, or nothing where it was refused.
pub(super) fn any(
    written: &Written<'_>,
    example: &str,
    known: &Known,
    report: &mut Report,
) -> Option<Quantity> {
    wanted(written, example, None, known, report)
}

/// As [`any`], for a place that wants a dimension: a unit that is mistyped is more likely one of those.
fn wanted(
    written: &Written<'_>,
    example: &str,
    dimension: Option<Dimension>,
    known: &Known,
    report: &mut Report,
) -> Option<Quantity> {
    // Quotes that are not straight are told where the form of the file is.
    if !written.plain && written.text.starts_with(CURLY_QUOTES) {
        return None;
    }
    let parsed = match reading::parse(written.text) {
        Ok(parsed) => parsed,
        Err(faults) => {
            for fault in faults {
                tell(&fault, written, example, dimension, report);
            }
            return None;
        }
    };
    if parsed.names().iter().any(|(name, _)| known.refused.contains(*name)) {
        return None;
    }
    match parsed.evaluate(&known.names) {
        Ok(quantity) => Some(quantity),
        Err(faults) => {
            for fault in faults {
                tell(&fault, written, example, dimension, report);
            }
            None
        }
    }
}

/// Tells what is wrong with a text of the file, at its place.
pub(super) fn tell(
    fault: &Fault,
    written: &Written<'_>,
    example: &str,
    dimension: Option<Dimension>,
    report: &mut Report,
) {
    let finding = report.add(written.place(&fault.range), fault.what.clone());
    let near = dimension.filter(|_| fault.kind == FaultKind::UnknownUnit).and_then(|dimension| {
        let word = written.text.get(fault.range.clone())?;
        let mut of_kind: Vec<&str> =
            UNITS.iter().filter(|unit| unit.dimension == dimension).map(|unit| unit.symbol).collect();
        // Of units equally near, one of as many letters: `mn` is `mm` rather than `m`.
        of_kind.sort_by_key(|symbol| symbol.len().abs_diff(word.len()));
        nearest(word, of_kind)
    });
    let mend = if let Some(near) = near {
        format!("did you mean {near}?")
    } else if fault.mend.is_empty() {
        in_quotes(example)
    } else {
        // What the text should have been is known here.
        fault.mend.replace("such as 3 kN", &format!("such as {}", in_quotes(example)))
    };
    finding.mend(mend);
    match fault.kind {
        FaultKind::UnknownName => finding.because(fault.what.clone()),
        _ => finding.by_itself(),
    };
}

/// The value of a text that must be of the form of its key; `Bad` where it was refused.
pub(super) fn of_form(key: &Key, written: &Written<'_>, known: &Known, report: &mut Report) -> What {
    let (wanted, sign) = match key.form {
        Form::Quantity { dimension, sign } => (Some(dimension), sign),
        Form::Density => (Some(Dimension::DENSITY), Sign::Positive),
        Form::Lengths | Form::Point => (Some(Dimension::LENGTH), Sign::Any),
        _ => (None, Sign::Any),
    };
    let example = example_of(key);
    let Some(mut quantity) = self::wanted(written, example, wanted, known, report) else { return What::Bad };
    if let Some(wanted) = wanted {
        if matches!(key.form, Form::Density) && quantity.dimension == Dimension::WEIGHT_PER_VOLUME {
            quantity = Quantity::new(quantity.value / STANDARD_FALL, Dimension::DENSITY);
        }
        // A plain zero is zero of anything.
        if quantity.value == 0.0 && quantity.dimension == Dimension::NONE {
            quantity.dimension = wanted;
        }
        if quantity.dimension != wanted {
            // A name that stands for another kind of value than it is used for is one slip, wherever it is used.
            let is_name = known.names.contains_key(written.text.trim());
            let finding = unlike(key, written, quantity.dimension, wanted, report).by_itself();
            if is_name {
                finding.because(format!("{} used as {wanted}", written.text.trim()));
            }
            return What::Bad;
        }
    }
    let (least, most) = reach(quantity.dimension);
    let size = quantity.value.abs();
    if wanted.is_some() && size != 0.0 && !(least..=most).contains(&size) {
        let too = if size < least { "small" } else { "large" };
        report
            .add(written.span.clone(), format!("{} is too {too} to be meant here", quoted(written.text)))
            .mend(format!("check the number and its unit: {} = {}", key.word(), in_quotes(example)))
            .by_itself();
        return What::Bad;
    }
    let possible = match sign {
        Sign::Any => true,
        Sign::NotNegative => quantity.value >= 0.0,
        Sign::Positive => quantity.value > 0.0,
    };
    if !possible {
        let least = if sign == Sign::Positive { "greater than zero" } else { "zero or greater" };
        report
            .add(
                written.span.clone(),
                format!("{} must be {least}; it is {}", noun(key), quoted(written.text)),
            )
            .mend(format!("give a value {least}, such as {}", in_quotes(example)))
            .by_itself();
        return What::Bad;
    }
    What::Quantity(quantity)
}

/// The least and the greatest size, SI, that a lecturer can mean: far wider than any beam, and narrow enough that no
/// product of them leaves the range of numbers.
fn reach(dimension: Dimension) -> (f64, f64) {
    match dimension {
        Dimension::LENGTH => (1e-9, 1e6),
        Dimension::FORCE | Dimension::MOMENT | Dimension::FORCE_PER_LENGTH => (1e-9, 1e15),
        Dimension::STRESS => (1e-3, 1e18),
        _ => (1e-12, 1e12),
    }
}

/// A length with its place, of an entry of a list or a point.
pub(super) fn length(
    key: &Key,
    written: &Written<'_>,
    known: &Known,
    report: &mut Report,
) -> Option<Given<f64>> {
    match of_form(key, written, known, report) {
        What::Quantity(quantity) => Some(Given { value: quantity.value, span: written.span.clone() }),
        _ => None,
    }
}

/// Tells that a value is of another kind than its key wants.
fn unlike<'r>(
    key: &Key,
    written: &Written<'_>,
    found: Dimension,
    wanted: Dimension,
    report: &'r mut Report,
) -> &'r mut Finding {
    let text = quoted(written.text);
    let example = example_of(key);
    let offer = offered(written.text, example);
    let word = key.word();
    if found == Dimension::NONE {
        let headline = format!("`{word}` needs a unit: {text} is a plain number");
        return report
            .add(written.span.clone(), headline)
            .mend(format!("did you mean {word} = {}?", in_quotes(&offer)));
    }
    let headline =
        format!("`{word}` wants {} such as {offer}; {text} is {}", wanted.in_words(), found.in_words());
    let asked = match (key.place_in_lesson(), found) {
        ("beam.loads[].force", Dimension::FORCE_PER_LENGTH) => {
            format!(
                "is a spread load meant? spread = {}, from = ..., to = ...; or a force: ",
                in_quotes(written.text)
            )
        }
        ("beam.loads[].force", Dimension::MOMENT) => {
            format!("is a couple meant? couple = {}; or a force: ", in_quotes(written.text))
        }
        ("beam.loads[].spread", Dimension::FORCE) => {
            format!(
                "is a force at a point meant? force = {}, at = ...; or a spread load: ",
                in_quotes(written.text)
            )
        }
        ("beam.loads[].couple", Dimension::FORCE) => String::new(),
        ("beam.loads[].couple", Dimension::FORCE_PER_LENGTH) => {
            format!(
                "is a spread load meant? spread = {}, from = ..., to = ...; or a couple: ",
                in_quotes(written.text)
            )
        }
        _ => String::new(),
    };
    report.add(written.span.clone(), headline).mend(format!("{asked}{word} = {}", in_quotes(&offer)))
}

/// What a bare number of the file lacks.
pub(super) fn bare_number(key: &Key, number: &str, span: Range<usize>, report: &mut Report) {
    let word = key.word();
    let lower = number.to_ascii_lowercase();
    if lower.contains("nan") || lower.contains("inf") {
        report
            .add(span, format!("a number is wanted; {} is not one", quoted(number)))
            .mend(format!("{word} = {}", in_quotes(example_of(key))))
            .by_itself();
        return;
    }
    let offer = offered(number, example_of(key));
    report
        .add(span, format!("`{word}` needs a unit: {} is a plain number", quoted(number)))
        .mend(format!("did you mean {word} = {}?", in_quotes(&offer)))
        .by_itself();
}

/// A key's example without its quotes; of a list, its first entry.
pub(super) fn example_of(key: &Key) -> &str {
    key.example.split('"').nth(1).unwrap_or("4 m")
}

/// The lecturer's number with the unit of the example, where the text begins with a number; else the example.
fn offered(text: &str, example: &str) -> String {
    let number: String =
        text.trim().chars().take_while(|c| c.is_ascii_digit() || matches!(c, '.' | '-')).collect();
    let unit = example.trim_start_matches(|c: char| c.is_ascii_digit() || matches!(c, '.' | '-' | ' '));
    match number.parse::<f64>() {
        // A modulus of 200 000 is meant in MPa, one of 2e11 in Pa.
        Ok(value) if unit == "GPa" && value >= 1e7 => format!("{number} Pa"),
        Ok(value) if unit == "GPa" && value >= 1e3 => format!("{number} MPa"),
        Ok(value) if value.is_finite() => format!("{number} {unit}"),
        _ => example.to_owned(),
    }
}

/// What a key's value is called in a sentence: `the length`, `the web thickness`.
fn noun(key: &Key) -> String {
    match key.word() {
        "E" => "the modulus E".to_owned(),
        word => format!("the {}", word.replace('-', " ")),
    }
}
