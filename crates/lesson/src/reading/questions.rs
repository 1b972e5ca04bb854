//! The questions: their form, and whether the solved lesson can answer them.

use super::lecture::meant;
use super::node::{Given, Table};
use super::words::in_quotes;
use super::{marking, mistakes};
use crate::finding::Report;
use crate::lesson::Lesson;
use crate::marking::Shares;
use crate::question::{Ask, AskedValue, Piece, Question, Sketch, pieces};
use std::ops::Range;
use workings::problem::Joint;
use workings::solved::Solved;
use workings::working::Working;

/// The tolerance of a lesson that says nothing of it: usual in marking by machine (common practice, no source).
const TOLERANCE: f64 = 0.01;

/// The widest tolerance: beyond it half of the wrong answers are right.
const WIDEST: f64 = 0.2;

/// What every question asks for; what is wrong with its form is reported.
pub(super) fn read(lesson: &Table, report: &mut Report) -> Vec<Question> {
    let (usual, own) = (Shares::default(), mistakes::names(lesson));
    let shares = lesson.table("marking").map(|table| marking::read(table, &usual, &own, report));
    let shares = shares.unwrap_or(usual);
    lesson.tables("question").filter_map(|entry| question(entry, &shares, &own, report)).collect()
}

fn question(entry: &Table, shares: &Shares, own: &[&str], report: &mut Report) -> Option<Question> {
    let (asked, sketch) = (entry.text("ask"), entry.text("sketch"));
    let ask = match (asked, sketch) {
        (Some(_), Some(both)) => {
            report
                .add(both.span, "a question asks for a value or for a sketch, not for both")
                .mend("make two questions of it");
            return None;
        }
        (None, None) => {
            if !entry.has("ask") && !entry.has("sketch") && !entry.has_stranger {
                report
                    .add(entry.span.clone(), "this question asks for nothing")
                    .mend("add ask = \"shear stress on the cut\", or sketch = \"bending moment\"");
            }
            return None;
        }
        (Some(asked), None) => Ask::Value(value(entry, asked.value.trim())),
        (None, Some(sketch)) => {
            for key in ["steps", "step-marks", "place", "choose", "marking"] {
                if entry.has(key) {
                    report
                        .add(entry.place(key), format!("a sketch has no {}", in_quotes(key)))
                        .mend("take it out, or ask for the value in a question of its own");
                }
            }
            Ask::Sketch(Sketch::ALL.into_iter().find(|known| known.written() == sketch.value)?)
        }
    };
    let own = entry.table("marking").map(|table| marking::read(table, shares, own, report));
    Some(Question {
        ask,
        text: entry.owned_text("text"),
        marks: entry.number("marks").unwrap_or(1.0),
        marking: own.unwrap_or_else(|| shares.clone()),
    })
}

fn value(entry: &Table, working: &str) -> AskedValue {
    AskedValue {
        working: working.to_owned(),
        place: entry.yes("place"),
        steps: entry.names("steps").iter().map(|step| step.value.trim().to_owned()).collect(),
        step_marks: entry.number("step-marks").unwrap_or(1.0),
        choose: entry.count("choose").map(|count| count.value),
    }
}

/// How far an answer may be from the right one, as a share of it.
pub(super) fn tolerance(lesson: &Table, report: &mut Report) -> f64 {
    let Some(given) = lesson.table("papers").and_then(|table| table.value("tolerance")) else {
        return TOLERANCE;
    };
    if given.value > WIDEST {
        report
            .add(given.span, "with so wide a tolerance wrong answers are right")
            .mend("write at most \"20 %\"; usual are \"1 %\" and \"2 %\"");
    }
    given.value
}

/// Whether the solved lesson has what the questions ask for and speak of.
pub(super) fn answers(lesson: &Lesson, table: &Table, solved: &Solved, report: &mut Report) {
    for entry in table.tables("question") {
        let mut checker = Checker { lesson, solved, report };
        let asked = entry.text("ask").map(|given| Given { value: given.value.trim(), span: given.span });
        let goal = asked.as_ref().and_then(|asked| checker.working(asked));
        if let (Some(goal), Some(asked)) = (goal, &asked) {
            checker.place(entry, goal);
            checker.steps(entry, asked.value);
        }
        checker.wording(entry, asked.map(|asked| asked.value));
    }
}

struct Checker<'a, 'r> {
    lesson: &'a Lesson,
    solved: &'a Solved,
    report: &'r mut Report,
}

