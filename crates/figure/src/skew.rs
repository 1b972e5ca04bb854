//! Bending askew: the section with its inclined neutral axis and its principal axes, and the bending stress drawn at right angles
//! to the neutral axis.

use crate::arrow;
use crate::cross_section::{self, Frame, centroid, keep_off_outlines};
use crate::drawing::{Drawing, Mark, bounds};
use crate::geometry::Point as Spot;
use crate::label::{Escape, Placer, Seat, Wish};
use crate::legend::{Sample, legend};
use crate::materials::{self, Told};
use crate::palette::{Ink, MEDIUM, Stroke, THIN};
use crate::scene::Scene;
use crate::skew_words::describe;
use crate::text::Label;
use mechanics::section::Point;
use mechanics::stress::SkewBending;
use workings::dimension::Dimension;
use workings::role::Role;
use workings::solved::{Corner, MaterialCorners, SkewCorners};

/// Room that the section takes, px across and down.
const ROOM: (f64, f64) = (210.0, 230.0);
/// The largest stress as it is drawn off its base line, px.
const ORDINATE: f64 = 84.0;
/// From the section to the base line of the stress, along the neutral axis, px.
const APART: f64 = 46.0;
/// How far axes run beyond the section, px.
const BEYOND: f64 = 18.0;
/// Radius of the mark of a corner, px.
const DOT: f64 = 3.4;
/// From the stress of one material to the base line of the next, px.
const COLUMN: f64 = 92.0;
/// From one arrow of the stress to the next, px.
const SPACING: f64 = 15.0;

/// What the drawing and its words read.
pub(crate) struct Askew {
    pub bending: SkewBending,
    /// The neutral axis, counter-clockwise from the level axis, rad.
    pub inclination: f64,
    pub corners: Vec<Corner>,
    /// The corners of each material; one entry where the section is of one.
    pub materials: Vec<MaterialCorners>,
    /// The largest stress by size in any material, Pa.
    pub largest: f64,
}

impl Askew {
    pub fn of(scene: &Scene) -> Option<Self> {
        if !scene.section.properties().bends_askew() {
            return None;
        }
        let SkewCorners { corners, materials } = SkewCorners::of(scene.section, &scene.problem.materials())?;
        let bending = SkewBending::under(scene.section, scene.values.moment[0]);
        let inclination = SkewBending::under(scene.section, 1.0).neutral_axis_angle();
        let mut askew = Self { bending, inclination, corners, materials, largest: 0.0 };
        let size = |of: &MaterialCorners| of.farthest.map(|corner| askew.at(of, corner).abs());
        askew.largest = askew.materials.iter().flat_map(size).fold(0.0, f64::max);
        Some(askew)
    }

    /// The stress in a material at one of its corners, Pa.
    pub fn at(&self, material: &MaterialCorners, corner: usize) -> f64 {
        material.modular_ratio * self.bending.stress(self.corners[corner].at)
    }

    /// The corners at which a material is stretched most and pressed most: of one that lies on one side of the neutral axis one alone.
    pub fn most(&self, material: &MaterialCorners) -> Vec<usize> {
        let [one, other] = material.farthest;
        let [a, b] = [self.at(material, one), self.at(material, other)];
        // Each is the largest or the least of all, whichever way the moment turns.
        let counts = |own: f64, beside: f64| if own > beside { own > 0.0 } else { own < 0.0 };
        [(one, counts(a, b)), (other, counts(b, a))].into_iter().filter(|of| of.1).map(|of| of.0).collect()
    }

    pub fn is_mixed(&self) -> bool {
        self.materials.len() > 1
    }
}

