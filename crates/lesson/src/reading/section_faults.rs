//! What the engine finds wrong with a section or a shape, in words.

use super::outline::Drawn;
use super::parts::Extent;
use super::words::{across, listed};
use crate::finding::Report;
use mechanics::section::{Dimension, Fault, Part, Ring};
use std::ops::Range;
use workings::style::Style;

/// Where a part stands in the file.
#[derive(Clone, Debug)]
pub(super) struct PartPlace {
    pub(super) span: Range<usize>,
    /// The place that says how it is called, or the whole.
    pub(super) name: Range<usize>,
    /// The entries of its outline, where it has one.
    pub(super) outline: Vec<Range<usize>>,
    pub(super) holes: Vec<(Range<usize>, Vec<Range<usize>>)>,
}

impl PartPlace {
    pub(super) fn new(span: Range<usize>, name: Range<usize>) -> Self {
        Self { span, name, outline: Vec::new(), holes: Vec::new() }
    }

    pub(super) fn with_outline(mut self, drawn: &Drawn) -> Self {
        self.outline = drawn.entries.clone();
        self
    }

    /// The place of a side: the entry that ends it; of the side that closes the loop, the first entry.
    fn side(&self, ring: Ring, side: usize) -> Range<usize> {
        let (whole, entries) = match ring {
            Ring::Outline => (&self.span, &self.outline),
            Ring::Hole(hole) => match self.holes.get(hole) {
                Some((span, entries)) => (span, entries),
                None => (&self.span, &self.outline),
            },
        };
        entries.get(side + 1).or(entries.first()).unwrap_or(whole).clone()
    }

    fn ring(&self, ring: Ring) -> Range<usize> {
        match ring {
            Ring::Outline => self.span.clone(),
            Ring::Hole(hole) => self.holes.get(hole).map_or(self.span.clone(), |(span, _)| span.clone()),
        }
    }
}

/// Reports what is wrong with the parts of a section.
pub(super) fn tell(
    fault: &Fault,
    parts: &[Part],
    names: &[String],
    places: &[PartPlace],
    whole: &Range<usize>,
    style: &Style,
    report: &mut Report,
) {
    let size = |value: f64| across(style, value);
    let unknown = PartPlace::new(whole.clone(), whole.clone());
    let place = |part: &usize| places.get(*part).unwrap_or(&unknown);
    let name = |part: &usize| names.get(*part).map_or("this part", String::as_str);
    let ring_name = |ring: &Ring| if *ring == Ring::Outline { "the outline" } else { "the hole" };
    let (span, headline, mend) = match fault {
        Fault::NoParts => {
            (whole.clone(), "the section has no parts".to_owned(), "give it at least one".to_owned())
        }
        Fault::NotFinite { part, ring, side } => (
            place(part).side(*ring, *side),
            "this number is too large to compute with".to_owned(),
            "check the units".to_owned(),
        ),
        Fault::ModularRatio { part, .. } => (
            place(part).span.clone(),
            format!("the modulus E of {} cannot be set against that of the material", name(part)),
            "give both greater than zero, and of like size".to_owned(),
        ),
        Fault::NoArea { part, ring } => (
            place(part).ring(*ring),
            format!("{} encloses no area", ring_name(ring)),
            "give corners that do not lie on one line".to_owned(),
        ),
        Fault::SidesCross { part, ring, first, second, at } => (
            place(part).side(*ring, *second),
            format!(
                "sides {} and {} of {} cross at ({}, {})",
                first + 1,
                second + 1,
                ring_name(ring),
                size(at.x),
                size(at.y)
            ),
            "give the corners in order, round the outline".to_owned(),
        ),
        Fault::ArcOffCentre { part, ring, side, start_distance, end_distance } => (
            place(part).side(*ring, *side),
            format!(
                "the arc's ends lie {} and {} from its centre: no circle passes through both",
                size(*start_distance),
                size(*end_distance)
            ),
            "move one end or the centre so that the two distances are equal".to_owned(),
        ),
        Fault::ArcEndsMeet { part, ring, side } => (
            place(part).side(*ring, *side),
            "this arc ends where it begins".to_owned(),
            "for a full circle give two arcs, or shape = \"circle\"".to_owned(),
        ),
        Fault::HoleCrossesOutline { part, hole, .. } => (
            place(part).ring(Ring::Hole(*hole)),
            "the hole crosses the outline".to_owned(),
            "move the hole inside; a notch must be drawn as part of the outline".to_owned(),
        ),
        Fault::HoleOutside { part, hole } => (
            place(part).ring(Ring::Hole(*hole)),
            "the hole lies outside the material".to_owned(),
            "move it inside, or take it out".to_owned(),
        ),
        Fault::HolesOverlap { part, first, second } => (
            place(part).ring(Ring::Hole(*second)),
            format!("holes {} and {} overlap or touch", first + 1, second + 1),
            "move them apart, or draw them as one hole".to_owned(),
        ),
        Fault::PartsOverlap { first, second, from, to } => {
            let height =
                |part: &usize| parts.get(*part).and_then(Extent::of).map_or(0.0, |extent| extent.bottom);
            let (lower, upper) =
                if height(first) <= height(second) { (first, second) } else { (second, first) };
            (
                place(second).name.clone(),
                format!(
                    "{} and {} overlap between y = {} and {}: what they share would count twice",
                    name(first),
                    name(second),
                    size(*from),
                    size(*to)
                ),
                format!(
                    "let {} end at {}, or {} begin at {}",
                    name(lower),
                    size(*from),
                    name(upper),
                    size(*to)
                ),
            )
        }
        Fault::PartsApart { parts: apart, touching_at } => {
            let which: Vec<&str> = apart.iter().map(name).collect();
            let touch = if apart.len() == 1 { "touches" } else { "touch" };
            let only = match touching_at {
                Some(at) => {
                    format!("{touch} the other parts only at the point ({}, {})", size(at.x), size(at.y))
                }
                None => format!("{touch} none of the other parts"),
            };
            let first = apart.first().map_or(whole.clone(), |part| place(part).name.clone());
            (
                first,
                format!("{} {only}: no shear can pass between them", listed(&which, "and")),
                "let the parts lie against each other along a line".to_owned(),
            )
        }
        Fault::DimensionSize { .. } | Fault::DoesNotFit { .. } | Fault::TooFewCorners { .. } => {
            let (_, headline, mend) = of_shape(fault, "", style);
            (whole.clone(), headline, mend)
        }
    };
    report.add(span, headline).mend(mend);
}

