//! What would mend a band that cannot be met: the same rows are tried with another change, then with other water.

use knowledge::book;
use quantity::number::Digits;
use quantity::{Ion, Kind, Known};
use setup::{SourceWater, Tank};

use super::model::{End, Model, changes};
use super::part::Part;
use super::products::Candidate;
use super::wishes::{self, MET, Wish};
use super::{harm, worth};

/// What is tried.
pub(super) struct Trial<'a> {
    pub tank: &'a Tank,
    pub candidates: &'a [Candidate],
    /// False: a rule of harm limits the change, so a bigger one is no remedy.
    pub may_change_more: bool,
    /// What is not met now: a remedy leaves nothing else unmet.
    pub broken: Vec<Part>,
}

impl Trial<'_> {
    /// One sentence on what would mend a wish that is reached from `lowest` to `highest`.
    pub fn mend(&self, wish: &Wish, (lowest, highest): (f64, f64)) -> String {
        let tank = self.tank;
        let n = |value: f64| tank.units.number(value, Digits::Significant(2));
        if !changes(tank) {
            return "Changing water would settle it.".to_owned();
        }
        if let Some(ask) = unmeasured(tank, wish) {
            return ask;
        }
        if let Some(text) = self.other_change(wish) {
            return text;
        }
        let (too_low, too_high) = (lowest < wish.band.0 * (1.0 - MET), highest > wish.band.1 * (1.0 + MET));
        // Thinner water lifts nothing; it only makes the swing of the tap smaller. What is over by the doses alone needs less of
        // them, and no other water.
        let by_doses = self.tap_alone(wish) <= wish.band.1 * (1.0 + MET);
        if too_high && by_doses {
            return format!(
                "It is what I give that lifts it so far where your tap stands at its highest: test {} now and then, and leave its salt away \
                 while the tank holds more than {} {}.",
                wish.part.name(),
                n(0.5 * (wish.band.0 + wish.band.1)),
                wish.part.unit()
            );
        }
        if too_high && let Some(text) = self.other_water(wish) {
            return text;
        }
        let swing = wish.part.in_water(&tank.tap);
        if swing.high - swing.low > wish.band.1 - wish.band.0 {
            return format!(
                "The tap alone swings by {} {} over the year, more than the band is wide: a wider band, or a measurement \
                 now and then, would mend it.",
                n(swing.high - swing.low),
                wish.part.unit()
            );
        }
        match too_low {
            true => "No product that I know brings it without passing a limit of harm or another band: a wider band would mend it.",
            false => "Nothing that I know takes it away without passing a limit of harm or another band: a wider band would mend it.",
        }
        .to_owned()
    }

    /// The highest level without any dose.
    fn tap_alone(&self, wish: &Wish) -> f64 {
        let model = Model::new(self.tank, self.candidates);
        let marks = model.marks(wish.part, End::Highest, wish.part.uptake(self.tank).value).high;
        marks.iter().map(|mark| mark.at(&model.nothing_given())).fold(f64::NEG_INFINITY, f64::max)
    }

    /// Another share at the same days.
    fn other_change(&self, wish: &Wish) -> Option<String> {
        let n = |value: f64| self.tank.units.number(value, Digits::Significant(2));
        let now = self.tank.habits.change_share.value;
        let brought = wish.part.in_water(&self.tank.tap).high;
        let tried = &book().recipe.worth.changes_tried_percent.value;
        let mut shares: Vec<f64> = tried.iter().map(|percent| percent / 100.0).collect();
        shares.sort_by(|a, b| (a - now).abs().total_cmp(&(b - now).abs()));
        let share = shares.into_iter().find(|&share| {
            let mut other = self.tank.clone();
            other.habits.change_share = Known::exact(share, Kind::WorkedOut);
            self.holds(&other, wish).is_some()
        })?;
        Some(match (share > now, wish.part.ion()) {
            // A band that the tap itself passes is not held by more of the tap.
            (true, Some(ion)) if brought >= wish.band.1 => format!(
                "The tap alone brings up to {} mg/L of {}, so a bigger change does not hold it: test now and then.",
                n(brought),
                ion.name()
            ),
            (true, _) if !self.may_change_more => {
                "A bigger change is not for this water: what limits it stands with the change.".to_owned()
            }
            (bigger, _) => format!(
                "A {} change would hold it: {} % instead of {} % every {} days.",
                if bigger { "bigger" } else { "smaller" },
                n(100.0 * share),
                n(100.0 * now),
                self.tank.habits.every_days
            ),
        })
    }

    /// Low-mineral water in the new water.
    fn other_water(&self, wish: &Wish) -> Option<String> {
        let mut blended = self.tank.clone();
        blended.low_share = None;
        let water = if blended.low.is_some() { "your low-mineral water" } else { "low-mineral water" };
        blended.low.get_or_insert_with(pure);
        // The table's bands don't call for blending by themselves: here they do.
        blended.wish.bands.extend(wish.part.ion().map(|ion| (ion, wish.band)));
        let share = self.holds(&blended, wish).filter(|share| *share > 0.0)?;
        let percent = self.tank.units.number(100.0 * share, Digits::Significant(2));
        Some(format!("Mixing {percent} % {water} into the new water would hold it."))
    }

    /// The share of low-mineral water at which the wish is met and nothing else gives way that is met now.
    fn holds(&self, tank: &Tank, wish: &Wish) -> Option<f64> {
        let mut model = Model::new(tank, self.candidates);
        let banded: Vec<Ion> = wishes::wished(tank).into_iter().filter_map(|(part, ..)| part.ion()).collect();
        let harm = harm::rows(&mut model, &banded);
        let wishes = wishes::rows(&mut model);
        let settled = worth::settle(&mut model, harm, &wishes).ok()?;
        let value = |column: usize| settled.values.get(column).copied().unwrap_or(f64::INFINITY);
        let met = |wish: &Wish| value(wish.short) <= MET && value(wish.over) <= MET;
        let others =
            wishes.iter().all(|other| met(other) || (other.part != wish.part && self.broken.contains(&other.part)));
        others.then(|| value(model.low_share))
    }
}

/// The sentence for a level that is out of its band only while nobody measured what the tap brings of it: more than the band's lower
/// edge, perhaps, and as much as the band is wide from one end to the other.
fn unmeasured(tank: &Tank, wish: &Wish) -> Option<String> {
    let brought = wish.part.in_water(&tank.tap);
    let wide = brought.high - brought.low >= book().recipe.worth.wide_share.value * (wish.band.1 - wish.band.0);
    (brought.kind == Kind::Assumed && (brought.high >= wish.band.1 || brought.high >= wish.band.0 && wide)).then(|| {
        format!(
            "Nobody measured {} in your tap: I count on up to {} {unit}. Ask your supplier or test it once: a tap that brings {} {unit} \
             or more may need no product for it.",
            wish.part.name(),
            tank.units.number(brought.high, Digits::Significant(2)),
            tank.units.number(wish.band.0, Digits::Significant(2)),
            unit = wish.part.unit()
        )
    })
}

/// Water without anything in it.
fn pure() -> SourceWater {
    let none = Known::exact(0.0, Kind::Assumed);
    SourceWater {
        name: "low-mineral water".to_owned(),
        ions: Ion::ALL.into_iter().map(|ion| (ion, none)).collect(),
        alkalinity_meq_per_l: none,
        ph: Known::exact(7.0, Kind::Assumed),
        temperature_c: Known::exact(20.0, Kind::Assumed),
        conductivity_25_us_per_cm: None,
        disinfectant: setup::Disinfectant::None,
        total_chlorine_mg_per_l: none,
    }
}
