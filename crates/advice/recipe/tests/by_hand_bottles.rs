//! Bottles, by hand: grams, doses, days, ceilings and cost again from molar masses and plain arithmetic.
//!
//! Molar masses are sums of IUPAC abridged atomic weights (Prohaska et al. 2022): K 39.098, N 14.007, O 15.999, P 30.974,
//! H 1.008, S 32.06, Cl 35.45, Mg 24.305, Na 22.990. The salts are sold 99 % pure (common practice).

use crate::common;

use crate::common::{exact, tank};
use quantity::Ion;
use recipe::{Bottle, Into, Plan, plan};
use setup::Tank;

/// mg of an ion in a gram of the pure salt: ion mass × count ÷ molar mass.
fn by_hand(product: &str, ion: Ion) -> Option<f64> {
    let (k, n, o, p, h, s, cl, mg, na) = (39.098, 14.007, 15.999, 30.974, 1.008, 32.06, 35.45, 24.305, 22.990);
    let (no3, po4, so4, water) = (n + 3.0 * o, p + 4.0 * o, s + 4.0 * o, 2.0 * h + o);
    let share = match (product, ion) {
        ("potassium_nitrate", Ion::Nitrate) => no3 / (k + no3),
        ("potassium_nitrate", Ion::Potassium) => k / (k + no3),
        ("potassium_dihydrogen_phosphate", Ion::Phosphate) => po4 / (k + 2.0 * h + po4),
        ("potassium_dihydrogen_phosphate", Ion::Potassium) => k / (k + 2.0 * h + po4),
        ("potassium_sulfate", Ion::Potassium) => 2.0 * k / (2.0 * k + so4),
        ("potassium_chloride", Ion::Potassium) => k / (k + cl),
        ("sodium_nitrate", Ion::Nitrate) => no3 / (na + no3),
        ("magnesium_nitrate", Ion::Nitrate) => 2.0 * no3 / (mg + 2.0 * no3 + 6.0 * water),
        ("magnesium_nitrate", Ion::Magnesium) => mg / (mg + 2.0 * no3 + 6.0 * water),
        ("magnesium_sulfate_heptahydrate", Ion::Magnesium) => mg / (mg + so4 + 7.0 * water),
        _ => return None,
    };
    Some(1000.0 * share)
}

/// Product and grams in a bottle.
fn inside(bottle: &Bottle) -> Vec<(&str, f64)> {
    let direct = bottle.weighed.iter().map(|w| (w.product.as_str(), w.grams));
    direct.chain(bottle.from_stock.iter().map(|s| (s.product.as_str(), s.stock_g * s.take_ml / s.stock_ml))).collect()
}

fn tanks() -> Vec<Tank> {
    let mut poor = tank();
    poor.tap.ions.insert(Ion::Nitrate, exact(0.5));
    poor.tap.ions.insert(Ion::Phosphate, exact(0.0));
    poor.tap.ions.insert(Ion::Magnesium, exact(1.0));
    let mut large = poor.clone();
    large.geometry.true_l = exact(450.0);
    let mut coarse = poor.clone();
    coarse.at_hand.scale_g = exact(1.0);
    let mut fine = poor.clone();
    fine.at_hand.scale_g = exact(0.01);
    fine.at_hand.syringe_ml = exact(0.1);
    fine.geometry.true_l = exact(20.0);
    vec![tank(), poor, large, coarse, fine]
}

#[test]
fn a_bottle_gives_the_dose_that_the_level_counts_with() {
    let mut checked = 0;
    for tank in tanks() {
        let plan = plan(&tank);
        for ion in [Ion::Nitrate, Ion::Phosphate, Ion::Magnesium, Ion::Potassium] {
            let Some(level) = plan.levels.iter().find(|l| l.ion == Some(ion)) else { continue };
            // g in the bottle × mg/g × 0.99 pure × share of the bottle that is a day's dose ÷ litres.
            let mut a_day = 0.0;
            for bottle in &plan.bottles {
                for (product, grams) in inside(bottle) {
                    let mg = by_hand(product, ion).unwrap_or(0.0);
                    a_day += grams * mg * 0.99 * bottle.daily_ml / bottle.volume_ml / tank.geometry.true_l.value;
                }
            }
            assert!(
                (a_day - level.dose_per_day).abs() < 1e-6 * level.dose_per_day.max(1.0),
                "{ion:?}: {a_day} {}",
                level.dose_per_day
            );
            checked += usize::from(a_day > 0.0);
        }
    }
    assert!(checked >= 8, "only {checked} doses were checked");
}

