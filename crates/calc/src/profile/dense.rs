//! A small symmetric matrix and its inverse.
//!
//! One row a sounding: forty by forty at most in practice. See decision 0013 for why it is written out.

/// A symmetric matrix, stored whole.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Square {
    pub(super) size: usize,
    values: Vec<f64>,
}

/// The inverse of a positive definite matrix.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Inverse {
    pub(super) matrix: Square,
    /// Half of the natural logarithm of the determinant of the matrix, not of its inverse.
    pub(super) half_log_determinant: f64,
}

impl Square {
    pub(super) fn from_fn(size: usize, value: impl Fn(usize, usize) -> f64) -> Self {
        let values = (0..size * size).map(|at| value(at / size, at % size)).collect();
        Square { size, values }
    }

    pub(super) fn at(&self, row: usize, column: usize) -> f64 {
        self.values[row * self.size + column]
    }

    pub(super) fn add(&mut self, row: usize, column: usize, value: f64) {
        self.values[row * self.size + column] += value;
    }

    pub(super) fn row(&self, row: usize) -> &[f64] {
        &self.values[row * self.size..(row + 1) * self.size]
    }

    pub(super) fn times(&self, vector: &[f64]) -> Vec<f64> {
        (0..self.size).map(|row| dot(self.row(row), vector)).collect()
    }

    /// `vᵀ M v`
    pub(super) fn quadratic(&self, vector: &[f64]) -> f64 {
        dot(vector, &self.times(vector))
    }

    /// The inverse, by Cholesky's way; `None` unless the matrix is positive definite.
    pub(super) fn inverse(&self) -> Option<Inverse> {
        let lower = self.cholesky()?;
        let columns: Vec<Vec<f64>> = (0..self.size).map(|column| lower.unit_solved(column)).collect();
        let inverse = |row: usize, column: usize| {
            let from = row.max(column);
            dot(&columns[row][from..], &columns[column][from..])
        };
        let half_log_determinant = (0..self.size).map(|at| libm::log(lower.at(at, at))).sum();
        Some(Inverse { matrix: Square::from_fn(self.size, inverse), half_log_determinant })
    }

    /// The lower triangle `L` with `L Lᵀ` = this matrix.
    fn cholesky(&self) -> Option<Square> {
        let mut lower = Square::from_fn(self.size, |_, _| 0.0);
        for row in 0..self.size {
            for column in 0..=row {
                let left = self.at(row, column) - dot(&lower.row(row)[..column], &lower.row(column)[..column]);
                if row == column {
                    if !(left > 0.0 && left.is_finite()) {
                        return None;
                    }
                    lower.add(row, row, left.sqrt());
                } else {
                    let value = left / lower.at(column, column);
                    lower.add(row, column, value);
                }
            }
        }
        Some(lower)
    }

    /// One column of the inverse of this lower triangle.
    fn unit_solved(&self, column: usize) -> Vec<f64> {
        let mut solved = vec![0.0; self.size];
        for row in column..self.size {
            let unit = if row == column { 1.0 } else { 0.0 };
            let so_far = dot(&self.row(row)[column..row], &solved[column..row]);
            solved[row] = (unit - so_far) / self.at(row, row);
        }
        solved
    }
}

pub(super) fn dot(one: &[f64], other: &[f64]) -> f64 {
    one.iter().zip(other).map(|(a, b)| a * b).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_inverse_undoes_its_matrix() {
        let matrix = Square::from_fn(5, |row, column| {
            1.0 / (1.0 + row.abs_diff(column) as f64) + if row == column { 0.5 } else { 0.0 }
        });
        let inverse = matrix.inverse().expect("positive definite").matrix;
        for column in 0..5 {
            let product = matrix.times(inverse.row(column));
            for (row, value) in product.iter().enumerate() {
                let expected = if row == column { 1.0 } else { 0.0 };
                assert!((value - expected).abs() < 1e-12);
            }
        }
    }

    #[test]
    fn a_determinant_by_hand() {
        // 4 · 3 − 1 · 1 = 11
        let matrix = Square::from_fn(2, |row, column| [[4.0, 1.0], [1.0, 3.0]][row][column]);
        let half = matrix.inverse().expect("positive definite").half_log_determinant;
        assert!((half - 0.5 * libm::log(11.0)).abs() < 1e-12);
    }

    #[test]
    fn what_is_not_positive_definite_has_no_inverse() {
        assert_eq!(Square::from_fn(2, |_, _| 1.0).inverse(), None);
        assert_eq!(Square::from_fn(1, |_, _| f64::NAN).inverse(), None);
        assert!(Square::from_fn(0, |_, _| 1.0).inverse().is_some());
    }
}
