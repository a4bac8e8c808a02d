//! One test or more for each rule of harm that absences, doubled doses, moves and endings touch, named by its number. Each fails if the
//! rule is taken out.

use crate::start;

use crate::start::away;
use crate::start::{HOUSEHOLD, SOFT, Settled, settled, texts, under};
use crate::traced::weigh_trace_mix;
use care::away::{Ask, Away};
use care::missed::doubled;
use care::moving::moving;
use care::stopping::stopping;

fn two_weeks(s: &Settled) -> Away {
    away(&s.tank, &s.plan, Ask::default())
}

fn with_carbon_dioxide() -> Settled {
    settled(&HOUSEHOLD.replace("[tank]", "[tank]\nco2 = \"15 mg/L\""))
}

#[test]
fn rule_4_copper_of_a_slip_is_held_against_its_marks() {
    let s = settled(&HOUSEHOLD.replace("scale = ", "products = [\"trace_mix\"]\nscale = "));
    let mut plan = s.plan.clone();
    // A bottle that brings copper, whatever the recipe chose: a mg in a hundred litres a day.
    let dose = plan.doses.iter_mut().find(|dose| dose.into == recipe::Into::Bottle).expect("a dose");
    dose.brings.push((quantity::Ion::Copper, 0.001));
    let slip = doubled(&s.tank, &plan, 10.0);
    let copper = slip.iter().find_map(|d| d.copper_mg_per_l).expect("shrimps live there");
    assert!(copper > 0.008, "{copper}");
    let says = &slip.iter().find(|d| d.copper_mg_per_l.is_some()).expect("told").says;
    assert!(says.contains("0.004 mg/L on") && says.contains("0.008"), "{says}");
    assert!(slip.iter().any(|d| d.changes > 0), "and it is brought down");
    let mut fish_alone = s.tank.clone();
    fish_alone.animals.shrimps = 0;
    assert!(doubled(&fish_alone, &plan, 10.0).iter().all(|d| d.copper_mg_per_l.is_none()));
}

/// Two litres a day are lost: somebody tops up, from a tap with chlorine and from one without.
fn topped_up(text: &str) -> Settled {
    settled(&text.replace("every = \"7 days\"", "every = \"7 days\"\ntop_up = \"2 L a day\""))
}

#[test]
fn rules_1_2_and_18_no_can_without_its_conditioner_and_no_dry_heater() {
    let s = topped_up(HOUSEHOLD);
    let conditioner = s.plan.new_water.conditioner.as_ref().expect("the tap holds chlorine");
    let a = two_weeks(&s);
    let card = a.card.as_ref().expect("somebody tops up");
    // Cans of at most 10 L: all the litres in as few as hold them; 7.0 mg of 99 % thiosulfate for a mg of chlorine, up to the syringe's step.
    let all = f64::from(a.water.visits) * a.water.each_l;
    let each = all / (all / 10.0).ceil();
    let mg_per_ml = 0.99 * 1000.0 * conditioner.stock_g / conditioner.stock_ml;
    let ml = each * 7.0 * conditioner.chlorine_mg_per_l / mg_per_ml;
    let told = card.pouring[0].split_once("IS IN (").and_then(|(_, rest)| rest.split_once(" mL")).expect("an amount").0;
    let told: f64 = told.parse().expect("a number");
    assert!(told >= ml - 1e-9 && told <= ml + 1.0, "{told} for {ml}: {card:?}");
    assert!(card.pouring[0].contains("stirred, 5 minutes") && card.pouring[0].contains("no such label, pour nothing"));
    assert!(card.pouring[1].contains("plug out, and 15 minutes"), "{card:?}");
    assert!(card.never.iter().any(|line| line.contains("Nothing from any bottle: what the cans need is in them")));
    let before = under(&a.before, "Water for topping up");
    assert!(
        before.contains(&format!("{told} mL of the conditioner")) && before.contains("CONDITIONER IS IN"),
        "{before}"
    );
    assert!(before.contains("gills are hurt from about 0.02 mg/L"), "{before}");
    // A tap without chlorine needs none, and one that is refused fills no can.
    let none = two_weeks(&topped_up(start::EMPTY));
    assert!(!none.card.expect("a card").pouring[0].contains("CONDITIONER"));
    let copper = topped_up(&HOUSEHOLD.replace("copper = \"0.002 mg/L\"", "copper = \"0.02 mg/L\""));
    assert!(under(&two_weeks(&copper).before, "Water for topping up").contains("Not from your tap"));
}

