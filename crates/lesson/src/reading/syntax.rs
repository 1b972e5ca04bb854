//! Text that does not read as TOML: the parser's facts in words, one slip told once.

use super::words::{in_quotes, quoted};
use crate::finding::{Report, Source};
use std::ops::Range;
use toml::Spanned;
use toml::de::{DeTable, Error};

/// How far the rest of the file may be trusted after what was wrong with its form.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Trust {
    /// All of it was understood.
    Whole,
    /// Something is lost: only what is wrong by itself should be told, not what seems to be missing.
    Parts,
    /// Nothing after the slip can be told apart.
    Nothing,
}

/// Reads the text as TOML, reports what is wrong with its form, and gives what could be made of it.
pub(super) fn parse<'a>(source: &'a Source, report: &mut Report) -> (Spanned<DeTable<'a>>, Trust) {
    let (table, mut errors) = DeTable::parse_recoverable(source.text());
    errors.sort_by_key(|error| error.span().map_or(0, |span| span.start));
    let unclosed = errors.iter().any(is_unclosed_bracket).then(|| unclosed_bracket(source.text()));
    let unclosed = unclosed.flatten();
    if let Some(at) = unclosed {
        let list = source.text().as_bytes().get(at) == Some(&b'[');
        let (thing, closing) = if list { ("list", "]") } else { ("table", "}") };
        report.add(at..at + 1, format!("this {thing} is not closed")).mend(format!("end it with {closing}"));
    }
    let mut trust = if unclosed.is_some() { Trust::Nothing } else { Trust::Whole };
    // After a slip of form the rest of its line goes wrong for that reason alone.
    let mut lost: Option<usize> = None;
    for error in &errors {
        let span = error.span().unwrap_or(0..0);
        // What follows a bracket that was left open is read as part of it, and goes wrong for that reason alone.
        if unclosed.is_some_and(|at| span.start >= at) {
            continue;
        }
        let line = source.text().get(..span.start).map_or(0, |before| before.matches('\n').count());
        if lost == Some(line) {
            continue;
        }
        let told = tell(error, span, source.text(), report);
        if told != Trust::Whole {
            lost = Some(line);
        }
        trust = trust.max(told);
        if told == Trust::Nothing && error.message().starts_with("invalid ") {
            break;
        }
    }
    (table, trust)
}

fn is_unclosed_bracket(error: &Error) -> bool {
    error.message().starts_with("unclosed array,") || error.message().starts_with("unclosed inline table")
}

/// Puts one error in words.
fn tell(error: &Error, span: Range<usize>, text: &str, report: &mut Report) -> Trust {
    let message = error.message();
    let written = text.get(span.clone()).unwrap_or("");
    let says = |start: &str| message.starts_with(start);
    if says("string values must be quoted") {
        let bare = written.trim_matches(['“', '”', '„', '‘', '’', '«', '»', '"', '\'']);
        report.add(span, format!("{} must stand in straight quotes", quoted(written))).mend(in_quotes(bare));
        Trust::Whole
    } else if says("invalid basic string") || says("invalid literal string") || says("invalid multi-line") {
        // A string that is not closed ends with the line that it began on.
        let line = text.get(..span.start).map_or(0, |before| before.rfind('\n').map_or(0, |at| at + 1));
        let from = text
            .get(line..span.start)
            .and_then(|line| line.find(['"', '\'']))
            .map_or(span.start, |at| line + at);
        // Nothing after the quotes: a text was to begin on the next line.
        if !says("invalid multi-line")
            && text.get(from + 1..span.end).is_some_and(|rest| rest.trim().is_empty())
        {
            report
                .add(from..span.end, "the quotes are not closed on their line")
                .mend("put a text of several lines between three quotes: \"\"\" before it and after it");
            return Trust::Nothing;
        }
        report
            .add(from..span.end, "the quotes are not closed")
            .mend("end the text with the quotes that it began with");
        if says("invalid multi-line") { Trust::Nothing } else { Trust::Whole }
    } else if says("missing escaped value") || says("too few unicode") || says("invalid escape") {
        report
            .add(span, "a backslash in double quotes begins a special character")
            .mend("write \\\\ for a backslash, or put the text in single quotes: '...'");
        Trust::Parts
    } else if says("duplicate key") {
        report.add(span, format!("`{}` is given twice", quoted(written))).mend("keep one of the two");
        Trust::Whole
    } else if let Some(heading) = heading_half_open(text, &span) {
        report
            .add(heading, "this heading has no opening bracket")
            .mend("write a heading as [beam] or [[question]]");
        Trust::Parts
    } else if says("key with no value")
        || says("missing assignment")
        || says("missing value")
        || says("invalid key-value")
    {
        report
            .add(span, "this does not read as `name = value`")
            .mend("write a name of one word, an equals sign, and a value, such as: length = \"4 m\"");
        Trust::Parts
    } else if says("unexpected key or value") && follows_a_number(text, span.start) {
        report
            .add(span, "a number stands alone, what belongs to it stands in quotes with it")
            .mend("write the value with its unit, in quotes, with a decimal point: \"0.75 m\"");
        Trust::Parts
    } else if says("unexpected key or value") {
        report.add(span, "this stands after the value and does not belong to it").mend("begin a new line");
        Trust::Parts
    } else if says("missing comma") {
        report.add(span, "a comma is missing here").mend("put a comma between two entries");
        Trust::Parts
    } else if says("extra comma") {
        report.add(span, "one comma too many").mend("take it out");
        Trust::Parts
    } else if says("unclosed table") || says("unclosed array table") || says("missing table open") {
        report.add(span, "this heading is not closed").mend("write a heading as [beam] or [[question]]");
        Trust::Nothing
    } else if says("cannot recurse") || says("recursion limit") {
        report
            .add(span, "lists and tables are nested too deeply")
            .mend("no key of a lesson is nested more than a few times");
        Trust::Nothing
    } else if says("invalid unquoted key") && written == ":" {
        report.add(span, "an equals sign is wanted, not a colon").mend("write it as: length = \"4 m\"");
        Trust::Parts
    } else if says("unquoted keys cannot be empty") || says("invalid unquoted key") || says("extra `=`") {
        report.add(span, "a name is wanted before the equals sign").mend("write it as: length = \"4 m\"");
        Trust::Parts
    } else if says("unexpected leading zero") || says("invalid") && message.contains("number") {
        report
            .add(span, format!("{} is not a number", quoted(written)))
            .mend("write a number such as 12 or 0.5");
        Trust::Whole
    } else {
        report.add(span, format!("this does not read as TOML: {}", quoted(message)));
        Trust::Parts
    }
}

