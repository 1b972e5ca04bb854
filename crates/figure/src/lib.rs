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
mod chain;
pub mod diagrams;
pub mod dimension;
pub mod drawing;
pub mod geometry;
pub mod hatch;
mod keyvalues;
pub mod label;
mod loads;
pub mod metrics;
pub mod palette;
mod panel;
mod reactions;
pub mod scale;
pub mod scribe;
mod sketch;
pub mod support;
pub mod svg;
pub mod text;
pub mod view;
mod words;

use drawing::Drawing;
use view::BeamView;
use workings::solved::Solved;

/// All drawings of a lesson in reading order.
pub fn all(solved: &Solved) -> Vec<Drawing> {
    beam_drawings(&BeamView::of(solved))
}

/// The drawings of the beam in reading order.
pub fn beam_drawings(view: &BeamView<'_>) -> Vec<Drawing> {
    vec![beam::beam(view), beam::free_body(view), diagrams::diagrams(view)]
}