#[test]
fn weighed_on_the_scale_drawn_up_with_the_syringe_dissolved_at_the_coldest() {
    for tank in tanks() {
        let (scale, syringe) = (tank.at_hand.scale_g.value, tank.at_hand.syringe_ml.value);
        let steps = |value: f64, step: f64| (value / step - (value / step).round()).abs() < 1e-6;
        for bottle in plan(&tank).bottles {
            assert!(steps(bottle.daily_ml, syringe));
            for w in &bottle.weighed {
                assert!(steps(w.grams, scale) && w.grams >= 5.0 * scale - 1e-9, "five steps at the least: {w:?}");
                assert!(w.grams / bottle.volume_ml * 1000.0 <= w.soluble_g_per_l, "{w:?}");
            }
            for s in &bottle.from_stock {
                assert!(steps(s.stock_g, scale) && s.stock_g >= 5.0 * scale - 1e-9, "{s:?}");
                assert!(steps(s.take_ml, syringe), "{s:?}");
            }
        }
    }
}

#[test]
fn seventy_per_cent_of_saturation_at_ten_degrees() {
    // Potassium nitrate: 20.9 g in 100 g of water at 10 °C (an encyclopaedia's table). 70 % of what a litre of that holds
    // is less than 0.7 × 209 = 146 g, and more than 0.7 × 209 ÷ (1 + 0.209) = 121 g.
    let mut thirsty = tank();
    thirsty.tap.ions.insert(Ion::Nitrate, exact(0.0));
    let plan = plan(&thirsty);
    let nitrate = plan.bottles.iter().flat_map(|b| &b.weighed).find(|w| w.product == "potassium_nitrate");
    let soluble = nitrate.expect("potassium nitrate, weighed").soluble_g_per_l;
    assert!((121.0..146.3).contains(&soluble), "{soluble}");
}

#[test]
fn the_error_of_scale_and_syringe() {
    let plan = plan(&tank());
    let mut checked = 0;
    for w in plan.bottles.iter().flat_map(|b| &b.weighed) {
        let why = plan.why(&w.why).expect("a why");
        // At the least half a step of the scale (0.05 g) and half a step of the syringe (0.25 of 5 mL); at the most a whole
        // step of the scale more, for the rounding.
        let (least, most) = (0.05 / (w.grams + 0.05) + 0.05, 0.10 / (w.grams - 0.05) + 0.05);
        assert!((least..=most + 1e-9).contains(&w.error_share), "{} {least} {most}", w.error_share);
        assert!(why.sum.contains("60 doses"), "300 mL ÷ 5 mL: {}", why.sum);
        checked += 1;
    }
    assert!(checked > 0);
}

#[test]
fn what_must_not_share_a_bottle_does_not() {
    for tank in tanks() {
        for bottle in plan(&tank).bottles {
            let keys: Vec<&str> = inside(&bottle).iter().map(|(key, _)| *key).collect();
            let products: Vec<_> = keys.iter().filter_map(|key| knowledge::book().product(key)).collect();
            assert!(knowledge::book().may_share(&products).is_ok(), "{keys:?}");
            let iron = products.iter().any(|p| p.mg_per_g(Ion::Iron) > 0.0);
            assert!(!(iron && products.iter().any(|p| p.mg_per_g(Ion::Phosphate) > 0.0)), "iron apart from phosphate");
            assert_eq!(bottle.time_of_day, if iron { "every evening" } else { "every morning" });
        }
    }
}

