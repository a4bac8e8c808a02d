//! An entry in words, in the keeper's units.

use knowledge::{Place, book};
use quantity::number::Digits;
use quantity::{Mass, Units, Volume};

use crate::value::show;
use crate::{Entry, Reading, Sure, What};

impl Entry {
    /// What was seen or done, in words for a list: "nitrate about 12 mg/L NO3", "10 mL of Bottle one". Empty where the
    /// note says it all.
    pub fn words(&self, units: &Units) -> String {
        let litres = |litres: f64| Volume::litres(litres).print(units);
        let grams = |grams: f64| Mass::grams(grams).print(units);
        match &self.what {
            What::Test(reading) => reading.words(units),
            What::Dose { bottle, ml } => format!("{} mL of {bottle}", units.number(*ml, Digits::Significant(3))),
            What::Change { litres: l } => format!("{} of water changed", litres(*l)),
            What::TopUp { litres: l } => format!("{} topped up", litres(*l)),
            What::Food { grams: g } => format!("{} of food", grams(*g)),
            What::Trim { wet_grams: Some(g) } => format!("plants cut, {} wet", grams(*g)),
            What::Trim { wet_grams: None } => "plants cut, not weighed".to_owned(),
            What::Sight { sight } => book().sights.get(sight).map_or_else(|| plain(sight), |row| row.name.clone()),
            What::Animals { who, change, counted } => animals(who, *change, *counted),
            What::Bought { what, amount, price_minor } => {
                let mut words = format!("bought: {what}");
                if let Some(amount) = amount {
                    words += &format!(", {} g or mL", units.number(*amount, Digits::Significant(3)));
                }
                if let Some(price) = price_minor {
                    words += &format!(", for {}", units.number(price / 100.0, Digits::Decimals(2)));
                }
                words
            }
            What::Photo { file } => format!("photograph {file}"),
            What::Done { act } => book().routine.act.get(act).map_or_else(|| plain(act), |row| row.name.clone()),
            What::Words => String::new(),
        }
    }

    /// What is said of plants that it names and that stand on a list of weeds somewhere, by the law of a place (harm rule 17).
    pub fn weeds(&self, place: Place) -> Option<String> {
        let names = match &self.what {
            What::Bought { what, .. } => what,
            What::Trim { .. } | What::Done { .. } | What::Words => "",
            _ => return None,
        };
        book().plants.say(&format!("{names}\n{}", self.note), place)
    }

    /// "Really?", where an amount is far from usual.
    pub fn remark(&self) -> Option<String> {
        let usual = |kind: &str, value: f64| {
            let row = book().amounts.get(kind)?;
            row.is.judge(&row.name, value).ok()?
        };
        match &self.what {
            What::Test(reading) => {
                let row = book().readings.get(&reading.of)?;
                row.is.judge(&row.name, reading.value).ok()?
            }
            What::Dose { ml, .. } => usual("dose", *ml),
            What::Change { litres } => usual("change", *litres),
            What::TopUp { litres } => usual("top_up", *litres),
            What::Food { grams } => usual("food", *grams),
            What::Trim { wet_grams: Some(grams) } => usual("trim", *grams),
            What::Bought { amount: Some(amount), .. } => usual("bought", *amount),
            _ => None,
        }
    }
}

impl Reading {
    /// The reading in words: "nitrate about 12 mg/L NO3", "ammonia <0.05 mg/L N, not sure".
    pub fn words(&self, units: &Units) -> String {
        let Some(row) = book().readings.get(&self.of) else { return format!("{} {}", plain(&self.of), self.value) };
        let sign = match (self.below, self.sure) {
            (true, _) => "<",
            (false, Sure::About) => "about ",
            _ => "",
        };
        let unsure = match (self.below, self.sure) {
            (_, Sure::NotSure) => ", not sure",
            (true, Sure::About) => ", about",
            _ => "",
        };
        format!("{} {sign}{}{unsure}", row.name, show(row, self.value, units))
    }

    /// Half width within which 90 of 100 such readings lie, in the unit of the value: the keeper's own, else the kit's.
    pub fn likely_error(&self) -> f64 {
        let of_kit = || book().readings.get(&self.of).map_or(0.0, |row| row.error(self.kit.as_deref(), self.value));
        self.error.unwrap_or_else(of_kit)
    }
}

fn animals(who: &str, change: i32, counted: Option<u32>) -> String {
    let moved = match change {
        0 => String::new(),
        more if more > 0 => format!("{more} more"),
        fewer => format!("{} fewer", fewer.unsigned_abs()),
    };
    let counted = counted.map_or_else(String::new, |n| format!("{n} counted"));
    let parts: Vec<&str> = [moved.as_str(), counted.as_str()].into_iter().filter(|part| !part.is_empty()).collect();
    format!("{who}: {}", if parts.is_empty() { "the same".to_owned() } else { parts.join(", ") })
}

fn plain(key: &str) -> String {
    key.replace('_', " ")
}
