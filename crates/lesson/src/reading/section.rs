//! The section: a shape, a profile, an outline or parts; its joints.

use super::allowable;
use super::further_cuts;
use super::joints;
use super::materials;
use super::node::{Given, Table};
use super::outline::{self, Drawn};
use super::parts::{Extent, corner, moved};
use super::section_faults::{self, PartPlace};
use super::section_shape;
use super::words::{across, in_quotes, listed};
use crate::finding::Report;
use mechanics::section::{Figure, Part, Section};
use std::collections::HashMap;
use std::ops::Range;
use workings::material::PartMaterial;
use workings::problem::{FurtherCut, Joint};
use workings::reading::nearest;
use workings::style::Style;

/// The section as far as it was understood.
pub(super) struct SectionRead {
    pub(super) name: String,
    pub(super) parts: Vec<Part>,
    pub(super) part_names: Vec<String>,
    /// What each part is made of.
    pub(super) part_materials: Vec<PartMaterial>,
    /// The density of each part, kg/m³, where it has one of its own.
    pub(super) densities: Vec<Option<f64>>,
    /// For each name that the lecturer gave, the parts that it stands for.
    pub(super) by_name: HashMap<String, Vec<usize>>,
    pub(super) joints: Vec<Joint>,
    pub(super) further_cuts: Vec<FurtherCut>,
    /// The checked section; none where something is wrong with it.
    pub(super) section: Option<Section>,
}

/// A section more than so many times as wide as high, or as high as wide, is a slip of units, and its second moments would
/// lose the figures that the balances need.
const SLIMMEST: f64 = 1e3;

/// The same for a part, as a part of the larger side of the section: a foil of 2 µm in a section of 200 mm.
const THINNEST: f64 = 1e-5;

const KINDS: [&str; 4] = ["shape", "profile", "outline", "parts"];

/// The parts as they are gathered, one entry of each list a part.
#[derive(Default)]
pub(super) struct Gathered {
    pub(super) parts: Vec<Part>,
    names: Vec<String>,
    densities: Vec<Option<f64>>,
    materials: Vec<PartMaterial>,
    places: Vec<PartPlace>,
    pub(super) by_name: HashMap<String, Vec<usize>>,
    /// Names of parts that were refused.
    refused: Vec<String>,
    pub(super) sound: bool,
}

pub(super) fn read(
    table: &Table,
    elastic_modulus: Option<f64>,
    style: &Style,
    report: &mut Report,
) -> SectionRead {
    let mut gathered = Gathered { sound: true, ..Gathered::default() };
    let there: Vec<&str> = KINDS.into_iter().filter(|kind| table.has(kind)).collect();
    let mut name = "section".to_owned();
    match there.as_slice() {
        ["parts"] => {
            name = "built-up section".to_owned();
            refuse_shape_keys(table, report);
            for entry in table.tables("parts") {
                part(entry, elastic_modulus, &mut gathered, style, report);
            }
        }
        [_] => match piece(table, None, style, report) {
            Some(piece) => {
                name = piece.name.clone();
                whole(piece, table, &mut gathered);
            }
            None => gathered.sound = false,
        },
        [] => {
            gathered.sound = false;
            if !table.has_stranger {
                let words: Vec<String> = KINDS.iter().map(|kind| format!("`{kind}`")).collect();
                report
                    .add(table.span.clone(), "the section has no shape")
                    .mend(format!("give it one of {}, such as shape = \"T\"", listed(&words, "and")));
            }
        }
        several => {
            gathered.sound = false;
            let words: Vec<String> = several.iter().map(|kind| format!("`{kind}`")).collect();
            report
                .add(
                    table.get(several[1]).map_or(table.span.clone(), |node| node.key.clone()),
                    format!("the section has {} at once", listed(&words, "and")),
                )
                .mend("keep one; a shape among others is written as one of the parts");
        }
    }
    let section = if gathered.sound { checked(&gathered, &whole_place(table), style, report) } else { None };
    let joints = joints::read(table, &gathered, style, report);
    let further_cuts = further_cuts::read(table, section.as_ref(), report);
    SectionRead {
        name: table.owned_text("name").unwrap_or(name),
        parts: gathered.parts,
        part_names: gathered.names,
        part_materials: gathered.materials,
        densities: gathered.densities,
        by_name: gathered.by_name,
        joints,
        further_cuts,
        section,
    }
}

/// The place that says what the section is.
fn whole_place(table: &Table) -> Range<usize> {
    KINDS.iter().find(|kind| table.has(kind)).map_or(table.span.clone(), |kind| table.place(kind))
}

fn checked(gathered: &Gathered, whole: &Range<usize>, style: &Style, report: &mut Report) -> Option<Section> {
    match Section::new(gathered.parts.clone()) {
        Ok(section) => in_proportion(&section, gathered, whole, style, report).then_some(section),
        Err(faults) => {
            for fault in &faults {
                section_faults::tell(
                    fault,
                    &gathered.parts,
                    &gathered.names,
                    &gathered.places,
                    whole,
                    style,
                    report,
                );
            }
            None
        }
    }
}

