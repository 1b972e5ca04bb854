//! The rows of `only` under `[papers]`: each names one choice for everything that varies.

use super::node::{Node, Table};
use super::quantity::Known;
use super::words::{in_quotes, listed, quoted};
use crate::edit::written_key;
use crate::finding::Report;
use crate::lesson::{Choices, ValueChoice, Variation};
use crate::papers::Draw;
use std::collections::HashMap;
use workings::quantity::Quantity;
use workings::reading::{nearest, parse};

/// Two quantities this near (of the larger) are one choice: `0.1 kN` and `100 N` may differ in the last bit.
const SAME: f64 = 1e-12;

/// The draws that papers may have, with no row twice; `None` where the lesson says nothing of it, or what it says is
/// wrong, which is reported.
pub(super) fn read(
    lesson: &Table,
    variations: &[Variation],
    known: &Known,
    report: &mut Report,
) -> Option<Vec<Draw>> {
    let papers = lesson.table("papers")?;
    let node = papers.get("only")?;
    if !papers.lists_tables("only") {
        return None;
    }
    // What varies was itself refused: its rows cannot be held against it.
    let mut meant = lesson.table("vary").into_iter().flat_map(Table::iter).map(|(name, _)| name);
    if meant.any(|name| !variations.iter().any(|variation| variation.name == name)) {
        return None;
    }
    if variations.is_empty() {
        report
            .add(node.key.clone(), "`only` names choices, but nothing varies in this lesson")
            .mend("take it out, or say under [vary] what may change");
        return None;
    }
    let mut rows: HashMap<Draw, usize> = HashMap::new();
    let mut draws = Vec::new();
    for (at, row) in papers.tables("only").enumerate() {
        let reader = Reader { variations, known, report };
        let Some(draw) = reader.row(row) else { continue };
        if let Some(first) = rows.get(&draw) {
            report
                .add(row.span.clone(), format!("this row says the same as row {}", first + 1))
                .mend("take it out");
            continue;
        }
        rows.insert(draw.clone(), at);
        draws.push(draw);
    }
    if papers.tables("only").next().is_none() {
        report
            .add(node.span.clone(), "`only` is empty, so no paper could be drawn")
            .mend(format!("take it out, or give a row such as only = [{}]", example(variations)));
    }
    (!draws.is_empty()).then_some(draws)
}

struct Reader<'a> {
    variations: &'a [Variation],
    known: &'a Known,
    report: &'a mut Report,
}

impl Reader<'_> {
    fn row(self, row: &Table) -> Option<Draw> {
        for (name, node) in row.iter() {
            if !self.variations.iter().any(|variation| variation.name == name) {
                tell_unvaried(name, node, self.variations, self.report);
                return None;
            }
        }
        let missing: Vec<&Variation> =
            self.variations.iter().filter(|variation| !row.has(&variation.name)).collect();
        if let Some(first) = missing.first() {
            let names: Vec<String> =
                missing.iter().map(|missing| format!("`{}`", quoted(&missing.name))).collect();
            self.report
                .add(row.span.clone(), format!("this row says nothing of {}", listed(&names, "and")))
                .mend(format!("give it one of its choices, such as {}", given(first, 0)));
            return None;
        }
        let mut choices = Vec::new();
        for variation in self.variations {
            // A text that was refused for its form has been told.
            let said = row.text(&variation.name)?;
            match choice(variation, said.value, self.known) {
                Some(choice) => choices.push(choice),
                None => {
                    let headline = format!(
                        "{} is none of the choices of `{}`",
                        in_quotes(said.value),
                        quoted(&variation.name)
                    );
                    let mend = offered(variation, said.value, self.known);
                    self.report.add(said.span, headline).mend(mend);
                    return None;
                }
            }
        }
        Some(Draw { choices })
    }
}

/// Which choice is meant: the one that is written so, or else one of the same value.
fn choice(variation: &Variation, said: &str, known: &Known) -> Option<usize> {
    let said = said.trim();
    if let Some(choice) = (0..variation.count()).find(|&choice| variation.words(choice) == Some(said)) {
        return Some(choice);
    }
    let Choices::Values(values) = &variation.choices else { return None };
    let wanted = value(said, known)?;
    values.iter().position(|value| {
        let found = value.quantity;
        let slack = SAME * found.value.abs().max(wanted.value.abs());
        found.dimension == wanted.dimension && (found.value - wanted.value).abs() <= slack
    })
}

fn value(said: &str, known: &Known) -> Option<Quantity> {
    parse(said).ok()?.evaluate(&known.names).ok()
}

/// The choices that a wrong one may have been meant for.
fn offered(variation: &Variation, said: &str, known: &Known) -> String {
    // More than these are not looked over.
    const FEW: usize = 6;
    let words = || (0..variation.count()).filter_map(|choice| variation.words(choice));
    let near: Option<&str> = match &variation.choices {
        Choices::Variants(_) => nearest(said, words()),
        Choices::Values(values) => value(said, known).and_then(|wanted| {
            let distance = |choice: &ValueChoice| (choice.quantity.value - wanted.value).abs();
            let alike = values.iter().filter(|choice| choice.quantity.dimension == wanted.dimension);
            let nearest = alike.min_by(|a, b| distance(a).total_cmp(&distance(b)));
            nearest.map(|choice| choice.written.as_str())
        }),
    };
    let all: Vec<String> = words().map(in_quotes).collect();
    match near {
        Some(near) if all.len() > FEW => format!("the nearest of them is {}", in_quotes(near)),
        _ if all.len() > FEW => {
            let (first, last) =
                (all.first().cloned().unwrap_or_default(), all.last().cloned().unwrap_or_default());
            format!("they go from {first} to {last}")
        }
        _ => format!("it is one of {}", listed(&all, "and")),
    }
}

fn tell_unvaried(name: &str, node: &Node, variations: &[Variation], report: &mut Report) {
    let names: Vec<&str> = variations.iter().map(|variation| variation.name.as_str()).collect();
    let mend = match nearest(name, names.iter().copied()) {
        Some(near) => format!("did you mean `{}`?", quoted(near)),
        None => {
            let names: Vec<String> = names.iter().map(|name| format!("`{}`", quoted(name))).collect();
            format!("what varies is {}", listed(&names, "and"))
        }
    };
    report.add(node.key.clone(), format!("`{}` does not vary", quoted(name))).mend(mend);
}

/// A row as it would be written.
fn example(variations: &[Variation]) -> String {
    let given: Vec<String> = variations.iter().map(|variation| given(variation, 0)).collect();
    format!("{{ {} }}", given.join(", "))
}

fn given(variation: &Variation, choice: usize) -> String {
    format!("{} = {}", written_key(&variation.name), in_quotes(variation.words(choice).unwrap_or_default()))
}
