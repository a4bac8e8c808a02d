//! Numbers in sentences: one pen that knows the keeper's units, so that the same number reads the same everywhere.

use quantity::concentration::keepers_basis;
use quantity::hardness::{HardnessUnit, IMPERIAL_GALLON_L, Measure, US_GALLON_L};
use quantity::{Basis, Digits, Ion, TemperatureUnit, Units, VolumeUnit};
use setup::Tank;

/// Writes numbers in the keeper's way.
#[derive(Clone, Copy, Debug)]
pub struct Pen {
    units: Units,
    /// Drop of the dropper that doses are counted by, mL; `None`: they are drawn up.
    drop_ml: Option<f64>,
}

impl Pen {
    /// A pen for a keeper's units.
    pub fn new(units: &Units) -> Self {
        Pen { units: *units, drop_ml: None }
    }

    /// A pen for a keeper's units that counts drops where the keeper does.
    pub fn of(tank: &Tank) -> Self {
        let hand = &tank.at_hand;
        Pen { units: tank.units, drop_ml: hand.dropper.then_some(hand.syringe_ml.value) }
    }

    /// At most so many significant figures.
    pub fn n(&self, value: f64, figures: u8) -> String {
        self.units.number(value, Digits::Significant(figures))
    }

    /// A number rounded to whole steps (of a scale, a syringe), without figures that the step does not carry.
    pub fn steps(&self, value: f64, step: f64) -> String {
        let decimals = if step > 0.0 { (-step.log10()).ceil().clamp(0.0, 6.0) as u8 } else { 3 };
        let text = self.units.number(value, Digits::Decimals(decimals));
        match text.contains(['.', ',']) {
            true => text.trim_end_matches('0').trim_end_matches(['.', ',']).to_owned(),
            false => text,
        }
    }

    /// Grams on the keeper's scale.
    pub fn grams(&self, value: f64, scale_g: f64) -> String {
        format!("{} g", self.steps(value, scale_g))
    }

    /// Millilitres; by a dropper with the drops that they are.
    pub fn ml(&self, value: f64) -> String {
        let ml = format!("{} mL", self.n(value, 4));
        match self.drop_ml.and_then(|drop_ml| setup::drops(value, drop_ml)) {
            Some(1) => format!("{ml} (1 drop)"),
            Some(drops) => format!("{ml} ({drops} drops)"),
            None => ml,
        }
    }

    /// mg/L of an ion.
    pub fn mg(&self, value: f64) -> String {
        format!("{} mg/L", self.n(value, 2))
    }

    /// mg/L of an ion with its formula, and as the element too where the keeper counts so.
    pub fn ion(&self, ion: Ion, mg_per_l: f64) -> String {
        let text = format!("{} mg/L {}", self.n(mg_per_l, 2), ion.formula());
        match keepers_basis(ion, &self.units) {
            Basis::AsElement => {
                let share = Basis::AsElement.grams_per_mole(ion).unwrap_or(0.0) / ion.molar_mass();
                let element = Basis::AsElement.formula(ion).unwrap_or_default();
                format!("{text} = {} mg/L {element}", self.n(mg_per_l * share, 2))
            }
            _ => text,
        }
    }

    /// "15 to 40"; the bare numbers of a band.
    pub fn range(&self, low: f64, high: f64) -> String {
        format!("{} to {}", self.n(low, 2), self.n(high, 2))
    }

    /// "2.7 to 2.9 mg/L PO4", or "about 2.7 mg/L PO4" where both ends read the same.
    pub fn span(&self, ion: Option<Ion>, a: f64, b: f64) -> String {
        let own = |value: f64| match ion {
            Some(_) => self.n(value, 2),
            None => self.own(value, Measure::Alkalinity),
        };
        let (low, high) = (own(a.min(b)), own(a.max(b)));
        let top = ion.map_or_else(|| self.alkalinity(a.max(b)), |ion| self.ion(ion, a.max(b)));
        if low == high { format!("about {top}") } else { format!("{low} to {top}") }
    }

