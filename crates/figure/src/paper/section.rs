//! The section with its sizes, and where it is cut.

use super::{Letters, section_words};
use crate::cross_section::{self, Frame};
use crate::dimension;
use crate::drawing::{Drawing, Mark, bounds};
use crate::geometry::{Point as Spot, Rect};
use crate::label::{Escape, Placer, Seat, Wish};
use crate::legend::{Sample, legend_sized};
use crate::materials::{self, Told};
use crate::outline::Region;
use crate::palette::{Ink, Stroke, THIN};
use crate::scene::Scene;
use crate::sizes::{FIRST, radii, sizes, unit_of_sizes};
use crate::text::{Align, Label};
use workings::dimension::Dimension;
use workings::problem::JointKind;
use workings::role::Role;
use workings::solved::Solved;

/// Between a part and its name beside it, px.
const NAME_GAP: f64 = 4.0;
/// A section is not made narrower than this for what stands beside it, px: its sizes could not be told apart.
const NARROWEST: f64 = 60.0;

/// The section to scale with its sizes; with the cut and its height above the lowest fibre where `with_cut` says so: a cut that is
/// placed from the neutral axis would tell where that is. `None` where the section cannot be drawn.
pub fn section(solved: &Solved, with_cut: bool, letters: Letters) -> Option<Drawing> {
    let scene = &Scene::of(solved)?;
    let (mut across, down) = letters.room();
    let mut drawing = drawn(scene, with_cut, letters, (across, down));
    // What stands beside the section takes what it needs; the section gives way, so that the letters keep their size on the sheet.
    for _ in 0..4 {
        let excess = drawing.width - letters.sheet().width;
        if excess <= 0.0 || across - excess < NARROWEST {
            break;
        }
        across = frame_of(scene, (across, down)).right() - excess;
        drawing = drawn(scene, with_cut, letters, (across, down));
    }
    Some(drawing)
}

fn frame_of(scene: &Scene, room: (f64, f64)) -> Frame {
    Frame::fitting(scene.extent, room, Spot::new(0.0, 0.0))
}

fn drawn(scene: &Scene, with_cut: bool, letters: Letters, room: (f64, f64)) -> Drawing {
    let small = letters.sheet().small;
    let frame = frame_of(scene, room);
    let mut wishes = Vec::new();
    let mut marks = vec![Mark::group("section", "The section", cross_section::given(scene, &frame))];
    let (names, beside) = part_names(scene, &frame, with_cut, small);
    // Names that stand beside their parts have room between the section and the dimensions.
    let (mut first, mut x) = (FIRST, frame.right() + FIRST);
    for name in &beside {
        let reach = NAME_GAP + name.label.width(small) + 8.0;
        match name.spots.first() {
            Some(&(at, Seat::Left)) => first = first.max(reach - at.x),
            _ => x = x.max(name.at.x + reach),
        }
    }
    let sizes = sizes(scene, &frame, first, &mut wishes);
    let cut = if with_cut { cut(scene, &frame, x, &mut wishes) } else { Vec::new() };
    wishes.extend(beside);
    let mut placer = Placer::new();
    for group in [&names, &sizes, &cut] {
        placer.avoid_marks(group);
    }
    cross_section::keep_off_outlines(&mut placer, scene, &frame);
    radii(scene, &frame, &mut wishes);
    for wish in &wishes {
        placer.put(wish);
    }
    marks.push(Mark::group("sizes", "Sizes", sizes));
    marks.push(Mark::group("part-names", "Names of the parts", names));
    if with_cut {
        marks.push(Mark::group("cut", "The cut", cut));
    }
    marks.push(Mark::group("labels", "Labels", placer.into_marks()));
    let under = bounds(&marks);
    marks.push(legend_sized(&entries(scene, with_cut), under, letters.sheet().width - 30.0, small));
    let (short, long) = section_words::given(scene, with_cut);
    Drawing::fitted("section-given", &title(scene), 12.0, 0.0, marks).described(short, long)
}

/// The outline of the section alone, to mark on. `None` where the section cannot be drawn.
pub fn outline(solved: &Solved, letters: Letters) -> Option<Drawing> {
    let scene = &Scene::of(solved)?;
    let frame = Frame::fitting(scene.extent, letters.room(), Spot::new(0.0, 0.0));
    let marks = vec![Mark::group("section", "The section", cross_section::given(scene, &frame))];
    let (short, long) = section_words::outline(scene);
    Some(Drawing::fitted("section-outline", &title(scene), 12.0, 0.0, marks).described(short, long))
}

