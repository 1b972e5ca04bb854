//! What a text tells of a key.

use assessment::set::{Ask, SetPaper, ValuePart};
use mechanics::section::{Edge, Part};
use workings::quantity::Quantity;
use workings::working::Chapter;

/// Every value that a paper asks for.
pub fn values(set: &SetPaper) -> impl Iterator<Item = &ValuePart> {
    set.parts().filter_map(|part| match &part.ask {
        Ask::Value(value) => Some(value),
        Ask::Choice(choice) => Some(&choice.value),
        Ask::Place(_) | Ask::Sketch { .. } => None,
    })
}

/// How a value may be written: as the course shows it, with all its digits, and by its bare number.
pub fn writings(set: &SetPaper, working: &str, value: f64) -> Vec<String> {
    let found = set.solved.workings().get(working).expect("a working of the lesson");
    let (style, role) = (set.solved.style(), found.symbol.role);
    let quantity = Quantity::new(value, found.value.dimension);
    let shown = style.show(quantity, role);
    let mut all = vec![shown.text(), style.given_text(quantity, role), format!("{value}")];
    // A number of one or two digits is everywhere.
    all.extend((shown.digits.bytes().filter(u8::is_ascii_digit).count() >= 4).then(|| shown.number()));
    all
}

/// Whether a number stands in a text as a number of its own: `5 kN`, and not within `0.75 kN`.
pub fn tells(page: &str, number: &str) -> bool {
    let joins = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',' | '\u{202f}');
    page.match_indices(number).any(|(at, _)| {
        let (before, after) = (&page[..at], &page[at + number.len()..]);
        // `20 kN` is not told by `20 kN·m`, nor 0.1667 by the width of a space in a formula's markup.
        !before.ends_with(joins)
            && !after.starts_with(joins)
            && !after.starts_with(['·', '/'])
            && !after.starts_with("em\"")
    })
}

/// What stands on the paper by right: a given value, a size of the drawings, or what the student is to choose from.
fn stands_there(set: &SetPaper, value: f64) -> bool {
    let near = |other: f64| (other - value).abs() <= 1e-9 * value.abs().max(1e-12);
    let workings = set.solved.workings();
    let given: Vec<f64> =
        workings.chapter(Chapter::Given).map(|(_, working)| working.value.value.abs()).collect();
    let section = set.solved.section().properties();
    let corners: Vec<f64> = set.solved.problem().parts.iter().flat_map(coordinates).collect();
    // Dimensions are differences of stations, and of the places of corners.
    let stations: Vec<f64> = set.solved.beam().stations().collect();
    let differences = |all: &[f64]| all.iter().any(|one| all.iter().any(|other| near(one - other)));
    given.iter().any(|given| near(*given))
        || near(section.height())
        || differences(&stations)
        || differences(&corners)
}

fn coordinates(part: &Part) -> Vec<f64> {
    let ends = part.outline.path.iter().map(|edge| match *edge {
        Edge::Line { to } | Edge::Arc { to, .. } => to,
    });
    ends.flat_map(|end| [end.x, end.y]).collect()
}

/// What of a key a text tells: right values, values of mistakes, what mistakes are called and what is said of them.
pub fn leaks(set: &SetPaper, text: &str) -> Vec<String> {
    // What there is to choose from stands on the paper, and another value may be the same number of another unit.
    let choices: Vec<String> = set
        .parts()
        .filter_map(|part| if let Ask::Choice(choice) = &part.ask { Some(choice) } else { None })
        .flat_map(|choice| choice.alternatives.iter().map(|one| (&choice.value.working, one.value)))
        .flat_map(|(working, value)| writings(set, working, value))
        .collect();
    let mut leaks = Vec::new();
    for value in values(set) {
        let wrong = value.mistakes.iter().map(|known| known.value);
        for told in std::iter::once(value.right).chain(wrong) {
            if stands_there(set, told.abs()) {
                continue;
            }
            let texts = writings(set, &value.working, told).into_iter();
            let found = texts.filter(|told| !choices.contains(told) && tells(text, told));
            leaks.extend(found.map(|found| format!("{}: {found}", value.working)));
        }
        for known in &value.mistakes {
            let words = [&known.mistake, &known.feedback, &known.does];
            leaks.extend(words.into_iter().filter(|words| text.contains(words.as_str())).cloned());
        }
    }
    leaks
}

/// A drawing's markup, of each path, polygon and place nothing but its name.
pub fn without_coordinates(drawing: &str) -> String {
    const PLACES: [&str; 12] = ["d", "points", "x", "y", "x1", "y1", "x2", "y2", "cx", "cy", "r", "viewBox"];
    let mut parts = drawing.split('"');
    let mut out = parts.next().unwrap_or_default().to_owned();
    while let (Some(value), Some(next)) = (parts.next(), parts.next()) {
        let name = out.strip_suffix('=').and_then(|tag| tag.rsplit(' ').next()).unwrap_or_default();
        if !PLACES.contains(&name) {
            out.push_str(value);
        }
        out.push_str(next);
    }
    out
}
