//! The program `tapmere`.
fn main() {}
