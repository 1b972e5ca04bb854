//! Drawings of a lesson as SVG, each with a title and a description made from its data.
//!
//! A drawing is made in three steps: marks are laid out on a sheet without edges (px, y down), labels are placed
//! among them ([`label`]), and the sheet is fitted around all ([`drawing::Drawing::fitted`]). What each colour and
//! line style stands for is said once, in [`palette`].
//!
//! This crate never computes a stress, a moment or a reaction: numbers come from the workings, curves from the
//! exact solution. It reads and writes no file.

pub mod arrow;
pub mod beam;
mod beam_grips;
mod body;
pub mod carrying;
mod chain;
mod circle;
mod contours;
mod cross_section;
mod cut_words;
pub mod dark;
pub mod deflected;
mod depth;
mod depth_words;
pub mod diagrams;
pub mod dimension;
pub mod drawing;
pub mod elastic;
mod elastic_field;
mod elastic_words;
pub mod element;
mod faces;
mod fastener_zones;
mod field_lines;
mod fields;
mod first_moment;
mod found;
pub mod geometry;
pub mod grip;
pub mod hatch;
mod hidden;
pub mod histogram;
mod keyvalues;
pub mod label;
pub mod left_piece;
mod legend;
mod levels;
mod loads;
mod materials;
pub mod metrics;
mod nails;
mod outline;
pub mod palette;
mod panel;
pub mod paper;
mod part_names;
mod pictorial;
mod pictorial_stress;
mod pictorial_words;
mod piece;
mod planks;
mod point;
mod point_words;
mod prism;
mod prism_marks;
mod raster;
mod reactions;
pub mod scale;
mod scene;
pub mod scribe;
mod section;
mod section_grips;
mod section_words;
mod shear_element;
mod side;
mod sizes;
mod sketch;
mod skew;
mod skew_words;
mod slice;
mod span_and_depth;
mod straight_cuts;
mod stress_block;
mod strip_marks;
mod strips;
pub mod support;
pub mod svg;
pub mod text;
mod trajectories;
mod trajectory_lines;
mod transformed;
mod transformed_words;
mod utilisation;
pub mod view;
mod wall_flow;
mod wall_flow_centre;
mod wall_flow_fit;
mod wall_flow_words;
mod words;
mod writer;

use drawing::Drawing;
use scale::Sheet;
use scene::Scene;
use view::BeamView;
use workings::solved::Solved;

/// The beam without its reactions, for a lecture that asks for them first; among [`all`] the beam has them.
const QUESTION: &str = "beam-given";

/// All drawings of a lesson in reading order.
pub fn all(solved: &Solved) -> Vec<Drawing> {
    some(solved, |name| name != QUESTION)
}

/// The drawings of the wanted names in reading order, `beam-given` among them; only those are made.
pub fn some(solved: &Solved, wanted: impl Fn(&str) -> bool) -> Vec<Drawing> {
    some_on(solved, Sheet::USUAL, wanted)
}

/// As [`some`], on another sheet.
pub fn some_on(solved: &Solved, sheet: Sheet, wanted: impl Fn(&str) -> bool) -> Vec<Drawing> {
    made(solved, sheet, wanted, true)
}

/// As [`some_on`], but the drawings are not told at length: for what moves under a hand, and is read when it rests.
pub fn some_untold(solved: &Solved, sheet: Sheet, wanted: impl Fn(&str) -> bool) -> Vec<Drawing> {
    made(solved, sheet, wanted, false)
}

fn made(solved: &Solved, sheet: Sheet, wanted: impl Fn(&str) -> bool, told: bool) -> Vec<Drawing> {
    let mut view = BeamView::of(solved).on(sheet);
    view.told = told;
    let of_beam = BEAM.iter().filter(|(name, _)| wanted(name)).filter_map(|(_, make)| make(&view));
    let mut drawings: Vec<Drawing> = of_beam.collect();
    let of_section: Vec<_> = SECTION.iter().filter(|(name, _)| wanted(name)).collect();
    let any_of_points = POINT.iter().any(|(name, _)| wanted(name));
    if (!of_section.is_empty() || any_of_points)
        && let Some(scene) = Scene::of(solved)
    {
        let scene = Scene { told, sheet, ..scene };
        drawings.extend(of_section.iter().filter_map(|(_, make)| make(&scene)));
        drawings.extend(at_points(&scene, &view, wanted));
    }
    drawings
}

/// The drawings of the beam in reading order.
pub fn beam_drawings(view: &BeamView<'_>) -> Vec<Drawing> {
    BEAM.iter().filter(|(name, _)| *name != QUESTION).filter_map(|(_, make)| make(view)).collect()
}

/// The drawings of the slice and of the section in reading order.
pub fn section_drawings(solved: &Solved) -> Vec<Drawing> {
    let Some(scene) = Scene::of(solved) else { return Vec::new() };
    let view = BeamView::of(solved);
    let of_section = SECTION.iter().filter_map(|(_, make)| make(&scene));
    of_section.chain(at_points(&scene, &view, |_| true)).collect()
}

/// The drawings of the stress at a point. They show the bending stress over the height alone: none where it changes across too.
fn at_points(scene: &Scene<'_>, view: &BeamView<'_>, wanted: impl Fn(&str) -> bool) -> Vec<Drawing> {
    if scene.section.properties().bends_askew() {
        return Vec::new();
    }
    let makers = POINT.iter().filter(|(name, _)| wanted(name));
    makers.filter_map(|(_, make)| make(scene, view)).collect()
}

/// A drawing of the beam, by name; nothing where it does not apply.
type OfBeam = fn(&BeamView<'_>) -> Option<Drawing>;

const BEAM: [(&str, OfBeam); 8] = [
    (QUESTION, |view| Some(beam::given(view))),
    ("beam", |view| Some(beam::beam(view))),
    ("free-body", |view| Some(beam::free_body(view))),
    ("signs", |view| Some(element::sign_figure(view))),
    ("left-piece", left_piece::left_piece),
    ("element", |view| Some(element::element(view))),
    ("diagrams", |view| Some(diagrams::diagrams(view))),
    ("deflected", |view| Some(deflected::deflected(view))),
];

/// A drawing of the slice or of the section, by name; nothing where it does not apply.
type OfSection = fn(&Scene<'_>) -> Option<Drawing>;

const SECTION: [(&str, OfSection); 12] = [
    ("slice", |scene| Some(slice::slice(scene))),
    ("faces", |scene| Some(faces::faces(scene))),
    ("section", |scene| Some(section::section(scene))),
    ("transformed", transformed::transformed),
    ("piece", |scene| Some(piece::piece(scene))),
    ("pictorial", |scene| Some(pictorial::pictorial(scene))),
    ("shear-element", |scene| Some(shear_element::shear_element(scene))),
    ("first-moment", |scene| Some(first_moment::first_moment(scene))),
    ("depth", |scene| Some(depth::depth(scene))),
    ("wall-flow", wall_flow::wall_flow),
    ("skew", skew::skew),
    ("planks", |scene| Some(planks::planks(scene))),
];

/// A drawing of the stress at the cut or over the side of the beam; nothing where it does not apply.
type OfPoint = fn(&Scene<'_>, &BeamView<'_>) -> Option<Drawing>;

const POINT: [(&str, OfPoint); 3] = [
    ("point", |scene, _| point::point(scene)),
    ("fields", |scene, view| Some(fields::fields(scene, view))),
    ("trajectories", |scene, view| Some(trajectories::trajectories(scene, view))),
];
