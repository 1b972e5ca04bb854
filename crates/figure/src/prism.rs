//! A prismatic piece of the beam seen in axonometric projection, its hidden faces removed.
//!
//! The piece is the section drawn out along the beam. The near end is seen whole; of the walls those are seen
//! that look towards the reader, unless something nearer covers them. Along a line of sight the piece is entered
//! either through the near end or through the first wall met, and walls that look towards the reader never cross:
//! so they can be put in an order in which each covers only walls before it. That order holds for any section,
//! with holes, arcs and several parts.

use crate::geometry::Point as Spot;
use crate::outline::Region;
use mechanics::real;
use mechanics::section::Point;

/// How the axes of the beam and its section fall on the sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct View {
    /// Where the point (station 0, x = 0, y = 0) falls, px.
    pub origin: Spot,
    /// px for each m along the beam.
    pub along: Spot,
    /// px for each m across the section, to its right.
    pub across: Spot,
    /// px for each m up the section.
    pub up: Spot,
}

impl View {
    /// A reader who stands beside the right-hand end of the beam and above it: turned by `azimuth` from the
    /// straight side view towards the end, raised by `elevation`, both in rad. Stretched along the beam by
    /// `stretch` where the true length would not read well.
    pub fn new(azimuth: f64, elevation: f64, scale: f64, stretch: f64) -> Self {
        let (ca, sa) = (real::cos(azimuth), real::sin(azimuth));
        let (ce, se) = (real::cos(elevation), real::sin(elevation));
        Self {
            origin: Spot::new(0.0, 0.0),
            along: Spot::new(scale * stretch * ca, scale * stretch * sa * se),
            across: Spot::new(scale * sa, -scale * ca * se),
            up: Spot::new(0.0, -scale * ce),
        }
    }

    /// Where a point of the section at a station falls.
    pub fn at(&self, station: f64, p: Point) -> Spot {
        self.origin.moved(
            station * self.along.x + p.x * self.across.x + p.y * self.up.x,
            station * self.along.y + p.x * self.across.y + p.y * self.up.y,
        )
    }

    /// The same view with its origin moved by so many px.
    pub fn moved(mut self, dx: f64, dy: f64) -> Self {
        self.origin = self.origin.moved(dx, dy);
        self
    }
}

/// A wall of the piece: one side of the outline drawn out along the beam.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Wall {
    /// Its corners on the sheet: near end from and to, far end to and from.
    pub corners: [Spot; 4],
    /// Its side of the outline.
    pub side: (Point, Point),
    /// How much light falls on it, from 0 to 1.
    pub light: f64,
    /// Whether a line is drawn along the beam at its first and at its second point.
    pub lines: (bool, bool),
    /// Which part it belongs to.
    pub part: usize,
}

/// The walls of a piece between two stations that look towards the reader, those covered first.
pub(crate) fn walls(view: &View, regions: &[Region], near: f64, far: f64) -> Vec<Wall> {
    let depth = Spot::new((far - near) * view.along.x, (far - near) * view.along.y);
    let mut walls = Vec::new();
    for (part, region) in regions.iter().enumerate() {
        for ring in &region.rings {
            let n = ring.points.len();
            let seen: Vec<bool> = ring.sides().map(|(a, b)| looks_here(view, depth, a, b)).collect();
            for i in 0..n {
                if !seen[i] {
                    continue;
                }
                let (j, before) = ((i + 1) % n, (i + n - 1) % n);
                let (a, b) = (ring.points[i], ring.points[j]);
                walls.push(Wall {
                    corners: [view.at(near, a), view.at(near, b), view.at(far, b), view.at(far, a)],
                    side: (a, b),
                    light: light(a, b),
                    lines: (!ring.smooth[i] || !seen[before], !ring.smooth[j] || !seen[j]),
                    part,
                });
            }
        }
    }
    in_order(walls, depth)
}

/// Whether the wall over the side from `a` to `b`, material on its left, looks towards the reader: its outward
/// normal on the sheet has a part along the depth, the way from the near end to the far one.
fn looks_here(view: &View, depth: Spot, a: Point, b: Point) -> bool {
    let (from, to) = (view.at(0.0, a), view.at(0.0, b));
    // The section is seen with its right on the right and its top above, but y runs down the sheet: the material,
    // on the left of the side, lies towards (side.y, -side.x).
    let side = Spot::new(to.x - from.x, to.y - from.y);
    let outward = Spot::new(-side.y, side.x);
    let size = real::hypot(side.x, side.y) * real::hypot(depth.x, depth.y);
    outward.x * depth.x + outward.y * depth.y > 1e-9 * size
}

