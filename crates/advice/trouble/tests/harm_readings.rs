//! Which readings hold, and what air and alkalinity do where ammonia shows; each test fails when its rule is taken out.

use crate::common;

use crate::common::{close, figure, read, sum, with_log, words, work, work_of};
use knowledge::CauseKey;
use logbook::What;
use trouble::{CHANGE_MOST, Urgency};

/// Snails, and water that was kept acid.
const SNAILS: [(&str, &str); 1] = [("animals.snails", "20")];

#[test]
fn rule_7_air_is_not_turned_on_where_airing_makes_ammonia_toxic() {
    // By hand, Emerson 1975 (`emerson_1975`): pKa 9.25 at 24 °C. At pH 6.6 of 8 mg/L 10^(6.6 - 9.25) = 0.0022, or 0.018 mg/L, are toxic; aired this
    // tap's 2.8 meq/L stand over pH 8.2, and more than 0.08 of it: 0.6 mg/L.
    let acid = [("ammonia", "8 mg/L N"), ("nitrite", "1 mg/L N"), ("ph", "6.5"), ("temperature", "24 °C")];
    for trouble in ["ammonia", "gasping"] {
        let worked = work(trouble, &SNAILS, &acid);
        let said = words(sum(&worked, "toxic-ammonia"));
        assert!(figure(sum(&worked, "toxic-ammonia"), "aired_mg_n_per_l") > 0.5, "{said}");
        for said in [said, words(sum(&worked, "nitrite"))] {
            assert!(
                said.contains("air runs as before and carbon dioxide stays as it is, unless they breathe fast"),
                "{said}"
            );
            assert!(!said.contains("No food, air on"), "{said}");
        }
    }
    // Airing changes little where the water is aired already: then air it is.
    let aired = work("ammonia", &SNAILS, &[("ammonia", "8 mg/L N"), ("ph", "8.4"), ("temperature", "24 °C")]);
    assert!(words(sum(&aired, "toxic-ammonia")).contains("No food, air on."), "{aired:#?}");
}

#[test]
fn a_reading_that_harms_counts_until_the_next_of_the_same_thing() {
    let toxic = |ago: f64| [(ago, read("ammonia_n", 2.0)), (ago, read("ph", 8.2))];
    for (ago, old) in
        [(20.0, None), (32.0, Some("32 hours old")), (100.0, Some("4 days old")), (2000.0, Some("83 days old"))]
    {
        let worked = with_log("ammonia", &[], &[], &toxic(ago));
        let ammonia = sum(&worked, "toxic-ammonia");
        assert_eq!(ammonia.urgency, Urgency::AtOnce, "{ago}");
        let (first, most) = (ammonia.says.first().unwrap(), sum(&worked, CHANGE_MOST));
        match old {
            // The new test comes before all, and no change is worked out on an old reading.
            Some(old) => {
                assert!(first.contains(old) && first.contains("read ammonia and pH anew now"), "{first}");
                close(figure(most, "no_change"), 1.0, 0.0);
                assert!(!words(ammonia).contains("Change 5"), "{ammonia:?}");
            }
            None => assert!(!first.contains(" old:") && figure(most, "share_most") > 0.0, "{first}"),
        }
        let read_anew = [toxic(ago).to_vec(), vec![(1.0, read("ammonia_n", 0.0))]].concat();
        let after = with_log("ammonia", &[], &[], &read_anew);
        assert!(
            after.sums.iter().all(|sum| sum.key != "toxic-ammonia" && !sum.figures.contains_key("no_change")),
            "{ago}"
        );
    }
    // What the keeper says now goes before every old line.
    let now = with_log("ammonia", &[], &[("ammonia", "0.01 mg/L N"), ("ph", "7")], &toxic(100.0));
    assert!(now.sums.iter().all(|sum| sum.urgency != Urgency::AtOnce), "{now:#?}");
}

