//! The section to scale: dimensions, centroid, neutral axis, cut, and the part beyond it hatched.

use crate::cross_section::{self, Frame, centroid};
use crate::dimension;
use crate::drawing::{Drawing, Mark, bounds};
use crate::geometry::{Point as Spot, Rect, is_inside};
use crate::grip;
use crate::label::{Escape, Placer, Seat, Wish};
use crate::legend::{Sample, legend};
use crate::materials::{self, Told};
use crate::palette::{Ink, Stroke, THIN};
use crate::part_names::{self, Names};
use crate::scene::Scene;
use crate::section_grips;
use crate::section_words;
use crate::sizes::{FIRST, radii, sizes, unit_of_sizes};
use crate::text::{Label, SIZE};
use core::f64::consts::FRAC_PI_4;
use workings::dimension::Dimension;
use workings::problem::JointKind;
use workings::role::Role;

/// The room that the section takes, px across and down.
pub(crate) const ROOM: (f64, f64) = (260.0, 300.0);
/// Its height here, where much stands below it and on a wall all is seen at once, px.
const HEIGHT: f64 = 260.0;
/// Distance between upright dimension lines that have their labels beside them, px.
const COLUMN: f64 = 92.0;
/// The neutral axis is close to the cut where the name of the cut and the distance do not both fit between, px.
const CLOSE: f64 = 32.0;
/// Length of the arrows that measure a narrow width from outside, px.
const TAIL: f64 = 14.0;

/// The section to scale.
pub(crate) fn section(scene: &Scene) -> Drawing {
    let frame = Frame::fitting(scene.extent, (scene.across(ROOM.0), HEIGHT), Spot::new(0.0, 0.0));
    let mut wishes = Vec::new();
    let mut marks = vec![Mark::group("section", "The section", cross_section::marks(scene, &frame))];
    let centroids = centroids(scene, &frame);
    let joints = cross_section::fastenings(scene, &frame);
    let mut widths = Vec::new();
    let width = width_at_cut(scene, &frame, &mut widths);
    let mut taken: Vec<Rect> = centroids.iter().chain(&joints).map(Mark::rect).collect();
    taken.extend(widths.iter().filter_map(|wish| wish.rects().next()));
    let Names { marks: names, beside, left, right } = part_names::names(scene, &frame, &taken);
    // Names that stand outside the section have room between it and the dimensions.
    let (first, right) = (FIRST.max(left), frame.right() + FIRST.max(right));
    let lines = lines(scene, &frame, right, &mut wishes);
    let sizes = sizes(scene, &frame, first, &mut wishes);
    let heights = heights(scene, &frame, right, &mut wishes);
    wishes.extend(beside);
    let mut placer = Placer::new();
    placer.avoid_marks(&names);
    placer.avoid_marks(&joints);
    for region in scene.beyond.iter().filter(|r| !r.is_empty()) {
        for (from, to) in crate::hatch::lines(&frame.loops(region), FRAC_PI_4, cross_section::HATCH) {
            placer.avoid_line(from, to);
        }
    }
    for group in [&lines, &heights, &width, &centroids] {
        placer.avoid_marks(group);
    }
    cross_section::keep_off_outlines(&mut placer, scene, &frame);
    radii(scene, &frame, &mut wishes);
    // The width at the cut beside its arrows, though the extension line of a size may run there: that is broken for it.
    let mut placed: Vec<Rect> = widths.iter().map(|wish| placer.put(wish)).collect();
    placer.avoid_marks(&sizes);
    placed.extend(wishes.iter().map(|wish| placer.put(wish)));
    let grounds = grounds(scene, &frame, &placed, &sizes);
    marks.push(Mark::group("sizes", "Sizes", sizes));
    marks.push(Mark::group("label-grounds", "", grounds));
    marks.push(Mark::group("part-names", "Names of the parts", names));
    marks.push(Mark::group("lines", "Neutral axis and cut", lines));
    marks.push(Mark::group("heights", "Heights from the neutral axis", heights));
    marks.push(Mark::group("width", "Width at the cut", width));
    marks.push(Mark::group("centroids", "Centroids", centroids));
    marks.push(Mark::group("labels", "Labels", placer.into_marks()));
    let under = bounds(&marks);
    marks.push(legend(&legend_entries(scene), under, scene.sheet));
    marks.push(Mark::Grip(section_grips::cut(scene, &frame, right + 10.0)));
    marks.extend(grip::marks(section_grips::part_sizes(scene, &frame)));
    let (short, long) = section_words::describe(scene);
    Drawing::fitted("section", &section_words::title(scene), 12.0, scene.sheet.width, marks)
        .described(short, long)
}

