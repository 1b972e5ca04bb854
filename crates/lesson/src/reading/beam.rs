//! The beam: its length, supports, hinges and loads, with what is wrong with them at its place.

use super::beam_faults::{self, Places};
use super::node::{Given, Table};
use super::words::{in_quotes, listed, quoted};
use crate::finding::Report;
use mechanics::beam::{Beam, Hold, Load, Support};
use std::collections::HashSet;
use std::ops::Range;
use workings::problem::{LoadLabel, SupportKind, SupportLabel};
use workings::style::Style;

/// The beam as far as it was understood.
pub(super) struct BeamRead {
    /// The length, m.
    pub(super) length: Option<f64>,
    pub(super) supports: Vec<(Support, SupportLabel)>,
    pub(super) hinges: Vec<f64>,
    pub(super) loads: Vec<(Load, LoadLabel)>,
    /// Whether the beam's own weight counts, with the place that says so.
    pub(super) self_weight: Option<Range<usize>>,
}

/// Longest name of a support or a load, in characters: it stands as an index at a symbol.
const LONGEST_NAME: usize = 20;

const SUPPORT_KINDS: [&str; 5] = ["pin", "roller", "fixed", "guided", "spring"];
const LOAD_KINDS: [&str; 3] = ["force", "couple", "spread"];

pub(super) fn read(table: &Table, file: &str, style: &Style, report: &mut Report) -> BeamRead {
    let length = table.value("length");
    let mut whole = table.lists_tables("supports");
    let mut places =
        Places { length: table.place("length"), supports_list: table.place("supports"), ..Places::default() };

    let mut supports = Vec::new();
    for entry in table.tables("supports") {
        match support(entry, report) {
            Some(given) => {
                places.supports.push(place_of_kind(entry, &SUPPORT_KINDS));
                supports.push(given);
            }
            None => whole = false,
        }
    }
    let supports = named_supports(supports, table, report);

    let hinges = table.lengths("hinges");
    places.hinges = hinges.iter().map(|hinge| hinge.span.clone()).collect();
    let hinges: Vec<f64> = hinges.iter().map(|hinge| hinge.value).collect();

    let mut loads = Vec::new();
    for entry in table.tables("loads") {
        if let Some((load, name)) = load(entry, length.as_ref().map(|length| length.value), file, report) {
            places.loads.push([
                entry.place(first_of(entry, &["at", "from"])),
                entry.place(first_of(entry, &["at", "to"])),
            ]);
            loads.push((load, name));
        }
    }
    // Where an end of a spread load is not written it is an end of the beam, and cannot be wrong by itself.
    let loads = numbered_loads(loads);

    let read = BeamRead {
        length: length.map(|length| length.value),
        supports,
        hinges,
        loads,
        self_weight: table.yes("self-weight").then(|| table.place("self-weight")),
    };
    beam_faults::tell(&read, whole, &places, style, report);
    read
}

impl BeamRead {
    /// The beam with this length and flexural rigidity, N m².
    pub(super) fn beam(&self, length: f64, flexural_rigidity: f64) -> Beam {
        Beam {
            length,
            flexural_rigidity,
            supports: self.supports.iter().map(|(support, _)| *support).collect(),
            hinges: self.hinges.clone(),
            loads: self.loads.iter().map(|(load, _)| *load).collect(),
        }
    }
}

/// The first of these keys that the entry has.
fn first_of<'a>(entry: &Table, words: &[&'a str]) -> &'a str {
    words.iter().copied().find(|word| entry.has(word)).unwrap_or("")
}

/// The place of the kind's value of an entry, or of the whole entry.
fn place_of_kind(entry: &Table, kinds: &[&str]) -> Range<usize> {
    entry.place(first_of(entry, kinds))
}

/// The one kind of an entry; none or several are reported.
fn one_kind<'a>(entry: &Table, kinds: &[&'a str], what: &str, report: &mut Report) -> Option<&'a str> {
    let there: Vec<&str> = kinds.iter().copied().filter(|kind| entry.has(kind)).collect();
    match there.as_slice() {
        [kind] => Some(kind),
        // The key that was refused may have been meant for the kind.
        [] if entry.has_stranger => None,
        [] => {
            let words: Vec<String> = kinds.iter().map(|kind| format!("`{kind}`")).collect();
            report
                .add(entry.span.clone(), format!("this {what} is of no kind"))
                .mend(format!("give it one of {}", listed(&words, "and")));
            None
        }
        several => {
            let words: Vec<String> = several.iter().map(|kind| format!("`{kind}`")).collect();
            report
                .add(
                    entry.span.clone(),
                    format!("this {what} is of several kinds at once: {}", listed(&words, "and")),
                )
                .mend("keep one, and write another entry for the other");
            None
        }
    }
}

