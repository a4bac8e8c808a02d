//! The conditioner: a thiosulfate stock that this kitchen can weigh, its dose for a bucket and for the whole tank.
//!
//! What: mg of sodium thiosulfate pentahydrate = 7.0 × mg of total chlorine (2 mol to 1 mol of Cl2: 2 × 248.17 ÷ 70.90).
//! The stock is weighed on the keeper's scale; the dose is rounded up to the syringe; what it covers is worked out back
//! from the rounded dose at the weak end of the weighing, and rounded down.
//! Symbols: mg/L as Cl2; mL; g.
//! Range: up to the ceiling of harm rule 1 (5 mg/L); above it no recipe.
//! Source: data/harm.toml, rules 1 and 2; molar masses `iupac_2022`.
//! Checked by: `tests/by_hand_new_water.rs`, `tests/harm_water.rs`.

use knowledge::Role;
use quantity::Known;
use setup::Tank;

use crate::bottles::weigh::Tools;
use crate::desk::{Desk, source, why};
use crate::new_water::ammonia::Ammonia;
use crate::new_water::chlorine::Brought;
use crate::plan::{Change, Conditioner};
use crate::say::two_figures_down;

/// The product's key.
const THIOSULFATE: &str = "sodium_thiosulfate";

/// A stock and what a mL of it holds.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Stock {
    grams: f64,
    ml: f64,
    /// mg of pure pentahydrate in a mL, at the weak end of the weighing.
    mg_per_ml: f64,
}

/// mg of pure pentahydrate in a mL of a stock, at the weak end of the weighing.
fn mg_per_ml(tools: &Tools, grams: f64, ml: f64) -> f64 {
    let assay = knowledge::book().product(THIOSULFATE).map_or(1.0, |p| p.assay());
    (grams - tools.scale_error_g) * assay * 1000.0 / ml
}

impl Conditioner {
    /// How it is called wherever millilitres of it are told away from its recipe: another one has another strength (harm rule 1).
    pub const NAMED: &str = "the conditioner that you mixed as Salts says (one that you bought: as its label says)";

    /// mL of this stock for so many litres of tap water, rounded up to the syringe, and the mg/L of total chlorine that they cover
    /// there, rounded down; (0, 0) where there is no stock or no water.
    pub fn for_litres(&self, tank: &Tank, litres: f64) -> (f64, f64) {
        let tools = Tools::at_hand(tank);
        if self.stock_ml <= 0.0 || litres <= 0.0 {
            return (0.0, 0.0);
        }
        let strength = mg_per_ml(&tools, self.stock_g, self.stock_ml);
        let per_mg = knowledge::book().harm.limit.thiosulfate_mg_per_mg.value();
        let ml = tools.up_on_syringe(self.chlorine_mg_per_l * per_mg * litres / strength);
        // Not below what is counted on: the dose was rounded up for it.
        (ml, two_figures_down(ml * strength / per_mg / litres).max(self.chlorine_mg_per_l))
    }
}

/// Weigh a stock of which a dose that is easily drawn up serves `mg` milligrams; `made`: the g and mL of one that stands there already.
fn stock(desk: &Desk, tools: &Tools, mg: f64, made: Option<(f64, f64)>) -> Stock {
    let figures = &desk.book.recipe.conditioner;
    let usual_ml = desk.book.defaults.conditioner_bottle_ml.value;
    let weighed = |grams: f64, ml: f64| Stock { grams, ml, mg_per_ml: mg_per_ml(tools, grams, ml) };
    if let Some((grams, ml)) = made.filter(|(grams, ml)| *grams > tools.scale_error_g && *ml > 0.0) {
        return weighed(grams, ml);
    }
    let of = |ml: f64| weighed(tools.up_on_scale((mg / figures.dose_ml.value * ml / 1000.0).max(tools.least_g)), ml);
    // The syringe must resolve the dose: a stock that is too strong for it gets more water.
    let measured = |stock: &Stock| mg / stock.mg_per_ml >= figures.dose_steps_least.value * tools.syringe_ml;
    let all = || figures.bottle_times.value.iter().map(|times| of(usual_ml * times));
    all().find(measured).or_else(|| all().next_back()).unwrap_or_else(|| of(usual_ml))
}

