//! The slice of the beam as a free body: shear force and bending moment on both faces, the load on it.

use crate::arrow;
use crate::cut_words::at_most;
use crate::dimension;
use crate::drawing::{Description, Drawing, Mark, bounds};
use crate::geometry::Point;
use crate::grip::{Axis, Grip, Subject};
use crate::label::{Escape, Placer, Seat, Wish};
use crate::legend::{Sample, legend};
use crate::palette::{Ink, MEDIUM, Stroke};
use crate::scene::Scene;
use crate::text::Label;
use core::f64::consts::PI;
use mechanics::beam::Load;
use workings::dimension::Dimension;
use workings::role::Role;

/// Height of the slice on the sheet, px.
const HEIGHT: f64 = 140.0;
/// Length of a slice of no length on the sheet, px: there is still room for what acts on it.
const LEAST: f64 = 120.0;
/// How much longer one is drawn that is as long as the section is high, px; longer ones are drawn like that one.
const MORE: f64 = 110.0;
/// Longest arrow of a shear force, px.
const LONGEST: f64 = 84.0;
/// Room between a face and its shear force, px.
const OFF: f64 = 16.0;
/// Radius of the arrow of a bending moment, px.
const RADIUS: f64 = 44.0;
/// Tallest arrow of a spread load, px.
const TALLEST: f64 = 34.0;
/// The shortest slice that a drag leaves, as a share of the beam's length.
const SHORTEST: f64 = 1e-3;

/// The slice of the beam as a free body.
pub(crate) fn slice(scene: &Scene) -> Drawing {
    let width = drawn_length(scene);
    let w = &scene.writer;
    let v = &scene.values;
    let mut wishes = Vec::new();
    let mut marks = vec![Mark::Polygon {
        points: vec![
            Point::new(0.0, 0.0),
            Point::new(width, 0.0),
            Point::new(width, HEIGHT),
            Point::new(0.0, HEIGHT),
        ],
        stroke: Some(Stroke::OUTLINE),
        fill: Some(Ink::SliceTint),
    }];
    let mut placer = Placer::new();
    let middle = 0.5 * HEIGHT;
    let axis =
        Mark::Line { from: Point::new(0.0, middle), to: Point::new(width, middle), stroke: Stroke::AXIS };
    let mut acting = Vec::new();
    for face in [0, 1] {
        acting.extend(on_face(scene, face, &mut wishes));
    }
    let loads = loads(scene, &mut wishes);
    let mut lengths = dimension::level(0.0, width, HEIGHT + 34.0);
    for x in [0.0, width] {
        lengths.extend(dimension::extension(Point::new(x, HEIGHT), Point::new(x, HEIGHT + 34.0)));
    }
    let label = w.named_given(Role::SliceLength, v.length, Dimension::LENGTH);
    wishes.push(Wish::new(label, Point::new(0.5 * width, HEIGHT + 34.0)).seats(&[Seat::Below], Escape::Down));
    let station = w.named_given(Role::Station, scene.values.station, Dimension::LENGTH);
    wishes.push(
        Wish::new(station, Point::new(0.0, HEIGHT + 38.0))
            .seats(&[Seat::BelowLeft, Seat::Below], Escape::Down)
            .ink(Ink::Quiet),
    );
    placer.avoid_marks(&acting);
    placer.avoid_marks(&loads);
    placer.avoid_marks(&lengths);
    for wish in &wishes {
        placer.put(wish);
    }
    marks.push(Mark::group("axis", "Axis of the beam", vec![axis]));
    marks.push(Mark::group("faces", "Shear forces and bending moments", acting));
    marks.push(Mark::group("loads", "Load on the slice", loads));
    marks.push(Mark::group("length", "Length of the slice", lengths));
    marks.push(Mark::group("labels", "Labels", placer.into_marks()));
    let under = bounds(&marks);
    let remark = Label::words("every arrow is drawn the way that it acts; not to scale along the beam");
    marks.push(legend(&[(Sample::None, remark)], under, scene.sheet));
    marks.push(Mark::Grip(length_grip(scene)));
    let (short, long) = describe(scene);
    Drawing::fitted("slice", "The slice as a free body", 12.0, scene.sheet.width, marks)
        .described(short, long)
}

