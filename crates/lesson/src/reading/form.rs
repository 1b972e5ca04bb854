//! Every value of the file held against the form that its key asks for.

use super::node::{Given, Node, Table, What};
use super::quantity::{Known, Written, bare_number, length, of_form};
use super::words::{in_quotes, listed, quoted};
use crate::finding::Report;
use crate::key::{self, Form, Key, Need};
use std::ops::Range;
use toml::Spanned;
use toml::de::{DeArray, DeTable, DeValue};
use workings::reading::nearest;

/// Reads tables into nodes and reports what does not have the form of its key.
pub(super) struct Reader<'a> {
    pub(super) file: &'a str,
    pub(super) known: &'a Known,
    pub(super) report: &'a mut Report,
}

impl Reader<'_> {
    /// Reads the table at a path of the format; `span` is its heading.
    pub(super) fn table(&mut self, raw: &DeTable<'_>, path: &str, span: Range<usize>) -> Table {
        let keys = key::within(path);
        let own_names = keys.iter().find(|key| key.word() == "*");
        let mut table = Table::new(span);
        let mut meant: Vec<&str> = Vec::new();
        for (word, value) in raw.iter() {
            let place = word.span();
            let word = word.get_ref().as_ref();
            let Some(key) = keys.iter().find(|key| key.word() == word).or(own_names) else {
                table.has_stranger = true;
                meant.extend(self.stranger(word, path, keys, place));
                continue;
            };
            let what = match key.path.as_ref() {
                "values.*" => What::Bad,
                pattern if key.word() == "*" => {
                    // What is said of it is said with the lecturer's own name.
                    let key = Key { path: pattern.replace('*', &quoted(word)).into(), ..(**key).clone() };
                    self.value(&key, value)
                }
                _ => self.value(key, value),
            };
            table.insert(word.to_owned(), Node { key: place, span: value.span(), what });
        }
        for key in keys.iter().filter(|key| key.need == Need::Required) {
            if !table.has(key.word()) && !meant.contains(&key.word()) {
                self.missing(key, path, &table.span);
            }
        }
        table
    }

    /// Reports a key that the format does not know; gives the known key that was probably meant.
    fn stranger(
        &mut self,
        word: &str,
        path: &str,
        keys: &[&'static Key],
        place: Range<usize>,
    ) -> Option<&'static str> {
        let words: Vec<&'static str> = keys.iter().map(|key| key.word()).collect();
        // Most lecturers' other tools write `self_weight`.
        let with_hyphens = word.replace('_', "-");
        let near = words.iter().copied().find(|known| *known == with_hyphens);
        let near = near.or_else(|| key::key_meant(&with_hyphens.to_lowercase(), &words));
        let near = near.or_else(|| nearest(word, words.iter().copied()));
        if key::turns_signs(path, &with_hyphens) {
            self.report
                .add(place, format!("the signs of V and M are the same in every lesson: no `{}`", quoted(word)))
                .mend(
                    "take it out: V is positive where it turns the slice clockwise, M where it sags; `shear-diagram` \
                     and `moment-diagram` choose the side that they are drawn on",
                )
                .by_itself();
            return None;
        }
        let finding = self.report.add(place, format!("{} has no key `{}`", in_words(path), quoted(word)));
        if let Some(near) = near {
            finding.mend(format!("did you mean `{near}`?"));
        } else if let Some(elsewhere) = key::all().iter().find(|key| key.word() == word) {
            finding.mend(format!("`{}` belongs to {}", quoted(word), in_words(elsewhere.parent())));
        } else {
            finding.mend(format!("it takes {}", listed(&words, "and")));
        }
        finding.by_itself();
        near
    }

    fn missing(&mut self, key: &Key, path: &str, span: &Range<usize>) {
        let word = key.word();
        if path.is_empty() && key.form == Form::Table {
            let needs = key::within(word).iter().filter(|inner| inner.need == Need::Required);
            let needs: Vec<String> =
                needs.map(|inner| format!("{} = {}", inner.word(), inner.example)).collect();
            let mend = format!("add a heading [{word}] and under it {}", listed(&needs, "and"));
            let mend = if needs.is_empty() { format!("add a heading [{word}]") } else { mend };
            self.report.add(span.clone(), format!("the lesson has no [{word}]")).mend(mend);
            return;
        }
        self.report
            .add(span.clone(), format!("{} has no `{word}`", in_words(path)))
            .mend(format!("add {word} = {}", key.example));
    }

    fn value(&mut self, key: &Key, value: &Spanned<DeValue<'_>>) -> What {
        let span = value.span();
        match (key.form, value.get_ref()) {
            (Form::Text | Form::Markdown, DeValue::String(text)) => self.text(key, text, span),
            (Form::YesNo, DeValue::Boolean(yes)) => What::YesNo(*yes),
            (Form::Count { least, most }, DeValue::Integer(number)) => {
                let count = u32::from_str_radix(number.as_str(), number.radix()).ok();
                match count.filter(|count| (least..=most).contains(count)) {
                    Some(count) => What::Count(count),
                    None => self.refuse(key, span, number.as_str()),
                }
            }
            (Form::Figures { least, most, word }, DeValue::Integer(number)) => {
                let count = u32::from_str_radix(number.as_str(), number.radix()).ok();
                match count.filter(|count| (least..=most).contains(count)) {
                    Some(count) => What::Count(count),
                    None => self.refuse(key, span, &format!("{} (or {word})", number.as_str())),
                }
            }
            (Form::Figures { word, .. }, DeValue::String(text)) if text == word => {
                What::Text(word.to_owned())
            }
            (Form::Number, DeValue::Integer(_) | DeValue::Float(_)) => {
                let written = self.file.get(span.clone()).unwrap_or("").replace('_', "");
                match written.parse::<f64>().ok().filter(|number| *number > 0.0 && *number <= 1e6) {
                    Some(number) => What::Number(number),
                    None => self.refuse(key, span, &written),
                }
            }
            (Form::Share { most }, DeValue::Integer(_) | DeValue::Float(_)) => {
                let written = self.file.get(span.clone()).unwrap_or("").replace('_', "");
                match written.parse::<f64>().ok().filter(|number| (0.0..=most).contains(number)) {
                    Some(number) => What::Number(number),
                    None => self.refuse(key, span, &written),
                }
            }
            (Form::Quantity { .. } | Form::Density | Form::AnyQuantity, DeValue::String(text)) => {
                of_form(key, &Written::new(text, span, self.file), self.known, self.report)
            }
            (Form::Quantity { .. } | Form::Density | Form::AnyQuantity, number) if is_number(number) => {
                bare_number(key, self.file.get(span.clone()).unwrap_or(""), span, self.report);
                What::Bad
            }
            (Form::Choice(words), DeValue::String(text)) => {
                match words.iter().find(|word| **word == text.as_ref()) {
                    Some(word) => What::Text((*word).to_owned()),
                    None => self.no_choice(key, words, text, span),
                }
            }
            (Form::Point, DeValue::Array(pair)) if pair.len() == 2 => {
                let lengths = self.lengths(key, pair);
                match lengths.as_slice() {
                    [across, up] => What::Point([across.value, up.value]),
                    _ => What::Bad,
                }
            }
            (Form::Lengths, DeValue::Array(list)) => What::Lengths(self.lengths(key, list)),
            (Form::Names | Form::Conditions, DeValue::Array(list)) => self.names(key, list),
            (Form::Variation, DeValue::Array(_) | DeValue::Table(_)) => super::vary::read(self, key, value),
            (Form::Table, DeValue::Table(table)) => What::Table(self.table(table, &key.path, span)),
            (Form::List, DeValue::Array(list)) => self.list(key, list),
            (_, other) => self.wrong_form(key, other, span),
        }
    }

    fn text(&mut self, key: &Key, text: &str, span: Range<usize>) -> What {
        if text.trim().is_empty() && key.form == Form::Text {
            self.report
                .add(span, format!("`{}` is empty", key.word()))
                .mend(format!("{} = {}", key.word(), key.example))
                .by_itself();
            return What::Bad;
        }
        What::Text(text.to_owned())
    }

    fn lengths(&mut self, key: &Key, list: &DeArray<'_>) -> Vec<Given<f64>> {
        let mut lengths = Vec::new();
        for entry in list.iter() {
            match entry.get_ref() {
                DeValue::String(text) => {
                    let written = Written::new(text, entry.span(), self.file);
                    lengths.extend(length(key, &written, self.known, self.report));
                }
                number if is_number(number) => {
                    let written = self.file.get(entry.span()).unwrap_or("");
                    bare_number(key, written, entry.span(), self.report);
                }
                other => {
                    self.wrong_form(key, other, entry.span());
                }
            }
        }
        lengths
    }

    fn names(&mut self, key: &Key, list: &DeArray<'_>) -> What {
        let mut names = Vec::new();
        for entry in list.iter() {
            match entry.get_ref() {
                DeValue::String(text) => names.push(Given { value: text.to_string(), span: entry.span() }),
                other => {
                    self.wrong_form(key, other, entry.span());
                }
            }
        }
        What::Names(names)
    }

    fn list(&mut self, key: &Key, list: &DeArray<'_>) -> What {
        let path = format!("{}[]", key.path);
        let mut nodes = Vec::new();
        for entry in list.iter() {
            let span = entry.span();
            let what = match entry.get_ref() {
                DeValue::Table(table) => What::Table(self.table(table, &path, span.clone())),
                _ => {
                    self.report
                        .add(span.clone(), format!("each entry of `{}` stands in braces", key.word()))
                        .mend(format!("write it as in {} = {}", key.word(), key.example))
                        .by_itself();
                    What::Bad
                }
            };
            nodes.push(Node { key: span.clone(), span, what });
        }
        What::List(nodes)
    }

    fn no_choice(&mut self, key: &Key, words: &[&'static str], text: &str, span: Range<usize>) -> What {
        let word = key.word();
        let near = words.iter().copied().find(|known| known.eq_ignore_ascii_case(text.trim()));
        let near = near.or_else(|| key::choice_meant(word, text));
        let near = near.or_else(|| nearest(text, words.iter().copied()));
        let finding = self.report.add(span, format!("`{word}` cannot be {}", in_quotes(text)));
        let quoted: Vec<String> = words.iter().map(|word| in_quotes(word)).collect();
        finding.mend(match near {
            Some(near) => format!("did you mean {word} = {}?", in_quotes(near)),
            None => format!("it is one of {}", listed(&quoted, "and")),
        });
        finding.by_itself();
        What::Bad
    }

    fn refuse(&mut self, key: &Key, span: Range<usize>, written: &str) -> What {
        let wanted = key.form.in_words();
        self.report
            .add(span, format!("`{}` wants {wanted}; it is {}", key.word(), quoted(written)))
            .mend(format!("{} = {}", key.word(), key.example))
            .by_itself();
        What::Bad
    }

    pub(super) fn wrong_form(&mut self, key: &Key, found: &DeValue<'_>, span: Range<usize>) -> What {
        let word = key.word();
        let wanted = key.form.in_words();
        let written = self.file.get(span.clone()).unwrap_or("");
        let mend = match (key.form, found) {
            (Form::List, DeValue::Table(_)) if written.starts_with('[') => {
                format!("write the heading twice bracketed: [[{word}]]")
            }
            (Form::List, DeValue::Table(_)) => format!("put it in brackets: {word} = [{}]", quoted(written)),
            (Form::Table, DeValue::Array(_)) if written.starts_with("[[") => {
                format!("it stands once: write [{word}]")
            }
            (Form::Table, _) => format!("write a heading [{word}] and its keys under it"),
            (Form::Text | Form::Choice(_), number) if is_number(number) => {
                format!("{word} = {}", in_quotes(written))
            }
            (Form::Lengths | Form::Names | Form::Conditions, DeValue::String(text)) => {
                format!("put it in brackets: {word} = [{}]", in_quotes(text))
            }
            _ if key.example.is_empty() => format!("see `{}` on the reference page", key.path),
            _ => format!("{word} = {}", key.example),
        };
        self.report
            .add(span, format!("`{word}` wants {wanted}, not {}", found_in_words(found)))
            .mend(mend)
            .by_itself();
        What::Bad
    }
}