/// The conditioner for a change, of a stock that is `made` already if there is one; `None` where there is no disinfectant.
pub(crate) fn conditioner(
    desk: &Desk,
    change: &Change,
    brought: &Brought,
    ammonia: Option<Ammonia>,
    made: Option<(f64, f64)>,
) -> Option<Conditioner> {
    let chlorine = brought.chlorine?;
    let limit = &desk.book.harm.limit;
    let counted = chlorine.high;
    // Where no water is changed, a tap that tops up still wants it; a change that is refused for chlorine is told so.
    let stopped = counted > limit.chlorine_stop_mg_per_l.value();
    if desk.tank.habits.every_days == 0 && !tops_up(desk) && !stopped {
        return None;
    }
    let fraction = ammonia.map_or(1.0, |a| a.fraction);
    let mut out = Conditioner {
        chlorine_mg_per_l: counted,
        stock_g: 0.0,
        stock_ml: 0.0,
        ml_a_bucket: 0.0,
        ml_whole_tank: 0.0,
        keeps_days: desk.book.defaults.conditioner_keeps_days.value,
        covers_mg_per_l: 0.0,
        ammonia_n_mg_per_l: brought.nitrogen.1,
        nh3_n_in_tank_mg_per_l: fraction * brought.nitrogen.1 * change.share,
        sentences: Vec::new(),
        more: Vec::new(),
        refused: None,
        why: String::new(),
    };
    if stopped {
        // With animals the change says where to ask (`change`), so it is not said twice.
        let ask = if desk.animals() { "" } else { desk.book.harm.rule.chlorine_ask_supplier.say.as_str() };
        let (told, say) = (desk.pen.n(counted, 2), &limit.chlorine_stop_mg_per_l.say);
        out.refused = Some(format!("{told} mg/L of total chlorine: {say} {ask}").trim_end().to_owned());
        out.why = desk.why(why(
            "conditioner",
            "why no recipe?",
            format!("{} mg/L > {} mg/L", desk.pen.n(counted, 2), desk.pen.n(limit.chlorine_stop_mg_per_l.value(), 2)),
            limit.chlorine_stop_mg_per_l.say.clone(),
            &[source(&limit.chlorine_stop_mg_per_l)],
            chlorine.kind,
        ));
        return Some(out);
    }
    let tools = Tools::of(desk);
    let (_, bucket_l) = bucket(desk, change);
    let per_mg = limit.thiosulfate_mg_per_mg.value();
    let stock = stock(desk, &tools, counted * per_mg * bucket_l, made);
    (out.stock_g, out.stock_ml) = (stock.grams, stock.ml);
    (out.ml_a_bucket, out.covers_mg_per_l) = out.for_litres(desk.tank, bucket_l);
    out.ml_whole_tank = out.for_litres(desk.tank, desk.tank.geometry.true_l.high).0;
    out.why = desk.why(why_conditioner(desk, &tools, &out, stock, bucket_l, chlorine));
    out.sentences = sentences(desk, &out, brought, bucket_l, ammonia);
    out.more = more(desk, change, &out, brought, bucket_l, ammonia);
    Some(out)
}

/// Buckets of a change and litres in each; one bucket of the keeper's where water is never changed.
fn bucket(desk: &Desk, change: &Change) -> (u32, f64) {
    let most = desk.book.harm.limit.bucket_l.value();
    match change.buckets {
        (0, _) => (1, desk.tank.at_hand.bucket_l.value.min(most)),
        buckets => buckets,
    }
}

fn why_conditioner(
    desk: &Desk,
    tools: &Tools,
    c: &Conditioner,
    stock: Stock,
    bucket_l: f64,
    chlorine: Known<f64>,
) -> quantity::Why {
    let pen = &desk.pen;
    let per_mg = desk.book.harm.limit.thiosulfate_mg_per_mg.value();
    let whole_l = desk.tank.geometry.true_l.high;
    let assay = desk.product(THIOSULFATE).map_or(1.0, |p| p.assay());
    let (strength, per_mg_said, bucket_said) = (pen.n(stock.mg_per_ml, 4), pen.n(per_mg, 2), pen.n(bucket_l, 4));
    let stock_sum = format!(
        "({} g − {} g the scale may err) × {} pure ÷ {} mL = {strength} mg/mL",
        pen.steps(stock.grams, tools.scale_g),
        pen.n(tools.scale_error_g, 2),
        pen.n(assay, 3),
        pen.n(stock.ml, 4),
    );
    let dose_sum = format!(
        "{} mg/L × {per_mg_said} mg/mg × {bucket_said} L ÷ {strength} mg/mL = {} mL, drawn up as {} mL",
        pen.n(c.chlorine_mg_per_l, 3),
        pen.n(c.chlorine_mg_per_l * per_mg * bucket_l / stock.mg_per_ml, 4),
        pen.n(c.ml_a_bucket, 4),
    );
    let covers_sum = format!(
        "{} mL × {strength} mg/mL ÷ {per_mg_said} ÷ {bucket_said} L = {} mg/L covered",
        pen.n(c.ml_a_bucket, 4),
        pen.n(c.covers_mg_per_l, 3),
    );
    let whole_sum = format!("whole tank at most {} L: {} mL", pen.n(whole_l, 4), pen.n(c.ml_whole_tank, 4));
    let sum = [stock_sum, dose_sum, covers_sum, whole_sum].join("; ");
    let limit = &desk.book.harm.limit;
    let words = format!(
        "Two molecules of sodium thiosulfate pentahydrate for one of chlorine: 2 × 248.17 ÷ 70.90 = 7.0 mg for a mg, enough on every \
         path that the reaction can go. The dose is rounded up, what it covers is rounded down. Chlorine {}. Twice this dose: no harm known.",
        chlorine.kind.words()
    );
    why(
        "conditioner",
        format!("why {} mL?", pen.n(c.ml_a_bucket, 3)),
        sum,
        words,
        &[source(&limit.thiosulfate_mg_per_mg), source(&limit.chlorine_acute_mg_per_l), "iupac_2022"],
        chlorine.kind.weaker(quantity::Kind::WorkedOut),
    )
}

