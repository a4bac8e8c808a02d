//! The seal of a row: a check sum over all that it says.

/// A check sum (FNV-1a of Fowler, Noll and Vo with 64 bits). SQLite checks the shape of its file, not what the cells
/// say. Each step is one-to-one, so that one changed byte always shows.
pub(crate) struct Seal(u64);

impl Default for Seal {
    fn default() -> Seal {
        Seal(0xcbf2_9ce4_8422_2325)
    }
}

impl Seal {
    fn bytes(&mut self, bytes: &[u8]) {
        for byte in bytes {
            self.0 = (self.0 ^ u64::from(*byte)).wrapping_mul(0x0000_0100_0000_01b3);
        }
    }

    /// A text with its length in front, so that a byte can't move from one to the next unseen.
    pub fn text(&mut self, text: Option<&str>) {
        match text {
            None => self.bytes(&[0]),
            Some(text) => {
                self.bytes(&[1]);
                self.bytes(&(text.len() as u64).to_le_bytes());
                self.bytes(text.as_bytes());
            }
        }
    }

    /// As SQLite keeps it.
    pub fn number(&self) -> i64 {
        self.0.cast_signed()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The authors' test vectors (from memory).
    #[test]
    fn the_check_sum_is_fnv_1a() {
        let of = |text: &str| {
            let mut sum = Seal::default();
            sum.bytes(text.as_bytes());
            sum.0
        };
        assert_eq!(of(""), 0xcbf2_9ce4_8422_2325);
        assert_eq!(of("a"), 0xaf63_dc4c_8601_ec8c);
        assert_eq!(of("foobar"), 0x8594_4171_f739_67e8);
    }
}