#[test]
fn refused_above_the_day_that_reaches_the_first_ceiling() {
    // By hand for each bottle: 5 mL × the smallest of 10 ÷ NO3, 10 ÷ K, 1 ÷ PO4, 0.2 ÷ Fe, down to half a millilitre.
    let plan = plan(&tank());
    for bottle in &plan.bottles {
        let products: Vec<&str> = inside(bottle).iter().map(|(key, _)| *key).collect();
        let rise = |ion: Ion| {
            let doses = plan.doses.iter().filter(|d| d.into == Into::Bottle && products.contains(&d.product.as_str()));
            doses.flat_map(|d| &d.brings).filter(|(i, _)| *i == ion).fold(0.0, |sum, (_, mg)| sum + mg)
        };
        let all = [(Ion::Nitrate, 10.0), (Ion::Potassium, 10.0), (Ion::Phosphate, 1.0), (Ion::Iron, 0.2)];
        let times = all.iter().map(|(ion, most)| most / rise(*ion)).fold(f64::INFINITY, f64::min);
        let expected = (5.0 * times / 0.5 + 1e-9).floor() * 0.5;
        assert!((bottle.refuse_above_ml - expected).abs() < 1e-6, "{} {expected}", bottle.refuse_above_ml);
        assert!(
            bottle.ask_above_ml < 10.0 * bottle.daily_ml || bottle.refuse_above_ml <= 10.0 * bottle.daily_ml,
            "ten times is asked"
        );
    }
}

#[test]
fn a_month_of_a_pack() {
    let tank = tank();
    let plan = plan(&tank);
    let bought = |product: &str| plan.shopping.iter().find(|p| p.product == product).expect("on the list");
    let (bottle, weighed) = bottle_with(&plan, "potassium_nitrate");
    // A kilogram for 9.00 (assumed): so many grams a bottle, a bottle every 60 days, 30.44 days a month.
    let days = 1000.0 / (weighed / bottle.lasts_days);
    let line = bought("potassium_nitrate");
    assert!((line.lasts_days.expect("a salt") - days).abs() < 1e-6 * days);
    assert!((line.a_month_minor - 900.0 * (365.25 / 12.0) / days).abs() < 1e-9);
    // The keeper's own price goes first.
    let mut told = tank;
    told.prices.insert("potassium_nitrate".to_owned(), 500.0);
    let told = recipe::plan(&told);
    let line = told.shopping.iter().find(|p| p.product == "potassium_nitrate").expect("on the list");
    assert_eq!((line.price_minor.value, line.price_minor.kind), (500.0, quantity::Kind::Measured));
}

fn bottle_with<'a>(plan: &'a Plan, product: &str) -> (&'a Bottle, f64) {
    let found = plan.bottles.iter().find_map(|b| b.weighed.iter().find(|w| w.product == product).map(|w| (b, w.grams)));
    found.unwrap_or_else(|| panic!("no {product} in {:?}", plan.bottles))
}

#[test]
fn iron_by_ph() {
    // Aired, this tap stands at pH 8.0 to 8.4. EDTA holds to about 6.5, DTPA to 7.5 (Norvell 1972, from memory), EDDHA to 9;
    // gluconate is held weakly. So EDDHA, 6 % iron: g a day × 60 mg/g = mg/L × 100 L.
    let iron = |tank: &Tank| {
        let plan = plan(tank);
        let dose = plan.doses.iter().find(|d| d.brings.iter().any(|(ion, _)| *ion == Ion::Iron)).cloned();
        dose.expect("iron is dosed")
    };
    let eddha = iron(&tank());
    assert_eq!(eddha.product, "iron_eddha");
    assert!((eddha.amount * 60.0 / 100.0 - eddha.brings[0].1).abs() < 1e-9, "{eddha:?}");
    // Near pH 6.9 to 7.3 DTPA and EDDHA hold, EDTA and gluconate do not.
    let mut soft = tank();
    soft.tap = common::water("soft", &[(Ion::Calcium, 3.0), (Ion::Sodium, 2.0), (Ion::Chloride, 3.0)], 0.15);
    soft.wish.bands.insert(Ion::Calcium, (1.0, 40.0));
    soft.wish.bands.insert(Ion::Magnesium, (0.0, 40.0));
    assert!(["iron_dtpa", "iron_eddha"].contains(&iron(&soft).product.as_str()));
}

#[test]
fn what_no_kit_shows_is_left_out() {
    for tank in tanks() {
        for dose in plan(&tank).doses.iter().filter(|d| d.into == Into::Bottle) {
            let lifts = |ion: Ion, low: f64| {
                let mg = dose.brings.iter().filter(|(i, _)| *i == ion).fold(0.0, |sum, (_, mg)| sum + mg);
                mg * 7.0 / 0.25 / low
            };
            // Lower edges of "comfortable" in middling light; a tenth off for the rounding of the scale.
            let edges = [
                (Ion::Nitrate, 6.0),
                (Ion::Phosphate, 0.3),
                (Ion::Potassium, 6.0),
                (Ion::Magnesium, 4.0),
                (Ion::Calcium, 15.0),
                (Ion::Iron, 0.04),
            ];
            assert!(edges.iter().any(|(ion, low)| lifts(*ion, *low) > 0.09), "{dose:?}");
        }
    }
}

