//! A made-up shaft whose truth is known, and what an inspector would read and write beside it.
//!
//! Nobody ever sees a real shaft, so nobody can say of a real record how far its estimate was off. Here
//! the hole is made first, and the readings are taken from it with the errors that tapes, trucks and
//! people have. Practice, demonstration and proof live on it.
//!
//! Words: *truth* = what the made-up hole is; *ratio* = true area over nominal area at a depth; *wall* =
//! the ratio along the depth; *feature* = a neck, a cavity or a seam in the wall; *rehearsal* = a record
//! of a made-up shaft, marked as such in every entry.
//! Units: SI inside; depths below the top of the hole, positive down.
//! Never: be needed by a real record; read a clock, a file or chance that no seed gave; take a shape from
//! the estimator that is held against it.

pub mod chance;
pub mod day;
pub mod decision;
pub mod ground;
pub mod hole;
pub mod practice;
pub mod readings;
pub mod scenario;
pub mod site;
pub mod wall;