#[test]
fn an_old_reading_reassures_nobody() {
    // Alkalinity held a week ago: how much is left nobody knows, and the reading is named.
    let held = with_log("alkalinity", &[], &[], &[(170.0, read("alkalinity", 2.5))]);
    let held = sum(&held, "alkalinity");
    assert!(held.urgency == Urgency::AtOnce && held.head.contains("can’t tell"), "{held:?}");
    assert!(words(held).contains("2.5 meq/L") && words(held).contains("7 days ago"), "{held:?}");
    // Gone a week ago: gone.
    let gone = with_log("alkalinity", &[], &[], &[(170.0, read("alkalinity", 0.1))]);
    let gone = sum(&gone, "alkalinity");
    assert!(gone.says.first().unwrap().contains("7 days old: read alkalinity, pH and ammonia anew"), "{gone:?}");
    close(figure(gone, "tank_meq_per_l"), 0.1, 1e-9);
    // An old pH is used with the aired water's as its upper end: at 6.5 of 2 mg/L next to nothing is toxic, aired it harms.
    let fresh = with_log("ammonia", &[], &[("ammonia", "2 mg/L N")], &[(20.0, read("ph", 6.5))]);
    assert_eq!(sum(&fresh, "toxic-ammonia").urgency, Urgency::LeaveItBe);
    let old = with_log("ammonia", &[], &[("ammonia", "2 mg/L N")], &[(30.0, read("ph", 6.5))]);
    assert_eq!(sum(&old, "toxic-ammonia").urgency, Urgency::AtOnce);
    assert!(words(sum(&old, "toxic-ammonia")).contains("30 hours ago"), "{old:#?}");
    // Nitrate: the larger of an old reading and of what is worked out.
    let high = with_log("nitrate", &[], &[], &[(170.0, read("nitrate", 95.0))]);
    close(figure(sum(&high, "nitrate"), "tank_mg_per_l"), 95.0, 1e-9);
    assert!(words(sum(&high, "nitrate")).contains("7 days old"), "{high:#?}");
    let low = with_log("nitrate", &[], &[], &[(170.0, read("nitrate", 0.0))]);
    assert!(figure(sum(&low, "nitrate"), "tank_mg_per_l") > 1.0);
}

#[test]
fn rule_12_carbon_dioxide_that_was_read_is_the_first_cause() {
    // By hand, Plummer and Busenberg 1982 (`plummer_busenberg_1982`): pK1 6.35 at 25 °C. 1.6 meq/L at pH 6.4 hold 1.6 × 10^(6.35 - 6.4) = 1.43 mmol/L,
    // or 63 mg/L before activities; the upper end with pH 6.3 and a tenth more alkalinity 1.38 times that.
    let rich = [
        (1.0, read("ph", 6.4)),
        (1.0, read("alkalinity", 1.6)),
        (1.0, read("ammonia_n", 8.0)),
        (2.0, What::Change { litres: 40.0 }),
    ];
    let fields = [("animals.snails", "20"), ("tank.co2", "15 mg/L")];
    for fields in [&fields[..], &fields[..1]] {
        let worked = with_log("gasping", fields, &[], &rich);
        let first = worked.causes.first().unwrap();
        assert_eq!(first.key, CauseKey::CarbonDioxide, "{:?}", worked.causes);
        assert!(first.because.contains("by the readings") && first.because.contains("30"), "{first:?}");
    }
    // By a plan's alkalinity an acid tank would seem full of it: both must be read, within a day, and the cause of
    // this hour is read today.
    for log in [
        &rich[..1],
        &[(1.0, read("ph", 6.4)), (60.0, read("alkalinity", 1.6))],
        &[(30.0, read("ph", 6.4)), (30.0, read("alkalinity", 1.6))],
    ] {
        assert!(with_log("gasping", &[], &[], log).causes.is_empty());
    }
}