/// Length of the slice on the sheet, px: not to scale, but a shorter slice is drawn shorter.
fn drawn_length(scene: &Scene) -> f64 {
    scene.across(LEAST) + scene.across(MORE) * (scene.problem.slice.length / scene.extent.height()).min(1.0)
}

/// The grip of the length of the slice, at its right face. Where the drawing of a longer slice grows no more, a px stands
/// for its share of the length. A slice may reach to the right end of the beam.
fn length_grip(scene: &Scene) -> Grip {
    let (length, beam_length) = (scene.problem.slice.length, scene.problem.beam.length);
    let range = (SHORTEST * beam_length, beam_length - scene.problem.slice.at);
    let (width, height) = (drawn_length(scene), scene.extent.height());
    let per_px = if length < height { height / scene.across(MORE) } else { length / width };
    let at = Point::new(width, 0.5 * HEIGHT);
    Grip::new(Subject::SliceLength, at, Axis::Along, length, per_px, range)
}

/// Symbol = value as the arrow shows it: the arrow has the direction, so that a negative value is written by size.
fn sized(scene: &Scene, face: usize, role: Role, value: f64, dimension: Dimension) -> Label {
    let w = &scene.writer;
    let symbol = if face == 0 { w.symbol(role) } else { w.grown(role) };
    let symbol = w.by_size(symbol, value);
    let greater = if role == Role::ShearForce { scene.greater_shear() } else { scene.greater_moment() };
    symbol.equals(w.value_beside(value.abs(), dimension, role, greater))
}

/// Shear force and bending moment on one face, as they act on the slice.
fn on_face(scene: &Scene, face: usize, wishes: &mut Vec<Wish>) -> Vec<Mark> {
    let width = drawn_length(scene);
    let v = &scene.values;
    let mut marks = Vec::new();
    let (x, outside) = if face == 0 { (0.0, -1.0) } else { (width, 1.0) };
    let middle = 0.5 * HEIGHT;
    let greatest = v.shear[0].abs().max(v.shear[1].abs());
    let stroke = Stroke::solid(Ink::Line, 1.75);
    let shear = v.shear[face];
    if greatest > 0.0 && shear != 0.0 {
        // A positive shear force acts upwards on the left face and downwards on the right one.
        let upwards = (shear > 0.0) == (face == 0);
        let half = 0.5 * LONGEST * shear.abs() / greatest;
        let at = x + outside * OFF;
        let (from, to) =
            if upwards { (middle + half, middle - half) } else { (middle - half, middle + half) };
        marks.extend(arrow::straight(Point::new(at, from), Point::new(at, to), stroke));
        let label = sized(scene, face, Role::ShearForce, shear, Dimension::FORCE);
        let seats = if face == 0 {
            [Seat::BelowLeft, Seat::AboveLeft, Seat::Below]
        } else {
            [Seat::BelowRight, Seat::AboveRight, Seat::Below]
        };
        wishes.push(Wish::new(label, Point::new(at, middle + half.max(12.0))).seats(&seats, Escape::Any));
    }
    let moment = v.moment[face];
    if moment != 0.0 {
        // A sagging moment turns the left face clockwise and the right face counter-clockwise.
        let counter_clockwise = (moment > 0.0) == (face == 1);
        let start = match (face, counter_clockwise) {
            (0, false) => 1.25 * PI,
            (0, true) => 0.75 * PI,
            (_, true) => -0.25 * PI,
            (_, false) => 0.25 * PI,
        };
        let turn = if counter_clockwise { 0.5 * PI } else { -0.5 * PI };
        let centre = Point::new(x + outside * 6.0, middle);
        marks.extend(arrow::turning(centre, RADIUS, start, turn, stroke));
        let label = sized(scene, face, Role::BendingMoment, moment, Dimension::MOMENT);
        let seat = if face == 0 { Seat::Left } else { Seat::Right };
        let place = Point::new(x + outside * (RADIUS + 6.0), middle);
        wishes.push(Wish::new(label, place).seats(&[seat], Escape::Any).gap(8.0));
    }
    marks
}