/// The drawing; none where the level axis is a principal one.
pub(crate) fn skew(scene: &Scene) -> Option<Drawing> {
    let askew = Askew::of(scene)?;
    let frame = Frame::fitting(scene.extent, (scene.across(ROOM.0), ROOM.1), Spot::new(0.0, 0.0));
    let plane = Plane::of(scene, &frame, &askew);
    let section = cross_section::given(scene, &frame);
    let mut wishes = Vec::new();
    let axes = plane.axes(scene, &mut wishes);
    let columns = plane.columns(scene);
    let stress: Vec<Mark> =
        columns.iter().flat_map(|&(rank, base)| plane.stress(scene, (rank, base), &mut wishes)).collect();
    let corners = plane.corners(scene, &mut wishes);
    let mut placer = Placer::new();
    keep_off_outlines(&mut placer, scene, &frame);
    for marks in [&axes, &stress, &corners] {
        placer.avoid_marks(marks);
    }
    for wish in &wishes {
        placer.put(wish);
    }
    let mut marks = vec![
        Mark::group("section", "The section", section),
        Mark::group("axes", "Neutral axis and principal axes", axes),
        Mark::group("stress", "Bending stress at right angles to the neutral axis", stress),
        Mark::group("corners", "Corners, and the fibres of largest tension and compression", corners),
        Mark::group("labels", "Labels", placer.into_marks()),
    ];
    let under = bounds(&marks);
    let mut entries = vec![
        (Sample::Line(NEUTRAL), Label::words("neutral axis")),
        (
            Sample::Line(Stroke::AXIS),
            Label::words("principal axes 1 and 2, about which\u{a0}")
                .followed_by(scene.writer.symbol(Role::SecondMoment))
                .and_words(" is largest and smallest"),
        ),
        (Sample::Line(SIMPLE), Label::words("where the simple formula would have it: level")),
    ];
    if askew.is_mixed() {
        entries.splice(0..0, materials::entries(scene, Told::All));
    }
    if askew.largest > 0.0 {
        entries.push((Sample::Tension, Label::words("tension, T")));
        entries.push((Sample::Compression, Label::words("compression, C")));
    }
    marks.push(legend(&entries, under, scene.sheet));
    let (short, long) = describe(scene, &askew);
    let title = "Bending askew: neutral axis, principal axes and bending stress";
    Some(Drawing::fitted("skew", title, 12.0, scene.sheet.width, marks).described(short, long))
}

const NEUTRAL: Stroke = Stroke::dash_dot(Ink::Line, 2.0);
const SIMPLE: Stroke = Stroke::dotted(Ink::Quiet, 1.5);

/// A part of the largest; none of nothing.
fn share(of: f64, largest: f64) -> f64 {
    if largest > 0.0 { of / largest } else { 0.0 }
}

/// The section on the sheet with the directions along and across its neutral axis.
struct Plane<'a> {
    frame: &'a Frame,
    askew: &'a Askew,
    middle: Spot,
    /// Along the neutral axis, to the right, and at right angles, upward; on the sheet, of length 1.
    along: Spot,
    across: Spot,
    /// Where the first base line of a stress stands, px from the centroid along the neutral axis.
    base: f64,
    /// Where the last one does.
    last: f64,
}

impl<'a> Plane<'a> {
    fn of(scene: &Scene, frame: &'a Frame, askew: &'a Askew) -> Self {
        let (sin, cos) = (mechanics::real::sin(askew.inclination), mechanics::real::cos(askew.inclination));
        let (along, across) = (Spot::new(cos, -sin), Spot::new(-sin, -cos));
        let middle = frame.at(scene.section.properties().centroid);
        let mut plane = Self { frame, askew, middle, along, across, base: 0.0, last: 0.0 };
        let reach = |corner: &Corner| plane.off(corner.at).0;
        plane.base = askew.corners.iter().map(reach).fold(0.0, f64::max) + scene.across(APART);
        plane.last = plane.columns(scene).last().map_or(plane.base, |(_, base)| *base);
        plane
    }

    /// For each material where the base line of its stress stands: one beside the other, each with room for its stress and its values.
    fn columns(&self, scene: &Scene) -> Vec<(usize, f64)> {
        let mut base = self.base;
        let mut columns = Vec::new();
        for (rank, material) in self.askew.materials.iter().enumerate() {
            columns.push((rank, base));
            let size = |corner: usize| self.askew.at(material, corner).abs();
            let most = material.farthest.map(size).into_iter().fold(0.0, f64::max);
            base += scene.across(ORDINATE) * share(most, self.askew.largest) + scene.across(COLUMN);
        }
        columns
    }

    /// How far a point lies along the neutral axis and across it, px from the centroid.
    fn off(&self, point: Point) -> (f64, f64) {
        let at = self.frame.at(point);
        let (x, y) = (at.x - self.middle.x, at.y - self.middle.y);
        (x * self.along.x + y * self.along.y, x * self.across.x + y * self.across.y)
    }

    fn spot(&self, along: f64, across: f64) -> Spot {
        self.middle.moved(
            along * self.along.x + across * self.across.x,
            along * self.along.y + across * self.across.y,
        )
    }

