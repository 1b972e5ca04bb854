//! Placing labels: no label covers a label, an arrowhead or a line that matters.
//!
//! Labels are placed one after another, the ones that matter most first. Each has seats in order of preference;
//! where all are taken it moves out step by step, and a leader ties it to its place. The sheet has no edge while
//! labels are placed: the drawing grows to hold them ([`crate::drawing::Drawing::fitted`]), so there is always a
//! free place. The same input gives the same places.

use crate::drawing::{Mark, arc_points};
use crate::found::{Place, Trail};
use crate::geometry::{Point, Rect};
use crate::metrics;
use crate::palette::{Ink, Stroke};
use crate::raster::Raster;
use crate::text::{Align, Label, SIZE};
use std::sync::LazyLock;

/// Free room kept around a label, px.
const ROOM: f64 = 1.5;
/// Free room kept between two labels side by side, px: less reads as a space between the words of one.
const ROOM_ACROSS: f64 = 5.0;
/// Free room kept between a label and a line, px.
const LINE_ROOM: f64 = 1.0;
/// The step of the search for a free place, px.
const STEP: f64 = 6.0;
/// How many steps it goes outwards before lines may be crossed.
const REACH: i32 = 24;
/// A label that had to leave its seats gets a leader when it stands further than this from its place, px: a shorter leader looks
/// like a sign of the label.
const LEADER_FROM: f64 = 10.0;

/// Where a label stands as seen from its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Seat {
    /// Above, in the middle.
    Above,
    /// Below, in the middle.
    Below,
    /// To the left.
    Left,
    /// To the right.
    Right,
    /// Above, to the left.
    AboveLeft,
    /// Above, to the right.
    AboveRight,
    /// Below, to the left.
    BelowLeft,
    /// Below, to the right.
    BelowRight,
}

impl Seat {
    /// Above first, then around.
    pub const ABOVE_FIRST: &'static [Seat] =
        &[Seat::Above, Seat::AboveRight, Seat::AboveLeft, Seat::Right, Seat::Left];
    /// Below first, then around.
    pub const BELOW_FIRST: &'static [Seat] =
        &[Seat::Below, Seat::BelowRight, Seat::BelowLeft, Seat::Right, Seat::Left];

    /// The baseline point and the alignment of a text of this size that stands `gap` px off its place.
    pub fn place(self, at: Point, gap: f64, size: f64) -> (Point, Align) {
        let above = -gap - metrics::DESCENT * size;
        let below = gap + metrics::ASCENT * size;
        // level with the middle of the capitals
        let level = metrics::CAP_HEIGHT * size / 2.0;
        match self {
            Seat::Above => (at.moved(0.0, above), Align::Middle),
            Seat::Below => (at.moved(0.0, below), Align::Middle),
            Seat::Left => (at.moved(-gap, level), Align::End),
            Seat::Right => (at.moved(gap, level), Align::Start),
            Seat::AboveLeft => (at.moved(-gap, above), Align::End),
            Seat::AboveRight => (at.moved(gap, above), Align::Start),
            Seat::BelowLeft => (at.moved(-gap, below), Align::End),
            Seat::BelowRight => (at.moved(gap, below), Align::Start),
        }
    }
}

/// Which way a label goes when none of its seats is free.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Escape {
    /// Upwards, swerving sideways.
    Up,
    /// Downwards, swerving sideways.
    Down,
    /// Either way.
    Any,
}

/// A side of a place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// To its left.
    Left,
    /// To its right.
    Right,
    /// Above it.
    Above,
    /// Below it.
    Below,
}

impl Side {
    /// Whether a box lies wholly on this side of a point.
    pub fn holds(self, rect: Rect, at: Point) -> bool {
        match self {
            Side::Left => rect.right <= at.x,
            Side::Right => rect.left >= at.x,
            Side::Above => rect.bottom <= at.y,
            Side::Below => rect.top >= at.y,
        }
    }
}

