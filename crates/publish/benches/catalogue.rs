//! How long a catalogue takes.

fn main() { divan::main(); }