    /// A line through the centroid in a direction, a little beyond the section on both sides.
    fn through(&self, angle: f64, beyond: f64) -> (Spot, Spot) {
        let direction = Spot::new(mechanics::real::cos(angle), -mechanics::real::sin(angle));
        let reaches = self.askew.corners.iter().map(|corner| {
            let at = self.frame.at(corner.at);
            (at.x - self.middle.x) * direction.x + (at.y - self.middle.y) * direction.y
        });
        let (low, high) =
            reaches.fold((0.0_f64, 0.0_f64), |(low, high), reach| (low.min(reach), high.max(reach)));
        let end = |reach: f64| self.middle.moved(reach * direction.x, reach * direction.y);
        (end(low - beyond), end(high + beyond))
    }

    fn axes(&self, scene: &Scene, wishes: &mut Vec<Wish>) -> Vec<Mark> {
        let w = &scene.writer;
        let small = scene.sheet.small;
        let mut marks = Vec::new();
        let principal = scene.section.properties().principal.angle;
        for (name, angle) in [("1", principal), ("2", principal + core::f64::consts::FRAC_PI_2)] {
            let (from, to) = self.through(angle, BEYOND);
            marks.push(Mark::Line { from, to, stroke: Stroke::AXIS });
            let upper = if from.y < to.y { from } else { to };
            let wish = Wish::new(Label::words(name), upper).seats(
                &[Seat::Above, Seat::AboveRight, Seat::AboveLeft, Seat::Left, Seat::Right],
                Escape::Up,
            );
            wishes.push(wish.size(small).ink(Ink::Quiet).gap(4.0));
        }
        let (from, to) = self.through(0.0, BEYOND);
        marks.push(Mark::Line { from, to, stroke: SIMPLE });
        let (left, _) = self.through(self.askew.inclination, 2.0 * BEYOND);
        let right = self.spot(self.last + 4.0, 0.0);
        marks.push(Mark::Line { from: left, to: right, stroke: NEUTRAL });
        marks.extend(centroid(self.middle, 4.0, Ink::Line));
        let angle = self.askew.inclination;
        let radius = 58.0;
        // An angle too small to be seen as one is told in words.
        if (radius * angle).abs() > 10.0 {
            let stroke = Stroke::solid(Ink::Line, MEDIUM);
            marks.extend(arrow::turning(self.middle, radius, 0.0, angle, stroke));
        }
        let text = w.text(angle.abs(), Dimension::NONE, Role::NeutralAxisAngle);
        let label = w.symbol(Role::NeutralAxisAngle).equals(Label::words(text));
        let at = self.middle.around(radius, 0.5 * angle);
        wishes.push(
            Wish::new(label, at)
                .seats(&[Seat::Right, Seat::AboveRight, Seat::BelowRight, Seat::Left], Escape::Any)
                .gap(7.0)
                .size(small),
        );
        let words = Label::words("NA");
        wishes.push(
            Wish::new(words, left).seats(&[Seat::Left, Seat::Above, Seat::Below], Escape::Any).gap(5.0),
        );
        marks
    }

