//! The joints between the parts of a section, and what of them belongs together.

use super::node::{Given, Table};
use super::section::{Gathered, no_such_part};
use super::words::in_quotes;
use crate::finding::Report;
use workings::problem::{Joint, JointKind};
use workings::style::Style;

/// What a spacing is rounded down to where the lesson does not say, m: what a tape shows. Common practice, no source.
const FIVE_MILLIMETRES: f64 = 5e-3;

/// The same where the lesson is in US customary units, m.
const QUARTER_INCH: f64 = 0.25 * 0.0254;

/// Reads the list of joints.
pub(super) fn read(table: &Table, gathered: &Gathered, style: &Style, report: &mut Report) -> Vec<Joint> {
    let usual_step = if style.units.is_customary() { QUARTER_INCH } else { FIVE_MILLIMETRES };
    let mut joints: Vec<Joint> = Vec::new();
    for entry in table.tables("joints") {
        let mut beyond: Vec<usize> = Vec::new();
        let mut sound = true;
        for given in entry.names("beyond") {
            match gathered.by_name.get(given.value.trim()) {
                Some(parts) => beyond
                    .extend(parts.iter().filter(|part| !beyond.contains(part)).copied().collect::<Vec<_>>()),
                None => {
                    sound = false;
                    // Where the section itself was not understood its parts are not known.
                    if gathered.sound {
                        let given = Given { value: given.value.as_str(), span: given.span.clone() };
                        no_such_part(&given, gathered, "no part is called", report);
                    }
                }
            }
        }
        if sound
            && gathered.sound
            && entry.is_list_of_names("beyond")
            && (beyond.is_empty() || beyond.len() == gathered.parts.len())
        {
            report
                .add(
                    entry.place("beyond"),
                    "a joint holds some of the parts to the others: at least one, and not all of them",
                )
                .mend("name the parts that would slide if the joint were gone");
        }
        let told = entry.text("kind").map(|given| given.value);
        let kind = match told {
            None | Some("glue") => JointKind::Glue,
            Some("weld") => JointKind::Weld,
            Some(_) => JointKind::Fasteners,
        };
        // Of a kind that is none of these it is not known which keys belong to it.
        if told.is_some() || !entry.has("kind") {
            refuse_keys_of_others(entry, kind, report);
            refuse_what_is_not_enough(entry, kind, report);
        }
        let Some(name) = entry.text("name") else { continue };
        if joints.iter().any(|joint| joint.name == name.value.trim()) {
            report
                .add(name.span.clone(), format!("two joints are called {}", in_quotes(name.value)))
                .mend("give each a name of its own, such as \"glue line 1\" and \"glue line 2\"");
        }
        let size = |word: &str| entry.value(word).map(|given| given.value);
        joints.push(Joint {
            name: name.value.trim().to_owned(),
            kind,
            beyond,
            rows: entry.count("rows").map_or(1, |rows| rows.value),
            spacing: size("spacing"),
            fastener_capacity: size("capacity"),
            run: size("run"),
            strength: size("strength"),
            allowable_stress: size("shear-stress"),
            step: Some(size("step").unwrap_or(usual_step)),
            zones: entry.yes("zones"),
        });
    }
    joints
}

/// Tells of every key that belongs to another kind of joint.
fn refuse_keys_of_others(entry: &Table, kind: JointKind, report: &mut Report) {
    const ROWS: &[&str] = &["rows", "spacing", "step", "zones"];
    let (belongs_to, mend) = (
        [
            "fasteners, and this joint has none",
            "a weld, and this joint is none",
            "a glue line, and this joint is none",
        ],
        [
            "write kind = \"nails\", \"screws\" or \"bolts\", or take it out",
            "write kind = \"weld\", or take it out",
            "write kind = \"glue\", or take it out",
        ],
    );
    let others: &[(&[&str], usize)] = match kind {
        JointKind::Glue => &[(ROWS, 0), (&["capacity"], 0), (&["run", "strength"], 1)],
        JointKind::Fasteners => &[(&["run", "strength"], 1), (&["shear-stress"], 2)],
        JointKind::Weld => &[(&["capacity"], 0), (&["shear-stress"], 2)],
    };
    for (words, whose) in others {
        for word in *words {
            if let Some(node) = entry.get(word) {
                report
                    .add(node.key.clone(), format!("`{word}` belongs to {}", belongs_to[*whose]))
                    .mend(mend[*whose])
                    .by_itself();
            }
        }
    }
}

/// Tells of every key that says nothing without another one.
fn refuse_what_is_not_enough(entry: &Table, kind: JointKind, report: &mut Report) {
    let mut needs = |word: &str, other: &str, why: &str, mend: &str| {
        if let Some(node) = entry.get(word)
            && !entry.has(other)
        {
            report.add(node.key.clone(), format!("`{word}` {why}")).mend(mend).by_itself();
        }
    };
    match kind {
        JointKind::Glue => {}
        JointKind::Fasteners => {
            let why = "cannot be told: it is not known what one fastener may carry";
            needs("zones", "capacity", why, "add capacity = \"800 N\", or take `zones` out");
            let why = "rounds a spacing that is not told: it is not known what one fastener may carry";
            needs("step", "capacity", why, "add capacity = \"800 N\", or take `step` out");
        }
        JointKind::Weld => {
            let why = "says nothing yet: it is not known what the weld may carry per unit length";
            needs("run", "strength", why, "add strength = \"500 N/mm\", or take `run` out");
            for word in ["spacing", "step", "zones"] {
                let why = "belongs to a weld that is interrupted, and this one runs on";
                let mend = "add run = \"50 mm\", the length of one run, or take it out";
                needs(word, "run", why, mend);
            }
            if let (Some(spacing), Some(run)) = (entry.value("spacing"), entry.value("run"))
                && spacing.value < run.value
            {
                report
                    .add(entry.place("spacing"), "the runs of this weld would overlap: the next begins before the last has ended")
                    .mend("give a `spacing` from the beginning of one run to that of the next, or take `run` and `spacing` out");
            }
        }
    }
}
