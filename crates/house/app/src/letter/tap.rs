//! The tap in plain text: what it brings, with ranges, and what disinfects it.

use quantity::{Ion, Known};
use setup::{Disinfectant, SourceWater, Tank};

use super::text::Text;

/// The tap, and the low-mineral water where there is one.
pub fn tap(tank: &Tank) -> String {
    let mut t = Text::new(&tank.units);
    water(&mut t, &tank.tap);
    if let Some(low) = &tank.low {
        water(&mut t, low);
    }
    t.finish()
}

fn water(t: &mut Text, water: &SourceWater) {
    t.head(&format!("{}, mg/L, with the year's range", water.name));
    let levels = Ion::ALL.map(|ion| (ion, water.mg_per_l(ion)));
    let brought = levels.iter().filter(|(_, level)| level.high > 0.0);
    let row = |(ion, level): &(Ion, Known<f64>)| {
        let (factor, unit) = t.unit(Some(*ion));
        let named = if factor == 1.0 { ion.name().to_owned() } else { format!("{}, {unit}", ion.name()) };
        [named, t.known(&level.map(|mg| factor * mg)), level.kind.words().to_owned()]
    };
    let rows: Vec<[String; 3]> = brought.map(row).collect();
    t.table(&rows);
    let (factor, unit) = t.unit(None);
    t.say(&format!(
        "Alkalinity {} {unit} ({}), pH {} ({}), {} ({}).",
        t.known(&water.alkalinity_meq_per_l.map(|meq| factor * meq)),
        water.alkalinity_meq_per_l.kind.words(),
        t.known(&water.ph),
        water.ph.kind.words(),
        t.temperature(&water.temperature_c),
        water.temperature_c.kind.words()
    ));
    let counted = t.known(&water.total_chlorine_mg_per_l);
    t.say(&match water.disinfectant {
        Disinfectant::None => "No disinfectant, says the report or the supplier.".to_owned(),
        Disinfectant::Chlorine => format!("Disinfected with chlorine: {counted} mg/L total chlorine."),
        Disinfectant::Chloramine => format!("Disinfected with chloramine: {counted} mg/L total chlorine."),
        Disinfectant::Unknown => {
            format!("Nobody said what disinfects it: counted as chloramine, {counted} mg/L total chlorine.")
        }
    });
}
