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
use crate::text::{Label, SIZE};
use crate::view::BeamView;
use crate::words;
use workings::problem::JointKind;
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

/// Free room on either side of what stands under a zone, px.
const CLEAR: f64 = 4.0;

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
    is_one_a_row: bool,
    /// The length of a run of the weld, where it is one.
    run: Option<f64>,
}

/// Half the width of the stroke of a run, px.
const RUN: f64 = 2.5;

/// What stands in the rows of a joint.
struct Kind {
    title: &'static str,
    group: &'static str,
    ones: &'static str,
    stroke: &'static str,
}

const FASTENERS: Kind = Kind {
    title: "Fasteners along the beam",
    group: "Fasteners",
    ones: "fasteners",
    stroke: "every upright stroke is a fastener of one row",
};

const RUNS: Kind = Kind {
    title: "Runs of weld along the beam",
    group: "Runs",
    ones: "runs",
    stroke: "every thick dash along the joint is a run of one row",
};

impl Zone {
    /// How many fasteners of a row stand in it.
    fn of_a_row(&self, solved: &Solved) -> u32 {
        (solved.value(self.standing) / self.rows).round().max(1.0) as u32
    }

    /// Whether they would stand too close to be drawn one by one.
    fn is_tint(&self, view: &BeamView<'_>) -> bool {
        let along = view.along();
        along.px(self.from + self.spacing) - along.px(self.from + self.run.unwrap_or(0.0)) < CLOSEST
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
    let own = solved.problem().joints.iter().find(|joint| joint.name == name);
    let rows = f64::from(own.map_or(1, |joint| joint.rows.max(1)));
    let run = own.filter(|joint| joint.kind == JointKind::Weld).and_then(|joint| joint.run);
    let kind = if run.is_some() { RUNS } else { FASTENERS };
    let zones: Vec<Zone> = zones
        .iter()
        .map(|zone| {
            let shown_spacing = zone.spacing_to_use.unwrap_or(zone.largest_spacing);
            let (from, to) = (value(zone.from), value(zone.to));
            let (standing, is_one_a_row) = (zone.standing, zone.is_one_a_row);
            Zone { from, to, spacing: value(shown_spacing), standing, rows, shown_spacing, is_one_a_row, run }
        })
        .collect();
    let mut placer = Placer::new();
    let shows = Shows { supports: true, reactions: false, dimensions: Dimensions::None, slice: false };
    let beam = sketch::sketch(view, view.solution.reactions(), shows, &mut placer);
    let mut marks = beam.marks;
    let values = keyvalues::gather_without_slice(view, Shown::Shear);
    let drawn = panel::panel(view, Shown::Shear, &values, bounds(&marks).bottom + GAP);
    panel::avoid(&mut placer, &drawn);
    let idle: Vec<[f64; 2]> =
        solved.stretches_without_shear(name).iter().map(|ends| ends.map(|id| along.px(value(id)))).collect();
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
    for [from, to] in &idle {
        chains.extend(dimension::level(*from, *to, joint + PART + GAP));
    }
    marks.push(Mark::group("fasteners", kind.group, row));
    marks.push(Mark::group("lengths", "The zones", chains));
    let mut placer = Placer::new();
    placer.avoid_rect(Rect {
        left: along.left,
        top: joint - PART,
        right: along.right,
        bottom: joint + PART + GAP + 4.0,
    });
    let labels: Vec<Label> = zones.iter().map(|zone| numbers(solved, view, zone)).collect();
    // Where the numbers of one zone would stand under another, each bears its own number and the legend tells the rest.
    let fits = |(zone, label): (&Zone, &Label)| {
        label.width(SIZE) + 2.0 * CLEAR <= along.px(zone.to) - along.px(zone.from)
    };
    let is_told_in_place = zones.len() == 1 || zones.iter().zip(&labels).all(fits);
    let foot = joint + PART + GAP;
    for (place, (zone, label)) in zones.iter().zip(&labels).enumerate() {
        let label = match is_told_in_place {
            true => label.clone(),
            false => Label::words((place + 1).to_string()),
        };
        placer.put(&wish(label, 0.5 * (along.px(zone.from) + along.px(zone.to)), foot));
    }
    for [from, to] in &idle {
        placer.put(&wish(Label::words("none"), 0.5 * (from + to), foot));
    }
    marks.push(Mark::group("spacings", "", placer.into_marks()));
    let mut entries = Vec::new();
    if !is_told_in_place {
        entries.extend(alike(&labels).into_iter().map(|entry| (Sample::None, entry)));
    }
    entries.push((Sample::None, legend_of(view, name)));
    if !idle.is_empty() {
        let entry = view
            .scribe
            .symbol(Role::ShearForce, "")
            .and_words(format!("\u{a0}=\u{a0}0: no {} are counted there", kind.ones));
        entries.push((Sample::None, entry));
    }
    let under = bounds(&marks);
    marks.push(legend(&entries, under, view.sheet));
    let short = words::shortened(format!(
        "The shear force, and below it the {} of {name} from zone to zone: {}.",
        kind.ones,
        zones.iter().map(|zone| told_short(solved, view, zone)).collect::<Vec<_>>().join("; ")
    ));
    let long = told(solved, view, (name, &kind), &zones, beam.stretched);
    let id = if place == 0 { "fasteners".to_owned() } else { format!("fasteners-{}", place + 1) };
    let title = format!("{}: {name}", kind.title);
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
    let one = |number: u32| {
        let middle = zone.from + (f64::from(number) + 0.5) * apart;
        match zone.run {
            None => {
                let x = along.px(middle);
                Mark::Line { from: Point::new(x, joint - REACH), to: Point::new(x, joint + REACH), stroke }
            }
            // A run that is short on the sheet is still to be seen.
            Some(run) => {
                let (left, right) = (along.px(middle - 0.5 * run), along.px(middle + 0.5 * run));
                let (left, right) =
                    (left.min(0.5 * (left + right) - 1.0), right.max(0.5 * (left + right) + 1.0));
                let corners = [(left, -RUN), (right, -RUN), (right, RUN), (left, RUN)];
                let points = corners.map(|(x, y)| Point::new(x, joint + y)).into();
                Mark::Polygon { points, stroke: None, fill: Some(Ink::Line) }
            }
        }
    };
    (0..count).map(one).collect()
}

fn shown(solved: &Solved, view: &BeamView<'_>, id: Id) -> String {
    let working = solved.workings().working(id);
    view.scribe.terse_text(working.value.value, working.value.dimension, working.symbol.role)
}

/// `s = 60 mm`, and how many there are.
fn numbers(solved: &Solved, view: &BeamView<'_>, zone: &Zone) -> Label {
    let spacing = match zone.is_one_a_row {
        true => Label::words("one in each row"),
        false => view.scribe.symbol(Role::Spacing, "").equals(Label::words(shown(
            solved,
            view,
            zone.shown_spacing,
        ))),
    };
    spacing
        .and_words(",\u{a0}")
        .followed_by(view.scribe.symbol(Role::Count, ""))
        .and_words("\u{a0}=\u{a0}")
        .and_words(shown(solved, view, zone.standing))
}

/// A line of the legend for each set of zones with the same numbers: `zones 1 and 8: s = 60 mm, m = 18`.
fn alike(labels: &[Label]) -> Vec<Label> {
    let mut sets: Vec<(&Label, Vec<String>)> = Vec::new();
    for (place, label) in labels.iter().enumerate() {
        let number = (place + 1).to_string();
        match sets.iter_mut().find(|(of, _)| *of == label) {
            Some((_, numbers)) => numbers.push(number),
            None => sets.push((label, vec![number])),
        }
    }
    let line = |(label, numbers): (&Label, Vec<String>)| {
        let zones = match numbers.as_slice() {
            [only] => format!("zone {only}: "),
            [first @ .., last] => format!("zones {} and {last}: ", first.join(", ")),
            [] => String::new(),
        };
        Label::words(zones).followed_by(label.clone())
    };
    sets.into_iter().map(line).collect()
}

fn wish(label: Label, x: f64, foot: f64) -> Wish {
    Wish::new(label, Point::new(x, foot)).seats(&[Seat::Below], Escape::Down).gap(8.0)
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
    if zone.is_one_a_row {
        return format!("from {} to {} one in each row", at(zone.from), at(zone.to));
    }
    format!("from {} to {} every {}", at(zone.from), at(zone.to), shown(solved, view, zone.shown_spacing))
}

fn told(
    solved: &Solved,
    view: &BeamView<'_>,
    (name, kind): (&str, &Kind),
    zones: &[Zone],
    stretched: bool,
) -> Description {
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
    let close = match zones.iter().any(|zone| zone.is_tint(view)) {
        true => "; where they stand too close to be drawn one by one, they are one band",
        false => "",
    };
    long.sentence(format!(
        "Below it the joint ({name}) from the side, on the same axis: the part that is held lies tinted on the rest, and {}{close}.",
        kind.stroke
    ));
    let at = |station| view.scribe.station_text(station);
    let rows = zones.iter().enumerate().map(|(place, zone)| {
        let spacing = match zone.is_one_a_row {
            true => "one in each row".to_owned(),
            false => shown(solved, view, zone.shown_spacing),
        };
        let standing = shown(solved, view, zone.standing);
        vec![(place + 1).to_string(), at(zone.from), at(zone.to), spacing, standing]
    });
    let header = ["Zone", "From", "To", "Spacing", "So many, all rows together"];
    long.table("The zones", &header, rows.collect());
    for [from, to] in solved.stretches_without_shear(name).iter().map(|ends| ends.map(|id| solved.value(id)))
    {
        long.sentence(format!(
            "From {} to {} the shear force is zero, and no {} are counted.",
            at(from),
            at(to),
            kind.ones
        ));
    }
    long.sentence("An exercise: the local code and a licensed engineer decide on a real joint.");
    words::arrows(stretched, &mut long);
    long
}
