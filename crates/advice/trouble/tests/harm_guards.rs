//! Guards and bad ends in the sums of Help now, each beside the same tank at its bad end or a sum by hand: take one out, and its rule fails.
//!
//! Judge: the limits of the rules of harm; hand arithmetic beside each check; a range must count as its bad end told alone.

use crate::common::{answer, close, figure, now, read, sum, told, with_log, words, work};
use trouble::{CHANGE_MOST, Urgency, outcomes, reading_harms, worked};

const NO_AMMONIUM: (&str, &str) = ("tap.ammonium", "0 mg/L NH4");
const OLD: (&str, &str) = ("animals.unchanged_months", "8");

/// One figure of a trouble.
fn of(trouble: &str, fields: &[(&str, &str)], readings: &[(&str, &str)], key: &str, name: &str) -> f64 {
    figure(sum(&work(trouble, fields, readings), key), name)
}

#[test]
fn rule_13_the_early_end_of_breath_counts_all_that_is_bad() {
    // 20 fish of 4 g at 400 mg/kg/h in 200 L: 0.16 mg/L an hour, and 0.25 for life: 0.41. Surface 1 cm/h over 40 cm, for oxygen at 25 °C
    // (as in `by_hand_power`): 0.025 x 1.0868 x 1.1259 = 0.03059 /h. O* 8.263, start 0.6 x 8.263 = 4.958, O_inf 8.263 - 13.403 = -5.140;
    // ln((4.958 + 5.140)/(4 + 5.140))/0.03059 = 0.0997/0.03059 = 3.26 h.
    let early = |fields: &[(&str, &str)]| of("power-cut", fields, &[], "oxygen-hours", "hours_early");
    close(early(&[]), 3.26, 0.03);
    // As warm as it may be, 26 °C: O* 8.113, 0.03133 /h, start 4.868, O_inf -4.974: ln(9.842/8.974)/0.03133 = 2.95 h.
    close(early(&[("tank.temperature", "24 to 26 °C")]), 2.95, 0.03);
    // Young fish need 5, more than there may be at dawn: at once.
    assert_eq!(early(&[("animals.young", "true")]), 0.0);
    let worked = work("power-cut", &[("animals.young", "true")], &[]);
    assert_eq!(sum(&worked, "oxygen-hours").urgency, Urgency::AtOnce);
    assert!(words(sum(&worked, "oxygen-hours")).contains("Begin to move the water at once"), "{worked:?}");
}

#[test]
fn rule_12_the_upper_end_of_carbon_dioxide_that_is_read_or_given() {
    let urgency = |fields: &[(&str, &str)], readings: &[(&str, &str)]| {
        sum(&work("carbon-dioxide", fields, readings), "carbon-dioxide").urgency
    };
    // 25 given may be 35, over 30; 15 may be 21.
    assert_eq!(urgency(&[("tank.co2", "25 mg/L")], &[]), Urgency::AtOnce);
    assert_eq!(urgency(&[("tank.co2", "15 mg/L")], &[]), Urgency::BeforeTheNextChange);
    // Likely 28, and the upper end over 30: as in `harm`, from the log.
    let log = [(2.0, read("ph", 6.95)), (2.0, read("alkalinity", 2.8))];
    let (answer, mut told) = (answer(&[]), told(&[]));
    told.hear(
        &log.iter().zip(1..).map(|((ago, what), id)| crate::common::kept(id, *ago, what.clone())).collect::<Vec<_>>(),
        &now(),
    );
    let all = outcomes(&answer);
    let harms = reading_harms(&all.first().unwrap().case(&told));
    assert!(harms.is_some_and(|read| read.says.starts_with("Off now, air on") && read.anew.is_none()));
    // A pH of today beside an alkalinity of days ago says nothing of today.
    let apart = [(2.0, read("ph", 6.95)), (90.0, read("alkalinity", 2.8))];
    let mut told = trouble::Told::default();
    told.hear(
        &apart.iter().zip(1..).map(|((ago, what), id)| crate::common::kept(id, *ago, what.clone())).collect::<Vec<_>>(),
        &now(),
    );
    assert!(reading_harms(&all.first().unwrap().case(&told)).is_none());
}

