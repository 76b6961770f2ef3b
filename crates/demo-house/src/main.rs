//! front page
fn main() {}
