//! The free body of the piece of the beam left of the slice, with V and M as they are taken positive.

use crate::arrow;
use crate::beam::MARGIN;
use crate::drawing::{Description, Drawing, Mark};
use crate::geometry::Point;
use crate::label::{Escape, Placer, Seat, Wish};
use crate::palette::{HEAVY, Ink, Stroke};
use crate::scale::HALF_DEPTH;
use crate::sketch::{self, Dimensions, Shows};
use crate::view::BeamView;
use crate::words;
use mechanics::beam::{Beam, Load, Reaction};
use workings::problem::{LoadLabel, Problem};
use workings::role::Role;

/// The stroke of V and M on the cut face.
const INTERNAL: Stroke = Stroke::solid(Ink::Cut, 1.7);

/// The piece left of the slice; `None` where the slice is at the left end and nothing is left of it.
///
/// What acts right at the station counts to the piece, so V and M are those just right of it.
pub fn left_piece(view: &BeamView<'_>) -> Option<Drawing> {
    let at = view.problem.slice.at;
    let near = 1e-9 * view.problem.beam.length;
    if at <= near {
        return None;
    }
    let (problem, kept) = left_of(view.problem, at, near);
    let piece = view.piece(&problem, &kept);
    let reactions: Vec<Reaction> =
        view.solution.reactions().iter().filter(|reaction| reaction.station <= at + near).copied().collect();
    let shows = Shows { supports: false, reactions: true, dimensions: Dimensions::Piece, slice: false };

    let mut placer = Placer::new();
    let (face, wishes) = cut_face(view);
    placer.avoid_marks(&face);
    for wish in &wishes {
        placer.put(wish);
    }
    let sketch = sketch::sketch(&piece, &reactions, shows, &mut placer);
    let mut marks = sketch.marks;
    marks.push(Mark::group("cut-face", "Cut face", face));

    let mut long = Description::new();
    let length = words::station(view, at);
    let symbols =
        [Role::Station, Role::ShearForce, Role::BendingMoment].map(|role| view.scribe.symbol_text(role, ""));
    let [x, v, m] = &symbols;
    long.sentence(format!(
        "The piece of the beam left of the slice, {x} = {length} long, freed of its supports."
    ));
    words::loads(&piece, &mut long);
    words::reactions(view, &reactions, &mut long);
    words::dimensions(&piece, &mut long);
    long.sentence(format!(
        "On its cut face, at the right, {v} acts down and {m} turns counter-clockwise: so both are taken positive."
    ));
    words::arrows(sketch.stretched, &mut long);
    let short = format!(
        "Free body of the piece left of the slice at {x} = {length}, with {v} and {m} on its cut face."
    );
    Some(
        Drawing::on_sheet("left-piece", "Free body of the left piece", MARGIN, view.sheet.width, marks)
            .described(words::shortened(short), long),
    )
}

/// What stands left of a station, as a problem of its own, with the places of its loads in the whole.
fn left_of(problem: &Problem, at: f64, near: f64) -> (Problem, Vec<usize>) {
    let mut loads: Vec<Load> = Vec::new();
    let mut labels: Vec<LoadLabel> = Vec::new();
    let mut places = Vec::new();
    for (number, load) in problem.beam.loads.iter().enumerate() {
        let kept = match *load {
            Load::Force { station, .. } | Load::Couple { station, .. } => {
                (station <= at + near).then_some(*load)
            }
            Load::Spread { from, to, down_from, down_to } => (from < at - near).then(|| {
                let end = to.min(at);
                let part = (end - from) / (to - from);
                Load::Spread { from, to: end, down_from, down_to: down_from + (down_to - down_from) * part }
            }),
        };
        if let Some(load) = kept {
            loads.push(load);
            labels.extend(problem.loads.get(number).cloned());
            places.push(number);
        }
    }
    let beam = Beam {
        length: at,
        supports: Vec::new(),
        hinges: problem.beam.hinges.iter().copied().filter(|&hinge| hinge < at - near).collect(),
        loads,
        flexural_rigidity: problem.beam.flexural_rigidity,
    };
    (Problem { beam, loads: labels, ..problem.clone() }, places)
}

/// The cut face with V and M.
fn cut_face(view: &BeamView<'_>) -> (Vec<Mark>, Vec<Wish>) {
    let x = view.along().right;
    let mut marks = vec![Mark::Line {
        from: Point::new(x, -HALF_DEPTH - 4.0),
        to: Point::new(x, HALF_DEPTH + 4.0),
        stroke: Stroke::solid(Ink::Cut, HEAVY),
    }];
    let (top, bottom) = (Point::new(x + 11.0, -17.0), Point::new(x + 11.0, 19.0));
    marks.extend(arrow::straight(top, bottom, INTERNAL));
    let centre = Point::new(x + 4.0, 0.0);
    let radius = 27.0;
    let half = 62.0_f64.to_radians();
    marks.extend(arrow::turning(centre, radius, -half, 2.0 * half, INTERNAL));
    let wishes = vec![
        Wish::new(view.scribe.symbol(Role::ShearForce, ""), bottom)
            .seats(&[Seat::Below, Seat::BelowRight], Escape::Down)
            .gap(3.0)
            .ink(Ink::Cut),
        Wish::new(view.scribe.symbol(Role::BendingMoment, ""), centre.moved(radius, 0.0))
            .seats(&[Seat::Right], Escape::Any)
            .gap(5.0)
            .ink(Ink::Cut),
    ];
    (marks, wishes)
}