/// The line of a place where it is a heading that only its closing bracket shows: `beam]`.
fn heading_half_open(text: &str, span: &Range<usize>) -> Option<Range<usize>> {
    let start = text.get(..span.start)?.rfind('\n').map_or(0, |at| at + 1);
    let line = text.get(start..end_of_line(text, start))?;
    let line = line.split('#').next()?.trim_end();
    let word = line.trim_end_matches(']');
    let is_word =
        !word.is_empty() && word.chars().all(|c| c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '.'));
    (is_word && word.len() < line.len()).then(|| start..start + line.len())
}

/// Whether what stands just before a place, after an equals sign, is a number without quotes.
fn follows_a_number(text: &str, at: usize) -> bool {
    let before = text.get(..at).unwrap_or("");
    let value = before.rsplit(['=', '\n']).next().unwrap_or("").trim();
    !value.is_empty() && value.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | '-' | '+' | '_'))
}

/// The first bracket that is never closed, strings and comments left aside; a heading on a line of its own
/// closes nothing and shows that what stands open before it was forgotten.
fn unclosed_bracket(text: &str) -> Option<usize> {
    let mut open: Vec<(usize, u8)> = Vec::new();
    let bytes = text.as_bytes();
    let mut at = 0;
    while let Some(&byte) = bytes.get(at) {
        match byte {
            b'#' => at = end_of_line(text, at),
            b'"' | b'\'' => {
                at = end_of_string(text, at);
                continue;
            }
            b'[' | b'{' => open.push((at, byte)),
            b']' | b'}' => {
                let opening = if byte == b']' { b'[' } else { b'{' };
                if open.last().is_some_and(|&(_, last)| last == opening) {
                    open.pop();
                } else if let Some(&(first, _)) = open.first() {
                    return Some(first);
                }
            }
            _ => {}
        }
        at += 1;
    }
    open.first().map(|&(at, _)| at)
}

fn end_of_line(text: &str, from: usize) -> usize {
    text.get(from..).and_then(|rest| rest.find('\n')).map_or(text.len(), |at| from + at)
}

/// The byte after the string that begins at `from`; a string of one line ends at the end of its line at the latest.
fn end_of_string(text: &str, from: usize) -> usize {
    let Some(rest) = text.get(from..) else { return text.len() };
    for long in ["\"\"\"", "'''"] {
        if let Some(inside) = rest.strip_prefix(long) {
            return inside.find(long).map_or(text.len(), |at| from + 3 + at + 3);
        }
    }
    let quote = rest.as_bytes().first().copied().unwrap_or(b'"');
    let mut escaped = false;
    for (at, byte) in rest.bytes().enumerate().skip(1) {
        match byte {
            b'\n' => return from + at,
            _ if escaped => escaped = false,
            b'\\' if quote == b'"' => escaped = true,
            _ if byte == quote => return from + at + 1,
            _ => {}
        }
    }
    text.len()
}
