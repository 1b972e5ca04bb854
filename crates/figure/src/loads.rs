//! The loads above a beam: spread loads in tiers, point forces on top of them, couples about the axis.

use crate::arrow;
use crate::beam_grips;
use crate::drawing::Mark;
use crate::geometry::{Point, Rect};
use crate::grip::Grip;
use crate::label::{Escape, Seat, Wish};
use crate::palette::{Ink, MEDIUM, Stroke, THIN};
use crate::reactions::sized;
use crate::scale::{Along, ArrowScale, HALF_DEPTH};
use crate::text::{Label, Level};
use crate::view::BeamView;
use core::f64::consts::PI;
use mechanics::beam::Load;
use workings::dimension::Dimension;
use workings::role::Role;

/// Height kept free above a tier of spread load for its values, px.
const LABEL_ROW: f64 = 17.0;
/// Distance between the arrows of a spread load, px.
const ARROW_PITCH: f64 = 15.0;
/// Longest and shortest arrow of a point force, px.
pub const FORCE_ARROWS: (f64, f64) = (58.0, 14.0);
/// Height of the highest spread load of a drawing, px, and the least that one may have.
const SPREAD_ARROWS: (f64, f64) = (34.0, 11.0);
/// Radius of the arc of a couple, px.
const COUPLE_RADIUS: f64 = 17.0;
/// Two point forces nearer than this on the sheet stand one on the other, px.
const NEIGHBOURS: f64 = 7.0;

/// More labels than these on one beam cannot be read: the largest loads keep theirs, the others are told in the
/// description alone.
pub const MOST_LABELS: usize = 40;
/// Loads stacked higher than this lie on one another, px.
const HIGHEST_BASE: f64 = 400.0;

/// The stroke of a point force.
const FORCE: Stroke = Stroke::solid(Ink::Line, 1.6);
/// The stroke of the arrows of a spread load.
const SPREAD: Stroke = Stroke::solid(Ink::Line, THIN);
/// The stroke of a couple.
const COUPLE: Stroke = Stroke::solid(Ink::Line, MEDIUM);

/// What stands above the beam: stretches of the sheet with their upper edge.
#[derive(Clone, Debug, Default)]
struct Skyline {
    /// Left end, right end (px, with left < right), upper edge at each.
    edges: Vec<(Point, Point)>,
}

impl Skyline {
    fn add(&mut self, from: Point, to: Point) {
        self.edges.push((from, to));
    }

    /// The highest edge over `from ..= to` px; `floor` where nothing stands.
    fn top(&self, from: f64, to: f64, floor: f64) -> f64 {
        let mut top = floor;
        for (one, other) in &self.edges {
            if other.x <= from || to <= one.x {
                continue;
            }
            let at = |x: f64| {
                let part = ((x - one.x) / (other.x - one.x)).clamp(0.0, 1.0);
                one.y + (other.y - one.y) * part
            };
            top = top.min(at(from)).min(at(to));
        }
        top
    }
}

/// The loads of a beam laid out about its axis at y = 0.
pub struct LoadSketch {
    /// Spread loads, then forces, then couples, each a group.
    pub marks: Vec<Mark>,
    /// The labels that they want.
    pub wishes: Vec<Wish>,
    /// What of them can be dragged.
    pub grips: Vec<Grip>,
    /// Whether an arrow had to be drawn longer than its scale has it.
    pub stretched: bool,
}

struct Sketcher<'a> {
    view: &'a BeamView<'a>,
    along: Along,
    forces: ArrowScale,
    /// The boxes of what stands below the beam (supports), px.
    below: &'a [Rect],
    skyline: Skyline,
    /// The loads that get a label, by their place in the list.
    told: Vec<bool>,
    wishes: Vec<Wish>,
    grips: Vec<Grip>,
    stretched: bool,
}