/// The grounds of labels that stand on the hatch of a material or on an extension line, which end round them.
fn grounds(scene: &Scene, frame: &Frame, labels: &[Rect], sizes: &[Mark]) -> Vec<Mark> {
    let hatched = cross_section::hatched(scene, frame);
    let solids: Vec<Vec<Spot>> = scene.regions().iter().flat_map(|region| frame.loops(region)).collect();
    let is_crossed = |rect: Rect| {
        sizes.iter().any(|mark| matches!(mark, Mark::Line { from, to, .. } if rect.is_crossed(*from, *to)))
    };
    let needs =
        |rect: &&Rect| hatched.iter().any(|rings| is_inside(rings, rect.middle())) || is_crossed(**rect);
    let ink = |rect: &Rect| if is_inside(&solids, rect.middle()) { Ink::Material } else { Ink::Paper };
    labels.iter().filter(needs).map(|rect| cross_section::ground(*rect, ink(rect))).collect()
}

/// The neutral axis and the trace of the cut, run out to the dimension lines on the right, the first of them at `first` px.
fn lines(scene: &Scene, frame: &Frame, first: f64, wishes: &mut Vec<Wish>) -> Vec<Mark> {
    let (left, right) = (frame.corner.x - 16.0, first + COLUMN + 12.0);
    let axis = frame.y(scene.values.neutral_axis);
    let cut = frame.y(scene.cut);
    let mut marks = vec![Mark::Line {
        from: Spot::new(left, axis),
        to: Spot::new(right, axis),
        stroke: Stroke::dash_dot(Ink::Line, THIN),
    }];
    marks.push(Mark::Line {
        from: Spot::new(left, cut),
        to: Spot::new(first + 10.0, cut),
        stroke: Stroke::CUT,
    });
    wishes.push(
        Wish::new(Label::words("NA"), Spot::new(right, axis))
            .seats(&[Seat::Right, Seat::AboveRight, Seat::BelowRight], Escape::Any)
            .gap(5.0),
    );
    // Where the neutral axis runs close by, the distance between the two has its value there.
    let (one, other) = if axis > cut && axis - cut < CLOSE {
        (Seat::AboveRight, Seat::BelowRight)
    } else {
        (Seat::BelowRight, Seat::AboveRight)
    };
    let has_room = (axis - cut).abs() >= CLOSE;
    let near = |seat: Seat| Spot::new(first + 7.0, cut + if seat == Seat::AboveRight { 2.0 } else { -2.0 });
    wishes.push(
        Wish::new(Label::words("cut"), Spot::new(first + 10.0, cut))
            .seats(if has_room { &[Seat::Right] } else { &[] }, Escape::Any)
            .gap(5.0)
            // Close to the end of the line, off the extension line of a centroid that runs by it.
            .or(near(one), one)
            .or(near(other), other)
            .ink(Ink::Cut),
    );
    marks
}

/// The distances from the neutral axis to the cut and to the centroid of the part beyond, two different things, and
/// the height of the neutral axis.
fn heights(scene: &Scene, frame: &Frame, first: f64, wishes: &mut Vec<Wish>) -> Vec<Mark> {
    let w = &scene.writer;
    let v = &scene.values;
    let axis = frame.y(v.neutral_axis);
    let mut marks = Vec::new();
    let mut upright = |x: f64, from: f64, to: f64, label: Label, ink: Ink| {
        if (from - to).abs() < 0.5 {
            return;
        }
        marks.extend(dimension::upright(x, from, to));
        let middle = Spot::new(x, 0.5 * (from + to));
        wishes.push(
            Wish::new(label, middle)
                .seats(&[Seat::Right, Seat::Left, Seat::AboveRight, Seat::BelowRight], Escape::Any)
                .gap(4.0)
                .ink(ink),
        );
    };
    let distance = (scene.cut - v.neutral_axis).abs();
    upright(
        first,
        axis,
        frame.y(scene.cut),
        w.named(Role::CutDistance, distance, Dimension::LENGTH),
        Ink::Cut,
    );
    if let Some(centroid) = v.centroid_beyond {
        let arm = (centroid.y - v.neutral_axis).abs();
        let x = first + COLUMN;
        upright(
            x,
            axis,
            frame.y(centroid.y),
            w.named(Role::CentroidBeyond, arm, Dimension::LENGTH),
            Ink::BeyondHatch,
        );
    }
    let bottom = frame.y(scene.extent.bottom);
    let height = v.neutral_axis - scene.extent.bottom;
    let x = if scene.cut >= v.neutral_axis { first } else { first + 2.0 * COLUMN };
    upright(x, bottom, axis, w.named(Role::CentroidHeight, height, Dimension::LENGTH), Ink::Line);
    marks.extend(dimension::extension(Spot::new(frame.right(), bottom), Spot::new(x, bottom)));
    if let Some(centroid) = v.centroid_beyond {
        let from = frame.at(centroid);
        marks.extend(dimension::extension(from.moved(6.0, 0.0), Spot::new(first + COLUMN, from.y)));
    }
    marks
}