/// What is wrong with the dimensions of a shape: the key at fault, the headline and the mend.
pub(super) fn of_shape(fault: &Fault, shape: &str, style: &Style) -> (&'static str, String, String) {
    let size = |value: f64| across(style, value);
    match fault {
        Fault::DimensionSize { dimension, value } => {
            let (word, key) = words(*dimension);
            (
                key,
                format!("the {word} must be greater than zero; it is {}", size(*value)),
                "give a greater value".to_owned(),
            )
        }
        Fault::DoesNotFit { pieces, room: (room, room_size) } => {
            let (room_word, room_key) = words(*room);
            let key = pieces.first().map_or("", |(dimension, _)| words(*dimension).1);
            let room = format!("{room_word} of {}", size(*room_size));
            let alike = pieces
                .windows(2)
                .all(|pair| pair[0].1 == pair[1].1 && words(pair[0].0).1 == words(pair[1].0).1)
                || shape == "I";
            match pieces.as_slice() {
                [(dimension, piece)] => {
                    let (word, _) = words(*dimension);
                    let solid = if shape == "tube" { ", or a solid circle" } else { "" };
                    (
                        key,
                        format!(
                            "the {word}, {}, must be less than the {room_word}, {}",
                            size(*piece),
                            size(*room_size)
                        ),
                        format!("give a smaller {word}, or a greater {}{solid}", room_key),
                    )
                }
                [(dimension, piece), ..] if alike => {
                    let word = plural(*dimension);
                    let key = if shape == "I" { "flange-thickness" } else { key };
                    (
                        key,
                        format!("the two {word}, {} each, do not fit in a {room}", size(*piece)),
                        format!("give thinner {word}, or a greater {room_word}"),
                    )
                }
                several => {
                    let each: Vec<String> = several
                        .iter()
                        .map(|(dimension, piece)| format!("{} of {}", words(*dimension).0, size(*piece)))
                        .collect();
                    (
                        key,
                        format!("the {} do not fit in a {room}", listed(&each, "and")),
                        format!("give smaller ones, or a greater {room_word}"),
                    )
                }
            }
        }
        _ => ("shape", "these dimensions make no shape".to_owned(), "check them".to_owned()),
    }
}

/// What a dimension is called, and the key that gives it.
fn words(dimension: Dimension) -> (&'static str, &'static str) {
    match dimension {
        Dimension::Breadth | Dimension::Base => ("width", "width"),
        Dimension::Height => ("height", "height"),
        Dimension::Diameter => ("diameter", "diameter"),
        Dimension::Radius => ("radius", "diameter"),
        Dimension::Wall => ("wall", "wall"),
        Dimension::SideWall | Dimension::WebThickness => ("web thickness", "web-thickness"),
        Dimension::TopWall | Dimension::BottomWall | Dimension::FlangeThickness => {
            ("flange thickness", "flange-thickness")
        }
        Dimension::TopBreadth | Dimension::TopFlangeBreadth => ("top width", "top-width"),
        Dimension::BottomBreadth | Dimension::BottomFlangeBreadth => ("bottom width", "bottom-width"),
        Dimension::FlangeBreadth => ("flange width", "width"),
        Dimension::TopFlangeThickness => ("top flange thickness", "top-thickness"),
        Dimension::BottomFlangeThickness => ("bottom flange thickness", "bottom-thickness"),
        Dimension::UprightLegThickness | Dimension::LevelLegThickness | Dimension::BottomThickness => {
            ("thickness", "thickness")
        }
        Dimension::RootRadius | Dimension::ToeRadius => ("root radius", "root-radius"),
        Dimension::ApexOffset | Dimension::TopOffset | Dimension::FlangeSlope => ("offset", "shape"),
    }
}

/// Two of a dimension.
fn plural(dimension: Dimension) -> &'static str {
    match dimension {
        Dimension::Wall => "walls",
        Dimension::SideWall | Dimension::WebThickness => "webs",
        Dimension::RootRadius | Dimension::ToeRadius => "root radii",
        _ => "flanges",
    }
}
