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
mod chain;
mod cross_section;
mod cut_words;
pub mod deflected;
mod depth;
mod depth_words;
pub mod diagrams;
pub mod dimension;
pub mod drawing;
pub mod element;
mod faces;
mod first_moment;
pub mod geometry;
pub mod grip;
pub mod hatch;
mod keyvalues;
pub mod label;
pub mod left_piece;
mod legend;
mod levels;
mod loads;
pub mod metrics;
mod outline;
pub mod palette;
mod panel;
mod pictorial;
mod pictorial_words;
mod piece;
mod planks;
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
mod sketch;
mod slice;
mod stress_block;
pub mod support;
pub mod svg;
pub mod text;
pub mod view;
mod words;
mod writer;

use drawing::Drawing;
use scene::Scene;
use view::BeamView;
use workings::solved::Solved;

/// All drawings of a lesson in reading order.
pub fn all(solved: &Solved) -> Vec<Drawing> {
    let mut drawings = beam_drawings(&BeamView::of(solved));
    drawings.extend(section_drawings(solved));
    drawings
}

/// The drawings of the beam in reading order.
pub fn beam_drawings(view: &BeamView<'_>) -> Vec<Drawing> {
    let mut drawings = vec![beam::beam(view), beam::free_body(view), element::sign_figure(view)];
    drawings.extend(left_piece::left_piece(view));
    drawings.extend([element::element(view), diagrams::diagrams(view), deflected::deflected(view)]);
    drawings
}

/// The drawings of the slice and of the section in reading order.
pub fn section_drawings(solved: &Solved) -> Vec<Drawing> {
    Scene::of(solved).map_or_else(Vec::new, |scene| scene_drawings(&scene))
}

fn scene_drawings(scene: &Scene<'_>) -> Vec<Drawing> {
    vec![
        slice::slice(scene),
        faces::faces(scene),
        section::section(scene),
        piece::piece(scene),
        pictorial::pictorial(scene),
        shear_element::shear_element(scene),
        first_moment::first_moment(scene),
        depth::depth(scene),
        planks::planks(scene),
    ]
}
