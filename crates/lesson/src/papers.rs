//! Papers: the lesson with one choice made for everything that varies, as a lesson of its own.

use crate::composed::{Composed, compose};
use crate::finding::{Finding, Report, Source};
use crate::lesson::{Choices, Lesson, Variation};
use crate::reading::{Reading, words::in_quotes};
use std::fmt;
use std::sync::Arc;
use toml::Spanned;
use toml::de::DeTable;

/// One choice for each thing that varies, in the order of [`Lesson::vary`], each counted from 0.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Draw {
    /// The choices.
    pub choices: Vec<usize>,
}

/// Why there is no paper of a draw.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum DrawFault {
    /// The draw has not as many choices as things vary.
    OtherCount {
        /// How many it has.
        choices: usize,
        /// How many things vary.
        varies: usize,
    },
    /// Something has fewer choices.
    NoSuchChoice {
        /// What varies.
        name: String,
        /// The choice, from 0.
        choice: usize,
        /// How many it has.
        count: usize,
    },
    /// The file is of too unusual a form to be taken apart.
    UnusualForm,
}

impl fmt::Display for DrawFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            DrawFault::OtherCount { choices, varies } => {
                write!(f, "the draw has {choices} choices, but {varies} things vary in the lesson")
            }
            DrawFault::NoSuchChoice { name, choice, count } => {
                write!(f, "{} has {count} choices, so there is no choice {}", in_quotes(name), choice + 1)
            }
            DrawFault::UnusualForm => f.write_str(
                "what varies cannot be taken out of this file; write [vary], [[variant]] and what they change under \
                 headings of their own",
            ),
        }
    }
}

impl std::error::Error for DrawFault {}

/// A lesson whose papers are to be made.
///
/// ```
/// use lesson::papers::{Draw, Papers};
///
/// let conveyor = lesson::builtin::find("conveyor").expect("a lesson of ours").text;
/// let papers = Papers::read(conveyor, "conveyor.toml").expect("a sound lesson");
/// let paper = papers.text(&Draw { choices: vec![12, 10, 0] }).expect("the thirteenth load");
/// assert!(paper.contains("w = \"16 kN/m\"") && !paper.contains("[vary]"));
/// ```
#[derive(Clone, Debug)]
pub struct Papers {
    source: Arc<Source>,
    lesson: Lesson,
}

impl Papers {
    /// Reads the lesson; `name` is what the file is called in findings.
    ///
    /// # Errors
    /// The findings, where the lesson is not sound.
    pub fn read(text: &str, name: &str) -> Result<Self, Vec<Finding>> {
        let reading = crate::read(text, name);
        match reading.lesson {
            Some(lesson) => Ok(Self { source: Arc::new(Source::new(name, text)), lesson }),
            None => Err(reading.findings),
        }
    }

    /// The lesson as the file shows it.
    pub fn lesson(&self) -> &Lesson {
        &self.lesson
    }

    /// The same, as if the file restricted its papers to no combinations: for a search among all of them.
    pub fn unrestricted(mut self) -> Self {
        self.lesson.only = None;
        self
    }

    /// The text of a paper's lesson: values fixed, nothing varies any more, all else as the lecturer wrote it.
    ///
    /// # Errors
    /// See [`DrawFault`].
    pub fn text(&self, draw: &Draw) -> Result<String, DrawFault> {
        self.composed(draw).map(Composed::into_text)
    }

    /// Reads a paper's lesson. Choices that are each sound may not be so together; what is then wrong is told at its
    /// place in the lecturer's file.
    ///
    /// # Errors
    /// See [`DrawFault`].
    pub fn reading(&self, draw: &Draw) -> Result<Reading, DrawFault> {
        let composed = self.composed(draw)?;
        let mut reading = crate::read(composed.text(), self.source.name());
        if !reading.findings.is_empty() {
            let mut report = Report::new(Arc::clone(&self.source));
            let words = self.words(draw).join(", ");
            add_all(&mut report, &composed, std::mem::take(&mut reading.findings), &words);
            reading.findings = report.into_findings();
        }
        Ok(reading)
    }

    /// The choices of a draw as the lecturer would say them: `P = 4 kN`, `the section: a T`.
    pub fn words(&self, draw: &Draw) -> Vec<String> {
        draw_in_words(&self.lesson, draw)
    }