#[test]
fn rules_7_and_10_nobody_leaves_while_ammonia_shows() {
    let away = two_weeks(&settled(HOUSEHOLD));
    let says = under(&away.before, "The week before");
    assert!(says.contains("Ammonia, nitrite") && says.contains("don’t leave before its test is low"), "{says}");
}

#[test]
fn rule_6_what_a_day_bears() {
    // From a middling to a soft tap: steps, each told with its limits.
    let (old, new) = (settled(HOUSEHOLD), settled(SOFT));
    let m = moving((&old.tank, &old.plan), (&new.tank, &new.plan), &[], &start::at(0));
    assert!(m.steps.len() > 2, "{:?}", m.steps);
    let each = under(&m.notes, "Each day");
    assert!(
        each.contains("0.36 meq/L") && each.contains("1 German degree of hardness") && each.contains("a tenth"),
        "{each}"
    );
    // Back home the missing water comes in portions of a tenth.
    let back = texts(&two_weeks(&old).back);
    assert!(back.contains("in three portions, a day apart: At most a tenth of the conductivity"), "{back}");
    // A slip is told with the number up to which no harm is known.
    let over = doubled(&old.tank, &old.plan, 100.0);
    assert!(over.iter().any(|d| d.says.contains("no harm known to me below 10 mg/L in a day")), "{over:?}");
}

#[test]
fn rule_7_what_raises_ph_is_checked_for_ammonia() {
    let (soft, hard) = (settled(SOFT), settled(HOUSEHOLD));
    let m = moving((&soft.tank, &soft.plan), (&hard.tank, &hard.plan), &[], &start::at(0));
    let says = under(&m.notes, "Ammonia");
    assert!(says.contains("harm starts at") && says.contains("test ammonia before and after"), "{says}");
    let down = moving((&hard.tank, &hard.plan), (&soft.tank, &soft.plan), &[], &start::at(0));
    assert!(under(&down.notes, "Ammonia").is_empty(), "pH falls: {:?}", down.notes);
    let closed = texts(&two_weeks(&with_carbon_dioxide()).before);
    assert!(closed.contains("pH then rises from") && closed.contains("harm starts at"), "{closed}");
    let food = texts(&two_weeks(&hard).reduced);
    assert!(food.contains("of it toxic") && food.contains("Harm starts at 0.016 mg/L"), "{food}");
}

#[test]
fn rule_8_an_old_tank_never_gets_a_big_change() {
    let old = settled(&HOUSEHOLD.replace("fish = 12", "fish = 12\nunchanged_months = 6"));
    let new = settled(SOFT);
    let m = moving((&old.tank, &old.plan), (&new.tank, &new.plan), &[], &start::at(0));
    assert!(m.steps.iter().all(|step| step.share <= 0.1 + 1e-12), "{:?}", m.steps);
    assert!(under(&m.notes, "An old tank").contains("a tenth, again each hour, with an ammonia test"));
    let back = |s: &start::Settled| under(&two_weeks(s).back, "Test, then change").to_owned();
    let tenths = "then your usual change in tenths: An old acid tank that was long unchanged never gets a big change: a tenth, again each hour, with an ammonia test";
    assert!(back(&old).contains(tenths), "{}", back(&old));
    let young = back(&settled(HOUSEHOLD));
    assert!(young.contains("then your usual change, 36.3 L") && !young.contains("tenth"), "{young}");
    let slip = doubled(&old.tank, &old.plan, 100.0);
    assert!(!slip.is_empty());
    for d in &slip {
        assert!(d.changes == 0 && d.says.contains("no more of them than planned"), "{}", d.says);
        assert!(d.says.contains("no dose meanwhile"), "{}", d.says);
    }
}