/// The intensity of the spread loads at a station, just to one side of it, N/m, positive down.
fn intensity(loads: &[Load], station: f64, towards: f64) -> f64 {
    loads
        .iter()
        .map(|load| match *load {
            Load::Spread { from, to, down_from, down_to } => {
                let inside = station + towards;
                if inside < from || inside > to {
                    0.0
                } else {
                    down_from + (down_to - down_from) * (station - from) / (to - from)
                }
            }
            Load::Force { .. } | Load::Couple { .. } => 0.0,
        })
        .sum()
}

/// The stretches of the slice between the ends of spread loads: from, to, m; intensity at each, N/m, positive down.
fn stretches(scene: &Scene) -> Vec<(f64, f64, f64, f64)> {
    let beam = &scene.problem.beam;
    let (left, right) = (scene.values.station, scene.values.station + scene.values.length);
    let hair = 1e-9 * beam.length;
    let mut stops = vec![left, right];
    for load in &beam.loads {
        if let Load::Spread { from, to, .. } = *load {
            stops.extend([from, to].into_iter().filter(|&s| s > left + hair && s < right - hair));
        }
    }
    stops.sort_by(f64::total_cmp);
    stops.dedup_by(|a, b| (*a - *b).abs() <= hair);
    stops
        .windows(2)
        .map(|s| (s[0], s[1], intensity(&beam.loads, s[0], hair), intensity(&beam.loads, s[1], -hair)))
        .collect()
}

