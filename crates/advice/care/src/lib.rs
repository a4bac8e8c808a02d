//! What to do today and this week, at the start, and while away.
