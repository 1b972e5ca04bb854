//! The shear flow along the middle lines of thin walls: its size drawn off each wall, arrows along it, the shear centre
//! with the shear force through it.

use crate::arrow;
use crate::cross_section::{self, Frame};
use crate::drawing::{Drawing, Mark, Step, bounds};
use crate::geometry::Point as Spot;
use crate::label::{self, Escape, Placer, Seat, Wish};
use crate::legend::{Sample, legend};
use crate::palette::{Ink, MEDIUM, Stroke};
use crate::scene::Scene;
use crate::text::{Align, Label};
use crate::wall_flow_centre::centre;
use crate::wall_flow_fit::Fit;
use crate::wall_flow_words::describe;
use mechanics::section::Point;
use mechanics::thin_wall::{ShearFlow, ThinWalls};
use workings::dimension::Dimension;
use workings::role::Role;

/// Distance between the lines of the hatch along a wall, px.
const HATCH: f64 = 6.0;
/// Points of the curve along a wall; a multiple of two, so that its middle is one.
const POINTS: u32 = 40;
/// Length of the arrow of the largest flow, px; those of others are in proportion.
const ARROW: f64 = 34.0;
/// The least length of an arrow, px.
const LEAST_ARROW: f64 = 12.0;
/// Flows below this part of the largest are none: what is left where the theory says zero is 1e-13 of it.
pub(crate) const NOTHING: f64 = 1e-9;
/// A point nearer to a wall's line than this part of the section's size is on it.
const ON_THE_LINE: f64 = 0.02;
/// Distance of a label from the tip of an ordinate where walls meet, px.
const JOINT_GAP: f64 = 8.0;
/// Into how many parts a cell is divided each way to find a place for its name.
const NAME_STEPS: i32 = 16;
/// Two values of one wall are told one by one where they stand as far apart along it, px, or differ by this part of the larger one.
const APART: (f64, f64) = (24.0, 0.02);

/// What the drawing and its words read.
pub(crate) struct Flowing<'a> {
    pub walls: &'a ThinWalls,
    pub flow: ShearFlow<'a>,
    /// The largest flow by size, N/m.
    pub largest: f64,
}

impl Flowing<'_> {
    /// Whether a flow is none.
    pub fn is_nothing(&self, flow: f64) -> bool {
        flow.abs() <= NOTHING * self.largest
    }
}

/// The shear flow in the walls under the shear force on the left face; none where the section has no thin walls, or no shear
/// force acts.
pub(crate) fn wall_flow(scene: &Scene) -> Option<Drawing> {
    let walls = scene.problem.thin_walls().ok()?;
    let flow = walls.shear_flow(0.0, scene.values.shear[0]);
    let largest = (0..walls.walls().len()).filter_map(|wall| flow.largest_in(wall));
    let largest = largest.map(|of| of.flow.abs()).fold(0.0, f64::max);
    (largest > 0.0).then(|| drawn(scene, &Flowing { walls: &walls, flow, largest }))
}

fn drawn(scene: &Scene, flowing: &Flowing) -> Drawing {
    let Fit { frame, ordinate, crowded } = Fit::of(scene, flowing);
    let section = cross_section::given(scene, &frame);
    let (mut ordinates, mut arrows, mut wishes) = (Vec::new(), Vec::new(), Vec::new());
    for wall in 0..flowing.walls.walls().len() {
        let Some(side) = Side::of(scene, (&frame, ordinate), flowing, wall) else { continue };
        ordinates.extend(side.marks());
        arrows.extend(side.arrows());
    }
    let centre = centre(scene, &frame, flowing, &bounds(&ordinates), &mut wishes);
    wishes.extend(values(scene, (&frame, ordinate), flowing));
    if !crowded {
        wishes.extend(values_at_joints(scene, (&frame, ordinate), flowing));
    }
    let mut placer = Placer::new();
    for marks in [&section, &ordinates, &arrows, &centre] {
        placer.avoid_marks(marks);
    }
    for wish in &wishes {
        placer.put(wish);
    }
    for (number, walls) in &scene.cells {
        let name = if crowded { number.clone() } else { format!("cell {number}") };
        cell_name(scene, &frame, (Label::words(name), walls), (flowing, &mut placer));
    }
    let mut marks = vec![
        Mark::group("section", "The section", section),
        Mark::group("flow", "Shear flow, its size drawn off each wall", ordinates),
        Mark::group("sense", "The way that the shear flow runs", arrows),
        Mark::group("shear-centre", "Shear centre, and the shear force through it", centre),
        Mark::group("labels", "Labels", placer.into_marks()),
    ];
    let under = bounds(&marks);
    let size = Label::words("size of the shear flow, drawn off the wall");
    let numbers: Vec<&str> = scene.cells.iter().map(|(number, _)| number.as_str()).collect();
    let cells = (crowded && !numbers.is_empty())
        .then(|| (Sample::None, Label::words(format!("{}: the cells", numbers.join(", ")))));
    let mut entries = vec![
        (Sample::Line(Stroke::solid(Ink::Cut, MEDIUM)), size),
        (Sample::Line(Stroke::AXIS), Label::words("line of the shear force")),
        (Sample::None, Label::words("as the left piece of the beam acts on the right one; by middle lines")),
    ];
    entries.extend(cells);
    marks.push(legend(&entries, under, scene.sheet));
    let (short, long) = describe(scene, flowing);
    Drawing::fitted("wall-flow", "Shear flow in the walls", 12.0, scene.sheet.width, marks)
        .described(short, long)
}

