//! Money, and money per time. Amounts are whole minor units (cents), so that sums are exact.

use crate::Fault;
use crate::lex::{Token, lex, shorten};
use crate::number::{Digits, parse_number};
use crate::units::Units;

/// A currency by its three letters (source key `iso_4217`), for instance EUR.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize, serde::Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Currency([u8; 3]);

/// Currencies without minor units, and those with a thousand to the unit (source key `iso_4217`; the rest have a hundred).
const NO_MINOR: [&str; 16] =
    ["BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF", "UGX", "VND", "VUV", "XAF", "XOF", "XPF"];
const THOUSAND: [&str; 7] = ["BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"];

impl Currency {
    /// From three letters of either case.
    ///
    /// # Errors
    /// Anything else.
    pub fn new(code: &str) -> Result<Currency, Fault> {
        match code.trim().to_ascii_uppercase().as_bytes() {
            &[a, b, c] if [a, b, c].iter().all(u8::is_ascii_uppercase) => Ok(Currency([a, b, c])),
            _ => Err(Fault::new(format!("`{}` is not a currency", shorten(code)))
                .expected("the three letters of a currency, such as EUR, GBP or USD")
                .hint("write the letters instead of a name or a sign")),
        }
    }

    /// The three letters.
    pub fn code(&self) -> &str {
        std::str::from_utf8(&self.0).unwrap_or("???")
    }

    /// Decimals of the currency: 2, but for a few.
    pub fn decimals(self) -> u8 {
        match self.code() {
            code if NO_MINOR.contains(&code) => 0,
            code if THOUSAND.contains(&code) => 3,
            _ => 2,
        }
    }

    fn minor_per_unit(self) -> f64 {
        10f64.powi(i32::from(self.decimals()))
    }
}

impl TryFrom<String> for Currency {
    type Error = String;
    fn try_from(code: String) -> Result<Currency, String> {
        Currency::new(&code).map_err(|fault| fault.to_string())
    }
}

impl From<Currency> for String {
    fn from(currency: Currency) -> String {
        currency.code().to_owned()
    }
}

/// An amount of money.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub struct Money {
    /// Whole minor units: cents.
    pub minor: i64,
    /// Of which currency.
    pub currency: Currency,
}

impl Money {
    /// From whole units: 12.5 EUR is 1250 cents. Rounded to the minor unit; beyond the range of cents it stops there.
    pub fn units(amount: f64, currency: Currency) -> Money {
        Money { minor: (amount * currency.minor_per_unit()).round() as i64, currency }
    }

    /// In whole units.
    pub fn in_units(self) -> f64 {
        self.minor as f64 / self.currency.minor_per_unit()
    }

    /// Read `12.50 EUR`, `GBP 3`, `€ 12,50`.
    ///
    /// # Errors
    /// No number, no currency, a sign that several currencies share (`$`), an amount that cents cannot hold.
    pub fn parse(text: &str) -> Result<Money, Fault> {
        let tokens = lex(text)?;
        money(&tokens, text, None)
    }

    /// As [`Money::parse`]; a bare number is in `currency`.
    ///
    /// # Errors
    /// As [`Money::parse`].
    pub fn parse_in(text: &str, currency: Currency) -> Result<Money, Fault> {
        let tokens = lex(text)?;
        money(&tokens, text, Some(currency))
    }

    /// `12.50 EUR`
    pub fn print(self, units: &Units) -> String {
        format!(
            "{} {}",
            units.number(self.in_units(), Digits::Decimals(self.currency.decimals())),
            self.currency.code()
        )
    }
}

/// The time over which money is counted. A month is a twelfth of the mean Gregorian year of 365.2425 days.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Period {
    /// 1 day
    Day,
    /// 7 days
    Week,
    /// 30.436875 days
    Month,
    /// 365.2425 days
    Year,
}

impl Period {
    /// Its length.
    pub fn days(self) -> f64 {
        match self {
            Period::Day => 1.0,
            Period::Week => 7.0,
            Period::Month => 365.2425 / 12.0,
            Period::Year => 365.2425,
        }
    }

    /// The word.
    pub fn name(self) -> &'static str {
        match self {
            Period::Day => "day",
            Period::Week => "week",
            Period::Month => "month",
            Period::Year => "year",
        }
    }

    fn named(word: &str) -> Option<Period> {
        Some(match word.to_lowercase().as_str() {
            "d" | "day" | "daily" => Period::Day,
            "week" | "weekly" => Period::Week,
            "month" | "monthly" => Period::Month,
            "y" | "yr" | "year" | "yearly" => Period::Year,
            _ => return None,
        })
    }
}

/// Money per time.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub struct MoneyRate {
    /// How much.
    pub money: Money,
    /// Over what.
    pub per: Period,
}

impl MoneyRate {
    /// Read `3.20 EUR per month`, `0.30 EUR/day`, `12 GBP a year`.
    ///
    /// # Errors
    /// As [`Money::parse`], or no period.
    pub fn parse(text: &str) -> Result<MoneyRate, Fault> {
        let mut tokens = lex(text)?;
        let last = match tokens.pop() {
            Some(Token::Word(word)) => Period::named(&word),
            _ => None,
        };
        let Some(per) = last else {
            return Err(Fault::new(format!("`{}` does not say over what time", shorten(text)))
                .expected("money per day, week, month or year, such as 3.20 EUR per month")
                .hint("put \"per\" and the time behind the amount"));
        };
        let joins = |t: &Token| {
            matches!(t, Token::Slash) || matches!(t, Token::Word(w) if matches!(w.as_str(), "a" | "each" | "every"))
        };
        if tokens.last().is_some_and(joins) {
            tokens.pop();
        }
        Ok(MoneyRate { money: money(&tokens, text, None)?, per })
    }

    /// The same rate over another time, in whole units of money (not rounded to cents).
    pub fn in_units_per(self, period: Period) -> f64 {
        self.money.in_units() * period.days() / self.per.days()
    }

    /// `3.20 EUR per month`
    pub fn print(self, units: &Units) -> String {
        format!("{} per {}", self.money.print(units), self.per.name())
    }
}

fn money(tokens: &[Token], text: &str, bare: Option<Currency>) -> Result<Money, Fault> {
    let wrong = || {
        Fault::new(format!("`{}` is not understood as money", shorten(text)))
            .expected("an amount with its currency, such as 12.50 EUR")
            .hint("one number and three letters, in either order")
    };
    let (raw, code) = match tokens {
        [Token::Number(raw)] => (raw, None),
        [Token::Number(raw), Token::Word(code)] | [Token::Word(code), Token::Number(raw)] => (raw, Some(code.as_str())),
        _ => return Err(wrong()),
    };
    let value = parse_number(raw)?;
    let currency = match code {
        None => bare.ok_or_else(wrong)?,
        Some("€") => Currency(*b"EUR"),
        Some("£") => Currency(*b"GBP"),
        Some("$") => {
            return Err(Fault::new(format!("`{}` has a sign that many currencies share", shorten(text)))
                .expected("the three letters, such as USD, CAD or AUD")
                .hint("write the letters instead of the sign"));
        }
        Some(code) => Currency::new(code)?,
    };
    let minor = value * currency.minor_per_unit();
    // Up to here a float counts every cent.
    if minor.abs() > 9.0e15 {
        return Err(Fault::new(format!("`{}` is too much money", shorten(text)))
            .expected("an amount that a household spends")
            .hint("look at the decimal sign"));
    }
    Ok(Money::units(value, currency))
}
