//! Lines of equal stress over the side of the beam: which levels, where the lines run, and where their values stand.

use crate::geometry::{Point, Rect};
use crate::side::Side;
use crate::text::Label;
use mechanics::real;
use mechanics::stress::{Grid, PlaneStress, StressField};
use workings::unit::Unit;

/// About how many levels lie between nought and the greatest stress.
const LEVELS: f64 = 4.0;
/// Distance between the lines of the grid, px: a curve strays from the chords between them by less than a tenth of a px.
const GRID: f64 = 4.0;
/// The most lines of the grid across one panel.
const MOST: f64 = 120.0;

/// A value that changes by less than this part of the greatest does not jump: no line of equal value ends there.
const JUMP: f64 = 0.005;

/// Edges nearer than this, px, are one.
const SAME_EDGE: f64 = 0.05;

/// One level and its lines, px, the longest first.
#[derive(Clone, Debug)]
pub(crate) struct Level {
    /// The stress, Pa.
    pub stress: f64,
    pub lines: Vec<Vec<Point>>,
}

/// The stress over the side of the beam, on a grid of each panel.
pub(crate) struct Sampled {
    grids: Vec<Grid>,
    /// The least and the greatest value, Pa.
    pub least: f64,
    pub most: f64,
}

impl Sampled {
    /// A stress of the field.
    pub fn of(field: &StressField<'_>, side: &Side, value: impl Fn(PlaneStress) -> f64) -> Self {
        let (across, up) = side.scale();
        let places = |from: f64, to: f64, per_px: f64| {
            let count = ((to - from) * per_px / GRID).ceil().clamp(2.0, MOST);
            let mut places = Vec::new();
            let mut k = 0.0;
            while k <= count {
                // The edge itself, to the last bit: neighbours are found by it.
                places.push(if k < count { from + (to - from) * k / count } else { to });
                k += 1.0;
            }
            places
        };
        // Not those of the grid, which seldom stands where a stress is largest.
        let (least, most) = field.range(&value);
        let (least, most) = (least.min(0.0), most.max(0.0));
        let grid = |panel| {
            let panel: mechanics::stress::Panel = panel;
            let (stations, heights) =
                (places(panel.from, panel.to, across), places(panel.bottom, panel.top, up));
            let rows = field.grid(&panel, &stations, &heights);
            let values = rows.into_iter().map(|row| row.into_iter().map(&value).collect()).collect();
            Grid { across: stations, up: heights, values }
        };
        let grids: Vec<Grid> = field.panels().map(grid).collect();
        Self { grids, least, most }
    }

    /// The greatest size, Pa.
    pub fn greatest(&self) -> f64 {
        self.most.max(-self.least)
    }

    /// The levels, round in a unit, none of them nought, the greatest size first; before them the step from one to the next, SI.
    pub fn levels(&self, side: &Side, unit: &Unit) -> (f64, Vec<Level>) {
        let greatest = unit.from_si(self.greatest());
        if !(greatest > 0.0 && greatest.is_finite()) {
            return (0.0, Vec::new());
        }
        let step = round_step(greatest / LEVELS);
        let mut levels = Vec::new();
        let mut count = (greatest / step * (1.0 - 1e-9)).floor();
        while count >= 1.0 {
            for sign in [1.0, -1.0] {
                let stress = unit.to_si(sign * count * step);
                if (self.least..=self.most).contains(&stress) {
                    levels.push(Level { stress, lines: self.lines(side, stress) });
                }
            }
            count -= 1.0;
        }
        (unit.to_si(step), levels)
    }