    /// Of the choices of a draw those of variants, as the lecturer would say them: `the section: a T, the supports: overhang`; empty where
    /// the lesson has no variants.
    pub fn variant(&self, draw: &Draw) -> String {
        let of = |(axis, variation): (usize, &Variation)| {
            let is_variant = matches!(variation.choices, Choices::Variants(_));
            is_variant.then(|| words(&self.lesson, axis, *draw.choices.get(axis)?)).flatten()
        };
        self.lesson.vary.iter().enumerate().filter_map(of).collect::<Vec<_>>().join(", ")
    }

    fn composed(&self, draw: &Draw) -> Result<Composed, DrawFault> {
        let (choices, varies) = (draw.choices.len(), self.lesson.vary.len());
        if choices != varies {
            return Err(DrawFault::OtherCount { choices, varies });
        }
        for (variation, &choice) in self.lesson.vary.iter().zip(&draw.choices) {
            let count = variation.count();
            if choice >= count {
                return Err(DrawFault::NoSuchChoice { name: variation.name.clone(), choice, count });
            }
        }
        let table = DeTable::parse(self.source.text()).map_err(|_| DrawFault::UnusualForm)?;
        compose(self.source.text(), table.get_ref(), &self.lesson, |axis| draw.choices.get(axis).copied())
            .ok_or(DrawFault::UnusualForm)
    }
}

fn draw_in_words(lesson: &Lesson, draw: &Draw) -> Vec<String> {
    let choices = draw.choices.iter().enumerate();
    choices.filter_map(|(axis, &choice)| words(lesson, axis, choice)).collect()
}

/// A choice as the lecturer would say it.
fn words(lesson: &Lesson, axis: usize, choice: usize) -> Option<String> {
    let variation = lesson.vary.get(axis)?;
    let said = variation.words(choice)?;
    Some(match variation.choices {
        Choices::Values(_) => format!("{} = {said}", variation.name),
        Choices::Variants(_) => format!("{}: {said}", variation.name),
    })
}

/// Findings of a composed text, told at their places in the file.
fn add_all(report: &mut Report, composed: &Composed, findings: Vec<Finding>, words: &str) {
    for finding in findings {
        let place = composed.origin(&finding.span);
        let detail = match finding.detail {
            Some(detail) => format!("{detail} (with {words})"),
            None => format!("with {words}"),
        };
        let told = report.add(place, finding.headline).detail(detail);
        if let Some(mend) = finding.mend {
            told.mend(mend);
        }
    }
}

/// The most rows of `only` that are each read when the lesson is: reading one takes a good half of a millisecond.
const MOST_ROWS_READ: usize = 200;

/// Reads the lesson with each variant alone, and with the least and the greatest of the values of each name; and with each
/// of the only combinations that papers may have. What is wrong with one of them is told before a paper is drawn.
pub(crate) fn check_choices(
    source: &Source,
    table: &Spanned<DeTable<'_>>,
    lesson: &Lesson,
    report: &mut Report,
) {
    for (axis, variation) in lesson.vary.iter().enumerate() {
        let choices = match &variation.choices {
            Choices::Variants(variants) => (0..variants.len()).collect(),
            Choices::Values(values) => {
                let value = |&at: &usize| values.get(at).map_or(0.0, |choice| choice.quantity.value);
                let by_value = |a: &usize, b: &usize| value(a).total_cmp(&value(b));
                let (least, most) = ((0..values.len()).min_by(by_value), (0..values.len()).max_by(by_value));
                least.into_iter().chain(most).collect::<Vec<_>>()
            }
        };
        for choice in choices {
            let only = |other: usize| (other == axis).then_some(choice);
            let said = words(lesson, axis, choice).unwrap_or_default();
            if !check_choice(source, table, lesson, only, &said, report) {
                return;
            }
        }
    }
    if !report.is_empty() {
        return;
    }
    for draw in lesson.only.iter().flatten().take(MOST_ROWS_READ) {
        let said = draw_in_words(lesson, draw).join(", ");
        check_choice(source, table, lesson, |axis| draw.choices.get(axis).copied(), &said, report);
    }
}

/// Reads the lesson with a choice made for some of what varies, said in words; whether that could be done.
fn check_choice(
    source: &Source,
    table: &Spanned<DeTable<'_>>,
    lesson: &Lesson,
    chosen: impl Fn(usize) -> Option<usize>,
    said: &str,
    report: &mut Report,
) -> bool {
    let Some(composed) = compose(source.text(), table.get_ref(), lesson, chosen) else {
        report.add(source.first_line(), DrawFault::UnusualForm.to_string());
        return false;
    };
    let findings = crate::read(composed.text(), "").findings;
    if !findings.is_empty() {
        add_all(report, &composed, findings, said);
    }
    true
}
