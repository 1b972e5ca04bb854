//! What a further straight cut or a joint frees: the part beyond hatched, its centroid and its arm, the length of the cut or the faces
//! of contact.

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
use mechanics::section::{Part, Point};
use workings::problem::Joint;
use workings::solved::{Solved, StraightCutWorkings};
use workings::working::Id;

/// How far the line of the cut runs out of the material on either side, px.
const OUT: f64 = 14.0;
/// How far the line of a face of contact does, px.
const FACE_OUT: f64 = 5.0;
/// How finely arcs are drawn, of the height of the section.
const FINENESS: f64 = 3e-4;

/// One drawing for each further cut.
pub(crate) fn all(solved: &Solved) -> Vec<Drawing> {
    let cuts = solved.further_cuts();
    let Some(scene) = (!cuts.is_empty()).then(|| Scene::of(solved)).flatten() else { return Vec::new() };
    cuts.iter().enumerate().filter_map(|(place, cut)| of_cut(solved, &scene, place, cut)).collect()
}

/// One drawing for each joint that holds another part than the cut's.
pub(crate) fn of_joints(solved: &Solved) -> Vec<Drawing> {
    let joints = &solved.problem().joints;
    let Some(scene) = (!joints.is_empty()).then(|| Scene::of(solved)).flatten() else { return Vec::new() };
    let drawn = joints.iter().filter_map(|joint| of_joint(solved, &scene, joint));
    drawn
        .enumerate()
        .map(|(place, mut drawing)| {
            if place > 0 {
                drawing.name = format!("joint-part-{}", place + 1);
            }
            drawing
        })
        .collect()
}

/// What is freed, and by what.
struct Freed<'a> {
    /// Of the drawing, `straight-cut-2`.
    id: String,
    title: String,
    /// What frees it.
    name: &'a str,
    beyond: Vec<Part>,
    centroid: Point,
    /// The lines of the cut, each from end to end.
    lines: Vec<(Point, Point)>,
    /// How far these run out of the material, px.
    out: f64,
    area: Id,
    arm: Id,
    length: Option<Id>,
    /// What stands in the legend.
    values: Vec<Id>,
    /// In words: in short, and what is seen.
    words: [String; 2],
}

fn of_cut(solved: &Solved, scene: &Scene, place: usize, cut: &StraightCutWorkings) -> Option<Drawing> {
    let asked = solved.problem().further_cuts.get(cut.cut)?;
    let found = solved.section().straight_cut(asked.from, asked.to, asked.keep).ok()?;
    let name = &asked.name;
    let (length, stress) = (text(solved, scene, cut.length), text(solved, scene, cut.stress));
    let freed = Freed {
        id: if place == 0 { "straight-cut".to_owned() } else { format!("straight-cut-{}", place + 1) },
        title: format!("A straight cut: {name}"),
        name,
        beyond: found.beyond.into_iter().map(|(_, part)| part).collect(),
        centroid: found.centroid,
        lines: found.chords,
        out: OUT,
        area: cut.area,
        arm: cut.arm,
        length: Some(cut.length),
        values: vec![cut.first_moment, cut.flow, cut.stress],
        words: [
            format!(
                "The section with the {name}: the part beyond it hatched, the cut {length} long, shear stress {stress}."
            ),
            format!(
                "The section to scale. The cut, a heavy dash-dot line, frees the hatched part: that is the part beyond for the \
                 {name}. Its centroid is marked, and its distance from the neutral axis NA stands at the right."
            ),
        ],
    };
    Some(drawn(solved, scene, freed))
}

/// None where the joint holds just what lies beyond the cut: that is drawn with the section.
fn of_joint(solved: &Solved, scene: &Scene, joint: &Joint) -> Option<Drawing> {
    let name = &joint.name;
    if solved.problem().cut.joint.as_ref() == Some(name) {
        return None;
    }
    let held = solved.section().joint_cut(&joint.beyond).ok()?;
    let id = |what: &str| solved.workings().id(&format!("{what} {name}"));
    let faces: Vec<(Point, Point)> =
        held.contacts.iter().map(|contact| (contact.start, contact.end())).collect();
    let count = faces.len();
    let freed = Freed {
        id: "joint-part".to_owned(),
        title: format!("What the joint holds: {name}"),
        name,
        beyond: held.beyond.iter().filter_map(|&part| solved.problem().parts.get(part)).cloned().collect(),
        centroid: held.centroid,
        lines: faces,
        out: FACE_OUT,
        area: id("area held by")?,
        arm: id("centroid distance of the part held by")?,
        length: id("width of"),
        values: vec![id("first moment at")?, id("shear flow at")?],
        words: [
            format!("The section: what {name} holds hatched, with its faces of contact."),
            format!(
                "The section to scale. What would slide if {name} were gone is hatched; where it touches the rest a heavy dash-dot \
                 line runs, {}. Its centroid is marked, and its distance from the neutral axis NA stands at the right.",
                if count == 1 { "on one face".to_owned() } else { format!("on {count} faces") }
            ),
        ],
    };
    Some(drawn(solved, scene, freed))
}

