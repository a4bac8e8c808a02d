//! What a change does to ammonia that harms, and what stands in its place: by hand.

use crate::common::{HEAVY, close, figure, read, sum, words, work, work_of};
use logbook::What;
use trouble::{CHANGE_MOST, Urgency, Worked};

/// A cold hall: soft for its food, so that the tap is harder than the tank; ammonia of the tap not told.
const COLD: &str = r#"
[tank]
country = "gb"
temperature = "14 °C"
[glass]
inner_length = "100 cm"
inner_width = "40 cm"
inner_height = "45 cm"
thickness = "8 mm"
[ground]
kind = "gravel"
depth_front = "2 cm"
depth_back = "2 cm"
[tap]
hardness = "8 °dH"
alkalinity = "5 °dH"
nitrate = "15 mg/L NO3"
total_chlorine = "0.4 mg/L"
ph = 7.5
temperature = "3 to 16 °C"
[light]
energy = "low"
[animals]
fish = 6
start_test_passed = true
[food]
per_day = "3 g a day"
[habits]
change = "30 %"
every = "7 days"
"#;

fn first(worked: &Worked) -> &trouble::Sum {
    let first = worked.sums.first().unwrap();
    assert_eq!(first.key, CHANGE_MOST);
    first
}

#[test]
fn a_change_that_lowers_it_is_offered_though_the_aired_water_is_harder() {
    // Now, pH 8.2 read at its upper end 8.3 and 14 °C: Emerson pKa 9.597, share 1/(1 + 10^1.297) = 4.80 %: 3 x 0.048 = 0.144, less some 8 %
    // for activities 0.132. A change of x leaves 3 (1 - x) of all ammonia and what the tap may bring.
    let worked = work_of(COLD, "ammonia", &[], &[("ammonia", "3 mg/L N"), ("ph", "8.2")], &[]);
    let toxic = sum(&worked, "toxic-ammonia");
    let (now, share) = (figure(toxic, "now_mg_n_per_l"), figure(toxic, "change_share"));
    close(now, 0.144 * 0.92, 0.005);
    for left in ["left_mg_n_per_l", "left_aired_mg_n_per_l"] {
        assert!(figure(toxic, left) < now * (1.0 - 0.2 * share), "{toxic:?}");
    }
    assert!(figure(toxic, "halved_by_share") <= share && share >= 0.25, "{toxic:?}");
    assert!(!words(toxic).contains("No change with this water"), "{}", words(toxic));
    assert!(!first(&worked).figures.contains_key("no_change"), "{worked:?}");
    // The first line allows what the sum offers, no less and no more.
    close(figure(first(&worked), "share_most"), share, 1e-9);
}

#[test]
fn what_it_leaves_is_set_against_what_there_is_and_said_to_halve_it_only_where_it_does() {
    for (text, ammonia, ph) in
        [(COLD, "3 mg/L N", "8.2"), (HEAVY, "3 mg/L N", "8.2"), (HEAVY, "1 mg/L N", "7.5"), (HEAVY, "1 mg/L N", "8.6")]
    {
        let worked = work_of(text, "ammonia", &[], &[("ammonia", ammonia), ("ph", ph)], &[]);
        let toxic = sum(&worked, "toxic-ammonia");
        let Some(share) = toxic.figures.get("change_share") else {
            assert!(words(toxic).contains("No change with this water"), "{}", words(toxic));
            continue;
        };
        let halved = toxic.figures.get("halved_by_share").is_some_and(|halves| halves <= share);
        assert_eq!(halved, words(toxic).contains("halves it"), "{}", words(toxic));
        assert!(figure(toxic, "left_mg_n_per_l") < figure(toxic, "now_mg_n_per_l"), "{toxic:?}");
    }
}

#[test]
fn what_the_tap_may_bring_is_weighed_against_what_was_read() {
    // 3 mg/L in the tank, 0.49 at most in the tap (0.3/3 of chloramine and 0.5 x 0.777 of ammonium): half a change leaves
    // (3 + 0.49)/2 = 1.74, 42 % less. Without a reading the tap's 0.49 alone keeps a change to some 9 %.
    let read = work_of(HEAVY, "ammonia", &[], &[("ammonia", "3 mg/L N"), ("ph", "8.2")], &[]);
    let toxic = sum(&read, "toxic-ammonia");
    assert!(figure(toxic, "change_share") > 0.3, "{toxic:?}");
    assert!(words(toxic).contains("this tap may bring 0.49"), "{}", words(toxic));
    let unread = work_of(HEAVY, "ammonia", &[], &[], &[]);
    assert!(figure(first(&unread), "share_most") < 0.12, "{unread:?}");
}

