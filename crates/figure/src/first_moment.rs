//! Width and first moment over the depth beside the section: what goes into the shear stress at each height.

use crate::cross_section::{self, Frame};
use crate::cut_words::{self, at_most};
use crate::drawing::{Description, Drawing, Mark, Step, bounds};
use crate::geometry::Point;
use crate::label::{Escape, Placer, Seat, Wish};
use crate::legend::{Sample, legend};
use crate::levels::{Tag, column, head, height_axis, level_lines};
use crate::palette::{Ink, Stroke};
use crate::scene::Scene;
use crate::text::Label;
use mechanics::section::HeightSide;
use workings::dimension::Dimension;
use workings::role::Role;

/// Room that the section takes, px across and down.
const ROOM: (f64, f64) = (124.0, 220.0);
/// The least height of the section, px.
const LEAST: f64 = 90.0;
/// Widths of the panels of t and of Q, px.
const PANELS: (f64, f64) = (88.0, 100.0);
/// Room between the panels, px.
const BETWEEN: f64 = 50.0;
/// Points of a curve in each strip between corners.
const POINTS: usize = 24;

/// Width and first moment over the depth.
pub(crate) fn first_moment(scene: &Scene) -> Drawing {
    let w = &scene.writer;
    let stress = &scene.stress[0];
    let room = (scene.across(ROOM.0), ROOM.1);
    let frame = Frame::at_least_high(scene.extent, room, LEAST, Point::new(0.0, 0.0));
    let width_axis = frame.right() + scene.across(BETWEEN);
    let moment_axis = width_axis + scene.across(PANELS.0) + scene.across(BETWEEN);
    let end = moment_axis + scene.across(PANELS.1) + 16.0;
    let width = |height: f64, side: HeightSide| scene.section.width(height, side);
    let moment = |height: f64, _: HeightSide| stress.first_moment(height).abs();
    let widest = curve(scene, &width).into_iter().map(|(value, _)| value).fold(0.0, f64::max);
    let largest = stress.first_moment(scene.values.neutral_axis).abs();
    let mut marks = vec![Mark::group("section", "The section", cross_section::marks(scene, &frame))];
    let mut lines = level_lines(scene, &frame, end);
    let t = area(
        scene,
        &frame,
        width_axis,
        &curve(scene, &width),
        scene.across(PANELS.0) / widest,
        Ink::Material,
    );
    let mut q = area(
        scene,
        &frame,
        moment_axis,
        &curve(scene, &moment),
        scene.across(PANELS.1) / largest,
        Ink::Beyond,
    );
    let at = |height: f64| {
        Point::new(
            moment_axis + moment(height, HeightSide::Above) * scene.across(PANELS.1) / largest,
            frame.y(height),
        )
    };
    let value =
        |height: f64| w.value(moment(height, HeightSide::Above), Dimension::LENGTH_3, Role::FirstMoment);
    let (cut, axis) = (at(scene.cut), at(scene.values.neutral_axis));
    q.push(Mark::Circle { centre: cut, radius: 3.0, stroke: None, fill: Some(Ink::Cut) });
    let mut tags =
        vec![Tag { at: cut, label: w.symbol(Role::FirstMoment).equals(value(scene.cut)), ink: Ink::Cut }];
    if axis.distance(cut) > 1.0 {
        let label = w.symbol_indexed(Role::FirstMoment, "max").equals(value(scene.values.neutral_axis));
        tags.push(Tag { at: axis, label, ink: Ink::BeyondHatch });
    }
    q.extend(column(tags, moment_axis + scene.across(PANELS.1) + 28.0));
    lines.push(head(
        scene,
        &frame,
        (width_axis + 0.5 * scene.across(PANELS.0), scene.sheet.small),
        "width",
        w.symbol(Role::WidthAtCut),
    ));
    lines.push(head(
        scene,
        &frame,
        (moment_axis + 0.5 * scene.across(PANELS.1), scene.sheet.small),
        "first moment",
        w.symbol(Role::FirstMoment),
    ));
    let mut placer = Placer::new();
    placer.avoid_marks(&lines);
    placer.avoid_marks(&t);
    placer.avoid_marks(&q);
    let mut wishes = Vec::new();
    for (height, label, ink) in [
        (scene.values.neutral_axis, Label::words("NA"), Ink::Line),
        (scene.cut, Label::words("cut"), Ink::Cut),
    ] {
        let wish = Wish::new(label, Point::new(-14.0, frame.y(height)));
        wishes.push(wish.seats(&[Seat::Left], Escape::Any).gap(4.0).ink(ink));
    }
    let width_label = w.named(Role::WidthAtCut, scene.values.width, Dimension::LENGTH);
    let at_cut =
        Point::new(width_axis + scene.values.width * scene.across(PANELS.0) / widest, frame.y(scene.cut));
    let seats = [Seat::AboveRight, Seat::BelowRight, Seat::Right];
    wishes.push(Wish::new(width_label, at_cut).seats(&seats, Escape::Any).ink(Ink::Cut));
    for wish in &wishes {
        placer.put(wish);
    }
    marks.push(Mark::group("levels", "Neutral axis and cut, level with the section", lines));
    marks.push(Mark::group("width", "Width over the depth", t));
    marks.push(Mark::group("first-moment", "First moment over the depth", q));
    marks.push(Mark::group("labels", "Labels", placer.into_marks()));
    let label =
        Label::words("size of the first moment of the part above or below a height: the same, largest at NA");
    let mut entries = vec![(Sample::None, label)];
    entries.extend(frame.remark().map(|words| (Sample::None, Label::words(words))));
    let under = bounds(&marks);
    marks.push(legend(&entries, under, scene.sheet));
    let (short, mut long) = describe(scene);
    if let Some(words) = frame.remark() {
        long.sentence(format!("In the drawing: {words}."));
    }
    Drawing::fitted("first-moment", "Width and first moment over the depth", 12.0, scene.sheet.width, marks)
        .described(short, long)
}

