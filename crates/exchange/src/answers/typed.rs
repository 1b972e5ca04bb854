//! Answers that somebody typed just now, without a file.

use super::asked::PaperAsked;
use super::gather::Given;
use super::habit::Habit;
use super::resolve::resolve;
use super::{Answer, Read};
use std::collections::BTreeMap;

/// Reads what was typed to the parts of a paper as it is read from a file, one text a part in the order of the paper; what is
/// missing is blank. A comma or point that may part decimals or thousands is decided by the habit and by the other answers.
pub fn typed(paper: &PaperAsked, texts: &[&str], habit: Habit) -> Vec<Answer> {
    let given: BTreeMap<(usize, usize), Given> = texts
        .iter()
        .enumerate()
        .filter(|(_, text)| !text.trim().is_empty())
        .map(|(place, text)| {
            ((0, place), Given { raw: (*text).to_owned(), row: 1, column: place, beside: None })
        })
        .collect();
    let mut resolved = resolve(&given, std::slice::from_ref(paper), habit);
    let answer = |(place, part): (usize, &super::PartAsked)| {
        let (read, mark_by) = resolved.reads.remove(&(0, place)).unwrap_or((Read::Blank, None));
        Answer {
            part: part.label.clone(),
            raw: given.get(&(0, place)).map_or_else(String::new, |given| given.raw.clone()),
            row: None,
            read,
            decided: false,
            mark_by,
        }
    };
    paper.parts.iter().enumerate().map(answer).collect()
}
