//! Writing back: one value of a lesson file is changed, and not one byte elsewhere.
//!
//! The file is never printed anew. The place of the value is found and only its bytes are exchanged, so comments,
//! order, indentation and line ends stay as the lecturer left them.

mod only;

use crate::key::{self, Form, Key};
use std::fmt;
use std::ops::Range;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// The text of a lesson file that is being changed.
///
/// ```
/// use lesson::edit::{Manuscript, NewValue};
///
/// let mut manuscript = Manuscript::new("[cut]\nat = \"20 mm\"   # just below the flange\n");
/// manuscript.set("cut.at", NewValue::Text("25 mm"))?;
/// assert_eq!(manuscript.text(), "[cut]\nat = \"25 mm\"   # just below the flange\n");
/// # Ok::<(), lesson::edit::EditFault>(())
/// ```
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Manuscript {
    text: String,
}

/// A value to be written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NewValue<'a> {
    /// Text: a quantity, a place, a name, one of some choices.
    Text(&'a str),
    /// Yes or no.
    YesNo(bool),
    /// A whole number.
    Count(u32),
    /// A plain number.
    Number(f64),
}

/// A value that a lesson file gives and that may be given anew.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Input {
    /// Where it stands, as [`Manuscript::set`] wants it: `beam.loads[2].force`.
    pub path: String,
    /// What the file says there.
    pub written: String,
    /// What the lecturer calls the thing that it belongs to (`top plank`); empty where it has no name.
    pub owner: String,
    /// Whether the thing acts up or clockwise, against the sense in which loads count.
    pub reversed: bool,
    /// The bytes of the file that say it.
    pub(crate) place: Range<usize>,
}

/// Why a value cannot be changed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum EditFault {
    /// The file does not read as TOML.
    NotToml,
    /// The format has no such key.
    NoSuchKey(String),
    /// The key wants another form of value.
    WrongForm(String),
    /// The file has no such entry, and no place where it could be put.
    NoSuchPlace(String),
}

impl fmt::Display for EditFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            EditFault::NotToml => f.write_str("the file does not read as TOML"),
            EditFault::NoSuchKey(path) => write!(f, "a lesson has no key `{path}`"),
            EditFault::WrongForm(path) => write!(f, "`{path}` wants another form of value"),
            EditFault::NoSuchPlace(path) => write!(f, "the file has no place for `{path}`"),
        }
    }
}

impl std::error::Error for EditFault {}

impl Manuscript {
    /// A manuscript of this text.
    pub fn new(text: impl Into<String>) -> Self {
        Self { text: text.into() }
    }

    /// The text as it now is.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// Gives one of the inputs of this very text another wording: as [`Manuscript::set`], but the place is known already,
    /// and one text in the place of another value leaves a file that reads as before.
    ///
    /// # Errors
    /// Where this text has no such place.
    pub fn reword(&mut self, input: &Input, value: &str) -> Result<(), EditFault> {
        if self.text.get(input.place.clone()).is_none() {
            return Err(EditFault::NoSuchPlace(input.path.clone()));
        }
        self.text.replace_range(input.place.clone(), &written(NewValue::Text(value)));
        Ok(())
    }

    /// Gives a key another value. The path is written as in `beam.loads[2].force` (entries counted from 0),
    /// `values.P` or `cut.at`. A key that is not there yet is added at the end of its table.
    ///
    /// The value is not checked beyond its form: read the text again to see what it means.
    ///
    /// # Errors
    /// See [`EditFault`]; the text is then unchanged.
    pub fn set(&mut self, path: &str, value: NewValue<'_>) -> Result<(), EditFault> {
        let steps = steps(path).ok_or_else(|| EditFault::NoSuchKey(path.to_owned()))?;
        let key = key_of(&steps).ok_or_else(|| EditFault::NoSuchKey(path.to_owned()))?;
        if !fits(key.form, value) {
            return Err(EditFault::WrongForm(path.to_owned()));
        }
        let written = written(value);
        let (place, piece) = self.change(&steps, &written, path)?;
        let mut text = self.text.clone();
        text.replace_range(place, &piece);
        // What was written must be read back as the same value; a file of unusual form is better left alone.
        let reads = DeTable::parse(&text).is_ok_and(|table| {
            find(table.get_ref(), &steps)
                .is_some_and(|found| text.get(found.span()) == Some(written.as_str()))
        });
        if !reads {
            return Err(EditFault::NoSuchPlace(path.to_owned()));
        }
        self.text = text;
        Ok(())
    }