/// A function of the height, strip by strip, both sides of each level, from below.
fn curve(scene: &Scene, value: &dyn Fn(f64, HeightSide) -> f64) -> Vec<(f64, f64)> {
    let mut points = vec![(0.0, scene.extent.bottom)];
    for (from, to) in scene.stress[0].strips() {
        for k in 0..=POINTS {
            let (height, side) = match k {
                0 => (from, HeightSide::Above),
                POINTS => (to, HeightSide::Below),
                _ => (from + (to - from) * k as f64 / POINTS as f64, HeightSide::Above),
            };
            points.push((value(height, side), height));
        }
    }
    points.push((0.0, scene.extent.top));
    points
}

/// The ground between a curve and its axis.
fn area(scene: &Scene, frame: &Frame, axis: f64, curve: &[(f64, f64)], scale: f64, tint: Ink) -> Vec<Mark> {
    let points: Vec<Point> = curve.iter().map(|&(v, h)| Point::new(axis + v * scale, frame.y(h))).collect();
    let mut steps: Vec<Step> = points.iter().map(|&p| Step::Line(p)).collect();
    if let Some(first) = points.first() {
        steps[0] = Step::Move(*first);
    }
    vec![
        Mark::Polygon { points, stroke: None, fill: Some(tint) },
        Mark::Path { steps, stroke: Some(Stroke::solid(Ink::Line, 1.5)), fill: None },
        height_axis(scene, frame, axis),
    ]
}

fn describe(scene: &Scene) -> (String, Description) {
    let w = &scene.writer;
    let stress = &scene.stress[0];
    let moment =
        |height: f64| w.text(stress.first_moment(height).abs(), Dimension::LENGTH_3, Role::FirstMoment);
    let short = at_most(&format!(
        "Width and first moment over the depth, beside the section: the first moment is zero at both faces and largest \
         at the neutral axis, {}; at the cut it is {}.",
        moment(scene.values.neutral_axis),
        moment(scene.cut)
    ));
    let mut long = Description::new();
    if !scene.told {
        return (short, long);
    }
    long.sentence(
        "Three drawings on one height axis: the section, its width, and the size of the first moment of the part above \
         or below each height, about the neutral axis.",
    );
    let mut heights: Vec<f64> = scene.section.levels().collect();
    heights.extend([scene.values.neutral_axis, scene.cut]);
    heights.sort_by(|a, b| b.total_cmp(a));
    heights.dedup_by(|a, b| (*a - *b).abs() <= 1e-9 * scene.extent.height());
    let rows = heights.into_iter().map(|height| {
        let width = |side| w.text(scene.section.width(height, side), Dimension::LENGTH, Role::WidthAtCut);
        vec![
            w.text(height - scene.extent.bottom, Dimension::LENGTH, Role::CutHeight),
            width(HeightSide::Below),
            width(HeightSide::Above),
            moment(height),
        ]
    });
    long.table(
        "Width and first moment by height above the lowest fibre",
        &["height", "width just below", "width just above", "first moment"],
        rows.collect(),
    );
    long.sentence(format!("Width at the cut: {}.", cut_words::width(scene)));
    (short, long)
}
