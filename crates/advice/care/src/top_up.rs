//! Topping up what evaporated, and the level at which its salts settle.
//!
//! The model stands in `heat::TopUp`; here it gets the waters of the tank. What the routine asks for is never carried over
//! 10 L at once (harm rule 5), the tap that tops up gets its conditioner first (harm rule 1), and water that is refused for
//! its copper or its chlorine is not topped up with either.
//!
//! Checked by: `tests/by_hand_top_up.rs`, `tests/harm_top_up.rs`.

use quantity::{Ion, Kind, Why};
use recipe::say::Pen;
use recipe::{Plan, hardness_meq};
use setup::Tank;

use crate::start_waters::refused_tap;

/// Where hardness settles under topping up. meq/L, at the best estimate of the waters.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Settles {
    /// Evaporated and replaced, L a day.
    pub a_day_l: f64,
    /// Hardness of the water that tops up.
    pub water_meq_per_l: f64,
    /// Hardness of the new water of a change.
    pub new_meq_per_l: f64,
    /// Right before a change, settled; `None`: no changes, it rises for ever.
    pub before_change_meq_per_l: Option<f64>,
    /// What a month of topping up adds where nothing takes it out.
    pub a_month_meq_per_l: f64,
    /// The sentence.
    pub says: String,
}

/// Days of a month of which a sentence speaks.
const MONTH_DAYS: f64 = 30.0;

/// The water that tops up comes from the tap.
pub(crate) fn from_tap(tank: &Tank) -> bool {
    tank.habits.top_up_with != "low" || tank.low.is_none()
}

/// Where it settles; `None`: nothing evaporates that anybody replaces.
pub(crate) fn settles(tank: &Tank, plan: &Plan, pen: &Pen) -> Option<Settles> {
    let a_day_l = tank.habits.top_up_l_per_day.value;
    let litres = tank.geometry.true_l.value;
    if a_day_l <= 0.0 || litres <= 0.0 || plan.true_l.value <= 0.0 {
        return None;
    }
    let new = recipe::salted(recipe::blended(tank, plan.low_share), &plan.doses);
    let water = if from_tap(tank) { &tank.tap } else { tank.low.as_ref()? };
    let (water_meq, new_meq) = (hardness_meq(water).value, hardness_meq(&new).value);
    let model = heat::TopUp {
        litres,
        a_day_l,
        every_days: f64::from(plan.change.every_days),
        share: plan.change.share,
        new_level: new_meq,
        top_up_level: water_meq,
    };
    let changed = plan.change.every_days > 0;
    let before = model.settles().filter(|_| changed).map(|(_, before)| before);
    let a_month = heat::TopUp { every_days: MONTH_DAYS, ..model }.adds();
    let mut settles = Settles {
        a_day_l,
        water_meq_per_l: water_meq,
        new_meq_per_l: new_meq,
        before_change_meq_per_l: before,
        a_month_meq_per_l: a_month,
        says: String::new(),
    };
    settles.says = says(tank, plan, &settles, pen);
    Some(settles)
}

fn says(tank: &Tank, plan: &Plan, s: &Settles, pen: &Pen) -> String {
    let with =
        if from_tap(tank) { "your tap" } else { tank.low.as_ref().map_or("that water", |low| low.name.as_str()) };
    let day = pen.litres(s.a_day_l);
    if let Some(stops) = refused_tap(tank, plan).filter(|_| from_tap(tank)) {
        return format!(
            "About {day} a day evaporates and leaves its salts behind. Not topped up with your tap: {stops} Rain or low-mineral water leaves \
             nothing behind."
        );
    }
    if s.water_meq_per_l < 0.05 {
        return format!("About {day} a day evaporates. Topped up with {with} it leaves next to nothing behind.");
    }
    match s.before_change_meq_per_l {
        Some(before) => format!(
            "About {day} a day evaporates and leaves its salts behind. Topped up with {with}, hardness settles at {} before a change; \
             the new water has {}. Rain or low-mineral water leaves nothing behind.",
            pen.hardness(before),
            pen.hardness(s.new_meq_per_l)
        ),
        None => format!(
            "About {day} a day evaporates and leaves its salts behind. Topped up with {with} and never changed, hardness rises by {} a \
             month and settles nowhere: top up with rain or low-mineral water{}.{}",
            pen.hardness(s.a_month_meq_per_l),
            if tank.unchanged_months.is_some() { "" } else { ", or change a little" },
            piled_up(tank).map_or_else(String::new, |times| format!(
                " So far {} times what the tap holds may stand there: test hardness and alkalinity before anything is changed.",
                pen.n(times, 2)
            ))
        ),
    }
}

