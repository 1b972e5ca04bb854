//! A paper's lesson put together from the lecturer's file: what was drawn takes the place of what the file says, what
//! varies is gone, and every other byte stays as it is. Each byte of the paper knows where in the file it comes from.

use crate::edit::{Step, find, has_heading, written_key};
use crate::key::EXCHANGED;
use crate::lesson::{Choices, Lesson};
use std::ops::Range;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// A text put together from pieces of a file.
#[derive(Debug, Default)]
pub(crate) struct Composed {
    text: String,
    /// For each piece where it begins in the text, and where it comes from.
    pieces: Vec<(usize, Origin)>,
}

/// Where a piece comes from.
#[derive(Clone, Debug)]
enum Origin {
    /// From here in the file, byte by byte.
    Copied(usize),
    /// It stands for this place of the file.
    Made(Range<usize>),
}

impl Composed {
    pub(crate) fn text(&self) -> &str {
        &self.text
    }

    pub(crate) fn into_text(self) -> String {
        self.text
    }

    fn copy(&mut self, file: &str, place: Range<usize>) {
        if let Some(piece) = file.get(place.clone()).filter(|piece| !piece.is_empty()) {
            self.pieces.push((self.text.len(), Origin::Copied(place.start)));
            self.text.push_str(piece);
        }
    }

    fn make(&mut self, piece: &str, place: Range<usize>) {
        if !piece.is_empty() {
            self.pieces.push((self.text.len(), Origin::Made(place)));
            self.text.push_str(piece);
        }
    }

    /// Adds what was put together elsewhere.
    fn join(&mut self, other: Composed) {
        let offset = self.text.len();
        self.pieces.extend(other.pieces.into_iter().map(|(start, origin)| (start + offset, origin)));
        self.text.push_str(&other.text);
    }

    /// The place in the file of a place in the text.
    pub(crate) fn origin(&self, place: &Range<usize>) -> Range<usize> {
        let of = |byte: usize, end: bool| {
            let at = self.pieces.partition_point(|(start, _)| *start <= byte).saturating_sub(1);
            match self.pieces.get(at) {
                Some((start, Origin::Copied(from))) => from + (byte - start.min(&byte)),
                Some((_, Origin::Made(place))) => {
                    if end {
                        place.end.saturating_sub(1)
                    } else {
                        place.start
                    }
                }
                None => byte,
            }
        };
        let start = of(place.start, false);
        if place.is_empty() {
            return start..start;
        }
        let end = of(place.end - 1, true) + 1;
        start..end.max(start)
    }
}

/// A place of the file and what takes its place.
type Change = (Range<usize>, Composed);

/// The text with a choice made for some of what varies; where none is made the file's own value stands.
///
/// `None` where the form of the file is too unusual to be taken apart, or a choice does not exist.
pub(crate) fn compose(
    file: &str,
    table: &DeTable<'_>,
    lesson: &Lesson,
    chosen: impl Fn(usize) -> Option<usize>,
) -> Option<Composed> {
    let page = Page { file, table, end: if file.contains("\r\n") { "\r\n" } else { "\n" } };
    let mut changes: Vec<Change> =
        page.varying().into_iter().map(|place| (place, Composed::default())).collect();
    for (axis, variation) in lesson.vary.iter().enumerate() {
        let Some(choice) = chosen(axis) else { continue };
        match &variation.choices {
            Choices::Values(values) => {
                let choice = values.get(choice)?;
                let value = find(table, &[Step::Key("values"), Step::Key(&variation.name)])?;
                let mut piece = Composed::default();
                piece.make(&toml::Value::from(choice.written.as_str()).to_string(), choice.place.clone());
                changes.push((value.span(), piece));
            }
            Choices::Variants(variants) => {
                let steps = [Step::Key("variant"), Step::Entry(variants.get(choice)?.index)];
                let DeValue::Table(variant) = find(table, &steps)?.get_ref() else { return None };
                page.exchange(variant, &mut changes)?;
            }
        }
    }
    page.changed(changes)
}

/// The file that a paper is made from.
struct Page<'a> {
    file: &'a str,
    table: &'a DeTable<'a>,
    /// How its lines end.
    end: &'static str,
}

