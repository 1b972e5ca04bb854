//! A paper to practise with on the page: its own numbers, answers that are looked at one by one, and hints.
//!
//! Answers are read and judged by the same crates that read and judge those of an exam; what is said of them is what the feedback
//! on a marked paper says.

use assessment::issue::practice_paper;
use assessment::mark::{Marker, Units};
use assessment::set::{Ask, Part, SetPaper};
use document::feedback::{Sheet, checked};
use document::html::{escaped, fragment, fragment_with_drawings};
use document::paper::{hints, part_title, place_to_answer, question, what_is_given};
use exchange::answers::{AskedOn, Habit, Mark, PaperAsked, typed};
use lesson::papers::Papers;
use serde::Serialize;
use std::fmt::Write as _;
use workings::style::DecimalMark;

/// A practice paper.
#[derive(Clone, Debug)]
pub struct Practice {
    number: u32,
    set: SetPaper,
}

/// What the page shows.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Told {
    /// As HTML.
    pub html: String,
    /// What was found of an answer, in a word of [`assessment::mark::Verdict::word`]; empty where none was looked at.
    pub verdict: &'static str,
    /// Whether there is another hint after this one.
    pub more: bool,
}

impl Told {
    fn of(html: String) -> Self {
        Self { html, verdict: "", more: false }
    }
}

impl Practice {
    /// The practice paper of a number for this lesson.
    ///
    /// # Errors
    /// Why there is none, in a sentence.
    pub fn new(text: &str, number: u32) -> Result<Self, String> {
        let papers = Papers::read(text, "the lesson").map_err(|findings| {
            findings.into_iter().next().map(|finding| finding.headline).unwrap_or_default()
        })?;
        let set = practice_paper(&papers, number).map_err(|why| why.to_string())?;
        Ok(Self { number, set })
    }

    /// The paper: what is given, and each question with places for its answers.
    pub fn paper(&self) -> Told {
        let style = self.set.solved.style();
        let mut out = format!(
            "<h3 tabindex=\"-1\" id=\"practice-title\">Practice paper {}</h3>\n{}",
            self.number,
            fragment_with_drawings(&what_is_given(&self.set), style, "practice-given-")
        );
        for place in 0..self.set.questions.len() {
            let Some((title, wording)) = question(&self.set, place) else { continue };
            let _ = writeln!(
                out,
                "<section class=\"asked\">\n<h4>{}</h4>\n{}",
                escaped(&title),
                fragment(&wording, style)
            );
            self.set.questions[place].parts.iter().for_each(|part| self.push_part(&mut out, part));
            out.push_str("</section>\n");
        }
        Told::of(out)
    }

    fn push_part(&self, out: &mut String, part: &Part) {
        let title = escaped(&part_title(&self.set, part));
        let label = escaped(&part.label);
        let place = place_to_answer(&self.set, part);
        let _ = write!(
            out,
            "<form class=\"part\" data-part=\"{label}\" aria-label=\"{title}\">\n<p class=\"part-title\">{title}</p>\n{}\
             <p class=\"part-buttons\">",
            fragment_with_drawings(&place, self.set.solved.style(), &format!("practice-{label}-"))
        );
        if matches!(part.ask, Ask::Sketch { .. }) {
            let _ = write!(
                out,
                "<button type=\"button\" data-hint=\"0\">Show the drawing<span class=\"unseen\"> of {title}</span></button>"
            );
        } else {
            let _ = write!(
                out,
                "<button type=\"submit\">Check<span class=\"unseen\"> {title}</span></button> \
                 <button type=\"button\" data-hint=\"0\">A hint<span class=\"unseen\"> for {title}</span></button>"
            );
        }
        out.push_str(
            "</p>\n<div class=\"found\" role=\"status\"></div>\n<ol class=\"hints\" role=\"list\"></ol>\n</form>\n",
        );
    }

    /// What is to be said of the answer to a part; none where the paper has no such part.
    pub fn check(&self, label: &str, texts: &[String]) -> Option<Told> {
        let (set, style) = (&self.set, self.set.solved.style());
        let decimal = match style.decimal_mark {
            DecimalMark::Point => Mark::Point,
            DecimalMark::Comma => Mark::Comma,
        };
        let habit = Habit { printed: decimal, ..Habit::default() };
        let asked = PaperAsked::of(set, "", "", AskedOn::Paper);
        let texts: Vec<&str> = texts.iter().map(String::as_str).collect();
        let read = typed(&asked, &texts, habit);
        let written: Vec<String> = read.iter().map(|answer| answer.raw.clone()).collect();
        let answers: Vec<_> = read.iter().map(|answer| (answer.part.clone(), answer.for_marking())).collect();
        let units = Units::default();
        let marked = Marker::new(set).ok()?.in_units(units).mark(&answers).ok()?;
        let verdict = marked.part(label)?.verdict.word();
        let sheet = Sheet {
            paper: set,
            handed_in: true,
            written: &written,
            answers: &answers,
            marked: &marked,
            units,
        };
        let html =
            fragment_with_drawings(&checked(&sheet, label), style, &format!("practice-{label}-found-"));
        Some(Told { html, verdict, more: false })
    }

    /// A hint to a part, the first being 0; none where there is no such part or no such hint.
    pub fn hint(&self, label: &str, place: usize) -> Option<Told> {
        let part = self.set.parts().find(|part| part.label == label)?;
        let all = hints(&self.set, part);
        let scope = format!("practice-{label}-hint-{place}-");
        let html = fragment_with_drawings(all.get(place)?, self.set.solved.style(), &scope);
        Some(Told { html, verdict: "", more: place + 1 < all.len() })
    }
}
