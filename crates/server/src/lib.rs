//! The program the tablets sync with: axum, one writer, nothing acknowledged that is not on the disk.
