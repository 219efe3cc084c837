//! A small symmetric matrix and its inverse.
//!
//! One row a sounding, or one a stratum of an earlier shaft: forty by forty at most in practice. See decision 0013 for
//! why it is written out.
//!
//! Never: solve a matrix that is not positive definite.

/// A symmetric matrix, stored whole.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Square {
    pub(crate) size: usize,
    values: Vec<f64>,
}

/// The inverse of a positive definite matrix.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Inverse {
    pub(crate) matrix: Square,
    /// Half of the natural logarithm of the determinant of the matrix, not of its inverse.
    pub(crate) half_log_determinant: f64,
}

impl Square {
    pub(crate) fn from_fn(size: usize, value: impl Fn(usize, usize) -> f64) -> Self {
        let values = (0..size * size).map(|at| value(at / size, at % size)).collect();
        Square { size, values }
    }

    pub(crate) fn at(&self, row: usize, column: usize) -> f64 {
        self.values[row * self.size + column]
    }

    pub(crate) fn add(&mut self, row: usize, column: usize, value: f64) {
        self.values[row * self.size + column] += value;
    }

    pub(crate) fn row(&self, row: usize) -> &[f64] {
        &self.values[row * self.size..(row + 1) * self.size]
    }

    pub(crate) fn times(&self, vector: &[f64]) -> Vec<f64> {
        (0..self.size).map(|row| dot(self.row(row), vector)).collect()
    }

    /// The inverse, by Cholesky's way; `None` unless the matrix is positive definite.
    pub(crate) fn inverse(&self) -> Option<Inverse> {
        let lower = self.cholesky()?;
        let columns: Vec<Vec<f64>> = (0..self.size).map(|column| lower.unit_solved(column)).collect();
        let inverse = |row: usize, column: usize| {
            let from = row.max(column);
            dot(&columns[row][from..], &columns[column][from..])
        };
        let half_log_determinant = (0..self.size).map(|at| libm::log(lower.at(at, at))).sum();
        Some(Inverse { matrix: Square::from_fn(self.size, inverse), half_log_determinant })
    }

    /// What this matrix times it gives each of the vectors, and half of the natural logarithm of the determinant; `None`
    /// unless the matrix is positive definite.
    pub(crate) fn solved<const N: usize>(&self, vectors: [&[f64]; N]) -> Option<([Vec<f64>; N], f64)> {
        let lower = self.cholesky()?;
        let half_log_determinant = (0..self.size).map(|at| libm::log(lower.at(at, at))).sum();
        Some((vectors.map(|vector| lower.undone(vector)), half_log_determinant))
    }

    /// The lower triangle `L` with `L Lᵀ` = this matrix.
    fn cholesky(&self) -> Option<Square> {
        let mut lower = Square::from_fn(self.size, |_, _| 0.0);
        for row in 0..self.size {
            for column in 0..=row {
                let left =
                    self.at(row, column) - dot(&lower.row(row)[..column], &lower.row(column)[..column]);
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

    /// What `L Lᵀ` times it gives a vector, `L` being this lower triangle.
    fn undone(&self, vector: &[f64]) -> Vec<f64> {
        let mut solved = vector.to_vec();
        for row in 0..self.size {
            let so_far = dot(&self.row(row)[..row], &solved[..row]);
            solved[row] = (solved[row] - so_far) / self.at(row, row);
        }
        for row in (0..self.size).rev() {
            let so_far: f64 = (row + 1..self.size).map(|below| self.at(below, row) * solved[below]).sum();
            solved[row] = (solved[row] - so_far) / self.at(row, row);
        }
        solved
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

pub(crate) fn dot(one: &[f64], other: &[f64]) -> f64 {
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
    fn what_is_solved_gives_the_vector_back() {
        let matrix = Square::from_fn(4, |row, column| 1.0 / (1.0 + row.abs_diff(column) as f64));
        let vector = [1.0, -2.0, 0.5, 3.0];
        let ([solved], half) = matrix.solved([&vector]).expect("positive definite");
        for (got, wanted) in matrix.times(&solved).iter().zip(vector) {
            assert!((got - wanted).abs() < 1e-12);
        }
        assert!((half - matrix.inverse().expect("positive definite").half_log_determinant).abs() < 1e-12);
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
