//! The index: names and aliases in the order of the alphabet.