    /// A volume of tank or bucket, with litres always (sums in mg/L go by litres); of less than a litre the millilitres.
    pub fn litres(&self, litres: f64) -> String {
        let l = match litres {
            part if part > 0.0 && part < 0.9995 => format!("{} mL", self.n(1000.0 * part, 3)),
            whole => format!("{} L", self.n(whole, 3)),
        };
        match self.units.volume {
            VolumeUnit::Litre => l,
            VolumeUnit::UsGallon => format!("{l} ({} US gal)", self.n(litres / US_GALLON_L, 3)),
            VolumeUnit::ImperialGallon => format!("{l} ({} imp gal)", self.n(litres / IMPERIAL_GALLON_L, 3)),
        }
    }

    /// A temperature.
    pub fn celsius(&self, celsius: f64) -> String {
        match self.units.temperature {
            TemperatureUnit::Celsius => format!("{} °C", self.n(celsius, 3)),
            TemperatureUnit::Fahrenheit => format!("{} °F", self.n(celsius * 1.8 + 32.0, 3)),
        }
    }

    /// A difference of temperatures.
    pub fn kelvin(&self, celsius: f64) -> String {
        match self.units.temperature {
            TemperatureUnit::Celsius => format!("{} °C", self.n(celsius, 2)),
            TemperatureUnit::Fahrenheit => format!("{} °F", self.n(celsius * 1.8, 2)),
        }
    }

    /// A share as per cent.
    pub fn percent(&self, share: f64) -> String {
        format!("{} %", self.n(100.0 * share, 2))
    }

    /// A share of a few per cent or more, with one figure more: for the share of a change.
    pub fn share(&self, share: f64) -> String {
        format!("{} %", self.n(100.0 * share, 3))
    }

    /// Alkalinity: in the keeper's own unit, with meq/L behind it.
    pub fn alkalinity(&self, meq_per_l: f64) -> String {
        self.meq(meq_per_l, Measure::Alkalinity)
    }

    /// Hardness: in the keeper's own unit, with meq/L behind it.
    pub fn hardness(&self, meq_per_l: f64) -> String {
        self.meq(meq_per_l, Measure::Hardness)
    }

    fn meq(&self, meq_per_l: f64, measure: Measure) -> String {
        let (own, meq) = (self.own(meq_per_l, measure), self.fine(meq_per_l, 2));
        match self.units.hardness {
            HardnessUnit::Meq => format!("{meq} meq/L"),
            unit => format!("{own} {} ({meq} meq/L)", unit.name(measure)),
        }
    }

    /// The bare number in the keeper's own unit.
    fn own(&self, meq_per_l: f64, measure: Measure) -> String {
        match self.units.hardness {
            HardnessUnit::Meq => self.fine(meq_per_l, 2),
            unit => self.fine(unit.from_meq_per_l(meq_per_l, measure), 1),
        }
    }

    /// Three figures at most, and no more decimals than a test shows; a trace of it keeps its first figure.
    fn fine(&self, value: f64, decimals: u8) -> String {
        let least = 0.5 * 10f64.powi(-i32::from(decimals));
        match value.abs() {
            v if v < least => self.n(value, 1),
            v if v < 10f64.powi(3 - i32::from(decimals)) => self.steps(value, 10f64.powi(-i32::from(decimals))),
            _ => self.n(value, 3),
        }
    }
}

/// "a", "a and b", "a, b and c".
pub fn list(parts: &[String]) -> String {
    match parts {
        [] => String::new(),
        [one] => one.clone(),
        [head @ .., last] => format!("{} and {last}", head.join(", ")),
    }
}

/// Two figures, rounded down: what is covered or allowed is never said higher than it is.
pub fn two_figures_down(value: f64) -> f64 {
    let unit = 10f64.powf(value.abs().max(1e-9).log10().floor() - 1.0);
    quantity::canonical((value / unit + 1e-9).floor() * unit)
}

/// The first letter as a capital.
pub fn capital(text: &str) -> String {
    if text.starts_with("pH") {
        return text.to_owned();
    }
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |c| c.to_uppercase().collect::<String>() + chars.as_str())
}

/// "one day", "2.5 days": a number as it is printed, with the word for one or for several.
pub fn several(number: &str, one: &str, many: &str) -> String {
    if number == "1" { format!("one {one}") } else { format!("{number} {many}") }
}

/// "one", "two" ... up to twelve; digits above.
pub fn count(n: u32) -> String {
    const WORDS: [&str; 13] =
        ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];
    WORDS.get(n as usize).map_or_else(|| n.to_string(), |w| (*w).to_owned())
}
