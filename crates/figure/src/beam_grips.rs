//! The grips of the beam: the slice's station, the places of supports and loads, the sizes of loads.

use crate::geometry::Point;
use crate::grip::{Axis, Grip, Snap, Subject};
use crate::keyvalues;
use crate::loads::MOST_LABELS;
use crate::panel::Shown;
use crate::view::BeamView;
use mechanics::beam::Load;
use workings::role::Role;

/// A size may be drawn out to so many times what it is; common practice, no source: a drag stays on the sheet.
const MOST: f64 = 3.0;
/// The least share of a size that a drag leaves: a load of nothing would not be drawn, and its grip be lost.
const LEAST: f64 = 0.01;
/// The shortest spread load that a drag leaves, as a share of the beam's length.
const SHORTEST: f64 = 0.01;
/// Stations nearer than this share of the beam's length are one.
const SAME: f64 = 1e-9;

/// The grip of the slice's station: its left face, drawn at `at`.
pub(crate) fn station(view: &BeamView<'_>, at: Point) -> Grip {
    let (beam, slice) = (&view.problem.beam, view.problem.slice);
    let symbol = view.scribe.symbol_text(Role::ShearForce, "");
    let mut snaps = named_stations(view, None);
    let crossings = keyvalues::gather(view, Shown::Shear).crossings;
    snaps.extend(crossings.into_iter().map(|value| Snap { value, name: format!("{symbol} = 0") }));
    snaps.extend(middle(view));
    // the whole slice lies on the beam
    let range = (0.0, beam.length - slice.length);
    Grip::new(Subject::Station, at, Axis::Along, slice.at, view.along().per_px(), range)
        .snapping(snaps, SAME * beam.length)
}

/// The grip of a support's station.
pub(crate) fn support(view: &BeamView<'_>, support: usize, at: Point) -> Option<Grip> {
    let beam = &view.problem.beam;
    let value = beam.supports.get(support)?.station;
    let grip = Grip::new(
        Subject::SupportPlace(support),
        at,
        Axis::Along,
        value,
        view.along().per_px(),
        (0.0, beam.length),
    );
    // not onto another support: their shares would not be determined
    let snaps = ends(view).into_iter().chain(middle(view)).filter(|snap| {
        let near = |station: f64| (station - snap.value).abs() <= SAME * beam.length;
        !beam.supports.iter().enumerate().any(|(other, held)| other != support && near(held.station))
    });
    Some(grip.snapping(snaps.collect(), SAME * beam.length))
}

/// The grip of the station of a point force or a couple, of which one end is drawn at `at`.
pub(crate) fn load_place(view: &BeamView<'_>, load: usize, value: f64, at: Point) -> Grip {
    along(view, Subject::LoadPlace(load), load, value, at, (0.0, view.problem.beam.length))
}

/// The grips of the stations between which a spread load lies, its ends drawn at `left` and `right`.
pub(crate) fn load_ends(
    view: &BeamView<'_>,
    load: usize,
    (from, to): (f64, f64),
    (left, right): (Point, Point),
) -> [Grip; 2] {
    let length = view.problem.beam.length;
    let gap = (SHORTEST * length).min(to - from);
    [
        along(view, Subject::LoadFrom(load), load, from, left, (0.0, to - gap)),
        along(view, Subject::LoadTo(load), load, to, right, (from + gap, length)),
    ]
}

fn along(
    view: &BeamView<'_>,
    subject: Subject,
    load: usize,
    value: f64,
    at: Point,
    range: (f64, f64),
) -> Grip {
    let mut snaps = named_stations(view, Some(load));
    snaps.extend(middle(view));
    Grip::new(subject, at, Axis::Along, value, view.along().per_px(), range)
        .snapping(snaps, SAME * view.problem.beam.length)
}

/// How far inwards from the free end of an arrow its grip lies, px.
const INWARDS: f64 = 10.0;

