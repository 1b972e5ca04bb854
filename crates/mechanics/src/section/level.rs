//! What a level line finds: the width, the chords of material, and the heights where the width jumps.

use super::flank::Flank;
use super::ring::Curve;
use super::{Edge, HeightSide, Loop, Part, Section};

/// A stretch of material on a level line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chord {
    /// The part that it lies in.
    pub part: usize,
    /// Its left end, m.
    pub from: f64,
    /// Its right end, m.
    pub to: f64,
}

/// A height at which the width is one thing below and another above.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WidthJump {
    /// The height, m.
    pub height: f64,
    /// Width just below, m; 0 at the lowest fibre.
    pub below: f64,
    /// Width just above, m; 0 at the highest fibre.
    pub above: f64,
    /// Width of the material that passes through the height, m: at a joint where two parts stand off each other it
    /// may be less than both.
    pub contact: f64,
}

/// The ranges between the flanks that reach a height, from left to right.
pub(crate) fn intervals_of<'f>(
    flanks: impl IntoIterator<Item = &'f Flank>,
    y: f64,
    side: HeightSide,
) -> Vec<(f64, f64)> {
    let mut crossings: Vec<f64> =
        flanks.into_iter().filter(|flank| flank.reaches(y, side)).map(|flank| flank.x_at(y)).collect();
    crossings.sort_unstable_by(f64::total_cmp);
    crossings.chunks_exact(2).map(|pair| (pair[0], pair[1])).collect()
}

/// What two sets of ranges, each from left to right, have in common.
pub(crate) fn shared(first: &[(f64, f64)], second: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let mut found = Vec::new();
    for a in first {
        for b in second {
            let (left, right) = (a.0.max(b.0), a.1.min(b.1));
            if right > left {
                found.push((left, right));
            }
        }
    }
    found.sort_unstable_by(|a, b| a.0.total_cmp(&b.0));
    found
}

/// Joins ranges that touch.
fn joined(mut ranges: Vec<(f64, f64)>, tolerance: f64) -> Vec<(f64, f64)> {
    ranges.sort_unstable_by(|a, b| a.0.total_cmp(&b.0));
    let mut out: Vec<(f64, f64)> = Vec::with_capacity(ranges.len());
    for (from, to) in ranges {
        match out.last_mut() {
            Some(last) if from - last.1 <= tolerance => last.1 = last.1.max(to),
            _ => out.push((from, to)),
        }
    }
    out
}

/// The heights of the corners of a part.
fn given_heights(part: &Part) -> Vec<f64> {
    let of_loop = |outline: &Loop| {
        let ends = outline.path.iter().map(|edge| match edge {
            Edge::Line { to } | Edge::Arc { to, .. } => to.y,
        });
        core::iter::once(outline.start.y).chain(ends).collect::<Vec<_>>()
    };
    core::iter::once(&part.outline).chain(&part.holes).flat_map(of_loop).collect()
}