#[test]
fn no_more_is_mixed_than_is_given_while_it_keeps() {
    // Half a millilitre a day for the 60 days that a bottle keeps are 30 of its 300 mL.
    let mut tank = tank();
    tank.tap.ions.insert(Ion::Potassium, exact(0.5));
    tank.at_hand.scale_g = exact(0.01);
    tank.at_hand.syringe_ml = exact(0.05);
    tank.at_hand.daily_ml = exact(0.5);
    let plan = plan(&tank);
    assert!(!plan.bottles.is_empty());
    for bottle in &plan.bottles {
        let keeps = bottle.volume_ml / bottle.daily_ml;
        let coarse = bottle.volume_ml == 300.0 && bottle.weighed.iter().any(|w| w.grams < 10.0 * 0.05);
        assert!(coarse || keeps - bottle.lasts_days <= 10.0 / bottle.daily_ml, "{bottle:?}");
    }
    assert!(plan.bottles.iter().any(|bottle| bottle.volume_ml < 300.0));
}

#[test]
fn iron_that_lets_go_is_told_on_its_bottle() {
    // EDTA holds to about 6.5 (Norvell 1972, from memory); this tap stands near 8. EDDHA holds.
    for (key, told) in [("iron_edta", true), ("iron_eddha", false)] {
        let mut tank = tank();
        tank.at_hand.products = vec![key.to_owned()];
        let plan = plan(&tank);
        let (bottle, _) = bottle_or_stock(&plan, key);
        assert_eq!(bottle.handling.iter().any(|text| text.contains("iron leaves it")), told, "{:?}", bottle.handling);
    }
}

fn bottle_or_stock<'a>(plan: &'a Plan, product: &str) -> (&'a Bottle, f64) {
    let found = plan
        .bottles
        .iter()
        .find_map(|b| inside(b).into_iter().find(|(key, _)| *key == product).map(|(_, grams)| (b, grams)));
    found.unwrap_or_else(|| panic!("no {product} in {:?}", plan.bottles))
}

#[test]
fn a_tank_that_is_never_changed() {
    // A share of nothing is no change, whatever the days say.
    let mut tank = tank();
    tank.habits.change_share = exact(0.0);
    tank.tap.ions.insert(Ion::Nitrate, exact(4.0));
    tank.tap.disinfectant = setup::Disinfectant::Chlorine;
    tank.tap.total_chlorine_mg_per_l = exact(0.5);
    let dry = plan(&tank);
    assert_eq!((dry.change.every_days, dry.change.buckets.0), (0, 0));
    assert!(dry.new_water.conditioner.is_none(), "nothing comes in");
    tank.habits.top_up_l_per_day = exact(0.5);
    let conditioner = plan(&tank).new_water.conditioner.expect("the tap tops up");
    let said = conditioner.sentences.iter().chain(&conditioner.more).find(|text| text.contains("change"));
    assert!(said.is_none() && conditioner.sentences[0].starts_with("Before tap water tops up"), "{said:?}");
    // Potassium begins at the tap's 2 mg/L: from the lowest that it comes to, up to 6, in 100 L, by a gram of 99 % of the
    // salt that is bought for it.
    let short = dry.unmet.iter().find(|unmet| unmet.ion == Some(Ion::Potassium)).expect("below its band");
    let level = dry.levels.iter().find(|level| level.ion == Some(Ion::Potassium)).expect("shown");
    let salts = dry.doses.iter().map(|dose| dose.product.as_str());
    let salt = salts.max_by(|a, b| {
        let of = |key: &str| by_hand(key, Ion::Potassium).unwrap_or(0.0);
        of(a).total_cmp(&of(b))
    });
    let per_gram = 0.99 * by_hand(salt.expect("fed"), Ion::Potassium).expect("by hand");
    let grams = (6.0 - level.lowest) * 100.0 / per_gram;
    let weighed = (10.0 * grams).round() / 10.0;
    assert!(short.text.contains(&format!("a starting dose lifts it: {weighed} g of")), "{grams}: {}", short.text);
    assert!(!short.text.contains("left out"), "{}", short.text);
}

