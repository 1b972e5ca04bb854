//! The beam as it is given, and the signs of the course.

use super::Letters;
use crate::beam::MARGIN;
use crate::drawing::{Drawing, Mark, bounds};
use crate::element;
use crate::view::BeamView;
use workings::solved::Solved;

/// The beam with its supports, loads and dimensions, and the slice where `with_slice` says so.
pub fn beam(solved: &Solved, with_slice: bool, letters: Letters) -> Drawing {
    crate::beam::question(&BeamView::of(solved).on(letters.sheet()), with_slice)
}

/// Which way the shear force and the bending moment count as positive.
pub fn signs(solved: &Solved, letters: Letters) -> Drawing {
    let drawing = element::sign_figure(&BeamView::of(solved));
    if letters == Letters::Usual {
        return drawing;
    }
    // Narrower: the axes, and below one another the two slices.
    let Drawing { name, title, short, long, marks, .. } = drawing;
    let mut below = 0.0;
    let stacked = marks.into_iter().map(|mark: Mark| {
        let rect = mark.rect();
        let (dx, dy) = (-rect.middle().x, below - rect.top);
        below += rect.height() + 14.0;
        mark.moved(dx, dy)
    });
    let stacked: Vec<Mark> = stacked.collect();
    debug_assert!(bounds(&stacked).height() > 0.0);
    Drawing::fitted(&name, &title, MARGIN, letters.sheet().width, stacked).described(short, long)
}
