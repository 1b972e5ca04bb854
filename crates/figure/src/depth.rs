//! Bending stress and shear stress over the depth beside the section, all on one height axis.

use crate::cross_section::{self, Frame};
use crate::depth_words;
use crate::drawing::{Drawing, Mark, Step, bounds};
use crate::geometry::Point;
use crate::hatch;
use crate::label::{Escape, Placer, Seat, Wish};
use crate::legend::{Sample, legend};
use crate::levels::{self, Tag, column, head, height_axis, level_lines};
use crate::palette::{Ink, MEDIUM, Stroke};
use crate::scene::Scene;
use crate::section_grips;
use crate::stress_block::{BlockScale, bands};
use crate::text::Label;
use mechanics::section::HeightSide;
use mechanics::stress::PlaceSide;
use workings::dimension::Dimension;
use workings::role::Role;

/// Room that the section takes, px across and down.
const ROOM: (f64, f64) = (124.0, 250.0);
/// The least height of the section, px: the stresses of thin layers stand beside it.
const LEAST: f64 = 110.0;
/// Widths of the panels of sigma (each way from its axis) and of tau, px.
const PANELS: (f64, f64) = (58.0, 104.0);
/// Room between the panels, px.
const BETWEEN: f64 = 40.0;
/// Points of the curve of tau in each strip: between two of them a cubic strays by less than a tenth of a px.
const POINTS: usize = 24;

/// Bending stress and shear stress over the depth.
pub(crate) fn depth(scene: &Scene) -> Drawing {
    let w = &scene.writer;
    let room = (scene.across(ROOM.0), ROOM.1);
    let frame = Frame::at_least_high(scene.extent, room, LEAST, Point::new(0.0, 0.0));
    let mut marks = vec![Mark::group("section", "The section", cross_section::marks(scene, &frame))];
    let mut wishes = Vec::new();
    let sigma_axis = frame.right() + scene.across(BETWEEN) + scene.across(PANELS.0);
    let tau_axis = sigma_axis + scene.across(PANELS.0) + scene.across(BETWEEN) + 24.0;
    let end = tau_axis + scene.across(PANELS.1) + 16.0;
    let mut lines = level_lines(scene, &frame, end);
    let sigma = sigma(scene, &frame, sigma_axis, &mut wishes);
    let tau = tau(scene, &frame, tau_axis, &mut wishes);
    let mut placer = Placer::new();
    placer.avoid_marks(&lines);
    placer.avoid_marks(&sigma);
    placer.avoid_marks(&tau);
    wishes.push(
        Wish::new(Label::words("NA"), Point::new(levels::LEFT, frame.y(scene.values.neutral_axis)))
            .seats(&[Seat::Left], Escape::Any)
            .gap(4.0),
    );
    wishes.push(
        Wish::new(Label::words("cut"), Point::new(levels::LEFT, frame.y(scene.cut)))
            .seats(&[Seat::Left], Escape::Any)
            .gap(4.0)
            .ink(Ink::Cut),
    );
    let heads = [
        head(scene, &frame, (sigma_axis, scene.sheet.small), "bending stress", w.symbol(Role::BendingStress)),
        head(
            scene,
            &frame,
            (tau_axis + 0.5 * scene.across(PANELS.1), scene.sheet.small),
            "shear stress",
            w.symbol(Role::ShearStress),
        ),
    ];
    placer.avoid_marks(&heads);
    for wish in &wishes {
        placer.put(wish);
    }
    lines.extend(heads);
    marks.push(Mark::group("levels", "Neutral axis and cut, level with the section", lines));
    marks.push(Mark::group("bending-stress", "Bending stress over the depth", sigma));
    marks.push(Mark::group("shear-stress", "Shear stress over the depth", tau));
    marks.push(Mark::group("labels", "Labels", placer.into_marks()));
    let mut entries = Vec::new();
    if scene.values.moment[0] != 0.0 {
        entries.push((Sample::Tension, Label::words("tension, T")));
        entries.push((Sample::Compression, Label::words("compression, C")));
    }
    if scene.values.shear[0] != 0.0 {
        let mean = Label::words("mean\u{a0}")
            .followed_by(w.symbol(Role::ShearForce))
            .and_words("/")
            .followed_by(w.symbol(Role::Area));
        entries.push((Sample::Line(Stroke::dashed(Ink::Quiet, MEDIUM)), mean));
    }
    let note = depth_words::note(scene);
    if !note.is_empty() {
        entries.push((Sample::None, Label::words(note)));
    }
    entries.extend(frame.remark().map(|words| (Sample::None, Label::words(words))));
    let under = bounds(&marks);
    marks.push(legend(&entries, under, scene.sheet));
    marks.push(Mark::Grip(section_grips::cut(scene, &frame, levels::LEFT)));
    let (short, mut long) = depth_words::describe(scene);
    if let Some(words) = frame.remark() {
        long.sentence(format!("In the drawing: {words}."));
    }
    Drawing::fitted("depth", "Bending stress and shear stress over the depth", 12.0, scene.sheet.width, marks)
        .described(short, long)
}

