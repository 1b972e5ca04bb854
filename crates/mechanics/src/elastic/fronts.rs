//! Direct solution of the equations of a mesh by nested dissection with dense fronts.
//!
//! The triangles are halved again and again across the longer side of their box. From the smallest halves up, the
//! equations of two halves are added, the unknowns that no other triangle knows are eliminated, and what is left is
//! handed up. So each elimination is dense and small, and little fills in: of order `n^(3/2)` operations for `n`
//! unknowns in a plane, the least possible.
//!
//! # Source
//! A. George, Nested dissection of a regular finite element mesh (1973); I. Duff and J. Reid, The multifrontal solution of
//! indefinite sparse symmetric linear equations (1983). From memory.

use super::Fault;
use crate::section::Point;

/// A pivot smaller than this part of its own diagonal before elimination holds no digit.
const NO_PIVOT: f64 = 1e-13;

/// A symmetric matrix of equations over some unknowns.
#[derive(Clone, Debug, Default)]
pub(super) struct Dense {
    pub unknowns: Vec<usize>,
    /// In how many of the triangles that went in each unknown occurs.
    pub known: Vec<u32>,
    /// The lower triangle, row after row: row i holds i + 1 entries.
    pub entries: Vec<f64>,
}

/// Where row i of a lower triangle begins.
fn row(i: usize) -> usize {
    i * (i + 1) / 2
}

/// What was eliminated together: the first `pivots.len()` of `unknowns`, each with its pivot and its multipliers of all
/// unknowns after it.
#[derive(Clone, Debug)]
struct Step {
    unknowns: Vec<usize>,
    pivots: Vec<f64>,
    /// For each pivot the multipliers of the unknowns after it, one pivot after the other.
    multipliers: Vec<f64>,
}

/// The factors of the equations.
#[derive(Clone, Debug)]
pub(super) struct Factors {
    steps: Vec<Step>,
    /// The unknown whose value stays zero.
    held: usize,
}

struct Elimination<'e> {
    element: &'e dyn Fn(usize) -> Dense,
    middles: &'e [Point],
    /// In how many triangles each unknown occurs.
    total: Vec<u32>,
    /// Place of an unknown in the front that is being put together.
    place: Vec<usize>,
    steps: Vec<Step>,
}

impl Factors {
    /// Eliminates all unknowns but the last one, whose value is left at zero: the equations determine the others up
    /// to a common constant. `element` gives the equations of a triangle, `middles` where the triangles lie.
    pub(super) fn of(
        unknowns: usize,
        middles: &[Point],
        unknowns_of: &[Vec<usize>],
        element: &dyn Fn(usize) -> Dense,
    ) -> Result<Self, Fault> {
        let mut total = vec![0; unknowns];
        for &unknown in unknowns_of.iter().flatten() {
            total[unknown] += 1;
        }
        let mut work =
            Elimination { element, middles, total, place: vec![usize::MAX; unknowns], steps: Vec::new() };
        let mut order: Vec<usize> = (0..middles.len()).collect();
        if order.is_empty() {
            return Err(Fault::NotSolvable);
        }
        match work.eliminate(&mut order, true)?.unknowns[..] {
            [held] => Ok(Factors { steps: work.steps, held }),
            _ => Err(Fault::NotSolvable),
        }
    }

    /// Solves for one right side, in place.
    pub(super) fn solve(&self, values: &mut [f64]) {
        for step in &self.steps {
            let mut rest = &step.multipliers[..];
            for k in 0..step.pivots.len() {
                let (multipliers, after) = rest.split_at(step.unknowns.len() - k - 1);
                rest = after;
                let value = values[step.unknowns[k]];
                for (&unknown, multiplier) in step.unknowns[k + 1..].iter().zip(multipliers) {
                    values[unknown] -= multiplier * value;
                }
            }
        }
        values[self.held] = 0.0;
        for step in self.steps.iter().rev() {
            let mut rest = &step.multipliers[..];
            for (k, pivot) in step.pivots.iter().enumerate().rev() {
                let (before, multipliers) = rest.split_at(rest.len() - (step.unknowns.len() - k - 1));
                rest = before;
                let mut value = values[step.unknowns[k]] / pivot;
                for (&unknown, multiplier) in step.unknowns[k + 1..].iter().zip(multipliers) {
                    value -= multiplier * values[unknown];
                }
                values[step.unknowns[k]] = value;
            }
        }
    }
}

