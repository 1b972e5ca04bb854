//! The section: a shape, a rolled profile, an outline, or parts with their joints.

use super::{Form, Key, Need};
use std::borrow::Cow;
use workings::dimension::Dimension;

const ONE_KIND_OF_SECTION: Need =
    Need::Depends("the section has exactly one of `shape`, `profile`, `outline`, `parts`");
const ONE_KIND_OF_PIECE: Need = Need::Depends(
    "a section or a part is one of `shape`, `profile`, `outline`; a part that is none is a rectangle",
);
const ONE_KIND_OF_HOLE: Need =
    Need::Depends("a hole is one of `outline`, `diameter`, or `width` with `height`");
const DIMENSION: Need = Need::Depends("of the shapes that have it");

const SECTION: &[Key] = &[
    Key::new("section", Form::Table, Need::Required, "The cross-section of the beam.", ""),
    Key::new(
        "section.name",
        Form::Text,
        Need::Optional("made from its shape"),
        "What it is called.",
        r#""box girder""#,
    ),
    Key::new(
        "section.parts",
        Form::List,
        ONE_KIND_OF_SECTION,
        "Parts placed freely, each entry one part; without a shape of its own a part is a rectangle.",
        r#"[{ name = "plank 1", width = "100 mm", height = "40 mm" }]"#,
    ),
];

