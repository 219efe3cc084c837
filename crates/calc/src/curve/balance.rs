//! Placed against theoretical for the whole pour so far.
//!
//! Two words for one difference: more placed than the drawing needs is over-pour or over-consumption,
//! less is a shortfall and always a reason to ask where the hole is narrower.
//!
//! Never: call a shortfall a negative over-consumption in silence; the sign is kept and named.

use quantity::Volume;

use super::Cumulative;
use crate::estimate::{Estimate, in_quadrature};

/// Placed against theoretical.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Balance {
    /// Placed less theoretical; negative when placed falls short.
    pub over_pour: Estimate<Volume>,
    /// Over-pour as a part of the theoretical volume; negative when placed falls short.
    pub over_consumption: Estimate<f64>,
}

impl Balance {
    /// By how much the placed volume falls short of the theoretical, if it does.
    pub fn shortfall(&self) -> Option<Volume> {
        let over = self.over_pour.value.to_cubic_meters();
        (over < 0.0).then(|| Volume::cubic_meters(-over))
    }
}

/// Over-pour and over-consumption, or the shortfall.
///
/// `U = P − T`, `u = P / T − 1`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `P` | `cumulative.placed` | placed volume |
/// | `T` | `cumulative.theoretical` | theoretical volume |
///
/// **Valid for** any station of a curve; the last one stands for the pour.
///
/// **Errors**: `None` when there is no theoretical volume to hold it against.
///
/// **Source**: [FHWA-CONVOL] (over-pour = placed − theoretical).
///
/// ```
/// # use calc::curve::{Cumulative, balance};
/// # use calc::estimate::Estimate;
/// # use quantity::Volume;
/// let yards = |volume, error| Estimate::new(Volume::cubic_yards(volume), Volume::cubic_yards(error));
/// let (placed, theoretical) = (yards(625.0, 6.0), Some(yards(544.54, 0.0)));
/// let so_far = Cumulative { placed, theoretical, ratio: Some(Estimate::new(625.0 / 544.54, 0.011)) };
/// let balance = balance(&so_far).expect("a theoretical volume");
/// assert_eq!(format!("{:+.1} %", balance.over_consumption.value * 100.0), "+14.8 %");
/// ```
pub fn balance(cumulative: &Cumulative) -> Option<Balance> {
    let (theoretical, ratio) = (cumulative.theoretical?, cumulative.ratio?);
    let placed = cumulative.placed;
    let over = placed.value.to_cubic_meters() - theoretical.value.to_cubic_meters();
    let errors = [placed.standard_error.to_cubic_meters(), theoretical.standard_error.to_cubic_meters()];
    Some(Balance {
        over_pour: Estimate::new(Volume::cubic_meters(over), Volume::cubic_meters(in_quadrature(&errors))),
        over_consumption: Estimate::new(ratio.value - 1.0, ratio.standard_error),
    })
}