/// Which loads get a label: all, or the largest of each kind where they are too many.
fn told(view: &BeamView<'_>) -> Vec<bool> {
    let loads = &view.problem.beam.loads;
    let size = |load: &Load| match *load {
        Load::Force { down, .. } => (0, down.abs()),
        Load::Couple { ccw, .. } => (1, ccw.abs()),
        Load::Spread { down_from, down_to, .. } => (2, down_from.abs().max(down_to.abs())),
    };
    let mut largest = [0.0_f64; 3];
    for (kind, size) in loads.iter().map(size) {
        largest[kind] = largest[kind].max(size);
    }
    let share = |place: usize| {
        let (kind, size) = size(&loads[place]);
        if largest[kind] > 0.0 { size / largest[kind] } else { 0.0 }
    };
    let mut places: Vec<usize> = (0..loads.len()).collect();
    places.sort_by(|&a, &b| share(b).total_cmp(&share(a)));
    let mut told = vec![false; loads.len()];
    places.into_iter().take(MOST_LABELS).for_each(|place| told[place] = true);
    told
}

/// Lays out the loads of a beam. `forces` is the scale of the point forces, which the reactions share; `below`
/// are the boxes of the supports and of what else stands below the beam.
pub fn sketch(view: &BeamView<'_>, forces: ArrowScale, below: &[Rect]) -> LoadSketch {
    let mut sketcher = Sketcher {
        view,
        along: view.along(),
        forces,
        below,
        skyline: Skyline::default(),
        told: told(view),
        wishes: Vec::new(),
        grips: Vec::new(),
        stretched: false,
    };
    let spreads = sketcher.spreads();
    let of_spreads = core::mem::take(&mut sketcher.wishes);
    let forces = sketcher.point_forces();
    let couples = sketcher.couples();
    sketcher.wishes = in_order(of_spreads, sketcher.wishes);
    let mut marks = Vec::new();
    for (id, title, group) in [
        ("spread-loads", "Spread loads", spreads),
        ("forces", "Point forces", forces),
        ("couples", "Couples", couples),
    ] {
        if !group.is_empty() {
            marks.push(Mark::group(id, title, group));
        }
    }
    LoadSketch { marks, wishes: sketcher.wishes, grips: sketcher.grips, stretched: sketcher.stretched }
}

/// The labels in the order in which they are placed: those of spread loads first, which stand lower. One that finds forces in all
/// its places comes last, so as not to give way to where a force has its own.
fn in_order(spreads: Vec<Wish>, others: Vec<Wish>) -> Vec<Wish> {
    let rects: Vec<Rect> =
        others.iter().filter_map(|wish| wish.rects().next()).map(|rect| rect.grown(8.0)).collect();
    let gives_way = |wish: &Wish| wish.rects().all(|rect| rects.iter().any(|other| other.overlaps(rect)));
    let (last, mut all): (Vec<Wish>, Vec<Wish>) = spreads.into_iter().partition(gives_way);
    all.extend(others);
    all.extend(last);
    all
}

struct SpreadBlock {
    from: f64,
    to: f64,
    down_from: f64,
    down_to: f64,
    own_weight: bool,
    load: usize,
}

