//! Further straight cuts across the section, and whether each parts it.

use super::node::Table;
use super::words::in_quotes;
use crate::finding::Report;
use mechanics::section::{CutFault, Point, Section};
use workings::problem::FurtherCut;

/// Reads the list of further cuts; where the section was understood, tells of each that parts nothing.
pub(super) fn read(table: &Table, section: Option<&Section>, report: &mut Report) -> Vec<FurtherCut> {
    let mut cuts: Vec<FurtherCut> = Vec::new();
    for entry in table.tables("cuts") {
        let point = |word: &str| entry.point(word).map(|[x, y]| Point { x, y });
        let Some(name) = entry.text("name") else { continue };
        let (Some(from), Some(to), Some(keep)) = (point("from"), point("to"), point("keep")) else {
            continue;
        };
        if cuts.iter().any(|cut| cut.name == name.value.trim()) {
            report
                .add(name.span.clone(), format!("two cuts are called {}", in_quotes(name.value)))
                .mend("give each a name of its own, such as \"cut 1\" and \"cut 2\"");
        }
        let fault = section.and_then(|section| section.straight_cut(from, to, keep).err());
        if let Some(fault) = fault {
            let (word, headline, mend) = told(&fault, from, to);
            report.add(entry.place(word), headline).mend(mend);
        }
        cuts.push(FurtherCut { name: name.value.trim().to_owned(), from, to, keep });
    }
    cuts
}

/// At which key, what is wrong, and what mends it.
fn told(fault: &CutFault, from: Point, to: Point) -> (&'static str, &'static str, &'static str) {
    match fault {
        CutFault::EndsInside { at } => (
            if at.distance(from) < at.distance(to) { "from" } else { "to" },
            "this cut ends inside the material, so it parts nothing",
            "let it begin and end on an edge of the material, or off it",
        ),
        CutFault::DoesNotPart => (
            "from",
            "this cut leaves the section in one piece, as one cut through a wall of a box does",
            "let it run through both walls, or choose another",
        ),
        CutFault::KeepsNothing { .. } => (
            "keep",
            "no material lies at this point, or it lies on the cut",
            "give a point inside the part that the cut would let slide",
        ),
        _ => (
            "from",
            "this cut meets no material",
            "let it run across the section: the places are to the right, and up",
        ),
    }
}
