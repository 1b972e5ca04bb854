//! Where two stretches of boundary meet.

use super::Point;
use super::ring::{Curve, Stretch};

/// At most four points; two stretches on one circle or one line give the ends of what they share.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Meetings {
    points: [Option<Point>; 8],
    count: usize,
}

impl Meetings {
    fn add(&mut self, point: Point) {
        if let Some(slot) = self.points.get_mut(self.count) {
            *slot = Some(point);
            self.count += 1;
        }
    }

    pub(crate) fn iter(&self) -> impl Iterator<Item = Point> + '_ {
        self.points.iter().flatten().copied()
    }
}

/// All points that two stretches have in common, to within a tolerance.
pub(crate) fn meetings(first: &Stretch, second: &Stretch, tolerance: f64) -> Meetings {
    let mut found = Meetings::default();
    if lie_apart(first, second, tolerance) || lie_apart(second, first, tolerance) {
        return found;
    }
    for point in [second.from, second.to] {
        if first.distance_to(point) <= tolerance {
            found.add(point);
        }
    }
    for point in [first.from, first.to] {
        if second.distance_to(point) <= tolerance {
            found.add(point);
        }
    }
    let mut keep = |point: Point| {
        if first.distance_to(point) <= tolerance && second.distance_to(point) <= tolerance {
            found.add(point);
        }
    };
    match (first.curve, second.curve) {
        (Curve::Straight, Curve::Straight) => {
            if let Some(point) = crossing_of_lines(first, second) {
                keep(point);
            }
        }
        (Curve::Straight, Curve::Round { centre, radius, .. }) => {
            line_and_circle(first, centre, radius, tolerance).into_iter().flatten().for_each(&mut keep);
        }
        (Curve::Round { centre, radius, .. }, Curve::Straight) => {
            line_and_circle(second, centre, radius, tolerance).into_iter().flatten().for_each(&mut keep);
        }
        (
            Curve::Round { centre, radius, .. },
            Curve::Round { centre: other_centre, radius: other_radius, .. },
        ) => {
            two_circles(centre, radius, other_centre, other_radius, tolerance)
                .into_iter()
                .flatten()
                .for_each(&mut keep);
        }
    }
    found
}

/// Whether both ends of one straight stretch lie on the same side of the other, farther than the tolerance: nearly all
/// pairs of sides are told apart by this.
fn lie_apart(first: &Stretch, second: &Stretch, tolerance: f64) -> bool {
    if !matches!((first.curve, second.curve), (Curve::Straight, Curve::Straight)) {
        return false;
    }
    let along = first.to.minus(first.from);
    let (one, other) = (along.cross(second.from.minus(first.from)), along.cross(second.to.minus(first.from)));
    let near = tolerance * tolerance * along.dot(along);
    one * other > 0.0 && one * one > near && other * other > near
}

/// None where they are parallel: what they share is then found by their ends.
fn crossing_of_lines(first: &Stretch, second: &Stretch) -> Option<Point> {
    let (along, other) = (first.to.minus(first.from), second.to.minus(second.from));
    let turn = along.cross(other);
    // Below this sine of the angle between them the crossing point is no better known than their ends.
    if turn.abs() <= 1e-12 * along.length() * other.length() {
        return None;
    }
    let parameter = second.from.minus(first.from).cross(other) / turn;
    (-0.5..=1.5).contains(&parameter).then(|| first.point_at(parameter))
}

fn line_and_circle(line: &Stretch, centre: Point, radius: f64, tolerance: f64) -> [Option<Point>; 2] {
    let along = line.to.minus(line.from);
    let length = along.length();
    let unit = Point::new(along.x / length, along.y / length);
    let reach = centre.minus(line.from).dot(unit);
    let foot = Point::new(line.from.x + unit.x * reach, line.from.y + unit.y * reach);
    let off = foot.distance(centre);
    if (off - radius).abs() <= tolerance {
        return [Some(foot), None]; // the line touches the circle
    }
    if off > radius {
        return [None, None];
    }
    let half = ((radius - off) * (radius + off)).sqrt();
    let at = |step: f64| Some(Point::new(foot.x + unit.x * step, foot.y + unit.y * step));
    [at(-half), at(half)]
}

fn two_circles(first: Point, radius: f64, second: Point, other: f64, tolerance: f64) -> [Option<Point>; 2] {
    let apart = second.minus(first);
    let distance = apart.length();
    // On one circle, or one within the other about the same centre: the ends tell what they share.
    if distance <= tolerance
        || distance > radius + other + tolerance
        || distance + tolerance < (radius - other).abs()
    {
        return [None, None];
    }
    let reach = 0.5 * (distance + (radius - other) * (radius + other) / distance);
    let unit = Point::new(apart.x / distance, apart.y / distance);
    let foot = Point::new(first.x + unit.x * reach, first.y + unit.y * reach);
    let touching = (distance - (radius + other)).abs() <= tolerance
        || (distance - (radius - other).abs()).abs() <= tolerance;
    let half = ((radius - reach) * (radius + reach)).max(0.0).sqrt();
    if touching || half == 0.0 {
        return [Some(foot), None];
    }
    let at = |step: f64| Some(Point::new(foot.x - unit.y * step, foot.y + unit.x * step));
    [at(-half), at(half)]
}