#[test]
fn rule_4_copper_of_a_dose_given_many_times_counts_at_the_worst_that_is_sold() {
    // A gram of 100 g is copper where the label does not say: 0.01 g × 1.5 % × 1000 ÷ 100 L = 0.0015 mg/L a day; nine doses more than the
    // day's own lift it by 0.0135 over what stands there.
    let mut s = settled(HOUSEHOLD);
    let unknown = quantity::Known::exact(0.015, quantity::Kind::Assumed);
    weigh_trace_mix(&mut s.tank, &mut s.plan, unknown);
    let stands = s.plan.levels.iter().find(|level| level.ion == Some(quantity::Ion::Copper)).expect("counted");
    let by_hand = stands.may_reach() + 9.0 * 0.0015;
    let ten = &doubled(&s.tank, &s.plan, 10.0)[0];
    let copper = ten.copper_mg_per_l.expect("shrimps live there");
    assert!((copper - by_hand).abs() < 1e-9, "{copper} {by_hand}");
    assert!(ten.says.contains("above 0.008 I change water at once"), "{}", ten.says);
    s.tank.animals.shrimps = 0;
    assert_eq!(doubled(&s.tank, &s.plan, 10.0)[0].copper_mg_per_l, None, "fish alone: no matter of this rule");
}

#[test]
fn rule_6_every_limit_that_a_dose_given_many_times_passes_is_named() {
    let rich = HOUSEHOLD.replace("wish = \"comfortable\"", "wish = \"plenty\"");
    let s = settled(&rich);
    let many = doubled(&s.tank, &s.plan, 60.0);
    assert!(many.iter().any(|d| d.rises.iter().filter(|rise| rise.rise > rise.most).count() >= 2), "{many:?}");
    for d in &many {
        for rise in d.rises.iter().filter(|rise| rise.rise > rise.most) {
            assert!(d.says.contains(&format!("{} by ", rise.what)), "{}: {}", rise.what, d.says);
        }
    }
}

#[test]
fn rule_6_alkalinity_that_runs_low_while_away_is_told() {
    // What is left: 0.4 less 28 days of what nitrification of the reduced food eats at most, 0.02 meq/L a day at home's food.
    let mut s = settled(HOUSEHOLD);
    let four_weeks = Ask { days: 28, ..Ask::default() };
    let plenty = away(&s.tank, &s.plan, four_weeks);
    assert!(plenty.alkalinity_left_meq_per_l > 0.36 && under(&plenty.reduced, "Alkalinity").is_empty());
    s.plan.alkalinity.after_change = quantity::Known::exact(0.4, quantity::Kind::Measured);
    s.tank.growth.alkalinity_eaten_meq_per_l_day = quantity::Known::exact(0.02, quantity::Kind::Assumed);
    let low = away(&s.tank, &s.plan, four_weeks);
    assert!((low.alkalinity_left_meq_per_l - (0.4 - 28.0 * low.meals.share * 0.02)).abs() < 1e-9);
    assert!(under(&low.reduced, "Alkalinity").contains("0.36 meq/L"), "{}", texts(&low.reduced));
}

#[test]
fn rule_10_a_missed_dose_is_never_made_up_for() {
    let s = settled(HOUSEHOLD);
    let answer = care::missed::missed(&s.tank, &s.plan, Some(3), &[], &start::at(0));
    assert!(answer.answer.contains("never what was missed on top of it"), "{}", answer.answer);
    let notes = texts(&answer.notes);
    assert!(notes.contains("Two doses at once lift the water by twice as much in a day"), "{notes}");
    assert!(!notes.contains("really?"), "nobody gave ten times a dose: {notes}");
}

