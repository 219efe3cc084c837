//! What is wrong with a criteria file, and where.
//!
//! A person who writes a file by hand gets every mistake at once, each with its line, what was found and
//! what was expected.

/// One mistake in a criteria file.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Problem {
    /// Line of the file, from one.
    pub line: usize,
    /// The key or the criterion it is about.
    pub at: String,
    /// What stands there.
    pub found: String,
    /// What should stand there.
    pub expected: String,
}

impl std::fmt::Display for Problem {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let Problem { line, at, found, expected } = self;
        write!(f, "line {line}, {at}: found {found}, expected {expected}")
    }
}

impl std::error::Error for Problem {}
