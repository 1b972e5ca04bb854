//! The conditions under `[papers]`: taken apart, and held against the workings of the solved lesson.

use super::node::{Given, Table};
use super::quantity::{Known, Written, any};
use super::vary::uses;
use super::words::{in_quotes, listed, quoted};
use crate::finding::Report;
use crate::requirement::{Condition, InWords, Limit, Relation, Requirement, Term};
use std::collections::BTreeSet;
use workings::reading::nearest;
use workings::solved::Solved;

/// What each condition says; what is wrong with its form is reported.
pub(super) fn read(
    lesson: &Table,
    known: &Known,
    moving: &BTreeSet<String>,
    file: &str,
    report: &mut Report,
) -> Vec<Requirement> {
    let mut reader = Reader { known, moving, file, report };
    let given = lesson.table("papers").map_or(&[][..], |table| table.names("require"));
    given.iter().filter_map(|given| reader.requirement(given)).collect()
}

struct Reader<'a> {
    known: &'a Known,
    moving: &'a BTreeSet<String>,
    file: &'a str,
    report: &'a mut Report,
}

impl Reader<'_> {
    fn requirement(&mut self, given: &Given<String>) -> Option<Requirement> {
        let text = given.value.trim();
        let condition = match InWords::ALL.into_iter().find(|words| words.written() == text) {
            Some(words) => Condition::InWords(words),
            None => self.compared(given)?,
        };
        Some(Requirement { written: text.to_owned(), condition })
    }

    fn compared(&mut self, given: &Given<String>) -> Option<Condition> {
        let text = given.value.as_str();
        // Of the relations in the text the one that stands first; of two at one place the longer.
        let found = Relation::WRITTEN
            .iter()
            .filter_map(|(sign, relation)| Some((text.find(sign)?, *sign, *relation)))
            .min_by_key(|(at, sign, _)| (*at, std::cmp::Reverse(sign.len())));
        let Some((at, sign, relation)) = found else { return self.no_condition(given) };
        let (left, right) = (text[..at].trim(), &text[at + sign.len()..]);
        let offset = at + sign.len() + (right.len() - right.trim_start().len());
        let right = right.trim();
        if left.is_empty()
            || right.is_empty()
            || Relation::WRITTEN.iter().any(|(sign, _)| right.contains(sign))
        {
            return self.no_condition(given);
        }
        if self.is_quantity(left) {
            let headline = format!("a condition begins with a working; {} is a quantity", quoted(left));
            self.report
                .add(given.span.clone(), headline)
                .mend("write the working first: \"shear stress on the cut < 2 MPa\"");
            return None;
        }
        let right = if self.is_quantity(right) {
            // The place of the limit within the text, as if it stood in quotes of its own.
            let whole = Written::new(text, given.span.clone(), self.file);
            let span = if whole.plain {
                given.span.start + offset..given.span.start + offset + right.len() + 2
            } else {
                given.span.clone()
            };
            let written = Written { text: right, span, plain: whole.plain };
            let quantity = any(&written, "2 MPa", self.known, self.report)?;
            if let Some(name) = uses(right, self.moving) {
                let headline =
                    format!("the limit {} is made from `{}`, which varies", quoted(right), quoted(&name));
                self.report
                    .add(given.span.clone(), headline)
                    .mend("compare with a number, or with a working");
                return None;
            }
            Limit::Quantity(quantity)
        } else {
            Limit::Working(term(right))
        };
        Some(Condition::Compare { left: term(left), relation, right })
    }

    /// Whether a text is meant as a quantity: it begins as a number does, or is made of named values.
    fn is_quantity(&self, text: &str) -> bool {
        let known = |name: &str| self.known.names.contains_key(name) || self.known.refused.contains(name);
        text.starts_with(|c: char| c.is_ascii_digit() || matches!(c, '.' | '-' | '\u{2212}' | '+' | '('))
            || workings::reading::parse(text).is_ok_and(|parsed| {
                let names = parsed.names();
                !names.is_empty() && names.iter().all(|(name, _)| known(name))
            })
    }

    fn no_condition(&mut self, given: &Given<String>) -> Option<Condition> {
        let words = InWords::ALL.map(InWords::written);
        let mend = match nearest(given.value.trim(), words) {
            Some(near) => format!("did you mean {}?", in_quotes(near)),
            None => format!(
                "compare a working with a quantity, as in \"shear stress on the cut < 2 MPa\"; or write {}",
                listed(&words.map(in_quotes), "or")
            ),
        };
        self.report
            .add(given.span.clone(), format!("{} is no condition", in_quotes(&given.value)))
            .mend(mend)
            .by_itself();
        None
    }
}

fn term(text: &str) -> Term {
    let of = text.strip_prefix("size of ").or_else(|| text.strip_prefix("the size of "));
    Term { name: of.unwrap_or(text).trim().to_owned(), size: of.is_some() }
}

/// Whether the solved lesson has the workings that the conditions speak of, and compares like with like.
pub(super) fn answers(
    requirements: &[Requirement],
    table: &Table,
    solved: &Solved,
    report: &mut Report,
    meant: impl Fn(&str) -> Option<String>,
) {
    let workings = solved.workings();
    let given = table.table("papers").map_or(&[][..], |table| table.names("require"));
    for (requirement, given) in requirements.iter().zip(given) {
        if let Err(missing) = requirement.over(workings) {
            let mend = match meant(&missing.0) {
                Some(near) => format!("did you mean {}?", in_quotes(&near)),
                None => {
                    "`glueline values` lists what there is, such as \"shear stress on the cut\"".to_owned()
                }
            };
            let headline = format!("the lesson has no working called {}", in_quotes(&missing.0));
            report.add(given.span.clone(), headline).mend(mend);
        } else if let Some([left, right]) = requirement.unlike(workings) {
            let headline = format!("{} cannot be compared with {}", left.in_words(), right.in_words());
            report.add(given.span.clone(), headline).mend(format!("compare it with {}", left.in_words()));
        }
    }
}