impl Page<'_> {
    /// The file with its changes, which must not overlap.
    fn changed(&self, mut changes: Vec<Change>) -> Option<Composed> {
        changes.sort_by_key(|(place, _)| (place.start, place.end));
        let mut composed = Composed::default();
        let mut at = 0;
        for (place, piece) in changes {
            if place.start < at {
                return None;
            }
            composed.copy(self.file, at..place.start);
            composed.join(piece);
            at = place.end;
        }
        composed.copy(self.file, at..self.file.len());
        Some(composed)
    }

    /// All that says what varies, which a paper has no more.
    fn varying(&self) -> Vec<Range<usize>> {
        let mut lines = self.lines_of(&["vary", "variant"]);
        let mut within_line = None;
        if let Some((key, value)) = self.table.get_key_value("papers")
            && let DeValue::Table(papers) = value.get_ref()
            && let Some((only, rows)) = papers.get_key_value("only")
        {
            if papers.len() == 1 {
                self.lines(key.span(), value, &mut lines);
            } else if has_heading(self.file, value) {
                self.lines(only.span(), rows, &mut lines);
            } else {
                // Between braces: from the key before it, or else up to the one after it.
                let before =
                    papers.iter().map(|(_, other)| other.span().end).filter(|&end| end <= only.span().start);
                let after = papers
                    .iter()
                    .map(|(other, _)| other.span().start)
                    .filter(|&start| start > only.span().start);
                let (start, end) = match before.max() {
                    Some(start) => (start, rows.span().end),
                    None => (only.span().start, after.min().unwrap_or(rows.span().end)),
                };
                within_line = Some(start..end);
            }
        }
        self.without(lines, true).chain(within_line).collect()
    }

    /// The lines of some headings of the file.
    fn lines_of(&self, words: &[&str]) -> Vec<Range<usize>> {
        let mut lines = Vec::new();
        for word in words {
            if let Some((key, value)) = self.table.get_key_value(*word) {
                self.lines(key.span(), value, &mut lines);
            }
        }
        lines
    }

    /// Lines of the file to be taken out; with them go the remarks between them, if so wanted those straight above them,
    /// and one of two empty lines that would come together.
    fn without(&self, mut lines: Vec<Range<usize>>, remarks: bool) -> impl Iterator<Item = Range<usize>> {
        lines.sort_by_key(|line| line.start);
        let mut merged: Vec<Range<usize>> = Vec::new();
        for line in lines {
            match merged.last_mut() {
                Some(last) if line.start <= last.end || self.says_nothing(last.end..line.start) => {
                    last.end = last.end.max(line.end);
                }
                _ => merged.push(line),
            }
        }
        for place in &mut merged {
            if remarks {
                place.start = self.remarks_above(place);
            }
            let before = self.file.get(..place.start).unwrap_or("");
            if before.trim_end_matches([' ', '\t', '\r']).is_empty()
                || before.ends_with("\n\n")
                || before.ends_with("\n\r\n")
            {
                let after = self.file.get(place.end..).unwrap_or("");
                let blank = after.len() - after.trim_start_matches(['\n', '\r']).len();
                place.end += blank;
            }
        }
        merged.into_iter()
    }

    /// The start of the remarks that stand straight above a heading, else the start of the place.
    fn remarks_above(&self, place: &Range<usize>) -> usize {
        let (before, here) = self.file.split_at_checked(place.start).unwrap_or((self.file, ""));
        if !here.starts_with('[') {
            return place.start;
        }
        let remarks = before.split_inclusive('\n').rev().take_while(|line| line.starts_with('#'));
        place.start - remarks.map(str::len).sum::<usize>()
    }

    /// Whether only remarks and empty lines stand there.
    fn says_nothing(&self, place: Range<usize>) -> bool {
        let between = self.file.get(place).unwrap_or("");
        between.lines().all(|line| line.trim_start().is_empty() || line.trim_start().starts_with('#'))
    }

    /// The whole lines on which a key stands, with all that belongs to it.
    fn lines(&self, key: Range<usize>, value: &Spanned<DeValue<'_>>, lines: &mut Vec<Range<usize>>) {
        let own = |from: usize, to: usize| {
            let start = self.file.get(..from).and_then(|before| before.rfind('\n')).map_or(0, |at| at + 1);
            let end = self.file.get(to..).and_then(|after| after.find('\n'));
            start..end.map_or(self.file.len(), |at| to + at + 1)
        };
        let is_heading = self.file.get(value.span()).is_some_and(|text| text.starts_with('['));
        match value.get_ref() {
            DeValue::Table(inner) if has_heading(self.file, value) => {
                // Of keys with points between them only the values have places of their own.
                if is_heading {
                    lines.push(own(value.span().start, value.span().end));
                }
                for (key, value) in inner.iter() {
                    self.lines(key.span(), value, lines);
                }
            }
            DeValue::Array(entries) if has_heading(self.file, value) => {
                for entry in entries.iter() {
                    self.lines(entry.span(), entry, lines);
                }
            }
            _ => lines.push(own(key.start, value.span().end)),
        }
    }

    /// The changes that a variant makes.
    fn exchange(&self, variant: &DeTable<'_>, changes: &mut Vec<Change>) -> Option<()> {
        let mut added = Composed::default();
        for path in EXCHANGED {
            match path.split_once('.') {
                Some((heading, word)) => {
                    let Some(DeValue::Table(inner)) = variant.get(heading).map(Spanned::get_ref) else {
                        continue;
                    };
                    if let Some(value) = inner.get(word) {
                        self.exchange_key(heading, word, value, changes, &mut added)?;
                    }
                }
                None => {
                    if let Some(value) = variant.get(path) {
                        self.exchange_table(path, value, changes)?;
                    }
                }
            }
        }
        if !added.text.is_empty() {
            let at = self.end_of("beam")?;
            // Two variants may both add to one table: their lines stand one after the other.
            match changes.iter_mut().find(|(place, _)| *place == (at..at)) {
                Some((_, piece)) => piece.join(added),
                None => changes.push((at..at, added)),
            }
        }
        Some(())
    }

    /// One key of a table under a heading.
    fn exchange_key(
        &self,
        heading: &str,
        word: &str,
        value: &Spanned<DeValue<'_>>,
        changes: &mut Vec<Change>,
        added: &mut Composed,
    ) -> Option<()> {
        let table = self.table.get(heading)?;
        let DeValue::Table(entries) = table.get_ref() else { return None };
        let mut piece = Composed::default();
        if let Some((key, own)) = entries.get_key_value(word) {
            if !has_heading(self.file, own) {
                self.inline(value, "\n", &mut piece);
                changes.push((own.span(), piece));
                return Some(());
            }
            let mut lines = Vec::new();
            self.lines(key.span(), own, &mut lines);
            changes.extend(lines.into_iter().map(|line| (line, Composed::default())));
        }
        let text = self.file.get(table.span())?;
        if text.starts_with('{') {
            let last = entries.values().map(|entry| entry.span().end).max()?;
            piece.make(&format!(", {} = ", written_key(word)), value.span());
            self.inline(value, " ", &mut piece);
            changes.push((last..last, piece));
            return Some(());
        }
        // Under a heading the key stands alone, else with the name of its table.
        let path = if text.starts_with('[') { word.to_owned() } else { format!("{heading}.{word}") };
        added.make(&format!("{path} = "), value.span());
        self.inline(value, "\n", added);
        added.make(self.end, value.span());
        Some(())
    }

    /// The start of the line after the last plain value of a table.
    fn end_of(&self, heading: &str) -> Option<usize> {
        let table = self.table.get(heading)?;
        let DeValue::Table(entries) = table.get_ref() else { return None };
        let own =
            entries.values().filter(|value| !has_heading(self.file, value)).map(|value| value.span().end);
        let after = own.max().unwrap_or(table.span().end);
        self.file.get(after..)?.find('\n').map(|at| after + at + 1)
    }

    /// A whole table.
    fn exchange_table(
        &self,
        word: &str,
        value: &Spanned<DeValue<'_>>,
        changes: &mut Vec<Change>,
    ) -> Option<()> {
        let own = self.table.get(word)?;
        let mut piece = Composed::default();
        if self.file.get(own.span())?.starts_with('{') {
            self.inline(value, "\n", &mut piece);
            changes.push((own.span(), piece));
            return Some(());
        }
        let DeValue::Table(entries) = value.get_ref() else { return None };
        piece.make(&format!("[{word}]{}", self.end), value.span());
        for (key, value) in entries.iter() {
            piece.make(&format!("{} = ", written_key(key.get_ref())), key.span());
            self.inline(value, "\n", &mut piece);
            // A remark on the same line belongs to the value.
            let rest = self.file.get(value.span().end..)?.lines().next().unwrap_or("");
            if rest.trim_start().starts_with('#') {
                piece.copy(self.file, value.span().end..value.span().end + rest.len());
            }
            piece.make(self.end, value.span());
        }
        let mut places: Vec<Range<usize>> = self.without(self.lines_of(&[word]), false).collect();
        let first = places.iter().map(|place| place.start).min()?;
        let last_blank = |place: &Range<usize>| {
            let text = self.file.get(place.clone()).unwrap_or("");
            let kept = text.trim_end_matches(['\n', '\r']).len();
            place.start + kept + text[kept..].find('\n').map_or(0, |at| at + 1)
        };
        for place in &mut places {
            // The empty line after the table stays: another table stands there now.
            let end = last_blank(place);
            place.end = end;
            let piece = if place.start == first { std::mem::take(&mut piece) } else { Composed::default() };
            changes.push((place.clone(), piece));
        }
        Some(())
    }

    /// A value as it stands after an equals sign; a list of headings becomes a list with an entry a line.
    fn inline(&self, value: &Spanned<DeValue<'_>>, between: &str, piece: &mut Composed) {
        if !has_heading(self.file, value) {
            piece.copy(self.file, value.span());
            return;
        }
        let place = value.span();
        match value.get_ref() {
            DeValue::Array(entries) => {
                let (open, indent, close) = if between == "\n" {
                    (format!("[{}", self.end), "  ", self.end)
                } else {
                    ("[".to_owned(), "", " ")
                };
                piece.make(&open, place.clone());
                for entry in entries.iter() {
                    piece.make(indent, place.clone());
                    self.inline(entry, " ", piece);
                    piece.make(&format!(",{close}"), place.clone());
                }
                piece.make("]", place);
            }
            DeValue::Table(entries) => {
                piece.make("{ ", place.clone());
                for (at, (key, value)) in entries.iter().enumerate() {
                    let comma = if at == 0 { "" } else { ", " };
                    piece.make(&format!("{comma}{} = ", written_key(key.get_ref())), key.span());
                    self.inline(value, " ", piece);
                }
                piece.make(" }", place);
            }
            _ => piece.copy(self.file, place),
        }
    }
}