/// A label that wants a place.
#[derive(Clone, Debug)]
pub struct Wish {
    /// What is written.
    pub label: Label,
    /// What it speaks of.
    pub at: Point,
    /// The points of the thing, with the seat taken there, that it may stand at; best first.
    pub spots: Vec<(Point, Seat)>,
    /// Distance from its place, px.
    pub gap: f64,
    /// Where it goes when all seats are taken.
    pub escape: Escape,
    /// It stays on this side of its place, however far it has to go: beyond it something else would seem to be meant.
    pub side: Option<Side>,
    /// Size of the text, px.
    pub size: f64,
    /// Colour.
    pub ink: Ink,
}

impl Wish {
    /// A label at a place, above it if it can be.
    pub fn new(label: Label, at: Point) -> Self {
        Self {
            label,
            at,
            spots: Seat::ABOVE_FIRST.iter().map(|&seat| (at, seat)).collect(),
            gap: 4.0,
            escape: Escape::Any,
            side: None,
            size: SIZE,
            ink: Ink::Line,
        }
    }

    /// With these seats, best first, and this way out.
    pub fn seats(mut self, seats: &[Seat], escape: Escape) -> Self {
        self.spots = seats.iter().map(|&seat| (self.at, seat)).collect();
        self.escape = escape;
        self
    }

    /// Never beyond its place on the other side.
    pub fn only(mut self, side: Side) -> Self {
        self.side = Some(side);
        self
    }

    /// Or, where those are taken, at another point of the same thing.
    pub fn or(mut self, point: Point, seat: Seat) -> Self {
        self.spots.push((point, seat));
        self
    }

    /// At this distance, px.
    pub fn gap(mut self, gap: f64) -> Self {
        self.gap = gap;
        self
    }

    /// Its box at each of the places that it may stand at, best first.
    pub fn rects(&self) -> impl Iterator<Item = Rect> + '_ {
        self.spots.iter().map(|&(point, seat)| {
            let (at, align) = seat.place(point, self.gap, self.size);
            self.label.rect(at, align, self.size)
        })
    }

    /// In this colour.
    pub fn ink(mut self, ink: Ink) -> Self {
        self.ink = ink;
        self
    }

    /// In this size, px.
    pub fn size(mut self, size: f64) -> Self {
        self.size = size;
        self
    }
}

/// What stands on the sheet already, and the labels as they are placed.
#[derive(Clone, Debug)]
pub struct Placer {
    boxes: Raster<Rect>,
    labels: Raster<Rect>,
    lines: Raster<(Point, Point)>,
    /// The leaders of the labels placed so far: two that cross would be followed to the wrong label.
    leaders: Vec<(Point, Point)>,
    /// The box round all boxes and labels.
    around: Rect,
    marks: Vec<Mark>,
    trail: Trail,
}

impl Default for Placer {
    fn default() -> Self {
        Self {
            boxes: Raster::default(),
            labels: Raster::default(),
            lines: Raster::default(),
            leaders: Vec::new(),
            around: Rect::NOTHING,
            marks: Vec::new(),
            trail: Trail::default(),
        }
    }
}

impl Placer {
    /// An empty sheet.
    pub fn new() -> Self {
        Self::default()
    }

    /// No label may touch this box: a label placed by hand, an arrowhead.
    pub fn avoid_rect(&mut self, rect: Rect) {
        self.trail.rect(rect);
        self.boxes.add(rect, rect);
        self.around = self.around.joined(rect);
    }

    /// No label should cross this line.
    pub fn avoid_line(&mut self, from: Point, to: Point) {
        self.trail.line(from, to);
        self.lines.add_line(from, to);
    }

    /// No label should cross this polyline.
    pub fn avoid_polyline(&mut self, points: &[Point]) {
        points.windows(2).for_each(|pair| self.avoid_line(pair[0], pair[1]));
    }

