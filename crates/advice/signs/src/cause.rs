//! Each cause held against this tank's own numbers. One row a cause: likely, possible, open or struck out, and why.

use jiff::civil::Date;
use logbook::What;
use quantity::Ion;
use setup::{Disinfectant, Energy};

use crate::Standing::{self, Likely, Open, Possible, StruckOut};
use crate::facts::{Facts, figure};
use crate::{nutrients, water_causes};

/// How a cause stands, and why. `of`: the reading that it is to explain. `None`: there is no such cause.
pub(crate) fn stands(facts: &Facts, cause: &str, of: Option<&str>) -> Option<(Standing, String)> {
    if let Some(ion) = nutrients::ion_of(cause) {
        return Some(nutrients::short(facts, ion));
    }
    let say = |standing: Standing, because: &str| (standing, because.to_owned());
    Some(match cause {
        "plants_short" => nutrients::any_short(facts),
        "young_tank" => young(facts),
        "transfer" => transfer(facts),
        "ammonium" => ammonium(facts),
        "filter_young" => match facts.tank.animals.start_test_passed {
            true => say(Open, "the filter passed the start test; a cleaning or a medicine can set it back"),
            false => say(Likely, "nobody said that the filter passed the start test"),
        },
        "chloramine" => match facts.tank.tap.disinfectant {
            Disinfectant::Chloramine => say(Likely, "your tap is disinfected with chloramine"),
            Disinfectant::Unknown => say(Possible, "nobody said what your tap is disinfected with"),
            _ => say(StruckOut, "your tap holds none"),
        },
        "ground_gives" => match (facts.tank.measured.ground_ammonia, facts.tank.feeding) {
            (Some(true), _) => say(Likely, "you measured it"),
            (Some(false), _) => say(StruckOut, "you measured it: it gives off none"),
            (None, setup::Feeding::None) => say(Possible, "your ground feeds; such grounds give off ammonia for weeks"),
            (None, _) => say(Open, "not tested"),
        },
        "light_strong" | "light_weak" => light(facts, cause == "light_strong"),
        "carbon_short" => carbon(facts),
        "carbon_unsteady" => match facts.co2_given() {
            None => say(StruckOut, "none is given: what the room gives comes evenly"),
            Some(_) => say(Open, "is it given by a timer, at the same hours every day?"),
        },
        "lime_crust" => crust(facts),
        "overfed" => overfed(facts),
        "flow_weak" => flow(facts),
        "grazers" | "eaten" => eaters(facts, cause == "grazers"),
        "change_sudden" => sudden(facts),
        "temperature_off" => temperature(facts),
        "something_died" => died(facts),
        "silicate" => say(Open, "reports leave it out"),
        "sun" => say(Open, "I can’t see your window"),
        "old_leaves" => say(Open, "I can’t see your leaves"),
        "age" => say(Open, "every leaf dies one day; look at the new ones"),
        "surface_still" => surface(facts),
        "wood_new" => say(Open, "when did the wood come in?"),
        "disturbed_ground" => say(Open, "did you plant, or dig, of late?"),
        "traces_short" => say(Open, "nothing that a household can test says so"),
        other => return water_causes::stands(facts, other, of),
    })
}

fn young(facts: &Facts) -> (Standing, String) {
    let (days, young) = (facts.days_of_log(), figure().young_days.value);
    if days >= young {
        let days = recipe::say::several(&facts.pen.n(days.floor(), 4), "day", "days");
        return (StruckOut, format!("your log goes back {days}"));
    }
    if !facts.tank.animals.start_test_passed {
        return (Possible, "the start test was not passed yet".to_owned());
    }
    (Open, format!("in the first {} weeks it is the usual cause", facts.pen.n(young / 7.0, 2)))
}

fn transfer(facts: &Facts) -> (Standing, String) {
    let (days, planted) = (facts.days_of_log(), figure().planted_days.value);
    let bought = facts
        .recent()
        .any(|kept| matches!(&kept.entry.what, What::Bought { what, .. } if what.to_lowercase().contains("plant")));
    if bought {
        return (Likely, "your log has new plants in it".to_owned());
    }
    let weeks = facts.pen.n(planted / 7.0, 2);
    if days > 0.0 && days < planted && !facts.tank.animals.start_test_passed {
        return (Likely, "the tank is young, so its plants are new".to_owned());
    }
    (Open, format!("only you know whether it was planted in the last {weeks} weeks"))
}