/// The width at the cut, on the cut itself.
fn width_at_cut(scene: &Scene, frame: &Frame, wishes: &mut Vec<Wish>) -> Vec<Mark> {
    let w = &scene.writer;
    let several = scene.cut_chords.len() > 1;
    // Off the cut, towards the part that stays.
    let y = frame.y(scene.cut) + if scene.is_above() { 14.0 } else { -14.0 };
    let mut marks = Vec::new();
    for chord in &scene.cut_chords {
        let (left, right) = (frame.x(chord.left), frame.x(chord.right));
        let stroke = Stroke::solid(Ink::Cut, THIN);
        let (a, b) = (Spot::new(left, y), Spot::new(right, y));
        if right - left > 34.0 {
            marks.extend(crate::arrow::double(a, b, stroke));
        } else {
            marks.extend(crate::arrow::straight(a.moved(-TAIL, 0.0), a, stroke));
            marks.extend(crate::arrow::straight(b.moved(TAIL, 0.0), b, stroke));
        }
        let value = w.value(chord.length(), Dimension::LENGTH, Role::WidthAtCut);
        let label = if several { value } else { w.symbol(Role::WidthAtCut).equals(value) };
        let inside = right - left > label.width(SIZE) + 8.0;
        // Beside the arrows, towards the middle of the section: outside it stand the heights.
        let leftwards = several && chord.middle() > scene.values.centroid_across;
        let out = if right - left > 34.0 { 0.0 } else { TAIL };
        let at = if inside {
            Spot::new(0.5 * (left + right), y)
        } else if leftwards {
            a.moved(-out, 0.0)
        } else {
            b.moved(out, 0.0)
        };
        let beside: &[Seat] = match (inside, leftwards, scene.is_above()) {
            (true, _, true) => &[Seat::Below, Seat::Above],
            (true, _, false) => &[Seat::Above, Seat::Below],
            (false, true, _) => &[Seat::Left, Seat::BelowLeft, Seat::AboveLeft],
            (false, false, _) => &[Seat::Right, Seat::BelowRight, Seat::AboveRight],
        };
        // Below arrowheads, where the label reaches as far as they.
        let gap = if inside && right - left < label.width(SIZE) + 30.0 { 5.0 } else { 3.0 };
        wishes.push(Wish::new(label, at).seats(beside, Escape::Any).ink(Ink::Cut).gap(gap));
    }
    marks
}

/// The centroids of the section and of the part beyond.
fn centroids(scene: &Scene, frame: &Frame) -> Vec<Mark> {
    let v = &scene.values;
    let whole = Spot::new(frame.x(v.centroid_across), frame.y(v.neutral_axis));
    let mut marks = centroid(whole, 5.0, Ink::Line);
    if let Some(beyond) = v.centroid_beyond {
        marks.extend(centroid(frame.at(beyond), 4.0, Ink::BeyondHatch));
    }
    marks
}

/// What the legend names.
fn legend_entries(scene: &Scene) -> Vec<(Sample, Label)> {
    let w = &scene.writer;
    let mut entries = Vec::new();
    if scene.values.centroid_beyond.is_some() {
        let label = Label::words("part beyond the cut, ").followed_by(w.symbol(Role::AreaBeyond));
        entries.push((Sample::Beyond, label));
    }
    entries.push((Sample::Cut, Label::words("cut")));
    entries.push((Sample::NeutralAxis, Label::words("neutral axis NA")));
    let has = |kind: JointKind| scene.problem.joints.iter().any(|j| j.kind == kind);
    if has(JointKind::Glue) {
        entries.push((Sample::Glue, Label::words("glue line")));
    }
    if has(JointKind::Fasteners) {
        entries.push((Sample::Fastener, Label::words("nails, screws or bolts")));
    }
    entries.extend(materials::entries(scene, Told::Ratio));
    entries.push((Sample::None, Label::words(format!("unit of the sizes: {}", unit_of_sizes(scene)))));
    if scene.cut_chords.len() > 1 {
        let width = w.named(Role::WidthAtCut, scene.values.width, Dimension::LENGTH);
        entries.push((Sample::None, width.and_words(" in all")));
    }
    entries
}
