//! The named values: each may be an expression of others, in any order, but not in a circle.

use super::quantity::{Known, Written, any, bare_number};
use super::words::{in_quotes, listed, quoted};
use crate::finding::Report;
use crate::key;
use crate::lesson::NamedValue;
use std::collections::{HashMap, HashSet};
use std::ops::Range;
use toml::Spanned;
use toml::de::{DeTable, DeValue};
use workings::reading;

/// One named value before it is worked out.
struct Draft<'a> {
    name: &'a str,
    key: Range<usize>,
    written: Written<'a>,
    /// The drafts that it is made from.
    uses: Vec<usize>,
}

/// Works out the named values; what is refused is reported and remembered.
pub(super) fn read(
    values: Option<&Spanned<DeValue<'_>>>,
    file: &str,
    report: &mut Report,
) -> (Known, Vec<NamedValue>) {
    let mut known = Known::default();
    let Some(DeValue::Table(table)) = values.map(Spanned::get_ref) else { return (known, Vec::new()) };
    let drafts = drafts(table, file, &mut known, report);
    let order = in_order(&drafts, &mut known, report);

    for index in order {
        let draft = &drafts[index];
        match any(&draft.written, "4 kN", &known, report) {
            Some(quantity) => {
                known.names.insert(draft.name.to_owned(), quantity);
            }
            None => {
                known.refused.insert(draft.name.to_owned());
            }
        }
    }
    let named = drafts
        .iter()
        .filter_map(|draft| {
            let quantity = *known.names.get(draft.name)?;
            Some(NamedValue { name: draft.name.to_owned(), quantity, written: draft.written.text.to_owned() })
        })
        .collect();
    (known, named)
}

/// The values that are text under a name that may be used; the rest is reported.
fn drafts<'a>(table: &'a DeTable<'_>, file: &str, known: &mut Known, report: &mut Report) -> Vec<Draft<'a>> {
    let mut drafts = Vec::new();
    for (key, value) in table.iter() {
        let name = key.get_ref().as_ref();
        if !is_name(name) {
            report
                .add(key.span(), format!("{} cannot be the name of a value", in_quotes(name)))
                .mend("begin a name with a letter and go on with letters, digits and _, such as P or L_1");
            known.refused.insert(name.to_owned());
            continue;
        }
        match value.get_ref() {
            DeValue::String(text) => drafts.push(Draft {
                name,
                key: key.span(),
                written: Written::new(text, value.span(), file),
                uses: Vec::new(),
            }),
            other => {
                known.refused.insert(name.to_owned());
                let number = match other {
                    DeValue::Integer(number) => Some(number.as_str()),
                    DeValue::Float(number) => Some(number.as_str()),
                    _ => None,
                };
                if let (Some(number), Some(key)) = (number, key::at("values.*")) {
                    let key = key::Key { path: format!("values.{name}").into(), ..key.clone() };
                    bare_number(&key, number, value.span(), report);
                } else {
                    report
                        .add(value.span(), format!("`{}` wants a quantity in quotes", quoted(name)))
                        .mend(format!("{} = \"4 kN\"", quoted(name)))
                        .by_itself();
                }
            }
        }
    }
    let index: HashMap<&str, usize> =
        drafts.iter().enumerate().map(|(index, draft)| (draft.name, index)).collect();
    for draft in &mut drafts {
        if let Ok(parsed) = reading::parse(draft.written.text) {
            draft.uses = parsed.names().iter().filter_map(|(name, _)| index.get(name).copied()).collect();
        }
    }
    drafts
}

fn is_name(name: &str) -> bool {
    name.chars().next().is_some_and(char::is_alphabetic)
        && name.chars().all(|character| character.is_alphanumeric() || matches!(character, '_' | '\''))
}

/// An order in which each value comes after those that it is made from; values made in a circle are reported, once
/// a circle, and left out.
fn in_order(drafts: &[Draft<'_>], known: &mut Known, report: &mut Report) -> Vec<usize> {
    #[derive(Clone, Copy, PartialEq)]
    enum Mark {
        New,
        Open,
        Done,
    }
    let mut marks = vec![Mark::New; drafts.len()];
    let mut order = Vec::new();
    let mut circular: HashSet<usize> = HashSet::new();
    for start in 0..drafts.len() {
        // The way from `start` to the value in hand, each with how many of its uses have been looked at; a list and
        // not a recursion, since a file may chain as many values as it likes.
        let mut way: Vec<(usize, usize)> = Vec::new();
        if marks[start] == Mark::New {
            marks[start] = Mark::Open;
            way.push((start, 0));
        }
        while let Some((index, seen)) = way.last_mut() {
            let index = *index;
            let Some(&next) = drafts[index].uses.get(*seen) else {
                marks[index] = Mark::Done;
                if !circular.contains(&index) {
                    order.push(index);
                }
                way.pop();
                continue;
            };
            *seen += 1;
            match marks[next] {
                Mark::New => {
                    marks[next] = Mark::Open;
                    way.push((next, 0));
                }
                Mark::Open => {
                    let from = way.iter().position(|&(index, _)| index == next).unwrap_or(0);
                    let circle: Vec<usize> = way[from..].iter().map(|&(index, _)| index).collect();
                    if circle.iter().all(|index| !circular.contains(index)) {
                        tell_circle(drafts, &circle, report);
                    }
                    circular.extend(circle);
                }
                Mark::Done => {}
            }
        }
    }
    known.refused.extend(circular.iter().map(|&index| drafts[index].name.to_owned()));
    order
}

fn tell_circle(drafts: &[Draft<'_>], circle: &[usize], report: &mut Report) {
    // Told at the value that stands first in the file.
    let first = circle.iter().copied().min_by_key(|&index| drafts[index].key.start).unwrap_or(0);
    let from = circle.iter().position(|&index| index == first).unwrap_or(0);
    let names: Vec<String> = circle[from..]
        .iter()
        .chain(&circle[..from])
        .take(6)
        .map(|&index| quoted(drafts[index].name))
        .collect();
    let draft = &drafts[first];
    let headline = if circle.len() == 1 {
        format!("`{}` is made from itself", quoted(draft.name))
    } else {
        format!("the values {} are made from one another in a circle", listed(&names, "and"))
    };
    let mend = format!("give one of them a value of its own, such as {} = \"4 m\"", quoted(draft.name));
    report.add(draft.written.span.clone(), headline).mend(mend);
}