#[test]
fn rule_13_carbon_dioxide_is_never_raised_before_absence_and_the_filter_stays() {
    let says = texts(&two_weeks(&with_carbon_dioxide()).before);
    for part in [
        "Never raise carbon dioxide before you leave",
        "leave it closed",
        "never switched off for carbon dioxide",
        "never pinched",
        // Rule 14.
        "Never pinch the tube of a yeast or acid bottle",
    ] {
        assert!(says.contains(part), "{part}: {says}");
    }
    let card = two_weeks(&with_carbon_dioxide()).card.expect("a card");
    assert!(card.wrong.iter().any(|line| line.contains("carbon dioxide off (valve closed), air pump on")), "{card:?}");
    assert!(card.wrong.iter().any(|line| line.contains("out of the room") && line.contains("don’t go back")));
    assert!(card.never.iter().any(|line| line.contains("No plug pulled from filter or air pump")));
}

#[test]
fn rule_17_never_released_and_the_law_first() {
    let s = settled(HOUSEHOLD);
    let end = stopping(&s.tank, &s.plan);
    assert_eq!(end[0].about, "The law first");
    assert!(end[0].text.contains("Never release a plant or an animal"));
    assert!(under(&end, "Animals").contains("None into a pond, stream or toilet"));
    assert!(under(&end, "Plants").contains("in the freezer") && under(&end, "Plants").contains("household waste"));
    assert!(under(&end, "Water").contains("Never into a street drain"));
    let place = |about: &str| end.iter().position(|note| note.about == about).expect("there");
    assert!(place("Animals") < place("Then the plugs"), "filter and heater run until they are gone");
}

#[test]
fn rules_20_and_23_plugs_first_and_no_mouth_at_a_siphon() {
    let s = settled(HOUSEHOLD);
    let before = texts(&two_weeks(&s).before);
    let day_before = two_weeks(&s).before;
    assert!(under(&day_before, "The day before").contains("before your hands go in"));
    // Rule 18.
    assert!(under(&day_before, "The day before").contains("15 minutes' wait before the water falls"));
    let wait = &knowledge::book().harm.limit.heater_wait_min.say;
    assert!(wait.contains("15 minutes"), "{wait}");
    assert!(under(&day_before, "Water for topping up").contains(wait.as_str()), "{before}");
    assert!(
        before.contains("30 mA")
            && before.contains("loop below its socket")
            && before.contains("Never start a siphon by mouth")
    );
    let card = two_weeks(&s).card.expect("a card");
    assert!(
        card.wrong[0].contains("don't touch them before the power is off"),
        "danger to the person stands first: {card:?}"
    );
    assert!(card.never.iter().any(|line| line.contains("No hands in the water")));
    let end = texts(&stopping(&s.tank, &s.plan));
    assert!(end.contains("before your hands go in") && end.contains("Never start a siphon by mouth"));
    let new = settled(SOFT);
    let m = moving((&s.tank, &s.plan), (&new.tank, &new.plan), &[], &start::at(0));
    assert!(under(&m.notes, "Moving house: first").contains("before your hands go in"));
}

#[test]
fn rule_22_salts_go_as_their_labels_say() {
    let owned = settled(&HOUSEHOLD.replace("scale = ", "products = [\"potassium_nitrate\"]\nscale = "));
    let says = under(&stopping(&owned.tank, &owned.plan), "Salts and bottles").to_owned();
    for part in [
        "collection of hazardous waste",
        "Potassium nitrate: feeds a fire",
        "Never in a drinks bottle",
        "poison centre",
        "Never two poured together",
    ] {
        assert!(says.contains(part), "{part}: {says}");
    }
    let away = texts(&two_weeks(&owned).before);
    assert!(away.contains("locked away") && away.contains("NOT TO DRINK"), "{away}");
    assert!(under(&two_weeks(&owned).before, "Out of reach").contains("Never in a drinks bottle"), "{away}");
}

