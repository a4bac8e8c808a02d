//! From doses to bottles: what stands together, what is weighed, how much a day, and what is said on each.
//!
//! What: a bottle of V mL from which d mL are given a day holds V/d doses; a salt of which g grams are given a day needs
//! g × V/d grams, to the step of the scale ([`weigh`]). What does not dissolve at the coldest room temperature is given
//! in more mL a day from a bottle of its own, else with the new water of a change.
//! Checked by: `tests/by_hand_bottles.rs`.

pub(crate) mod chelate;
mod label;
mod own;
mod share;
pub(crate) mod slip;
pub(crate) mod weigh;

use knowledge::{Product, Role};
use quantity::{Ion, Kind, Known};

use crate::desk::{Desk, why};
use crate::plan::{Bottle, Dose, FromStock, Into, Note, Weighed};
use crate::say::{capital, count};
use share::Guest;
use slip::{ceilings, slip};
use weigh::{Amount, Tools, weigh};

/// Days in a month of the calendar's mean year.
pub(crate) const DAYS_A_MONTH: f64 = 365.25 / 12.0;

/// What came of the doses.
#[derive(Clone, Debug, Default)]
pub(crate) struct Bottled {
    /// The bottles.
    pub bottles: Vec<Bottle>,
    /// The doses that are really given, after rounding; what moved into the new water too.
    pub doses: Vec<Dose>,
    /// What could not be mixed, and why.
    pub notes: Vec<Note>,
}

/// A salt on its way into a bottle.
struct Item<'a> {
    dose: &'a Dose,
    /// `None`: a powder of the keeper's own, which shares with nothing.
    product: Option<&'static Product>,
    /// g/L that may be dissolved.
    limit_g_per_l: f64,
    /// The daily millilitres it needs.
    daily_ml: f64,
}

/// Put the doses into bottles. Doses for the new water pass through unchanged.
pub(crate) fn fill(desk: &Desk, doses: &[Dose], ph: Option<Known<f64>>) -> Bottled {
    let tools = Tools::of(desk);
    let mut out = Bottled::default();
    let mut items = Vec::new();
    for dose in doses {
        match (dose.into, desk.product(&dose.product)) {
            (Into::NewWater, _) => out.doses.push(dose.clone()),
            (Into::Bottle, None) => items.extend(own::own(desk, &tools, dose, &mut out)),
            (Into::Bottle, Some(product)) => match settle(desk, &tools, dose, product) {
                Some(item) => items.push(item),
                None => into_new_water(desk, dose, &mut out),
            },
        }
    }
    items.sort_by_key(|item| (item.product.is_some_and(|p| p.is(Role::Trace)), item.dose.product.clone()));
    for group in groups(desk, &tools, &items) {
        mix(desk, &tools, &group, ph, &mut out);
    }
    for (i, bottle) in out.bottles.iter_mut().filter(|b| !b.weighed.is_empty() || !b.from_stock.is_empty()).enumerate()
    {
        let name = format!("Bottle {}", count(i as u32 + 1));
        bottle.slip = bottle.slip.replace(NAMELESS, &name.to_lowercase());
        bottle.name = name;
    }
    out
}

/// Stands in a sentence until the bottles are numbered.
const NAMELESS: &str = "this bottle";

/// The usual millilitres a day, on the syringe.
fn usual_ml(desk: &Desk, tools: &Tools) -> f64 {
    tools.on_syringe(desk.tank.at_hand.daily_ml.value).max(tools.syringe_ml)
}

/// Millilitres a day from thinner and thinner bottles, the usual ones first.
fn thinner(desk: &Desk, tools: &Tools) -> impl Iterator<Item = f64> {
    let (usual, most) = (usual_ml(desk, tools), desk.book.recipe.bottle.daily_times_most.value as u32);
    (1..=most).map(move |times| usual * f64::from(times))
}

