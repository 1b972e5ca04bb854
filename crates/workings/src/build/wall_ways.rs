//! The ways along thin walls: from the free edges inwards, and round the closed cells, each cut open once.

use super::walls::{NOTHING, is_level};
use mechanics::section::Point;
use mechanics::thin_wall::{Path, ThinWalls};

/// The order in which the walls are gone.
pub(super) struct Ways {
    /// The walls from the free edges inwards, each with whether it is gone against its own sense; those of the cells last, each
    /// once all that flows into it is known.
    pub order: Vec<(usize, bool)>,
    /// The closed cells that one sees, those on the left first, of those above one another the lowest first.
    pub cells: Vec<Ring>,
    /// The joint at which the first cell is cut open, and at which all ways end; none in an open section.
    pub root: Option<usize>,
}

/// The walls round one cell.
#[derive(Clone, Debug)]
pub(super) struct Ring {
    /// Counter-clockwise, from the one that is cut open: each with 1 where it is gone so, and -1 where the other way round.
    pub walls: Vec<(usize, f64)>,
}

/// A wall as it is passed round a cell: whether against its own sense.
type Passed = (usize, bool);

/// The joints where a wall begins and ends as it is passed.
fn ends(walls: &ThinWalls, (k, against): Passed) -> (usize, usize) {
    let wall = &walls.walls()[k];
    if against { (wall.to, wall.from) } else { (wall.from, wall.to) }
}

/// How the walls are gone; none where a wall is neither level nor upright, or belongs to no cell and hangs between two.
pub(super) fn ways(walls: &ThinWalls) -> Option<Ways> {
    let straight = |k: usize| {
        let (Some((from, _)), Some((to, _))) = (walls.point(k, 0.0), walls.point(k, 1.0)) else {
            return false;
        };
        let near = NOTHING * walls.length(k);
        walls.walls()[k].path == Path::Straight
            && ((from.x - to.x).abs() <= near || (from.y - to.y).abs() <= near)
    };
    if !(0..walls.walls().len()).all(straight) {
        return None;
    }
    let (mut order, left) = from_the_free_edges(walls);
    let rings = rings(walls, &left)?;
    let cuts: Vec<Passed> = rings.iter().filter_map(|ring| ring.first().copied()).collect();
    let Some(&first) = cuts.first() else { return Some(Ways { order, cells: Vec::new(), root: None }) };
    let root = ends(walls, first).0;
    let core = to_the_root(walls, &left, (&cuts, root))?;
    let sense = |&(k, against): &Passed| {
        let way = core.iter().find(|(of, _)| *of == k)?.1;
        Some((k, if way == against { 1.0 } else { -1.0 }))
    };
    let cells = rings.iter().map(|ring| Some(Ring { walls: ring.iter().map(sense).collect::<Option<_>>()? }));
    let cells = cells.collect::<Option<Vec<_>>>()?;
    order.extend(core);
    Some(Ways { order, cells, root: Some(root) })
}

/// The walls outside all cells in an order in which each begins at a free edge or where all others are done; and what is left.
fn from_the_free_edges(walls: &ThinWalls) -> (Vec<Passed>, Vec<usize>) {
    // Webs last: what they take is what is asked for.
    let mut left: Vec<usize> = (0..walls.walls().len()).collect();
    left.sort_by_key(|&k| !is_level(walls, k));
    let mut order = Vec::new();
    while !left.is_empty() {
        let open = |joint: usize, left: &[usize]| {
            left.iter().filter(|&&k| walls.walls()[k].from == joint || walls.walls()[k].to == joint).count()
        };
        let next = left.iter().position(|&k| {
            let wall = &walls.walls()[k];
            open(wall.from, &left) == 1 || open(wall.to, &left) == 1
        });
        let Some(next) = next else { break };
        let wall = &walls.walls()[left[next]];
        // Of an upright wall that is open at both ends the way runs up.
        let (at_from, at_to) = (open(wall.from, &left) == 1, open(wall.to, &left) == 1);
        let up = walls.joints()[wall.to].y >= walls.joints()[wall.from].y;
        let against = if at_from && at_to { !up } else { at_to };
        order.push((left.remove(next), against));
    }
    (order, left)
}

/// The cells that one sees, each counter-clockwise from the left end of its lowest level wall. None where a wall lies in no
/// cell, or twice on the edge of one.
fn rings(walls: &ThinWalls, left: &[usize]) -> Option<Vec<Vec<Passed>>> {
    let mut all: Vec<Passed> = left.iter().flat_map(|&k| [(k, false), (k, true)]).collect();
    let mut found = Vec::new();
    while let Some(&start) = all.first() {
        let mut ring = vec![start];
        loop {
            let last = *ring.last()?;
            let next = leftmost(walls, left, last)?;
            if next == start {
                break;
            }
            if ring.len() > all.len() {
                return None;
            }
            ring.push(next);
        }
        all.retain(|passed| !ring.contains(passed));
        if ring.iter().any(|&(k, against)| ring.contains(&(k, !against))) {
            return None;
        }
        // The way round all of it from outside runs clockwise.
        if enclosed(walls, &ring) > 0.0 {
            found.push(from_the_lowest(walls, ring)?);
        }
    }
    let size = (0..walls.walls().len()).map(|k| walls.length(k)).sum::<f64>();
    let start = |ring: &[Passed]| ring.first().map(|&first| walls.joints()[ends(walls, first).0]);
    found.sort_by(|a, b| {
        let (Some(a), Some(b)) = (start(a), start(b)) else { return core::cmp::Ordering::Equal };
        before(a, b, size)
    });
    Some(found)
}