    /// Everything in these marks is avoided: lines as lines, texts, circles, arcs and filled heads as boxes.
    ///
    /// Polygons and paths count as lines along their outline, so a label may stand inside a wide shape.
    pub fn avoid_marks(&mut self, marks: &[Mark]) {
        for mark in marks {
            match mark {
                Mark::Line { from, to, .. } => self.avoid_line(*from, *to),
                Mark::Polygon { points, stroke: None, .. } => self.avoid_rect(Rect::around(points)),
                Mark::Polygon { points, .. } => {
                    self.avoid_polyline(points);
                    if let (Some(&first), Some(&last)) = (points.first(), points.last()) {
                        self.avoid_line(last, first);
                    }
                }
                Mark::Path { steps, .. } => {
                    let mut pen = None;
                    for step in steps {
                        match *step {
                            crate::drawing::Step::Move(to) => pen = Some(to),
                            crate::drawing::Step::Line(to) | crate::drawing::Step::Curve { to, .. } => {
                                if let Some(from) = pen.replace(to) {
                                    self.avoid_line(from, to);
                                }
                            }
                            crate::drawing::Step::Close => {}
                        }
                    }
                }
                // along the arc only: a label may stand in its opening
                Mark::Arc { centre, radius, from, turn, stroke } => {
                    for pair in arc_points(*centre, *radius, *from, *turn).windows(2) {
                        self.avoid_rect(Rect::between(pair[0], pair[1]).grown(stroke.width / 2.0));
                    }
                }
                Mark::Circle { .. } | Mark::Text { .. } => self.avoid_rect(mark.rect()),
                Mark::Group { marks, .. } => self.avoid_marks(marks),
                Mark::Grip(_) => {}
            }
        }
    }

    /// The lowest edge above `limit` px of what stands on the sheet at `x` px; `from` where nothing does.
    pub fn foot(&self, x: f64, from: f64, limit: f64) -> f64 {
        let column = Rect { left: x - 2.0, top: f64::MIN, right: x + 2.0, bottom: limit };
        let boxes = self.boxes.near(column).chain(self.labels.near(column));
        let lines = self.lines.near(column).map(|(from, to)| Rect::between(from, to));
        boxes
            .chain(lines)
            .filter(|rect| rect.left < x + 2.0 && x - 2.0 < rect.right && rect.bottom <= limit)
            .fold(from, |foot, rect| foot.max(rect.bottom))
    }

    fn is_clear_of_boxes(&self, rect: Rect) -> bool {
        let rect = rect.grown(ROOM);
        let across = ROOM_ACROSS - ROOM;
        let wide = Rect { left: rect.left - across, right: rect.right + across, ..rect };
        !self.boxes.near(rect).any(|other| other.overlaps(rect))
            && !self.labels.near(wide).any(|other| other.overlaps(wide))
    }

    fn is_clear_of_lines(&self, rect: Rect) -> bool {
        let rect = rect.grown(LINE_ROOM);
        !self.lines.near(rect).any(|(from, to)| rect.is_crossed(from, to))
    }

    fn is_clear_of_leaders(&self, rect: Rect) -> bool {
        !self.leaders.iter().any(|&(from, to)| rect.is_crossed(from, to))
    }

    /// Whether a box is free of everything that is to be avoided.
    pub fn is_free(&self, rect: Rect) -> bool {
        self.is_clear_of_boxes(rect) && self.is_clear_of_lines(rect)
    }

    /// Places a label and keeps its place from then on; gives back its box.
    pub fn put(&mut self, wish: &Wish) -> Rect {
        let (at, align, leader) = self.trail.place(wish, || self.find(wish));
        let rect = wish.label.rect(at, align, wish.size);
        if let Some((from, to)) = leader {
            self.marks.push(Mark::Line { from, to, stroke: Stroke::LEADER });
            self.avoid_line(from, to);
            self.leaders.push((from, to));
        }
        self.marks.push(Mark::Text { at, label: wish.label.clone(), align, size: wish.size, ink: wish.ink });
        self.keep(rect);
        rect
    }

