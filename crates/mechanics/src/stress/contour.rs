//! Lines of equal value on a grid, cell by cell.

use std::collections::BTreeMap;

/// Values on a grid over a box.
#[derive(Clone, Debug, PartialEq)]
pub struct Grid {
    /// The columns' places, rising.
    pub across: Vec<f64>,
    /// The rows' places, rising.
    pub up: Vec<f64>,
    /// The values, row by row from the lowest up, each from left to right.
    pub values: Vec<Vec<f64>>,
}

/// Where a line crosses the grid: between a point (column, row) and the next one to the right, or the next one up.
type Crossing = (usize, usize, bool);

impl Grid {
    /// The lines along which the value is `level`: chains of straight stretches between the lines of the grid, closed
    /// ones with the first point again as the last. A value that equals the level counts as above it.
    pub fn lines(&self, level: f64) -> Vec<Vec<[f64; 2]>> {
        let mut ties: BTreeMap<Crossing, Vec<Crossing>> = BTreeMap::new();
        for row in 0..self.up.len().saturating_sub(1) {
            for column in 0..self.across.len().saturating_sub(1) {
                for (from, to) in self.stretches(column, row, level) {
                    ties.entry(from).or_default().push(to);
                    ties.entry(to).or_default().push(from);
                }
            }
        }
        let mut lines = Vec::new();
        // The open lines from their ends, then the closed ones from anywhere.
        while let Some(&start) = ties
            .iter()
            .find(|(_, ties)| ties.len() == 1)
            .or_else(|| ties.iter().next())
            .map(|(start, _)| start)
        {
            let mut line = vec![self.place(start, level)];
            let mut at = start;
            while let Some(next) = take(&mut ties, at) {
                line.push(self.place(next, level));
                at = next;
            }
            lines.push(line);
        }
        lines
    }

    fn value(&self, column: usize, row: usize) -> f64 {
        self.values.get(row).and_then(|row| row.get(column)).copied().unwrap_or(f64::NAN)
    }

    /// The stretches of the lines in one cell: none, one, or two where opposite corners lie on one side of the level.
    fn stretches(&self, column: usize, row: usize, level: f64) -> Vec<(Crossing, Crossing)> {
        let corners = [(column, row), (column + 1, row), (column + 1, row + 1), (column, row + 1)];
        let values = corners.map(|(column, row)| self.value(column, row));
        if values.iter().any(|value| !value.is_finite()) {
            return Vec::new();
        }
        // The sides in the order of the corners that they follow: lower, right, upper, left.
        let sides =
            [(column, row, false), (column + 1, row, true), (column, row + 1, false), (column, row, true)];
        let above = values.map(|value| value >= level);
        let crossed: Vec<usize> = (0..4).filter(|&side| above[side] != above[(side + 1) % 4]).collect();
        match crossed.as_slice() {
            &[one, other] => vec![(sides[one], sides[other])],
            [_, _, _, _] => {
                // The middle decides which corners are cut off.
                let middle = values.iter().sum::<f64>() / 4.0 >= level;
                if middle == above[0] {
                    vec![(sides[0], sides[1]), (sides[2], sides[3])]
                } else {
                    vec![(sides[3], sides[0]), (sides[1], sides[2])]
                }
            }
            _ => Vec::new(),
        }
    }

    fn place(&self, (column, row, upright): Crossing, level: f64) -> [f64; 2] {
        let (next_column, next_row) = if upright { (column, row + 1) } else { (column + 1, row) };
        let (from, to) = (self.value(column, row), self.value(next_column, next_row));
        let part = if from == to { 0.5 } else { ((level - from) / (to - from)).clamp(0.0, 1.0) };
        let between =
            |places: &[f64], one: usize, other: usize| places[one] + (places[other] - places[one]) * part;
        [between(&self.across, column, next_column), between(&self.up, row, next_row)]
    }
}

/// The next crossing of a line, its tie taken away.
fn take(ties: &mut BTreeMap<Crossing, Vec<Crossing>>, at: Crossing) -> Option<Crossing> {
    let mut untie = |at: Crossing, to: Option<Crossing>| {
        let of = ties.get_mut(&at)?;
        let place = to.map_or(Some(0), |to| of.iter().position(|&other| other == to))?;
        let next = if of.is_empty() { None } else { Some(of.remove(place)) };
        if of.is_empty() {
            ties.remove(&at);
        }
        next
    };
    let next = untie(at, None)?;
    untie(next, Some(at));
    Some(next)
}
