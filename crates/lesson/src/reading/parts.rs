//! Placing parts: centred on the upright middle line unless something says otherwise.

use super::node::Table;
use crate::finding::Report;
use mechanics::section::{Edge, Loop, Part, Point, Section};

/// The box round some parts, m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Extent {
    pub(super) left: f64,
    pub(super) right: f64,
    pub(super) bottom: f64,
    pub(super) top: f64,
}

impl Extent {
    /// The box round one part; none where the part is unsound.
    pub(super) fn of(part: &Part) -> Option<Extent> {
        let section = Section::new(vec![part.clone()]).ok()?;
        let of = section.properties();
        Some(Extent { left: of.left, right: of.right, bottom: of.bottom, top: of.top })
    }

    /// The box round several parts; none where there is none or one is unsound.
    pub(super) fn of_all(parts: &[Part]) -> Option<Extent> {
        let mut all: Option<Extent> = None;
        for part in parts {
            let one = Extent::of(part)?;
            all = Some(all.map_or(one, |all| Extent {
                left: all.left.min(one.left),
                right: all.right.max(one.right),
                bottom: all.bottom.min(one.bottom),
                top: all.top.max(one.top),
            }));
        }
        all
    }
}

/// The lower left corner of something of this width and height, m, from `left`, `right`, `bottom` and `top`.
pub(super) fn corner(entry: &Table, width: f64, height: f64, report: &mut Report) -> Option<Point> {
    let mut sound = true;
    for (one, other) in [("left", "right"), ("bottom", "top"), ("on", "bottom"), ("on", "top")] {
        if entry.has(one) && entry.has(other) {
            let headline = format!("`{one}` and `{other}` cannot both be given");
            report
                .add(entry.place(other), headline)
                .mend("its size is known: keep one of the two")
                .by_itself();
            sound = false;
        }
    }
    // A value that was refused has been told; the place is then not known.
    let mut of = |word: &str| {
        let value = entry.value(word).map(|given| given.value);
        sound &= value.is_some() || !entry.has(word);
        value
    };
    let x = match (of("left"), of("right")) {
        (Some(left), _) => left,
        (_, Some(right)) => right - width,
        _ => -0.5 * width,
    };
    let y = match (of("bottom"), of("top")) {
        (Some(bottom), _) => bottom,
        (_, Some(top)) => top - height,
        _ => 0.0,
    };
    sound.then_some(Point { x, y })
}

/// A part moved by so much, m.
pub(super) fn moved(part: Part, right: f64, up: f64) -> Part {
    let point = |point: Point| Point { x: point.x + right, y: point.y + up };
    let edge = |edge: Edge| match edge {
        Edge::Line { to } => Edge::Line { to: point(to) },
        Edge::Arc { to, centre, counter_clockwise } => {
            Edge::Arc { to: point(to), centre: point(centre), counter_clockwise }
        }
    };
    let ring =
        |ring: Loop| Loop { start: point(ring.start), path: ring.path.into_iter().map(edge).collect() };
    Part { outline: ring(part.outline), holes: part.holes.into_iter().map(ring).collect(), ..part }
}
