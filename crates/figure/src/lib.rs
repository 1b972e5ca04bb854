//! Drawings of a lesson as SVG, each with a title and a description made from its data.
//!
//! A drawing is made in three steps: marks are laid out on a sheet without edges (px, y down), labels are placed
//! among them ([`label`]), and the sheet is fitted around all ([`drawing::Drawing::fitted`]). What each colour and
//! line style stands for is said once, in [`palette`].
//!
//! This crate never computes a stress, a moment or a reaction: numbers come from the workings, curves from the
//! exact solution. It reads and writes no file.

pub mod arrow;
pub mod dimension;
pub mod drawing;
pub mod geometry;
pub mod hatch;
pub mod label;
pub mod metrics;
pub mod palette;
pub mod svg;
pub mod text;
