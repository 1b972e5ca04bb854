//! Where the slice is taken and where it is cut.

use super::node::What;
use super::node::{Given, Table};
use super::quantity::{Known, Written, of_form};
use super::section::SectionRead;
use super::words::{across, along, in_quotes, listed, quoted};
use crate::finding::Report;
use crate::key::{Form, Key, Need};
use mechanics::beam::Beam;
use mechanics::section::{Contact, CutFault, HeightSide, Point, Section};
use workings::problem::{CutPlace, Joint, SlicePlace};
use workings::reading::nearest;
use workings::style::Style;

/// How near to the lowest or highest fibre a cut leaves nothing beyond it, as a part of the height.
const AT_THE_EDGE: f64 = 1e-9;

pub(super) fn slice(
    table: &Table,
    beam_length: Option<f64>,
    style: &Style,
    report: &mut Report,
) -> Option<SlicePlace> {
    let at = table.value("at");
    let length = table.value("length");
    if let (Some(at), Some(end)) = (&at, beam_length) {
        let place = at.span.clone();
        if at.value < 0.0 {
            report
                .add(
                    place,
                    format!(
                        "the slice begins at {}, off the beam, which begins at 0",
                        along(style, at.value)
                    ),
                )
                .mend(format!("give a position from 0 to {}", along(style, end)));
            return None;
        }
        if at.value >= end {
            report
                .add(
                    place,
                    format!(
                        "the slice begins at {}, off the beam, which ends at {}",
                        along(style, at.value),
                        along(style, end)
                    ),
                )
                .mend(format!("give a position from 0 to {}", along(style, end)));
            return None;
        }
        // Read from decimals, the sum may miss the end by its last bits.
        if let Some(length) = length.as_ref().filter(|length| at.value + length.value > end * (1.0 + 1e-12)) {
            report
                .add(
                    length.span.clone(),
                    format!(
                        "the slice ends at {}, off the beam, which ends at {}",
                        along(style, at.value + length.value),
                        along(style, end)
                    ),
                )
                .mend(format!(
                    "let it end at {} or before: begin it earlier, or make it shorter",
                    along(style, end)
                ));
            return None;
        }
    }
    Some(SlicePlace { at: at?.value, length: length?.value })
}

pub(super) fn cut(
    table: &Table,
    read: Option<&SectionRead>,
    known: &Known,
    file: &str,
    style: &Style,
    report: &mut Report,
) -> Option<CutRead> {
    let given = table.text("at")?;
    let section = read.and_then(|read| read.section.as_ref());
    let place = place(&given, read, known, file, style, report)?;
    let (read, section) = (read?, section?);
    let height = match &place {
        Place::Height(height) => *height,
        Place::FromNeutralAxis(up) => section.neutral_axis() + up,
        Place::Joint(index) => joint_height(read.joints.get(*index)?, section, &given, (style, report))?,
        Place::Edge { parts, top } => edge(section, parts, *top)?,
    };
    let joint = if let Place::Joint(index) = place { read.joints.get(index) } else { None };
    if !meets(section, height, &given, style, report) {
        return None;
    }
    let beyond = match table.text("keep").map(|given| given.value) {
        Some("above") => HeightSide::Above,
        Some(_) => HeightSide::Below,
        None => joint.map_or_else(
            || if height >= section.neutral_axis() { HeightSide::Above } else { HeightSide::Below },
            |joint| side_of_joint(section, joint, height),
        ),
    };
    let side = match table.text("side").map(|given| given.value) {
        Some("above") => HeightSide::Above,
        Some(_) => HeightSide::Below,
        None => narrower(section, height, beyond),
    };
    let from_axis = if let Place::FromNeutralAxis(up) = place { Some(up) } else { None };
    let joint = joint.map(|joint| joint.name.clone());
    Some(CutRead { place: CutPlace { height, side, beyond, joint }, from_axis })
}

/// A cut as it was read.
pub(super) struct CutRead {
    pub(super) place: CutPlace,
    /// How far above the neutral axis it was put, m; `None` where it was put anywhere else.
    pub(super) from_axis: Option<f64>,
}

/// Where a cut was asked for.
#[derive(Debug, PartialEq)]
enum Place {
    Height(f64),
    FromNeutralAxis(f64),
    Joint(usize),
    Edge { parts: Vec<usize>, top: bool },
}