    /// Puts a label at a place that was found free, and keeps the place from then on.
    pub fn put_at(&mut self, label: &Label, at: Point, align: Align, size: f64, ink: Ink) {
        self.keep(label.rect(at, align, size));
        self.marks.push(Mark::Text { at, label: label.clone(), align, size, ink });
    }

    fn keep(&mut self, label: Rect) {
        self.trail.label(label);
        self.labels.add(label, label);
        self.around = self.around.joined(label);
    }

    /// Whether no label stands between two points.
    pub fn is_clear_between(&self, from: Point, to: Point) -> bool {
        !self.labels.near(Rect::between(from, to)).any(|rect| rect.is_crossed(from, to))
    }

    fn find(&self, wish: &Wish) -> Place {
        for &(point, seat) in &wish.spots {
            let (at, align) = seat.place(point, wish.gap, wish.size);
            if self.is_free(wish.label.rect(at, align, wish.size)) {
                return (at, align, None);
            }
        }
        // outwards from the first seat, nearest first
        let (point, seat) = wish.spots.first().copied().unwrap_or((wish.at, Seat::Above));
        let (home, align) = seat.place(point, wish.gap, wish.size);
        let home_rect = wish.label.rect(home, align, wish.size);
        for strict in [true, false] {
            for &(_, down, across) in shifts() {
                let wrong_way = match wish.escape {
                    Escape::Up => down > 0,
                    Escape::Down => down < 0,
                    Escape::Any => false,
                };
                if wrong_way {
                    continue;
                }
                let (dx, dy) = (f64::from(across) * STEP, f64::from(down) * STEP);
                let rect = home_rect.moved(dx, dy);
                if wish.side.is_some_and(|side| !side.holds(rect, wish.at)) {
                    continue;
                }
                let is_clear =
                    if strict { self.is_clear_of_lines(rect) } else { self.is_clear_of_leaders(rect) };
                if !self.is_clear_of_boxes(rect) || !is_clear {
                    continue;
                }
                if let Some(leader) = self.tie(rect, wish) {
                    return (home.moved(dx, dy), align, leader);
                }
            }
        }
        // beyond everything there is room
        let all = self.around;
        let height = home_rect.height() + 2.0 * ROOM + 1.0;
        let at = match wish.escape {
            Escape::Down => Point::new(home.x, all.bottom + height),
            Escape::Up | Escape::Any => Point::new(home.x, all.top - height),
        };
        (at, align, leader(wish.label.rect(at, align, wish.size), wish.at))
    }

    /// The leader from a label's box to the nearest point of its thing that one can reach, or none where the label stands near
    /// enough; `None` where something is in the way to all of them.
    fn tie(&self, rect: Rect, wish: &Wish) -> Option<Option<(Point, Point)>> {
        let mut points: Vec<(f64, Point)> = Vec::new();
        for at in core::iter::once(wish.at).chain(wish.spots.iter().map(|&(point, _)| point)) {
            // Most seats are at the same point.
            if points.iter().all(|&(_, other)| other != at) {
                points.push((rect.nearest(at).square_of_distance(at), at));
            }
        }
        // Of those that are equally near, the one that the label speaks of.
        points.sort_by(|(a, _), (b, _)| a.total_cmp(b));
        let mut leaders = points.into_iter().map(|(_, at)| (at, leader(rect, at)));
        leaders
            .find(|&(at, leader)| leader.is_none_or(|(from, to)| self.leaves_free(at, from, to)))
            .map(|(_, leader)| leader)
    }

    /// Whether nothing stands in the way of a leader to `at`; what the leader points at does not.
    fn leaves_free(&self, at: Point, from: Point, to: Point) -> bool {
        let holds_place = |rect: &Rect| rect.grown(2.5).nearest(at) == at;
        self.is_clear_between(from, to)
            && !self.leaders.iter().any(|&leader| crosses((from, to), leader))
            && !self
                .boxes
                .near(Rect::between(from, to))
                .any(|rect| !holds_place(&rect) && rect.is_crossed(from, to))
    }