/// The tap fills up what evaporates.
fn tops_up(desk: &Desk) -> bool {
    desk.tank.habits.top_up_l_per_day.value > 0.0 && desk.tank.habits.top_up_with != "low"
}

/// When it is given.
fn when(desk: &Desk) -> &'static str {
    if desk.tank.habits.every_days == 0 { "Before tap water tops up" } else { "At once, every change" }
}

/// What must be known before the water is poured, the act first.
fn sentences(desk: &Desk, c: &Conditioner, brought: &Brought, bucket_l: f64, ammonia: Option<Ammonia>) -> Vec<String> {
    let (pen, harm) = (&desk.pen, &desk.book.harm);
    let harm_starts = format!(
        "It covers {} of total chlorine; gills are hurt from about {} mg/L on within hours and from {} over weeks.",
        pen.mg(c.covers_mg_per_l),
        pen.n(harm.limit.chlorine_acute_mg_per_l.value(), 1),
        pen.n(harm.limit.chlorine_chronic_mg_per_l.value(), 2)
    );
    let act = if desk.tank.at_hand.by_hose && desk.tank.habits.every_days > 0 {
        format!("{} {harm_starts}", by_hose(desk, c, when(desk)))
    } else {
        format!("{} {harm_starts} {}", by_bucket(desk, c, bucket_l, when(desk)), harm.rule.stir_and_wait.say)
    };
    let mut says = vec![act, harm.rule.standing_overnight.say.clone()];
    says.extend(nobody_said(desk, brought));
    if desk.tank.habits.every_days > 0 {
        says.extend(ammonia_says(desk, c, brought, ammonia));
    }
    says.extend(own_conditioner(desk));
    says
}

fn by_bucket(desk: &Desk, c: &Conditioner, bucket_l: f64, when: &str) -> String {
    let (ml, bucket) = (desk.pen.ml(c.ml_a_bucket), desk.pen.litres(bucket_l));
    format!("{when}: {ml} of the conditioner into each bucket of {bucket}.")
}

fn by_hose(desk: &Desk, c: &Conditioner, when: &str) -> String {
    let (ml, tank) = (desk.pen.ml(c.ml_whole_tank), desk.pen.litres(desk.tank.geometry.true_l.value));
    format!("{when}: {ml} of the conditioner for the whole tank of {tank}, before the water.")
}

/// What is there for who wants to know more: the other way of filling, how well the chlorine is known, how the ammonia
/// adds up.
fn more(
    desk: &Desk,
    change: &Change,
    c: &Conditioner,
    brought: &Brought,
    bucket_l: f64,
    ammonia: Option<Ammonia>,
) -> Vec<String> {
    if desk.tank.habits.every_days == 0 {
        return how_known(desk, brought).into_iter().collect();
    }
    let other = if desk.tank.at_hand.by_hose {
        let by_bucket = by_bucket(desk, c, bucket_l, "By bucket instead");
        format!("{by_bucket} {}", desk.book.harm.rule.stir_and_wait.say)
    } else {
        by_hose(desk, c, "By hose instead")
    };
    let small = !desk.tank.at_hand.by_hose && change.share < desk.book.recipe.new_water.hose_from_share.value;
    let mut says: Vec<String> = (!small).then_some(other).into_iter().collect();
    says.extend(how_known(desk, brought));
    says.extend(ammonia_sum(desk, change, brought, ammonia));
    says
}

