//! How a reading stands to its number: as it is, under it, over it, about it.

/// How a reading stands to its number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Comparator {
    /// As it stands, or a range.
    Equal,
    /// Below the number: under what the method can see.
    Below,
    /// Above the number.
    Above,
    /// About the number.
    About,
}

impl Comparator {
    /// A reading as it is written: `12`, `10 to 25`, `<0.05`, `>50`, `about 12`. `number` prints one number.
    pub fn show(self, (low, value, high): (f64, f64, f64), number: impl Fn(f64) -> String) -> String {
        match self {
            Comparator::Below => format!("<{}", number(high)),
            Comparator::Above => format!(">{}", number(low)),
            Comparator::About => format!("about {}", number(value)),
            Comparator::Equal if low < high => format!("{} to {}", number(low), number(high)),
            Comparator::Equal => number(value),
        }
    }
}