/// Light from above and from the reader's side, on the wall over the side from `a` to `b`.
fn light(a: Point, b: Point) -> f64 {
    let length = real::hypot(b.x - a.x, b.y - a.y);
    if length == 0.0 {
        return 1.0;
    }
    let (across, up) = ((b.y - a.y) / length, -(b.x - a.x) / length);
    (0.55 + 0.45 * up - 0.1 * across).clamp(0.0, 1.0)
}

/// Orders walls so that each comes after all that it may cover.
fn in_order(walls: Vec<Wall>, depth: Spot) -> Vec<Wall> {
    let n = walls.len();
    let size = real::hypot(depth.x, depth.y);
    if size == 0.0 {
        return walls;
    }
    // Of two walls over one line of sight that with the greater reach along the depth is entered first.
    let (dx, dy) = (depth.x / size, depth.y / size);
    let place = |p: Spot| Spot::new(-dy * p.x + dx * p.y, dx * p.x + dy * p.y); // x beside the depth, y along it
    let spans: Vec<(Spot, Spot)> = walls
        .iter()
        .map(|w| {
            let (a, b) = (place(w.corners[0]), place(w.corners[1]));
            if a.x <= b.x { (a, b) } else { (b, a) }
        })
        .collect();
    let reach = |(a, b): (Spot, Spot), beside: f64| {
        let width = b.x - a.x;
        if width <= 0.0 { a.y } else { a.y + (b.y - a.y) * (beside - a.x) / width }
    };
    let mut covers: Vec<Vec<usize>> = vec![Vec::new(); n];
    let mut waits = vec![0_usize; n];
    for i in 0..n {
        for j in i + 1..n {
            let (low, high) = (spans[i].0.x.max(spans[j].0.x), spans[i].1.x.min(spans[j].1.x));
            if high - low <= 1e-6 {
                continue;
            }
            let middle = 0.5 * (low + high);
            let (first, second) =
                if reach(spans[i], middle) <= reach(spans[j], middle) { (i, j) } else { (j, i) };
            covers[first].push(second);
            waits[second] += 1;
        }
    }
    let mut ready: Vec<usize> = (0..n).rev().filter(|&i| waits[i] == 0).collect();
    let mut order = Vec::with_capacity(n);
    while let Some(i) = ready.pop() {
        order.push(i);
        for &j in &covers[i] {
            waits[j] -= 1;
            if waits[j] == 0 {
                ready.push(j);
            }
        }
    }
    // Sides that touch can, by rounding, seem to cover each other in a ring; they are drawn all the same.
    if order.len() < n {
        let placed: Vec<bool> = (0..n).map(|i| order.contains(&i)).collect();
        order.extend((0..n).filter(|&i| !placed[i]));
    }
    let mut walls: Vec<Option<Wall>> = walls.into_iter().map(Some).collect();
    order.into_iter().filter_map(|i| walls[i].take()).collect()
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test fails where it panics")]
mod tests {
    use super::*;
    use crate::outline::{Extent, Ring, extent};
    use mechanics::section::{Loop, Part, shapes};

    fn inside(regions: &[Region], p: Point) -> bool {
        let crosses = |(a, b): (Point, Point)| {
            (a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y)
        };
        regions.iter().any(|r| r.rings.iter().flat_map(Ring::sides).filter(|&s| crosses(s)).count() % 2 == 1)
    }

    fn covers(corners: &[Spot; 4], s: Spot) -> bool {
        let mut odd = false;
        for k in 0..4 {
            let (a, b) = (corners[k], corners[(k + 1) % 4]);
            if (a.y > s.y) != (b.y > s.y) && s.x < a.x + (b.x - a.x) * (s.y - a.y) / (b.y - a.y) {
                odd = !odd;
            }
        }
        odd
    }

    /// The point of the section's plane that falls on a spot at a station.
    fn under(view: &View, s: Spot, station: f64) -> Point {
        let (dx, dy) =
            (s.x - view.origin.x - station * view.along.x, s.y - view.origin.y - station * view.along.y);
        let x = dx / view.across.x;
        Point { x, y: (dy - x * view.across.y) / view.up.y }
    }

    /// Along each line of sight the wall drawn last must be that through which a ray, followed in fine steps from
    /// the near end inwards, first enters the piece: closed form but for the step.
    fn agrees_with_rays(parts: &[Part]) {
        let regions: Vec<Region> = parts.iter().map(|part| Region::of(part, 1e-4)).collect();
        let Extent { left, right, bottom, top } = extent(&regions).unwrap();
        let size = (right - left).max(top - bottom);
        let view = View::new(0.63, 0.42, 300.0 / size, 1.0);
        let (near, far) = (0.8 * size, 0.0);
        let walls = walls(&view, &regions, near, far);
        let corners: Vec<Spot> = walls.iter().flat_map(|w| w.corners).collect();
        let sheet = crate::geometry::Rect::around(&corners);
        let (mut seen, mut wrong) = (0, 0);
        for i in 0..28 {
            for j in 0..28 {
                let spot = Spot::new(
                    sheet.left + sheet.width() * (f64::from(i) + 0.37) / 28.0,
                    sheet.top + sheet.height() * (f64::from(j) + 0.41) / 28.0,
                );
                if inside(&regions, under(&view, spot, near)) {
                    continue;
                }
                let steps = 500;
                let entered = (0..=steps)
                    .map(|k| near + (far - near) * f64::from(k) / f64::from(steps))
                    .find(|&station| inside(&regions, under(&view, spot, station)));
                let drawn = walls.iter().rev().find(|w| covers(&w.corners, spot));
                match (entered, drawn) {
                    (None, None) => {}
                    (Some(station), Some(wall)) => {
                        seen += 1;
                        let p = under(&view, spot, station);
                        let (a, b) = wall.side;
                        let length = real::hypot(b.x - a.x, b.y - a.y);
                        let off = ((p.x - a.x) * (b.y - a.y) - (p.y - a.y) * (b.x - a.x)).abs() / length;
                        if off > 6e-3 * size {
                            wrong += 1;
                        }
                    }
                    // At the rim of a wall the step of the ray may decide otherwise.
                    _ => wrong += 1,
                }
            }
        }
        assert!(seen > 100, "{seen}");
        assert!(wrong * 50 <= seen, "{wrong} of {seen}");
    }

    #[test]
    fn what_is_drawn_last_is_what_a_line_of_sight_meets_first() {
        let mm = |x: f64, y: f64| Point::new(x * 1e-3, y * 1e-3);
        let polygon = |corners: &[(f64, f64)]| {
            Loop::polygon(&corners.iter().map(|&(x, y)| mm(x, y)).collect::<Vec<_>>())
        };
        let with_holes = Part::of_outline(
            polygon(&[(0.0, 0.0), (120.0, 0.0), (140.0, 90.0), (70.0, 160.0), (0.0, 110.0)]),
            vec![
                Loop::circle(mm(40.0, 50.0), 0.018),
                polygon(&[(75.0, 40.0), (110.0, 40.0), (105.0, 80.0), (85.0, 85.0)]),
            ],
        );
        let comb = Part::of_outline(
            polygon(&[
                (0.0, 0.0),
                (100.0, 0.0),
                (100.0, 90.0),
                (85.0, 90.0),
                (85.0, 20.0),
                (60.0, 20.0),
                (70.0, 70.0),
                (40.0, 75.0),
                (45.0, 20.0),
                (15.0, 20.0),
                (15.0, 60.0),
                (0.0, 60.0),
            ]),
            Vec::new(),
        );
        agrees_with_rays(&[with_holes]);
        agrees_with_rays(&[comb]);
        agrees_with_rays(&shapes::round_tube(0.1, 0.012).unwrap().parts);
        agrees_with_rays(&shapes::rolled_i(0.2, 0.1, 0.0056, 0.0085, 0.012).unwrap().parts);
        agrees_with_rays(&shapes::box_girder(0.2, 0.3, 0.025, 0.05, 0.05).unwrap().parts);
        agrees_with_rays(&shapes::channel(0.2, 0.08, 0.008, 0.012).unwrap().parts);
    }
}