#[test]
fn water_that_brings_as_much_as_there_is_is_not_poured_and_rain_is_named() {
    let worked = work_of(HEAVY, "ammonia", &[], &[("ammonia", "0.5 mg/L N"), ("ph", "8.6")], &[]);
    let toxic = words(sum(&worked, "toxic-ammonia"));
    assert!(figure(first(&worked), "no_change") == 1.0, "{worked:?}");
    assert!(toxic.contains("it may bring 0.49 mg/L of ammonia itself"), "{toxic}");
    assert!(toxic.contains("clean rain, as warm as the tank, 10 %"), "{toxic}");
}

#[test]
fn a_days_share_that_went_in_already_is_no_ground_for_another_until_a_new_test() {
    let log = [(16.0, read("ammonia_n", 0.5)), (1.0, What::Change { litres: 100.0 })];
    for trouble in ["gasping", "lying", "ammonia"] {
        let worked = work_of(HEAVY, trouble, &[], &[], &log);
        assert!(figure(first(&worked), "no_change") == 1.0, "{worked:?}");
        assert!(words(first(&worked)).contains("You changed 100 L within a day"), "{worked:?}");
        let toxic = words(sum(&worked, "toxic-ammonia"));
        assert!(toxic.contains("older than your change of 100 L: test again"), "{toxic}");
        assert!(!toxic.contains("Change 5") && !toxic.contains("Change 8"), "{toxic}");
    }
    // A new test after it: then the comparison speaks again.
    let after = [(1.0, What::Change { litres: 100.0 }), (0.5, read("ammonia_n", 3.0)), (0.5, read("ph", 8.2))];
    let worked = work_of(HEAVY, "ammonia", &[], &[], &after);
    assert!(!first(&worked).figures.contains_key("no_change"), "{worked:?}");
}

#[test]
fn with_carbon_dioxide_the_logs_last_ph_counts_with_its_age_and_its_range() {
    let log = [(16.0, read("ammonia_n", 0.5)), (72.0, read("ph", 7.1))];
    let worked = work_of(HEAVY, "ammonia", &[], &[], &log);
    let toxic = sum(&worked, "toxic-ammonia");
    // Emerson at 26 °C: pKa 9.216; pH 7.1 0.76 %: 0.5 x 0.0076 = 0.0038; aired (8.7) some 20 times that.
    close(figure(toxic, "nh3_mg_n_per_l"), 0.0038 * 0.9, 0.0005);
    assert!(figure(toxic, "nh3_high_mg_n_per_l") > 10.0 * figure(toxic, "nh3_mg_n_per_l"), "{toxic:?}");
    assert!(
        words(toxic).contains("pH 7.1 (your log, 3 days ago; the upper end with the carbon dioxide off"),
        "{}",
        words(toxic)
    );
    // Without carbon dioxide that is given it counts as well, and is called old: an acid tank stays one, and may be aired meanwhile.
    let none = work_of(&HEAVY.replace("co2 = \"20 mg/L\"\n", ""), "ammonia", &[], &[], &log);
    assert!(
        words(sum(&none, "toxic-ammonia")).contains("pH 7.1 (your log, 3 days ago; the upper end aired"),
        "{none:?}"
    );
}

#[test]
fn nitrite_that_would_take_weeks_gets_a_quicker_way() {
    let worked = work_of(HEAVY, "ammonia", &[], &[("nitrite", "0.5 mg/L N")], &[]);
    let nitrite = sum(&worked, "nitrite");
    let said = words(nitrite);
    assert!(figure(nitrite, "changes") > 10.0, "{nitrite:?}");
    assert!(said.contains("Test a bucket of new water, conditioner in it") && said.contains("clean rain"), "{said}");
    // Half of the tank new: the tank holds half of the bucket's, so the bucket may hold twice what harms.
    let bucket = figure(nitrite, "bucket_mg_n_per_l");
    let less = format!("{:.3} mg/L N", 0.9 * bucket);
    let told = work_of(HEAVY, "ammonia", &[], &[("nitrite", "0.5 mg/L N"), ("tap_ammonia", &less)], &[]);
    assert!(figure(first(&told), "share_most") > 0.3, "{told:?}");
    // Four times what the tank bears (half of the bucket's): a quarter, and no more.
    let more = format!("{} mg/L N", 4.0 * 0.5 * bucket);
    let told = work_of(HEAVY, "ammonia", &[], &[("nitrite", "0.5 mg/L N"), ("tap_ammonia", &more)], &[]);
    close(figure(first(&told), "share_most"), 0.25, 0.01);
}

#[test]
fn rule_8_an_old_tank_gets_its_tenths_with_an_end() {
    let old = [("animals.unchanged_months", "8"), ("tap.ammonium", "0 mg/L NH4")];
    let worked = work("ammonia", &old, &[("nitrite", "0.5 mg/L N")]);
    let said = words(sum(&worked, "nitrite"));
    // 0.9^6 = 0.53: six tenths are as much as is ever changed at once (half); what salts bear in a day may be less.
    assert!(
        said.contains("Again each hour until it is below") && said.contains("today") && said.contains("stop when"),
        "{said}"
    );
    assert!(!said.contains(" times, as far apart"), "{said}");
    let times = said.split("at most ").nth(1).unwrap().split(' ').next().unwrap().parse::<f64>().unwrap();
    assert!((1.0..=6.0).contains(&times), "{said}");
}