#[test]
fn rule_7_no_line_offers_a_change_for_alkalinity_while_ammonia_shows() {
    let fields = [("tap.alkalinity", "2 meq/L")];
    let with = |ammonia: &str| {
        work("alkalinity", &fields, &[("alkalinity", "0.1 meq/L"), ("ammonia", ammonia), ("ph", "5.5")])
    };
    let shows = with("3 mg/L N");
    let first = shows.sums.first().unwrap();
    assert!(
        first.key == CHANGE_MOST && first.head.contains("no change with this water while ammonia shows"),
        "{first:?}"
    );
    close(figure(first, "no_change"), 1.0, 0.0);
    for sum in &shows.sums {
        for offer in ["A change of", "at a time", "Change "] {
            assert!(!words(sum).contains(offer), "{offer}: {sum:?}");
        }
    }
    assert!(words(sum(&with("0 mg/L N"), "alkalinity")).contains("A change of"), "{:#?}", with("0 mg/L N"));
}

/// Soft chloraminated tap, for which the plan brings salts in smaller first changes.
const SOFT: &str = r#"
[tank]
country = "gb"
temperature = "25 °C"
[glass]
inner_length = "118 cm"
inner_width = "48 cm"
inner_height = "54 cm"
thickness = "12 mm"
[tap]
calcium = "4 mg/L"
magnesium = "0.8 mg/L"
alkalinity = "0.4 °dH"
nitrate = "1 mg/L NO3"
chloride = "6 mg/L"
sulfate = "4 mg/L"
ph = 8.4
disinfectant = "chloramine"
total_chlorine = "0.6 mg/L"
[light]
energy = "low"
[animals]
fish = 40
start_test_passed = true
[habits]
change = "20 %"
every = "14 days"
"#;

#[test]
fn rule_6_alkalinity_comes_back_by_the_smallest_of_all_limits() {
    let answer = common::answer_of(SOFT, &[]);
    let all = trouble::outcomes(&answer);
    let begin = all.first().unwrap().plan.begin.clone().unwrap();
    let first = begin.steps.first().copied().unwrap();
    assert!(begin.share <= 0.1 + 1e-9 && first.part < 1.0, "{begin:?}");
    let gone = [("alkalinity", "0.1 °dH"), ("ammonia", "0 mg/L N"), ("ph", "5.5")];
    let worked = work_of(SOFT, "alkalinity", &[], &gone, &[]);
    // The day's step of alkalinity alone would allow more.
    let alkalinity = sum(&worked, "alkalinity");
    let step = 0.36 / (figure(alkalinity, "new_water_meq_per_l") - figure(alkalinity, "tank_meq_per_l"));
    assert!(step > 2.0 * begin.share, "{step}");
    close(figure(alkalinity, "share_a_day"), begin.share, 1e-9);
    // Conductivity keeps the salts of the first below all of them, and they are said.
    // The reading, 0.1 German degrees of 3.8, is a fortieth of the way: a little more than the first would have got.
    let part = figure(alkalinity, "salts_part");
    assert!(first.part < part && part < first.part + 0.1, "{part} {first:?}");
    assert!(alkalinity.says.iter().any(|say| say.contains("Into this one: ")), "{alkalinity:?}");
    close(figure(worked.sums.first().unwrap(), "share_most"), begin.share, 1e-9);
}

/// Water that was read as too warm counts as long as any reading that harms, and the thermometer comes first; what harms nobody does not.
#[test]
fn warmth_is_heard_as_far_back_as_other_readings() {
    let days_ago = |hours: f64, c: f64| with_log("gasping", &[], &[], &[(hours, read("temperature", c))]);
    let causes = |worked: &trouble::Worked| worked.causes.iter().map(|cause| cause.key).collect::<Vec<_>>();
    assert_eq!(causes(&days_ago(100.0, 31.0)), [CauseKey::Warm]);
    assert!(causes(&days_ago(100.0, 27.5)).is_empty());
    let warm = with_log("heater-on", &[], &[], &[(100.0, read("temperature", 31.0))]);
    let first = sum(&warm, "too-warm").says.first().cloned().unwrap_or_default();
    assert!(first.contains("4 days old") && first.contains("read the thermometer anew now"), "{first}");
    // A fresh one takes its place.
    let cooled = [(100.0, read("temperature", 31.0)), (2.0, read("temperature", 25.0))];
    assert!(with_log("gasping", &[], &[], &cooled).causes.is_empty());
}
