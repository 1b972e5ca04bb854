//! The walls of a section that is one outline: a rolled profile, a rectangular tube, a round one, a sector of a ring, and what has
//! sloping walls.

use super::ends::{ended, is_angle};
use super::joined::joined;
use super::no_middle_lines::NoMiddleLines;
use super::sides::{area, straight_sides};
use super::strip::{Strip, THIN, mean};
use super::wall_names::named;
use super::{ThinWalls, Wall, pairs};
use crate::real;
use crate::section::{Edge, Loop, Part, Point, turn};

/// Sides whose ends differ by less than this part of the outline's size are level or upright.
const STRAIGHT: f64 = 1e-9;

/// Sides that rise by less than this part of their length are those of a tapered flange: 14 % is the steepest of rolled profiles.
pub(super) const TAPERED: f64 = 0.2;

/// Walls that slope are those of an outline where they make up its area but for this part of it; roundings, chamfers and mitred
/// tips may come to as much: the fillets of rolled profiles are 4 to 6 %.
const NOT_FOUND: f64 = 0.1;

/// The walls of a part that is the whole section.
pub(super) fn walls(part: &Part, name: String) -> Result<ThinWalls, NoMiddleLines> {
    if let Some(tube) = round_tube(part) {
        return tube;
    }
    if is_solid(part) {
        return Err(NoMiddleLines::Solid);
    }
    let rings: Option<Vec<_>> = std::iter::once(&part.outline)
        .chain(&part.holes)
        .map(|ring| corners(ring).or_else(|| tapered(ring)))
        .collect();
    match rings {
        Some(rings) => joined(&strips(&rings).ok_or(NoMiddleLines::Apart)??),
        None => match Strip::of_part(name, part) {
            Ok(strip) => joined(&[strip]),
            Err(NoMiddleLines::NoStrip { .. }) => joined(&sloping(part)?),
            Err(why) => Err(why),
        },
    }
}

/// The strips of an outline whose walls slope: pairs of sides, each led on to where it meets others.
fn sloping(part: &Part) -> Result<Vec<Strip>, NoMiddleLines> {
    let (sides, rounding) = straight_sides(part);
    let walls = pairs::walls(&sides);
    let thickest = walls.iter().map(|wall| wall.thickness).fold(0.0, f64::max);
    // A bend whose middle line has a radius of five thicknesses is a round wall, and no corner.
    if walls.is_empty() || rounding >= (THIN + 0.5) * thickest {
        return Err(NoMiddleLines::Unpaired);
    }
    let strips = named(ended(&walls, &sides)?, is_angle(&walls, &sides));
    let strips = strips.into_iter().map(Strip::if_thin).collect::<Result<Vec<_>, _>>()?;
    let found: f64 = strips.iter().map(|strip| strip.line.length() * strip.thickness).sum();
    let whole = area(part);
    if (found - whole).abs() > NOT_FOUND * whole {
        return Err(NoMiddleLines::Unpaired);
    }
    Ok(strips)
}

/// Whether there is nothing but one piece without hollows: no hole, and never a turn the other way.
fn is_solid(part: &Part) -> bool {
    if !part.holes.is_empty() {
        return false;
    }
    let mut points = vec![part.outline.start];
    for edge in &part.outline.path {
        match *edge {
            Edge::Line { to } => points.push(to),
            Edge::Arc { to, centre, counter_clockwise } => {
                let Some(&from) = points.last() else { continue };
                let radius = from.distance(centre);
                let (start, sweep) = turn(from, to, centre, counter_clockwise);
                let half = start + 0.5 * sweep;
                points.push(Point::new(
                    centre.x + radius * real::cos(half),
                    centre.y + radius * real::sin(half),
                ));
                points.push(to);
            }
        }
    }
    let size = points.iter().map(|p| p.distance(part.outline.start)).fold(0.0, f64::max);
    let near = STRAIGHT * size;
    points.dedup_by(|a, b| a.distance(*b) <= near);
    if points.len() > 1 && points.first().zip(points.last()).is_some_and(|(a, b)| a.distance(*b) <= near) {
        points.pop();
    }
    let next = |k: usize| points[(k + 1) % points.len()];
    let turn = |k: usize| next(k).minus(points[k]).cross(next(k + 1).minus(next(k)));
    let turns: Vec<f64> = (0..points.len()).map(turn).filter(|turn| turn.abs() > near * size).collect();
    turns.iter().all(|turn| *turn > 0.0) || turns.iter().all(|turn| *turn < 0.0)
}

