//! What a question must say beside the name of what it asks for, so that it has one answer.

use crate::tree::Inline;
use workings::quantity::Quantity;
use workings::role::Role;
use workings::solved::{LimitWorkings, Solved};
use workings::working::{Chapter, Id};

/// What stands behind the name at once, after its comma.
pub(crate) fn named_closer(solved: &Solved, id: Id) -> Option<&'static str> {
    let working = solved.workings().working(id);
    if solved.is_told_by_size(id) {
        return Some("its size");
    }
    match working.name.as_str() {
        // The largest of one sort is given as a size by many; here it is negative.
        "largest hogging moment" => Some("with its sign"),
        "second moment" if has_materials(solved) => Some("of the transformed section about its neutral axis"),
        _ => None,
    }
}

/// Sentences that follow the question: under what the value is found.
pub(crate) fn meant(solved: &Solved, id: Id) -> Option<Vec<Inline>> {
    let words = loads_grow(solved, id)
        .or_else(|| depth_grows(solved, id))
        .or_else(|| zones_end(solved, id))
        .or_else(|| zone_runs(solved, id))?;
    Some(vec![Inline::text(format!(" {words}"))])
}

fn has_materials(solved: &Solved) -> bool {
    solved.workings().chapter(Chapter::Materials).next().is_some()
}

