//! Acceptance limits read from data files, each with its source, and the verdict.
//!
//! The limits of a job come from its contract, differ from one standard to the next and change with every
//! edition. So they are data: a file of criteria names what is measured, the rule, the limit as printed,
//! the conditions under which it applies, and how sure somebody is that it was transcribed rightly.
//!
//! Words: *criterion* = one limit with its source; *fact* = what it measures; *set* = the criteria of one
//! file; *in force* = a set with the overrides of a job; *verdict* = meets, fails, not measured, no limit
//! set, cannot say.
//! Never: hold a limit written in Rust; see an entry; know a clock, a file or a network.
//!
//! ```
//! use criteria::{Set, Situation, Verdict};
//! use quantity::Length;
//!
//! let set = Set::shipped("roadside-common-practice-1").unwrap();
//! let (in_force, refused) = set.in_force(&[]);
//! assert!(refused.is_empty());
//!
//! let sediment = Length::inches(1.5).into();
//! let judged = in_force.judge("bottom.sediment.max", Some(sediment), &Situation::default());
//! let (criterion, judgement) = &judged[0];
//! assert_eq!(criterion.unwrap().original.id, "roadside/sediment-max");
//! assert!(matches!(judgement.verdict, Verdict::Fails { .. }));
//! ```

pub mod applied;
pub mod conditions;
pub mod criterion;
pub mod dimensions;
pub mod facts;
pub mod judge;
pub mod limit;
pub mod measured;
pub mod problem;
pub mod set;

mod exact;
mod fields;
mod read;
mod spelling;

pub use applied::{
    Change, Changed, InForce, Lookup, Override, Refusal, RefusedOverride, SetInForce, Situation,
};
pub use conditions::{Conditions, Topic};
pub use criterion::{Criterion, Sure};
pub use dimensions::{Dimension, Dimensions};
pub use facts::{Fact, Measure, Per, Stage};
pub use judge::{Judgement, Limits, NoLimit, Obstacle, Side, Verdict, judge};
pub use limit::{Limit, LimitUnit, Printed, Recipe, Rule, Term};
pub use measured::{Difference, Measured};
pub use problem::Problem;
pub use set::{About, SHIPPED, Set};
