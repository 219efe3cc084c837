//! What a screen shows and asks, as plain data.
//!
//! The app in the browser only places what stands here, so that every word, figure and key of a screen can
//! be tested without a browser, and the same data could fill another screen tomorrow.
//!
//! Words: *key* = what a gloved hand taps; *form* = an entry half written; *figure* = a number big enough to
//! read across the rig.
//! Never: read a clock or a file, draw on a real screen, judge.

pub mod entry;
pub mod live;
pub mod practice;