#[test]
fn rule_7_warmth_counts_at_its_upper_end() {
    let tank = ("tank.temperature", "22 to 28 °C");
    let readings = [("ammonia", "0.5 mg/L N"), ("ph", "8")];
    let at_28 = [readings.to_vec(), vec![("temperature", "28 °C")]].concat();
    for name in ["nh3_high_mg_n_per_l", "harm_from_mg_n_per_l", "now_mg_n_per_l"] {
        let value = |readings: &[(&str, &str)]| of("ammonia", &[tank, NO_AMMONIUM], readings, "toxic-ammonia", name);
        close(value(&readings), value(&at_28), 1e-9);
    }
    // The criterion for snails too, which goes by warmth itself.
    let snails = |readings: &[(&str, &str)]| {
        of("ammonia", &[tank, ("animals.snails", "9")], readings, "toxic-ammonia", "harm_from_mg_n_per_l")
    };
    close(
        snails(&[("ammonia", "1 mg/L N"), ("ph", "7")]),
        snails(&[("ammonia", "1 mg/L N"), ("ph", "7"), ("temperature", "28 °C")]),
        1e-9,
    );
    // What is brought in a bucket goes by the same end, so no more may be changed than at 28 °C.
    let bucket = [("tap_ammonia", "1 mg/L N"), ("ph", "8")];
    let most = |readings: &[(&str, &str)]| of("ammonia", &[tank], readings, CHANGE_MOST, "share_most");
    close(most(&bucket), most(&[bucket.to_vec(), vec![("temperature", "28 °C")]].concat()), 1e-9);
    assert!(most(&bucket) < 0.5);
    // An old reading of the thermometer narrows nothing: 22 °C of five days ago beside a tank told at up to 28, and 29 °C of then.
    let from = |c: f64| {
        let worked = with_log("ammonia", &[tank], &readings, &[(120.0, read("temperature", c))]);
        figure(sum(&worked, "toxic-ammonia"), "harm_from_mg_n_per_l")
    };
    close(from(22.0), of("ammonia", &[tank], &at_28, "toxic-ammonia", "harm_from_mg_n_per_l"), 1e-9);
    assert!(from(29.0) < from(22.0));
}

#[test]
fn rule_7_ph_counts_at_its_upper_end_for_snails_and_when_it_is_old() {
    // pH 7.0 is worth 0.1 either way: harm for snails starts where it likely starts at 7.1.
    let from = |ph: &str, name: &str| {
        let readings = [("ammonia", "1 mg/L N"), ("ph", ph), ("temperature", "24 °C")];
        of("ammonia", &[("animals.snails", "9")], &readings, "toxic-ammonia", name)
    };
    close(from("7.0", "harm_from_mg_n_per_l"), from("7.1", "harm_from_likely_mg_n_per_l"), 1e-9);
    // By hand, US EPA 2013: 0.8876 (0.0278/(1 + 10^0.588) + 1.1994/(1 + 10^-0.588)) x 2.126 x 10^(0.028 (20 - 24)) = 1.40.
    close(from("7.0", "harm_from_mg_n_per_l"), 1.40, 0.02);
    // An old pH may have risen to the aired water's upper end.
    let (answer, log) = (answer(&[]), [(120.0, read("ph", 7.0))]);
    let aired = outcomes(&answer).first().unwrap().plan.aired.as_ref().unwrap().ph.high;
    let readings = [("ammonia", "1 mg/L N"), ("temperature", "24 °C")];
    let old = with_log("ammonia", &[], &readings, &log);
    let ph = format!("{}", aired - 0.1);
    let told = [readings.to_vec(), vec![("ph", &*ph)]].concat();
    let name = "nh3_high_mg_n_per_l";
    close(figure(sum(&old, "toxic-ammonia"), name), of("ammonia", &[], &told, "toxic-ammonia", name), 1e-6);
}

#[test]
fn rule_7_a_change_must_help_at_the_ph_that_was_read_last_too() {
    // Hard alkaline tap, soft acid tank, pH 6.9 three days ago: aired the tank would stand as high as the tap and a change would thin it; as it
    // was read each change raises pH.
    let fields = [("tap.alkalinity", "6 meq/L"), ("tap.ph", "8.4"), ("tap.calcium", "120 mg/L"), NO_AMMONIUM];
    let readings = [("ammonia", "6 mg/L N"), ("alkalinity", "0.8 meq/L")];
    let worked = with_log("ammonia", &fields, &readings, &[(72.0, read("ph", 6.9))]);
    assert!(words(sum(&worked, "toxic-ammonia")).contains("No change with this water"), "{worked:#?}");
}

