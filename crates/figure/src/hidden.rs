//! Numbers that are not to be seen yet: who practises looks at the drawing of a step, and not at the answer to it.

use crate::drawing::{Drawing, Mark, Passage};
use crate::text::Level;
use mechanics::real;

/// A number that differs from a value by more than this part says another value: what is printed is rounded.
const ROUNDED: f64 = 0.006;

impl Drawing {
    /// The same with a question mark for every number that says one of these values, whatever its unit and sign; in the words too. Zero
    /// says nothing.
    #[must_use]
    pub fn without_numbers(mut self, values: &[f64]) -> Self {
        let hide = |text: &mut String| *text = hidden(text, values);
        in_labels(&mut self.marks, &hide);
        hide(&mut self.short);
        for passage in &mut self.long.passages {
            match passage {
                Passage::Sentence(text) => hide(text),
                Passage::List(items) => items.iter_mut().for_each(hide),
                Passage::Table(table) => table.rows.iter_mut().flatten().for_each(hide),
            }
        }
        self
    }
}

/// Every text on the line; indices and exponents are no values.
fn in_labels(marks: &mut [Mark], hide: &impl Fn(&mut String)) {
    for mark in marks {
        match mark {
            Mark::Text { label, .. } => {
                let on_the_line = label.runs.iter_mut().filter(|run| run.level == Level::Base && !run.italic);
                on_the_line.for_each(|run| hide(&mut run.text));
            }
            Mark::Group { marks, .. } => in_labels(marks, hide),
            _ => {}
        }
    }
}

fn hidden(text: &str, values: &[f64]) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(start) = rest.find(|c: char| c.is_ascii_digit()) {
        let (before, from) = rest.split_at(start);
        let (numeral, after) = from.split_at(end_of_numeral(from));
        out.push_str(before);
        // The 10 of a power of ten, and what belongs to a word, are no values.
        let of_a_word =
            before.chars().last().or(out.chars().last()).is_some_and(|c| c.is_alphabetic() || c == '×');
        out.push_str(if !of_a_word && values.iter().any(|value| says(numeral, *value)) {
            "?"
        } else {
            numeral
        });
        rest = after;
    }
    out.push_str(rest);
    out
}

/// Where the numeral ends with which a text begins: figures, a decimal mark or a space for thousands between them.
fn end_of_numeral(text: &str) -> usize {
    let figures = |text: &str| text.bytes().take_while(u8::is_ascii_digit).count();
    let mut end = figures(text);
    while let Some(mark) = text[end..].chars().next() {
        let count = figures(&text[end + mark.len_utf8()..]);
        let goes_on = match mark {
            '.' | ',' => count > 0,
            ' ' | '\u{a0}' | '\u{2009}' | '\u{202f}' => count == 3,
            _ => false,
        };
        if !goes_on {
            break;
        }
        end += mark.len_utf8() + count;
    }
    end
}

/// Whether a numeral has the figures of a value.
fn says(numeral: &str, value: f64) -> bool {
    let plain: String = numeral
        .chars()
        .filter_map(|c| match c {
            ',' => Some('.'),
            c => (c == '.' || c.is_ascii_digit()).then_some(c),
        })
        .collect();
    let Ok(number) = plain.parse::<f64>() else { return false };
    let decades = real::log10((number / value).abs());
    (decades - decades.round()).abs() <= real::log10(1.0 + ROUNDED)
}

#[cfg(test)]
mod tests {
    use super::{hidden, says};

    #[test]
    fn a_number_with_the_figures_of_a_value_is_hidden() {
        let values = [15_250.0, -7.375, 507.5e-6];
        for (text, expected) in [
            ("\u{a0}=\u{a0}15.25\u{a0}kN", "\u{a0}=\u{a0}?\u{a0}kN"),
            ("V = \u{2212}7,38 kN", "V = \u{2212}? kN"),
            ("Q = 508×10³ mm³", "Q = ?×10³ mm³"),
            ("507\u{2009}500 mm³", "? mm³"),
            ("at 2.5 m, 15.9 kN", "at 2.5 m, 15.9 kN"),
            ("P1 = 8 kN", "P1 = 8 kN"),
            ("0 kN, 152", "0 kN, ?"),
        ] {
            assert_eq!(hidden(text, &values), expected, "{text}");
        }
        assert!(!says("10", 0.0) && !says("0", 10.0) && !says("12", f64::NAN));
    }
}
