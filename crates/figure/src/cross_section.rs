//! The marks of a cross-section seen along the beam: bodies, part beyond the cut, joints, centroid.

use crate::body::Body;
use crate::drawing::Mark;
use crate::geometry::{Point as Spot, Rect};
use crate::hatch;
use crate::label::Placer;
use crate::metrics;
use crate::nails::nails;
use crate::outline::{Extent, Region};
use crate::palette::{Dash, Ink, Stroke, THIN};
use crate::prism_marks::filled;
use crate::scene::{FINENESS, Scene};
use crate::text::{Align, Label};
use core::f64::consts::{FRAC_PI_2, FRAC_PI_4};
use mechanics::section::{Edge, Point};
use workings::problem::JointKind;

/// Spacing of the hatch of the part beyond, px.
pub(crate) const HATCH: f64 = 6.0;

/// Where the section stands on the sheet, and its scale.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Frame {
    /// px for each m up.
    pub scale: f64,
    /// px for each m across: the same, unless a flat section is drawn higher than it is.
    pub across: f64,
    /// Where the lower left corner of the box round the section falls.
    pub corner: Spot,
    /// That box.
    pub extent: Extent,
}

impl Frame {
    /// A frame that fits the section into a room of so many px across and down, its lower left corner at `corner`.
    pub fn fitting(extent: Extent, room: (f64, f64), corner: Spot) -> Self {
        let scale = (room.0 / extent.breadth()).min(room.1 / extent.height());
        Self { scale, across: scale, corner, extent }
    }

    /// The same, with the heights of a flat section so many times as large that it is at least `least` px high.
    pub fn at_least_high(extent: Extent, room: (f64, f64), least: f64, corner: Spot) -> Self {
        let fitting = Self::fitting(extent, room, corner);
        let height = extent.height() * fitting.scale;
        let times = (least / height).ceil().min((room.1 / height).floor()).max(1.0);
        Self { scale: times * fitting.scale, ..fitting }
    }

    /// That heights are drawn larger than widths, in words, where they are.
    pub fn remark(&self) -> Option<String> {
        let times = (self.scale / self.across).round();
        (times > 1.0).then(|| format!("heights of the section drawn {times} times as large as widths"))
    }

    /// Where x falls, px.
    pub fn x(&self, x: f64) -> f64 {
        self.corner.x + (x - self.extent.left) * self.across
    }

    /// Where a height falls, px.
    pub fn y(&self, height: f64) -> f64 {
        self.corner.y - (height - self.extent.bottom) * self.scale
    }

    /// Where a point falls.
    pub fn at(&self, p: Point) -> Spot {
        Spot::new(self.x(p.x), self.y(p.y))
    }

    /// Right edge of the section, px.
    pub fn right(&self) -> f64 {
        self.x(self.extent.right)
    }

    /// The rings of a region on the sheet.
    pub fn loops(&self, region: &Region) -> Vec<Vec<Spot>> {
        region.rings.iter().map(|ring| ring.points.iter().map(|&p| self.at(p)).collect()).collect()
    }
}

/// The slant of the hatch of a material, by its rank among the materials that are not the reference; rad.
fn slant(rank: usize) -> f64 {
    [-FRAC_PI_4, FRAC_PI_2, 0.0][rank % 3]
}

/// The materials other than the reference: modular ratio and slant of the hatch.
pub(crate) fn materials(scene: &Scene) -> Vec<(f64, f64)> {
    let mut ratios: Vec<f64> = scene.bodies.iter().map(|b| b.modular_ratio).filter(|&n| n != 1.0).collect();
    ratios.sort_by(f64::total_cmp);
    ratios.dedup();
    ratios.into_iter().enumerate().map(|(rank, n)| (n, slant(rank))).collect()
}

/// The section: bodies tinted, the part beyond the cut hatched, outlines, joints.
pub(crate) fn marks(scene: &Scene, frame: &Frame) -> Vec<Mark> {
    let mut marks = bodies(scene, frame);
    let mut beyond = Vec::new();
    for region in scene.beyond.iter().filter(|r| !r.is_empty()) {
        let loops = frame.loops(region);
        beyond.push(filled(&loops, Some(Ink::Beyond), None));
        beyond.extend(hatch::marks(&loops, FRAC_PI_4, HATCH, Stroke::solid(Ink::BeyondHatch, THIN)));
    }
    marks.push(Mark::group("part-beyond", "The part beyond the cut", beyond));
    marks.extend(outlines(scene, frame));
    marks
}

