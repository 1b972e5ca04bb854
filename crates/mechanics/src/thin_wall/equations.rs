//! A handful of linear equations, one for each cell.

/// The flows round several closed cells, from the flexibility `a` of each cell with each, `∮ ds/t`, and what the sum of the flow
/// over the thickness round each cell is to be, `b`: solves `a x = b` by elimination with the largest pivot of each column. In the
/// unit of `b`, as the flexibilities have none.
///
/// The matrix is that of the cells, symmetric and positive definite. One that has not as many rows and columns as `b` has entries
/// gives no number for any cell.
pub fn flows_round_cells(mut a: Vec<Vec<f64>>, mut b: Vec<f64>) -> Vec<f64> {
    let count = b.len();
    if a.len() != count || a.iter().any(|row| row.len() != count) {
        return vec![f64::NAN; count];
    }
    for column in 0..count {
        let largest = (column..count).max_by(|&i, &j| a[i][column].abs().total_cmp(&a[j][column].abs()));
        if let Some(row) = largest {
            a.swap(column, row);
            b.swap(column, row);
        }
        let (above, below) = a.split_at_mut(column + 1);
        let pivot = &above[column];
        for (index, row) in below.iter_mut().enumerate() {
            let factor = row[column] / pivot[column];
            row.iter_mut().zip(pivot).for_each(|(entry, of_pivot)| *entry -= factor * of_pivot);
            b[column + 1 + index] -= factor * b[column];
        }
    }
    for row in (0..count).rev() {
        let known: f64 = (row + 1..count).map(|k| a[row][k] * b[k]).sum();
        b[row] = (b[row] - known) / a[row][row];
    }
    b
}
