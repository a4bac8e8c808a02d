//! Judge: the names of the works as two reports print them, and hand arithmetic for what moved.

use knowledge::Place;
use quantity::Units;
use report::{By, Combined, Filed, Picked, combine, compare, picked_alike, read_text, years};

/// Two works side by side, with these names and nitrate of each.
fn report(works: [&str; 2], nitrate: [f64; 2]) -> Filed {
    let [a, b] = works;
    let [low, high] = nitrate;
    let text = format!(
        "Parameter\tUnit\t{a}\t{b}\nConductivity at 25 °C\tµS/cm\t310\t620\nCalcium\tmg/l\t40\t95\n\
         Chloride\tmg/l\t12\t40\nSulphate\tmg/l\t15\t50\nNitrate as NO3\tmg/l\t{low}\t{high}\n"
    );
    let mut filed = Filed::new(read_text(&text), By::Works);
    assert_eq!(filed.report.samples.len(), 2, "{:?}", filed.report.samples);
    filed.picked = Picked::All;
    filed
}

fn waters(filed: &Filed) -> Combined {
    combine(&[("report", filed)], Place::Eu).unwrap()
}

/// Works A went from 10 to 30 mg/L of nitrate: 3 % of each are 0.3 and 0.9, both 90 % ranges together 1.645 × 0.95 = 1.6. Works B
/// stood at 20. The columns of the later report stand the other way round, and name the year.
#[test]
fn works_are_compared_by_their_names() {
    let last = waters(&report(["Works A", "Works B"], [10.0, 20.0]));
    // What was the poorer water is the richer one now: names pair it, and not its salt.
    let this = waters(&report(["WORKS B 2025", "Works-A 2025"], [20.0, 30.0]));
    let found = years(&last.waters, &this.waters);
    assert_eq!((found.pairs.len(), found.unmatched.len()), (2, 0), "{:?}", found.unmatched);
    for pair in &found.pairs {
        let moved = compare(&pair.before.estimate, &pair.after.estimate, &Units::default());
        let nitrate = moved.iter().find(|moved| moved.of.name() == "nitrate").unwrap();
        let is_a = pair.name.as_deref() == Some("Works-A 2025");
        assert_eq!(nitrate.for_sure, is_a, "{:?}: {}", pair.name, nitrate.text);
        let said = if is_a { "Nitrate rose from 10 to 30" } else { "Nitrate stands where it stood, at 20" };
        assert!(nitrate.text.starts_with(said), "{}", nitrate.text);
    }
}

#[test]
fn works_without_a_counterpart_are_told_and_not_compared() {
    let last = waters(&report(["Works A", "Works B"], [10.0, 20.0]));
    let this = waters(&report(["Works A", "Works C"], [10.0, 20.0]));
    let found = years(&last.waters, &this.waters);
    assert_eq!(found.pairs.len(), 1);
    assert_eq!(found.pairs[0].name.as_deref(), Some("Works A"));
    assert_eq!(
        found.unmatched,
        [
            "Works C is in the later report and not in the earlier one: nothing of it is compared.",
            "Works B is in the earlier report and not in the later one: nothing of it is compared."
        ]
    );
    let other = waters(&report(["Works D", "Works E"], [10.0, 20.0]));
    let none = years(&last.waters, &other.waters);
    assert!(none.pairs.is_empty() && none.unmatched.len() == 5, "{:?}", none.unmatched);
    // Two dates name no works, and two years of dates are no pair.
    let dates = |year: u32| waters(&report([&format!("03.05.{year}"), &format!("07.11.{year}")], [10.0, 20.0]));
    assert!(years(&dates(2024).waters, &dates(2025).waters).pairs.is_empty());
}

#[test]
fn one_water_in_each_is_compared_and_another_name_is_told() {
    let of = |works: [&str; 2], one: usize| {
        let mut filed = report(works, [10.0, 20.0]);
        filed.picked = Picked::One(one);
        filed
    };
    let (last, this) = (of(["Works A", "Works B"], 0), of(["Works C", "Works A"], 1));
    assert_eq!(years(&waters(&last).waters, &waters(&this).waters).unmatched.len(), 0);
    let other = of(["Works C", "Works A"], 0);
    let found = years(&waters(&last).waters, &waters(&other).waters);
    assert_eq!((found.pairs.len(), found.unmatched.len()), (1, 1));
    assert!(found.unmatched[0].contains("of Works A, the later one of Works C"), "{}", found.unmatched[0]);
    // The works of the later report is picked in the earlier one, by its name.
    assert_eq!(picked_alike(&of(["Works A", "Works B"], 1), &this).picked, Picked::One(0));
    assert_eq!(picked_alike(&last, &report(["Works C", "Works A"], [1.0, 2.0])).picked, Picked::All);
    assert_eq!(picked_alike(&last, &other).picked, Picked::One(0));
}
