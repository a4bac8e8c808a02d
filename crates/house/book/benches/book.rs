//! What the book costs.
fn main() {}