/// The grip of the size of a force or a couple, drawn `px` long, its free end at `at`; `outwards` is 1 where the
/// drawing grows upwards with the size, -1 where it grows downwards. `None` where nothing is drawn.
pub(crate) fn load_size(load: usize, value: f64, at: Point, px: f64, outwards: f64) -> Option<Grip> {
    let drawn = value != 0.0 && px > 0.0;
    drawn.then(|| {
        let (near, far) = (LEAST * value, MOST * value);
        let range = (near.min(far), near.max(far));
        // A little inwards, so that it does not hide the lettering at the free end.
        let at = Point::new(at.x, at.y + outwards * INWARDS.min(0.5 * px));
        Grip::new(Subject::LoadSize(load), at, Axis::Up, value, outwards * value / px, range)
    })
}

/// The grips of the intensities of a spread load, drawn upwards at `per_unit` px for one N/m of either sign, its
/// upper corners at `tops`. The sign of an intensity is kept, and not both become nothing.
pub(crate) fn intensities(
    load: usize,
    (first, last): (f64, f64),
    per_unit: f64,
    tops: (Point, Point),
) -> [Grip; 2] {
    let largest = first.abs().max(last.abs());
    let grip = |subject, at: Point, value: f64, other: f64| {
        // an end without load takes the sign of the other
        let sign = if value == 0.0 { other.signum() } else { value.signum() };
        let near = if other == 0.0 { LEAST * value.abs() } else { 0.0 };
        let (near, far) = (sign * near, sign * MOST * largest);
        Grip::new(subject, at, Axis::Up, value, sign / per_unit, (near.min(far), near.max(far)))
    };
    [
        grip(Subject::LoadSize(load), tops.0, first, last),
        grip(Subject::LoadEndSize(load), tops.1, last, first),
    ]
}

/// The ends of the beam.
fn ends(view: &BeamView<'_>) -> Vec<Snap> {
    let end = |value, name: &str| Snap { value, name: name.to_owned() };
    vec![end(0.0, "left end"), end(view.problem.beam.length, "right end")]
}

/// The middle of the beam.
fn middle(view: &BeamView<'_>) -> Option<Snap> {
    Some(Snap { value: view.problem.beam.length / 2.0, name: "middle of the beam".to_owned() })
}

/// Supports, ends, hinges, and the loads but for one, whose own places are no snaps to it. A couple does not come to
/// rest at a hinge: it could not tell on which side it acts.
fn named_stations(view: &BeamView<'_>, but: Option<usize>) -> Vec<Snap> {
    let beam = &view.problem.beam;
    let mut snaps: Vec<Snap> = (beam.supports.iter().enumerate())
        .map(|(number, support)| Snap {
            value: support.station,
            name: format!("support {}", view.support_name(number)).trim_end().to_owned(),
        })
        .collect();
    snaps.extend(ends(view));
    let is_couple = but.is_some_and(|load| matches!(beam.loads.get(load), Some(Load::Couple { .. })));
    if !is_couple {
        snaps.extend(beam.hinges.iter().map(|&value| Snap { value, name: "hinge".to_owned() }));
    }
    // among more loads than can be labelled none can be aimed at
    let loads = if beam.loads.len() <= MOST_LABELS { beam.loads.as_slice() } else { &[] };
    for (number, load) in loads.iter().enumerate().filter(|(number, _)| Some(*number) != but) {
        let name = view.problem.loads.get(number).map_or("", |label| label.name.as_str());
        let mut snap = |value, what: &str| {
            snaps.push(Snap { value, name: format!("{what} {name}").trim_end().to_owned() });
        };
        match *load {
            Load::Force { station, .. } => snap(station, "force"),
            Load::Couple { station, .. } => snap(station, "couple"),
            Load::Spread { from, to, .. } => {
                snap(from, "begin of spread load");
                snap(to, "end of spread load");
            }
        }
    }
    snaps
}