#[test]
fn a_tap_that_is_refused_leaves_a_way_out_of_nitrite_too() {
    let worked =
        work("ammonia", &[("tap.copper", "0.03 mg/L"), ("animals.shrimps", "9")], &[("nitrite", "0.5 mg/L N")]);
    let said = words(sum(&worked, "nitrite"));
    assert!(said.contains("No change with this water") && said.contains("clean rain"), "{said}");
    let toxic = work(
        "ammonia",
        &[("tap.copper", "0.03 mg/L"), ("animals.shrimps", "9")],
        &[("ammonia", "3 mg/L N"), ("ph", "8")],
    );
    let said = words(sum(&toxic, "toxic-ammonia"));
    assert!(!said.contains("0 % of it would") && said.contains("clean rain"), "{said}");
}

#[test]
fn a_kit_that_shows_none_shows_no_ammonia() {
    let readings = [("alkalinity", "0.1 meq/L"), ("ammonia", "<0.05 mg/L N"), ("ph", "6.0")];
    let worked = work("alkalinity", &[], &readings);
    let all: String = worked.sums.iter().map(words).collect();
    assert!(!all.contains("Ammonia shows") && !all.contains("waits until ammonia is gone"), "{all}");
    assert!(!all.contains("nobody read it") && all.contains("Your kit shows none"), "{all}");
    // The lowest step itself still counts where it would harm.
    let harms = work("ammonia", &[], &[("ammonia", "<0.5 mg/L N"), ("ph", "8.6")]);
    assert_eq!(sum(&harms, "toxic-ammonia").urgency, Urgency::AtOnce);
    // Read and gone, with ammonia that shows: what was read is not said to be unread.
    let gone = work("alkalinity", &[], &[("alkalinity", "0.1 meq/L"), ("ammonia", "1 mg/L N"), ("ph", "6.0")]);
    let said = words(first(&gone));
    assert!(said.contains("Alkalinity is gone and ammonia shows") && !said.contains("nobody read it"), "{said}");
}

#[test]
fn one_threshold_with_its_range() {
    // pH 8.0 read at 24 °C: at its upper end 8.1 harm starts at 0.016/(0.0625 x 0.92) = 0.28, at 8.0 itself at 0.016/(0.0502 x 0.92) = 0.35.
    let worked = work(
        "ammonia",
        &[("tank.temperature", "24 °C")],
        &[("ammonia", "0.3 mg/L N"), ("ph", "8"), ("temperature", "24 °C")],
    );
    let toxic = sum(&worked, "toxic-ammonia");
    close(figure(toxic, "harm_from_mg_n_per_l"), 0.28, 0.01);
    close(figure(toxic, "harm_from_likely_mg_n_per_l"), 0.35, 0.01);
    assert_eq!(toxic.urgency, Urgency::AtOnce);
    // 0.3 at 8.1: 0.3 x 0.0625 x 0.92 = 0.0172: the head says what decides.
    assert!(toxic.head.contains("(up to 0.017)"), "{}", toxic.head);
    let said = words(toxic);
    assert!(
        said.contains("which decides, from 0.28")
            && said.contains("from 0.35 mg/L")
            && said.contains("pH 8 (you said; 7.9 to 8.1)"),
        "{said}"
    );
}

#[test]
fn amounts_at_the_edge_of_what_can_be_are_taken_and_what_can_not_is_said_in_few_figures() {
    let mut told = trouble::Told::default();
    told.take("ammonia", "1000").unwrap();
    let fault = told.take("ammonia", "2000").unwrap_err().to_string();
    assert!(fault.contains("2000") && !fault.contains(".0000"), "{fault}");
    told.take("temperature", "45 °C").unwrap();
    assert!(told.take("temperature", "60 °C").is_err());
}

#[test]
fn what_the_model_can_not_tell_counts_as_harm_and_is_said() {
    let worked = work("ammonia", &[], &[("ammonia", "1000 mg/L N"), ("ph", "8")]);
    let toxic = sum(&worked, "toxic-ammonia");
    assert_eq!(toxic.urgency, Urgency::AtOnce);
    assert!(words(toxic).contains("0.016"), "{}", words(toxic));
}

#[test]
fn what_limits_a_change_is_always_said() {
    // The height of the glass is not told: there are no litres, and still a reason.
    let text = HEAVY.replace("inner_height = \"50 cm\"\n", "");
    let worked = work_of(&text, "gasping", &[], &[], &[]);
    for sum in &worked.sums {
        assert!(sum.says.iter().all(|says| !says.trim_end().ends_with(':')), "{sum:?}");
    }
}
