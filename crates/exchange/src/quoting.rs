//! Where fields and rows begin and end, by RFC 4180: what stands between quotation marks is never an end.
//!
//! The reader of fields forgives what this refuses: it would take a class list with one quotation mark left open as a
//! single student with a very long name.

use crate::fault::Fault;

/// What may separate fields. A tie in the header goes to the first of them: a comma also stands within words.
const SEPARATORS: [u8; 3] = [b'\t', b';', b','];

#[derive(Clone, Copy, PartialEq, Eq)]
enum Place {
    /// Before the first character of a field.
    Start,
    /// In a field without quotation marks; a mark within it is a character like another.
    Bare,
    /// Between quotation marks.
    Quoted,
    /// After a mark that ends the field, unless a second one follows.
    Ended,
}

/// The separator of a file: the one that its header line, the first that is not blank, has most of.
pub(crate) fn separator(text: &str) -> u8 {
    let mut counts = [0_usize; SEPARATORS.len()];
    let mut quoted = false;
    for byte in text.trim_start_matches(['\r', '\n']).bytes() {
        match byte {
            b'"' => quoted = !quoted,
            b'\r' | b'\n' if !quoted => break,
            byte if !quoted => {
                for (count, separator) in counts.iter_mut().zip(SEPARATORS) {
                    *count += usize::from(byte == separator);
                }
            }
            _ => {}
        }
    }
    let most = counts.iter().copied().max().unwrap_or(0);
    let found = SEPARATORS.into_iter().zip(counts).find(|&(_, count)| count == most && count > 0);
    found.map_or(b',', |(separator, _)| separator)
}

/// The row number, from 1, of each row that is not a blank line.
pub(crate) fn rows(text: &str, separator: u8) -> Result<Vec<usize>, Fault> {
    let mut rows = Vec::new();
    let (mut place, mut row, mut blank, mut opened) = (Place::Start, 1, true, 1);
    let mut bytes = text.bytes().peekable();
    while let Some(byte) = bytes.next() {
        let end = matches!(byte, b'\r' | b'\n') && place != Place::Quoted;
        if end {
            if byte == b'\r' && bytes.peek() == Some(&b'\n') {
                bytes.next();
            }
            if !blank {
                rows.push(row);
            }
            (place, row, blank) = (Place::Start, row + 1, true);
            continue;
        }
        blank = false;
        place = match (place, byte) {
            (Place::Start, b'"') => {
                opened = row;
                Place::Quoted
            }
            (Place::Quoted, b'"') => Place::Ended,
            (Place::Quoted, _) | (Place::Ended, b'"') => Place::Quoted,
            (_, byte) if byte == separator => Place::Start,
            (Place::Ended, _) => {
                let what = "something stands between a closing quotation mark and the next separator";
                return Err(Fault::of_row(row, what, "write a quotation mark within quotation marks twice"));
            }
            (Place::Start | Place::Bare, _) => Place::Bare,
        };
    }
    if place == Place::Quoted {
        let what = "a quotation mark opens here and is never closed";
        return Err(Fault::of_row(opened, what, "close it, or write it twice if it belongs to the text"));
    }
    if !blank {
        rows.push(row);
    }
    Ok(rows)
}