/// One wall on the sheet.
struct Side<'a> {
    frame: &'a Frame,
    /// The ordinate of the largest flow of all, px.
    longest: f64,
    flowing: &'a Flowing<'a>,
    wall: usize,
    /// 1 where the flow is drawn to the left of the way that the wall runs, -1 to its right.
    sense: f64,
    /// Half the thickness as it is drawn, px.
    half: f64,
}

impl<'a> Side<'a> {
    /// The flow is drawn on the side away from the shear centre, which is marked; that of a wall on whose line it stands, away
    /// from the centroid; else on the right or above.
    fn of(
        scene: &Scene,
        (frame, longest): (&'a Frame, f64),
        flowing: &'a Flowing<'a>,
        wall: usize,
    ) -> Option<Self> {
        let (middle, along) = flowing.walls.point(wall, 0.5)?;
        let size = scene.extent.height().max(scene.extent.breadth());
        let away = |from: Point| {
            let off = -along.y * (middle.x - from.x) + along.x * (middle.y - from.y);
            Some(off).filter(|off| off.abs() > ON_THE_LINE * size)
        };
        let left = away(flowing.walls.shear_centre()).or_else(|| away(flowing.walls.centroid()));
        let left = left.unwrap_or(-along.y + 0.1 * along.x);
        let half = 0.5 * flowing.walls.walls().get(wall)?.thickness * frame.scale;
        Some(Self { frame, longest, flowing, wall, sense: left.signum(), half })
    }

    /// The foot on the wall's face and the tip of the ordinate at a part of the wall, and the direction off the wall.
    fn ordinate(&self, part: f64) -> Option<(Spot, Spot, Spot)> {
        let (point, along) = self.flowing.walls.point(self.wall, part)?;
        // On the sheet y runs down.
        let off = Spot::new(-self.sense * along.y, -self.sense * along.x);
        let at = self.frame.at(point);
        let size = self.longest * self.flowing.flow.at(self.wall, part).abs() / self.flowing.largest;
        let foot = at.moved(self.half * off.x, self.half * off.y);
        Some((foot, foot.moved(size * off.x, size * off.y), off))
    }

    fn length(&self) -> f64 {
        self.flowing.walls.length(self.wall) * self.frame.scale
    }

    /// The curve with its ground, and the hatch.
    fn marks(&self) -> Vec<Mark> {
        let parts = (0..=POINTS).map(|k| f64::from(k) / f64::from(POINTS));
        let ordinates: Vec<_> = parts.filter_map(|part| self.ordinate(part)).collect();
        let mut steps: Vec<Step> = ordinates.iter().map(|(_, tip, _)| Step::Line(*tip)).collect();
        if let (Some((first, ..)), Some((last, ..))) = (ordinates.first(), ordinates.last()) {
            steps.insert(0, Step::Move(*first));
            steps.push(Step::Line(*last));
        }
        let ground =
            ordinates.iter().map(|(_, tip, _)| *tip).chain(ordinates.iter().rev().map(|(foot, ..)| *foot));
        let lines = (self.length() / HATCH).floor().max(1.0) as u32;
        let mut hatch = Vec::new();
        for k in 1..lines {
            if let Some((foot, tip, _)) = self.ordinate(f64::from(k) / f64::from(lines)) {
                hatch.extend([Step::Move(foot), Step::Line(tip)]);
            }
        }
        vec![
            Mark::Path {
                steps: ground
                    .enumerate()
                    .map(|(k, at)| if k == 0 { Step::Move(at) } else { Step::Line(at) })
                    .chain([Step::Close])
                    .collect(),
                stroke: None,
                fill: Some(Ink::CutTint),
            },
            Mark::Path { steps: hatch, stroke: Some(Stroke::solid(Ink::Cut, 0.5)), fill: None },
            Mark::Path { steps, stroke: Some(Stroke::solid(Ink::Cut, MEDIUM)), fill: None },
        ]
    }

    /// Arrows on the middle line, the way that the flow runs, each as long as the flow in its middle is large and at least so long
    /// that the way is seen.
    fn arrows(&self) -> Vec<Mark> {
        let mut marks = Vec::new();
        for (from, to) in self.stretches() {
            let room = (to - from) * self.length();
            let count = (room / (ARROW + 8.0)).floor().clamp(1.0, 4.0) as u32;
            for k in 0..count {
                let part = from + (to - from) * (f64::from(k) + 0.5) / f64::from(count);
                let flow = self.flowing.flow.at(self.wall, part);
                let size = (ARROW * flow.abs() / self.flowing.largest).max(LEAST_ARROW).min(0.8 * room);
                let Some((point, along)) = self.flowing.walls.point(self.wall, part) else { continue };
                // A shorter arrow than this is a head without a shaft.
                if size < 0.7 * LEAST_ARROW || self.flowing.is_nothing(flow) {
                    continue;
                }
                let length = size * flow.signum();
                let at = self.frame.at(point);
                let end = |half: f64| at.moved(half * along.x, -half * along.y);
                let stroke = Stroke::solid(Ink::Line, MEDIUM);
                marks.extend(arrow::straight(end(-0.5 * length), end(0.5 * length), stroke));
            }
        }
        marks
    }

    /// The stretches of the wall, as parts of its length, along each of which the flow runs one way.
    fn stretches(&self) -> Vec<(f64, f64)> {
        let mut ends = vec![0.0];
        for k in 0..POINTS {
            let [here, next] = [k, k + 1].map(|k| f64::from(k) / f64::from(POINTS));
            let [before, after] = [here, next].map(|part| self.flowing.flow.at(self.wall, part));
            if before * after < 0.0 {
                ends.push(here + (next - here) * before / (before - after));
            }
        }
        ends.push(1.0);
        ends.windows(2).map(|pair| (pair[0], pair[1])).collect()
    }
}

/// A flow by its size.
fn size(scene: &Scene, flowing: &Flowing, flow: f64) -> Label {
    scene.writer.value_beside(flow.abs(), Dimension::FORCE_PER_LENGTH, Role::ShearFlow, flowing.largest)
}

/// The largest value within each wall.
fn values(scene: &Scene, frame: (&Frame, f64), flowing: &Flowing) -> Vec<Wish> {
    let mut wishes = Vec::new();
    let mut named = false;
    for wall in 0..flowing.walls.walls().len() {
        let Some(side) = Side::of(scene, frame, flowing, wall) else { continue };
        let Some(most) = flowing.flow.largest_in(wall) else { continue };
        let within = most.part > 0.0 && most.part < 1.0;
        if within && !flowing.is_nothing(most.flow) {
            let is_largest = most.flow.abs() >= flowing.largest * (1.0 - NOTHING) && !named;
            named |= is_largest;
            let value = size(scene, flowing, most.flow);
            let label = if is_largest {
                scene.writer.symbol_indexed(Role::ShearFlow, "max").equals(value)
            } else {
                value
            };
            wishes.extend(wish(scene, &side, most.part, label));
        }
    }
    wishes
}

/// The values where walls meet; one that stands close to the largest of its wall and is as good as that is left to it.
fn values_at_joints(scene: &Scene, frame: (&Frame, f64), flowing: &Flowing) -> Vec<Wish> {
    let mut wishes = Vec::new();
    for (wall, part) in at_joints(flowing) {
        let Some(side) = Side::of(scene, frame, flowing, wall) else { continue };
        let stands_at_the_largest = flowing.flow.largest_in(wall).is_some_and(|most| {
            let (flow, apart) = (flowing.flow.at(wall, part), (most.part - part).abs() * side.length());
            apart > 0.0
                && most.part > 0.0
                && most.part < 1.0
                && apart < APART.0
                && (most.flow - flow).abs() < APART.1 * most.flow.abs()
        });
        if stands_at_the_largest {
            continue;
        }
        let label = size(scene, flowing, flowing.flow.at(wall, part));
        // The curve leaves the tip aslant: a label closer by would be moved off, and its leader read as a minus sign.
        let beside = wish(scene, &side, part, label).map(|wish| wish.gap(JOINT_GAP));
        wishes.extend(beside.map(|wish| match goes_on(flowing, wall, part) {
            true => wish,
            false => over_its_own(&side, part, wish),
        }));
    }
    wishes
}

/// Whether only two walls meet at this end of a wall, so that one value holds for both.
fn goes_on(flowing: &Flowing, wall: usize, part: f64) -> bool {
    let walls = flowing.walls.walls();
    let Some(of) = walls.get(wall) else { return false };
    let joint = if part < 0.5 { of.from } else { of.to };
    walls.iter().flat_map(|of| [of.from, of.to]).filter(|at| *at == joint).count() <= 2
}

/// Where several walls meet, each value stands over its own wall: past the joint it would be read off the next one's peak.
fn over_its_own(side: &Side, part: f64, wish: Wish) -> Wish {
    let Some((_, along)) = side.flowing.walls.point(side.wall, part) else { return wish };
    let inward = if part < 0.5 { 1.0 } else { -1.0 };
    let (right, up) = (inward * along.x, inward * along.y);
    let Some((_, _, off)) = side.ordinate(part) else { return wish };
    let (own, seats) = if right.abs() > up.abs() {
        match (right > 0.0, off.y < 0.0) {
            (true, true) => (label::Side::Right, Seat::AboveRight),
            (true, false) => (label::Side::Right, Seat::BelowRight),
            (false, true) => (label::Side::Left, Seat::AboveLeft),
            (false, false) => (label::Side::Left, Seat::BelowLeft),
        }
    } else {
        match (up > 0.0, off.x > 0.0) {
            (true, true) => (label::Side::Above, Seat::AboveRight),
            (true, false) => (label::Side::Above, Seat::AboveLeft),
            (false, true) => (label::Side::Below, Seat::BelowRight),
            (false, false) => (label::Side::Below, Seat::BelowLeft),
        }
    };
    wish.seats(&[seats], Escape::Any).only(own)
}

/// The ends of walls whose flow is told: where two walls meet the flow goes on, and is told once.
pub(crate) fn at_joints(flowing: &Flowing) -> Vec<(usize, f64)> {
    let mut told = Vec::new();
    for joint in 0..flowing.walls.joints().len() {
        let ends = flowing.walls.walls().iter().enumerate().flat_map(|(index, wall)| {
            let ends = [(wall.from, 0.0), (wall.to, 1.0)];
            ends.into_iter().filter(move |(at, _)| *at == joint).map(move |(_, part)| (index, part))
        });
        let mut ends: Vec<(usize, f64)> = ends.collect();
        let through = ends.len() == 2;
        ends.retain(|&(wall, part)| !flowing.is_nothing(flowing.flow.at(wall, part)));
        if through {
            // Above or below a level wall its value stands outside the section, and those of one drawing alike.
            let slope = |&(wall, _): &(usize, f64)| {
                flowing.walls.point(wall, 0.5).map_or(1.0, |(_, along)| along.y.abs())
            };
            ends.sort_by(|a, b| slope(a).total_cmp(&slope(b)));
            ends.truncate(1);
        }
        told.extend(ends);
    }
    told
}

/// A label at the tip of an ordinate.
fn wish(scene: &Scene, side: &Side, part: f64, label: Label) -> Option<Wish> {
    let (_, tip, off) = side.ordinate(part)?;
    let seats: &[Seat] = if off.x.abs() > off.y.abs() {
        if off.x > 0.0 {
            &[Seat::Right, Seat::AboveRight, Seat::BelowRight]
        } else {
            &[Seat::Left, Seat::AboveLeft, Seat::BelowLeft]
        }
    } else if off.y < 0.0 {
        &[Seat::Above, Seat::AboveRight, Seat::AboveLeft]
    } else {
        &[Seat::Below, Seat::BelowRight, Seat::BelowLeft]
    };
    Some(Wish::new(label, tip).seats(seats, Escape::Any).size(scene.sheet.small).ink(Ink::Cut))
}

/// What a cell is called, within it: near its middle, above it first.
fn cell_name(
    scene: &Scene,
    frame: &Frame,
    (label, walls): (Label, &[usize]),
    (flowing, placer): (&Flowing, &mut Placer),
) {
    let middles = walls.iter().filter_map(|&wall| flowing.walls.point(wall, 0.5));
    let corners: Vec<Spot> = middles.map(|(point, _)| frame.at(point)).collect();
    let inside = crate::geometry::Rect::around(&corners);
    let parts = |count: i32| (1..count).map(move |k| f64::from(k) / f64::from(count));
    let mut spots: Vec<Spot> = parts(NAME_STEPS)
        .flat_map(|down| parts(NAME_STEPS).map(move |right| (right, down)))
        .map(|(right, down)| {
            Spot::new(inside.left + right * inside.width(), inside.top + down * inside.height())
        })
        .collect();
    let wanted = Spot::new(0.5 * (inside.left + inside.right), inside.top + 0.25 * inside.height());
    let off = |spot: &Spot| (spot.x - wanted.x).abs() + (spot.y - wanted.y).abs();
    spots.sort_by(|a, b| off(a).total_cmp(&off(b)));
    let size = scene.sheet.small;
    let free = spots.into_iter().find(|&spot| {
        let rect = label.rect(spot, Align::Middle, size);
        placer.is_free(rect) && inside.left < rect.left && rect.right < inside.right
    });
    match free {
        Some(spot) => placer.put_at(&label, spot, Align::Middle, size, Ink::Line),
        None => {
            placer.put(&Wish::new(label, wanted).size(size));
        }
    }
}
