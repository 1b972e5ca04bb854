//! The names of the parts in the drawing of the section: each within its part where there is room, else beside it, and never
//! within another part, whose name it would seem.

use crate::cross_section::{self, Frame, part_loops};
use crate::drawing::Mark;
use crate::geometry::{Point as Spot, Rect, is_inside};
use crate::label::{Escape, Seat, Wish};
use crate::palette::Ink;
use crate::scene::Scene;
use crate::text::{Align, Label};

/// Between a part and its name beside it, px.
const GAP: f64 = 4.0;
/// Between a name outside the section and the first dimension line, px.
const BEYOND: f64 = 8.0;

/// Where the names stand.
#[derive(Debug, Default)]
pub(crate) struct Names {
    /// Those within their parts.
    pub marks: Vec<Mark>,
    /// Those beside their parts.
    pub beside: Vec<Wish>,
    /// The room that names outside the section need on its left, px.
    pub left: f64,
    /// And on its right.
    pub right: f64,
}

/// The names of the parts, where there are several, off the boxes in `taken`, the cut and the neutral axis.
pub(crate) fn names(scene: &Scene, frame: &Frame, taken: &[Rect]) -> Names {
    let mut names = Names::default();
    let parts = scene.section.parts();
    if parts.len() < 2 {
        return names;
    }
    let size = scene.sheet.small;
    let outlines: Vec<Vec<Vec<Spot>>> = (0..parts.len()).map(|part| part_loops(scene, frame, part)).collect();
    for (place, (name, outline)) in scene.problem.part_names.iter().zip(&outlines).enumerate() {
        let Some(properties) = scene.section.part_properties(place) else { continue };
        let label = Label::words(name.clone());
        let middle = frame.at(properties.centroid);
        let room = Rect::around(&outline.concat()).grown(-3.0);
        if let Some(rect) = within(scene, frame, &label, (middle, outline), room, taken) {
            let hatched = scene.is_above() == (rect.middle().y < frame.y(scene.cut));
            let ground = if hatched { Ink::Beyond } else { Ink::Material };
            names.marks.extend(cross_section::name_within(label, rect, size, ground));
            continue;
        }
        // Off the neutral axis.
        let level = middle.y + 0.2 * room.height();
        let on_the_right = properties.centroid.x > scene.values.centroid_across;
        let (right, left) = (Spot::new(room.right + 3.0, level), Spot::new(room.left - 3.0, level));
        let side = |to_the_right: bool| if to_the_right { (right, Seat::Right) } else { (left, Seat::Left) };
        // Towards the middle of the section: outside it stand the dimensions.
        let (at, seat) = side(!on_the_right);
        let (base, align) = seat.place(at, GAP, size);
        let inward = label.rect(base, align, size);
        // On a phone there is no room for names outside.
        let is_in_another = !scene.sheet.is_narrow()
            && outlines.iter().enumerate().any(|(other, rings)| {
                other != place && corners(inward).iter().any(|&corner| is_inside(rings, corner))
            });
        let seats: &[Seat] = if is_in_another {
            let reach = GAP + label.width(size) + BEYOND;
            if on_the_right {
                names.right = names.right.max(right.x + reach - frame.right());
            } else {
                names.left = names.left.max(frame.corner.x - left.x + reach);
            }
            if on_the_right { &[Seat::Right] } else { &[Seat::Left] }
        } else if on_the_right {
            &[Seat::Left, Seat::Right, Seat::Above, Seat::Below]
        } else {
            &[Seat::Right, Seat::Left, Seat::Above, Seat::Below]
        };
        let at = side(on_the_right == is_in_another).0;
        names.beside.push(Wish::new(label, at).seats(seats, Escape::Any).gap(GAP).size(size));
    }
    names
}

/// The box of a name within its part: off its middle, where its centroid may be marked.
fn within(
    scene: &Scene,
    frame: &Frame,
    label: &Label,
    (middle, outline): (Spot, &[Vec<Spot>]),
    room: Rect,
    taken: &[Rect],
) -> Option<Rect> {
    let beside = 0.5 * label.width(scene.sheet.small) + 12.0;
    let quarter = 0.25 * room.height();
    let places = [
        (0.0, -14.0),
        (0.0, 22.0),
        (0.0, 4.0),
        (-beside, 4.0),
        (beside, 4.0),
        (0.0, 4.0 + quarter),
        (0.0, 4.0 - quarter),
    ];
    // Beside a hole in the middle of the part there is room in its corners.
    let (half, line) = (0.5 * label.width(scene.sheet.small) + 4.0, 6.0);
    let in_corners = [room.top + line + scene.sheet.small, room.bottom - line]
        .into_iter()
        .flat_map(|y| [room.left + half, room.right - half].map(|x| Spot::new(x, y)));
    let around_middle = places.into_iter().map(|(aside, drop)| middle.moved(aside, drop));
    let has_holes = outline.len() > 1;
    around_middle
        .chain(in_corners.filter(|_| has_holes))
        .map(|at| label.rect(at, Align::Middle, scene.sheet.small))
        .find(|rect| {
            let clear = rect.grown(2.0);
            room.holds(clear)
                && (!has_holes || is_off_holes(outline, clear))
                && !taken.iter().any(|other| other.overlaps(clear))
                && ![scene.values.neutral_axis, scene.cut]
                    .iter()
                    .any(|&h| clear.top < frame.y(h) && frame.y(h) < clear.bottom)
                && (frame.y(scene.cut) + 14.0 - clear.middle().y).abs() > 9.0
        })
}

/// Whether a box lies on the material all round its edge and in its middle, and no ring runs within it.
fn is_off_holes(outline: &[Vec<Spot>], of: Rect) -> bool {
    let middle = of.middle();
    let between = [Spot::new(middle.x, of.top), Spot::new(middle.x, of.bottom)];
    corners(of).iter().chain(&between).all(|&at| is_inside(outline, at))
        && !outline
            .iter()
            .flatten()
            .any(|point| (of.left..of.right).contains(&point.x) && (of.top..of.bottom).contains(&point.y))
}

/// The corners of a box and its middle.
fn corners(rect: Rect) -> [Spot; 5] {
    [
        Spot::new(rect.left, rect.top),
        Spot::new(rect.right, rect.top),
        Spot::new(rect.left, rect.bottom),
        Spot::new(rect.right, rect.bottom),
        rect.middle(),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use workings::solved::Solved;

    /// A name in another part would be taken for that part's.
    #[test]
    fn no_name_stands_within_another_part() {
        for builtin in lesson::builtin::ALL {
            let lesson = lesson::read(builtin.text, builtin.name).lesson.expect("a built-in lesson is sound");
            let solved = Solved::new(lesson.problem, lesson.style).expect("a built-in lesson can be solved");
            let scene = Scene::of(&solved).expect("its section can be drawn");
            let frame = Frame::fitting(scene.extent, (260.0, 260.0), Spot::new(0.0, 0.0));
            let parts = 0..scene.section.parts().len();
            let outlines: Vec<_> = parts.map(|part| part_loops(&scene, &frame, part)).collect();
            for wish in names(&scene, &frame, &[]).beside {
                let rect = wish.rects().next().expect("a place");
                let own = scene.problem.part_names.iter().position(|name| *name == wish.label.plain());
                for (part, rings) in outlines.iter().enumerate().filter(|(part, _)| Some(*part) != own) {
                    let inside = corners(rect).iter().any(|&corner| is_inside(rings, corner));
                    assert!(!inside, "{}: {} in part {part}", builtin.name, wish.label.plain());
                }
            }
        }
    }
}
