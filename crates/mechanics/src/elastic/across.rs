//! The elastic stresses along a level cut, beside what `V Q / (I t)` says there.

use super::element::{Shapes, Shares};
use super::field::ElasticField;
use super::{ShearForce, length};
use crate::gauss;
use crate::section::{Chord, HeightSide, Point, Section};
use crate::stress::{SkewBending, StressOverDepth};

/// A cut at a level where the width jumps is taken this part of the size of the section above or below it: on the level itself
/// the stress has two values, or none.
const BESIDE: f64 = 1e-6;

/// A force to the right that is no more than this part of the upward one is what rounding leaves.
const NO_FORCE: f64 = 1e-9;

/// Looks taken at the stress within each triangle that the cut runs through.
const LOOKS: usize = 8;

/// A value at a place of the cut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AtPlace {
    /// Place along the cut, in the coordinates of the outlines, m.
    pub x: f64,
    /// The value, Pa.
    pub value: f64,
}

/// The shear stress along a level cut: what the formula says, and what is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Across {
    /// `V Q / (I t)` under the upward part of the force, Pa: bending about the level axis alone.
    pub formula: f64,
    /// The mean over the width that the balance of the piece beyond the cut asks, Pa: by the full formula, with the product moment.
    /// It is `formula` where the beam bends about the level axis alone.
    pub balanced: f64,
    /// Mean of the upward stress over the width, Pa. It must come out as `balanced`.
    pub mean: f64,
    /// The upward stress of the largest size, with its sign.
    pub largest_up: AtPlace,
    /// The largest resultant. What lies in what is left out round a sharp corner does not count.
    pub largest: AtPlace,
}

impl Across {
    /// The largest upward stress over the mean that the balance asks; none where that is nothing.
    pub fn ratio(&self) -> Option<f64> {
        (self.balanced != 0.0).then(|| self.largest_up.value / self.balanced)
    }

    /// The mean that the balance asks over what the formula gives: 1 where the beam bends about the level axis alone; none where
    /// the formula gives nothing.
    pub fn balanced_over_formula(&self) -> Option<f64> {
        (self.formula != 0.0).then(|| self.balanced / self.formula)
    }
}