/// Ammonium in pulses: a test may miss it.
fn ammonium(facts: &Facts) -> (Standing, String) {
    let shows = knowledge::book().harm.limit.start_test_pass_mg_n_per_l.value();
    if let Some(read) = facts.reading("ammonia_n").filter(|read| !read.below && read.known.value >= shows) {
        return (Likely, format!("you read {} mg/L N", facts.pen.n(read.known.value, 2)));
    }
    if facts.tank.measured.ground_ammonia == Some(true) {
        return (Likely, "your ground gives it off: you measured it".to_owned());
    }
    match facts.tank.tap.disinfectant {
        Disinfectant::Chloramine => (Likely, "chloramine in your tap leaves some with every change".to_owned()),
        Disinfectant::Unknown => {
            (Possible, "your tap may hold chloramine, which leaves some with every change".to_owned())
        }
        _ if !facts.tank.animals.start_test_passed => (Possible, "the filter has not passed the start test".to_owned()),
        _ if !facts.tank.animals.any() => {
            (StruckOut, "nobody lives there, nothing is fed, and the tap brings none".to_owned())
        }
        _ => (Open, "the filter takes it; a pulse of some hours no weekly test sees".to_owned()),
    }
}

fn light(facts: &Facts, strong: bool) -> (Standing, String) {
    let with_co2 = facts.co2_given().is_some();
    let much = if with_co2 { &figure().much_light_with_co2_umol } else { &figure().much_light_umol };
    let little = &figure().little_light_umol;
    let bound = if strong { much.value } else { little.value };
    let than = if strong { "much is from" } else { "little is up to" };
    if let Some(photons) = facts.tank.measured.photons_umol_per_m2_s {
        let read = format!(
            "you measured {} µmol/m²s ({} to {}); {than} {}",
            facts.pen.n(photons.value, 2),
            facts.pen.n(photons.low, 2),
            facts.pen.n(photons.high, 2),
            facts.pen.n(bound, 2)
        );
        let (beyond, short_of) = if strong {
            (photons.value >= bound, photons.high < bound)
        } else {
            (photons.value <= bound, photons.low > bound)
        };
        return match (beyond, short_of) {
            (true, _) => (Likely, read),
            (_, true) => (StruckOut, read),
            _ => (Possible, read),
        };
    }
    match (facts.tank.energy, strong) {
        (Energy::High, true) if !with_co2 => (Likely, "you told much light and no carbon dioxide".to_owned()),
        (Energy::High, true) => (Possible, "you told much light".to_owned()),
        (Energy::Low, true) => (StruckOut, "you told little light".to_owned()),
        (Energy::Low, false) => (Likely, "you told little light".to_owned()),
        (Energy::High, false) => (StruckOut, "you told much light".to_owned()),
        (Energy::Medium, _) => (Open, "you told middling light, and nobody measured it".to_owned()),
    }
}

fn carbon(facts: &Facts) -> (Standing, String) {
    let enough = figure().enough_co2_mg_per_l.value;
    match facts.co2_given() {
        Some(co2) if co2.low.min(co2.value) >= enough => (
            StruckOut,
            format!(
                "you give {} mg/L; most plants are content with {}",
                facts.pen.n(co2.value, 2),
                facts.pen.n(enough, 2)
            ),
        ),
        Some(co2) => {
            (Possible, format!("you give {} mg/L, less than {}", facts.pen.n(co2.value, 2), facts.pen.n(enough, 2)))
        }
        None => {
            let room = facts.plan.aired.as_ref().map(|aired| aired.co2_mg_per_l.value);
            let holds = room
                .map_or_else(String::new, |co2| format!("; from the room it holds about {} mg/L", facts.pen.n(co2, 1)));
            match facts.tank.energy {
                Energy::Low => (Open, format!("none is given{holds}, and little light asks for little")),
                Energy::Medium => (Possible, format!("none is given{holds}")),
                Energy::High => (Likely, format!("none is given{holds}, and the light is strong")),
            }
        }
    }
}

/// Lime on leaves: needs alkalinity, light, and little carbon dioxide.
fn crust(facts: &Facts) -> (Standing, String) {
    let (least, enough) = (figure().crust_alkalinity_meq_per_l.value, figure().enough_co2_mg_per_l.value);
    let alkalinity = facts.reading("alkalinity").map_or(facts.plan.alkalinity.before_change, |read| read.known);
    let shown = facts.pen.alkalinity(alkalinity.value);
    if alkalinity.high < least {
        return (StruckOut, format!("your tank’s alkalinity is {shown}: too little lime for a crust"));
    }
    if facts.co2_given().is_some_and(|co2| co2.value >= enough) {
        return (StruckOut, "you give enough carbon dioxide: plants need no bicarbonate".to_owned());
    }
    (Likely, format!("your tank’s alkalinity is {shown}, and little carbon dioxide is there"))
}

