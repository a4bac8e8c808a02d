//! Words and lines of the plain letter: headings, wrapped sentences, numbers in the keeper's way.

use quantity::number::Digits;
use quantity::units::NutrientBasis;
use quantity::{Ion, Known, Measure, Units, Volume, VolumeUnit, chem::atom};

/// Columns of a line.
const WIDTH: usize = 96;

/// A list under a heading: key and words, each wrapped.
pub fn list(head: &str, rows: &[[String; 2]]) -> String {
    let mut t = Text::new(&Units::default());
    t.head(head);
    for [key, words] in rows {
        t.point(&format!("{key}: {words}"));
    }
    t.finish()
}

/// A letter in the making.
pub struct Text {
    out: String,
    units: Units,
}

impl Text {
    /// An empty letter in a keeper's units.
    pub fn new(units: &Units) -> Text {
        Text { out: String::new(), units: *units }
    }

    /// The letter.
    pub fn finish(self) -> String {
        self.out
    }

    /// A heading.
    pub fn head(&mut self, head: &str) {
        if !self.out.is_empty() {
            self.out.push('\n');
        }
        self.out += &format!("{head}\n");
    }

    /// A sentence under a heading, wrapped.
    pub fn say(&mut self, sentence: &str) {
        self.wrapped("  ", sentence);
    }

    /// A point of a list, wrapped.
    pub fn point(&mut self, sentence: &str) {
        self.wrapped("  - ", sentence);
    }

    /// A numbered step, wrapped.
    pub fn step(&mut self, number: usize, sentence: &str) {
        self.wrapped(&format!("  {number}. "), sentence);
    }

    /// A line as it is: a row of a table.
    pub fn row(&mut self, row: &str) {
        self.out += &format!("  {}\n", row.trim_end());
    }

    /// A table: names at the left, the rest at the right of their columns.
    pub fn table<const N: usize>(&mut self, rows: &[[String; N]]) {
        let width = |c: usize| rows.iter().map(|row| row[c].chars().count()).max().unwrap_or(0);
        let widths: [usize; N] = std::array::from_fn(width);
        for row in rows {
            let cells = row.iter().zip(widths).enumerate().map(|(i, (cell, w))| match i {
                0 => format!("{cell:<w$}"),
                _ => format!("{cell:>w$}"),
            });
            let line = cells.collect::<Vec<_>>().join("  ");
            self.row(&line);
        }
    }

    fn wrapped(&mut self, lead: &str, sentence: &str) {
        let hang = " ".repeat(lead.chars().count());
        let mut line = lead.to_owned();
        let mut filled = false;
        // A space that does not break holds number and unit together.
        for word in sentence.split([' ', '\n']).filter(|w| !w.is_empty()) {
            if filled && line.chars().count() + 1 + word.chars().count() > WIDTH {
                self.out += &format!("{line}\n");
                (line, filled) = (hang.clone(), false);
            }
            if filled {
                line.push(' ');
            }
            line += word;
            filled = true;
        }
        self.out += &format!("{line}\n");
    }

    /// A number with so many significant figures.
    pub fn n(&self, value: f64, figures: u8) -> String {
        self.units.number(value, Digits::Significant(figures))
    }

    /// A level: whole from 10 on, a tenth from 1 on, else two figures.
    pub fn level(&self, value: f64) -> String {
        match value.abs() {
            v if v >= 9.95 => self.units.number(value, Digits::Decimals(0)),
            v if v >= 0.995 => self.units.number(value, Digits::Decimals(1)),
            v if v < 0.000_5 => self.units.number(0.0, Digits::Decimals(0)),
            _ => self.n(value, 2),
        }
    }

    /// A time span in the word that a keeper thinks in.
    pub fn days(&self, days: f64) -> String {
        match days {
            d if d >= 730.0 => format!("{} years", self.n(d / 365.25, 2)),
            d if d >= 120.0 => format!("{} months", self.n(d / 30.44, 2)),
            d => format!("{} days", self.n(d, 2)),
        }
    }

    /// A volume of tank or bucket in the keeper's unit.
    pub fn volume(&self, litres: f64) -> String {
        Volume::litres(litres).print(&self.units)
    }

    /// The same with its range: "24 (22 to 26) US gal".
    pub fn known_volume(&self, litres: &Known<f64>) -> String {
        let one = Volume::litres(1.0);
        let (factor, unit) = match self.units.volume {
            VolumeUnit::Litre => (1.0, "L"),
            VolumeUnit::UsGallon => (one.in_us_gallons(), "US gal"),
            VolumeUnit::ImperialGallon => (one.in_imperial_gallons(), "imp gal"),
        };
        format!("{} {unit}", self.known(&litres.map(|l| factor * l)))
    }

    /// What the keeper reads a level in: factor from mg/L of the ion (from meq/L for alkalinity, `None`), and the unit.
    pub fn unit(&self, ion: Option<Ion>) -> (f64, &'static str) {
        let element = NutrientBasis::Element;
        let hardness = self.units.hardness;
        match ion {
            None => (1.0 / hardness.meq_per_unit(Measure::Alkalinity), hardness.name(Measure::Alkalinity)),
            Some(ion @ (Ion::Nitrate | Ion::Nitrite | Ion::Ammonium)) if self.units.nitrogen == element => {
                (atom::N / ion.molar_mass(), "mg/L N")
            }
            Some(Ion::Phosphate) if self.units.phosphorus == element => {
                (atom::P / Ion::Phosphate.molar_mass(), "mg/L P")
            }
            Some(_) => (1.0, "mg/L"),
        }
    }

    /// A temperature with its range in the keeper's unit.
    pub fn temperature(&self, celsius: &Known<f64>) -> String {
        let field = setup::field_of("tank.temperature");
        field.map_or_else(|| self.known(celsius), |field| field.show_known(*celsius, &self.units))
    }

    /// "14 (4 to 22)"; the bare number where no range is known.
    pub fn known(&self, known: &Known<f64>) -> String {
        let (low, value, high) = (self.level(known.low), self.level(known.value), self.level(known.high));
        if low == high { value } else { format!("{value} ({low} to {high})") }
    }
}

/// Money in the keeper's currency, from hundredths: "€6.00", "6.00 CHF".
pub fn money(t: &Text, currency: &str, hundredths: f64) -> String {
    // The yen has no smaller coin.
    let decimals = if currency == "JPY" { 0 } else { 2 };
    let amount = t.units.number(hundredths / 100.0, Digits::Decimals(decimals));
    match currency {
        "EUR" => format!("€{amount}"),
        "GBP" => format!("£{amount}"),
        "USD" => format!("${amount}"),
        other => format!("{amount} {other}"),
    }
}

/// The name of a level: an ion's, or alkalinity.
pub fn level_name(ion: Option<Ion>) -> &'static str {
    ion.map_or("alkalinity", Ion::name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_sentence_hangs_under_its_own_beginning() {
        let mut text = Text::new(&Units::default());
        text.point(&"word ".repeat(30));
        let out = text.finish();
        assert!(out.lines().all(|l| l.len() <= WIDTH), "{out}");
        assert!(out.lines().nth(1).unwrap().starts_with("    word"), "{out}");
    }
}