impl ElasticField<'_> {
    /// The stresses along the level cut at a height in the coordinates of the outlines, seen from one side; none where
    /// the cut misses the section or lies wholly in what is left out round sharp corners.
    pub fn across(&self, height: f64, side: HeightSide) -> Option<Across> {
        self.across_where(height, side, |_| true)
    }

    /// The same in some parts alone, those of one material: `formula` and `balanced` are then what these take where all materials of
    /// the cut are sheared alike. None where the cut meets none of them.
    ///
    /// ```text
    /// tau = q g / Σ g b        q = V Q / I, with the shear moduli g and the widths b of all that the cut runs through
    /// ```
    ///
    /// # Source
    /// Equal shear strain of what lies side by side, as in any textbook of bars that share a force; common practice, and an
    /// approximation: the true strain changes across the width.
    pub fn across_in(&self, height: f64, side: HeightSide, parts: &[usize]) -> Option<Across> {
        self.across_where(height, side, |part| parts.contains(&part))
    }

    fn across_where(&self, height: f64, side: HeightSide, wanted: impl Fn(usize) -> bool) -> Option<Across> {
        let section = self.elastic.section();
        let jumps = section.levels().any(|level| (level - height).abs() <= section.tolerance());
        let beside = if jumps { BESIDE * self.elastic.size } else { 0.0 };
        let y = match side {
            HeightSide::Below => height - beside,
            HeightSide::Above => height + beside,
        };
        let mut shapes = Shapes::default();
        let (mut sum, mut width) = (0.0, 0.0);
        let mut largest_up: Option<AtPlace> = None;
        let mut largest: Option<AtPlace> = None;
        let chords = section.chords(y, side);
        for chord in chords.iter().filter(|chord| wanted(chord.part)) {
            let marks = self.marks(y, chord.from, chord.to);
            for pair in marks.windows(2) {
                let (from, to) = (pair[0], pair[1]);
                let Some(triangle) = self.triangle_between(chord.part, from, to, y) else { continue };
                let mut at = |x: f64| {
                    let shares = self.shares_in(triangle, Point::new(x, y), &mut shapes)?;
                    Some(self.stress(triangle, shares, &mut shapes))
                };
                let half = 0.5 * (to - from);
                for &(place, weight) in &gauss::rule(self.elastic.solved.basis.order + 1) {
                    if let Some(stress) = at(from + half * (1.0 + place)) {
                        sum += half * weight * stress[1];
                        width += half * weight;
                    }
                }
                for look in 0..=LOOKS {
                    let x = from + (to - from) * look as f64 / LOOKS as f64;
                    if self.elastic.is_left_out(Point::new(x, y)) {
                        continue;
                    }
                    let Some(stress) = at(x) else { continue };
                    if largest_up.is_none_or(|most| stress[1].abs() > most.value.abs()) {
                        largest_up = Some(AtPlace { x, value: stress[1] });
                    }
                    if largest.is_none_or(|most| length(stress) > most.value) {
                        largest = Some(AtPlace { x, value: length(stress) });
                    }
                }
            }
        }
        let (force, _) = self.resultant();
        let formula = StressOverDepth::new(section, 0.0, force.up).shear_stress(height, side);
        let force = ShearForce { right: force.right, up: force.up };
        let balanced = balanced(section, force, height, side).unwrap_or(formula);
        let on_axis = |place: AtPlace| AtPlace { x: self.elastic.on_axis(Point::new(place.x, y)).x, ..place };
        let (largest_up, largest) = (on_axis(largest_up?), on_axis(largest?));
        let share = self.share_of(&chords, &wanted);
        let (formula, balanced) = (share * formula, share * balanced);
        // Beyond the outermost fibre there is nothing to push back: no stress acts upward there, and what the elements
        // give is their own error.
        let properties = section.properties();
        let is_outermost =
            [properties.bottom, properties.top].iter().any(|end| (end - height).abs() <= section.tolerance());
        let (mean, up) = if is_outermost { (0.0, 0.0) } else { (sum / width, largest_up.value) };
        Some(Across { formula, balanced, mean, largest_up: AtPlace { value: up, ..largest_up }, largest })
    }

    /// What parts of a cut bear, over the mean over the whole width, where all are sheared alike.
    fn share_of(&self, chords: &[Chord], wanted: impl Fn(usize) -> bool) -> f64 {
        let shear_ratios = &self.elastic.elasticity.shear_ratios;
        if chords.iter().all(|chord| wanted(chord.part)) {
            return 1.0;
        }
        let sums = |counted: &dyn Fn(usize) -> bool| {
            chords.iter().filter(|chord| counted(chord.part)).fold((0.0, 0.0), |(width, stiff), chord| {
                let own = chord.to - chord.from;
                (width + own, stiff + shear_ratios[chord.part] * own)
            })
        };
        let ((whole, all), (own, of_them)) = (sums(&|_| true), sums(&wanted));
        of_them / own * whole / all
    }

    /// The places on a chord where the cut passes from one triangle to the next, rising, with the chord's ends.
    fn marks(&self, y: f64, from: f64, to: f64) -> Vec<f64> {
        let elastic = self.elastic;
        let level = elastic.inner(Point::new(0.0, y)).y;
        let mut marks = vec![from, to];
        for shape in &elastic.solved.shapes {
            for k in 0..3 {
                let (a, b) = (shape.corners[k], shape.corners[(k + 1) % 3]);
                if (a.y > level) != (b.y > level) {
                    let x = a.x + (b.x - a.x) * (level - a.y) / (b.y - a.y);
                    let x = elastic.outer(Point::new(x, level)).x;
                    if x > from && x < to {
                        marks.push(x);
                    }
                }
            }
        }
        marks.sort_unstable_by(f64::total_cmp);
        // A side that two triangles share is found twice, and differs in the last bits.
        let same = 1e-9 * elastic.size;
        marks.dedup_by(|a, b| (*a - *b).abs() <= same);
        if let Some(last) = marks.last_mut() {
            *last = to;
        }
        marks
    }

    fn triangle_between(&self, part: usize, from: f64, to: f64, y: f64) -> Option<usize> {
        let found = self.elastic.triangles_at(Point::new(0.5 * (from + to), y));
        found.iter().map(|one| one.0).find(|&triangle| self.elastic.solved.parts[triangle] == part)
    }

    fn shares_in(&self, triangle: usize, point: Point, shapes: &mut Shapes) -> Option<Shares> {
        let solved = &self.elastic.solved;
        solved.shapes[triangle].shares_of(&solved.basis, self.elastic.inner(point), shapes)
    }
}

/// The mean upward stress that the balance of the piece above a cut asks, Pa; none where it is the formula's.
fn balanced(section: &Section, force: ShearForce, height: f64, side: HeightSide) -> Option<f64> {
    let properties = section.properties();
    if !properties.bends_askew() && force.right.abs() <= NO_FORCE * force.up.abs() {
        return None;
    }
    let cut = section.level_cut(height, HeightSide::Above).ok()?;
    let width = match side {
        HeightSide::Below => cut.width_below,
        HeightSide::Above => cut.width_above,
    };
    let flow = SkewBending::flow_on_cut(section, [force.up, force.right], height).ok()?;
    Some(if width > 1e-3 * section.tolerance() { flow / width } else { 0.0 })
}
