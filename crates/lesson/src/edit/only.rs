//! Restricting the papers of a lesson to some combinations: `only` under `[papers]`, written into the file.

use super::{EditFault, Manuscript, Step, find, has_heading, written_key};
use crate::lesson::Lesson;
use crate::papers::Draw;
use std::ops::Range;
use toml::de::{DeTable, DeValue};

const PATH: &str = "papers.only";
const STEPS: [Step<'_>; 2] = [Step::Key("papers"), Step::Key("only")];

impl Manuscript {
    /// Lets papers have these combinations of the lesson's choices and no others, in this order.
    ///
    /// Rows that stood there before give way, with what was remarked behind them; remarks on lines of their own between
    /// them stay above the new rows. All else in the file stays as it is.
    ///
    /// # Errors
    /// [`EditFault`] where the file is no TOML, has its rows under headings of their own, or a draw is none of the lesson's;
    /// the text is then unchanged.
    pub fn restrict(&mut self, lesson: &Lesson, draws: &[Draw]) -> Result<(), EditFault> {
        let nowhere = || EditFault::NoSuchPlace(PATH.to_owned());
        let rows: Option<Vec<String>> = draws.iter().map(|draw| row(lesson, draw)).collect();
        let rows =
            rows.filter(|rows| !rows.is_empty()).ok_or_else(|| EditFault::WrongForm(PATH.to_owned()))?;
        let (place, piece) = self.rows_and_their_place(&rows)?;
        let mut text = self.text.clone();
        text.replace_range(place, &piece);
        let count =
            DeTable::parse(&text).ok().and_then(|table| match find(table.get_ref(), &STEPS)?.get_ref() {
                DeValue::Array(entries) => Some(entries.len()),
                _ => None,
            });
        if count != Some(rows.len()) {
            return Err(nowhere());
        }
        self.text = text;
        Ok(())
    }

    /// The bytes to be replaced and what replaces them.
    fn rows_and_their_place(&self, rows: &[String]) -> Result<(Range<usize>, String), EditFault> {
        let end = if self.text.contains("\r\n") { "\r\n" } else { "\n" };
        let table = DeTable::parse(&self.text).map_err(|_| EditFault::NotToml)?;
        let table = table.get_ref();
        if let Some(old) = find(table, &STEPS) {
            if has_heading(&self.text, old) {
                return Err(EditFault::NoSuchPlace(PATH.to_owned()));
            }
            return Ok((old.span(), list(&self.remarks(old.span()), rows, end)));
        }
        let list = list(&[], rows, end);
        if table.contains_key("papers") {
            return self.change(&STEPS, &list, PATH);
        }
        // Beside what varies, where a reader will look for it.
        match table.get("vary").map(|vary| (vary.span(), vary.get_ref())) {
            Some((span, DeValue::Table(entries)))
                if self.text.get(span.clone()).is_some_and(|text| text.starts_with('[')) =>
            {
                let (at, piece) =
                    self.new_line(span, entries, &format!("{end}[papers]{end}only = {list}"), end);
                Ok((at, piece))
            }
            _ => self.change(&STEPS, &list, PATH),
        }
    }

    /// The remarks on lines of their own within a list.
    fn remarks(&self, list: Range<usize>) -> Vec<&str> {
        let lines = self.text.get(list).unwrap_or("").lines();
        lines.map(str::trim).filter(|line| line.starts_with('#')).collect()
    }
}

/// A draw as a row; `None` where it is none of the lesson's.
fn row(lesson: &Lesson, draw: &Draw) -> Option<String> {
    if draw.choices.len() != lesson.vary.len() {
        return None;
    }
    let choices = lesson.vary.iter().zip(&draw.choices);
    let given = choices.map(|(variation, &choice)| {
        let said = toml::Value::from(variation.words(choice)?).to_string();
        Some(format!("{} = {said}", written_key(&variation.name)))
    });
    Some(format!("{{ {} }}", given.collect::<Option<Vec<String>>>()?.join(", ")))
}

fn list(remarks: &[&str], rows: &[String], end: &str) -> String {
    let mut list = format!("[{end}");
    for remark in remarks {
        list.push_str(&format!("  {remark}{end}"));
    }
    for row in rows {
        list.push_str(&format!("  {row},{end}"));
    }
    list + "]"
}
