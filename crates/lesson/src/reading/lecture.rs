//! The lecturer's own words and the questions.

use super::node::Table;
use super::words::in_quotes;
use crate::finding::Report;
use crate::lesson::{About, Question, Scene, Texts, When};

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

pub(super) fn questions(lesson: &Table) -> Vec<Question> {
    let read = |entry: &Table| {
        Some(Question {
            ask: entry.text("ask")?.value.trim().to_owned(),
            text: entry.owned_text("text"),
            marks: entry.number("marks").unwrap_or(1.0),
        })
    };
    lesson.tables("question").filter_map(read).collect()
}