impl Sketcher<'_> {
    /// The load's symbol; of one that is named in words its name, which says more beside an arrow.
    fn symbol(&self, load: usize, role: Role) -> Label {
        let name = self.view.load_index(load);
        let symbol = self.view.scribe.symbol(role, name);
        // Of a word the whole stands below the letter; of `P1` the figure alone, and `A3` is a symbol, though of something else.
        let is_word = name.chars().count() > 1 && !name.contains(|sign: char| sign.is_ascii_digit());
        let below = symbol.runs.last().is_some_and(|run| run.level == Level::Index && run.text == name);
        if is_word && below { Label::words(name) } else { symbol }
    }

    /// The load's symbol and its size; the arrow tells the direction.
    fn equation(&self, load: usize, role: Role, value: f64, dimension: Dimension) -> Label {
        sized(self.symbol(load, role), value, self.view.scribe.given(value.abs(), dimension, role))
    }

    fn spreads(&mut self) -> Vec<Mark> {
        let problem = self.view.problem;
        let mut blocks: Vec<SpreadBlock> = (problem.beam.loads.iter().enumerate())
            .filter_map(|(number, load)| match *load {
                Load::Spread { from, to, down_from, down_to } if down_from != 0.0 || down_to != 0.0 => {
                    Some(SpreadBlock {
                        from: self.along.px(from),
                        to: self.along.px(to),
                        down_from,
                        down_to,
                        own_weight: problem.loads.get(number).is_some_and(|label| label.self_weight),
                        load: number,
                    })
                }
                _ => None,
            })
            .collect();
        // the beam's own weight lies lowest, then the longest: short loads stand on long ones
        blocks.sort_by(|a, b| {
            b.own_weight
                .cmp(&a.own_weight)
                .then((b.to - b.from).total_cmp(&(a.to - a.from)))
                .then(a.from.total_cmp(&b.from))
        });
        let intensities = blocks.iter().flat_map(|block| [block.down_from, block.down_to]);
        let (longest, shortest) = SPREAD_ARROWS;
        let longest = if blocks.len() > 4 { longest * 0.75 } else { longest };
        let measured = self.view.sheet.measured.map(|measured| measured.intensity);
        let scale = ArrowScale::new(intensities, longest, shortest).measured_by(measured);
        let mut marks = Vec::new();
        for block in &blocks {
            self.spread(block, scale, &mut marks);
        }
        marks
    }

    fn spread(&mut self, block: &SpreadBlock, scale: ArrowScale, marks: &mut Vec<Mark>) {
        let floor = -HALF_DEPTH - 1.0;
        let under = self.skyline.top(block.from, block.to, floor);
        let base = if under < floor { (under - LABEL_ROW).max(-HIGHEST_BASE) } else { floor };
        let largest = block.down_from.abs().max(block.down_to.abs());
        self.stretched |= scale.is_stretched(largest);
        let per_unit = scale.px(largest) / largest;
        let width = block.to - block.from;
        let point = |part: f64| {
            let down = block.down_from + (block.down_to - block.down_from) * part;
            (Point::new(block.from + width * part, base - down.abs() * per_unit), down)
        };
        // where the load changes sign its upper edge touches the base
        let mut outline = vec![Point::new(block.from, base), point(0.0).0];
        let mut edge = vec![point(0.0).0];
        if block.down_from * block.down_to < 0.0 {
            let zero = block.down_from / (block.down_from - block.down_to);
            outline.push(point(zero).0);
            edge.push(point(zero).0);
        }
        outline.extend([point(1.0).0, Point::new(block.to, base)]);
        edge.push(point(1.0).0);
        marks.push(Mark::Polygon {
            points: outline,
            stroke: Some(Stroke::solid(Ink::Line, THIN)),
            fill: Some(if block.own_weight { Ink::Material } else { Ink::Paper }),
        });
        let count = (width / ARROW_PITCH).round().clamp(1.0, 60.0);
        let mut number = 0.0;
        while number <= count {
            let (top, down) = point(number / count);
            let foot = Point::new(top.x, base);
            // an arrow shorter than its head would be a smudge
            if base - top.y > 4.0 {
                let (from, to) = if down > 0.0 { (top, foot) } else { (foot, top) };
                marks.extend(arrow::straight_with_head(from, to, SPREAD, 6.0));
            }
            number += 1.0;
        }
        for pair in edge.windows(2) {
            self.skyline.add(pair[0], pair[1]);
        }
        if let Some(&Load::Spread { from, to, down_from, down_to }) =
            self.view.problem.beam.loads.get(block.load).filter(|_| !block.own_weight)
        {
            let feet = (Point::new(block.from, base), Point::new(block.to, base));
            let tops = (point(0.0).0, point(1.0).0);
            self.grips.extend(beam_grips::load_ends(self.view, block.load, (from, to), feet));
            self.grips.extend(beam_grips::intensities(block.load, (down_from, down_to), per_unit, tops));
        }
        if self.told[block.load] {
            self.spread_labels(block, &edge);
        }
    }

    fn spread_labels(&mut self, block: &SpreadBlock, edge: &[Point]) {
        let (view, role) = (self.view, Role::SpreadLoad);
        let size =
            |down: f64| Label::words(view.scribe.terse_text(down.abs(), Dimension::FORCE_PER_LENGTH, role));
        let symbol = self.symbol(block.load, role);
        let symbol = || symbol.clone();
        let (first, last) = (edge[0], edge[edge.len() - 1]);
        if block.down_from == block.down_to {
            let symbol = if block.own_weight { Label::words("own weight") } else { symbol() };
            let label = sized(symbol, block.down_from, size(block.down_from));
            let mut wish =
                Wish::new(label, first.towards(last, 0.5)).seats(&[Seat::Above], Escape::Up).gap(2.0);
            for part in [0.3, 0.7, 0.15, 0.85, 0.4, 0.6] {
                wish = wish.or(first.towards(last, part), Seat::Above);
            }
            self.wishes.push(wish);
            return;
        }
        // the value at each end, over the block
        for (at, other, down, inwards) in
            [(first, last, block.down_from, Seat::AboveRight), (last, first, block.down_to, Seat::AboveLeft)]
        {
            if down == 0.0 {
                continue;
            }
            // two values go with one symbol here, so no equation is written
            let is_named = view.load_index(block.load).starts_with(char::is_alphabetic);
            let label =
                if is_named { symbol().and_words("\u{a0}").followed_by(size(down)) } else { size(down) };
            let outwards = if inwards == Seat::AboveRight { Seat::AboveLeft } else { Seat::AboveRight };
            // an edge that rises inwards would run through a label that stands inwards
            let order = if other.y < at.y - 3.0 {
                [Seat::Above, outwards, inwards]
            } else {
                [inwards, Seat::Above, outwards]
            };
            // where one load goes on from another at the same value, the value is written once
            let told = self.wishes.iter().any(|wish| wish.label == label && wish.at.distance(at) < 1.0);
            if !told {
                self.wishes.push(Wish::new(label, at).seats(&order, Escape::Up).gap(2.0));
            }
        }
    }

    fn point_forces(&mut self) -> Vec<Mark> {
        let loads = &self.view.problem.beam.loads;
        let mut forces: Vec<(f64, f64, usize)> = (loads.iter().enumerate())
            .filter_map(|(number, load)| match *load {
                Load::Force { station, down } if down != 0.0 => Some((self.along.px(station), down, number)),
                _ => None,
            })
            .collect();
        forces.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut marks = Vec::new();
        // the tails of the arrows below the beam
        let mut under: Vec<Point> = Vec::new();
        for (x, down, number) in forces {
            self.stretched |= self.forces.is_stretched(down);
            let length = self.forces.px(down);
            let beside = Rect { left: x - 9.0, top: HALF_DEPTH, right: x + 9.0, bottom: 200.0 };
            let is_below = down < 0.0 && !self.below.iter().any(|rect| rect.overlaps(beside));
            let (tail, tip);
            if is_below {
                let top = under
                    .iter()
                    .filter(|tail| (tail.x - x).abs() < NEIGHBOURS)
                    .fold(HALF_DEPTH + 1.0, |top, tail| top.max(tail.y + 2.0))
                    .min(HIGHEST_BASE);
                (tip, tail) = (Point::new(x, top), Point::new(x, top + length));
                under.push(tail);
            } else {
                let floor = -HALF_DEPTH - 1.0;
                let top = self.skyline.top(x - NEIGHBOURS / 2.0, x + NEIGHBOURS / 2.0, floor);
                let top = if top < floor { (top - 3.0).max(-HIGHEST_BASE - 60.0) } else { floor };
                if top < floor {
                    marks.push(Mark::Line {
                        from: Point::new(x, top),
                        to: Point::new(x, floor),
                        stroke: Stroke::dotted(Ink::Line, 1.0),
                    });
                }
                let (low, high) = (Point::new(x, top), Point::new(x, top - length));
                (tail, tip) = if down > 0.0 { (high, low) } else { (low, high) };
                let half = NEIGHBOURS / 2.0;
                self.skyline.add(high.moved(-half, 0.0), high.moved(half, 0.0));
            }
            marks.extend(arrow::straight(tail, tip, FORCE));
            // the end at the beam carries the place, the free one the size
            let (end, free, outwards) = match (is_below, down > 0.0) {
                (true, _) => (tip, tail, -1.0),
                (false, true) => (tip, tail, 1.0),
                (false, false) => (tail, tip, 1.0),
            };
            if let Some(&Load::Force { station, .. }) = loads.get(number) {
                self.grips.push(beam_grips::load_place(self.view, number, station, end));
            }
            self.grips.extend(beam_grips::load_size(number, down, free, length, outwards));
            if !self.told[number] {
                continue;
            }
            let label = self.equation(number, Role::PointForce, down, Dimension::FORCE);
            let middle = tail.towards(tip, 0.4);
            let wish = if is_below {
                Wish::new(label, tail).seats(Seat::BELOW_FIRST, Escape::Down)
            } else {
                let end = if down > 0.0 { tail } else { tip };
                Wish::new(label, end).seats(
                    &[Seat::Above, Seat::AboveRight, Seat::AboveLeft, Seat::Right, Seat::Left],
                    Escape::Up,
                )
            };
            self.wishes.push(wish.gap(3.0).or(middle, Seat::Right).or(middle, Seat::Left));
        }
        marks
    }

    fn couples(&mut self) -> Vec<Mark> {
        let mut marks = Vec::new();
        let mut centres: Vec<f64> = Vec::new();
        for (number, load) in self.view.problem.beam.loads.iter().enumerate() {
            let Load::Couple { station, ccw } = *load else { continue };
            if ccw == 0.0 {
                continue;
            }
            let x = self.along.px(station);
            let neighbours = centres.iter().filter(|&&other| (other - x).abs() < 8.0).count();
            centres.push(x);
            let radius = COUPLE_RADIUS + 6.5 * f64::from(u8::try_from(neighbours.min(12)).unwrap_or(12));
            let floor = -HALF_DEPTH - 1.0;
            let loaded_above = self.skyline.top(x - radius, x + radius, floor) < floor;
            let around = Rect { left: x - radius, top: HALF_DEPTH, right: x + radius, bottom: 2.0 * radius };
            let held_below = self.below.iter().any(|rect| rect.overlaps(around));
            // the arc is open where something else stands
            let gap_above = loaded_above && !held_below;
            let middle = if gap_above { 1.5 * PI } else { 0.5 * PI };
            let half_turn = (if gap_above { 118.0_f64 } else { 130.0 }).to_radians();
            let centre = Point::new(x, 0.0);
            let sense = if ccw > 0.0 { 1.0 } else { -1.0 };
            let (from, turn) = (middle - sense * half_turn, sense * 2.0 * half_turn);
            // a broad white line under the arc parts it from what it crosses
            marks.push(Mark::Arc { centre, radius, from, turn, stroke: Stroke::solid(Ink::Paper, 4.0) });
            marks.extend(arrow::turning(centre, radius, from, turn, COUPLE));
            marks.push(Mark::Circle { centre, radius: 1.8, stroke: None, fill: Some(Ink::Line) });
            // the size is carried by the middle of the arc, above the beam or below it
            let outwards = if gap_above { -1.0 } else { 1.0 };
            let crown = centre.moved(0.0, -outwards * radius);
            self.grips.push(beam_grips::load_place(self.view, number, station, centre));
            self.grips.extend(beam_grips::load_size(number, ccw, crown, radius, outwards));
            if !self.told[number] {
                continue;
            }
            let label = self.equation(number, Role::Couple, ccw, Dimension::MOMENT);
            let (top, bottom) = (Point::new(x, -radius), Point::new(x, radius));
            let (at, seat, escape) =
                if gap_above { (bottom, Seat::Below, Escape::Down) } else { (top, Seat::Above, Escape::Up) };
            let upper = Point::new(x + radius * 0.75, -radius * 0.75);
            self.wishes.push(
                Wish::new(label, at)
                    .seats(&[seat], escape)
                    .or(upper, Seat::AboveRight)
                    .or(Point::new(2.0 * x - upper.x, upper.y), Seat::AboveLeft)
                    .or(Point::new(upper.x, -upper.y), Seat::BelowRight)
                    .or(Point::new(2.0 * x - upper.x, -upper.y), Seat::BelowLeft)
                    .gap(5.0),
            );
        }
        marks
    }
}