/// The bending stress on the left face, tension to the right.
fn sigma(scene: &Scene, frame: &Frame, axis: f64, wishes: &mut Vec<Wish>) -> Vec<Mark> {
    let e = scene.extent;
    let stress = &scene.stress[0];
    let bands = bands(scene, false);
    let greatest = bands
        .iter()
        .flat_map(|b| [stress.bending_stress_in(b.part, b.from), stress.bending_stress_in(b.part, b.to)])
        .fold(0.0_f64, |g, s| g.max(s.abs()));
    let mut marks = Vec::new();
    let mut values: Vec<(f64, Wish)> = Vec::new();
    if greatest > 0.0 {
        for band in &bands {
            let axis_height = scene.values.neutral_axis.clamp(band.from, band.to);
            for (from, to) in [(band.from, axis_height), (axis_height, band.to)] {
                let middle = stress.bending_stress_in(band.part, 0.5 * (from + to));
                if to - from <= 0.0 || middle == 0.0 {
                    continue;
                }
                let scale = BlockScale {
                    stress: scene.across(PANELS.0) / greatest,
                    zero: frame.corner.y + e.bottom * frame.scale,
                    height: frame.scale,
                    face: axis,
                    outside: middle.signum(),
                };
                let tip = |height: f64| scale.tip(stress.bending_stress_in(band.part, height), height);
                let (tint, stroke) = if middle > 0.0 {
                    (Ink::TensionTint, Stroke::solid(Ink::Tension, MEDIUM))
                } else {
                    (Ink::CompressionTint, Stroke::dashed(Ink::Compression, MEDIUM))
                };
                let (low, high) = (tip(from), tip(to));
                let points = vec![scale.foot(from), low, high, scale.foot(to)];
                marks.push(Mark::Polygon { points, stroke: None, fill: Some(tint) });
                marks.push(Mark::Line { from: scale.foot(from), to: low, stroke });
                marks.push(Mark::Line { from: low, to: high, stroke });
                marks.push(Mark::Line { from: high, to: scale.foot(to), stroke });
            }
            for height in [band.from, band.to] {
                let value = stress.bending_stress_in(band.part, height);
                if value == 0.0 {
                    continue;
                }
                let (letter, ink) =
                    if value > 0.0 { ("\u{a0}T", Ink::Tension) } else { ("\u{a0}C", Ink::Compression) };
                let label = scene
                    .writer
                    .value_beside(
                        value.abs(),
                        Dimension::STRESS,
                        Role::BendingStress,
                        scene.greatest_bending_stress(),
                    )
                    .and_words(letter);
                let x = axis + 0.5 * scene.across(PANELS.0) * value / greatest;
                let seat = if height == e.top { Seat::Above } else { Seat::Below };
                let wish = Wish::new(label, Point::new(x, frame.y(height)));
                values
                    .push((value.abs(), wish.seats(&[seat, Seat::Above, Seat::Below], Escape::Any).ink(ink)));
            }
        }
        // The largest stands where its block is broadest, the others where they still find room.
        values.sort_by(|a, b| b.0.total_cmp(&a.0));
        wishes.extend(values.into_iter().map(|(_, wish)| wish));
    } else {
        let at = Point::new(axis, frame.y(e.bottom));
        let label = Label::words("none: no moment here");
        wishes.push(Wish::new(label, at).seats(&[Seat::Below], Escape::Down).size(scene.sheet.small));
    }
    marks.push(height_axis(scene, frame, axis));
    marks
}

