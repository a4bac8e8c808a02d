//! Half a milligram of ammonia at 24 °C, at pH 7 and at pH 8: by hand, with different advice.

use crate::common::{close, figure, sum, words, work};
use trouble::Urgency;

const TANK_24: (&str, &str) = ("tank.temperature", "24 °C");

#[test]
fn at_ph_7_leave_the_water() {
    // Emerson: 0.525 % of 0.5 mg/L N = 0.0026 mg/L; activities of this water (ionic strength 0.008) make it some 8 % less. Harm
    // starts at 0.016: from 0.016/0.0052 = 3.0 mg/L of all ammonia on, and with pH at its upper end 7.1 from 2.5.
    let worked = work("ammonia", &[TANK_24], &[("ammonia", "0.5 mg/L N"), ("ph", "7.0"), ("temperature", "24 °C")]);
    let sum = sum(&worked, "toxic-ammonia");
    close(figure(sum, "nh3_mg_n_per_l"), 0.0026 * 0.92, 0.00008);
    close(figure(sum, "harm_from_mg_n_per_l"), 0.016 / (0.00525 * 1.2589 * 0.92), 0.1);
    assert_eq!(sum.urgency, Urgency::LeaveItBe);
    let words = words(sum);
    assert!(words.contains("No big change now") && words.contains("Let nothing raise pH"), "{words}");
    assert!(!words.contains("Plugs out"), "{words}");
}

#[test]
fn at_ph_8_act_at_once() {
    // 5.017 % of 0.5 = 0.0251 mg/L, less 8 %: 0.0231. Over 0.016.
    let worked = work("ammonia", &[TANK_24], &[("ammonia", "0.5 mg/L N"), ("ph", "8.0"), ("temperature", "24 °C")]);
    let sum = sum(&worked, "toxic-ammonia");
    close(figure(sum, "nh3_mg_n_per_l"), 0.0251 * 0.92, 0.0008);
    assert_eq!(sum.urgency, Urgency::AtOnce);
    let words = words(sum);
    assert!(words.contains("Plugs out with dry hands") && words.contains("0.016"), "{words}");
    assert_eq!(worked.sums.get(1).map(|sum| sum.key.as_str()), Some("toxic-ammonia"));
}

#[test]
fn half_of_it_goes_with_half_the_water_where_the_tap_is_the_tanks_twin() {
    // Tap without ammonia, aired like the tank: NH3 follows the total, so the change that halves it is a half.
    let worked = work(
        "ammonia",
        &[TANK_24, ("tap.ammonium", "0 mg/L NH4"), ("tap.ph", "7.6")],
        &[("ammonia", "2 mg/L N"), ("ph", "7.7"), ("temperature", "24 °C")],
    );
    let sum = sum(&worked, "toxic-ammonia");
    close(figure(sum, "halved_by_share"), 0.5, 1e-9);
    assert!(words(sum).contains("halves it"), "{}", words(sum));
}

#[test]
fn a_hard_tap_makes_an_acid_tank_worse() {
    // A tank at pH 6.2 with a tenth of the tap's alkalinity holds ammonium; the tap brings pH up.
    let worked = work(
        "ammonia",
        &[TANK_24, ("tap.ph", "7.8")],
        &[("ammonia", "4 mg/L N"), ("ph", "7.0"), ("temperature", "24 °C")],
    );
    let sum_before = sum(&worked, "toxic-ammonia");
    assert_eq!(sum_before.urgency, Urgency::AtOnce);
    let acid = trouble_with_low_alkalinity();
    let words = words(sum(&acid, "toxic-ammonia"));
    assert!(words.contains("No change with this water"), "{words}");
    assert!(!words.contains("halves it"), "{words}");
}

fn trouble_with_low_alkalinity() -> trouble::Worked {
    work(
        "ammonia",
        &[TANK_24, ("tap.ph", "7.8")],
        &[("ammonia", "8 mg/L N"), ("ph", "6.9"), ("alkalinity", "0.3 meq/L"), ("temperature", "24 °C")],
    )
}