#[test]
fn rules_3_and_7_what_a_tap_brings_counts_at_its_upper_end() {
    let readings = [("ammonia", "3 mg/L N"), ("ph", "8"), ("temperature", "25 °C")];
    let left = |fields: &[(&str, &str)]| of("ammonia", fields, &readings, "toxic-ammonia", "left_mg_n_per_l");
    close(left(&[("tap.ammonium", "0.1 to 1 mg/L NH4")]), left(&[("tap.ammonium", "1 mg/L NH4")]), 1e-9);
    assert!(left(&[("tap.ammonium", "0.1 mg/L NH4")]) < left(&[("tap.ammonium", "1 mg/L NH4")]));
    close(left(&[NO_AMMONIUM, ("tap.ph", "7 to 8.3")]), left(&[NO_AMMONIUM, ("tap.ph", "8.3")]), 1e-9);
    // Nitrate of a tap too: of 5 to 45 mg/L the 45 are told (harm rule 16).
    let nitrate = work("nitrate", &[("tap.nitrate", "5 to 45 mg/L NO3")], &[("nitrate", "80 mg/L NO3")]);
    assert!(words(sum(&nitrate, "nitrate")).contains("your new water brings 45 mg/L NO3"), "{nitrate:?}");
}

#[test]
fn rules_6_and_8_no_line_offers_more_than_the_first() {
    // Alkalinity of 1 in the tank, 6 in the tap: 0.36 ÷ 5 = 7.2 % in a day.
    let hard = [("tap.alkalinity", "6 meq/L"), NO_AMMONIUM];
    close(of("gasping", &hard, &[("alkalinity", "1 meq/L")], CHANGE_MOST, "share_most"), 0.072, 1e-9);
    // The bucket's test lifts what ammonia limits and no more: 0.36 ÷ (2.8 - 1.9) = 40 %; a tenth where it was not changed for months.
    close(of("gasping", &[], &[("alkalinity", "1.9 meq/L")], CHANGE_MOST, "bucket_share"), 0.4, 1e-9);
    close(of("gasping", &[OLD], &[], CHANGE_MOST, "bucket_share"), 0.1, 1e-9);
    for (fields, most) in [(vec![NO_AMMONIUM], 0.5), (vec![NO_AMMONIUM, OLD], 0.1)] {
        let share = of("ammonia", &fields, &[("ammonia", "4 mg/L N"), ("ph", "8")], "toxic-ammonia", "change_share");
        assert!(share <= most + 1e-9, "{share}");
    }
}

#[test]
fn rule_8_alkalinity_that_is_gone_or_may_be_gone_means_a_tenth() {
    let most = |worked: &trouble::Worked| figure(sum(worked, CHANGE_MOST), "share_most");
    // Without the tenth a day's alkalinity would let in 0.36 ÷ 2.7 = 13 %.
    let gone = [("alkalinity", "0.1 meq/L"), ("ammonia", "2 mg/L N"), ("ph", "6.5")];
    close(most(&work("gasping", &[NO_AMMONIUM], &gone)), 0.1, 1e-9);
    close(most(&with_log("gasping", &[NO_AMMONIUM], &[], &[(120.0, read("alkalinity", 0.1))])), 0.1, 1e-9);
    // Nobody read it, and of what the tap brings over the year the least counts.
    close(most(&work("gasping", &[("tap.alkalinity", "0.2 to 2 meq/L"), NO_AMMONIUM], &[])), 0.1, 1e-9);
    // Read today and held: no tenth.
    assert!(most(&work("gasping", &[NO_AMMONIUM], &[("alkalinity", "2.7 meq/L")])) > 0.4);
}

#[test]
fn an_old_reading_that_harms_nothing_reassures_nobody() {
    let log = [(120.0, read("ammonia_n", 0.1)), (120.0, read("nitrite_n", 0.05)), (1.0, read("ph", 7.0))];
    let worked = with_log("ammonia", &[], &[], &log);
    assert!(!worked.sums.iter().any(|sum| ["toxic-ammonia", "nitrite"].contains(&sum.key.as_str())), "{worked:#?}");
}