/// The shear stress on the left face.
fn tau(scene: &Scene, frame: &Frame, axis: f64, wishes: &mut Vec<Wish>) -> Vec<Mark> {
    let w = &scene.writer;
    let stress = &scene.stress[0];
    let largest = stress.largest_shear_stress();
    let mut marks = Vec::new();
    if largest.value <= 0.0 {
        let at = Point::new(axis + 0.5 * scene.across(PANELS.1), frame.y(scene.extent.bottom));
        let label = Label::words("none: no shear force here");
        wishes.push(Wish::new(label, at).seats(&[Seat::Below], Escape::Down).size(scene.sheet.small));
        marks.push(height_axis(scene, frame, axis));
        return marks;
    }
    let per_stress = scene.across(PANELS.1) / largest.value;
    let at = |value: f64, height: f64| Point::new(axis + value.abs() * per_stress, frame.y(height));
    let mut curve: Vec<Point> = vec![at(0.0, scene.extent.bottom)];
    for (from, to) in stress.strips() {
        for k in 0..=POINTS {
            let (height, side) = match k {
                0 => (from, HeightSide::Above),
                POINTS => (to, HeightSide::Below),
                _ => (from + (to - from) * k as f64 / POINTS as f64, HeightSide::Above),
            };
            curve.push(at(stress.shear_stress(height, side), height));
        }
    }
    curve.push(at(0.0, scene.extent.top));
    let mut fill = curve.clone();
    fill.push(at(0.0, scene.extent.bottom));
    marks.push(Mark::Polygon { points: fill.clone(), stroke: None, fill: Some(Ink::ShearTint) });
    marks.extend(hatch::marks(&[fill], 0.0, 7.0, Stroke::solid(Ink::Shear, 0.4)));
    let mut steps = vec![Step::Move(curve[0])];
    steps.extend(curve[1..].iter().map(|&p| Step::Line(p)));
    marks.push(Mark::Path { steps, stroke: Some(Stroke::solid(Ink::Shear, 1.75)), fill: None });
    let mean = Stroke::dashed(Ink::Quiet, MEDIUM);
    let (low, high) = (at(largest.mean, scene.extent.bottom), at(largest.mean, scene.extent.top));
    marks.push(Mark::Line { from: low, to: high, stroke: mean });
    wishes.push(
        Wish::new(w.value_beside(largest.mean, Dimension::STRESS, Role::MeanShearStress, largest.value), low)
            .seats(&[Seat::Below, Seat::BelowRight], Escape::Down)
            .ink(Ink::Quiet)
            .gap(6.0),
    );
    let value = |value: f64| w.value_beside(value.abs(), Dimension::STRESS, Role::ShearStress, largest.value);
    let mut tags: Vec<Tag> = Vec::new();
    let mut mark = |at: Point, label: Label, ink: Ink| {
        if !tags.iter().any(|tag| tag.at.distance(at) < 1.0) {
            tags.push(Tag { at, label, ink });
        }
    };
    let dot =
        |point: Point, ink: Ink| Mark::Circle { centre: point, radius: 3.0, stroke: None, fill: Some(ink) };
    // The cut first: it is what the lesson asks for.
    let on_cut = scene.values.stress_on_cut;
    let cut = at(on_cut, scene.cut);
    marks.push(dot(cut, Ink::Cut));
    let mut label = w.symbol(Role::ShearStress).equals(value(on_cut));
    if largest.places.iter().any(|place| at(largest.value, place.height).distance(cut) < 1.0) {
        label = label.and_words(", largest");
    }
    mark(cut, label, Ink::Cut);
    for place in &largest.places {
        let point = at(largest.value, place.height);
        marks.push(Mark::Circle {
            centre: point,
            radius: 4.5,
            stroke: Some(Stroke::solid(Ink::Shear, 1.25)),
            fill: None,
        });
        let label = w.symbol_indexed(Role::ShearStress, "max").equals(value(largest.value));
        mark(point, label, Ink::Shear);
        if matches!(place.side, PlaceSide::Contact) {
            let from = at(stress.shear_stress(place.height, HeightSide::Above), place.height);
            marks.push(Mark::Line { from, to: point, stroke: Stroke::solid(Ink::Shear, MEDIUM) });
        }
    }
    for jump in scene.section.width_jumps() {
        if jump.height <= scene.extent.bottom || jump.height >= scene.extent.top {
            continue;
        }
        for side in [HeightSide::Below, HeightSide::Above] {
            let stress_here = stress.shear_stress(jump.height, side);
            mark(at(stress_here, jump.height), value(stress_here), Ink::Shear);
        }
    }
    if scene.section.width(scene.values.neutral_axis, HeightSide::Above) > 0.0 {
        let here = stress.shear_stress(scene.values.neutral_axis, HeightSide::Above);
        mark(at(here, scene.values.neutral_axis), value(here), Ink::Shear);
    }
    marks.push(height_axis(scene, frame, axis));
    marks.extend(column(tags, axis + scene.across(PANELS.1) + 22.0));
    marks
}