/// A round tube's two halves, from its lowest point to its highest; none where the part is no tube about one centre.
fn round_tube(part: &Part) -> Option<Result<ThinWalls, NoMiddleLines>> {
    let [hole] = part.holes.as_slice() else { return None };
    let ((centre, outer), (within, inner)) = (circle(&part.outline)?, circle(hole)?);
    let (radius, thickness) = (0.5 * (outer + inner), outer - inner);
    if centre.distance(within) > STRAIGHT * outer {
        return None;
    }
    if radius < THIN * thickness {
        let part = "wall of the tube".to_owned();
        return Some(Err(NoMiddleLines::Thick { part, length: radius, thickness, is_radius: true }));
    }
    let (half, across) = (core::f64::consts::PI, |y: f64| Point::new(centre.x, centre.y + y));
    let wall = |name: &str, sweep: f64| Wall::round(name, (0, 1), centre, sweep, thickness);
    let walls = vec![wall("left half", -half), wall("right half", half)];
    Some(ThinWalls::new(vec![across(-radius), across(radius)], walls).map_err(|_| NoMiddleLines::Apart))
}

/// Centre and radius of a loop of arcs about one centre.
fn circle(of: &Loop) -> Option<(Point, f64)> {
    let mut found: Option<Point> = None;
    for edge in &of.path {
        let Edge::Arc { centre, .. } = *edge else { return None };
        if *found.get_or_insert(centre) != centre {
            return None;
        }
    }
    found.map(|centre| (centre, real::hypot(of.start.x - centre.x, of.start.y - centre.y)))
}

/// The corners of a loop whose sides are level and upright; a fillet counts as the corner that it rounds.
fn corners(of: &Loop) -> Option<Vec<Point>> {
    let mut corners = vec![of.start];
    let mut at = of.start;
    for edge in &of.path {
        match *edge {
            Edge::Line { to } => {
                corners.push(to);
                at = to;
            }
            Edge::Arc { to, centre, .. } => {
                // A quarter of a circle stands square on both its sides: the corner is level with one end and above the
                // other, on the far side from the centre.
                let on = |corner: Point| {
                    (corner.x - centre.x).abs().min((corner.y - centre.y).abs()) > 0.5 * (to.x - at.x).abs()
                };
                let of_two = [Point::new(to.x, at.y), Point::new(at.x, to.y)];
                corners.push(of_two.into_iter().find(|&corner| on(corner))?);
                corners.push(to);
                at = to;
            }
        }
    }
    let size =
        corners.iter().map(|p| (p.x - of.start.x).abs().max((p.y - of.start.y).abs())).fold(0.0, f64::max);
    let near = STRAIGHT * size;
    let closed = corners.iter().zip(corners.iter().cycle().skip(1));
    let square = |(a, b): (&Point, &Point)| (a.x - b.x).abs() <= near || (a.y - b.y).abs() <= near;
    closed.into_iter().all(square).then_some(corners)
}