fn overfed(facts: &Facts) -> (Standing, String) {
    let growth = &facts.tank.growth;
    let of = |map: &std::collections::BTreeMap<Ion, quantity::Known<f64>>| map.get(&Ion::Nitrate).copied();
    let (Some(food), Some(taken)) = (of(&growth.food_mg_per_l_day), of(&growth.uptake_mg_per_l_day)) else {
        return (Open, "I don’t know what is fed".to_owned());
    };
    if food.value <= 0.0 {
        return (StruckOut, "nothing is fed".to_owned());
    }
    let both = format!(
        "food brings {} mg/L of nitrate a day, plants take {}",
        facts.pen.n(food.value, 2),
        facts.pen.n(taken.value, 2)
    );
    match (food.value > taken.value, food.high < taken.low) {
        (true, _) => (Likely, both),
        (_, true) => (StruckOut, both),
        _ => (Possible, both),
    }
}

fn flow(facts: &Facts) -> (Standing, String) {
    let (Some(flow), litres) = (facts.tank.measured.flow_l_per_h, facts.tank.geometry.true_l.value) else {
        return (Open, "nobody measured the flow".to_owned());
    };
    let (turnover, least) = (flow.map(|flow| flow / litres.max(1.0)), figure().least_turnover_per_h.value);
    let read = format!(
        "the tank passes the filter {} times an hour; still corners begin below {}",
        facts.pen.n(turnover.value, 2),
        facts.pen.n(least, 2)
    );
    match (turnover.value < least, turnover.low >= least) {
        (true, _) => (Likely, read),
        (_, true) => (Open, format!("{read}, but a corner may stand still all the same")),
        _ => (Possible, read),
    }
}

fn surface(facts: &Facts) -> (Standing, String) {
    let Some(rate) = facts.tank.measured.oxygen_per_h_at_20 else { return (Open, "look across the water".to_owned()) };
    let hours = f64::ln(2.0) / rate.value.max(1e-6);
    (
        Possible,
        format!(
            "you measured that half of the way to balance with the air takes {}",
            recipe::say::several(&facts.pen.n(hours, 2), "hour", "hours")
        ),
    )
}

fn eaters(facts: &Facts, missing: bool) -> (Standing, String) {
    let animals = &facts.tank.animals;
    let (snails, shrimps, fish) = (animals.snails, animals.shrimps, animals.fish);
    let small = snails > 0 || shrimps > 0;
    match (missing, small, fish > 0 || small) {
        (true, true, _) => (StruckOut, "snails or shrimps live there".to_owned()),
        (true, false, _) => (Possible, "neither snails nor shrimps live there".to_owned()),
        (false, _, true) => (Possible, "snails, shrimps or fish live there".to_owned()),
        (false, _, false) => (Open, "nobody that you told of; snails come in with plants".to_owned()),
    }
}

/// A change of more than half the water, of late.
fn sudden(facts: &Facts) -> (Standing, String) {
    let litres = facts.tank.geometry.true_l.value;
    let mut large: Vec<(Date, f64)> = facts
        .recent()
        .filter_map(|kept| match kept.entry.what {
            What::Change { litres: changed } if changed > 0.5 * litres => Some((kept.entry.at.date(), changed)),
            _ => None,
        })
        .collect();
    large.sort_by_key(|(date, _)| *date);
    match large.last() {
        Some((date, changed)) => {
            (Likely, format!("on {date} you changed {} of {} L", facts.pen.n(*changed, 3), facts.pen.n(litres, 3)))
        }
        None => {
            (Open, "your log of two weeks has no change of more than half; light and place only you know".to_owned())
        }
    }
}

fn temperature(facts: &Facts) -> (Standing, String) {
    let read = facts.reading("temperature").map_or(facts.tank.temperature_c, |read| read.known);
    let (warm, cool) = (figure().well_warm_c.value, figure().well_cool_c.value);
    let shown = facts.pen.celsius(read.value);
    if read.low > warm || read.high < cool {
        return (Likely, format!("it stands at {shown}"));
    }
    if read.high <= warm && read.low >= cool {
        return (StruckOut, format!("{shown} is borne by nearly all tank plants"));
    }
    (Possible, format!("it stands at {shown}"))
}

fn died(facts: &Facts) -> (Standing, String) {
    let lost = facts.recent().any(|kept| matches!(kept.entry.what, What::Animals { change, .. } if change < 0));
    match lost {
        true => (Likely, "your log has a loss in it".to_owned()),
        false if !facts.tank.animals.any() => (Open, "nobody lives there; snails may, and plants rot".to_owned()),
        false => (Open, "count them".to_owned()),
    }
}