/// What loads the slice: the spread loads over it and the forces on it.
fn loads(scene: &Scene, wishes: &mut Vec<Wish>) -> Vec<Mark> {
    let width = drawn_length(scene);
    let w = &scene.writer;
    let beam = &scene.problem.beam;
    let (left, length) = (scene.values.station, scene.values.length);
    let right = left + length;
    let px = |station: f64| (station - left) / length * width;
    let hair = 1e-9 * beam.length;
    let mut marks = Vec::new();
    let stretches = stretches(scene);
    let greatest = stretches.iter().map(|s| s.2.abs().max(s.3.abs())).fold(0.0, f64::max);
    let stroke = Stroke::solid(Ink::Line, 1.0);
    if greatest > 0.0 {
        let tall = |down: f64| TALLEST * down / greatest;
        for &(from, to, first, last) in &stretches {
            let (a, b) = (px(from), px(to));
            let (top_a, top_b) = (-4.0 - tall(first).abs(), -4.0 - tall(last).abs());
            marks.push(Mark::Line { from: Point::new(a, top_a), to: Point::new(b, top_b), stroke });
            let count = ((b - a) / 24.0).round().max(1.0);
            for k in 0..=count as usize {
                let share = k as f64 / count;
                let down = first + (last - first) * share;
                let (x, top) = (a + (b - a) * share, -4.0 - tall(down).abs());
                if tall(down).abs() < 4.0 {
                    continue;
                }
                let (tail, tip) = if down > 0.0 { (top, -2.0) } else { (-2.0, top) };
                marks.extend(arrow::straight(Point::new(x, tail), Point::new(x, tip), stroke));
            }
        }
        // One value where it is the same all over, else both ends.
        let ends =
            [(0.0, stretches.first().map_or(0.0, |s| s.2)), (width, stretches.last().map_or(0.0, |s| s.3))];
        let steady = (ends[0].1 - ends[1].1).abs() <= 1e-9 * greatest && stretches.len() == 1;
        let value = |down: f64| w.value(down.abs(), Dimension::FORCE_PER_LENGTH, Role::SpreadLoad);
        if steady {
            let label = w.symbol(Role::SpreadLoad).equals(value(ends[0].1));
            let at = Point::new(0.5 * width, -4.0 - TALLEST);
            wishes.push(Wish::new(label, at).seats(&[Seat::Above], Escape::Up));
        } else {
            for (x, down) in ends {
                let at = Point::new(x, -4.0 - tall(down).abs());
                wishes.push(Wish::new(value(down), at).seats(&[Seat::Above], Escape::Up));
            }
        }
    }
    for load in &beam.loads {
        match *load {
            Load::Force { station, down }
                if station > left + hair && station < right - hair && down != 0.0 =>
            {
                let x = px(station);
                let (tail, tip) = if down > 0.0 { (-64.0, -2.0) } else { (-2.0, -64.0) };
                let heavy = Stroke::solid(Ink::Line, MEDIUM + 0.5);
                marks.extend(arrow::straight(Point::new(x, tail), Point::new(x, tip), heavy));
                let label = w.value(down.abs(), Dimension::FORCE, Role::PointForce);
                wishes.push(Wish::new(label, Point::new(x, -64.0)).seats(&[Seat::Above], Escape::Up));
            }
            Load::Couple { station, ccw }
                if station > left + hair && station < right - hair && ccw != 0.0 =>
            {
                let turn = if ccw > 0.0 { 1.4 * PI } else { -1.4 * PI };
                let centre = Point::new(px(station), 0.5 * HEIGHT);
                let start = if ccw > 0.0 { -0.2 * PI } else { 1.2 * PI };
                marks.extend(arrow::turning(centre, 18.0, start, turn, Stroke::solid(Ink::Line, MEDIUM)));
                let label = w.value(ccw.abs(), Dimension::MOMENT, Role::Couple);
                wishes.push(Wish::new(label, centre.moved(0.0, -20.0)).seats(&[Seat::Above], Escape::Any));
            }
            _ => {}
        }
    }
    // A support on the slice pushes on it too: what the loads leave of the vertical balance.
    let carried: f64 = stretches.iter().map(|s| 0.5 * (s.2 + s.3) * (s.1 - s.0)).sum::<f64>()
        + beam
            .loads
            .iter()
            .map(|load| match *load {
                Load::Force { station, down } if station > left + hair && station < right - hair => down,
                _ => 0.0,
            })
            .sum::<f64>();
    let push = carried - scene.values.load;
    let scale = carried.abs().max(scene.values.shear[0].abs()).max(scene.values.shear[1].abs());
    let inside: Vec<f64> = beam
        .supports
        .iter()
        .map(|support| support.station)
        .filter(|&s| s > left + hair && s < right - hair)
        .collect();
    if let (&[station], true) = (inside.as_slice(), push.abs() > 1e-9 * scale) {
        let x = px(station);
        let (near, off) = (HEIGHT + 2.0, HEIGHT + 26.0);
        let (tail, tip) = if push > 0.0 { (off, near) } else { (near, off) };
        let stroke = Stroke::solid(Ink::Reaction, 2.0);
        marks.extend(arrow::straight(Point::new(x, tail), Point::new(x, tip), stroke));
        let label = w.value(push.abs(), Dimension::FORCE, Role::Reaction);
        wishes.push(
            Wish::new(label, Point::new(x, HEIGHT + 14.0))
                .seats(&[Seat::Right, Seat::Left], Escape::Down)
                .ink(Ink::Reaction),
        );
    }
    let load = scene.values.load;
    if greatest > 0.0 && load != 0.0 {
        let label = Label::words("in all\u{a0}").followed_by(w.value(
            load.abs(),
            Dimension::FORCE,
            Role::LoadResultant,
        ));
        let at = Point::new(width + 6.0, -4.0 - 0.5 * TALLEST);
        wishes.push(Wish::new(label, at).seats(&[Seat::Right], Escape::Any).ink(Ink::Quiet));
    }
    marks
}