fn title(scene: &Scene) -> String {
    format!("Section: {}", scene.problem.section_name)
}

/// The trace of the cut, and its height along a line at `x` px.
fn cut(scene: &Scene, frame: &Frame, x: f64, wishes: &mut Vec<Wish>) -> Vec<Mark> {
    let (bottom, y) = (frame.y(scene.extent.bottom), frame.y(scene.cut));
    let end = Spot::new(x + 10.0, y);
    let mut marks = vec![Mark::Line { from: Spot::new(-16.0, y), to: end, stroke: Stroke::CUT }];
    marks.extend(dimension::upright(x, bottom, y));
    marks.extend(dimension::extension(Spot::new(frame.right(), bottom), Spot::new(x, bottom)));
    let height = scene.writer.given(scene.cut - scene.extent.bottom, Dimension::LENGTH, Role::CutHeight);
    let beside = [Seat::Right, Seat::AboveRight, Seat::BelowRight];
    wishes.push(Wish::new(height, Spot::new(x, 0.5 * (bottom + y))).seats(&beside, Escape::Any).gap(4.0));
    wishes.push(Wish::new(Label::words("cut"), end).seats(&beside, Escape::Any).gap(5.0).ink(Ink::Cut));
    marks
}

/// The names of the parts, where there are several: marks of those that have room within their part, and wishes for the others,
/// beside it and outside the section, where a hollow could be taken for what is named.
fn part_names(scene: &Scene, frame: &Frame, with_cut: bool, size: f64) -> (Vec<Mark>, Vec<Wish>) {
    let (mut within, mut beside) = (Vec::new(), Vec::new());
    let parts = scene.section.parts();
    if parts.len() < 2 {
        return (within, beside);
    }
    let middle_of_all = frame.x(0.5 * (scene.extent.left + scene.extent.right));
    for (part, name) in parts.iter().zip(&scene.problem.part_names) {
        let label = Label::words(name.clone());
        let room = Rect::around(&frame.loops(&Region::of(part, f64::INFINITY)).concat()).grown(-3.0);
        let clear_of_cut = |rect: &Rect| {
            let y = frame.y(scene.cut);
            !with_cut || y < rect.top - 3.0 || y > rect.bottom + 3.0
        };
        let middle = room.middle().moved(0.0, 4.0);
        let rect = [0.0, -14.0, 14.0]
            .into_iter()
            .map(|drop| label.rect(middle.moved(0.0, drop), Align::Middle, size))
            .find(|rect| room.holds(rect.grown(2.0)) && clear_of_cut(rect));
        if let Some(rect) = rect {
            within.extend(cross_section::name_within(label, rect, size, Ink::Material));
            continue;
        }
        let (seats, x) = if room.middle().x < middle_of_all - 1.0 {
            ([Seat::Left, Seat::Right, Seat::Above, Seat::Below], room.left - 3.0)
        } else {
            ([Seat::Right, Seat::Left, Seat::Above, Seat::Below], room.right + 3.0)
        };
        let at = Spot::new(x, room.middle().y + 0.2 * room.height());
        beside.push(Wish::new(label, at).seats(&seats, Escape::Any).gap(NAME_GAP).size(size));
    }
    (within, beside)
}

fn entries(scene: &Scene, with_cut: bool) -> Vec<(Sample, Label)> {
    let mut entries = Vec::new();
    if with_cut {
        entries.push((Sample::Cut, Label::words("cut")));
    }
    let has = |kind: JointKind| scene.problem.joints.iter().any(|joint| joint.kind == kind);
    if has(JointKind::Glue) {
        entries.push((Sample::Glue, Label::words("glue line")));
    }
    if has(JointKind::Fasteners) {
        entries.push((Sample::Fastener, Label::words("nails, screws or bolts")));
    }
    entries.extend(materials::entries(scene, Told::Modulus));
    entries.push((Sample::None, Label::words(format!("unit of the sizes: {}", unit_of_sizes(scene)))));
    entries
}

/// A line across the sheet at a height that the outline gives.
pub(super) fn guide(from: Spot, to: Spot) -> Mark {
    Mark::Line { from, to, stroke: Stroke::dotted(Ink::Quiet, THIN) }
}
