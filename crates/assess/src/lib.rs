//! assess.