fn is_number(value: &DeValue<'_>) -> bool {
    matches!(value, DeValue::Integer(_) | DeValue::Float(_))
}

fn found_in_words(found: &DeValue<'_>) -> &'static str {
    match found {
        DeValue::String(_) => "a text",
        DeValue::Integer(_) | DeValue::Float(_) => "a plain number",
        DeValue::Boolean(_) => "true or false",
        DeValue::Datetime(_) => "a date",
        DeValue::Array(_) => "such a list",
        DeValue::Table(_) => "a table",
    }
}

/// What a table is called in a sentence.
pub(super) fn in_words(path: &str) -> String {
    match key::in_lesson(path) {
        "" => "the lesson".to_owned(),
        "variant[]" => "this variant".to_owned(),
        "beam.supports[]" => "this support".to_owned(),
        "beam.loads[]" => "this load".to_owned(),
        "section.parts[]" => "this part".to_owned(),
        "section.joints[]" => "this joint".to_owned(),
        "question[]" => "this question".to_owned(),
        "papers.only[]" => "this row".to_owned(),
        path if path.ends_with("holes[]") => "this hole".to_owned(),
        path if path.ends_with("outline[]") => "this side of the outline".to_owned(),
        _ => format!("[{}]", path.replace("[]", "")),
    }
}
