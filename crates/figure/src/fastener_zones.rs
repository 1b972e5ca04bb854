//! Fasteners along the beam: under the shear force, on the same axis, how close they stand in each zone and how many there are.

use crate::beam::MARGIN;
use crate::dimension;
use crate::drawing::{Description, Drawing, Mark, bounds};
use crate::geometry::{Point, Rect};
use crate::keyvalues;
use crate::label::{Escape, Placer, Seat, Wish};
use crate::legend::{Sample, legend};
use crate::palette::{Ink, MEDIUM, Stroke, THIN};
use crate::panel::{self, Shown};
use crate::sketch::{self, Dimensions, Shows};
use crate::text::Label;
use crate::view::BeamView;
use crate::words;
use workings::role::Role;
use workings::solved::{Solved, ZoneWorkings};
use workings::working::Id;

/// Distance between the beam, the shear force and the row of fasteners, px.
const GAP: f64 = 22.0;
/// Height of the part that is held, and of as much of the rest, px.
const PART: f64 = 11.0;
/// How far a fastener reaches up and down from the joint, px.
const REACH: f64 = 7.5;
/// Fasteners that would stand closer than this on the sheet are one tint, px.
const CLOSEST: f64 = 2.2;

/// One drawing for each joint with zones.
pub(crate) fn all(solved: &Solved) -> Vec<Drawing> {
    let view = BeamView::of(solved);
    let zones = solved.zones().enumerate();
    zones.map(|(place, (name, zones))| of_joint(solved, &view, (place, name), zones)).collect()
}

/// A zone in numbers.
struct Zone {
    from: f64,
    to: f64,
    /// The spacing to use, or the largest where none is rounded.
    spacing: f64,
    standing: Id,
    /// How many rows there are.
    rows: f64,
    shown_spacing: Id,
}

impl Zone {
    /// How many fasteners of a row stand in it.
    fn of_a_row(&self, solved: &Solved) -> u32 {
        (solved.value(self.standing) / self.rows).round().max(1.0) as u32
    }

    /// Whether they would stand too close to be drawn one by one.
    fn is_tint(&self, view: &BeamView<'_>) -> bool {
        let along = view.along();
        along.px(self.from + self.spacing) - along.px(self.from) < CLOSEST
    }
}

fn of_joint(
    solved: &Solved,
    view: &BeamView<'_>,
    (place, name): (usize, &str),
    zones: &[ZoneWorkings],
) -> Drawing {
    let along = view.along();
    let value = |id| solved.value(id);
    let rows = solved.problem().joints.iter().find(|joint| joint.name == name);
    let rows = f64::from(rows.map_or(1, |joint| joint.rows.max(1)));
    let zones: Vec<Zone> = zones
        .iter()
        .map(|zone| {
            let shown_spacing = zone.spacing_to_use.unwrap_or(zone.largest_spacing);
            let (from, to) = (value(zone.from), value(zone.to));
            Zone { from, to, spacing: value(shown_spacing), standing: zone.standing, rows, shown_spacing }
        })
        .collect();
    let mut placer = Placer::new();
    let shows = Shows { supports: true, reactions: false, dimensions: Dimensions::None, slice: false };
    let beam = sketch::sketch(view, view.solution.reactions(), shows, &mut placer);
    let mut marks = beam.marks;
    let values = keyvalues::gather_without_slice(view, Shown::Shear);
    let drawn = panel::panel(view, Shown::Shear, &values, bounds(&marks).bottom + GAP);
    panel::avoid(&mut placer, &drawn);
    let ends: Vec<f64> = zones.iter().flat_map(|zone| [zone.from, zone.to]).map(|x| along.px(x)).collect();
    // The ends of the zones are led down from the axis: no value may stand on their way.
    for &x in &ends {
        placer.avoid_line(Point::new(x, drawn.axis), Point::new(x, bounds(&drawn.marks).bottom + GAP));
    }
    drawn.wishes.iter().for_each(|wish| {
        placer.put(wish);
    });
    let placed = placer.take_marks();
    let axis = drawn.axis;
    let joint = bounds(&drawn.marks).joined(bounds(&placed)).bottom + GAP + PART;
    let ties = ends.iter().map(|&x| Mark::Line {
        from: Point::new(x, axis),
        to: Point::new(x, joint + PART + GAP),
        stroke: Stroke::dotted(Ink::Quiet, THIN),
    });
    marks.push(Mark::group("zones", "Ends of the zones", ties.collect()));
    marks.push(Mark::group("shear-force", "Shear force", drawn.marks));
    marks.push(Mark::group("signs", "Signs", drawn.signs));
    marks.push(Mark::group("values", "", placed));
    marks.push(Mark::group("joint", format!("The joint {name}"), parts(view, joint)));
    let mut row = Vec::new();
    let mut chains = Vec::new();
    for zone in &zones {
        row.extend(fasteners((solved, view), zone, joint));
        chains.extend(dimension::level(along.px(zone.from), along.px(zone.to), joint + PART + GAP));
    }
    marks.push(Mark::group("fasteners", "Fasteners", row));
    marks.push(Mark::group("lengths", "The zones", chains));
    let mut placer = Placer::new();
    placer.avoid_rect(Rect {
        left: along.left,
        top: joint - PART,
        right: along.right,
        bottom: joint + PART + GAP + 4.0,
    });
    for zone in &zones {
        placer.put(&wish(solved, view, zone, joint + PART + GAP));
    }
    marks.push(Mark::group("spacings", "", placer.into_marks()));
    let entries = [(Sample::None, legend_of(view, name))];
    let under = bounds(&marks);
    marks.push(legend(&entries, under, view.sheet));
    let short = words::shortened(format!(
        "The shear force, and below it the fasteners of {name} from zone to zone: {}.",
        zones.iter().map(|zone| told_short(solved, view, zone)).collect::<Vec<_>>().join("; ")
    ));
    let long = told(solved, view, name, &zones, beam.stretched);
    let id = if place == 0 { "fasteners".to_owned() } else { format!("fasteners-{}", place + 1) };
    let title = format!("Fasteners along the beam: {name}");
    Drawing::on_sheet(&id, &title, MARGIN, view.sheet.width, marks).described(short, long)
}

