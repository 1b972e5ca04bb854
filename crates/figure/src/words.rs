//! The beam in words: the passages of the descriptions, from the same data as the marks.

use crate::chain;
use crate::drawing::Description;
use crate::sketch::Shows;
use crate::support::BeamPlace;
use crate::view::BeamView;
use mechanics::beam::{Hold, Load, Reaction, Support};
use workings::dimension::Dimension;
use workings::problem::SupportKind;
use workings::role::Role;

/// The longest short description, characters.
pub const SHORT: usize = 250;

/// A station as text.
pub fn station(view: &BeamView<'_>, value: f64) -> String {
    view.scribe.station_text(value)
}

/// Any station as text: one that the lesson gives with all its digits, a computed one rounded.
pub fn place(view: &BeamView<'_>, value: f64) -> String {
    let near = 1e-9 * view.problem.beam.length;
    let mut given = view.solution.stations().chain([view.problem.slice.at]);
    if given.any(|other| (other - value).abs() <= near) {
        station(view, value)
    } else {
        view.scribe.text(value, Dimension::LENGTH, Role::Station)
    }
}

/// Words with their first letter made a capital.
pub fn capitalized(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or(String::new(), |first| first.to_uppercase().chain(letters).collect())
}

/// The kind of a support in words.
fn kind(support: &Support, kind: SupportKind, place: BeamPlace) -> &'static str {
    match (support.transverse, support.rotation) {
        (Hold::Rigid { .. }, Hold::Rigid { .. }) if place == BeamPlace::Inside => "fixed",
        (Hold::Rigid { .. }, Hold::Rigid { .. }) => "fixed end",
        (Hold::Rigid { .. }, Hold::Spring { .. }) => "pin with a spring against turning",
        (Hold::Rigid { .. }, Hold::Free) if kind == SupportKind::Roller => "roller",
        (Hold::Rigid { .. }, Hold::Free) => "pin",
        (Hold::Free, Hold::Rigid { .. }) => "guided",
        (Hold::Spring { .. }, Hold::Free) => "spring",
        (Hold::Spring { .. }, Hold::Rigid { .. }) => "guided, on a spring",
        (Hold::Spring { .. }, Hold::Spring { .. }) => "spring, and a spring against turning",
        (Hold::Free, Hold::Spring { .. }) => "spring against turning",
        (Hold::Free, Hold::Free) => "free",
    }
}

/// The stiffness and the settlement of a support, in words.
fn remarks(view: &BeamView<'_>, support: &Support) -> String {
    let mut remarks = Vec::new();
    if let Hold::Spring { stiffness } = support.transverse {
        let text = view.scribe.given_text(stiffness, Dimension::FORCE_PER_LENGTH, Role::SupportStiffness);
        remarks.push(format!("stiffness {text}"));
    }
    if let Hold::Spring { stiffness } = support.rotation {
        let text = view.scribe.given_text(stiffness, Dimension::MOMENT, Role::SupportStiffness);
        remarks.push(format!("stiffness against turning {text}"));
    }
    if let Hold::Rigid { moved } = support.transverse
        && moved != 0.0
    {
        let text = view.scribe.given_text(moved.abs(), Dimension::LENGTH, Role::Settlement);
        remarks.push(format!("{} {text}", if moved < 0.0 { "settles" } else { "rises" }));
    }
    if let Hold::Rigid { moved } = support.rotation
        && moved != 0.0
    {
        let text = view.scribe.given_text(moved.abs(), Dimension::NONE, Role::Slope);
        remarks.push(format!("turned by {text}, {}", turning(moved)));
    }
    remarks.join("; ")
}

/// The sense of a turn.
pub fn turning(ccw: f64) -> &'static str {
    if ccw > 0.0 { "counter-clockwise" } else { "clockwise" }
}

/// The beam, its supports and hinges.
pub fn beam(view: &BeamView<'_>, long: &mut Description) {
    long.sentence(format!("A beam {} long.", station(view, view.problem.beam.length)));
    let rows = view.problem.beam.supports.iter().enumerate().map(|(number, support)| {
        vec![
            view.support_name(number).to_owned(),
            kind(support, view.support_kind(number), view.place(support.station)).to_owned(),
            station(view, support.station),
            remarks(view, support),
        ]
    });
    let rows: Vec<Vec<String>> = rows.collect();
    if rows.iter().all(|row| row[3].is_empty()) {
        let rows = rows.into_iter().map(|mut row| {
            row.truncate(3);
            row
        });
        long.table("Supports", &["Name", "Kind", "Station"], rows.collect());
    } else {
        long.table("Supports", &["Name", "Kind", "Station", "Remark"], rows);
    }
    hinges(view, long);
}