/// How much a day a salt needs to dissolve; `None`: it does not.
fn settle<'a>(desk: &Desk, tools: &Tools, dose: &'a Dose, product: &'static Product) -> Option<Item<'a>> {
    let hand = &desk.tank.at_hand;
    let limit_g_per_l = desk.book.stock_limit_g_per_l(product, hand.coldest_room_c.low)?;
    let lasts_days_least = desk.book.recipe.bottle.lasts_days_least.value;
    thinner(desk, tools).find_map(|daily_ml| {
        let lasts_days = hand.bottle_ml.value / daily_ml;
        let dissolves = dose.amount / daily_ml * 1000.0 <= limit_g_per_l;
        let kept = daily_ml == usual_ml(desk, tools) || lasts_days >= lasts_days_least;
        (dissolves && kept).then_some(Item { dose, product: Some(product), limit_g_per_l, daily_ml })
    })
}

/// Bottles as groups of items: those with the usual daily millilitres share, the others stand alone.
fn groups<'i, 'a>(desk: &Desk, tools: &Tools, items: &'i [Item<'a>]) -> Vec<Vec<&'i Item<'a>>> {
    let usual = usual_ml(desk, tools);
    let shares = |item: &Item| item.product.filter(|_| item.daily_ml == usual);
    let (sharing, alone): (Vec<&Item>, Vec<&Item>) = items.iter().partition(|item| shares(item).is_some());
    let fullness = |i: &Item| i.dose.amount / i.daily_ml * 1000.0 / i.limit_g_per_l;
    let guests: Vec<Guest> =
        sharing.iter().filter_map(|i| Some(Guest { product: shares(i)?, fullness: fullness(i) })).collect();
    let mut groups: Vec<Vec<&Item>> = share::share(desk.book, &guests)
        .into_iter()
        .map(|bottle| bottle.into_iter().filter_map(|i| sharing.get(i).copied()).collect())
        .collect();
    groups.extend(alone.into_iter().map(|item| vec![item]));
    groups
}

const MORNING: &str = "every morning";
const EVENING: &str = "every evening";

/// What dissolves too badly for a bottle goes with the new water of a change, if there is one.
fn into_new_water(desk: &Desk, dose: &Dose, out: &mut Bottled) {
    let change_l = desk.tank.habits.change_share.value * desk.tank.geometry.true_l.value;
    let days = f64::from(desk.tank.habits.every_days);
    if change_l * days <= 0.0 {
        out.notes.push(Note {
            about: dose.product.clone(),
            text: format!(
                "{} does not dissolve well enough for a bottle in a room that gets as cold as {}, and without changes there is \
                 no new water to stir it into. I left it out.",
                capital(&dose.name),
                desk.pen.celsius(desk.tank.at_hand.coldest_room_c.low)
            ),
            key: None,
        });
        return;
    }
    let true_l = desk.tank.geometry.true_l.value;
    let mut moved = scaled(dose, true_l * days / change_l);
    moved.amount = dose.amount * days / change_l;
    moved.into = Into::NewWater;
    out.notes.push(Note {
        about: dose.product.clone(),
        text: format!(
            "{} dissolves too badly for a bottle in a room that gets as cold as {}: it goes into the new water of each change.",
            capital(&dose.name),
            desk.pen.celsius(desk.tank.at_hand.coldest_room_c.low)
        ),
        key: None,
    });
    out.doses.push(moved);
}

/// A dose times a factor.
pub(crate) fn scaled(dose: &Dose, factor: f64) -> Dose {
    let brings = dose.brings.iter().map(|(ion, mg)| (*ion, mg * factor)).collect();
    Dose { amount: dose.amount * factor, brings, ..dose.clone() }
}

/// mL that a group is mixed to: the whole bottle, or what is given while it keeps, if that is a small part of it and not
/// too little for the scale.
fn filled_ml(desk: &Desk, tools: &Tools, group: &[&Item], daily_ml: f64, keeps_days: f64) -> f64 {
    let full = desk.tank.at_hand.bottle_ml.value;
    let figures = &desk.book.recipe.bottle;
    let to_ml = figures.filled_to_ml.value;
    let enough = (daily_ml * keeps_days / to_ml - 1e-9).ceil() * to_ml;
    let weighable = |item: &&Item| {
        let on_scale = |ml: f64| tools.on_scale(item.dose.amount * ml / daily_ml) >= tools.least_g;
        on_scale(enough) || !on_scale(full)
    };
    if enough <= figures.given_share_least.value * full && group.iter().all(weighable) { enough } else { full }
}

