//! Help now: what to do this minute, how to find out, how to prevent.
