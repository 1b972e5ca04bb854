//! Variants of one thing: what they are called, and that no two things are exchanged at one place.

use super::node::Table;
use super::words::{in_quotes, listed};
use crate::finding::Report;
use crate::key::EXCHANGED;
use crate::lesson::{Choices, VariantChoice, Variation};
use std::ops::Range;

/// The variants of one thing.
struct Thing<'a> {
    of: &'a str,
    place: Range<usize>,
    variants: Vec<VariantChoice>,
    /// The paths that its variants give, each with the place of the first that does.
    gives: Vec<(&'static str, Range<usize>)>,
}

/// What has variants, in the order of the file; `values` are the named values that vary.
pub(super) fn read(lesson: &Table, values: &[Variation], report: &mut Report) -> Vec<Variation> {
    let mut things: Vec<Thing<'_>> = Vec::new();
    for (index, entry) in lesson.tables("variant").enumerate() {
        let (Some(of), Some(name)) = (entry.text("of"), entry.text("name")) else { continue };
        let (of, place, name) = (of.value.trim(), of.span, name);
        let known = things.iter().position(|thing| thing.of == of);
        let at = known.unwrap_or_else(|| {
            things.push(Thing { of, place, variants: Vec::new(), gives: Vec::new() });
            things.len() - 1
        });
        let Some(thing) = things.get_mut(at) else { continue };
        let called = name.value.trim();
        if thing.variants.iter().any(|variant| variant.name == called) {
            let headline = format!("two variants of {} are called {}", in_quotes(of), in_quotes(called));
            report.add(name.span, headline).mend("give each a name of its own");
        }
        thing.variants.push(VariantChoice { name: called.to_owned(), index });
        for (path, place) in given(entry) {
            if thing.gives.iter().all(|(known, _)| *known != path) {
                thing.gives.push((path, place));
            }
        }
    }
    tell(&things, values, report);
    let variation = |thing: Thing<'_>| Variation {
        name: thing.of.to_owned(),
        choices: Choices::Variants(thing.variants),
    };
    things.into_iter().filter(|thing| thing.variants.len() > 1).map(variation).collect()
}

/// What a variant gives, by the paths at which the lesson has it.
fn given(entry: &Table) -> impl Iterator<Item = (&'static str, Range<usize>)> + '_ {
    EXCHANGED.into_iter().filter_map(move |path| {
        let (table, word) = match path.split_once('.') {
            Some((heading, word)) => (entry.table(heading)?, word),
            None => (entry, path),
        };
        table.get(word).map(|node| (path, node.key.clone()))
    })
}

fn tell(things: &[Thing<'_>], values: &[Variation], report: &mut Report) {
    for (at, thing) in things.iter().enumerate() {
        let of = in_quotes(thing.of);
        if thing.variants.len() < 2 {
            report.add(thing.place.clone(), format!("nothing varies here: only one variant of {of}")).mend(
                "add another [[variant]] of it; one with nothing but a name stands for the lesson as it is",
            );
        }
        if values.iter().any(|value| value.name == thing.of) {
            report
                .add(thing.place.clone(), format!("{of} varies under [vary] already"))
                .mend("say in other words what these are variants of");
        }
        for (path, place) in &thing.gives {
            let other =
                things[..at].iter().find(|other| other.gives.iter().any(|(theirs, _)| theirs == path));
            if let Some(other) = other {
                let both = [in_quotes(other.of), of.clone()];
                let word = path.rsplit('.').next().unwrap_or(path);
                report
                    .add(place.clone(), format!("variants of {} both give `{word}`", listed(&both, "and")))
                    .mend("let those of one thing give it, and take it out of the others");
            }
        }
    }
}
