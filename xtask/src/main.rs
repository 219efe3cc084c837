//! The chores of the workspace.
fn main() {}
