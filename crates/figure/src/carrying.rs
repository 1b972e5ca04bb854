//! The drawings of further cuts, of the fasteners along a beam and of what it may carry. A board shows none, so they are none of
//! [`crate::all`].

use crate::drawing::Drawing;
use crate::{fastener_zones, span_and_depth, straight_cuts, utilisation};
use workings::solved::Solved;

/// The drawings that apply to the lesson: its further cuts, what each joint holds, the zones of each joint that has any, the limits, and where a rectangle
/// is short.
pub fn carrying(solved: &Solved) -> Vec<Drawing> {
    let mut drawings: Vec<Drawing> = straight_cuts::all(solved);
    drawings.extend(straight_cuts::of_joints(solved));
    drawings.extend(fastener_zones::all(solved));
    drawings.extend(utilisation::utilisation(solved));
    drawings.extend(span_and_depth::span_and_depth(solved));
    drawings
}