    /// The labels placed so far, with their leaders, in the order in which they were placed.
    pub fn into_marks(self) -> Vec<Mark> {
        self.marks
    }

    /// The labels placed since the last call; their places stay taken.
    pub fn take_marks(&mut self) -> Vec<Mark> {
        core::mem::take(&mut self.marks)
    }
}

/// The steps of the search (cost, down, across), nearest first: sideways costs less than up and down, since
/// rows read well.
fn shifts() -> &'static [(i32, i32, i32)] {
    static SHIFTS: LazyLock<Vec<(i32, i32, i32)>> = LazyLock::new(|| {
        let mut shifts = Vec::new();
        for down in -REACH..=REACH {
            for across in -REACH..=REACH {
                shifts.push((10 * down * down + 7 * across * across, down, across));
            }
        }
        shifts.sort_unstable();
        shifts
    });
    &SHIFTS
}

/// Whether two stretches cross: each has the ends of the other on either side.
fn crosses(one: (Point, Point), other: (Point, Point)) -> bool {
    let side = |(from, to): (Point, Point), p: Point| {
        (to.x - from.x) * (p.y - from.y) - (to.y - from.y) * (p.x - from.x)
    };
    side(one, other.0) * side(one, other.1) < 0.0 && side(other, one.0) * side(other, one.1) < 0.0
}

/// The leader from a label's box to its place, or none where the label stands near enough.
fn leader(rect: Rect, at: Point) -> Option<(Point, Point)> {
    let near = rect.grown(1.0).nearest(at);
    (near.square_of_distance(at) > LEADER_FROM * LEADER_FROM).then(|| {
        // from the middle of the side that faces the place, as a hand would draw it
        let from = if at.y > rect.bottom {
            Point::new(at.x.clamp(rect.left, rect.right), rect.bottom + 1.0)
        } else if at.y < rect.top {
            Point::new(at.x.clamp(rect.left, rect.right), rect.top - 1.0)
        } else {
            near
        };
        (from, at.towards(from, (2.0 / from.distance(at)).min(0.5)))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hundred_labels_at_one_place_do_not_overlap() {
        let mut placer = Placer::new();
        let rects: Vec<Rect> = (0..100)
            .map(|number| {
                placer.put(&Wish::new(Label::words(format!("{number} kN")), Point::new(50.0, 50.0)))
            })
            .collect();
        for (place, one) in rects.iter().enumerate() {
            for other in &rects[place + 1..] {
                assert!(!one.overlaps(*other), "{one:?} {other:?}");
            }
        }
    }

    #[test]
    fn a_place_found_before_is_that_of_the_sheet_as_it_is() {
        let labels =
            || (0..30).map(|number| Wish::new(Label::words(format!("{number} kN")), Point::new(50.0, 50.0)));
        for boxes in [0, 1, 2, 1, 0, 2] {
            let mut placer = Placer::new();
            for number in 0..boxes {
                let left = 40.0 + 7.0 * f64::from(number);
                placer.avoid_rect(Rect { left, top: 30.0, right: left + 6.0, bottom: 46.0 });
            }
            for wish in labels() {
                let (at, align, _) = placer.find(&wish);
                let looked_for = wish.label.rect(at, align, wish.size);
                assert_eq!(placer.put(&wish), looked_for, "{boxes} boxes");
            }
        }
    }

    #[test]
    fn a_label_keeps_off_an_arrowhead_and_a_line() {
        let mut placer = Placer::new();
        let head = Rect { left: 45.0, top: 30.0, right: 55.0, bottom: 46.0 };
        placer.avoid_rect(head);
        placer.avoid_line(Point::new(60.0, 0.0), Point::new(60.0, 100.0));
        let rect = placer.put(&Wish::new(Label::words("12 kN"), Point::new(50.0, 50.0)));
        assert!(!rect.overlaps(head));
        assert!(!rect.is_crossed(Point::new(60.0, 0.0), Point::new(60.0, 100.0)));
    }
}