impl Elimination<'_> {
    /// Eliminates what lies within these triangles alone and gives the equations of the rest.
    fn eliminate(&mut self, triangles: &mut [usize], whole: bool) -> Result<Dense, Fault> {
        let front = if let [triangle] = *triangles {
            (self.element)(triangle)
        } else {
            let (first, last) = halves(triangles, self.middles);
            let first = self.eliminate(first, false)?;
            let last = self.eliminate(last, false)?;
            self.sum(first, last)
        };
        self.reduce(front, whole)
    }

    fn sum(&mut self, first: Dense, last: Dense) -> Dense {
        let Dense { mut unknowns, mut known, mut entries } = first;
        for (place, &unknown) in unknowns.iter().enumerate() {
            self.place[unknown] = place;
        }
        for (&unknown, &times) in last.unknowns.iter().zip(&last.known) {
            if self.place[unknown] == usize::MAX {
                self.place[unknown] = unknowns.len();
                unknowns.push(unknown);
                known.push(0);
            }
            known[self.place[unknown]] += times;
        }
        entries.resize(row(unknowns.len()), 0.0);
        let places: Vec<usize> = last.unknowns.iter().map(|&unknown| self.place[unknown]).collect();
        for (k, &i) in places.iter().enumerate() {
            for (value, &j) in last.entries[row(k)..row(k + 1)].iter().zip(&places) {
                entries[row(i.max(j)) + i.min(j)] += value;
            }
        }
        for &unknown in &unknowns {
            self.place[unknown] = usize::MAX;
        }
        Dense { unknowns, known, entries }
    }

    /// Eliminates the unknowns that no triangle outside the front knows; of the whole all but one.
    fn reduce(&mut self, front: Dense, whole: bool) -> Result<Dense, Fault> {
        let size = front.unknowns.len();
        let done = |i: usize| front.known[i] == self.total[front.unknowns[i]];
        let mut order: Vec<usize> = (0..size).filter(|&i| done(i)).collect();
        let kept: Vec<usize> = (0..size).filter(|&i| !done(i)).collect();
        let mut count = order.len();
        if whole {
            count = count.saturating_sub(1);
        }
        if count == 0 {
            return Ok(front);
        }
        order.extend(&kept);
        let unknowns: Vec<usize> = order.iter().map(|&i| front.unknowns[i]).collect();
        let mut entries = Vec::with_capacity(row(size));
        for (i, &a) in order.iter().enumerate() {
            entries.extend(order[..=i].iter().map(|&b| front.entries[row(a.max(b)) + a.min(b)]));
        }
        let before: Vec<f64> = (0..count).map(|k| entries[row(k) + k]).collect();
        let mut pivots = Vec::with_capacity(count);
        let mut multipliers = Vec::with_capacity(count * size - row(count));
        let mut column = vec![0.0; size];
        for (k, before) in before.iter().enumerate() {
            let pivot = entries[row(k) + k];
            if pivot.is_nan() || pivot <= NO_PIVOT * before {
                return Err(Fault::NotSolvable);
            }
            for (i, entry) in column.iter_mut().enumerate().skip(k + 1) {
                *entry = entries[row(i) + k];
            }
            for i in k + 1..size {
                let multiplier = column[i] / pivot;
                multipliers.push(multiplier);
                let eliminated = &mut entries[row(i) + k + 1..row(i + 1)];
                for (entry, other) in eliminated.iter_mut().zip(&column[k + 1..]) {
                    *entry -= multiplier * other;
                }
            }
            pivots.push(pivot);
        }
        let mut rest = Vec::with_capacity(row(size - count));
        for i in count..size {
            rest.extend_from_slice(&entries[row(i) + count..row(i + 1)]);
        }
        let handed_up = Dense {
            unknowns: unknowns[count..].to_vec(),
            known: order[count..].iter().map(|&i| front.known[i]).collect(),
            entries: rest,
        };
        self.steps.push(Step { unknowns, pivots, multipliers });
        Ok(handed_up)
    }
}

/// Two halves of some triangles, parted across the longer side of the box round their middles.
fn halves<'t>(triangles: &'t mut [usize], middles: &[Point]) -> (&'t mut [usize], &'t mut [usize]) {
    let mut low = Point::new(f64::INFINITY, f64::INFINITY);
    let mut high = Point::new(f64::NEG_INFINITY, f64::NEG_INFINITY);
    for &triangle in &*triangles {
        let middle = middles[triangle];
        low = Point::new(low.x.min(middle.x), low.y.min(middle.y));
        high = Point::new(high.x.max(middle.x), high.y.max(middle.y));
    }
    let level = high.x - low.x > high.y - low.y;
    let key = |triangle: usize| if level { middles[triangle].x } else { middles[triangle].y };
    let half = triangles.len() / 2;
    // By the number too, so that equal places leave nothing to chance.
    triangles.sort_unstable_by(|&a, &b| key(a).total_cmp(&key(b)).then(a.cmp(&b)));
    triangles.split_at_mut(half)
}
