//! A paper to practise with on the page: its own numbers, answers that are looked at one by one, and hints.
//!
//! Answers are read and judged by the same crates that read and judge those of an exam; what is said of them is what the feedback
//! on a marked paper says.

use crate::prospect::papers_of;
use assessment::issue::practice_paper;
use assessment::mark::{Marker, Units};
use assessment::set::{Ask, Part, SetPaper};
use assessment::space::Space;
use document::feedback::{Sheet, checked};
use document::html::{escaped, fragment, fragment_with_drawings};
use document::paper::{hints, part_title, place_to_answer, question, what_is_given};
use exchange::answers::{Answer, AskedOn, Habit, Mark, PaperAsked, typed};
use serde::Serialize;
use std::fmt::Write as _;
use workings::style::DecimalMark;

/// A practice paper.
#[derive(Clone, Debug)]
pub struct Practice {
    /// What it is called.
    title: String,
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
        let papers = papers_of(text)?;
        let set = practice_paper(&papers, number).map_err(|why| why.to_string())?;
        let title = match Space::of(papers.lesson()).size().count {
            1 => "The questions of this lesson".to_owned(),
            _ => format!("Practice paper {number}"),
        };
        Ok(Self { title, set })
    }

    /// The paper: what is given, and each question with places for its answers.
    pub fn paper(&self) -> Told {
        let style = self.set.solved.style();
        let mut out = format!(
            "<h3 tabindex=\"-1\" id=\"practice-title\">{}</h3>\n{}",
            self.title,
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
        let unclear: Vec<String> = read.iter().map(Answer::doubt).collect();
        let written: Vec<String> = read.iter().map(|answer| answer.raw.clone()).collect();
        let answers: Vec<_> = read.iter().map(|answer| (answer.part.clone(), answer.for_marking())).collect();
        let units = Units::default();
        let marked = Marker::new(set).ok()?.in_units(units).mark(&answers).ok()?;
        let verdict = marked.part(label)?.verdict.word();
        let sheet = Sheet {
            paper: set,
            handed_in: true,
            unclear: &unclear,
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

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test that cannot go on stops")]

    use super::Practice;
    use assessment::set::{Ask, ValuePart};

    fn practice(number: u32) -> Practice {
        Practice::new(lesson::builtin::find("conveyor").unwrap().text, number).unwrap()
    }

    /// The first value of the paper that a working of this name asks for, with its place among the parts.
    fn value<'a>(practice: &'a Practice, working: &str) -> (usize, &'a str, &'a ValuePart) {
        let parts = practice.set.parts().enumerate();
        let mut values = parts.filter_map(|(at, part)| match &part.ask {
            Ask::Value(value) if value.working == working => Some((at, part.label.as_str(), value)),
            _ => None,
        });
        values.next().unwrap()
    }

    /// Everything blank but one.
    fn only(practice: &Practice, at: usize, text: String) -> Vec<String> {
        let mut texts = vec![String::new(); practice.set.parts().count()];
        texts[at] = text;
        texts
    }

    #[test]
    fn the_right_answer_is_right_in_any_unit_and_its_sign_matters() {
        let practice = practice(3);
        let (at, label, value) = value(&practice, "reaction at A");
        for (text, verdict) in [
            (format!("{} N", value.right), "right"),
            (format!("{} kN", value.right / 1e3), "right"),
            (format!("-{} N", value.right), "slip"),
            ("12 kN and a bit".to_owned(), "by-hand"),
            (String::new(), "blank"),
        ] {
            let told = practice.check(label, &only(&practice, at, text.clone())).unwrap();
            assert_eq!(told.verdict, verdict, "{text}: {}", told.html);
            assert!(!told.html.is_empty());
            assert_eq!(told.html.contains("This is not clear: "), verdict == "by-hand", "{}", told.html);
        }
    }

    #[test]
    fn a_known_mistake_is_named_with_the_drawing_that_shows_why() {
        let practice = practice(3);
        let (at, label, value) = value(&practice, "shear stress on the cut");
        let mut named = 0;
        for known in &value.mistakes {
            let told = practice.check(label, &only(&practice, at, format!("{} Pa", known.value))).unwrap();
            named += usize::from(told.verdict == "mistake" && told.html.contains("<svg"));
        }
        assert!(named >= 3, "{named} of {}", value.mistakes.len());
    }

    /// What is shown before anybody asks for a hint holds no right value; each hint says more, and the last one works it out.
    #[test]
    fn the_paper_keeps_its_answers_back_until_the_last_hint() {
        let practice = practice(3);
        let (_, label, value) = value(&practice, "second moment");
        let style = practice.set.solved.style();
        let working = practice.set.solved.workings().get("second moment").unwrap();
        let digits = style.show(working.value, value.symbol.role).digits;
        assert!(digits.len() > 2 && !practice.paper().html.contains(&digits));
        let mut place = 0;
        while let Some(told) = practice.hint(label, place) {
            assert_eq!(told.html.contains(&digits), !told.more, "hint {place}: {}", told.html);
            place += 1;
        }
        assert!(place >= 3, "{place} hints");
    }

    #[test]
    fn what_there_is_not_is_refused() {
        let practice = practice(1);
        assert_eq!(practice.check("99", &[]), None);
        assert_eq!(practice.hint("99", 0), None);
        assert!(Practice::new("no lesson", 1).is_err());
        let hostile: Vec<String> = vec!["<script>alert(1)</script>".repeat(1000); 40];
        let label = practice.set.parts().next().unwrap().label.clone();
        assert!(!practice.check(&label, &hostile).unwrap().html.contains("<script"));
    }
}
