//! The results of the workings as HTML, kept from one state of the board to the next.
//!
//! While something is dragged most equations stay as they are, and to print one costs far more than to see that it is the
//! same.

use crate::blocks::{Blocks, Splice};
use document::Room;
use document::html::fragment;
use document::notes::said_of;
use document::tree::{Block, Equation};
use std::collections::BTreeMap;
use workings::expression::Expression;
use workings::solved::Solved;
use workings::style::Style;
use workings::working::{Chapter, Id, Working};

/// The equations that were printed last, chapter by chapter, each with its HTML.
#[derive(Clone, Debug, Default)]
pub struct Results {
    printed: BTreeMap<Chapter, Printed>,
    /// Whether they are printed for the window of a phone.
    narrow: bool,
}

/// A chapter as it was printed last.
#[derive(Clone, Debug, Default)]
struct Printed {
    style: Style,
    narrow: bool,
    lines: Vec<Line>,
}

/// One working of a chapter.
#[derive(Clone, Debug)]
struct Line {
    equation: Expression,
    /// The sentence that stands before it; empty where the equation stands alone.
    sentence: String,
    html: String,
}

impl Line {
    /// Whether it would be printed alike.
    fn is_of(&self, (equation, sentence): &(Expression, String)) -> bool {
        self.equation == *equation && self.sentence == *sentence
    }
}

/// Whether the workings of a chapter are told in words as well: those of which no drawing of the sheet shows how they come
/// about.
fn is_told(chapter: Chapter) -> bool {
    chapter == Chapter::Point
}

impl Results {
    /// Prints for a narrow window from now on, or for a usual one.
    pub fn print_narrow(&mut self, narrow: bool) {
        self.narrow = narrow;
    }

    /// The workings of a chapter: each in symbols, with numbers, and its result.
    pub fn all(&mut self, chapter: Chapter, solved: &Solved) -> String {
        self.changes(chapter, solved, |_| true);
        self.printed.get(&chapter).map(|printed| html(&printed.lines)).unwrap_or_default()
    }

    /// What is another now than when the chapter was printed last. An equation that is not `wanted`, told by its place,
    /// stays in its last state, unless there are more of them now, or fewer, or the course writes them in another way.
    pub fn changes(&mut self, chapter: Chapter, solved: &Solved, wanted: impl Fn(usize) -> bool) -> Blocks {
        let (workings, style) = (solved.workings(), solved.style());
        let ids: Vec<(Id, &Working)> = workings.chapter(chapter).collect();
        let sentence =
            |working: &Working| if is_told(chapter) { working.sentence.clone() } else { String::new() };
        let now: Vec<(Expression, String)> =
            ids.iter().map(|&(id, working)| (workings.equation(id), sentence(working))).collect();
        let narrow = self.narrow;
        let line = |place: usize| line(ids[place].1, &now[place], style, narrow);
        let before = self.printed.entry(chapter).or_default();
        if before.style != *style || before.narrow != narrow {
            let lines: Vec<_> = (0..now.len()).map(line).collect();
            let all = Splice(0, before.lines.len(), html(&lines));
            *before = Printed { style: style.clone(), narrow, lines };
            return Blocks { exchanged: vec![all], ..Blocks::default() };
        }
        let before = &mut before.lines;
        if before.len() == now.len() {
            let mut others = Blocks::default();
            for (place, was) in before.iter_mut().enumerate() {
                if wanted(place) && !was.is_of(&now[place]) {
                    let is = line(place);
                    others.note(place, was.html.trim_end(), is.html.trim_end());
                    *was = is;
                }
            }
            return others;
        }
        let start = before.iter().zip(&now).take_while(|(line, now)| line.is_of(now)).count();
        let ends = before[start..].iter().rev().zip(now[start..].iter().rev());
        let end = ends.take_while(|(line, now)| line.is_of(now)).count();
        let between = start..before.len() - end;
        let lines: Vec<_> = (start..now.len() - end)
            .map(|place| match before[between.clone()].iter().find(|line| line.is_of(&now[place])) {
                Some(same) => same.clone(),
                None => line(place),
            })
            .collect();
        let splice = Splice(start, between.len(), html(&lines));
        before.splice(between, lines);
        Blocks { exchanged: vec![splice], ..Blocks::default() }
    }
}