fn describe(scene: &Scene) -> (String, Description) {
    let w = &scene.writer;
    let v = &scene.values;
    let at = w.given_text(scene.values.station, Dimension::LENGTH, Role::Station);
    let length = w.given_text(v.length, Dimension::LENGTH, Role::SliceLength);
    let short = at_most(&format!(
        "Free body of a slice of the beam, {length} long, at {at}: shear force and bending moment on both faces, \
         each drawn the way that it acts."
    ));
    let mut long = Description::new();
    if !scene.told {
        return (short, long);
    }
    long.sentence(format!("Side view of a slice of the beam, from {at}, {length} long."));
    let shear = |face: usize| {
        let way = match (v.shear[face] > 0.0) == (face == 0) {
            true => "up",
            false => "down",
        };
        let size =
            w.text_beside(v.shear[face].abs(), Dimension::FORCE, Role::ShearForce, scene.greater_shear());
        if v.shear[face] == 0.0 { "none".to_owned() } else { format!("{size} {way}") }
    };
    let moment = |face: usize| {
        let way = if (v.moment[face] > 0.0) == (face == 1) { "counter-clockwise" } else { "clockwise" };
        let kind = if v.moment[face] > 0.0 { "sagging" } else { "hogging" };
        let size = w.text_beside(
            v.moment[face].abs(),
            Dimension::MOMENT,
            Role::BendingMoment,
            scene.greater_moment(),
        );
        if v.moment[face] == 0.0 { "none".to_owned() } else { format!("{size} {way}, {kind}") }
    };
    long.table(
        "What acts on the faces",
        &["face", "shear force", "bending moment"],
        vec![vec!["left".to_owned(), shear(0), moment(0)], vec!["right".to_owned(), shear(1), moment(1)]],
    );
    let size = |down: f64| {
        let size = w.text(down.abs(), Dimension::FORCE_PER_LENGTH, Role::SpreadLoad);
        match down {
            d if d > 0.0 => format!("{size} down"),
            d if d < 0.0 => format!("{size} up"),
            _ => size,
        }
    };
    let spread: Vec<String> = stretches(scene)
        .into_iter()
        .filter(|stretch| stretch.2 != 0.0 || stretch.3 != 0.0)
        .map(|(from, to, first, last)| {
            let place = |station: f64| w.text(station - v.station, Dimension::LENGTH, Role::SliceLength);
            let (first, last) = (size(first), size(last));
            let value = if first == last { first } else { format!("from {first} to {last}") };
            format!("spread load over the slice from {} to {} of its length: {value}", place(from), place(to))
        })
        .collect();
    long.list(spread);
    let hair = 1e-9 * scene.problem.beam.length;
    let inside = |station: f64| station > v.station + hair && station < v.station + v.length - hair;
    let on_it = scene.problem.beam.loads.iter().filter_map(|load| match *load {
        Load::Force { station, down } if inside(station) && down != 0.0 => Some(format!(
            "force of {} {} on the slice",
            w.text(down.abs(), Dimension::FORCE, Role::PointForce),
            if down > 0.0 { "down" } else { "up" }
        )),
        Load::Couple { station, ccw } if inside(station) && ccw != 0.0 => Some(format!(
            "couple of {} {} on the slice",
            w.text(ccw.abs(), Dimension::MOMENT, Role::Couple),
            crate::words::turning(ccw)
        )),
        _ => None,
    });
    long.list(on_it.collect());
    let load = scene.values.load;
    if load == 0.0 {
        long.sentence("No load acts on the slice, so the shear force is the same on both faces.");
    } else {
        let size = w.text(load.abs(), Dimension::FORCE, Role::LoadResultant);
        let way = if load > 0.0 { "down" } else { "up" };
        long.sentence(format!("What acts on the slice from outside comes to {size} {way}."));
    }
    (short, long)
}