    /// The bytes to be replaced and what replaces them.
    fn change(
        &self,
        steps: &[Step<'_>],
        written: &str,
        path: &str,
    ) -> Result<(Range<usize>, String), EditFault> {
        let table = DeTable::parse(&self.text).map_err(|_| EditFault::NotToml)?;
        if let Some(found) = find(table.get_ref(), steps) {
            return Ok((found.span(), written.to_owned()));
        }
        let nowhere = || EditFault::NoSuchPlace(path.to_owned());
        let (last, parents) = steps.split_last().ok_or_else(nowhere)?;
        let Step::Key(word) = last else { return Err(nowhere()) };
        let line = format!("{} = {written}", written_key(word));
        let end = if self.text.contains("\r\n") { "\r\n" } else { "\n" };
        match (parents, find(table.get_ref(), parents)) {
            (_, Some(parent)) => {
                let DeValue::Table(entries) = parent.get_ref() else { return Err(nowhere()) };
                let span = parent.span();
                match self.text.as_bytes().get(span.start) {
                    Some(b'{') => {
                        let at = entries.values().map(|value| value.span().end).max();
                        Ok(at.map_or((span.start + 1..span.start + 1, format!(" {line} ")), |at| {
                            (at..at, format!(", {line}"))
                        }))
                    }
                    Some(b'[') => Ok(self.new_line(span, entries, &line, end)),
                    _ => Err(nowhere()),
                }
            }
            ([], None) => Ok((0..0, format!("{line}{end}"))),
            ([Step::Key(heading)], None) => {
                let gap = if self.text.is_empty() || self.text.ends_with('\n') { "" } else { end };
                let at = self.text.len();
                Ok((at..at, format!("{gap}{end}[{}]{end}{line}{end}", written_key(heading))))
            }
            _ => Err(nowhere()),
        }
    }

    /// A line of its own after the last entry of a table that stands under a heading.
    fn new_line(
        &self,
        heading: Range<usize>,
        entries: &DeTable<'_>,
        line: &str,
        end: &str,
    ) -> (Range<usize>, String) {
        // Tables within may stand under headings of their own further down; only plain values show where this one ends.
        let own =
            entries.values().filter(|value| !has_heading(&self.text, value)).map(|value| value.span().end);
        let after = own.max().unwrap_or(heading.end);
        match self.text[after..].find('\n') {
            Some(at) => (after + at + 1..after + at + 1, format!("{line}{end}")),
            None => (self.text.len()..self.text.len(), format!("{end}{line}{end}")),
        }
    }
}

/// Whether a value of a file is a table, or a list of tables, that stands under a heading of its own (or is spread over
/// keys with points between them) and not between brackets or braces.
pub(crate) fn has_heading(file: &str, value: &Spanned<DeValue<'_>>) -> bool {
    let entries = match value.get_ref() {
        DeValue::Table(_) => return file.get(value.span()).is_some_and(|text| !text.starts_with('{')),
        DeValue::Array(entries) => entries,
        _ => return false,
    };
    // The place of a list under headings is its first heading, and so is that of its first entry.
    entries.iter().next().is_some_and(|first| first.span() == value.span())
}

/// Every quantity and every place that the lesson as it stands gives, in the order of the file; each can be given
/// another value with [`Manuscript::set`].
pub(crate) fn inputs(table: &DeTable<'_>) -> Vec<Input> {
    let mut inputs = Vec::new();
    gather(table, "", ("", false), &mut inputs);
    inputs
}

/// One step of a path.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Step<'a> {
    Key(&'a str),
    Entry(usize),
}

fn steps(path: &str) -> Option<Vec<Step<'_>>> {
    let mut steps = Vec::new();
    for word in path.split('.') {
        let (word, entries) = word.split_once('[').map_or((word, None), |(word, rest)| (word, Some(rest)));
        if word.is_empty() {
            return None;
        }
        steps.push(Step::Key(word));
        for entry in entries.into_iter().flat_map(|rest| rest.split('[')) {
            steps.push(Step::Entry(entry.strip_suffix(']')?.parse().ok()?));
        }
    }
    Some(steps)
}

