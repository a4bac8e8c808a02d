//! Judge: hand arithmetic with molar masses (`iupac_2022`): Na 22.990, and 1 German degree = 0.3566 meq/L (DIN 38409-6).

use report::meaning;
use setup::Setup;

fn hard(tap: &str) -> String {
    let tank = Setup::read("tank.toml", &format!("[tap]\n{tap}")).unwrap().tank().unwrap();
    meaning(&tank, &[]).sentences[0].text.clone()
}

/// 15 degrees of alkalinity are 5.35 meq/L; 0.5 degrees of hardness 0.18, with the spread of its two parts at most 0.28:
/// 5.07 × 22.99 = 117 mg/L of sodium at least stand in place of calcium and magnesium, of 180 that are there.
#[test]
fn a_typed_tap_behind_a_softener_is_known() {
    let said = hard("hardness = \"0.5 °dH\"\nalkalinity = \"15 °dH\"\nsodium = \"180 mg/L\"\n");
    assert!(said.contains("behind a softener") && said.contains("about 120 mg/L"), "{said}");
    assert!(said.contains("before the softener") && said.contains("snails and shrimps lack calcium"), "{said}");
}

/// Soft and unbuffered, hard, demineralised, or with too little sodium for it: 60 mg/L are 2.6 meq/L, and 5 are gone.
#[test]
fn no_other_water_is() {
    for tap in [
        "hardness = \"2 °dH\"\nalkalinity = \"1.5 °dH\"\nsodium = \"180 mg/L\"\n",
        "hardness = \"16 °dH\"\nalkalinity = \"15 °dH\"\nsodium = \"180 mg/L\"\n",
        "hardness = \"0.5 °dH\"\nalkalinity = \"15 °dH\"\nsodium = \"60 mg/L\"\n",
        "hardness = \"0.5 °dH\"\nalkalinity = \"15 °dH\"\n",
        "hardness = \"0.5 °dH\"\nsodium = \"180 mg/L\"\n",
    ] {
        let said = hard(tap);
        assert!(!said.contains("softener"), "{tap}: {said}");
    }
}