fn place(
    given: &Given<&str>,
    read: Option<&SectionRead>,
    known: &Known,
    file: &str,
    style: &Style,
    report: &mut Report,
) -> Option<Place> {
    let text = given.value.trim();
    let joints: &[Joint] = read.map_or(&[], |read| &read.joints);
    if let Some(index) = joints.iter().position(|joint| joint.name == text) {
        return Some(Place::Joint(index));
    }
    if matches!(text, "neutral axis" | "the neutral axis") {
        return Some(Place::FromNeutralAxis(0.0));
    }
    for (ending, sign) in [
        ("above the neutral axis", 1.0),
        ("above neutral axis", 1.0),
        ("below the neutral axis", -1.0),
        ("below neutral axis", -1.0),
    ] {
        if let Some(distance) = text.strip_suffix(ending) {
            return length(distance.trim_end(), given, known, file, report)
                .map(|distance| Place::FromNeutralAxis(sign * distance));
        }
    }
    for (beginning, top) in
        [("top of ", true), ("bottom of ", false), ("the top of ", true), ("the bottom of ", false)]
    {
        let Some(part) = text.strip_prefix(beginning) else { continue };
        let part = part.trim();
        // Without a section that was understood its parts are not known.
        let by_name = read.filter(|read| read.section.is_some()).map(|read| &read.by_name)?;
        let parts = by_name.get(part).or_else(|| by_name.get(part.strip_prefix("the ").unwrap_or(part)));
        if let Some(parts) = parts {
            return Some(Place::Edge { parts: parts.clone(), top });
        }
        let mut names: Vec<&str> = by_name.keys().map(String::as_str).collect();
        names.sort_unstable();
        let mend = match nearest(part, names.iter().copied()) {
            Some(near) => format!("did you mean {}?", in_quotes(&format!("{beginning}{near}"))),
            None => format!(
                "its parts are {}",
                listed(&names.iter().map(|name| in_quotes(name)).collect::<Vec<_>>(), "and")
            ),
        };
        report
            .add(given.span.clone(), format!("the section has no part called {}", in_quotes(part)))
            .mend(mend);
        return None;
    }
    // Whatever holds a digit, and a name or an expression of the lecturer's own, is a height.
    let height = text.chars().any(|c| c.is_ascii_digit())
        || workings::reading::parse(text).is_ok_and(|parsed| {
            let names = parsed.names();
            !names.is_empty()
                && names
                    .iter()
                    .all(|(name, _)| known.names.contains_key(*name) || known.refused.contains(*name))
        });
    let near_joint = nearest(text, joints.iter().map(|joint| joint.name.as_str()).chain(["neutral axis"]));
    if height && near_joint.is_none() && !is_a_name(text) {
        return length(text, given, known, file, report).map(Place::Height);
    }
    let section_known = read.is_some_and(|read| read.section.is_some());
    if !section_known && near_joint.is_none() {
        return None;
    }
    if read.is_some_and(|read| read.further_cuts.iter().any(|cut| cut.name == text)) {
        let headline =
            format!("{} is one of the section's own cuts, and [cut] is the level one", quoted(text));
        report.add(given.span.clone(), headline).mend(format!(
            "give \"neutral axis\" or a height such as {}; what is under `cuts` is drawn and computed all the same",
            in_quotes(&across(style, 0.12))
        ));
        return None;
    }
    let names: Vec<String> = joints.iter().map(|joint| in_quotes(&joint.name)).collect();
    let mend = match near_joint {
        Some(near) => format!("did you mean {}?", in_quotes(near)),
        None if names.is_empty() => {
            "give \"neutral axis\", a height such as \"120 mm\", or an edge such as \"top of web\"".to_owned()
        }
        None => format!(
            "give {}, \"neutral axis\", or a height such as {}",
            listed(&names, "or"),
            in_quotes(&across(style, 0.12))
        ),
    };
    report.add(given.span.clone(), format!("{} is no place to cut at", quoted(text))).mend(mend);
    None
}

/// Whether a text such as `glue line 2` reads as the name of a joint rather than as a height: it begins with two words,
/// or with one that is followed by a number.
fn is_a_name(text: &str) -> bool {
    let mut words = text.split_whitespace();
    let begins = |word: Option<&str>| word.is_some_and(|word| word.chars().all(char::is_alphabetic));
    let next_is_word = |word: Option<&str>| word.is_some_and(|word| word.chars().all(char::is_alphanumeric));
    begins(words.next()) && next_is_word(words.next())
}

/// A length in the text of a cut.
fn length(text: &str, given: &Given<&str>, known: &Known, file: &str, report: &mut Report) -> Option<f64> {
    let key = Key::new("cut.at", Form::POSITION, Need::Required, "", "\"120 mm\"");
    // The length begins where the text does, so its places are those of the text.
    let written = Written { text, ..Written::new(given.value, given.span.clone(), file) };
    match of_form(&key, &written, known, report) {
        What::Quantity(quantity) => Some(quantity.value),
        _ => None,
    }
}

fn meets(section: &Section, height: f64, given: &Given<&str>, style: &Style, report: &mut Report) -> bool {
    let properties = section.properties();
    let (bottom, top) = (across(style, properties.bottom), across(style, properties.top));
    let here = across(style, height);
    match section.level_cut(height, HeightSide::Above) {
        Ok(_) => {}
        Err(CutFault::MissesSection { .. }) => {
            report
                .add(
                    given.span.clone(),
                    format!("the cut at {here} misses the section, which reaches from {bottom} to {top}"),
                )
                .mend(format!("cut between {bottom} and {top}"));
            return false;
        }
        Err(_) => {
            report
                .add(given.span.clone(), "the section cannot be cut there")
                .mend(format!("cut between {bottom} and {top}"));
            return false;
        }
    }
    let slack = AT_THE_EDGE * properties.height();
    if height <= properties.bottom + slack || height >= properties.top - slack {
        report
            .add(
                given.span.clone(),
                format!("the cut at {here} runs along the edge of the section: nothing lies beyond it"),
            )
            .mend(format!("cut between {bottom} and {top}"));
        return false;
    }
    true
}

