//! Nitrate that changes bring down, or never do: the recurrence by hand.

use crate::common::{close, figure, sum, words, work};

/// Much food, a lean tap.
const FED: [(&str, &str); 6] = [
    ("tap.nitrate", "15 mg/L NO3"),
    ("tap.ammonium", "0 mg/L NH4"),
    ("food.per_day", "5 g a day"),
    ("feeding.wish", "none"),
    ("habits.change", "20 %"),
    ("habits.every", "7 days"),
];

#[test]
fn what_rises_between_two_changes_is_counted() {
    let worked = work("nitrate", &FED, &[("nitrate", "97 mg/L NO3"), ("tap_nitrate", "15 mg/L NO3")]);
    let nitrate = sum(&worked, "nitrate");
    let (r, x) = (figure(nitrate, "rises_mg_per_l_day"), figure(nitrate, "change_share"));
    assert!(r > 2.0 && x <= 0.2, "{nitrate:?}");
    // Right after each change c = (c + 7 r)(1 - x) + 15 x; it settles at 15 + 7 r (1 - x)/x, over 50.
    let mut c = 97.0;
    for _ in 0..500 {
        c = c * (1.0 - x) + 15.0 * x + 7.0 * r;
    }
    let settles = c - 7.0 * r;
    assert!(settles > 50.0);
    close(figure(nitrate, "settles_mg_per_l"), settles, 1e-6);
    assert_eq!(figure(nitrate, "changes"), f64::INFINITY);
    assert!(nitrate.head.contains("never bring it to 50"), "{}", nitrate.head);
    // So often it does: every d days with 15 + r d (1 - x)/x at 50 or less, and a day more is too seldom.
    let days = figure(nitrate, "every_days");
    let at = |d: f64| 15.0 + r * d * (1.0 - x) / x;
    assert!(days < 1.0 || at(days) <= 50.0 + 1e-9, "{days}");
    assert!(at(days + 1.0) > 50.0, "{days}");
}

#[test]
fn how_many_changes_with_what_rises_between_them() {
    let fields = [FED[0], FED[1], ("food.per_day", "0.5 g a day"), FED[3], ("habits.change", "30 %"), FED[5]];
    let worked = work("nitrate", &fields, &[("nitrate", "97 mg/L NO3"), ("tap_nitrate", "15 mg/L NO3")]);
    let nitrate = sum(&worked, "nitrate");
    let (r, x) = (figure(nitrate, "rises_mg_per_l_day"), figure(nitrate, "change_share"));
    let (mut c, mut count) = (97.0, 0.0);
    loop {
        c = c * (1.0 - x) + 15.0 * x;
        count += 1.0;
        if c <= 50.0 {
            break;
        }
        c = (c + 7.0 * r).max(0.0);
    }
    close(figure(nitrate, "changes"), count, 0.0);
    assert!(words(nitrate).contains("97 mg/L NO3 (you said)"), "{}", words(nitrate));
}

#[test]
fn a_change_is_no_larger_than_what_may_be_changed_at_once() {
    let fields = [FED[0], FED[1], FED[3], ("habits.change", "90 %"), FED[5]];
    let nitrate = work("nitrate", &fields, &[("nitrate", "150 mg/L NO3")]);
    let nitrate = sum(&nitrate, "nitrate");
    // At most half at once (common practice): 150 - 0.5 (150 - 15) = 82.5, or more where salts bear less.
    assert!(figure(nitrate, "after_one_mg_per_l") >= 82.0, "{nitrate:?}");
}

#[test]
fn topping_up_with_the_tap_is_named_and_no_rhythm_is_kept_where_there_is_none() {
    let fields = [
        ("tap.nitrate", "22 mg/L NO3"),
        ("animals.snails", "20"),
        ("animals.unchanged_months", "8"),
        ("habits.change", "0 %"),
        ("habits.top_up", "2 L a day"),
        ("habits.top_up_with", "tap"),
    ];
    let worked = work("nitrate", &fields, &[("nitrate", "100 mg/L NO3")]);
    let nitrate = sum(&worked, "nitrate");
    let said = words(nitrate);
    // 2 L x 22 mg/L over 200 L: 0.22 mg/L a day; eight months of 30.44 days: 53.6.
    close(figure(nitrate, "topped_up_mg_per_l_day"), 0.22, 1e-9);
    assert!(said.contains("54 mg/L NO3 over 8 months") && said.contains("The likeliest cause"), "{said}");
    assert!(said.contains("100 mg/L NO3 (you said)"), "{said}");
    assert!(!said.contains("Keep to the rhythm"), "{said}");
}

#[test]
fn far_above_a_rich_tap_changes_bring_it_near_and_no_further() {
    let fields = [("tap.nitrate", "40 mg/L NO3"), ("animals.shrimps", "9")];
    let worked = work("nitrate", &fields, &[("nitrate", "400 mg/L NO3")]);
    let nitrate = sum(&worked, "nitrate");
    let (tap, x) = (figure(nitrate, "new_water_mg_per_l"), figure(nitrate, "change_share"));
    assert!((40.0..60.0).contains(&tap) && x > 0.0 && x <= 0.5, "{nitrate:?}");
    // Each change leaves 1 - x of what stands over the tap; near is half as much again as the tap.
    close(figure(nitrate, "after_one_mg_per_l"), tap + (1.0 - x) * (400.0 - tap), 1e-9);
    let count = ((0.5 * tap / (400.0 - tap)).ln() / (1.0 - x).ln()).ceil();
    close(figure(nitrate, "changes"), count, 0.0);
    let said = words(nitrate);
    assert!(said.contains("Begin today") && said.contains("Then stop") && said.contains("13 mg/L NO3"), "{said}");
    assert!(!said.contains("nothing must happen today"), "{said}");
    // Harm rule 16: near the tap's own level changes are no answer.
    let near = words(sum(&work("nitrate", &fields, &[("nitrate", "55 mg/L NO3")]), "nitrate"));
    assert!(near.contains("no answer") && !near.contains("Begin today"), "{near}");
}

#[test]
fn a_smaller_change_than_the_plans_says_why() {
    // A tap that brings hardly any alkalinity: nobody read what is left of it.
    let soft = [("tap.alkalinity", "0.2 meq/L"), ("habits.change", "30 %"), ("habits.every", "7 days")];
    let said = words(sum(&work("nitrate", &soft, &[("nitrate", "120 mg/L NO3")]), "nitrate"));
    assert!(said.contains("10 % in place of the plan’s 30 % until alkalinity is read"), "{said}");
}
