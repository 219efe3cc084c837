//! The ways the shaft may be, told one by one: what the bands are made of.

use quantity::{Elevation, InOrder, Length};

use super::Profile;
use super::rare::{Kind, Rare};
use crate::estimate::Estimate;

/// A rare thing of one account.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum RareThing {
    /// A neck or cavity; its amount is the change of the ratio.
    Shape {
        /// Which of the shapes of the prior.
        which: usize,
        /// Its upper end.
        top: Elevation,
        /// Its lower end.
        bottom: Elevation,
    },
    /// A level that was misread; its amount is in metres, positive when the surface stood lower than read.
    Misread {
        /// Which station, counted from zero.
        at: usize,
    },
    /// A load that was not what its ticket says; its amount is in cubic metres, positive when less came.
    WrongTicket {
        /// The station after it, counted from zero.
        at: usize,
    },
}

/// One account of the shaft.
#[derive(Debug, Clone, PartialEq)]
pub struct Account {
    /// How probable it is.
    pub weight: f64,
    /// How calm the ground is: the factor of one [`super::Scale`].
    pub factor: f64,
    /// What happened, with the amount of each.
    pub things: Vec<(RareThing, Estimate<f64>)>,
}

impl Profile {
    /// All accounts that are probable enough to count, the most probable first. Their weights sum to 1.
    pub fn accounts(&self) -> Vec<Account> {
        let mut accounts: Vec<Account> = self
            .fit
            .ways
            .iter()
            .map(|(weight, way)| {
                let size = way.things.len();
                let amount = |at: usize| {
                    Estimate::new(way.amounts[at], way.covariance[at * size + at].max(0.0).sqrt())
                };
                let thing = |at: usize| self.told(&self.fit.things[way.things[at]]);
                Account {
                    weight: *weight,
                    factor: self.fit.modes[way.mode].factor,
                    things: (0..size).map(|at| (thing(at), amount(at))).collect(),
                }
            })
            .collect();
        accounts.put_in_order_by(|one, other| other.weight.total_cmp(&one.weight));
        accounts
    }

    fn told(&self, thing: &Rare) -> RareThing {
        let level = |meters: f64| Elevation(Length::meters(meters));
        match thing.kind {
            Kind::Shape(which) => {
                RareThing::Shape { which, top: level(thing.top_m), bottom: level(thing.bottom_m) }
            }
            Kind::Misread(row) => RareThing::Misread { at: self.fit.rows.stations[row] },
            Kind::Ticket(row) => RareThing::WrongTicket { at: self.fit.rows.stations[row] },
        }
    }
}