/// The beam freed of its supports.
pub fn free_beam(view: &BeamView<'_>, long: &mut Description) {
    let length = station(view, view.problem.beam.length);
    long.sentence(format!("A beam {length} long, freed of its supports: their reactions act on it."));
    hinges(view, long);
}

fn hinges(view: &BeamView<'_>, long: &mut Description) {
    let hinges: Vec<String> = view.problem.beam.hinges.iter().map(|&hinge| station(view, hinge)).collect();
    if let [hinge] = hinges.as_slice() {
        long.sentence(format!("An internal hinge stands at {hinge}."));
    } else if !hinges.is_empty() {
        long.sentence(format!("Internal hinges stand at {}.", hinges.join(", ")));
    }
}

/// The loads in a table.
pub fn loads(view: &BeamView<'_>, long: &mut Description) {
    let scribe = view.scribe;
    let mut rows = Vec::new();
    for (number, load) in view.problem.beam.loads.iter().enumerate() {
        let label = view.problem.loads.get(number);
        let symbol = |role: Role| scribe.symbol_text(role, view.load_index(number));
        let vertical = |down: f64| if down > 0.0 { "down" } else { "up" };
        rows.push(match *load {
            Load::Force { station: at, down } => vec![
                "point force".to_owned(),
                symbol(Role::PointForce),
                station(view, at),
                scribe.given_text(down.abs(), Dimension::FORCE, Role::PointForce),
                vertical(down).to_owned(),
            ],
            Load::Couple { station: at, ccw } => vec![
                "couple".to_owned(),
                symbol(Role::Couple),
                station(view, at),
                scribe.given_text(ccw.abs(), Dimension::MOMENT, Role::Couple),
                turning(ccw).to_owned(),
            ],
            Load::Spread { from, to, down_from, down_to } => {
                let size =
                    |down: f64| scribe.terse_text(down.abs(), Dimension::FORCE_PER_LENGTH, Role::SpreadLoad);
                let weight = label.is_some_and(|label| label.self_weight);
                let kind = if weight {
                    "own weight"
                } else if down_from == down_to {
                    "uniform load"
                } else {
                    "linear load"
                };
                let (sizes, direction) = if down_from == down_to {
                    (size(down_from), vertical(down_from).to_owned())
                } else if down_from * down_to < 0.0 {
                    (
                        format!("{} to {}", size(down_from), size(down_to)),
                        format!("{} at its beginning, {} at its end", vertical(down_from), vertical(down_to)),
                    )
                } else {
                    let sizes = format!("{} to {}", size(down_from), size(down_to));
                    (sizes, vertical(if down_from == 0.0 { down_to } else { down_from }).to_owned())
                };
                let stretch = format!("{} to {}", station(view, from), station(view, to));
                let symbol = if weight { String::new() } else { symbol(Role::SpreadLoad) };
                vec![kind.to_owned(), symbol, stretch, sizes, direction]
            }
        });
    }
    if rows.is_empty() {
        long.sentence("No load stands on it.");
    }
    if rows.len() > crate::loads::MOST_LABELS {
        long.sentence(format!(
            "Only the {} largest of the {} loads are labelled in the drawing; the table tells all.",
            crate::loads::MOST_LABELS,
            rows.len()
        ));
    }
    long.table("Loads", &["Kind", "Symbol", "Station", "Size", "Direction"], rows);
}