/// The part that is held and as much of the rest, from the side.
fn parts(view: &BeamView<'_>, joint: f64) -> Vec<Mark> {
    let along = view.along();
    let strip = |top: f64, bottom: f64, fill| Mark::Polygon {
        points: [(along.left, top), (along.right, top), (along.right, bottom), (along.left, bottom)]
            .map(|(x, y)| Point::new(x, y))
            .into(),
        stroke: Some(Stroke::OUTLINE),
        fill: Some(fill),
    };
    vec![strip(joint - PART, joint, Ink::Beyond), strip(joint, joint + PART, Ink::Material)]
}

/// The fasteners of one row of a zone, spread evenly over it, no two further apart than the spacing; the first stands half of
/// that from its beginning.
fn fasteners((solved, view): (&Solved, &BeamView<'_>), zone: &Zone, joint: f64) -> Vec<Mark> {
    let along = view.along();
    let stroke = Stroke::solid(Ink::Line, MEDIUM);
    if zone.is_tint(view) {
        let (left, right) = (along.px(zone.from), along.px(zone.to));
        let corners = [(left, -REACH), (right, -REACH), (right, REACH), (left, REACH)];
        let points = corners.map(|(x, y)| Point::new(x, joint + y)).into();
        return vec![Mark::Polygon { points, stroke: Some(stroke), fill: Some(Ink::MaterialShade) }];
    }
    let count = zone.of_a_row(solved);
    let apart = (zone.to - zone.from) / f64::from(count);
    let upright = |number: u32| {
        let x = along.px(zone.from + (f64::from(number) + 0.5) * apart);
        Mark::Line { from: Point::new(x, joint - REACH), to: Point::new(x, joint + REACH), stroke }
    };
    (0..count).map(upright).collect()
}

fn shown(solved: &Solved, view: &BeamView<'_>, id: Id) -> String {
    let working = solved.workings().working(id);
    view.scribe.terse_text(working.value.value, working.value.dimension, working.symbol.role)
}

/// `s = 60 mm`, and how many there must be.
fn wish(solved: &Solved, view: &BeamView<'_>, zone: &Zone, foot: f64) -> Wish {
    let along = view.along();
    let label = view
        .scribe
        .symbol(Role::Spacing, "")
        .equals(Label::words(shown(solved, view, zone.shown_spacing)))
        .and_words(",\u{a0}")
        .followed_by(view.scribe.symbol(Role::Count, ""))
        .and_words("\u{a0}=\u{a0}")
        .and_words(shown(solved, view, zone.standing));
    let middle = Point::new(0.5 * (along.px(zone.from) + along.px(zone.to)), foot);
    Wish::new(label, middle).seats(&[Seat::Below], Escape::Down).gap(8.0)
}

fn legend_of(view: &BeamView<'_>, name: &str) -> Label {
    view.scribe
        .symbol(Role::Spacing, "")
        .and_words(format!(": spacing of {name} to use in each zone; "))
        .followed_by(view.scribe.symbol(Role::Count, ""))
        .and_words(
            ": how many are put in there, all rows together. An exercise: the local code and a \
                    licensed engineer decide.",
        )
}

fn told_short(solved: &Solved, view: &BeamView<'_>, zone: &Zone) -> String {
    let at = |station| view.scribe.station_text(station);
    format!("from {} to {} every {}", at(zone.from), at(zone.to), shown(solved, view, zone.shown_spacing))
}

fn told(solved: &Solved, view: &BeamView<'_>, name: &str, zones: &[Zone], stretched: bool) -> Description {
    let mut long = Description::new();
    words::beam(view, &mut long);
    words::loads(view, &mut long);
    let values = keyvalues::gather_without_slice(view, Shown::Shear);
    let most = view.solution.extremes(Shown::Shear.curve()).largest_size.value;
    let rows = values.values.iter().map(|key| {
        let shear = view.scribe.text_beside(key.value, Shown::Shear.dimension(), Role::ShearForce, most);
        vec![words::place(view, key.station), shear]
    });
    let symbol = view.scribe.symbol_text(Role::ShearForce, "");
    long.table("Shear force", &["Station", &symbol], rows.collect());
    if !values.crossings.is_empty() {
        let places: Vec<String> =
            values.crossings.iter().map(|&station| words::place(view, station)).collect();
        long.sentence(format!("It passes zero at {}.", places.join(", ")));
    }
    let strokes = if zones.iter().any(|zone| zone.is_tint(view)) {
        "every upright stroke is a fastener of one row; where they stand too close to be drawn one by one, they are one band"
    } else {
        "every upright stroke is a fastener of one row"
    };
    long.sentence(format!(
        "Below it the joint ({name}) from the side, on the same axis: the part that is held lies tinted on the rest, and {strokes}."
    ));
    let rows = zones.iter().map(|zone| {
        let at = |station| view.scribe.station_text(station);
        let text = |id| shown(solved, view, id);
        vec![at(zone.from), at(zone.to), text(zone.shown_spacing), text(zone.standing)]
    });
    long.table("The zones", &["From", "To", "Spacing", "So many, all rows together"], rows.collect());
    long.sentence("An exercise: the local code and a licensed engineer decide on a real joint.");
    words::arrows(stretched, &mut long);
    long
}
