//! A slip of ten doses is answered with as many changes as the plan's share really needs, and a hose is not given the whole tank's
//! conditioner for a small change (harm rules 1, 2, 6, 10).
//!
//! Judge: hand arithmetic, n = ln(1 ÷ times over) ÷ ln(1 − share).

use crate::common::{exact, tank};
use recipe::{Into, plan};

#[test]
fn rule_6_so_many_changes_as_the_share_needs() {
    for share in [0.03, 0.1, 0.25, 0.5] {
        let mut tank = tank();
        tank.habits.change_share = exact(share);
        // Plants that eat a lot: ten times a dose is far over the 10 mg/L of a day.
        tank.growth.uptake_mg_per_l_day.insert(quantity::Ion::Nitrate, exact(2.5));
        let plan = plan(&tank);
        let mut over = 0;
        for bottle in plan.bottles.iter().filter(|bottle| bottle.slip.contains("too much at once")) {
            over += 1;
            // The worst of "rises by A mg/L (no harm known to me below B": each change leaves 1 − share of it.
            let worst = bottle
                .slip
                .split("rises by ")
                .skip(1)
                .map(|part| {
                    let number =
                        |text: &str| text.split(' ').next().and_then(|n| n.parse::<f64>().ok()).expect("a number");
                    number(part) / number(part.split_once("below ").expect("a limit").1)
                })
                .fold(1.0, f64::max);
            let n = (worst.ln() / -(1.0f64 - plan.change.share).ln()).ceil();
            let once = bottle.slip.contains("change as much water as on a change day");
            // Ten times is told in two figures: near a whole number either is right.
            assert!(!once || n <= 1.0 || worst * (1.0 - plan.change.share) < 1.05, "{n}: {}", bottle.slip);
            if share < 0.2 && n > 1.0 {
                assert!(
                    bottle.slip.contains("can't take it out quickly") && bottle.slip.contains("air on"),
                    "{}",
                    bottle.slip
                );
            }
        }
        assert!(
            over > 0,
            "ten times a dose is over a limit: {:?}",
            plan.bottles.iter().map(|b| &b.slip).collect::<Vec<_>>()
        );
        assert!(plan.doses.iter().any(|dose| dose.into == Into::Bottle));
    }
}

#[test]
fn rules_1_and_2_a_small_change_goes_by_bucket() {
    let mut tank = tank();
    tank.tap.disinfectant = setup::Disinfectant::Chlorine;
    tank.tap.total_chlorine_mg_per_l = exact(0.5);
    tank.at_hand.by_hose = true;
    for (share, hose) in [(0.05, false), (0.24, false), (0.4, true)] {
        tank.habits.change_share = exact(share);
        let new_water = plan(&tank).new_water;
        let c = new_water.conditioner.expect("a conditioner");
        let act = c.sentences.first().expect("the act");
        assert_eq!(act.contains("whole tank"), hose, "{act}");
        assert_eq!(act.contains("into each bucket"), !hose, "{act}");
        assert_eq!(new_water.notes.iter().any(|n| n.text.contains("not by hose")), !hose);
        assert!(hose || !c.more.iter().any(|says| says.contains("whole tank")), "{:?}", c.more);
    }
}