fn text(solved: &Solved, scene: &Scene, id: Id) -> String {
    let working = solved.workings().working(id);
    scene.writer.text(working.value.value, working.value.dimension, working.symbol.role)
}

fn drawn(solved: &Solved, scene: &Scene, freed: Freed) -> Drawing {
    let frame = Frame::fitting(scene.extent, ROOM, Spot::new(0.0, 0.0));
    let mut section = cross_section::bodies(scene, &frame);
    let sagitta = FINENESS * scene.extent.height();
    for region in freed.beyond.iter().map(|part| Region::of(part, sagitta)).filter(|r| !r.is_empty()) {
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
    let mut marks = vec![Mark::group("section", "The section and the part beyond", section)];
    let axis = frame.y(scene.values.neutral_axis);
    let right = frame.right() + 90.0;
    let line = Mark::Line {
        from: Spot::new(frame.corner.x - 16.0, axis),
        to: Spot::new(right, axis),
        stroke: Stroke::dash_dot(Ink::Line, THIN),
    };
    marks.push(Mark::group("neutral-axis", "Neutral axis", vec![line]));
    let (cuts, end) = cut_lines(&frame, &freed.lines, freed.out);
    marks.push(Mark::group("cut", "The cut", cuts));
    let beyond = frame.at(freed.centroid);
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
    placer.put(&Wish::new(named(freed.arm), middle).seats(&[Seat::Right], Escape::Any).gap(8.0));
    let seats = [Seat::Above, Seat::AboveRight, Seat::AboveLeft, Seat::Below, Seat::Right, Seat::Left];
    if let Some(length) = freed.length {
        placer.put(&Wish::new(named(length), end).seats(&seats, Escape::Any).gap(6.0).ink(Ink::Cut));
    }
    let at_axis = Spot::new(right, axis);
    placer.put(&Wish::new(Label::words("NA"), at_axis).seats(&[Seat::Right], Escape::Any).gap(5.0));
    marks.push(Mark::group("labels", "Labels", placer.into_marks()));
    let area = Label::words("part beyond,\u{a0}").followed_by(named(freed.area));
    let mut entries = vec![(Sample::Beyond, area), (Sample::Cut, Label::words(freed.name.to_owned()))];
    for &id in &freed.values {
        entries.push((Sample::None, named(id)));
    }
    let under = bounds(&marks);
    marks.push(legend(&entries, under, scene.sheet));

    let [short, long_words] = freed.words;
    let mut long = Description::new();
    long.sentence(long_words);
    let all = [freed.area, freed.arm].into_iter().chain(freed.length).chain(freed.values);
    let rows =
        all.map(|id| vec![words::capitalized(&solved.workings().working(id).name), text(solved, scene, id)]);
    long.table("Values of the cut", &["Quantity", "Value"], rows.collect());
    Drawing::fitted(&freed.id, &freed.title, 12.0, scene.sheet.width, marks)
        .described(words::shortened(short), long)
}

/// The line of the cut, run out a little on both sides of the material; and its upper end.
fn cut_lines(frame: &Frame, lines: &[(Point, Point)], out: f64) -> (Vec<Mark>, Spot) {
    let mut marks = Vec::new();
    let mut end: Option<Spot> = None;
    for (from, to) in lines {
        let (from, to) = (frame.at(*from), frame.at(*to));
        let length = from.distance(to).max(1e-9);
        let (dx, dy) = (out * (to.x - from.x) / length, out * (to.y - from.y) / length);
        let (from, to) = (from.moved(-dx, -dy), to.moved(dx, dy));
        marks.push(Mark::Line { from, to, stroke: Stroke::CUT });
        let upper = if from.y < to.y { from } else { to };
        if end.is_none_or(|end| upper.y < end.y) {
            end = Some(upper);
        }
    }
    (marks, end.unwrap_or(frame.corner))
}