    /// The upper and lower edges of strips of the side that are not so many px high: a line within one has no room for its value. Strips
    /// between which the value does not jump are one, as those of a round outline of many corners are.
    pub fn thin_strips(&self, side: &Side, least: f64) -> Vec<(f64, f64)> {
        let edges = |grid: &Grid| {
            let (bottom, top) = ends(&grid.up)?;
            Some((side.at(0.0, top).y, side.at(0.0, bottom).y))
        };
        let mut strips: Vec<(f64, f64)> = self.grids.iter().filter_map(edges).collect();
        strips.sort_by(|a, b| a.0.total_cmp(&b.0));
        strips.dedup();
        let jumps = self.jumps(side);
        let jumps_at = |level: f64| {
            jumps.iter().any(|line| line.iter().all(|point| (point.y - level).abs() <= SAME_EDGE))
        };
        let mut whole: Vec<(f64, f64)> = Vec::new();
        for (top, bottom) in strips {
            match whole.last_mut() {
                Some(above) if (above.1 - top).abs() <= SAME_EDGE && !jumps_at(top) => above.1 = bottom,
                _ => whole.push((top, bottom)),
            }
        }
        whole.retain(|(top, bottom)| bottom - top < least);
        whole
    }

    /// The edges between panels at which the value jumps, px: there lines of equal value end.
    pub fn jumps(&self, side: &Side) -> Vec<Vec<Point>> {
        let least = JUMP * self.greatest();
        let edge = |line: fn(&Grid, bool) -> Vec<f64>, one: &Grid, other: &Grid| {
            let (values, beyond) = (line(one, true), line(other, false));
            values.len() == beyond.len() && values.iter().zip(&beyond).any(|(a, b)| (a - b).abs() > least)
        };
        // What of a grid lies on its upper or lower, its right or left edge.
        let level = |grid: &Grid, top: bool| {
            if top { grid.values.last() } else { grid.values.first() }.cloned().unwrap_or_default()
        };
        let upright = |grid: &Grid, right: bool| {
            grid.values
                .iter()
                .filter_map(|row| if right { row.last() } else { row.first() })
                .copied()
                .collect()
        };
        let mut lines = Vec::new();
        for one in &self.grids {
            let (Some((from, to)), Some((bottom, top))) = (ends(&one.across), ends(&one.up)) else {
                continue;
            };
            for other in &self.grids {
                if ends(&other.up).is_some_and(|(low, _)| low == top)
                    && ends(&other.across) == Some((from, to))
                {
                    if edge(level, one, other) {
                        lines.push(vec![side.at(from, top), side.at(to, top)]);
                    }
                } else if ends(&other.across).is_some_and(|(left, _)| left == to)
                    && ends(&other.up) == Some((bottom, top))
                    && edge(upright, one, other)
                {
                    lines.push(vec![side.at(to, bottom), side.at(to, top)]);
                }
            }
        }
        join(&mut lines);
        lines
    }

    fn lines(&self, side: &Side, stress: f64) -> Vec<Vec<Point>> {
        let to_sheet = |line: Vec<[f64; 2]>| line.into_iter().map(|[x, y]| side.at(x, y)).collect::<Vec<_>>();
        let mut lines: Vec<Vec<Point>> = self
            .grids
            .iter()
            .flat_map(|grid| grid.lines(stress))
            .map(|line| simpler(&to_sheet(line)))
            .collect();
        // From panel to panel a line goes on where its value does not jump.
        join(&mut lines);
        lines.sort_by(|a, b| length(b).total_cmp(&length(a)));
        lines
    }
}

/// The first and the last place of a grid.
fn ends(places: &[f64]) -> Option<(f64, f64)> {
    Some((*places.first()?, *places.last()?))
}

/// The largest of 1, 2 and 5 with noughts that is no larger.
fn round_step(step: f64) -> f64 {
    let power = real::pow(10.0, real::log10(step).floor());
    let steps = [5.0, 2.0, 1.0];
    power * steps.into_iter().find(|round| round * power <= step * (1.0 + 1e-9)).unwrap_or(1.0)
}

/// Joins lines whose ends meet.
fn join(lines: &mut Vec<Vec<Point>>) {
    const MEET: f64 = 0.3;
    let mut one = 0;
    while one < lines.len() {
        let ends = |line: &[Point]| (line.first().copied(), line.last().copied());
        let met = (one + 1..lines.len()).find_map(|other| {
            let ((Some(a), Some(b)), (Some(c), Some(d))) = (ends(&lines[one]), ends(&lines[other])) else {
                return None;
            };
            let near = |p: Point, q: Point| p.distance(q) < MEET;
            // Which of the two has to be turned round, and which comes first.
            let (turn_one, turn_other) = match (near(b, c), near(b, d), near(a, c), near(a, d)) {
                (true, ..) => (false, false),
                (_, true, ..) => (false, true),
                (_, _, true, _) => (true, false),
                (.., true) => (true, true),
                _ => return None,
            };
            Some((other, turn_one, turn_other))
        });
        let Some((other, turn_one, turn_other)) = met else {
            one += 1;
            continue;
        };
        let mut next = lines.remove(other);
        if turn_one {
            lines[one].reverse();
        }
        if turn_other {
            next.reverse();
        }
        lines[one].extend(next.into_iter().skip(1));
    }
}