/// Whether nothing in the section is so thin beside the rest that it must be a slip of units.
fn in_proportion(
    section: &Section,
    gathered: &Gathered,
    whole: &Range<usize>,
    style: &Style,
    report: &mut Report,
) -> bool {
    let of = section.properties();
    let mut sound = true;
    let mut tell = |place: Range<usize>, what: &str, breadth: f64, height: f64| {
        sound = false;
        let (breadth, height) = (across(style, breadth), across(style, height));
        report
            .add(place, format!("{what} {breadth} wide and {height} high is out of all proportion"))
            .mend("check the units of its dimensions");
    };
    let (breadth, height) = (of.breadth(), of.height());
    if breadth.max(height) > SLIMMEST * breadth.min(height) {
        tell(whole.clone(), "a section", breadth, height);
    }
    for (index, part) in gathered.parts.iter().enumerate() {
        let Some(extent) = Extent::of(part).filter(|_| gathered.parts.len() > 1) else { continue };
        let (wide, high) = (extent.right - extent.left, extent.top - extent.bottom);
        if wide.min(high) < THINNEST * breadth.max(height) {
            let place = gathered.places.get(index).map_or(whole.clone(), |place| place.name.clone());
            let name = gathered.names.get(index).map_or("part", String::as_str);
            tell(place, &format!("a {name}"), wide, high);
        }
    }
    sound
}

/// Dimensions that stand beside parts and belong to none of them.
fn refuse_shape_keys(table: &Table, report: &mut Report) {
    for (word, node) in table.iter() {
        if !matches!(word, "parts" | "joints" | "cuts" | "name") {
            report
                .add(node.key.clone(), format!("a section of parts has no `{word}` of its own"))
                .mend("write it in one of the parts, or take it out")
                .by_itself();
        }
    }
}

/// A shape, profile or outline with its holes, where it stands by itself.
struct Piece {
    name: String,
    parts: Vec<Part>,
    part_names: Vec<&'static str>,
    /// The outline's entries, where it was drawn.
    drawn: Option<Drawn>,
    holes: Vec<(Range<usize>, Vec<Range<usize>>)>,
    /// How far it was moved from where its shape was made, so that holes stand in the section's coordinates.
    extent: Extent,
}

/// What a section or a part is; `otherwise` is the shape of what says nothing.
fn piece(table: &Table, otherwise: Option<&str>, style: &Style, report: &mut Report) -> Option<Piece> {
    let mut piece = if table.has("outline") {
        let drawn = outline::read(table, "outline", report)?;
        let part = Part::of_outline(drawn.outline.clone(), Vec::new());
        // What is wrong with the outline is told when the whole section is checked; until then its size is not needed.
        let nowhere = Extent { left: 0.0, right: 0.0, bottom: 0.0, top: 0.0 };
        let extent = Extent::of(&part).unwrap_or(nowhere);
        Piece {
            name: "section".to_owned(),
            parts: vec![part],
            part_names: vec!["section"],
            drawn: Some(drawn),
            holes: Vec::new(),
            extent,
        }
    } else {
        let (name, shaped) = if table.has("profile") {
            super::profile::read(table, report)?
        } else {
            let shaped = section_shape::read(section_shape::asked(table, otherwise)?, table, style, report)?;
            (shaped.name, shaped)
        };
        let Some(extent) = Extent::of_all(&shaped.parts) else {
            // Its dimensions fit each other, so they can only be out of the range of numbers.
            report
                .add(table.span.clone(), "these dimensions are too large or too small to compute with")
                .mend("check the units");
            return None;
        };
        let corner = corner(table, extent.right - extent.left, extent.top - extent.bottom, report)?;
        let (right, up) = (corner.x - extent.left, corner.y - extent.bottom);
        let parts = shaped.parts.into_iter().map(|part| moved(part, right, up)).collect();
        let extent =
            Extent { left: corner.x, right: extent.right + right, bottom: corner.y, top: extent.top + up };
        Piece {
            name: name.to_owned(),
            parts,
            part_names: shaped.part_names,
            drawn: None,
            holes: Vec::new(),
            extent,
        }
    };
    holes(table, &mut piece, report)?;
    Some(piece)
}

fn holes(table: &Table, piece: &mut Piece, report: &mut Report) -> Option<()> {
    if !table.has("holes") {
        return Some(());
    }
    if piece.parts.len() > 1 {
        report
            .add(
                table.place("holes"),
                format!(
                    "{} is made of several parts: in which the hole is, is not said",
                    in_quotes(&piece.name)
                ),
            )
            .mend("write the section as parts, and the hole in one of them");
        return None;
    }
    let mut sound = true;
    for entry in table.tables("holes") {
        match outline::hole(entry, report) {
            Some(drawn) => {
                piece.holes.push((entry.span.clone(), drawn.entries));
                if let Some(part) = piece.parts.first_mut() {
                    part.holes.push(drawn.outline);
                    // With a hole it is no longer the figure of the handbooks.
                    part.figure = Figure::Outline;
                }
            }
            None => sound = false,
        }
    }
    sound.then_some(())
}

