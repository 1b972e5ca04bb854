//! A further straight cut across the section: the part beyond it hatched, its centroid and its arm, the length of the cut.

use crate::cross_section::{self, Frame, centroid};
use crate::dimension;
use crate::drawing::{Description, Drawing, Mark, bounds};
use crate::geometry::Point as Spot;
use crate::hatch;
use crate::label::{Escape, Placer, Seat, Wish};
use crate::legend::{Sample, legend};
use crate::outline::Region;
use crate::palette::{Ink, Stroke, THIN};
use crate::prism_marks::filled;
use crate::scene::Scene;
use crate::section::ROOM;
use crate::text::Label;
use crate::words;
use core::f64::consts::FRAC_PI_4;
use mechanics::section::StraightCut;
use workings::solved::{Solved, StraightCutWorkings};
use workings::working::Id;

/// How far the line of the cut runs out of the material on either side, px.
const OUT: f64 = 14.0;
/// How finely arcs are drawn, of the height of the section.
const FINENESS: f64 = 3e-4;

/// One drawing for each further cut.
pub(crate) fn all(solved: &Solved) -> Vec<Drawing> {
    let cuts = solved.further_cuts();
    let Some(scene) = (!cuts.is_empty()).then(|| Scene::of(solved)).flatten() else { return Vec::new() };
    let drawn = cuts.iter().enumerate().map(|(place, cut)| of_cut(solved, &scene, place, cut));
    drawn.flatten().collect()
}

fn of_cut(solved: &Solved, scene: &Scene, place: usize, cut: &StraightCutWorkings) -> Option<Drawing> {
    let asked = solved.problem().further_cuts.get(cut.cut)?;
    let found = solved.section().straight_cut(asked.from, asked.to, asked.keep).ok()?;
    let frame = Frame::fitting(scene.extent, ROOM, Spot::new(0.0, 0.0));
    let mut section = cross_section::given(scene, &frame);
    let sagitta = FINENESS * scene.extent.height();
    for region in found.beyond.iter().map(|(_, part)| Region::of(part, sagitta)).filter(|r| !r.is_empty()) {
        let loops = frame.loops(&region);
        section.push(filled(&loops, Some(Ink::Beyond), None));
        section.extend(hatch::marks(
            &loops,
            FRAC_PI_4,
            cross_section::HATCH,
            Stroke::solid(Ink::BeyondHatch, THIN),
        ));
    }
    section.extend(cross_section::outlines(scene, &frame));
    let mut marks = vec![Mark::group("section", "The section and the part beyond the cut", section)];
    let axis = frame.y(scene.values.neutral_axis);
    let right = frame.right() + 90.0;
    let line = Mark::Line {
        from: Spot::new(frame.corner.x - 16.0, axis),
        to: Spot::new(right, axis),
        stroke: Stroke::dash_dot(Ink::Line, THIN),
    };
    marks.push(Mark::group("neutral-axis", "Neutral axis", vec![line]));
    let (cuts, end) = cut_lines(&frame, &found);
    marks.push(Mark::group("cut", "The cut", cuts));
    let beyond = frame.at(found.centroid);
    let column = frame.right() + 34.0;
    let mut arm = centroid(beyond, 4.5, Ink::BeyondHatch);
    arm.push(Mark::Line {
        from: beyond.moved(8.0, 0.0),
        to: Spot::new(column + 4.0, beyond.y),
        stroke: Stroke::DIMENSION,
    });
    arm.extend(dimension::upright(column, axis, beyond.y));
    marks.push(Mark::group(
        "arm",
        "Centroid of the part beyond, and its distance from the neutral axis",
        arm,
    ));

    let named = |id: Id| {
        let working = solved.workings().working(id);
        let (value, role) = (working.value, working.symbol.role);
        scene.writer.symbol(role).equals(scene.writer.value(value.value, value.dimension, role))
    };
    let mut placer = Placer::new();
    placer.avoid_marks(&marks);
    let middle = Spot::new(column, 0.5 * (axis + beyond.y));
    placer.put(&Wish::new(named(cut.arm), middle).seats(&[Seat::Right], Escape::Any).gap(8.0));
    let length = named(cut.length);
    let seats = [Seat::Above, Seat::AboveRight, Seat::AboveLeft, Seat::Below, Seat::Right, Seat::Left];
    placer.put(&Wish::new(length, end).seats(&seats, Escape::Any).gap(6.0).ink(Ink::Cut));
    let at_axis = Spot::new(right, axis);
    placer.put(&Wish::new(Label::words("NA"), at_axis).seats(&[Seat::Right], Escape::Any).gap(5.0));
    marks.push(Mark::group("labels", "Labels", placer.into_marks()));
    let area = Label::words("part beyond,\u{a0}").followed_by(named(cut.area));
    let mut entries = vec![(Sample::Beyond, area), (Sample::Cut, Label::words(asked.name.clone()))];
    for id in [cut.first_moment, cut.flow, cut.stress] {
        entries.push((Sample::None, named(id)));
    }
    let under = bounds(&marks);
    marks.push(legend(&entries, under, scene.sheet));

    let text = |id: Id| {
        let working = solved.workings().working(id);
        scene.writer.text(working.value.value, working.value.dimension, working.symbol.role)
    };
    let short = words::shortened(format!(
        "The section with the {}: the part beyond it hatched, the cut {} long, shear stress {}.",
        asked.name,
        text(cut.length),
        text(cut.stress)
    ));
    let mut long = Description::new();
    long.sentence(format!(
        "The section to scale. The cut, a heavy dash-dot line, frees the hatched part: that is the part beyond for the {}. Its \
         centroid is marked, and its distance from the neutral axis NA stands at the right.",
        asked.name
    ));
    let rows = [cut.area, cut.arm, cut.first_moment, cut.length, cut.flow, cut.stress].map(|id| {
        let working = solved.workings().working(id);
        vec![words::capitalized(&working.name), text(id)]
    });
    long.table("Values of the cut", &["Quantity", "Value"], rows.into());
    let id = if place == 0 { "straight-cut".to_owned() } else { format!("straight-cut-{}", place + 1) };
    let title = format!("A straight cut: {}", asked.name);
    Some(Drawing::fitted(&id, &title, 12.0, scene.sheet.width, marks).described(short, long))
}

/// The line of the cut, run out a little on both sides of the material; and its upper end.
fn cut_lines(frame: &Frame, found: &StraightCut) -> (Vec<Mark>, Spot) {
    let mut marks = Vec::new();
    let mut end: Option<Spot> = None;
    for (from, to) in &found.chords {
        let (from, to) = (frame.at(*from), frame.at(*to));
        let length = from.distance(to).max(1e-9);
        let (dx, dy) = (OUT * (to.x - from.x) / length, OUT * (to.y - from.y) / length);
        let (from, to) = (from.moved(-dx, -dy), to.moved(dx, dy));
        marks.push(Mark::Line { from, to, stroke: Stroke::CUT });
        let upper = if from.y < to.y { from } else { to };
        if end.is_none_or(|end| upper.y < end.y) {
            end = Some(upper);
        }
    }
    (marks, end.unwrap_or(frame.corner))
}