/// The key of the format at which a path points.
fn key_of(steps: &[Step<'_>]) -> Option<&'static Key> {
    let mut path = String::new();
    for step in steps {
        match step {
            Step::Key(word) => {
                let within = path.len();
                let mut step_to = |word: &str| {
                    path.truncate(within);
                    path.push_str(if within == 0 { "" } else { "." });
                    path.push_str(word);
                    key::at(&path).is_some()
                };
                if !step_to(word) && !step_to("*") {
                    return None;
                }
            }
            Step::Entry(_) => path.push_str("[]"),
        }
    }
    // An entry of a list of texts has the form of its list.
    key::at(&path).or_else(|| key::at(path.strip_suffix("[]")?))
}

pub(crate) fn find<'a, 'i>(table: &'a DeTable<'i>, steps: &[Step<'_>]) -> Option<&'a Spanned<DeValue<'i>>> {
    let (Step::Key(first), rest) = steps.split_first()? else { return None };
    let mut found = table.get(*first)?;
    for step in rest {
        found = match (step, found.get_ref()) {
            (Step::Key(word), DeValue::Table(table)) => table.get(*word)?,
            (Step::Entry(index), DeValue::Array(entries)) => entries.get(*index)?,
            _ => return None,
        };
    }
    Some(found)
}

/// A value that is neither a table nor a list, as one would type it.
fn plain(value: &DeValue<'_>) -> Option<String> {
    match value {
        DeValue::String(text) => Some(text.to_string()),
        DeValue::Integer(number) => Some(number.to_string()),
        DeValue::Float(number) => Some(number.to_string()),
        DeValue::Boolean(yes) => Some(yes.to_string()),
        _ => None,
    }
}

/// Whether a key holds something that is measured: a quantity or a place.
fn is_measured(key: &Key) -> bool {
    matches!(key.form, Form::Quantity { .. } | Form::Density | Form::AnyQuantity) || key.path == "cut.at"
}

fn gather(table: &DeTable<'_>, path: &str, (owner, reversed): (&str, bool), inputs: &mut Vec<Input>) {
    let joined = |word: &str| if path.is_empty() { word.to_owned() } else { format!("{path}.{word}") };
    // In the order of the file, which a table of its own does not keep.
    let mut entries: Vec<_> = table.iter().collect();
    entries.sort_by_key(|(word, _)| word.span().start);
    for (word, value) in entries {
        // What a variant gives is no input of the lesson as it stands.
        if path.is_empty() && word.get_ref().as_ref() == "variant" {
            continue;
        }
        let path = joined(word.get_ref());
        match value.get_ref() {
            DeValue::Table(inner) => gather(inner, &path, (owner, reversed), inputs),
            DeValue::Array(list) => {
                for (index, entry) in list.iter().enumerate() {
                    let DeValue::Table(inner) = entry.get_ref() else { continue };
                    let says = |word: &str| inner.get(word).and_then(|value| plain(value.get_ref()));
                    let (name, direction) = (says("name").unwrap_or_default(), says("direction"));
                    let reversed = matches!(direction.as_deref(), Some("up" | "clockwise"));
                    gather(inner, &format!("{path}[{index}]"), (&name, reversed), inputs);
                }
            }
            plain_value => {
                let place = value.span();
                let measured = steps(&path).as_deref().and_then(key_of).is_some_and(is_measured);
                if let (true, Some(written)) = (measured, plain(plain_value)) {
                    inputs.push(Input { path, written, owner: owner.to_owned(), reversed, place });
                }
            }
        }
    }
}

fn fits(form: Form, value: NewValue<'_>) -> bool {
    match value {
        NewValue::Text(_) => !matches!(
            form,
            Form::YesNo | Form::Count { .. } | Form::Number | Form::Share { .. } | Form::Table | Form::List
        ),
        NewValue::YesNo(_) => form == Form::YesNo,
        NewValue::Count(_) => {
            matches!(form, Form::Count { .. } | Form::Figures { .. } | Form::Number | Form::Share { .. })
        }
        NewValue::Number(number) => matches!(form, Form::Number | Form::Share { .. }) && number.is_finite(),
    }
}

fn written(value: NewValue<'_>) -> String {
    match value {
        NewValue::Text(text) => toml::Value::from(text).to_string(),
        NewValue::YesNo(yes) => yes.to_string(),
        NewValue::Count(count) => count.to_string(),
        NewValue::Number(number) => toml::Value::from(number).to_string(),
    }
}

/// A key as it must be written: bare where it can be.
pub(crate) fn written_key(word: &str) -> String {
    let bare = word.bytes().all(|byte| byte.is_ascii_alphanumeric() || matches!(byte, b'_' | b'-'));
    if bare { word.to_owned() } else { toml::Value::from(word).to_string() }
}