/// The height of the top or the bottom of some parts.
fn edge(section: &Section, parts: &[usize], top: bool) -> Option<f64> {
    let parts: Vec<_> = parts.iter().filter_map(|&part| section.parts().get(part).cloned()).collect();
    let extent = super::parts::Extent::of_all(&parts)?;
    Some(if top { extent.top } else { extent.bottom })
}

/// The height of a joint that lies level; one that does not cannot be followed by a level cut.
fn joint_height(
    joint: &Joint,
    section: &Section,
    given: &Given<&str>,
    (style, report): (&Style, &mut Report),
) -> Option<f64> {
    let holds = |part: usize| joint.beyond.contains(&part);
    let lines = section.contacts().iter().filter(|contact| holds(contact.first) != holds(contact.second));
    let lines: Vec<_> = lines.collect();
    let first = lines.first()?;
    let height = first.start.y;
    let tolerance = AT_THE_EDGE * section.properties().height();
    let level = lines.iter().all(|line| line.is_level() && (line.start.y - height).abs() <= tolerance);
    // A level cut through the joint must part just what the joint holds, or its shear flow is not that of the cut.
    let beyond: f64 =
        joint.beyond.iter().filter_map(|&part| section.part_properties(part)).map(|part| part.area).sum();
    let whole = section.properties().plain_area;
    let above = plain_area_above(section, height);
    let parts_alone = [above, whole - above].iter().any(|area| (area - beyond).abs() <= 1e-9 * whole);
    if level && parts_alone {
        return Some(height);
    }
    let name = in_quotes(&joint.name);
    let headline = if level {
        format!("a level cut at {name} parts more than what the joint holds")
    } else {
        format!("{name} does not lie level: a level cut cannot follow it")
    };
    let along_its_face = if level { String::new() } else { along_its_face(joint, section, first, style) };
    report.add(given.span.clone(), headline).mend(format!(
        "cut at a height or at another joint; what this joint must carry is computed all the same{along_its_face}"
    ));
    None
}

/// How a cut along a face that stands upright or slopes is written: as one of the section's own cuts.
fn along_its_face(joint: &Joint, section: &Section, face: &Contact, style: &Style) -> String {
    let middle =
        joint.beyond.iter().find_map(|&part| section.part_properties(part)).map(|part| part.centroid);
    let Some(keep) = middle else { return String::new() };
    let point =
        |at: Point| format!("[{}, {}]", in_quotes(&across(style, at.x)), in_quotes(&across(style, at.y)));
    format!(
        ". A cut along its face is one of the section's own: cuts = [{{ name = \"face\", from = {}, to = {}, keep = {} }}]",
        point(face.start),
        point(face.end()),
        point(keep)
    )
}

/// The area as drawn, m², of the parts whose middle lies above a height at which the section is jointed.
fn plain_area_above(section: &Section, height: f64) -> f64 {
    let parts = (0..section.parts().len()).filter_map(|part| section.part_properties(part));
    parts.filter(|part| part.centroid.y > height).map(|part| part.area).sum()
}

/// On which side of the cut the parts lie that a joint holds.
fn side_of_joint(section: &Section, joint: &Joint, height: f64) -> HeightSide {
    let first = joint.beyond.first().and_then(|&part| section.part_properties(part));
    if first.is_some_and(|part| part.centroid.y > height) { HeightSide::Above } else { HeightSide::Below }
}

/// The side on which the section is narrower; where it is as wide on both, the side of the part beyond.
fn narrower(section: &Section, height: f64, beyond: HeightSide) -> HeightSide {
    let (below, above) = (section.width(height, HeightSide::Below), section.width(height, HeightSide::Above));
    let alike = (below - above).abs() <= AT_THE_EDGE * section.properties().breadth();
    if alike {
        beyond
    } else if below < above {
        HeightSide::Below
    } else {
        HeightSide::Above
    }
}

/// Reports what stands on the slice and makes the shear force jump within it.
pub(super) fn undisturbed(
    slice: &SlicePlace,
    table: &Table,
    beam: &Beam,
    style: &Style,
    report: &mut Report,
) {
    let inside = |station: f64| {
        let slack = 1e-9 * slice.length;
        station > slice.at + slack && station < slice.at + slice.length - slack
    };
    if let Some(station) =
        beam.supports.iter().map(|support| support.station).find(|&station| inside(station))
    {
        report
            .add(
                table.place("at"),
                format!("the support at {} stands under the slice, between its faces", along(style, station)),
            )
            .mend("take the slice beside it, or make it shorter");
    }
}