fn line(working: &Working, (equation, sentence): &(Expression, String), style: &Style, narrow: bool) -> Line {
    let html = if sentence.is_empty() {
        printed(equation, style, narrow)
    } else {
        // One block a line: what the page exchanges.
        let words = fragment(&[said_of(working, style)], style);
        format!(
            "<div class=\"told\">{}{}</div>\n",
            words.trim_end(),
            printed(equation, style, narrow).trim_end()
        )
    };
    Line { equation: equation.clone(), sentence: sentence.clone(), html }
}

fn html(lines: &[Line]) -> String {
    lines.iter().map(|line| line.html.as_str()).collect()
}

/// An equation as HTML, broken into lines where it is long.
pub(crate) fn printed(equation: &Expression, style: &Style, narrow: bool) -> String {
    let room = if narrow { Room::HAND } else { Room::PAGE };
    fragment(&[Block::Equation(Equation::aligned_within([equation], style, room))], style)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test that cannot go on stops")]

    use super::Results;
    use crate::blocks::Rewording;
    use crate::difference::Change;
    use workings::solved::Solved;
    use workings::working::Chapter;

    fn solved(change: impl Fn(&str) -> String) -> Solved {
        let lesson = lesson::builtin::ALL.iter().find(|lesson| lesson.name == "porch-beam").unwrap();
        lesson::read(&change(lesson.text), "porch-beam").solved.unwrap()
    }

    /// The slice further along the beam.
    fn further(text: &str) -> String {
        text.replacen("at = \"2 ft 6 in\"", "at = \"2 ft 9 in\"", 1)
    }

    /// What a page holds after the changes, as the page carries them out.
    fn followed(page: &str, results: &mut Results, now: &Solved, wanted: impl Fn(usize) -> bool) -> String {
        let mut lines: Vec<String> = page.lines().map(|line| format!("{line}\n")).collect();
        let changes = results.changes(Chapter::Shear, now, wanted);
        for Rewording(place, changes) in changes.reworded {
            lines[place] = reworded(&lines[place], changes);
        }
        for splice in changes.exchanged.into_iter().rev() {
            let new = splice.2.lines().map(|line| format!("{line}\n"));
            lines.splice(splice.0..splice.0 + splice.1, new.collect::<Vec<_>>());
        }
        lines.concat()
    }

    /// A line whose elements are set as a page sets them.
    fn reworded(line: &str, changes: Vec<Change>) -> String {
        let mut tags: Vec<String> = line.split('<').map(str::to_owned).collect();
        let starts: Vec<usize> = (1..tags.len()).filter(|place| !tags[*place].starts_with('/')).collect();
        for change in changes {
            let (place, exchanged) = match change {
                Change::Attribute(place, key, value) => {
                    let tag = &tags[starts[place]];
                    let (before, rest) = tag.split_once(&format!(" {key}=\"")).unwrap();
                    let (_, after) = rest.split_once('"').unwrap();
                    let value = value.replace('&', "&amp;").replace('<', "&lt;");
                    (place, format!("{before} {key}=\"{value}\"{after}"))
                }
                Change::Inside(place, words) => {
                    let (tag, _) = tags[starts[place]].split_once('>').unwrap();
                    (place, format!("{tag}>{words}"))
                }
            };
            tags[starts[place]] = exchanged;
        }
        tags.join("<")
    }

    #[test]
    fn a_page_that_follows_the_changes_holds_what_is_printed_anew() {
        let first = solved(str::to_owned);
        let mut results = Results::default();
        let mut page = results.all(Chapter::Shear, &first);
        assert!(page.lines().count() > 3);
        // Other numbers, the old ones again, another way to write them, and that with other numbers.
        let noted = |text: &str| text.replacen("units = \"lb-in\"", "units = \"metric\"", 1);
        for now in
            [solved(further), solved(str::to_owned), solved(noted), solved(|text| noted(&further(text)))]
        {
            let anew = Results::default().all(Chapter::Shear, &now);
            assert_ne!(page, anew);
            page = followed(&page, &mut results, &now, |_| true);
            assert_eq!(page, anew);
        }
    }

    #[test]
    fn what_is_not_wanted_stays_until_it_is() {
        let (first, now) = (solved(str::to_owned), solved(further));
        let mut results = Results::default();
        let page = results.all(Chapter::Shear, &first);
        assert_eq!(followed(&page, &mut results, &now, |_| false), page);
        assert_ne!(followed(&page, &mut results, &now, |_| true), page);
    }
}