#[test]
fn rule_18_rooms_losses_and_watts_count_at_their_bad_ends() {
    let loss = ("measured.heat_loss", "10 to 15 W/K");
    let cut = |fields: &[(&str, &str)], name: &str| of("power-cut", fields, &[], "warmth-hours", name);
    // The most loss and the least mass: 200 L x 4.18 = 836 kJ/K over 15 W/K: 15.48 h; 15 + 10 exp(-12/15.48) = 19.61.
    close(cut(&[loss, ("room.coldest", "15 °C")], "after_12_h_low_c"), 19.61, 0.02);
    close(cut(&[loss, ("room.coldest", "15 °C")], "hours_to_day_limit"), 4.0, 0.0);
    close(cut(&[("room.coldest", "12 to 18 °C")], "room_c"), 12.0, 1e-9);
    // Without a lid that was told the open tank's loss counts.
    assert!(cut(&[], "after_12_h_c") < cut(&[("care.covered", "true")], "after_12_h_c"));
    assert_eq!(sum(&work("power-cut", &[], &[]), "warmth-hours").urgency, Urgency::AtOnce);
    // 150 W over 10 W/K in a room of 28: 43.
    let stuck = [loss, ("room.hottest", "24 to 28 °C"), ("heater.watts", "100 to 150 W")];
    let worked = work("heater-on", &stuck, &[("temperature", "31 °C")]);
    close(figure(sum(&worked, "heater-stuck"), "warmest_c"), 43.0, 1e-9);
    assert_eq!(sum(&worked, "heater-stuck").urgency, Urgency::BeforeTheNextChange);
    assert!(
        words(sum(&worked, "too-warm")).replace('\u{a0}', " ").contains("a room of 28 °C brings it to"),
        "{worked:?}"
    );
    assert_eq!(sum(&worked, "too-warm").urgency, Urgency::AtOnce);
    let warm = work("heater-on", &[], &[("temperature", "29 °C")]);
    assert_eq!(sum(&warm, "too-warm").urgency, Urgency::BeforeTheNextChange);
    // New water at the end of the tap's year that lies furthest from the tank.
    let cold = work("gasping", &[("tap.temperature", "8 to 22 °C"), NO_AMMONIUM], &[]);
    assert!(sum(&cold, "new-water-temperature").head.replace('\u{a0}', " ").contains("at 8 °C into"), "{cold:?}");
}

#[test]
fn rules_5_and_10_buckets_that_are_carried_and_a_tank_whose_litres_nobody_told() {
    // 200 L by ten, however large the bucket.
    close(of("leak", &[("at_hand.bucket", "20 L")], &[], "leak", "buckets"), 20.0, 1e-9);
    // Without the glass nothing is counted in litres.
    let untold = crate::common::TANK.replace("inner_height = \"45 cm\"\n", "");
    let answer =
        crate::common::answer_of(&untold, &[("tap.disinfectant", "chlorine"), ("tap.total_chlorine", "0.5 mg/L")]);
    let (all, told) = (outcomes(&answer), told(&[("times", "60")]));
    let case = all.first().unwrap().case(&told);
    for trouble in ["overdose", "leak", "power-cut", "gasping"] {
        let worked = worked(trouble, &case, &[], &now());
        let said: String = worked.sums.iter().map(words).collect();
        assert!(!said.contains("\u{a0}L") && !said.contains("0 mL"), "{trouble}: {said}");
    }
    let first = worked("gasping", &case, &[], &now());
    assert!(
        words(sum(&first, CHANGE_MOST)).contains("Conditioner as its label says, before the water meets the fish."),
        "{first:?}"
    );
}

#[test]
fn rule_1_no_overdose_is_thinned_with_a_refused_tap() {
    let fields = [
        ("feeding.wish", "plenty"),
        ("light.energy", "high"),
        ("tap.disinfectant", "chlorine"),
        ("tap.total_chlorine", "8 mg/L"),
    ];
    let worked = work("overdose", &fields, &[("times", "200")]);
    for found in worked.sums.iter().filter(|sum| sum.key == "overdose" && sum.urgency == Urgency::AtOnce) {
        let said = words(found);
        assert!(
            said.contains("No change with this tap, because of")
                && said.contains("Air on. Instead: water of low minerals"),
            "{said}"
        );
    }
    assert!(worked.sums.iter().any(|sum| sum.key == "overdose" && sum.urgency == Urgency::AtOnce), "{worked:#?}");
}