fn support(entry: &Table, report: &mut Report) -> Option<(Support, SupportKind, Option<Given<String>>)> {
    let kind = one_kind(entry, &SUPPORT_KINDS, "support", report)?;
    let station = entry.value(kind)?.value;
    let (mut support, label) = match kind {
        "pin" => (Support::pin(station), SupportKind::Pin),
        "roller" => (Support::pin(station), SupportKind::Roller),
        "fixed" => (Support::fixed(station), SupportKind::Fixed),
        "guided" => (Support::guided(station), SupportKind::Guided),
        _ => (Support { station, transverse: Hold::Free, rotation: Hold::Free }, SupportKind::Spring),
    };
    let mut sound = true;
    let mut refuse = |word: &str, headline: String, mend: &str| {
        report.add(entry.place(word), headline).mend(mend);
    };
    if entry.has("stiffness") {
        if label == SupportKind::Spring {
            sound &= entry
                .value("stiffness")
                .map(|given| support.transverse = Hold::Spring { stiffness: given.value })
                .is_some();
        } else {
            refuse(
                "stiffness",
                format!("a {kind} support has no `stiffness`"),
                "write spring = ... in place of its kind, or take it out",
            );
            sound = false;
        }
    }
    if entry.has("turning-stiffness") {
        if matches!(label, SupportKind::Fixed | SupportKind::Guided) {
            refuse(
                "turning-stiffness",
                format!("a {kind} support does not turn at all"),
                "take `turning-stiffness` out, or make it a pin",
            );
            sound = false;
        } else {
            sound &= entry
                .value("turning-stiffness")
                .map(|given| support.rotation = Hold::Spring { stiffness: given.value })
                .is_some();
        }
    }
    if label == SupportKind::Spring
        && !entry.has("stiffness")
        && !entry.has("turning-stiffness")
        && !entry.has_stranger
    {
        refuse(
            "spring",
            "this spring has no stiffness".to_owned(),
            "add stiffness = \"500 kN/m\", or turning-stiffness = \"800 kN m\"",
        );
        sound = false;
    }
    if entry.has("settles") {
        if matches!(label, SupportKind::Guided | SupportKind::Spring) {
            refuse(
                "settles",
                format!("a {kind} support moves freely or gives: it cannot settle"),
                "take `settles` out, or make it a pin",
            );
            sound = false;
        } else {
            sound &= entry
                .value("settles")
                .map(|given| support.transverse = Hold::Rigid { moved: -given.value })
                .is_some();
        }
    }
    let name = name(entry, report);
    sound.then_some((support, label, name))
}

/// The name of a support or a load, where it is fit to stand at a symbol.
fn name(entry: &Table, report: &mut Report) -> Option<Given<String>> {
    let given = entry.text("name")?;
    if given.value.chars().count() > LONGEST_NAME || given.value.chars().any(char::is_control) {
        report
            .add(given.span, format!("{} is too long to stand at an arrow", in_quotes(given.value)))
            .mend(format!("give a name of at most {LONGEST_NAME} letters, such as \"A\" or \"P_1\""));
        return None;
    }
    Some(Given { value: given.value.trim().to_owned(), span: given.span })
}

/// Supports with the names that they were given, and letters from left to right for the others.
fn named_supports(
    supports: Vec<(Support, SupportKind, Option<Given<String>>)>,
    table: &Table,
    report: &mut Report,
) -> Vec<(Support, SupportLabel)> {
    let mut taken: HashSet<String> = HashSet::new();
    for name in supports.iter().filter_map(|(_, _, name)| name.as_ref()) {
        if !taken.insert(name.value.clone()) {
            report
                .add(name.span.clone(), format!("two supports are called {}", in_quotes(&name.value)))
                .mend("give each a name of its own");
        }
    }
    let _ = table;
    let mut order: Vec<usize> = (0..supports.len()).collect();
    order.sort_by(|&a, &b| supports[a].0.station.total_cmp(&supports[b].0.station));
    let mut letters = letters().filter(|letter| !taken.contains(letter));
    let mut made: Vec<String> = vec![String::new(); supports.len()];
    for index in order {
        if supports[index].2.is_none() {
            made[index] = letters.next().unwrap_or_default();
        }
    }
    let named = supports.into_iter().zip(made).map(|((support, kind, name), made)| {
        let name = name.map_or(made, |name| name.value);
        (support, SupportLabel { name, kind })
    });
    named.collect()
}