impl<'a> Checker<'a, '_> {
    fn working(&mut self, asked: &Given<&str>) -> Option<&'a Working> {
        let found = self.solved.workings().get(asked.value);
        if let (None, Some(joint)) = (found, self.idle_joint(asked.value)) {
            let what = format!(
                "{} passes no shear flow on, so the lesson has no {}",
                in_quotes(joint),
                in_quotes(asked.value)
            );
            let mend = format!(
                "ask for {}, or take another joint: the centroid of what this one holds lies on the neutral axis, and no spacing follows \
                 from a flow of zero",
                in_quotes(&format!("first moment at {joint}"))
            );
            self.report.add(asked.span.clone(), what).mend(mend);
        } else if found.is_none() {
            let mend = match meant(asked.value, self.solved) {
                Some(near) => format!("did you mean {}?", in_quotes(near)),
                None => {
                    "`glueline values` lists what there is, such as \"shear stress on the cut\"".to_owned()
                }
            };
            let what = format!("the lesson has no working called {}", in_quotes(asked.value));
            self.report.add(asked.span.clone(), what).mend(mend);
        }
        found
    }

    /// The joint of which a spacing or a number is asked for although it passes no shear flow on.
    fn idle_joint(&self, asked: &str) -> Option<&'a str> {
        let of_spacing = ["largest spacing at ", "spacing to use at ", "number of "];
        let is_asked = |joint: &&Joint| {
            let is_named = of_spacing
                .iter()
                .filter_map(|what| asked.strip_prefix(what))
                .any(|of| of.contains(&joint.name));
            is_named && self.solved.passes_no_shear_flow(joint)
        };
        self.solved.problem().joints.iter().find(is_asked).map(|joint| joint.name.as_str())
    }

    fn place(&mut self, entry: &Table, goal: &Working) {
        if entry.yes("place") && goal.place.station.is_none() && goal.place.height.is_none() {
            let what = format!("{} has no place along the beam or over the depth", in_quotes(&goal.name));
            self.report.add(entry.place("place"), what).mend("take `place` out");
        }
    }

    /// The steps must lead to what is asked for.
    fn steps(&mut self, entry: &Table, goal: &str) {
        let workings = self.solved.workings();
        let mut before: Vec<&str> = Vec::new();
        for given in entry.names("steps") {
            let step = Given { value: given.value.trim(), span: given.span.clone() };
            let said_twice = step.value == goal || before.contains(&step.value);
            before.push(step.value);
            if self.working(&step).is_none() {
                continue;
            }
            let leads = match (workings.id(step.value), workings.id(goal)) {
                (Some(from), Some(to)) => {
                    workings.downstream(&[from]).get(to.0 as usize).copied().unwrap_or(false)
                }
                _ => false,
            };
            if said_twice {
                let what = format!("{} is asked for twice", in_quotes(step.value));
                self.report.add(step.span, what).mend("take it out of the steps");
            } else if !leads {
                let what = format!("{} is no step on the way to {}", in_quotes(step.value), in_quotes(goal));
                self.report.add(step.span, what).mend("ask for it in a question of its own");
            }
        }
    }

    /// The names in braces must be known, and must not give away what is asked for.
    fn wording(&mut self, entry: &Table, goal: Option<&str>) {
        let Some(text) = entry.text("text") else { return };
        for piece in pieces(text.value) {
            let Piece::Name(name) = piece else { continue };
            let span = self.in_braces(&text.span, name);
            if goal == Some(name) || entry.names("steps").iter().any(|step| step.value.trim() == name) {
                let what = format!("{} in braces gives away what is asked for", in_quotes(name));
                self.report.add(span, what).mend("say it in words without the braces");
            } else if !self.lesson.values.iter().any(|value| value.name == name) {
                self.working(&Given { value: name, span });
            }
        }
    }

    /// Where a name in braces stands within a wording; all of that where it is written in another way, by an escape.
    fn in_braces(&self, wording: &Range<usize>, name: &str) -> Range<usize> {
        let written = self.report.text().get(wording.clone()).unwrap_or_default();
        let opened = written.match_indices('{').filter_map(|(at, _)| {
            let end = at + written.get(at..)?.find('}')?;
            (written.get(at + 1..end)?.trim() == name).then_some(at..end + 1)
        });
        let found = opened.map(|found| wording.start + found.start..wording.start + found.end).next();
        found.unwrap_or_else(|| wording.clone())
    }
}