/// Weigh a group into one bottle.
fn mix(desk: &Desk, tools: &Tools, group: &[&Item], ph: Option<Known<f64>>, out: &mut Bottled) {
    let Some(daily_ml) = group.first().map(|i| i.daily_ml) else { return };
    let all: Vec<&Product> = group.iter().filter_map(|item| item.product).collect();
    let volume_ml = filled_ml(desk, tools, group, daily_ml, label::keeps_days(desk, &all));
    let doses_in = volume_ml / daily_ml;
    let (mut weighed, mut from_stock, mut brings, mut alkalinity) = (Vec::new(), Vec::new(), Vec::new(), 0.0);
    let mut inside = Vec::new();
    for item in group {
        let exact_g = item.dose.amount * doses_in;
        let Some(amount) = weigh(tools, exact_g, volume_ml, item.limit_g_per_l) else {
            out.notes.push(too_coarse(desk, tools, item, exact_g));
            continue;
        };
        let given = scaled(item.dose, amount.grams() / exact_g);
        let meq_per_g = item.product.map_or(0.0, |product| product.alkalinity_meq_per_g() * product.assay());
        alkalinity += given.amount * meq_per_g / desk.tank.geometry.true_l.value;
        brings.extend(given.brings.iter().copied());
        let error_share = amount.error_share() + 0.5 * tools.syringe_ml / daily_ml;
        let line = Line { item, amount, exact_g, volume_ml, doses_in, error_share, ph };
        line.record(desk, tools, &mut weighed, &mut from_stock);
        inside.extend(item.product);
        out.doses.push(given);
    }
    if weighed.is_empty() && from_stock.is_empty() {
        return;
    }
    let slip = slip(desk, tools, NAMELESS, daily_ml, &ceilings(desk, &brings, alkalinity));
    let traces = inside.iter().any(|p| p.is(Role::Trace));
    let mut handling = label::handling(desk, &inside, &from_stock, doses_in);
    if group.iter().any(|item| item.product.is_none()) {
        handling.push(own::ALONE.to_owned());
    }
    let lets_go = inside.iter().filter_map(|p| chelate::lets_go(&desk.pen, p, ph?));
    handling.extend(lets_go.map(|note| note.text));
    out.bottles.push(Bottle {
        name: String::new(),
        volume_ml,
        daily_ml,
        lasts_days: doses_in.min(label::keeps_days(desk, &inside)),
        weighed,
        handling,
        from_stock,
        time_of_day: if traces { EVENING } else { MORNING }.to_owned(),
        hazards: label::hazards(desk, &inside),
        slip: slip.text,
        ask_above_ml: slip.ask_above_ml,
        refuse_above_ml: slip.refuse_above_ml,
    });
}

fn too_coarse(desk: &Desk, tools: &Tools, item: &Item, exact_g: f64) -> Note {
    Note {
        about: item.dose.product.clone(),
        text: format!(
            "{}: {} g would be needed for a bottle, and your scale is trusted from {} on. I left it out: a scale that shows a \
             tenth or a hundredth of a gram would mend it.",
            capital(&item.dose.name),
            desk.pen.n(exact_g, 2),
            desk.pen.grams(tools.least_g, tools.scale_g)
        ),
        key: None,
    }
}

/// A weighed item with the figures of its sum.
struct Line<'i> {
    item: &'i Item<'i>,
    amount: Amount,
    exact_g: f64,
    volume_ml: f64,
    doses_in: f64,
    error_share: f64,
    ph: Option<Known<f64>>,
}