/// Why it settles there.
pub(crate) fn why(tank: &Tank, plan: &Plan, s: &Settles, pen: &Pen) -> Option<Why> {
    let before = s.before_change_meq_per_l?;
    Some(Why {
        key: "top-up".to_owned(),
        question: format!("why {}?", pen.hardness(before)),
        sum: format!(
            "{} + {} × {} L × {} days ÷ ({} × {} L) = {}",
            pen.hardness(s.new_meq_per_l),
            pen.hardness(s.water_meq_per_l),
            pen.n(s.a_day_l, 3),
            plan.change.every_days,
            pen.share(plan.change.share),
            pen.n(tank.geometry.true_l.value, 4),
            pen.hardness(before)
        ),
        words: "Between two changes topping up adds what stands over the line; a change takes out its share of all that has gathered. \
                In hard water part of it may fall out as lime, so it is an upper end."
            .to_owned(),
        sources: Vec::new(),
        kind: tank.habits.top_up_l_per_day.kind.weaker(Kind::WorkedOut),
    })
}

/// How many times what the tap holds stands in a tank by topping up for as long as nobody changed it: 1 + e t ÷ V; `None`: nobody did not.
pub(crate) fn piled_up(tank: &Tank) -> Option<f64> {
    piled_up_over(tank, tank.unchanged_days()?)
}

/// The same over so many days.
pub(crate) fn piled_up_over(tank: &Tank, days: f64) -> Option<f64> {
    let litres = tank.geometry.true_l.value;
    let poured = days * tank.habits.top_up_l_per_day.value;
    (litres > 0.0 && poured > 0.0 && from_tap(tank)).then(|| 1.0 + poured / litres)
}

/// Shrimps, snails or their kin at a tap whose copper nobody measured: other water first, or the number (harm rule 4). What is not known
/// is treated no better than what is.
pub(crate) fn copper_untold(tank: &Tank) -> Option<String> {
    let (pen, limit) = (Pen::new(&tank.units), &knowledge::book().harm.limit);
    let (tap, pipes) = (tank.tap.mg_per_l(Ion::Copper), tank.pipes_copper_mg_per_l);
    let (most, ask) = (tap.high + pipes.high, limit.copper_ask_mg_per_l.value());
    let unknown = tap.kind == Kind::Assumed || pipes.kind == Kind::Assumed;
    (tank.animals.invertebrates() && unknown && most > ask).then(|| {
        let piled = piled_up(tank).map_or_else(String::new, |times| {
            format!(
                " By {} of topping up {} times what the tap holds may stand there.",
                recipe::say::several(&pen.n(tank.unchanged_months.unwrap_or(0.0), 2), "month", "months"),
                pen.n(times, 2)
            )
        });
        format!(
            "Nobody measured the copper that tap and pipes bring: it may be up to {} mg/L, and shrimps and snails are harmed from {} mg/L on, above {} I refuse. Rain or low-mineral water first, or have it measured before you pour.{piled}",
            pen.n(most, 2),
            pen.n(ask, 1),
            pen.n(limit.copper_refuse_mg_per_l.value(), 1)
        )
    })
}

/// What a top-up of some litres is minded by: the conditioner for it, the heater's mark. `Err`: this water is not used.
pub(crate) fn minded(tank: &Tank, plan: &Plan, litres: f64, pen: &Pen) -> Result<Vec<String>, String> {
    if !from_tap(tank) {
        return Ok(vec![below_the_mark()]);
    }
    if let Some(stops) = refused_tap(tank, plan) {
        return Err(stops);
    }
    let copper = copper_untold(tank);
    let Some(c) = &plan.new_water.conditioner else {
        return Ok(copper.into_iter().chain([below_the_mark()]).collect());
    };
    let (ml, covers) = c.for_litres(tank, litres);
    let limit = &knowledge::book().harm.limit;
    let minds = [
        format!(
            "Into the jug first {} of {}: it covers {} of total chlorine; gills are hurt from about {} mg/L on within hours. {}",
            pen.ml(ml),
            recipe::Conditioner::NAMED,
            pen.mg(covers),
            pen.n(limit.chlorine_acute_mg_per_l.value(), 1),
            limit.conditioner_wait_min.say
        ),
        below_the_mark(),
    ];
    Ok(copper.into_iter().chain(minds).collect())
}

fn below_the_mark() -> String {
    format!("Is the water below the heater's mark? {}", knowledge::book().harm.limit.heater_wait_min.say)
}

/// mL of conditioner for a litre of tap water.
pub(crate) fn per_litre_ml(tank: &Tank, plan: &Plan) -> f64 {
    let most = knowledge::book().harm.limit.bucket_l.value();
    let bucket_l = match plan.change.buckets {
        (0, _) => tank.at_hand.bucket_l.value.min(most),
        (_, each) => each,
    };
    let ml = plan.new_water.conditioner.as_ref().map_or(0.0, |c| c.ml_a_bucket);
    if bucket_l > 0.0 { ml / bucket_l } else { 0.0 }
}
