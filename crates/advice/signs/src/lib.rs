//! What a reading, an alga or a leaf says about this tank, by elimination.
