//! Food and uptake redone by hand. Judge: stoichiometry; molar masses by IUPAC's abridged weights (`iupac_2022`).

use quantity::Ion;
use setup::Setup;

/// 100 L without ground: 100 × 40 × 25 cm of water.
const HUNDRED_LITRES: &str = "[glass]\ninner_length = \"100 cm\"\ninner_width = \"40 cm\"\ninner_height = \"27 cm\"\n\
     fill_below_rim = \"2 cm\"\n[ground]\ndepth_front = \"0 cm\"\ndepth_back = \"0 cm\"\n[animals]\nfish = 10\n";

fn growth(rest: &str) -> setup::Growth {
    let setup =
        Setup::read("tank.toml", &format!("{HUNDRED_LITRES}{rest}")).unwrap_or_else(|faults| panic!("{faults}"));
    let tank = setup.tank().unwrap();
    assert!((tank.geometry.true_l.value - 100.0).abs() < 1e-9);
    tank.growth
}

#[test]
fn a_gram_of_food_in_a_hundred_litres() {
    let growth = growth("[food]\nper_day = \"1 g a day\"\nprotein = \"35 %\"\nphosphorus = \"1 %\"\n");
    let food = &knowledge::book().uptake.food;
    // 1 g × 0.35 ÷ 6.25 = 56 mg of N, 0.56 mg/L; × 62.004 ÷ 14.007 = 2.479 mg/L of nitrate if all of it came back.
    let nitrate = growth.food_mg_per_l_day[&Ion::Nitrate].value / food.nitrogen_returned.value;
    assert!((nitrate - 2.479).abs() < 0.001, "{nitrate}");
    // 10 mg of P, 0.1 mg/L; × 94.970 ÷ 30.974 = 0.3066 mg/L of phosphate.
    let phosphate = growth.food_mg_per_l_day[&Ion::Phosphate].value / food.phosphorus_returned.value;
    assert!((phosphate - 0.3066).abs() < 0.0001, "{phosphate}");
    // 0.56 mg/L of N ÷ 14.007 = 0.03998 mmol/L, one equivalent each.
    let eaten = growth.alkalinity_eaten_meq_per_l_day.value / food.nitrogen_returned.value;
    assert!((eaten - 0.03998).abs() < 0.00001, "{eaten}");
}

#[test]
fn alkalinity_eaten_is_one_equivalent_a_mole_of_nitrate_from_food() {
    let growth = growth("[food]\nper_day = \"0.4 g a day\"\nprotein = \"48 %\"\n");
    let mmol = growth.food_mg_per_l_day[&Ion::Nitrate].value / 62.004;
    assert!((growth.alkalinity_eaten_meq_per_l_day.value - mmol).abs() < 1e-12);
}

#[test]
fn told_uptake_counts_and_carries_the_others() {
    let growth = growth("[plants]\nuptake_nitrate = \"0.9 mg/L NO3 a day\"\n");
    let ratio = knowledge::book().uptake.per_nitrate[&Ion::Potassium].value;
    assert!((growth.uptake_mg_per_l_day[&Ion::Nitrate].value - 0.9).abs() < 1e-12);
    assert!((growth.uptake_mg_per_l_day[&Ion::Potassium].value - 0.9 * ratio).abs() < 1e-12);
}

/// In proportion to the hours of light (assumed), up to the ten of which plants make use; eight where nobody told.
#[test]
fn growth_goes_by_the_hours_of_light() {
    let nitrate = |light: &str| growth(light).uptake_mg_per_l_day[&Ion::Nitrate].value;
    let usual = nitrate("");
    for (hours, share) in [("6 h", 6.0 / 8.0), ("8 h", 1.0), ("10 h", 10.0 / 8.0), ("14 h", 10.0 / 8.0)] {
        let found = nitrate(&format!("[light]\nhours = \"{hours}\"\n"));
        assert!((found - share * usual).abs() < 1e-9, "{hours}: {found}, usual {usual}");
    }
    // What was weighed is not scaled.
    let told = "[light]\nhours = \"4 h\"\n[plants]\nuptake_nitrate = \"0.9 mg/L NO3 a day\"\n";
    assert!((nitrate(told) - 0.9).abs() < 1e-12);
}

#[test]
fn an_empty_tank_gets_no_food() {
    let file = HUNDRED_LITRES.replace("fish = 10", "fish = 0\nshrimps = 0");
    let tank = Setup::read("tank.toml", &file).unwrap().tank().unwrap();
    assert_eq!(tank.growth.food_mg_per_l_day[&Ion::Nitrate].value, 0.0);
}