/// A section that is one shape, profile or outline.
fn whole(piece: Piece, table: &Table, gathered: &mut Gathered) {
    let span = whole_place(table);
    for (part, name) in piece.parts.into_iter().zip(piece.part_names) {
        let mut place = PartPlace::new(span.clone(), span.clone());
        if let Some(drawn) = &piece.drawn {
            place = place.with_outline(drawn);
        }
        place.holes.clone_from(&piece.holes);
        gathered.by_name.insert(name.to_owned(), vec![gathered.parts.len()]);
        gathered.parts.push(part);
        gathered.names.push(name.to_owned());
        gathered.densities.push(None);
        gathered.materials.push(PartMaterial::default());
        gathered.places.push(place);
    }
}

/// One of the parts of a section.
fn part(
    entry: &Table,
    elastic_modulus: Option<f64>,
    gathered: &mut Gathered,
    style: &Style,
    report: &mut Report,
) {
    let name = entry.text("name").map(|given| given.value.trim().to_owned());
    let name_place = entry.place("name");
    let read = placed(entry, gathered, style, report);
    let name = name.unwrap_or_default();
    if gathered.by_name.contains_key(&name) || gathered.refused.contains(&name) {
        report
            .add(name_place.clone(), format!("two parts are called {}", in_quotes(&name)))
            .mend("give each a name of its own, such as \"plank 1\" and \"plank 2\"");
        gathered.sound = false;
    }
    let bad_modulus = entry.has("E") && entry.value("E").is_none();
    let Some(piece) = read.filter(|_| !bad_modulus && !name.is_empty()) else {
        gathered.sound = false;
        gathered.refused.push(name);
        return;
    };
    let modular_ratio = match (entry.value("E"), elastic_modulus) {
        (Some(own), Some(reference)) => own.value / reference,
        _ => 1.0,
    };
    let several = piece.parts.len() > 1;
    let first = gathered.parts.len();
    for (part, part_name) in piece.parts.into_iter().zip(piece.part_names) {
        let mut place = PartPlace::new(entry.span.clone(), name_place.clone());
        if let Some(drawn) = &piece.drawn {
            place = place.with_outline(drawn);
        }
        place.holes.clone_from(&piece.holes);
        gathered.parts.push(part.with_modular_ratio(modular_ratio));
        gathered.names.push(if several { format!("{name} {part_name}") } else { name.clone() });
        gathered.densities.push(entry.value("density").map(|given| given.value));
        gathered.materials.push(PartMaterial {
            name: entry.owned_text("material"),
            elastic_modulus: entry.value("E").map(|given| given.value),
            shear: materials::shear(entry),
            allowable: entry.table("allowable").map(allowable::stated).unwrap_or_default(),
        });
        gathered.places.push(place);
    }
    gathered.by_name.insert(name, (first..gathered.parts.len()).collect());
}

/// A part where it stands: by its keys, or on top of another part.
fn placed(entry: &Table, gathered: &Gathered, style: &Style, report: &mut Report) -> Option<Piece> {
    for word in ["left", "right", "bottom", "top", "on"] {
        if let Some(node) = entry.get(word).filter(|_| entry.has("outline")) {
            report
                .add(node.key.clone(), format!("an outline has no `{word}`: its corners say where it stands"))
                .mend("take it out")
                .by_itself();
        }
    }
    let below = match entry.text("on") {
        None if entry.has("on") => return None,
        None => 0.0,
        Some(on) => match gathered.by_name.get(on.value.trim()) {
            Some(indices) => {
                let parts: Vec<Part> =
                    indices.iter().filter_map(|&index| gathered.parts.get(index).cloned()).collect();
                Extent::of_all(&parts)?.top
            }
            None => {
                if !gathered.refused.iter().any(|refused| refused == on.value.trim()) {
                    no_such_part(&on, gathered, "no earlier part is called", report);
                }
                return None;
            }
        },
    };
    let mut piece = piece(entry, Some("rectangle"), style, report)?;
    if entry.has("on") {
        let up = below - piece.extent.bottom;
        piece.parts = piece.parts.into_iter().map(|part| moved(part, 0.0, up)).collect();
    }
    Some(piece)
}

pub(super) fn no_such_part(given: &Given<&str>, gathered: &Gathered, headline: &str, report: &mut Report) {
    let mut names: Vec<&str> = gathered.by_name.keys().map(String::as_str).collect();
    names.sort_unstable();
    let mend = match nearest(given.value, names.iter().copied()) {
        Some(near) => format!("did you mean {}?", in_quotes(near)),
        None if names.is_empty() => "name a part that stands before it in the list".to_owned(),
        None => {
            let names: Vec<String> = names.iter().map(|name| in_quotes(name)).collect();
            format!("there is {}", listed(&names, "and"))
        }
    };
    report.add(given.span.clone(), format!("{headline} {}", in_quotes(given.value))).mend(mend);
}