/// The section as it is given: bodies tinted, outlines, joints.
pub(crate) fn given(scene: &Scene, frame: &Frame) -> Vec<Mark> {
    let mut marks = bodies(scene, frame);
    marks.extend(outlines(scene, frame));
    marks
}

/// The bodies tinted, those of another material hatched.
pub(crate) fn bodies(scene: &Scene, frame: &Frame) -> Vec<Mark> {
    let mut marks = Vec::new();
    let materials = materials(scene);
    for body in &scene.bodies {
        let loops = frame.loops(&body.region);
        marks.push(filled(&loops, Some(Ink::Material), None));
        if let Some(&(_, slant)) = materials.iter().find(|(n, _)| *n == body.modular_ratio) {
            marks.extend(hatch::marks(&loops, slant, 5.0, Stroke::solid(Ink::Quiet, 0.5)));
        }
    }
    marks
}

/// The rings of the bodies that are hatched for their material.
pub(crate) fn hatched(scene: &Scene, frame: &Frame) -> Vec<Vec<Vec<Spot>>> {
    let others = scene.bodies.iter().filter(|body| body.modular_ratio != 1.0);
    others.map(|body| frame.loops(&body.region)).collect()
}

/// The outlines of the bodies, and the joints.
pub(crate) fn outlines(scene: &Scene, frame: &Frame) -> Vec<Mark> {
    let outline = |body: &Body| filled(&frame.loops(&body.region), None, Some(Stroke::OUTLINE));
    let outlines = scene.bodies.iter().map(outline).collect();
    let mut marks = vec![Mark::group("outline", "Outline of the section", outlines)];
    marks.extend(joints(scene, frame));
    marks
}

/// Joints, and the lines that only divide a body into the parts of a table.
fn joints(scene: &Scene, frame: &Frame) -> Vec<Mark> {
    let mut divisions = Vec::new();
    for (contact, _) in scene.section.contacts().iter().zip(&scene.within).filter(|(_, within)| **within) {
        if matches!(contact.edge, Edge::Line { .. }) {
            let stroke = Stroke { ink: Ink::Quiet, width: THIN, dash: Dash::Dotted };
            divisions.push(Mark::Line { from: frame.at(contact.start), to: frame.at(contact.end()), stroke });
        }
    }
    let joints = fastenings(scene, frame);
    let mut marks = Vec::new();
    if !divisions.is_empty() {
        marks.push(Mark::group("divisions", "Lines between the parts of one body", divisions));
    }
    if !joints.is_empty() {
        marks.push(Mark::group("joints", "Joints between the parts", joints));
    }
    marks
}

/// Glue lines, nails and welds as they are drawn by the trade.
pub(crate) fn fastenings(scene: &Scene, frame: &Frame) -> Vec<Mark> {
    let mut joints = Vec::new();
    for (contact, within) in scene.section.contacts().iter().zip(&scene.within) {
        if *within || !matches!(contact.edge, Edge::Line { .. }) {
            continue;
        }
        let (from, to) = (frame.at(contact.start), frame.at(contact.end()));
        let joint =
            scene.problem.joints.iter().find(|joint| {
                joint.beyond.contains(&contact.first) != joint.beyond.contains(&contact.second)
            });
        match joint.map(|joint| (joint.kind, joint.rows)) {
            Some((JointKind::Glue, _)) => joints.extend(glue_line(from, to)),
            Some((JointKind::Fasteners, rows)) => {
                let joint = joint_of(scene, contact.first, contact.second);
                let [first, second] =
                    [contact.first, contact.second].map(|part| part_loops(scene, frame, part));
                let count = fasteners_on(scene, joint, rows, contact.length);
                joints.extend(nails([&first, &second], from, to, count));
            }
            Some((JointKind::Weld, _)) => joints.extend(weld(from, to)),
            None => {}
        }
    }
    joints
}

/// The rings of a part on the sheet.
pub(crate) fn part_loops(scene: &Scene, frame: &Frame, part: usize) -> Vec<Vec<Spot>> {
    let region = |part| Region::of(part, FINENESS * scene.extent.height());
    scene.section.parts().get(part).map(|part| frame.loops(&region(part))).unwrap_or_default()
}

