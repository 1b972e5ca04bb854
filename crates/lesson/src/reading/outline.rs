//! Outlines of corners and arcs, and holes.

use super::node::Table;
use crate::finding::Report;
use mechanics::section::{Edge, Loop, Part, Point};
use std::ops::Range;

/// A loop with the place of each of its entries; the first is the starting corner.
#[derive(Clone, Debug)]
pub(super) struct Drawn {
    pub(super) outline: Loop,
    pub(super) entries: Vec<Range<usize>>,
}

/// The loop of the entries under a key; what is wrong with an entry is reported.
pub(super) fn read(table: &Table, word: &str, report: &mut Report) -> Option<Drawn> {
    let mut start: Option<Point> = None;
    let mut path = Vec::new();
    let mut entries = Vec::new();
    let mut sound = true;
    for entry in table.tables(word) {
        entries.push(entry.span.clone());
        match side(entry, start.is_none(), report) {
            Some(Edge::Line { to }) if start.is_none() => start = Some(to),
            Some(edge) => path.push(edge),
            None => sound = false,
        }
    }
    let count = entries.len();
    let start = start?;
    let enough = if path.iter().any(|edge| matches!(edge, Edge::Arc { .. })) { 2 } else { 3 };
    if sound && count < enough {
        report
            .add(
                table.place(word),
                format!(
                    "an outline of {count} {} encloses nothing",
                    if count == 1 { "corner" } else { "corners" }
                ),
            )
            .mend("give at least three corners, or two with an arc between them");
        return None;
    }
    sound.then_some(Drawn { outline: Loop { start, path }, entries })
}

fn side(entry: &Table, first: bool, report: &mut Report) -> Option<Edge> {
    let point = |word: &str| entry.point(word).map(|[x, y]| Point { x, y });
    match (entry.has("corner"), entry.has("arc-to")) {
        (true, false) => {
            for word in ["centre", "turn"] {
                if let Some(node) = entry.get(word) {
                    report
                        .add(node.key.clone(), format!("a corner has no `{word}`"))
                        .mend("write arc-to instead of corner, or take it out")
                        .by_itself();
                }
            }
            point("corner").map(|to| Edge::Line { to })
        }
        (false, true) if first => {
            report
                .add(entry.span.clone(), "an outline cannot begin with an arc")
                .mend("begin with the corner from which the arc starts: { corner = [\"50 mm\", \"0 mm\"] }");
            None
        }
        (false, true) => {
            if !entry.has("centre") && !entry.has_stranger {
                report
                    .add(entry.span.clone(), "this arc has no `centre`")
                    .mend("say about which point it runs: centre = [\"0 mm\", \"0 mm\"]");
            }
            let (to, centre) = (point("arc-to")?, point("centre")?);
            if entry.has("turn") && entry.text("turn").is_none() {
                return None;
            }
            let clockwise = entry.text("turn").is_some_and(|turn| turn.value == "clockwise");
            Some(Edge::Arc { to, centre, counter_clockwise: !clockwise })
        }
        (true, true) => {
            report
                .add(entry.span.clone(), "this side is both a corner and an arc")
                .mend("keep one, and write the other as an entry of its own");
            None
        }
        (false, false) => {
            if !entry.has_stranger {
                report
                    .add(entry.span.clone(), "this side leads nowhere")
                    .mend("give it corner = [\"100 mm\", \"0 mm\"], or arc-to and centre");
            }
            None
        }
    }
}

/// One hole: an outline of its own, a circle or a rectangle.
pub(super) fn hole(entry: &Table, report: &mut Report) -> Option<Drawn> {
    let kinds = [entry.has("outline"), entry.has("diameter"), entry.has("width") || entry.has("height")];
    match kinds {
        [true, false, false] => read(entry, "outline", report),
        [false, true, false] => {
            let diameter = entry.value("diameter")?.value;
            let corner = super::parts::corner(entry, diameter, diameter, report)?;
            let centre = Point { x: corner.x + 0.5 * diameter, y: corner.y + 0.5 * diameter };
            Some(Drawn { outline: Loop::circle(centre, 0.5 * diameter), entries: Vec::new() })
        }
        [false, false, true] => {
            for word in ["width", "height"] {
                if !entry.has(word) && !entry.has_stranger {
                    report
                        .add(entry.span.clone(), format!("a rectangular hole needs a `{word}`"))
                        .mend("give both width and height");
                }
            }
            let (width, height) = (entry.value("width")?.value, entry.value("height")?.value);
            let corner = super::parts::corner(entry, width, height, report)?;
            let drawn = Part::rectangle(corner, width, height).outline;
            Some(Drawn { outline: drawn, entries: Vec::new() })
        }
        [false, false, false] => {
            if !entry.has_stranger {
                report
                    .add(entry.span.clone(), "this hole has no shape")
                    .mend("give it a diameter, or width and height, or an outline");
            }
            None
        }
        _ => {
            report
                .add(entry.span.clone(), "this hole has several shapes at once")
                .mend("give it a diameter, or width and height, or an outline");
            None
        }
    }
}