impl Line<'_> {
    /// One amount as a line of the recipe, with its why-note.
    fn record(&self, desk: &Desk, tools: &Tools, weighed: &mut Vec<Weighed>, from_stock: &mut Vec<FromStock>) {
        let (dose, error_share) = (self.item.dose, self.error_share);
        let why = desk.why(self.why(desk, tools));
        match self.amount.as_stock(desk, dose, self.exact_g, "", &why) {
            Some(stock) => from_stock.push(FromStock { error_share, ..stock }),
            None => weighed.push(Weighed {
                product: dose.product.clone(),
                name: dose.name.clone(),
                grams: self.amount.grams(),
                error_share,
                soluble_g_per_l: self.item.limit_g_per_l,
                why,
            }),
        }
    }

    /// The sum behind the grams: what a day brings × litres ÷ share in the salt × doses in the bottle.
    fn why(&self, desk: &Desk, tools: &Tools) -> quantity::Why {
        let (pen, hand, item) = (&desk.pen, &desk.tank.at_hand, self.item);
        let holds = self.ph.zip(item.product).and_then(|(ph, product)| chelate::say(pen, product, ph));
        let holds = holds.map_or_else(String::new, |note| format!(" {}", note.text));
        let label = if item.product.is_none() { " What it brings is what its label says." } else { "" };
        let words = format!(
            "The bottle holds {} doses ({} mL ÷ {} mL a day). Scale and syringe together make this {} uncertain either way. At {} up to {} g of it \
             may stand in a litre; here it is {}.{holds}{label}",
            pen.n(self.doses_in, 3),
            pen.n(self.volume_ml, 4),
            pen.n(item.daily_ml, 3),
            pen.percent(self.error_share),
            pen.celsius(hand.coldest_room_c.low),
            pen.n(item.limit_g_per_l, 3),
            pen.n(self.exact_g / self.volume_ml * 1000.0, 3),
        );
        let solubility = item.product.and_then(|p| p.solubility.as_ref()).map_or("", |s| s.source.as_str());
        let kind = leading(item).map_or(Kind::WorkedOut, |(ion, _)| crate::levels::net_uptake(desk.tank, ion).kind);
        why(
            format!("bottle-{}", item.dose.product.replace(['_', ' '], "-")),
            format!("why {} g?", pen.n(self.amount.grams(), 3)),
            self.sum(desk, tools),
            words,
            &["iupac_2022", solubility],
            kind.weaker(Kind::WorkedOut),
        )
    }

    fn sum(&self, desk: &Desk, tools: &Tools) -> String {
        let (pen, item) = (&desk.pen, self.item);
        let lead = leading(item);
        let exact = match lead {
            Some((ion, mg)) => format!(
                "{} mg/L {} a day × {} L ÷ {} mg in a gram × {} doses = {} g",
                pen.n(mg, 4),
                ion.formula(),
                pen.n(desk.tank.geometry.true_l.value, 4),
                pen.n(mg * desk.tank.geometry.true_l.value / item.dose.amount, 4),
                pen.n(self.doses_in, 3),
                pen.n(self.exact_g, 4)
            ),
            None => format!(
                "{} g a day × {} doses = {} g",
                pen.n(item.dose.amount, 4),
                pen.n(self.doses_in, 3),
                pen.n(self.exact_g, 4)
            ),
        };
        let weighed = match self.amount {
            Amount::Direct { grams, .. } => format!(", weighed as {}", pen.grams(grams, tools.scale_g)),
            Amount::Stock { stock_g, stock_ml, take_ml, grams, .. } => format!(
                "; {} in {} × {} = {} g",
                pen.grams(stock_g, tools.scale_g),
                pen.ml(stock_ml),
                pen.ml(take_ml),
                pen.n(grams, 4)
            ),
        };
        let given = lead.map_or_else(String::new, |(ion, mg)| {
            format!(": {} mg/L {} a day", pen.n(mg * self.amount.grams() / self.exact_g, 4), ion.formula())
        });
        format!("{exact}{weighed}{given}")
    }
}

/// The ion for which the salt is given: the one of which a day brings most, nutrients first.
fn leading(item: &Item) -> Option<(Ion, f64)> {
    const FIRST: [Ion; 5] = [Ion::Iron, Ion::Phosphate, Ion::Nitrate, Ion::Magnesium, Ion::Potassium];
    let brings = |ion: Ion| item.dose.brings.iter().find(|(i, mg)| *i == ion && *mg > 0.0).copied();
    FIRST.into_iter().find_map(brings).or_else(|| item.dose.brings.iter().find(|(_, mg)| *mg > 0.0).copied())
}