/// Keys of a section and of a part alike; `#` stands for the path of either.
const EITHER: &[Key] = &[
    Key::new(
        "#.shape",
        Form::Choice(SHAPE_NAMES),
        ONE_KIND_OF_PIECE,
        "Its shape, with dimensions of its own.",
        r#""T""#,
    ),
    Key::new(
        "#.profile",
        Form::Text,
        ONE_KIND_OF_PIECE,
        "A rolled profile of the catalogue.",
        r#""IPE 300""#,
    ),
    Key::new(
        "#.outline",
        Form::List,
        ONE_KIND_OF_PIECE,
        "Its outline as a list of corners and arcs in order; the last closes to the first.",
        r#"[{ corner = ["0 mm", "0 mm"] }, { corner = ["90 mm", "0 mm"] }, { corner = ["0 mm", "60 mm"] }]"#,
    ),
    Key::new(
        "#.holes",
        Form::List,
        Need::Optional("none"),
        "Holes in it, each entry one hole: an outline, a circle by its diameter, or a rectangle.",
        r#"[{ diameter = "40 mm", bottom = "60 mm" }]"#,
    ),
    Key::new("#.width", Form::SIZE, DIMENSION, "Its whole width, from side to side.", r#""120 mm""#),
    Key::new("#.height", Form::SIZE, DIMENSION, "Its whole height.", r#""150 mm""#),
    Key::new("#.diameter", Form::SIZE, DIMENSION, "Its outer diameter.", r#""80 mm""#),
    Key::new("#.wall", Form::SIZE, DIMENSION, "The thickness of the wall of a tube.", r#""5 mm""#),
    Key::new(
        "#.flange-thickness",
        Form::SIZE,
        DIMENSION,
        "The thickness of its flange or flanges.",
        r#""30 mm""#,
    ),
    Key::new(
        "#.web-thickness",
        Form::SIZE,
        DIMENSION,
        "The thickness of its web, or of each web.",
        r#""20 mm""#,
    ),
    Key::new("#.top-width", Form::SIZE, DIMENSION, "The width at its top.", r#""200 mm""#),
    Key::new("#.top-thickness", Form::SIZE, DIMENSION, "The thickness of its top flange.", r#""30 mm""#),
    Key::new("#.bottom-width", Form::SIZE, DIMENSION, "The width at its bottom.", r#""100 mm""#),
    Key::new(
        "#.bottom-thickness",
        Form::SIZE,
        DIMENSION,
        "The thickness of its bottom flange.",
        r#""20 mm""#,
    ),
    Key::new("#.thickness", Form::SIZE, DIMENSION, "The thickness of both legs of an angle.", r#""10 mm""#),
    Key::new(
        "#.root-radius",
        Form::SIZE,
        Need::Optional("sharp corners"),
        "The radius where flange and web, or leg and leg, meet.",
        r#""15 mm""#,
    ),
    Key::new(
        "#.upside-down",
        Form::YesNo,
        Need::Optional("false"),
        "Whether the shape stands on its head: a T with its flange below, a triangle on its point.",
        "true",
    ),
];

const PART: &[Key] = &[
    Key::new("section.parts[].name", Form::Text, Need::Required, "What the part is called.", r#""plank 1""#),
    Key::new(
        "section.parts[].E",
        Form::positive(Dimension::STRESS),
        Need::Optional("that of the material"),
        "Its own modulus of elasticity.",
        r#""11 GPa""#,
    ),
    Key::new(
        "section.parts[].poisson",
        Form::Share { most: 0.5 },
        Need::Optional("what its `shear-modulus` tells of it, or else 0.3, which is then said to be assumed"),
        "With an `E` of its own, its Poisson's ratio: the elastic stresses need it, and the shear modulus where that is not given.",
        "0.3",
    ),
    Key::new(
        "section.parts[].shear-modulus",
        Form::positive(Dimension::STRESS),
        Need::Optional("E / (2 (1 + poisson)), as of what is alike in all directions"),
        "With an `E` of its own, its shear modulus, on which the deflection of shear hangs; of timber along its grain about a sixteenth of E.",
        r#""690 MPa""#,
    ),
    Key::new(
        "section.parts[].material",
        Form::Text,
        Need::Optional("that of the material, or the names of the parts"),
        "What a part with a modulus of its own is made of.",
        r#""steel""#,
    ),
    Key::new(
        "section.parts[].allowable",
        Form::Table,
        Need::Optional("nothing is said of what it may bear"),
        "With an `E` of its own, what its material may be asked to bear; of the other parts [allowable] says it.",
        "",
    ),
    Key::new(
        "section.parts[].allowable.bending-stress",
        Form::positive(Dimension::STRESS),
        Need::Optional("no limit"),
        "The largest bending stress in it, whether tension or compression.",
        r#""160 MPa""#,
    ),
    Key::new(
        "section.parts[].allowable.tension",
        Form::positive(Dimension::STRESS),
        Need::Optional("`bending-stress`"),
        "The largest tension in it, where it is not that of compression.",
        r#""160 MPa""#,
    ),
    Key::new(
        "section.parts[].allowable.compression",
        Form::positive(Dimension::STRESS),
        Need::Optional("`bending-stress`"),
        "The largest compression in it, where it is not that of tension.",
        r#""160 MPa""#,
    ),
    Key::new(
        "section.parts[].allowable.shear-stress",
        Form::positive(Dimension::STRESS),
        Need::Optional("no limit"),
        "The largest shear stress in it.",
        r#""90 MPa""#,
    ),
    Key::new(
        "section.parts[].density",
        Form::Density,
        Need::Optional("that of the material"),
        "Its own density, where the beam's own weight counts.",
        r#""450 kg/m3""#,
    ),
];

/// Where a part or a hole stands; `#` stands for the path of either.
const PLACE: &[Key] = &[
    Key::new(
        "#.left",
        Form::POSITION,
        Need::Optional("it stands in the middle"),
        "Where its left side stands; 0 is the upright middle line of the section.",
        r#""-100 mm""#,
    ),
    Key::new(
        "#.right",
        Form::POSITION,
        Need::Optional("it stands in the middle"),
        "Where its right side stands, instead of `left`.",
        r#""100 mm""#,
    ),
    Key::new("#.bottom", Form::POSITION, Need::Optional("0"), "The height of its lower side.", r#""50 mm""#),
    Key::new(
        "#.top",
        Form::POSITION,
        Need::Optional(""),
        "The height of its upper side, instead of `bottom`.",
        r#""300 mm""#,
    ),
];

const ON: Key = Key::new(
    "section.parts[].on",
    Form::Text,
    Need::Optional(""),
    "The name of an earlier part on whose top it lies, instead of `bottom`.",
    r#""web""#,
);

const HOLE: &[Key] = &[
    Key::new("#.outline", Form::List, ONE_KIND_OF_HOLE, "Its outline as corners and arcs in order.", ""),
    Key::new("#.diameter", Form::SIZE, ONE_KIND_OF_HOLE, "The diameter of a round hole.", r#""40 mm""#),
    Key::new("#.width", Form::SIZE, ONE_KIND_OF_HOLE, "The width of a rectangular hole.", r#""60 mm""#),
    Key::new("#.height", Form::SIZE, ONE_KIND_OF_HOLE, "The height of a rectangular hole.", r#""20 mm""#),
];

const CORNER: &[Key] = &[
    Key::new(
        "#.corner",
        Form::Point,
        Need::Depends("each entry has exactly one of `corner`, `arc-to`; the first is a corner"),
        "A straight side to this corner: to the right, and up.",
        r#"["100 mm", "0 mm"]"#,
    ),
    Key::new(
        "#.arc-to",
        Form::Point,
        Need::Depends("each entry has exactly one of `corner`, `arc-to`"),
        "A circular arc to this point.",
        r#"["-50 mm", "0 mm"]"#,
    ),
    Key::new(
        "#.centre",
        Form::Point,
        Need::Depends("needed by an arc"),
        "The centre of the arc.",
        r#"["0 mm", "0 mm"]"#,
    ),
    Key::new(
        "#.turn",
        Form::Choice(&["counter-clockwise", "clockwise"]),
        Need::Optional("counter-clockwise"),
        "Which way the arc runs about its centre.",
        r#""clockwise""#,
    ),
];

const FURTHER_CUT: &[Key] = &[
    Key::new(
        "section.cuts",
        Form::List,
        Need::Optional("none"),
        "Further straight cuts across the section, beside the level one of `[cut]`: upright through a flange, sloping across a \
         web. Each must part the section.",
        r#"[{ name = "cut through the flange", from = ["60 mm", "160 mm"], to = ["60 mm", "200 mm"], keep = ["80 mm", "180 mm"] }]"#,
    ),
    Key::new(
        "section.cuts[].name",
        Form::Text,
        Need::Required,
        "What the cut is called.",
        r#""cut through the flange""#,
    ),
    Key::new(
        "section.cuts[].from",
        Form::Point,
        Need::Required,
        "Where it begins: to the right, and up; on the edge of the material or off it.",
        r#"["60 mm", "160 mm"]"#,
    ),
    Key::new(
        "section.cuts[].to",
        Form::Point,
        Need::Required,
        "Where it ends: to the right, and up.",
        r#"["60 mm", "200 mm"]"#,
    ),
    Key::new(
        "section.cuts[].keep",
        Form::Point,
        Need::Required,
        "A point of the part that is kept as the part beyond the cut.",
        r#"["80 mm", "180 mm"]"#,
    ),
];

const JOINT: &[Key] = &[
    Key::new(
        "section.joints",
        Form::List,
        Need::Optional("none"),
        "The joints between the parts, each entry one joint.",
        r#"[{ name = "glue line 1", kind = "glue", beyond = ["plank 1"] }]"#,
    ),
    Key::new(
        "section.joints[].name",
        Form::Text,
        Need::Required,
        "What the joint is called.",
        r#""glue line 1""#,
    ),
    Key::new(
        "section.joints[].kind",
        Form::Choice(&["glue", "nails", "screws", "bolts", "weld"]),
        Need::Optional("glue"),
        "How it holds.",
        r#""nails""#,
    ),
    Key::new(
        "section.joints[].beyond",
        Form::Names,
        Need::Required,
        "The parts that it holds to the rest: those that would slide if the joint were gone.",
        r#"["plank 1"]"#,
    ),
    Key::new(
        "section.joints[].rows",
        Form::Count { least: 1, most: 1000 },
        Need::Optional("1"),
        "How many rows of fasteners, or lines of weld, share the shear flow.",
        "2",
    ),
    Key::new(
        "section.joints[].spacing",
        Form::SIZE,
        Need::Optional(""),
        "From one fastener of a row to the next, along the beam; of an interrupted weld from the beginning of one run to that \
         of the next.",
        r#""60 mm""#,
    ),
    Key::new(
        "section.joints[].capacity",
        Form::positive(Dimension::FORCE),
        Need::Optional(""),
        "The force that one fastener may carry.",
        r#""800 N""#,
    ),
    Key::new(
        "section.joints[].shear-stress",
        Form::positive(Dimension::STRESS),
        Need::Optional("no limit"),
        "Of a glue line: the shear stress that the glue may bear.",
        r#""0.8 MPa""#,
    ),
    Key::new(
        "section.joints[].strength",
        Form::positive(Dimension::FORCE_PER_LENGTH),
        Need::Optional("no limit"),
        "Of a weld: the force that one line of it may carry per unit length.",
        r#""500 N/mm""#,
    ),
    Key::new(
        "section.joints[].run",
        Form::SIZE,
        Need::Optional("the weld runs on"),
        "Of an interrupted weld: the length of one run.",
        r#""50 mm""#,
    ),
    Key::new(
        "section.joints[].step",
        Form::SIZE,
        Need::Optional("5 mm, in US customary units 1/4 in"),
        "What a spacing is rounded down to a multiple of.",
        r#""10 mm""#,
    ),
    Key::new(
        "section.joints[].zones",
        Form::YesNo,
        Need::Optional("false"),
        "Whether spacing and number of the fasteners are told from key station to key station along the beam.",
        "true",
    ),
];

/// The names of [`super::SHAPES`], in the same order; a test holds the two together.
pub(super) const SHAPE_NAMES: &[&str] = &[
    "rectangle",
    "circle",
    "half circle",
    "tube",
    "rectangular tube",
    "box",
    "triangle",
    "trapezoid",
    "T",
    "I",
    "unequal I",
    "channel",
    "angle",
];

pub(super) fn keys() -> Vec<Key> {
    let mut keys = SECTION.to_vec();
    let part = "section.parts[]";
    for path in ["section", part] {
        keys.extend(placed(EITHER, path));
        keys.extend(placed(CORNER, &format!("{path}.outline[]")));
        let hole = format!("{path}.holes[]");
        keys.extend(placed(HOLE, &hole));
        keys.extend(placed(PLACE, &hole));
        keys.extend(placed(CORNER, &format!("{hole}.outline[]")));
        if path == "section" {
            keys.extend_from_slice(PART);
            keys.extend(placed(PLACE, part));
            keys.push(ON);
        }
    }
    keys.extend_from_slice(JOINT);
    keys.extend_from_slice(FURTHER_CUT);
    keys
}

/// The keys with `#` replaced by a path.
fn placed<'a>(keys: &'a [Key], path: &'a str) -> impl Iterator<Item = Key> + 'a {
    keys.iter().map(move |key| Key { path: Cow::Owned(key.path.replacen('#', path, 1)), ..key.clone() })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::key::SHAPES;

    #[test]
    fn every_shape_has_its_name_in_the_table_of_keys() {
        let names: Vec<&str> = SHAPES.iter().map(|shape| shape.name).collect();
        assert_eq!(names, SHAPE_NAMES);
    }
}