/// The reactions in a table.
pub fn reactions(view: &BeamView<'_>, reactions: &[Reaction], long: &mut Description) {
    let scribe = view.scribe;
    let mut rows = Vec::new();
    for reaction in reactions {
        let name = view.support_name(reaction.support);
        if reaction.force != 0.0 {
            rows.push(vec![
                scribe.symbol_text(Role::Reaction, name),
                "force".to_owned(),
                station(view, reaction.station),
                scribe.text(reaction.force.abs(), Dimension::FORCE, Role::Reaction),
                if reaction.force > 0.0 { "up" } else { "down" }.to_owned(),
            ]);
        }
        if reaction.couple != 0.0 {
            rows.push(vec![
                scribe.symbol_text(Role::ReactionCouple, name),
                "couple".to_owned(),
                station(view, reaction.station),
                scribe.text(reaction.couple.abs(), Dimension::MOMENT, Role::ReactionCouple),
                turning(reaction.couple).to_owned(),
            ]);
        }
    }
    if rows.is_empty() {
        long.sentence("All reactions are zero.");
    }
    long.table("Reactions on the beam", &["Symbol", "Kind", "Station", "Size", "Direction"], rows);
}

/// The chain of dimensions.
pub fn dimensions(view: &BeamView<'_>, long: &mut Description) {
    let stations = chain::stations(view);
    let parts: Vec<String> = stations.windows(2).map(|pair| station(view, pair[1] - pair[0])).collect();
    let whole = station(view, view.problem.beam.length);
    if parts.len() > 1 {
        long.sentence(format!("Dimensions from left to right: {}; in all {whole}.", parts.join(", ")));
    } else {
        long.sentence(format!("Dimension: {whole}."));
    }
}

/// Where the slice is taken.
pub fn slice(view: &BeamView<'_>, long: &mut Description) {
    let at = station(view, view.problem.slice.at);
    let symbol = view.scribe.symbol_text(Role::Station, "");
    long.sentence(format!("The slice is taken at {symbol} = {at} from the left end."));
}

/// How long the arrows are.
pub fn arrows(stretched: bool, long: &mut Description) {
    long.sentence(if stretched {
        "Arrows of one kind are to one scale, but the shortest are drawn longer, so that they can be seen."
    } else {
        "Arrows of one kind are to one scale."
    });
}

/// The supports in a few words: `fixed at A`, `pin at A and roller at B`, `5 supports`.
fn few_supports(view: &BeamView<'_>) -> String {
    let supports = &view.problem.beam.supports;
    if supports.len() > 3 {
        return format!("{} supports", supports.len());
    }
    let each: Vec<String> = supports
        .iter()
        .enumerate()
        .map(|(number, support)| {
            let place = view.place(support.station);
            format!(
                "{} at {}",
                kind(support, view.support_kind(number), place),
                station(view, support.station)
            )
        })
        .collect();
    match each.as_slice() {
        [] => "no support".to_owned(),
        [only] => only.clone(),
        [rest @ .., last] => format!("{} and {last}", rest.join(", ")),
    }
}

/// The loads in a few words: `2 point forces, 1 couple and 1 spread load`.
fn few_loads(view: &BeamView<'_>) -> String {
    let count = |kind: fn(&Load) -> bool| view.problem.beam.loads.iter().filter(|load| kind(load)).count();
    let mut parts = Vec::new();
    for (number, one, many) in [
        (count(|load| matches!(load, Load::Force { .. })), "point force", "point forces"),
        (count(|load| matches!(load, Load::Couple { .. })), "couple", "couples"),
        (count(|load| matches!(load, Load::Spread { .. })), "spread load", "spread loads"),
    ] {
        if number > 0 {
            parts.push(format!("{number} {}", if number == 1 { one } else { many }));
        }
    }
    match parts.as_slice() {
        [] => "no load".to_owned(),
        [only] => only.clone(),
        [rest @ .., last] => format!("{} and {last}", rest.join(", ")),
    }
}

/// The beam in one sentence.
pub fn short_beam(view: &BeamView<'_>, shows: Shows) -> String {
    let length = station(view, view.problem.beam.length);
    let loads = few_loads(view);
    let mut text = if shows.supports {
        format!("Beam, {length} long: {}; {loads}", few_supports(view))
    } else {
        format!("Free body of a beam, {length} long: {loads}")
    };
    if shows.reactions {
        text.push_str(", with the reactions");
    }
    if shows.slice {
        text.push_str(&format!("; the slice is at {}", station(view, view.problem.slice.at)));
    }
    text.push('.');
    shortened(text)
}

/// A short description held to its length, cut at a word.
pub fn shortened(text: String) -> String {
    if text.chars().count() <= SHORT {
        return text;
    }
    let kept: String = text.chars().take(SHORT - 1).collect();
    let end = kept.rfind(' ').unwrap_or(kept.len());
    format!("{}…", &kept[..end])
}
