//! Every entry is shown somewhere.