#[test]
fn what_rounding_leaves_short_is_told() {
    // A scale of half a gram and one level between narrow edges: half a step is more than a hundredth of the dose.
    let mut told = 0;
    for scale in [0.1, 0.2, 0.3, 0.4, 0.5] {
        let mut tank = tank();
        tank.at_hand.scale_g = exact(scale);
        tank.wish.bands.insert(Ion::Nitrate, (20.0, 20.8));
        let plan = plan(&tank);
        for level in plan.levels.iter().filter(|level| level.band.is_some_and(|band| level.lowest < 0.99 * band.0)) {
            let about =
                |note: &recipe::Note| level.ion.is_some_and(|ion| note.text.to_lowercase().contains(ion.name()));
            assert!(plan.unmet.iter().any(|u| u.ion == level.ion) || plan.left_out.iter().any(about), "{level:?}");
            told += 1;
        }
    }
    assert!(told > 0);
}

#[test]
fn what_stands_in_the_new_water_was_not_left_out() {
    for tank in tanks() {
        let plan = plan(&tank);
        for dose in plan.doses.iter().filter(|dose| dose.into == Into::NewWater) {
            assert!(plan.left_out.iter().all(|note| note.about != dose.product), "{}", dose.product);
        }
    }
}

#[test]
fn the_keepers_own_powder_and_liquid() {
    // A powder with 500 mg/g of nitrate, a liquid with 20 mg/mL: whichever is used brings what its label says.
    for liquid in [false, true] {
        let mut tank = tank();
        tank.tap.ions.insert(Ion::Nitrate, exact(0.5));
        // Enough potassium in the tap: else potassium nitrate is bought anyway and brings the nitrate along.
        tank.tap.ions.insert(Ion::Potassium, exact(11.0));
        let mg = if liquid { 20.0 } else { 500.0 };
        let own = setup::OwnProduct { name: "my own".to_owned(), ions_mg: [(Ion::Nitrate, mg)].into(), liquid };
        tank.at_hand.own.push(own);
        let plan = plan(&tank);
        let dose = plan.doses.iter().find(|d| d.product == "my own").expect("what is owned goes first");
        let (ion, a_day) = dose.brings[0];
        assert!(ion == Ion::Nitrate && (dose.amount * mg / 100.0 - a_day).abs() < 1e-9, "{dose:?}");
        let bottle = plan
            .bottles
            .iter()
            .find(|b| if liquid { b.name == "My own" } else { inside(b).iter().any(|(key, _)| *key == "my own") });
        let bottle = bottle.expect("its own bottle");
        if liquid {
            assert!((bottle.daily_ml - dose.amount).abs() < 1e-9 && bottle.weighed.is_empty());
        } else {
            assert_eq!(inside(bottle).len(), 1, "shares with nothing");
            assert!((inside(bottle)[0].1 * bottle.daily_ml / bottle.volume_ml - dose.amount).abs() < 1e-9);
        }
    }
}

/// Judge: by rule. Iron that nobody measured may be there in plenty: what brings nothing else may wait. Measured, or owned, it
/// does not.
#[test]
fn what_only_an_unmeasured_tap_asks_for_may_wait() {
    let mut tank = common::tank();
    let feared = quantity::Known::ranged(0.0, 0.02, 0.2, quantity::Kind::Assumed);
    tank.wish.bands.insert(quantity::Ion::Iron, (0.04, 0.1));
    tank.tap.ions.insert(quantity::Ion::Iron, feared);
    let plan = recipe::plan(&tank);
    let bought: Vec<&str> =
        plan.shopping.iter().map(|p| p.product.as_str()).filter(|p| p.starts_with("iron")).collect();
    let waits = recipe::may_wait(&plan);
    assert_eq!((bought.len(), waits.len()), (1, 1), "{bought:?} {waits:?} {:?}", plan.unmet);
    assert!(waits[0].contains("may wait: nobody has measured iron"), "{waits:?}");
    tank.tap.ions.insert(quantity::Ion::Iron, quantity::Known { kind: quantity::Kind::Measured, ..feared });
    assert!(recipe::may_wait(&recipe::plan(&tank)).is_empty());
}