/// From left to right, then from below.
fn before(a: Point, b: Point, size: f64) -> core::cmp::Ordering {
    if (a.x - b.x).abs() > NOTHING * size { a.x.total_cmp(&b.x) } else { a.y.total_cmp(&b.y) }
}

/// The wall by which the way goes on that keeps the cell on its left: the one farthest to the left.
fn leftmost(walls: &ThinWalls, left: &[usize], last: Passed) -> Option<Passed> {
    let at = ends(walls, last).1;
    let along = direction(walls, last);
    let on = left.iter().flat_map(|&k| [(k, false), (k, true)]);
    let on = on.filter(|&next| next.0 != last.0 && ends(walls, next).0 == at);
    on.max_by(|&a, &b| turn(along, direction(walls, a)).total_cmp(&turn(along, direction(walls, b))))
}

/// A turn by a right angle to the left is 1, straight on 0, to the right -1.
fn turn(along: Point, next: Point) -> f64 {
    along.x * next.y - along.y * next.x
}

fn direction(walls: &ThinWalls, passed: Passed) -> Point {
    let (from, to) = ends(walls, passed);
    let (from, to) = (walls.joints()[from], walls.joints()[to]);
    let length = walls.length(passed.0);
    Point::new((to.x - from.x) / length, (to.y - from.y) / length)
}

/// The area inside, m²: positive where the way runs counter-clockwise.
fn enclosed(walls: &ThinWalls, ring: &[Passed]) -> f64 {
    let origin = walls.joints()[0];
    let of = |&passed: &Passed| {
        let (from, to) = ends(walls, passed);
        let (from, to) = (walls.joints()[from], walls.joints()[to]);
        (from.x - origin.x) * (to.y - origin.y) - (from.y - origin.y) * (to.x - origin.x)
    };
    0.5 * ring.iter().map(of).sum::<f64>()
}

/// The same way round, from the left end of its lowest level wall.
fn from_the_lowest(walls: &ThinWalls, mut ring: Vec<Passed>) -> Option<Vec<Passed>> {
    let start = |place: usize| walls.joints()[ends(walls, ring[place]).0];
    let levels = (0..ring.len()).filter(|&place| is_level(walls, ring[place].0));
    // Along its lowest wall a cell on the left is passed to the right.
    let first = levels.min_by(|&a, &b| {
        let (a, b) = (start(a), start(b));
        let same = (a.y - b.y).abs() <= NOTHING * walls.length(0);
        if same { a.x.total_cmp(&b.x) } else { a.y.total_cmp(&b.y) }
    })?;
    ring.rotate_left(first);
    Some(ring)
}

/// The walls of the cells, once each cell is cut open where its first wall begins: what is left hangs together without any closed
/// way, so that each leads to the root along one way only. In an order in which all that flows into a wall is known before,
/// from wall to wall as far as that goes.
fn to_the_root(walls: &ThinWalls, left: &[usize], (cuts, root): (&[Passed], usize)) -> Option<Vec<Passed>> {
    // From the root outwards, each wall with its way back.
    let mut ways: Vec<Passed> = Vec::new();
    let mut reached = vec![root];
    let mut next = 0;
    while let Some(&joint) = reached.get(next) {
        next += 1;
        for &k in left {
            if ways.iter().any(|(of, _)| *of == k) {
                continue;
            }
            let back = [(k, false), (k, true)].into_iter().find(|&way| ends(walls, way).1 == joint);
            // Where a wall is cut it does not hang on that joint.
            let Some(way) = back.filter(|&(k, against)| !cuts.contains(&(k, !against))) else { continue };
            ways.push(way);
            if !cuts.contains(&way) {
                reached.push(ends(walls, way).0);
            }
        }
    }
    let mut order: Vec<Passed> = Vec::new();
    while order.len() < left.len() {
        let done = |way: &Passed| order.contains(way);
        let ready = |way: &Passed| {
            let begins = ends(walls, *way).0;
            cuts.contains(way) || ways.iter().all(|other| ends(walls, *other).1 != begins || done(other))
        };
        let at = order.last().map(|&last| ends(walls, last).1);
        let goes_on = |way: &Passed| at == Some(ends(walls, *way).0) && !cuts.contains(way);
        let open: Vec<Passed> = ways.iter().copied().filter(|way| !done(way) && ready(way)).collect();
        let anew = || cuts.iter().copied().find(|cut| open.contains(cut));
        let next = open.iter().copied().find(goes_on).or_else(anew).or_else(|| open.first().copied())?;
        order.push(next);
    }
    Some(order)
}
