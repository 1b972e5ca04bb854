//! The grips of the section: the height of the cut, the sides of rectangular parts.

use crate::cross_section::Frame;
use crate::geometry::Point;
use crate::grip::{Axis, Grip, PartSide, Snap, Subject};
use crate::outline::{Region, extent};
use crate::scene::Scene;
use mechanics::section::Figure;

/// The cut keeps off the lowest and the highest fibre by this share of the depth: beyond these nothing is left, and
/// a section may end there in a point, without a width.
const OFF: f64 = 1e-3;
/// Heights nearer than this share of the depth are one.
const SAME: f64 = 1e-6;
/// A side may be drawn out to so many times what it is, and shrink to such a share of it; common practice, no source.
const SIDES: (f64, f64) = (0.1, 3.0);

/// The grip of the height of the cut, on its trace at `x` px.
pub(crate) fn cut(scene: &Scene, frame: &Frame, x: f64) -> Grip {
    let depth = scene.extent.height();
    let range = (scene.extent.bottom + OFF * depth, scene.extent.top - OFF * depth);
    let at = Point::new(x, frame.y(scene.cut));
    Grip::new(Subject::Cut, at, Axis::Up, scene.cut, 1.0 / frame.scale, range)
        .snapping(heights(scene), SAME * depth)
}

/// Joints, other lines between parts, jumps of the width, the neutral axis: where a cut is worth taking.
fn heights(scene: &Scene) -> Vec<Snap> {
    let level = || scene.section.contacts().iter().filter(|contact| contact.is_level());
    let mut snaps = Vec::new();
    for contact in level() {
        let joint =
            scene.problem.joints.iter().find(|joint| {
                joint.beyond.contains(&contact.first) != joint.beyond.contains(&contact.second)
            });
        snaps.extend(joint.map(|joint| Snap { value: contact.start.y, name: joint.name.clone() }));
    }
    for contact in level() {
        let name = |part: usize| scene.problem.part_names.get(part).map_or("part", String::as_str);
        let name = format!("between {} and {}", name(contact.first), name(contact.second));
        snaps.push(Snap { value: contact.start.y, name });
    }
    for jump in scene.section.width_jumps() {
        let name = if jump.above < jump.below { "narrower above" } else { "wider above" };
        snaps.push(Snap { value: jump.height, name: name.to_owned() });
    }
    snaps.push(Snap { value: scene.values.neutral_axis, name: "neutral axis".to_owned() });
    snaps
}

/// The grips of the sides of the parts that are rectangles: the width at the middle of the right side, the height at
/// the middle of the upper side, the opposite side standing still.
pub(crate) fn part_sizes(scene: &Scene, frame: &Frame) -> Vec<Grip> {
    let mut grips = Vec::new();
    for (number, part) in scene.section.parts().iter().enumerate() {
        let Figure::Rectangle { breadth, height } = part.figure else { continue };
        let Some(around) = extent(&[Region::of(part, f64::INFINITY)]) else { continue };
        let (across, up) = (0.5 * (around.left + around.right), 0.5 * (around.bottom + around.top));
        let mut grip = |which, at, axis, value: f64| {
            let subject = Subject::PartSize { part: number, which };
            let range = (SIDES.0 * value, SIDES.1 * value);
            grips.push(Grip::new(subject, at, axis, value, 1.0 / frame.scale, range));
        };
        grip(PartSide::Width, Point::new(frame.x(around.right), frame.y(up)), Axis::Along, breadth);
        grip(PartSide::Height, Point::new(frame.x(across), frame.y(around.top)), Axis::Up, height);
    }
    grips
}
