//! Measured facts in words.
