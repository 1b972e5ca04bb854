//! The beam with its loads, supports, dimensions and reactions; and its free body.

use crate::drawing::{Description, Drawing};
use crate::grip;
use crate::label::Placer;
use crate::sketch::{self, Dimensions, Shows};
use crate::view::BeamView;
use crate::words;

/// Free margin around a drawing, px.
pub const MARGIN: f64 = 8.0;

/// The beam as the lesson gives it: supports, loads, dimensions, the slice; no reaction is told.
pub fn given(view: &BeamView<'_>) -> Drawing {
    question(view, true)
}

/// As [`given`]; without the slice where nobody asks for what is there.
pub(crate) fn question(view: &BeamView<'_>, slice: bool) -> Drawing {
    let shows = Shows { supports: true, reactions: false, dimensions: Dimensions::Chain, slice };
    draw(view, "beam-given", "The beam and its loads", shows)
}

/// The beam with supports, loads, dimensions, the slice and the reactions.
pub fn beam(view: &BeamView<'_>) -> Drawing {
    let shows = Shows { supports: true, reactions: true, dimensions: Dimensions::Chain, slice: true };
    draw(view, "beam", "The beam, its loads and reactions", shows)
}

/// The free body: the beam with the reactions in the place of its supports.
pub fn free_body(view: &BeamView<'_>) -> Drawing {
    let shows = Shows { supports: false, reactions: true, dimensions: Dimensions::Chain, slice: false };
    draw(view, "free-body", "Free body of the beam", shows)
}

fn draw(view: &BeamView<'_>, name: &str, title: &str, shows: Shows) -> Drawing {
    let mut placer = Placer::new();
    let sketch = sketch::sketch(view, view.solution.reactions(), shows, &mut placer);
    let mut long = Description::new();
    if view.told {
        describe(view, shows, sketch.stretched, &mut long);
    }
    let short = words::short_beam(view, shows);
    let mut marks = sketch.marks;
    // on the free body nothing is given, it follows from the beam
    if shows.supports {
        marks.extend(grip::marks(sketch.grips));
    }
    Drawing::on_sheet(name, title, MARGIN, view.sheet.width, marks).described(short, long)
}

fn describe(view: &BeamView<'_>, shows: Shows, stretched: bool, long: &mut Description) {
    if shows.supports {
        words::beam(view, long);
    } else {
        words::free_beam(view, long);
    }
    words::loads(view, long);
    if shows.reactions {
        words::reactions(view, view.solution.reactions(), long);
    }
    words::dimensions(view, long);
    if shows.slice {
        words::slice(view, long);
    }
    words::arrows(stretched, long);
}
