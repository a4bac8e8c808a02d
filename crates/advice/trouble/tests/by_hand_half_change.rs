//! Cold water, and what a half change moves: by hand.

use crate::common::{close, figure, sum, words, work};
use trouble::{Urgency, cold_water};

#[test]
fn forty_litres_at_12_into_47_at_25() {
    // (40 x 12 + 47 x 25)/87 = 1655/87 = 19.02: 5.98 colder, against 1 an hour and 2 a day.
    let cold = cold_water(40.0, 12.0, 47.0, 25.0).unwrap();
    close(cold.mixed_c, 19.0, 0.05);
    assert!(cold.too_sudden);
    // Mildest: 25 - 1/(40/87) = 22.83; over a day 25 - 2/(40/87) = 20.65; as it is 6 pours of at most 87/13 = 6.69 L at once.
    close(cold.mildest_at_once_c, 22.825, 0.001);
    close(cold.mildest_in_a_day_c, 20.65, 0.001);
    close(cold.pours, 6.0, 0.0);
    close(cold.most_at_once_l, 6.692, 0.001);
}

#[test]
fn it_is_said_with_what_to_do_instead() {
    let readings = [("new_temperature", "12 °C"), ("new_litres", "92 L")];
    // 200 L of which 92 are new: the same share, 40/87 = 0.4598.
    let worked = work("gasping", &[("measured.litres", "200 L")], &readings);
    let sum = sum(&worked, "new-water-temperature");
    close(figure(sum, "mixed_c"), 25.0 - 0.46 * 13.0, 0.01);
    assert_eq!(sum.urgency, Urgency::AtOnce);
    let words = words(sum);
    for said in [
        "too sudden",
        "Don’t pour it so",
        "Instead",
        "22.8 °C",
        "it scalds",
        "never into the tank",
        "1 °C in an hour or 2 °C in a day",
    ] {
        assert!(words.contains(said), "{said}: {words}");
    }
}

#[test]
fn mild_water_may_go_in() {
    let cold = cold_water(40.0, 24.0, 60.0, 25.0).unwrap();
    // 0.4 x 1 = 0.4.
    close(cold.moves_c, -0.4, 1e-12);
    assert!(!cold.too_sudden);
    assert_eq!(cold_water(0.0, 12.0, 0.0, 25.0), None);
}

#[test]
fn salts_jump_by_half_of_what_lies_between() {
    // Alkalinity in the tank 1.0, in the tap 2.8: half a change moves it by 0.9; the day's limit 0.36 allows 20 %.
    let worked = work("gasping", &[], &[("alkalinity", "1.0 meq/L")]);
    let sum = sum(&worked, "half-change");
    close(figure(sum, "alkalinity_jump_meq_per_l"), 0.9, 0.01);
    assert!(figure(sum, "share_most") <= 0.2 + 1e-6, "{sum:?}");
    assert!(words(sum).contains("at most 1 °dKH (0.36 meq/L)"), "{}", words(sum));
}

#[test]
fn a_tank_like_its_tap_bears_a_half_change() {
    let worked = work("gasping", &[("feeding.wish", "none"), ("tap.ammonium", "0 mg/L NH4")], &[]);
    assert_eq!(sum(&worked, "half-change").urgency, Urgency::WhenItSuits);
}

#[test]
fn the_days_limit_is_named_only_where_the_whole_passes_it() {
    // 20 L of 200 at 12 °C into 25 °C: 0.1 x 13 = 1.3 °C, over an hour's 1 and under a day's 2.
    let some = work("gasping", &[], &[("new_temperature", "12 °C"), ("new_litres", "20 L")]);
    let said = words(sum(&some, "new-water-temperature"));
    assert!(
        said.contains("too sudden") && !said.contains("the rest tomorrow") && !said.contains("spread over a day"),
        "{said}"
    );
    // 92 L: 5.98 °C.
    let much = work("gasping", &[], &[("new_temperature", "12 °C"), ("new_litres", "92 L")]);
    let said = words(sum(&much, "new-water-temperature"));
    assert!(said.contains("the rest tomorrow") && said.contains("spread over a day"), "{said}");
}
