//! The tank in plain text: sizes, weight with the question that goes with it, and what was assumed.

use setup::Tank;

use super::really::really;
use super::text::Text;

/// The tank.
pub fn tank(tank: &Tank) -> String {
    let mut t = Text::new(&tank.units);
    t.head(&tank.name);
    match tank.glass_question() {
        Some(question) => t.say(&question.ask),
        None => sizes(&mut t, tank),
    }
    really(&mut t, tank);
    if let Some(weeds) = tank.weeds(&tank.plants) {
        t.head("Plants on a list");
        t.say(&weeds);
    }
    if !tank.assumed.is_empty() {
        t.head("Assumed, the weightiest first");
        for assumption in &tank.assumed {
            t.point(&format!("{} (`{}`, {})", assumption.sentence, assumption.field, assumption.kind.words()));
        }
    }
    t.finish()
}

/// Litres, surface and weight of a glass that was told.
fn sizes(t: &mut Text, tank: &Tank) {
    let g = &tank.geometry;
    t.say(&format!(
        "Water that is really in it: {}. By its outer measure it would be called {}.",
        t.known_volume(&g.true_l),
        t.volume(g.nominal_l)
    ));
    t.say(&format!("Surface: {} m². Temperature: {}.", t.n(g.surface_m2, 2), t.temperature(&tank.temperature_c)));
    t.say(&format!(
        "Filled, with ground and stones, it weighs {} kg and presses with {} kPa. Whether furniture and floor carry \
         that, ask the landlord or a builder; Tapmere can't tell.",
        t.known(&g.mass_kg),
        t.known(&g.pressure_kpa)
    ));
}
