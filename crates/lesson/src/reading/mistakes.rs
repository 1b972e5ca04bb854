//! A lecturer's own mistakes, which only the solved lesson can tell to be sound.

use super::node::{Given, Table};
use super::quantity::{Written, tell};
use super::words::in_quotes;
use crate::finding::Report;
use workings::mistake::{Mistake, OwnField, OwnMistake};
use workings::solved::Solved;

/// The names of a lecturer's own mistakes, sound or not.
pub(super) fn names(lesson: &Table) -> Vec<&str> {
    lesson.tables("mistake").filter_map(|entry| entry.text("name")).map(|name| name.value.trim()).collect()
}

/// A lecturer's own mistakes; what is wrong with them is reported.
pub(super) fn read(lesson: &Table, file: &str, solved: &Solved, report: &mut Report) -> Vec<Mistake> {
    let mut mistakes: Vec<Mistake> = Vec::new();
    for entry in lesson.tables("mistake") {
        let text = |word| entry.text(word);
        // What is missing has been told.
        let (Some(name), Some(replaces), Some(formula), Some(feedback)) =
            (text("name"), text("replaces"), text("formula"), text("feedback"))
        else {
            continue;
        };
        let does = text("does");
        let written = OwnMistake {
            id: name.value.trim(),
            replaces: replaces.value.trim(),
            formula: formula.value,
            does: does.as_ref().map(|does| does.value.trim()),
            feedback: feedback.value.trim(),
            kind: None,
        };
        if mistakes.iter().any(|mistake| mistake.id() == written.id) {
            let what = format!("two mistakes are called {}", in_quotes(written.id));
            report.add(name.span, what).mend("give each a name of its own");
            continue;
        }
        match Mistake::own(solved, &written) {
            Ok(mistake) => mistakes.push(mistake),
            Err(faults) => {
                for fault in faults {
                    let Given { value, span } = match fault.field {
                        OwnField::Id => name.clone(),
                        OwnField::Replaces => replaces.clone(),
                        OwnField::Formula => formula.clone(),
                        OwnField::Feedback => feedback.clone(),
                    };
                    let example = "shear force at the slice / area beyond the cut";
                    tell(&fault.fault, &Written::new(value, span, file), example, None, report);
                }
            }
        }
    }
    mistakes
}