/// Nobody said how much chlorine there is: what is counted on until somebody does.
fn nobody_said(desk: &Desk, brought: &Brought) -> Option<String> {
    brought.chlorine.filter(|chlorine| chlorine.kind == quantity::Kind::Assumed)?;
    Some(desk.book.harm.chlorine_unknown(desk.place()).say.clone())
}

/// How well the chlorine is known that somebody told.
fn how_known(desk: &Desk, brought: &Brought) -> Vec<String> {
    let Some(chlorine) = brought.chlorine.filter(|chlorine| chlorine.kind != quantity::Kind::Assumed) else {
        return Vec::new();
    };
    let mut says = Vec::new();
    if desk.tank.tap.disinfectant == setup::Disinfectant::Unknown {
        says.push(
            "The report does not say whether the chlorine is bound as chloramine, so all of it counts as that."
                .to_owned(),
        );
    }
    if chlorine.low == chlorine.high {
        says.push("No report catches the highest day: up to twice this dose no harm is known to me.".to_owned());
    }
    says
}

/// What is said of the ammonia that comes with the water: where harm starts, and whether the filter takes it.
fn ammonia_says(desk: &Desk, c: &Conditioner, brought: &Brought, ammonia: Option<Ammonia>) -> Vec<String> {
    let (pen, harm) = (&desk.pen, &desk.book.harm);
    if brought.nitrogen.1 <= 0.0 || !desk.animals() {
        return Vec::new();
    }
    if ammonia.is_none() {
        return vec!["I can't work out this water's pH, so I can't tell how toxic its ammonia is: test ammonia after the change.".to_owned()];
    }
    let filter = if !desk.tank.keeping.filter {
        "No filter takes it here: test ammonia after the change."
    } else if desk.tank.animals.start_test_passed {
        "Your filter has passed the start test: it takes this ammonia within a day or two."
    } else {
        &harm.rule.filter_after_test.say
    };
    let from = match desk.tank.tap.disinfectant {
        setup::Disinfectant::Chlorine => {
            "The new water brings ammonia of its own; how much you change at once is limited by that."
        }
        _ => &harm.rule.chloramine_leaves_ammonia.say,
    };
    vec![format!(
        "{from} After this change at most {} mg/L of it is toxic; harm starts at {} (as N). {filter}",
        pen.n(c.nh3_n_in_tank_mg_per_l, 2),
        pen.n(harm.limit.ammonia_unionised_mg_n_per_l.value(), 2),
    )]
}

/// How that ammonia adds up, and at which change it would harm.
fn ammonia_sum(desk: &Desk, change: &Change, brought: &Brought, ammonia: Option<Ammonia>) -> Option<String> {
    let (pen, (least, most)) = (&desk.pen, brought.nitrogen);
    let ammonia = ammonia.filter(|_| most > 0.0 && desk.animals())?;
    let litres = (ammonia.share_most * desk.tank.geometry.true_l.value).min(desk.tank.geometry.true_l.value);
    let reached = if ammonia.share_most > 1.0 {
        "which no change that fits the tank reaches".to_owned()
    } else {
        format!("reached at a change of {}", pen.litres(litres))
    };
    Some(format!(
        "With the tap's own ammonium the new water holds {} to {} mg/L of nitrogen as ammonia, the tank up to {} after a change. Up to {} of \
         that is toxic (pH {}, {}). Of all ammonia {} mg/L would harm there{}, {reached}. What the tank itself holds comes on top: a test tells.",
        pen.n(least, 2),
        pen.n(most, 2),
        pen.n(most * change.share, 2),
        pen.percent(ammonia.fraction),
        pen.n(ammonia.ph, 2),
        pen.celsius(ammonia.temperature_c),
        pen.n(ammonia.total_most, 2),
        if ammonia.by_snails { " (the criterion for snails)" } else { "" },
    ))
}

/// A conditioner that is owned and of unknown strength is asked for its label.
fn own_conditioner(desk: &Desk) -> Option<String> {
    let owned = &desk.tank.at_hand;
    let word = |name: &str| name.to_lowercase().contains("conditioner");
    let own = owned.own.iter().find(|p| word(&p.name)).map(|p| p.name.clone());
    let listed = owned
        .products
        .iter()
        .find(|key| word(key) || desk.product(key).is_some_and(|p| p.is(Role::Conditioner) && p.key != THIOSULFATE));
    let name = own.or_else(|| listed.cloned())?;
    Some(format!("Your own {name}: {}", desk.book.harm.rule.conditioner_covers.say))
}
