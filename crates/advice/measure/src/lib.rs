//! Measure my own tank once: a protocol of a few lines, its formula, its error.