#[test]
fn rule_24_no_filled_glass_is_carried() {
    let (old, new) = (settled(HOUSEHOLD), settled(SOFT));
    let m = moving((&old.tank, &old.plan), (&new.tank, &new.plan), &[], &start::at(0));
    let says = under(&m.notes, "Glass");
    assert!(says.contains("Empty of water") && says.contains("I can't tell"), "{says}");
    // Cans of at most 10 L (rule 5).
    assert!(under(&m.notes, "Old water along").contains("cans of at most 10 L"));
}

#[test]
fn rules_1_and_4_a_tap_that_is_refused_gets_no_steps() {
    let old = settled(HOUSEHOLD);
    let copper = settled(&HOUSEHOLD.replace("copper = \"0.002 mg/L\"", "copper = \"0.02 mg/L\""));
    let m = moving((&old.tank, &old.plan), (&copper.tank, &copper.plan), &[], &start::at(0));
    assert!(m.steps.is_empty() && m.answer.starts_with("Not with this tap"), "{}", m.answer);
    let slip = doubled(&copper.tank, &copper.plan, 1000.0);
    assert!(!slip.is_empty() && slip.iter().all(|d| d.changes == 0), "no change with it either: {slip:?}");
    assert!(slip.iter().all(|d| d.says.contains("No change with your tap") && d.says.contains("0.008")), "{slip:?}");
    let chlorine = settled(&HOUSEHOLD.replace("total_chlorine = \"0.4 mg/L\"", "total_chlorine = \"8 mg/L\""));
    let m = moving((&old.tank, &old.plan), (&chlorine.tank, &chlorine.plan), &[], &start::at(0));
    assert!(m.steps.is_empty() && m.answer.contains("upplier"), "{}", m.answer);
}

#[test]
fn a_soil_tank_misses_no_dose() {
    let s = settled(start::SOIL);
    assert!(care::missed::missed(&s.tank, &s.plan, Some(3), &[], &start::at(0)).levels.is_empty());
    assert!(doubled(&s.tank, &s.plan, 2.0).is_empty());
    assert!(!two_weeks(&s).answer.contains("dose"), "{}", two_weeks(&s).answer);
}

/// An alarm of the log holds here as on Care (harm rules 7 and 15): nobody leaves under it, and no paper of food is weighed.
#[test]
fn under_an_alarm_nobody_leaves_and_nobody_is_fed() {
    let s = topped_up(HOUSEHOLD);
    let ill = [crate::start::read(0, "ammonia_n", 2.0, false)];
    let at = ill[0].entry.at.clone();
    let away = |log: &[logbook::Kept]| care::away::away(&s.tank, &s.plan, Ask::default(), log, &at);
    let (well, ill) = (away(&[]), away(&ill));
    assert!(well.alarms.is_empty() && well.meals.count > 0 && under(&well.before, "Food").contains("papers"));
    let day = care::day(&s.tank, &s.plan, &[crate::start::read(0, "ammonia_n", 2.0, false)], &at);
    assert!(!ill.alarms.is_empty() && ill.alarms.iter().all(|alarm| day.alarms.contains(alarm)), "the same as Care's");
    assert_eq!(ill.meals.count, 0);
    assert!(ill.answer.starts_with("Don’t leave yet") && ill.before[0].about == "Don’t leave yet", "{}", ill.answer);
    let says = texts(&ill.before);
    assert!(says.contains("nobody is fed until a test is low again") && !says.contains("folded papers"), "{says}");
    assert!(ill.before[1].text.contains(&ill.alarms[0].says[0]), "{}", ill.before[1].text);
    let card = ill.card.expect("water is topped up");
    assert!(card.never[0].starts_with("No food at all"), "{card:?}");
    assert!(card.visits.iter().all(|visit| visit.acts.iter().all(|act| !act.contains("paper"))));
    // Nitrate that is high for shrimps waits until they are back.
    let rich = away(&[crate::start::read(0, "nitrate", 80.0, false)]);
    assert!(rich.alarms.is_empty() && rich.meals.count > 0);
}
