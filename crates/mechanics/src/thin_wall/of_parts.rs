//! The middle lines of a section given by its parts.

use super::plate::Plate;
use super::{ThinWalls, Wall, of_outline};
use crate::section::{Figure, Part, Point};

/// Plates that stand off each other by less than this part of the section's size touch: places are sums of sizes read from
/// text.
const TOUCHES: f64 = 1e-7;

impl ThinWalls {
    /// The walls of a section of plates (I, T, channel, angle, Z, hat, box, and whatever rectangles make), of a rolled profile
    /// with parallel flanges, of a rectangular tube or of a round one; in the coordinates of the outlines. A wall is called
    /// after the part to which it belongs.
    ///
    /// Plates meet in the middle: one that stands on the flank of another reaches to that one's middle line, and where they
    /// make a corner, the other ends there too. Root fillets are left out.
    ///
    /// None where there are no such walls: a plate shorter than five of its thicknesses, a tube thicker than a fifth of its
    /// radius, plates that lie flat on one another or do not touch, sloping flanges, two materials.
    pub fn of_parts(parts: &[Part], names: &[impl AsRef<str>]) -> Option<Self> {
        let ratio = parts.first()?.modular_ratio;
        if parts.iter().any(|part| part.modular_ratio != ratio) {
            return None;
        }
        if let [part] = parts {
            return of_outline::round_tube(part).or_else(|| joined(of_outline::plates(part)?));
        }
        let plate = |(k, part): (usize, &Part)| {
            let Figure::Rectangle { breadth, height } = part.figure else { return None };
            let corners = of_outline::corners(&part.outline)?;
            let least = |of: fn(&Point) -> f64| corners.iter().map(of).fold(f64::INFINITY, f64::min);
            let name = names.get(k).map_or("wall", AsRef::as_ref).to_owned();
            Plate::of_rectangle(name, Point::new(least(|p| p.x), least(|p| p.y)), breadth, height)
        };
        joined(parts.iter().enumerate().map(plate).collect::<Option<Vec<_>>>()?)
    }
}

/// Where one end of a plate goes: to the middle line of the plate on which it stands, or to a corner.
#[derive(Clone, Copy, Default)]
struct Ends {
    low: Option<f64>,
    high: Option<f64>,
}

/// Plates joined where one stands on another.
fn joined(plates: Vec<Plate>) -> Option<ThinWalls> {
    let size = plates.iter().map(|plate| plate.high - plate.low).fold(0.0, f64::max);
    let near = TOUCHES * size;
    let mut ends = vec![Ends::default(); plates.len()];
    let mut breaks: Vec<Vec<f64>> = vec![Vec::new(); plates.len()];
    for (one, plate) in plates.iter().enumerate() {
        for (other, on) in plates.iter().enumerate() {
            for (end, is_high) in [(plate.low, false), (plate.high, true)] {
                if !plate.stands_on(end, on, near) {
                    continue;
                }
                if is_high {
                    ends[one].high = Some(on.at)
                } else {
                    ends[one].low = Some(on.at)
                }
                breaks[other].push(plate.at);
                // Flush with the other's end it makes a corner.
                let flush = 0.5 * plate.thickness + near;
                if (plate.at - on.low).abs() <= flush {
                    ends[other].low = Some(plate.at);
                } else if (on.high - plate.at).abs() <= flush {
                    ends[other].high = Some(plate.at);
                }
            }
        }
    }
    let mut joints: Vec<Point> = Vec::new();
    let mut joint = |point: Point| {
        let same = |there: &Point| (there.x - point.x).abs() <= near && (there.y - point.y).abs() <= near;
        joints.iter().position(same).unwrap_or_else(|| {
            joints.push(point);
            joints.len() - 1
        })
    };
    let mut walls = Vec::new();
    for ((plate, ends), mut along) in plates.iter().zip(ends).zip(breaks) {
        along.extend([ends.low.unwrap_or(plate.low), ends.high.unwrap_or(plate.high)]);
        along.sort_by(f64::total_cmp);
        along.dedup_by(|a, b| (*a - *b).abs() <= near);
        let stretches = along.len().saturating_sub(1);
        for (stretch, pair) in along.windows(2).enumerate() {
            let (from, to) = (joint(plate.point(pair[0])), joint(plate.point(pair[1])));
            walls.push(Wall::straight(plate.name_of(stretch, stretches), from, to, plate.thickness));
        }
    }
    ThinWalls::new(joints, walls).ok()
}