impl Section {
    /// The heights of all corners and of the tops and bottoms of arcs, rising, m; as given, to the last bit, where a
    /// corner was given there.
    pub fn levels(&self) -> impl Iterator<Item = f64> + '_ {
        let mut given: Vec<f64> = self.parts.iter().flat_map(given_heights).collect();
        given.sort_unstable_by(f64::total_cmp);
        let outer = move |level: &f64| {
            let height = level + self.origin.y;
            let above = given.partition_point(|other| *other < height - self.tolerance);
            given.get(above).copied().filter(|other| *other - height <= self.tolerance).unwrap_or(height)
        };
        self.levels.iter().map(outer)
    }

    /// A height in local coordinates, on a level where it is as good as one.
    pub(super) fn local_height(&self, height: f64) -> f64 {
        let y = height - self.origin.y;
        let above = self.levels.partition_point(|level| *level < y);
        let near = |index: usize| {
            self.levels.get(index).copied().filter(|level| (level - y).abs() <= self.tolerance)
        };
        near(above).or_else(|| near(above.wrapping_sub(1))).unwrap_or(y)
    }

    /// Width `t` of the material at a height, seen from one side, m: the sum over all that a level cut runs through.
    /// Zero off the section.
    pub fn width(&self, height: f64, side: HeightSide) -> f64 {
        self.local_width(self.local_height(height), side)
    }

    pub(super) fn local_width(&self, y: f64, side: HeightSide) -> f64 {
        let flanks = self.flanks.iter().filter(|flank| flank.reaches(y, side));
        let width: f64 = flanks.map(|flank| flank.sign * flank.x_at(y)).sum();
        // What remains of two flanks that meet in a point is rounding, not width.
        if width > 1e-3 * self.tolerance { width } else { 0.0 }
    }

    /// The stretches of material on a level line, seen from one side, from left to right.
    pub fn chords(&self, height: f64, side: HeightSide) -> Vec<Chord> {
        let y = self.local_height(height);
        let mut chords = Vec::new();
        for part in 0..self.parts.len() {
            let flanks = self.flanks.iter().filter(|flank| flank.part == part);
            for (from, to) in intervals_of(flanks, y, side) {
                chords.push(Chord { part, from: from + self.origin.x, to: to + self.origin.x });
            }
        }
        chords.sort_unstable_by(|a, b| a.from.total_cmp(&b.from));
        chords
    }

    /// The ranges of x over which material passes through a height: material just below and just above.
    pub fn contact_ranges(&self, height: f64) -> Vec<(f64, f64)> {
        let ranges = self.local_contact(self.local_height(height));
        ranges.into_iter().map(|(from, to)| (from + self.origin.x, to + self.origin.x)).collect()
    }

    fn local_contact(&self, y: f64) -> Vec<(f64, f64)> {
        let of_side = |side: HeightSide| {
            let mut all = Vec::new();
            for part in 0..self.parts.len() {
                all.extend(intervals_of(self.flanks.iter().filter(|flank| flank.part == part), y, side));
            }
            joined(all, self.tolerance)
        };
        let mut ranges = shared(&of_side(HeightSide::Below), &of_side(HeightSide::Above));
        ranges.retain(|(from, to)| to - from > self.tolerance);
        ranges
    }

    /// Total width of the material that passes through a height, m.
    pub fn contact_width(&self, height: f64) -> f64 {
        self.local_contact_width(self.local_height(height))
    }

    pub(super) fn local_contact_width(&self, y: f64) -> f64 {
        if !self.has_level_side_at(y) {
            return self.local_width(y, HeightSide::Below).min(self.local_width(y, HeightSide::Above));
        }
        self.local_contact(y).iter().map(|(from, to)| to - from).sum()
    }

    /// Only at a level side can the material below and above differ by more than a point.
    fn has_level_side_at(&self, y: f64) -> bool {
        let level = |height: f64| (height - y).abs() <= self.tolerance;
        self.rings.iter().flat_map(|ring| &ring.stretches).any(|stretch| {
            matches!(stretch.curve, Curve::Straight) && level(stretch.from.y) && level(stretch.to.y)
        })
    }

    /// The heights where the width jumps, rising; the lowest and highest fibres among them where the section is cut
    /// off level there.
    pub fn width_jumps(&self) -> Vec<WidthJump> {
        let mut jumps = Vec::new();
        for (&level, height) in self.levels.iter().zip(self.levels()) {
            let below = self.local_width(level, HeightSide::Below);
            let above = self.local_width(level, HeightSide::Above);
            let contact = self.local_contact_width(level);
            if (below - above).abs() > self.tolerance || contact < below.min(above) - self.tolerance {
                jumps.push(WidthJump { height, below, above, contact });
            }
        }
        jumps
    }

    /// Where web and flange meet, rising: the inner jumps of the width, and the heights at which a fillet, or any other arc, begins to
    /// widen the section; there the width is the same below and above.
    pub fn junctions(&self) -> Vec<WidthJump> {
        let mut all: Vec<WidthJump> =
            self.width_jumps().into_iter().filter(|jump| jump.below > 0.0 && jump.above > 0.0).collect();
        let loops = self.parts.iter().flat_map(|part| core::iter::once(&part.outline).chain(&part.holes));
        for (at, towards) in loops.flat_map(arc_ends) {
            let [below, above] = [HeightSide::Below, HeightSide::Above].map(|side| self.width(at, side));
            let widens = self.width(0.5 * (at + towards), HeightSide::Above) > below + self.tolerance;
            let known = all.iter().any(|jump| (jump.height - at).abs() <= self.tolerance);
            if below > 0.0 && (below - above).abs() <= self.tolerance && widens && !known {
                all.push(WidthJump { height: at, below, above: below, contact: below });
            }
        }
        all.sort_unstable_by(|a, b| a.height.total_cmp(&b.height));
        all
    }
}

/// The heights of both ends of each arc of a loop, each with that of the other end. Where another arc goes on about the same centre, as round
/// a hole, none ends.
fn arc_ends(outline: &Loop) -> Vec<(f64, f64)> {
    let centre = |edge: usize| match outline.path[edge % outline.path.len()] {
        Edge::Arc { centre, .. } => Some(centre),
        Edge::Line { .. } => None,
    };
    let mut ends = Vec::new();
    let mut at = outline.start;
    for (edge, &(Edge::Line { to } | Edge::Arc { to, .. })) in outline.path.iter().enumerate() {
        let own = centre(edge);
        if own.is_some() && centre(edge + outline.path.len() - 1) != own {
            ends.push((at.y, to.y));
        }
        if own.is_some() && centre(edge + 1) != own {
            ends.push((to.y, at.y));
        }
        at = to;
    }
    ends
}
