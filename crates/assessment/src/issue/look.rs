//! One draw, looked at: what it comes to, and what speaks against giving it out.

use crate::fair::{Class, Course, Judge, Paper, Path, Reason, verdict};
use crate::set::SetPaper;
use crate::space::Size;
use lesson::Lesson;
use lesson::papers::{Draw, Papers};
use serde::Serialize;
use std::collections::BTreeMap;
use std::fmt;
use workings::solved::Solved;

/// What is found of a draw.
#[derive(Clone, Debug, PartialEq)]
pub struct Looked {
    /// The paper, judged; its label is empty. None where it cannot be.
    pub paper: Option<Paper>,
    /// All that speaks against giving it out.
    pub against: Vec<Against>,
}

impl Looked {
    /// Whether nothing speaks against it.
    pub fn fits(&self) -> bool {
        self.against.is_empty()
    }
}

/// Something that speaks against a draw.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "against", content = "what", rename_all = "kebab-case")]
pub enum Against {
    /// Its choices, each sound by itself, make no sound lesson together; the first finding.
    Unsound(String),
    /// It does not meet what the lesson requires, as the lecturer wrote it.
    Requirement(String),
    /// A question cannot be asked with these numbers.
    NotAsked(String),
    /// It is not fair.
    Unfair(Reason),
}

impl fmt::Display for Against {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unsound(finding) => write!(f, "these choices do not go together: {finding}"),
            Self::Requirement(written) => write!(f, "the lesson requires: {written}"),
            Self::NotAsked(why) => f.write_str(why),
            Self::Unfair(reason) => reason.fmt(f),
        }
    }
}

/// A draw, read and judged; what the class says against it is not yet looked at.
pub(super) struct Read {
    pub(super) looked: Looked,
    /// Its lesson, solved, where nothing has spoken against it yet.
    pub(super) sound: Option<(Lesson, Solved)>,
}

/// Reads, solves and judges a draw.
pub(super) fn read(papers: &Papers, asked: &[String], draw: &Draw) -> Read {
    let refused = |against| Read { looked: Looked { paper: None, against: vec![against] }, sound: None };
    let reading = match papers.reading(draw) {
        Ok(reading) => reading,
        Err(fault) => return refused(Against::Unsound(fault.to_string())),
    };
    let (Some(lesson), Some(solved)) = (reading.lesson, reading.solved) else {
        let first = reading.findings.into_iter().next().map(|finding| finding.headline);
        return refused(Against::Unsound(first.unwrap_or_default()));
    };
    let missed = papers.lesson().requirements.iter().find(|requirement| {
        // A requirement that names what this draw does not have is not met.
        !requirement.is_met(solved.workings()).unwrap_or(false)
    });
    // What is required is required before all else: no need to judge.
    if let Some(requirement) = missed {
        return refused(Against::Requirement(requirement.written.clone()));
    }
    let judge = Judge::new(&solved, Course::of(&lesson)).beside(&lesson.mistakes);
    let mut judgements = Vec::with_capacity(asked.len());
    for name in asked {
        match judge.judge(name) {
            Ok(judgement) => judgements.push(judgement),
            Err(why) => return refused(Against::NotAsked(why.to_string())),
        }
    }
    let names: Vec<&str> = asked.iter().map(String::as_str).collect();
    let path = Path::of(&solved, &names);
    let paper = Paper { label: String::new(), variant: papers.variant(draw), path, judgements };
    Read { looked: Looked { paper: Some(paper), against: Vec::new() }, sound: Some((lesson, solved)) }
}

/// Holds what was read against the class of its variant, and sets its questions where nothing else speaks against it. Where there is one draw
/// only, no other would be better, and it is given out as it is.
pub(super) fn finish(read: Read, classes: &BTreeMap<String, Class>, size: Size) -> Looked {
    let Read { mut looked, sound } = read;
    let (Some(paper), Some((lesson, solved))) = (&looked.paper, sound) else { return looked };
    if size.count > 1 {
        let reasons = verdict(&paper.judgements, &paper.path, classes.get(&paper.variant)).reasons;
        looked.against.extend(reasons.into_iter().map(Against::Unfair));
    }
    if looked.against.is_empty()
        && let Err(faults) = SetPaper::judged(lesson, solved, &paper.judgements)
    {
        looked.against.extend(faults.iter().map(|fault| Against::NotAsked(fault.to_string())));
    }
    looked
}
