//! What a lesson states, checked and in SI, with the lecturer's own names: the input of everything above.

use crate::material::PartMaterial;
use crate::shear_stiffness::ShearGiven;
use crate::working::HeightSide;
use mechanics::beam::Beam;
use mechanics::section::{Part, Point};
use mechanics::thin_wall::{NoMiddleLines, ThinWalls};

/// How a support is drawn and spoken of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SupportKind {
    /// Holds the beam up and along, lets it turn.
    Pin,
    /// Holds the beam up, lets it turn and slide.
    Roller,
    /// Holds it fast.
    Fixed,
    /// Keeps it from turning, lets it move up and down.
    Guided,
    /// A spring, transverse or rotational or both.
    Spring,
}

/// A support's name (`A`, `B`, ...) and kind; in the order of [`Beam::supports`].
#[derive(Clone, Debug, PartialEq)]
pub struct SupportLabel {
    /// The name that becomes the index of its reaction.
    pub name: String,
    /// Its kind.
    pub kind: SupportKind,
}

/// A load's label; in the order of [`Beam::loads`].
#[derive(Clone, Debug, PartialEq)]
pub struct LoadLabel {
    /// The lecturer's own name for it (`P`), or a number made for it (`1`, `2`, ... among its kind).
    pub name: String,
    /// Whether it is the beam's own weight, made from the density.
    pub self_weight: bool,
}

/// How two parts hold together.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum JointKind {
    /// A glue line.
    #[default]
    Glue,
    /// Nails, screws or bolts.
    Fasteners,
    /// A weld.
    Weld,
}

/// A named joint: it holds the parts beyond it to the rest.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Joint {
    /// Its name, such as `glue line 1`.
    pub name: String,
    /// How it holds.
    pub kind: JointKind,
    /// Indices into the section's parts: what would slide if the joint were gone.
    pub beyond: Vec<usize>,
    /// Rows of fasteners, or lines of weld, that share the shear flow; 1 for a single one, or glue.
    pub rows: u32,
    /// Distance between the fasteners of one row along the beam, or from one run of an intermittent weld to the next, m.
    pub spacing: Option<f64>,
    /// Force that one fastener may carry, N.
    pub fastener_capacity: Option<f64>,
    /// Length of one run of an intermittent weld, m; none where the weld runs on.
    pub run: Option<f64>,
    /// Force that one line of weld may carry for each length of it, N/m.
    pub strength: Option<f64>,
    /// Shear stress that a glue line may bear, Pa.
    pub allowable_stress: Option<f64>,
    /// What a spacing is rounded down to a multiple of, m; none where it stays as it is.
    pub step: Option<f64>,
    /// Whether the spacing is wanted from key station to key station.
    pub zones: bool,
}

/// What the material may be asked to bear, in an exercise: sizes, Pa; greater than zero. None where nothing is said.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Allowable {
    /// Bending stress, whether tension or compression.
    pub bending: Option<f64>,
    /// Tension; it goes before `bending`.
    pub tension: Option<f64>,
    /// Compression; it goes before `bending`.
    pub compression: Option<f64>,
    /// Shear stress.
    pub shear: Option<f64>,
    /// Deflection, m, up or down.
    pub deflection: Option<f64>,
}

/// The slice between x and x + dx.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SlicePlace {
    /// Station of its left face, m.
    pub at: f64,
    /// Its length dx, m; greater than zero.
    pub length: f64,
}

/// The level cut that parts A' from the rest.
#[derive(Clone, Debug, PartialEq)]
pub struct CutPlace {
    /// Height in the section's own coordinates, m.
    pub height: f64,
    /// Which side of a jump of the width is meant: the limit from below or from above.
    pub side: HeightSide,
    /// Which piece is kept as A': the piece above or below the cut.
    pub beyond: HeightSide,
    /// The joint's name, where the cut was given by it.
    pub joint: Option<String>,
}

/// A further straight cut across the section, beside the level one: upright through a flange, sloping across a web.
#[derive(Clone, Debug, PartialEq)]
pub struct FurtherCut {
    /// Its name, such as `cut through the flange`.
    pub name: String,
    /// Where it begins, in the section's own coordinates, m; it may lie off the material.
    pub from: Point,
    /// Where it ends, m.
    pub to: Point,
    /// A point of the part beyond, m.
    pub keep: Point,
}

/// A checked lesson in SI. Everything above (drawings, documents, papers, the board) starts here.
#[derive(Clone, Debug, PartialEq)]
pub struct Problem {
    /// The lesson's title, plain text.
    pub title: String,
    /// The beam, its supports, hinges and loads; the self-weight is among the loads.
    pub beam: Beam,
    /// Modulus of elasticity, Pa.
    pub elastic_modulus: f64,
    /// What is stated of the material of reference in shear.
    pub shear: ShearGiven,
    /// Density, kg/m³, where the beam's own weight counts.
    pub density: Option<f64>,
    /// One for each of the beam's supports.
    pub supports: Vec<SupportLabel>,
    /// One for each of the beam's loads.
    pub loads: Vec<LoadLabel>,
    /// The parts of the section.
    pub parts: Vec<Part>,
    /// One name for each part: `flange`, `web`, `plank 1`.
    pub part_names: Vec<String>,
    /// What each part is made of; empty where the lesson says nothing of it.
    pub part_materials: Vec<PartMaterial>,
    /// What the section is called in words: `T-section`, `IPE 300`.
    pub section_name: String,
    /// The joints between the parts.
    pub joints: Vec<Joint>,
    /// Further straight cuts across the section.
    pub further_cuts: Vec<FurtherCut>,
    /// What the material may bear.
    pub allowable: Allowable,
    /// Where the slice is taken.
    pub slice: SlicePlace,
    /// Where it is cut.
    pub cut: CutPlace,
}

impl Problem {
    /// The walls of the section by their middle lines, where it is thin-walled: see [`ThinWalls::of_parts`].
    ///
    /// # Errors
    /// [`NoMiddleLines`] says why there are none.
    pub fn thin_walls(&self) -> Result<ThinWalls, NoMiddleLines> {
        ThinWalls::of_parts(&self.parts, &self.part_names)
    }
}
