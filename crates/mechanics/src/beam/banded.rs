//! Linear equations whose coefficients lie near the diagonal.

use super::twofold::Twofold;

/// An unknown of the equations (if any) plus a number.
#[derive(Clone, Copy, Debug)]
pub(super) struct Term {
    pub(super) column: Option<usize>,
    pub(super) constant: f64,
}

impl From<f64> for Term {
    fn from(constant: f64) -> Self {
        Self { column: None, constant }
    }
}

/// Equations under construction: row by row, each with its coefficients and its right-hand side.
pub(super) struct Equations {
    unknowns: usize,
    /// Column and value, row after row.
    entries: Vec<(u32, f64)>,
    /// Where each row's entries end.
    ends: Vec<u32>,
    right: Vec<f64>,
    /// Sum of the constants of the row that is being written.
    constant: f64,
}

impl Equations {
    pub(super) fn with_unknowns(unknowns: usize) -> Self {
        Self {
            unknowns,
            entries: Vec::with_capacity(7 * unknowns),
            ends: Vec::with_capacity(unknowns),
            right: Vec::with_capacity(unknowns),
            constant: 0.0,
        }
    }

    /// Adds to the left side of the row that is being written; its right side is 0.
    pub(super) fn add_constant(&mut self, constant: f64) {
        self.constant += constant;
    }

    /// Adds `coefficient` times `term` to the left side of the row that is being written.
    pub(super) fn add(&mut self, coefficient: f64, term: Term) {
        self.constant += coefficient * term.constant;
        let Some(column) = term.column else { return };
        let begin = self.ends.last().map_or(0, |&end| end as usize);
        match self.entries[begin..].iter_mut().find(|(at, _)| *at as usize == column) {
            Some((_, value)) => *value += coefficient,
            None => self.entries.push((column as u32, coefficient)),
        }
    }

    /// Ends the row, and scales it by a power of two (which costs no digit) so that its largest coefficient is
    /// about 1: rows of flexibility and rows of equilibrium differ by many orders of ten.
    pub(super) fn end_row(&mut self) {
        let begin = self.ends.last().map_or(0, |&end| end as usize);
        let row = &mut self.entries[begin..];
        let largest = row.iter().fold(0.0, |largest: f64, (_, value)| largest.max(value.abs()));
        let scale = power_of_two_below_inverse(largest);
        for (_, value) in row {
            *value *= scale;
        }
        self.right.push(-self.constant * scale);
        self.constant = 0.0;
        self.ends.push(self.entries.len() as u32);
    }

    fn row(&self, row: usize) -> &[(u32, f64)] {
        let begin = if row == 0 { 0 } else { self.ends[row - 1] as usize };
        &self.entries[begin..self.ends[row] as usize]
    }

    /// Solves the equations; there must be as many rows as unknowns.
    ///
    /// Elimination with row exchanges, then twice a correction by the residual taken in doubled precision. That
    /// makes each row hold to the last digits of its own terms, so that the rows of equilibrium of a determinate
    /// beam give reactions as good as statics by hand, whatever its flexibility.
    pub(super) fn solve(&self) -> Vec<f64> {
        let factors = Factors::of(self);
        let mut solution = self.right.clone();
        factors.solve(&mut solution);
        let mut correction = vec![0.0; self.unknowns];
        for _ in 0..2 {
            for (row, residual) in correction.iter_mut().enumerate() {
                let mut sum = Twofold::from(self.right[row]);
                for &(column, value) in self.row(row) {
                    sum = sum.minus(Twofold::product(value, solution[column as usize]));
                }
                *residual = sum.value();
            }
            factors.solve(&mut correction);
            for (value, change) in solution.iter_mut().zip(&correction) {
                *value += change;
            }
        }
        solution
    }
}

/// A band matrix split into a product of two triangular ones.
///
/// Row `k` of the upper one holds the columns `k .. k + width`. A row below takes part in the elimination only
/// while its first column is the one being eliminated, so all rows in play are aligned and each step moves them
/// one column to the left.
struct Factors {
    width: usize,
    below: usize,
    upper: Vec<f64>,
    multipliers: Vec<f64>,
    exchanges: Vec<u32>,
}

impl Factors {
    fn of(equations: &Equations) -> Self {
        let size = equations.unknowns;
        let (mut below, mut above) = (0, 0);
        for row in 0..size {
            for &(column, _) in equations.row(row) {
                below = below.max(row.saturating_sub(column as usize));
                above = above.max((column as usize).saturating_sub(row));
            }
        }
        let width = below + above + 1;
        let mut upper = vec![0.0; size * width];
        for row in 0..size {
            let first = row.saturating_sub(below);
            for &(column, value) in equations.row(row) {
                upper[row * width + column as usize - first] = value;
            }
        }
        let mut factors =
            Self { width, below, upper, multipliers: vec![0.0; size * below], exchanges: vec![0; size] };
        factors.eliminate(size);
        factors
    }

    fn eliminate(&mut self, size: usize) {
        let width = self.width;
        for step in 0..size {
            let last = (step + self.below).min(size - 1);
            let mut pivot = step;
            for row in step + 1..=last {
                if self.upper[row * width].abs() > self.upper[pivot * width].abs() {
                    pivot = row;
                }
            }
            self.exchanges[step] = pivot as u32;
            let (head, tail) = self.upper.split_at_mut((step + 1) * width);
            let pivot_row = &mut head[step * width..];
            if pivot != step {
                pivot_row.swap_with_slice(&mut tail[(pivot - step - 1) * width..][..width]);
            }
            for (index, row) in tail.chunks_exact_mut(width).take(last - step).enumerate() {
                let multiplier = row[0] / pivot_row[0];
                self.multipliers[step * self.below + index] = multiplier;
                for column in 1..width {
                    row[column - 1] = row[column] - multiplier * pivot_row[column];
                }
                row[width - 1] = 0.0;
            }
        }
    }

    fn solve(&self, right: &mut [f64]) {
        let size = right.len();
        for step in 0..size {
            right.swap(step, self.exchanges[step] as usize);
            for row in step + 1..=(step + self.below).min(size - 1) {
                right[row] -= self.multipliers[step * self.below + row - step - 1] * right[step];
            }
        }
        for step in (0..size).rev() {
            let row = &self.upper[step * self.width..][..self.width];
            let known = row[1..].iter().zip(&right[step + 1..]).map(|(a, x)| a * x);
            right[step] = (right[step] - known.sum::<f64>()) / row[0];
        }
    }
}

/// A power of two near `1 / value`; 1 for values without one.
fn power_of_two_below_inverse(value: f64) -> f64 {
    const EXPONENT: u64 = 0x7ff0_0000_0000_0000;
    const ONE: u64 = 1023 << 52;
    let exponent = value.to_bits() & EXPONENT;
    // Twice the bias, less the exponent: what is left is again a normal number, or `value` was extreme.
    match (2 * ONE).checked_sub(exponent) {
        Some(bits) if exponent > 0 && bits > 0 && bits < EXPONENT => f64::from_bits(bits),
        _ => 1.0,
    }
}