/// A polyline without the points that lie within a tenth of a px of the chord of those that stay (Douglas and Peucker).
pub(crate) fn simpler(points: &[Point]) -> Vec<Point> {
    let mut kept = vec![false; points.len()];
    let Some(last) = points.len().checked_sub(1) else { return Vec::new() };
    (kept[0], kept[last]) = (true, true);
    let mut open = vec![(0, last)];
    while let Some((from, to)) = open.pop() {
        let (a, b) = (points[from], points[to]);
        let length = a.distance(b);
        let off = |p: Point| {
            if length < 1e-9 {
                a.distance(p)
            } else {
                ((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x)).abs() / length
            }
        };
        let furthest = (from + 1..to).max_by(|&i, &j| off(points[i]).total_cmp(&off(points[j])));
        if let Some(furthest) = furthest.filter(|&place| off(points[place]) > 0.1) {
            kept[furthest] = true;
            open.extend([(from, furthest), (furthest, to)]);
        }
    }
    points.iter().zip(kept).filter(|(_, kept)| *kept).map(|(&point, _)| point).collect()
}

/// Where the value of a line stands: the middle of its label on the line, within `inside`, off what stands there already.
pub(crate) fn seat(line: &[Point], label: &Label, size: f64, inside: Rect, taken: &[Rect]) -> Option<Point> {
    let width = label.width(size);
    let around = |at: Point| Rect {
        left: at.x - 0.5 * width,
        top: at.y - 0.5 * size,
        right: at.x + 0.5 * width,
        bottom: at.y + 0.5 * size,
    };
    let free = |at: &Point| {
        let rect = around(*at).grown(1.5);
        inside.holds(rect) && !taken.iter().any(|other| other.overlaps(rect.grown(1.5)))
    };
    if length(line) < 1.3 * width {
        return None;
    }
    let parts = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88, 0.06, 0.94];
    parts.into_iter().map(|part| along(line, part)).find(free)
}

fn length(line: &[Point]) -> f64 {
    line.windows(2).map(|pair| pair[0].distance(pair[1])).sum()
}

/// The point at a part of the way along a line.
fn along(line: &[Point], part: f64) -> Point {
    let mut rest = part * length(line);
    for pair in line.windows(2) {
        let step = pair[0].distance(pair[1]);
        if step >= rest && step > 0.0 {
            return pair[0].towards(pair[1], rest / step);
        }
        rest -= step;
    }
    line.last().copied().unwrap_or_default()
}

/// The lines with what lies in the boxes left out, so that a label stands in a gap of its line.
pub(crate) fn without(lines: &[Vec<Point>], boxes: &[Rect]) -> Vec<Vec<Point>> {
    let mut all = Vec::new();
    for line in lines {
        let mut current: Vec<Point> = Vec::new();
        for pair in line.windows(2) {
            let crossed = boxes.iter().any(|rect| rect.is_crossed(pair[0], pair[1]));
            let count =
                if crossed { (pair[0].distance(pair[1]) / 0.75).ceil().clamp(1.0, 4000.0) as u32 } else { 1 };
            for k in 0..=count {
                let point = pair[0].towards(pair[1], f64::from(k) / f64::from(count));
                let hidden = boxes.iter().any(|rect| rect.nearest(point) == point);
                if hidden {
                    all.extend((current.len() > 1).then(|| simpler(&current)));
                    current.clear();
                } else if current.last() != Some(&point) {
                    current.push(point);
                }
            }
        }
        all.extend((current.len() > 1).then(|| simpler(&current)));
    }
    all
}