    /// The stress in a material as a diagram over a base line at right angles to the neutral axis, and lines from its farthest fibres to it.
    fn stress(&self, scene: &Scene, (rank, base): (usize, f64), wishes: &mut Vec<Wish>) -> Vec<Mark> {
        let askew = self.askew;
        if askew.largest == 0.0 {
            return Vec::new();
        }
        let material = &askew.materials[rank];
        let w = &scene.writer;
        let longest = scene.across(ORDINATE);
        // How far the stress is drawn off its base line at so many px across from the neutral axis.
        let slope = |corner: usize| {
            let across = self.off(askew.corners[corner].at).1;
            longest * (askew.at(material, corner) / askew.largest).abs() / across.abs()
        };
        let mut marks = Vec::new();
        let ends = material.farthest.map(|corner| (corner, self.off(askew.corners[corner].at).1));
        let (low, high) = (ends[0].1.min(ends[1].1), ends[0].1.max(ends[1].1));
        for corner in askew.most(material) {
            let stress = askew.at(material, corner);
            let (from, across) = self.off(askew.corners[corner].at);
            // From the neutral axis, or from where the material begins beyond it.
            let begin = if across > 0.0 { low.max(0.0) } else { high.min(0.0) };
            let at = |across: f64| self.spot(base + slope(corner) * across.abs(), across);
            let (foot, tip) = (self.spot(base, across), at(across));
            let (tint, stroke) = if stress > 0.0 {
                (Ink::TensionTint, Stroke::solid(Ink::Tension, MEDIUM))
            } else {
                (Ink::CompressionTint, Stroke::dashed(Ink::Compression, MEDIUM))
            };
            let mut points = vec![at(begin), tip, foot];
            if begin != 0.0 {
                points.push(self.spot(base, begin));
            }
            marks.push(Mark::Polygon { points, stroke: None, fill: Some(tint) });
            marks.push(Mark::Line { from: at(begin), to: tip, stroke });
            let long = across - begin;
            let count = (long.abs() / SPACING).floor().clamp(1.0, 8.0) as u32;
            let first = if begin == 0.0 { 1 } else { 0 };
            for k in first..=count {
                let across = begin + long * f64::from(k) / f64::from(count);
                let (foot, tip) = (self.spot(base, across), at(across));
                if foot.distance(tip) < 6.0 {
                    continue;
                }
                let stroke = Stroke { width: 1.0, ..stroke };
                marks.extend(if stress > 0.0 {
                    arrow::straight(foot, tip, stroke)
                } else {
                    arrow::straight(tip, foot, stroke)
                });
            }
            let near = self.spot(from + 6.0, across);
            marks.push(Mark::Line { from: near, to: foot, stroke: Stroke::solid(Ink::Quiet, 0.5) });
            let index = format!("{}{}", material.prefix, askew.corners[corner].letter);
            let value = w.value_beside(stress.abs(), Dimension::STRESS, Role::BendingStress, askew.largest);
            let kind = if stress > 0.0 { "\u{a0}T" } else { "\u{a0}C" };
            let label = w.symbol_indexed(Role::BendingStress, &index).equals(value).and_words(kind);
            let seats: &[Seat] = if across > 0.0 {
                &[Seat::AboveRight, Seat::Above, Seat::Right, Seat::AboveLeft]
            } else {
                &[Seat::BelowRight, Seat::Below, Seat::Right, Seat::BelowLeft]
            };
            let ink = if stress > 0.0 { Ink::Tension } else { Ink::Compression };
            wishes.push(Wish::new(label, tip).seats(seats, Escape::Any).gap(5.0).ink(ink));
        }
        marks.push(Mark::Line {
            from: self.spot(base, ends[0].1),
            to: self.spot(base, ends[1].1),
            stroke: Stroke::solid(Ink::Line, MEDIUM),
        });
        marks
    }

    /// The corners with their letters, those farthest from the neutral axis filled.
    fn corners(&self, scene: &Scene, wishes: &mut Vec<Wish>) -> Vec<Mark> {
        let askew = self.askew;
        let most: Vec<usize> = askew.materials.iter().flat_map(|of| askew.most(of)).collect();
        let mut marks = Vec::new();
        for (index, corner) in askew.corners.iter().enumerate() {
            let centre = self.frame.at(corner.at);
            let stress = askew.bending.stress(corner.at);
            let ink = match (most.contains(&index) && askew.largest > 0.0, stress > 0.0) {
                (false, _) => Ink::Line,
                (true, true) => Ink::Tension,
                (true, false) => Ink::Compression,
            };
            let farthest = ink != Ink::Line;
            marks.push(Mark::Circle {
                centre,
                radius: if farthest { 1.4 * DOT } else { DOT },
                stroke: Some(Stroke::solid(ink, if farthest { MEDIUM } else { THIN })),
                fill: Some(if farthest { ink } else { Ink::Paper }),
            });
            let (right, up) = (centre.x > self.middle.x, centre.y < self.middle.y);
            let seats = match (right, up) {
                (true, true) => [Seat::AboveRight, Seat::Right, Seat::Above, Seat::BelowRight],
                (true, false) => [Seat::BelowRight, Seat::Right, Seat::Below, Seat::AboveRight],
                (false, true) => [Seat::AboveLeft, Seat::Left, Seat::Above, Seat::BelowLeft],
                (false, false) => [Seat::BelowLeft, Seat::Left, Seat::Below, Seat::AboveLeft],
            };
            let label = Label::words(corner.letter.as_str());
            wishes.push(Wish::new(label, centre).seats(&seats, Escape::Any).gap(6.0).size(scene.sheet.small));
        }
        marks
    }
}