/// The corners of a loop of which some sides slope a little, as the inner faces of tapered flanges do: each such side is taken
/// level, at the height of its middle between the uprights on both its ends; roundings are the corners that they round.
fn tapered(of: &Loop) -> Option<Vec<Point>> {
    let mut lines: Vec<(Point, Point)> = Vec::new();
    let mut at = of.start;
    for edge in &of.path {
        match *edge {
            Edge::Line { to } => {
                lines.push((at, to));
                at = to;
            }
            Edge::Arc { to, .. } => at = to,
        }
    }
    if at != of.start {
        lines.push((at, of.start));
    }
    let count = lines.len();
    let is_level = |(a, b): (Point, Point)| (b.y - a.y).abs() <= TAPERED * (b.x - a.x).abs();
    let near = STRAIGHT * lines.iter().map(|(a, b)| a.distance(*b)).fold(0.0, f64::max);
    let is_upright = |(a, b): (Point, Point)| (b.x - a.x).abs() <= near;
    let first = lines.iter().position(|&line| is_upright(line))?;
    lines.rotate_left(first);
    let takes_turns = lines.iter().enumerate().all(|(k, &line)| match k % 2 {
        0 => is_upright(line),
        _ => is_level(line),
    });
    if count % 2 == 1 || count < 4 || !takes_turns {
        return None;
    }
    let mut corners = Vec::new();
    for k in (1..count).step_by(2) {
        let (before, (a, b), after) = (lines[k - 1].0.x, lines[k], lines[(k + 1) % count].0.x);
        let rise = (b.y - a.y) / (b.x - a.x);
        let height = mean(a, b).y + rise * (0.5 * (before + after) - mean(a, b).x);
        corners.extend([Point::new(before, height), Point::new(after, height)]);
    }
    corners.extend(corners.first().copied());
    Some(corners)
}

/// The strips of a part by the corners of its rings, from below: between two heights of corners each stretch of material is one,
/// and it goes on above where it is as broad there. None where there is nothing.
fn strips(rings: &[Vec<Point>]) -> Option<Result<Vec<Strip>, NoMiddleLines>> {
    let mut heights: Vec<f64> = rings.iter().flatten().map(|p| p.y).collect();
    heights.sort_by(f64::total_cmp);
    let size = heights.last()? - heights.first()?;
    heights.dedup_by(|a, b| (*a - *b).abs() <= STRAIGHT * size);
    // Left, right, bottom, top.
    let mut boxes: Vec<[f64; 4]> = Vec::new();
    for pair in heights.windows(2) {
        let (bottom, top) = (pair[0], pair[1]);
        let middle = 0.5 * (bottom + top);
        let sides = rings.iter().flat_map(|ring| ring.iter().zip(ring.iter().cycle().skip(1)));
        let mut crossed: Vec<f64> =
            sides.filter(|(a, b)| (a.y < middle) != (b.y < middle)).map(|(a, _)| a.x).collect();
        crossed.sort_by(f64::total_cmp);
        for stretch in crossed.chunks_exact(2) {
            let (left, right) = (stretch[0], stretch[1]);
            let near = STRAIGHT * size;
            let same = |of: &&mut [f64; 4]| {
                (of[0] - left).abs() <= near
                    && (of[1] - right).abs() <= near
                    && (of[3] - bottom).abs() <= near
            };
            match boxes.iter_mut().find(same) {
                Some(below) => below[3] = top,
                None => boxes.push([left, right, bottom, top]),
            }
        }
    }
    let is_level = |of: &[f64; 4]| of[1] - of[0] >= of[3] - of[2];
    let (level, upright): (Vec<_>, Vec<_>) = boxes.into_iter().partition(is_level);
    let named = |boxes: Vec<[f64; 4]>, names: &dyn Fn(usize, usize) -> String| {
        let count = boxes.len();
        let strip = |(k, of): (usize, [f64; 4])| {
            Strip::of_rectangle(names(k, count), Point::new(of[0], of[2]), of[1] - of[0], of[3] - of[2])
        };
        boxes.into_iter().enumerate().map(strip).collect::<Result<Vec<_>, _>>()
    };
    let all = named(level, &level_name).and_then(|mut strips| {
        strips.extend(named(upright, &upright_name)?);
        Ok(strips)
    });
    Some(all)
}

/// Level strips are counted from below.
fn level_name(k: usize, of: usize) -> String {
    match (k, of) {
        (_, 1) => "flange".to_owned(),
        (0, 2) => "bottom flange".to_owned(),
        (1, 2) => "top flange".to_owned(),
        _ => format!("flange {}", k + 1),
    }
}

/// Upright strips are counted from below and from the left.
fn upright_name(k: usize, of: usize) -> String {
    match (k, of) {
        (_, 1) => "web".to_owned(),
        (0, 2) => "left web".to_owned(),
        (1, 2) => "right web".to_owned(),
        _ => format!("web {}", k + 1),
    }
}
