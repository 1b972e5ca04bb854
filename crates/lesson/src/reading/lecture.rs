//! The lecturer's own words, and whether the solved lesson has what the file speaks of.

use super::node::Table;
use super::words::{in_quotes, quoted};
use super::{questions, require};
use crate::finding::{Report, Source};
use crate::lesson::{About, Lesson, Scene, Texts, When};
use workings::reading::nearest;
use workings::solved::Solved;

pub(super) fn about(lesson: &Table, report: &mut Report) -> About {
    let language = lesson.text("language");
    if let Some(given) = language.as_ref().filter(|given| !is_language_tag(given.value)) {
        report
            .add(given.span.clone(), format!("{} is no language tag", in_quotes(given.value)))
            .mend("write one such as \"en\", \"en-GB\" or \"de\"")
            .by_itself();
    }
    About {
        title: lesson.owned_text("title").unwrap_or_default(),
        course: lesson.owned_text("course"),
        lecturer: lesson.owned_text("lecturer"),
        teaches: lesson.owned_text("teaches"),
        language: language.map_or_else(|| "en".to_owned(), |given| given.value.to_owned()),
    }
}

/// Whether a text has the form of a BCP 47 tag: a language of two or three letters (or up to eight), then
/// subtags of one to eight letters or digits. Source: RFC 5646, section 2.1, without its grandfathered tags.
fn is_language_tag(text: &str) -> bool {
    let mut subtags = text.split('-');
    let language = subtags.next().unwrap_or("");
    let fits = |subtag: &str, least: usize| (least..=8).contains(&subtag.len());
    fits(language, 2)
        && language.bytes().all(|byte| byte.is_ascii_alphabetic())
        && subtags.all(|subtag| fits(subtag, 1) && subtag.bytes().all(|byte| byte.is_ascii_alphanumeric()))
}

pub(super) fn texts(lesson: &Table) -> Texts {
    let mut texts = Texts::default();
    let Some(table) = lesson.table("text") else { return texts };
    for scene in Scene::ALL {
        for (when, word) in [(When::Before, "before"), (When::After, "after")] {
            if let Some(text) =
                table.text(&format!("{word}-{}", scene.word())).filter(|text| !text.value.trim().is_empty())
            {
                texts.insert(scene, when, text.value.to_owned());
            }
        }
    }
    texts
}

/// The lesson solved, where it can be; whether it has the workings that its questions ask for.
pub(super) fn answers(
    lesson: &Lesson,
    table: &Table,
    source: &Source,
    report: &mut Report,
) -> Option<Solved> {
    let solved = match Solved::new(lesson.problem.clone(), lesson.style.clone()) {
        Ok(solved) => solved,
        Err(faults) => {
            let ours = faults.iter().find(|fault| fault.is_ours());
            let place = table.table("beam").map_or_else(|| source.first_line(), |beam| beam.span.clone());
            match ours {
                Some(fault) => report
                    .add(place, format!("this lesson cannot be computed: {}", quoted(&fault.to_string())))
                    .mend("this is a mistake of the program, not of yours; please report it with this file"),
                None => report
                    .add(place, "the numbers of this lesson are too large or too small to compute with")
                    .mend("check the units"),
            };
            return None;
        }
    };
    questions::answers(lesson, table, &solved, report);
    let near = |name: &str| meant(name, &solved).map(str::to_owned);
    require::answers(&lesson.requirements, table, &solved, report, near);
    Some(solved)
}

/// The working that was probably meant: of nearly this name, of this symbol, or of the most words in common.
pub(super) fn meant<'a>(ask: &str, solved: &'a Solved) -> Option<&'a str> {
    let workings = solved.workings();
    let names = || workings.iter().map(|(_, working)| working.name.as_str());
    let ours = |word: &str| match word {
        "max" | "maximum" | "greatest" | "peak" => "largest".to_owned(),
        "thickness" => "width".to_owned(),
        other => other.to_owned(),
    };
    let asked = ask.to_lowercase().replace('-', " ").replace("moment of inertia", "second moment");
    let asked = asked.split_whitespace().map(ours).collect::<Vec<_>>().join(" ");
    let of_symbol = || {
        let written = ask.replace('\'', "\u{2032}");
        workings.iter().find_map(|(_, working)| {
            let symbol = solved.style().symbol(&working.symbol);
            (symbol.plain() == written || symbol.spoken == ask).then_some(working.name.as_str())
        })
    };
    nearest(&asked, names())
        .or_else(of_symbol)
        .or_else(|| names().find(|name| name.contains(&asked)))
        .or_else(|| of_most_words(&asked, names()))
}

/// The name that shares the most words with what was asked, at least half of them; of equals the shortest.
fn of_most_words<'a>(asked: &str, names: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    const SMALL: [&str; 6] = ["the", "of", "at", "on", "in", "a"];
    let words: Vec<&str> = asked.split_whitespace().filter(|word| !SMALL.contains(word)).collect();
    // The largest bending moments are named by the way they bend.
    let same =
        |one: &str, other: &str| one == other || (one == "bending" && matches!(other, "sagging" | "hogging"));
    let shared = |name: &str| {
        words.iter().filter(|word| name.split_whitespace().any(|other| same(word, other))).count()
    };
    names
        .filter(|name| shared(name) > 0 && 2 * shared(name) >= words.len())
        .min_by_key(|name| (std::cmp::Reverse(shared(name)), name.len()))
}