/// The index of the joint that lies between two parts.
fn joint_of(scene: &Scene, first: usize, second: usize) -> Option<usize> {
    scene.problem.joints.iter().position(|j| j.beyond.contains(&first) != j.beyond.contains(&second))
}

/// How many fasteners of a joint are drawn on one of its contacts: its rows shared out over all its contacts by
/// their length, at least one on each.
fn fasteners_on(scene: &Scene, joint: Option<usize>, rows: u32, length: f64) -> usize {
    let total: f64 = scene
        .section
        .contacts()
        .iter()
        .filter(|c| joint_of(scene, c.first, c.second) == joint)
        .map(|c| c.length)
        .sum();
    let share = if total > 0.0 { f64::from(rows) * length / total } else { 1.0 };
    share.round().clamp(1.0, 12.0) as usize
}

/// A heavy line with a fine zigzag on it.
pub(crate) fn glue_line(from: Spot, to: Spot) -> Vec<Mark> {
    let length = from.distance(to);
    if length < 1.0 {
        return Vec::new();
    }
    let across = Spot::new(-(to.y - from.y) / length, (to.x - from.x) / length);
    let teeth = (length / 5.0).round().max(2.0);
    let points: Vec<Spot> = (0..=teeth as usize)
        .map(|k| {
            let side = match k {
                0 => 0.0,
                k if k == teeth as usize => 0.0,
                k if k % 2 == 0 => 2.2,
                _ => -2.2,
            };
            from.towards(to, k as f64 / teeth).moved(side * across.x, side * across.y)
        })
        .collect();
    let mut steps = vec![crate::drawing::Step::Move(points[0])];
    steps.extend(points[1..].iter().map(|&p| crate::drawing::Step::Line(p)));
    vec![
        Mark::Line { from, to, stroke: Stroke::solid(Ink::Line, THIN) },
        Mark::Path { steps, stroke: Some(Stroke::solid(Ink::Line, 1.1)), fill: None },
    ]
}

/// A weld at each end of a contact, as small filled triangles.
fn weld(from: Spot, to: Spot) -> Vec<Mark> {
    [from, to]
        .into_iter()
        .map(|at| Mark::Circle { centre: at, radius: 3.0, stroke: None, fill: Some(Ink::Line) })
        .collect()
}

/// Keeps labels off the outlines of the bodies.
pub(crate) fn keep_off_outlines(placer: &mut Placer, scene: &Scene, frame: &Frame) {
    for ring in scene.bodies.iter().flat_map(|body| frame.loops(&body.region)) {
        placer.avoid_polyline(&ring);
        if let (Some(&first), Some(&last)) = (ring.first(), ring.last()) {
            placer.avoid_line(last, first);
        }
    }
}

/// The name of a part in a box within it, on a patch of the colour of its ground, so that no line runs through it.
pub(crate) fn name_within(label: Label, rect: Rect, size: f64, ink: Ink) -> [Mark; 2] {
    let at = Spot::new(rect.middle().x, rect.bottom - metrics::DESCENT * size);
    [ground(rect.grown(1.5), ink), Mark::Text { at, label, align: Align::Middle, size, ink: Ink::Line }]
}

/// A patch on which a label stands, so that no hatch runs through it.
pub(crate) fn ground(rect: Rect, ink: Ink) -> Mark {
    let points = vec![
        Spot::new(rect.left, rect.top),
        Spot::new(rect.right, rect.top),
        Spot::new(rect.right, rect.bottom),
        Spot::new(rect.left, rect.bottom),
    ];
    Mark::Polygon { points, stroke: None, fill: Some(ink) }
}

/// The mark of a centroid: a circle with two black quarters.
pub(crate) fn centroid(at: Spot, radius: f64, ink: Ink) -> Vec<Mark> {
    let quarter = |from: f64| {
        let mut points = vec![at];
        points.extend(crate::drawing::arc_points(at, radius, from, FRAC_PI_2));
        Mark::Polygon { points, stroke: None, fill: Some(ink) }
    };
    vec![
        Mark::Circle { centre: at, radius, stroke: Some(Stroke::solid(ink, 1.0)), fill: Some(Ink::Paper) },
        quarter(0.0),
        quarter(core::f64::consts::PI),
    ]
}