/// `the tension, the compression and the shear stress`
fn listed(all: &[String]) -> String {
    match all {
        [] => String::new(),
        [only] => only.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

/// A name in a sentence and in the words of the course.
fn in_words(name: &str, solved: &Solved) -> String {
    solved.style().notation.in_its_words(&solved.in_a_sentence(name))
}

/// Of a load factor, and of a load at its largest: that all loads grow, and until when.
fn loads_grow(solved: &Solved, id: Id) -> Option<String> {
    let allowables = solved.allowables()?;
    let working = solved.workings().working(id);
    let (loads, they_are) = match solved.problem().beam.loads.len() {
        1 => ("The load grows", "is it"),
        _ => ("All loads grow in the same ratio", "are they"),
    };
    let times = format!("How many times as large {they_are} then?");
    let allowed = |limit: &LimitWorkings| {
        format!("{loads} until the {} reaches what is allowed.", in_words(&limit.words, solved))
    };
    let growth = allowables.growth.as_ref()?;
    if let Some(place) = growth.factors.iter().position(|factor| *factor == id) {
        return Some(format!("{} {times}", allowed(allowables.limits.get(place)?)));
    }
    let is_load = working.chapter == Chapter::Allowables
        && working.name.starts_with("largest ")
        && solved.workings().reads(id).contains(&growth.largest_factor);
    let asks = match is_load {
        true => format!(
            "How large is the {} then?",
            in_words(working.name.trim_start_matches("largest "), solved)
        ),
        false if id == growth.largest_factor => times,
        false => return None,
    };
    let until = match allowables.limits.as_slice() {
        [only] => allowed(only),
        limits => {
            let limits = limits.iter().map(|limit| format!("the {}", in_words(&limit.words, solved)));
            format!(
                "{loads} until the first of these limits is reached: {}.",
                listed(&limits.collect::<Vec<_>>())
            )
        }
    };
    Some(format!("{until} {asks}"))
}

/// Of a least depth: what grows with it.
fn depth_grows(solved: &Solved, id: Id) -> Option<String> {
    let name = &solved.workings().working(id).name;
    name.starts_with("least depth ").then(|| {
        "Every height of the section is stretched alike, every breadth stays as it is, and so do the loads."
            .to_owned()
    })
}

/// Of the number of all fasteners: where a zone ends and the next begins, and that each has a spacing and a number of its own.
fn zones_end(solved: &Solved, id: Id) -> Option<String> {
    let workings = solved.workings();
    let read = workings.reads(id);
    let (_, zones) = solved
        .zones()
        .find(|(_, zones)| !zones.is_empty() && zones.iter().all(|zone| read.contains(&zone.standing)))?;
    let mut stations: Vec<Quantity> = Vec::new();
    for id in zones.iter().flat_map(|zone| [zone.from, zone.to]) {
        let station = workings.working(id).value;
        // Of two zones the end of one is the beginning of the next, found in two ways.
        if stations.last().is_none_or(|last| (last.value - station.value).abs() > 1e-9 * station.value.abs())
        {
            stations.push(station);
        }
    }
    let stations: Vec<String> = stations.into_iter().map(|station| station_text(solved, station)).collect();
    Some(format!(
        "The zones end at {}. Each has its own spacing to use, by the largest V in it, and its own number in a row, rounded up.",
        listed(&stations)
    ))
}

/// Of a value in a zone that is told by its number: where that zone is.
fn zone_runs(solved: &Solved, id: Id) -> Option<String> {
    let working = solved.workings().working(id);
    let is_numbered = working.name.contains(" in zone ") || working.name.contains("the end of zone ");
    if !is_numbered || working.symbol.role == Role::Station {
        return None;
    }
    let (joint, place, zone) = solved.zones().find_map(|(joint, zones)| {
        let place = zones.iter().position(|zone| zone.own().contains(&id))?;
        Some((joint, place, zones.get(place)?))
    })?;
    let [from, to] =
        [zone.from, zone.to].map(|end| station_text(solved, solved.workings().working(end).value));
    Some(format!("Zone {} of {} runs from {from} to {to}.", place + 1, solved.in_a_sentence(joint)))
}

/// A station with all its figures where they are few: a third of a span has no end of figures.
fn station_text(solved: &Solved, station: Quantity) -> String {
    let (given, rounded) =
        (solved.style().given_text(station, Role::Station), solved.style().text(station, Role::Station));
    if given.chars().count() > rounded.chars().count() + 2 { rounded } else { given }
}

#[cfg(test)]
mod tests {
    use crate::tree::{Block, plain};
    use crate::wording::worded;

    const GIRDER: &str = r#"
title = "A nailed girder"
[beam]
length = "4 m"
supports = [{ pin = "0 m" }, { roller = "4 m" }]
loads = [{ force = "P", at = "1 m" }, { couple = "1 kN m", at = "3 m" }]
[values]
P = "4 kN"
[material]
E = "11 GPa"
[allowable]
bending-stress = "9 MPa"
shear-stress = "1.2 MPa"
[section]
parts = [
  { name = "web", width = "40 mm", height = "160 mm" },
  { name = "flange", width = "120 mm", height = "40 mm", on = "web" },
]
joints = [{ name = "nails", kind = "nails", beyond = ["flange"], rows = 1, capacity = "1 kN", zones = true }]
[slice]
at = "2 m"
length = "20 mm"
[cut]
at = "nails"
"#;

    fn asked(working: &str) -> String {
        asked_in(GIRDER, working)
    }

    fn asked_in(lesson: &str, working: &str) -> String {
        let text = format!("{lesson}[[question]]\nask = \"{working}\"\n");
        let reading = lesson::read(&text, "girder.toml");
        let findings: Vec<String> = reading.findings.iter().map(|finding| finding.render(false)).collect();
        let (Some(lesson), Some(solved)) = (reading.lesson, reading.solved) else { panic!("{findings:?}") };
        match worded(&lesson.questions[0], &lesson, &solved).as_slice() {
            [Block::Paragraph(line)] => plain(line, solved.style()),
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn a_question_says_all_that_its_answer_hangs_on() {
        let grow = "All loads grow in the same ratio until";
        let first = format!(
            "{grow} the first of these limits is reached: the tension, the compression and the shear stress."
        );
        for (working, expected) in [
            ("largest force P", format!("Find the largest force P (P_allow). {first} How large is the force P then?")),
            ("largest load factor", format!("Find the largest load factor (\u{3bb}). {first} How many times as large are they then?")),
            (
                "load factor for shear stress",
                format!("Find the load factor for shear stress (\u{3bb}_s). {grow} the shear stress reaches what is allowed. How many times as large are they then?"),
            ),
            ("largest shear stress along the beam", "Find the largest shear stress along the beam (\u{3c4}_max, beam), its size.".to_owned()),
            ("centroid height", "Find the centroid height, above the lowest fibre (ȳ).".to_owned()),
            (
                "number of fasteners of nails in all",
                "Find the number of nails in all (m_j1). The zones end at 0\u{a0}m, 1\u{a0}m, 3\u{a0}m and 4\u{a0}m. Each has its own spacing to use, by the \
                 largest V in it, and its own number in a row, rounded up."
                    .to_owned(),
            ),
        ] {
            assert_eq!(asked(working), expected, "{working}");
        }
        let spread = GIRDER.replace("{ force = \"P\", at = \"1 m\" }", "{ spread = \"P / 1 m\" }");
        // A carries 8 kN + 1 kN m / 4 m, so V is zero at 8.25/4 m, and each of four zones is 0.5156 m long.
        assert_eq!(
            asked_in(&spread, "shear flow at nails in zone 2"),
            "Find the shear flow at the nails in zone 2 (q_j1, 2), its size. Zone 2 of nails runs from 0.516\u{a0}m to 1.031\u{a0}m."
        );
        // At the slice tau has the sign of V.
        assert!(!asked("shear stress on the cut").contains("its size"));
    }
}