/// A, B, ..., Z, A2, B2, ...
fn letters() -> impl Iterator<Item = String> {
    (1_usize..).flat_map(|round| {
        ('A'..='Z')
            .map(move |letter| if round == 1 { letter.to_string() } else { format!("{letter}{round}") })
    })
}

fn load(
    entry: &Table,
    length: Option<f64>,
    file: &str,
    report: &mut Report,
) -> Option<(Load, Option<String>)> {
    let kind = one_kind(entry, &LOAD_KINDS, "load", report)?;
    let size = entry.value(kind);
    let sign = direction(entry, kind, report);
    let own_name = name(entry, report);
    let own_name = own_name.map(|name| name.value).or_else(|| value_name(entry, kind, file));
    if kind == "spread" {
        refuse_keys(entry, &["at"], "a spread load", "it has `from` and `to`", report);
        let from = if entry.has("from") { entry.value("from")?.value } else { 0.0 };
        let to = if entry.has("to") { entry.value("to")?.value } else { length? };
        let size = size?.value;
        let becoming = if entry.has("becoming") { entry.value("becoming")?.value } else { size };
        let sign = sign?;
        return Some((Load::Spread { from, to, down_from: sign * size, down_to: sign * becoming }, own_name));
    }
    if !entry.has("at") && (entry.has("from") || entry.has("to")) {
        report
            .add(entry.span.clone(), format!("a {kind} stands at one point, and this one has a stretch of the beam"))
            .mend(format!(
                "give {kind} = ..., at = \"1.5 m\"; or a load over the stretch: spread = \"2 kN/m\", from = ..., to = ..."
            ));
        return None;
    }
    refuse_keys(
        entry,
        &["from", "to", "becoming"],
        &format!("a {kind}"),
        "it stands at one point; only a spread load has it",
        report,
    );
    if !entry.has("at") && !entry.has_stranger {
        report
            .add(entry.span.clone(), format!("this {kind} has no `at`"))
            .mend("say where it stands: at = \"1.5 m\"");
    }
    let (station, size, sign) = (entry.value("at")?.value, size?.value, sign?);
    let load = match kind {
        "force" => Load::Force { station, down: sign * size },
        _ => Load::Couple { station, ccw: sign * size },
    };
    Some((load, own_name))
}

/// The sign that the direction gives: plus for down and for counter-clockwise.
fn direction(entry: &Table, kind: &str, report: &mut Report) -> Option<f64> {
    if !entry.has("direction") {
        return Some(1.0);
    }
    let given = entry.text("direction")?;
    let turns = kind == "couple";
    match (given.value, turns) {
        ("down", false) | ("counter-clockwise", true) => Some(1.0),
        ("up", false) | ("clockwise", true) => Some(-1.0),
        (found, _) => {
            let (what, mend) = if turns {
                ("a couple", "\"counter-clockwise\" or \"clockwise\"")
            } else if kind == "force" {
                ("a force", "\"down\" or \"up\"")
            } else {
                ("a spread load", "\"down\" or \"up\"")
            };
            report
                .add(given.span, format!("{what} cannot go {found}"))
                .mend(format!("write direction = {mend}"))
                .by_itself();
            None
        }
    }
}

fn refuse_keys(entry: &Table, words: &[&str], what: &str, why: &str, report: &mut Report) {
    for word in words {
        if let Some(node) = entry.get(word) {
            report.add(node.key.clone(), format!("{what} has no `{word}`")).mend(why).by_itself();
        }
    }
}

/// The named value that the size of a load is, where it is just that.
fn value_name(entry: &Table, kind: &str, file: &str) -> Option<String> {
    let written = file.get(entry.place(kind))?.trim_matches(['"', '\'']).trim();
    let is_name = written.starts_with(char::is_alphabetic)
        && written.chars().all(|c| c.is_alphanumeric() || matches!(c, '_' | '\''))
        && written.chars().count() <= LONGEST_NAME;
    is_name.then(|| quoted(written))
}

/// Loads with the names that they have, and a number among their kind for the others.
fn numbered_loads(loads: Vec<(Load, Option<String>)>) -> Vec<(Load, LoadLabel)> {
    let mut counts = [0_usize; 3];
    let label = |(load, name): (Load, Option<String>)| {
        let kind = match load {
            Load::Force { .. } => 0,
            Load::Couple { .. } => 1,
            Load::Spread { .. } => 2,
        };
        counts[kind] += 1;
        let name = name.unwrap_or_else(|| counts[kind].to_string());
        (load, LoadLabel { name, self_weight: false })
    };
    loads.into_iter().map(label).collect()
}
