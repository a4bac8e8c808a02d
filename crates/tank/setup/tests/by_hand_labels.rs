//! Labels of own liquids and powders, by hand.

use quantity::Ion;
use setup::{OwnProduct, Setup};

fn own(text: &str) -> OwnProduct {
    let setup = Setup::read("tank.toml", text).unwrap_or_else(|faults| panic!("{faults}"));
    let tank = setup.tank().unwrap();
    assert_eq!(tank.questions, []);
    tank.at_hand.own[0].clone()
}

fn close(value: f64, by_hand: f64) {
    assert!((value / by_hand - 1.0).abs() < 1e-4, "{value} against {by_hand} by hand");
}

#[test]
fn percent_by_mass_takes_the_density() {
    let own = own("[[own]]\nname = \"green\"\ndensity = \"1.2 kg/L\"\npercent = \"by_mass\"\n\
         label = { nitrate = \"2 % N\", potassium = \"5 % K2O\" }\n");
    // 2 g N in 100 g: 20 mg/g × 1.2 g/mL = 24 mg/mL of N, × 62.004 ÷ 14.007 = 106.24 mg/mL of nitrate.
    close(own.ions_mg[&Ion::Nitrate], 24.0 * 62.004 / 14.007);
    // 50 mg/g K2O × 1.2 = 60 mg/mL, × 2 × 39.098 ÷ 94.195 = 49.81 mg/mL of K.
    close(own.ions_mg[&Ion::Potassium], 60.0 * 2.0 * 39.098 / 94.195);
    assert!(own.liquid && own.name == "green");
}

#[test]
fn percent_by_volume_and_milligrams_take_no_density() {
    let own = own("[[own]]\npercent = \"by_volume\"\n\
         label = { phosphate = \"1 % P2O5\", iron = \"0.8 mg/mL\", magnesium = \"2 g/L Mg\" }\n");
    // 1 g P2O5 in 100 mL: 10 mg/mL × 2 × 94.970 ÷ 141.943 = 13.38 mg/mL of phosphate.
    close(own.ions_mg[&Ion::Phosphate], 10.0 * 2.0 * 94.970 / 141.943);
    close(own.ions_mg[&Ion::Iron], 0.8);
    close(own.ions_mg[&Ion::Magnesium], 2.0);
}

#[test]
fn a_powder_is_weighed() {
    let own = own("[[own]]\nkind = \"powder\"\nlabel = { potassium = \"41.5 % K\", iron = \"70 g/kg\" }\n");
    close(own.ions_mg[&Ion::Potassium], 415.0);
    close(own.ions_mg[&Ion::Iron], 70.0);
    assert!(!own.liquid);
}

#[test]
fn a_label_without_basis_is_asked() {
    let text = "[[own]]\npercent = \"by_volume\"\nlabel = { potassium = \"5 %\" }\n";
    let tank = Setup::read("tank.toml", text).unwrap().tank().unwrap();
    assert!(!tank.at_hand.own[0].ions_mg.contains_key(&Ion::Potassium));
    let question = &tank.questions[0];
    assert_eq!(question.field, "own.1.label.potassium");
    let keys: Vec<&str> = question.replies.iter().map(|reply| reply.key.as_str()).collect();
    assert_eq!(keys, ["k", "k2o"]);
    // 5 % K2O is 5 × 2 × 39.098 ÷ 94.195 = 4.15 % K.
    assert_eq!(question.replies[1].means, "4.15 % K");
    let answered = Setup::read("tank.toml", text).unwrap().with(&question.field, &question.replies[1].text).unwrap();
    close(answered.tank().unwrap().at_hand.own[0].ions_mg[&Ion::Potassium], 41.5 * 1.00017);
}

#[test]
fn a_percent_that_may_be_two_things_is_asked() {
    let tank = Setup::read("tank.toml", "[[own]]\nlabel = { iron = \"2 %\" }\n").unwrap().tank().unwrap();
    assert_eq!(tank.questions[0].field, "own.1.percent");
}

/// Grams in 100 g say nothing of a millilitre before somebody says how heavy the liquid is.
#[test]
fn a_percent_by_mass_is_offered_once_the_density_is_told() {
    let keys = |density: &str| {
        let text = format!("[[own]]\n{density}label = {{ iron = \"2 %\" }}\n");
        let question = Setup::read("tank.toml", &text).unwrap().tank().unwrap().questions[0].clone();
        question.replies.into_iter().map(|reply| reply.key).collect::<Vec<_>>()
    };
    assert_eq!(keys(""), ["by_volume"]);
    assert_eq!(keys("density = \"1.1 kg/L\"\n"), ["by_mass", "by_volume"]);
}
