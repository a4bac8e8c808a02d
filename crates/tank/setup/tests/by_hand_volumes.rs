//! Litres, mass and pressure redone by hand from the sizes in the file; each sum is written out.
//!
//! Judge: arithmetic. The densities are those of `data/materials.toml` and `data/substrates.toml`, read here again.

use setup::{Geometry, Setup};

fn geometry(file: &str) -> Geometry {
    Setup::read("tank.toml", file).unwrap_or_else(|faults| panic!("{faults}")).tank().expect("read before").geometry
}

fn close(value: f64, by_hand: f64, within: f64) {
    assert!((value - by_hand).abs() <= within, "{value} against {by_hand} by hand");
}

#[test]
fn the_household() {
    let g = geometry(include_str!("../../../../examples/household/tank.toml"));
    let materials = &knowledge::book().materials;
    let (rock, wood) = (materials.rock_kg_per_m3.value / 1000.0, materials.wood_kg_per_m3.value / 1000.0);
    // Seller's size: 7.6 dm × 3.6 dm × 4.0 dm = 109.44 L.
    close(g.nominal_l, 109.44, 1e-9);
    // Filled to 3 cm under the rim: 7.6 × 3.6 × 3.7 = 101.232 L.
    // Ground, mean depth 5 cm, six tenths of it grains: 7.6 × 3.6 × 0.5 × 0.6 = 8.208 L.
    // Rock 4 kg ÷ 2.7 kg/L = 1.481 L, wood 1 kg ÷ 1.1 kg/L = 0.909 L.
    let litres = 101.232 - 8.208 - 4.0 / rock - 1.0 / wood;
    close(g.true_l.value, litres, 1e-9);
    close(litres, 90.63, 0.01);
    // 0.76 m × 0.36 m.
    close(g.surface_m2, 0.2736, 1e-12);
    // Glass: outside 77.6 × 37.6 cm, 40.8 cm high with the bottom; inside 76 × 36 × 40 cm.
    // 119.044 L - 109.44 L = 9.604 L of glass, at 2.5 kg/L 24.01 kg.
    let glass_l = 7.76 * 3.76 * 4.08 - 109.44;
    close(glass_l, 9.604, 0.001);
    // Ground 7.6 × 3.6 × 0.5 = 13.68 L at 1.6 kg/L = 21.89 kg.
    let bulk = knowledge::book().substrates["gravel"].bulk_density_kg_per_l.value;
    let mass = litres * materials.water_kg_per_m3.value / 1000.0
        + glass_l * materials.glass_kg_per_m3.value / 1000.0
        + 13.68 * bulk
        + 4.0
        + 1.0;
    close(g.mass_kg.value, mass, 1e-6);
    close(mass, 141.3, 0.1);
    // 141.3 kg × 9.80665 m/s² ÷ (0.776 m × 0.376 m) = 4748 Pa.
    close(g.pressure_kpa.value, mass * 9.80665 / (0.776 * 0.376) / 1000.0, 1e-6);
    close(g.pressure_kpa.value, 4.75, 0.01);
}

#[test]
fn the_likely_litres_of_the_household() {
    let g = geometry(include_str!("../../../../examples/household/tank.toml"));
    let materials = &knowledge::book().materials;
    // Fill line 1 to 6 cm instead of 3: 7.6 × 3.6 × 0.2 = 5.472 L more, × 0.3 = 8.208 L less.
    // Porosity 0.35 to 0.45 instead of 0.40: 13.68 L × 0.05 = 0.684 L either way.
    // Rock at its lightest and heaviest, wood likewise.
    let solid = |kg: f64, from: f64, to: f64| (kg / from - kg / to).abs() * 1000.0;
    let (rock, wood) = (&materials.rock_kg_per_m3, &materials.wood_kg_per_m3);
    let more = [5.472, 0.684, solid(4.0, rock.value, rock.high()), solid(1.0, wood.value, wood.high())];
    let less = [8.208, 0.684, solid(4.0, rock.value, rock.low()), solid(1.0, wood.value, wood.low())];
    let root = |moves: [f64; 4]| moves.iter().map(|m| m * m).sum::<f64>().sqrt();
    close(g.true_l.high, g.true_l.value + root(more), 1e-9);
    close(g.true_l.low, g.true_l.value - root(less), 1e-9);
}

#[test]
fn outer_sizes_lose_their_panes() {
    let sizes = |which: &str, l: &str, w: &str, h: &str| {
        format!(
            "[glass]\n{which}_length = \"{l}\"\n{which}_width = \"{w}\"\n{which}_height = \"{h}\"\nthickness = \"8 mm\"\n"
        )
    };
    // 77.6 - 2 × 0.8 = 76 cm, 37.6 - 1.6 = 36 cm, 40.8 - 0.8 = 40 cm: one bottom, no lid.
    let outer = geometry(&sizes("outer", "77.6 cm", "37.6 cm", "40.8 cm"));
    let inner = geometry(&sizes("inner", "76 cm", "36 cm", "40 cm"));
    for (a, b) in [(outer.length_m, inner.length_m), (outer.width_m, inner.width_m), (outer.height_m, inner.height_m)] {
        close(a, b, 1e-12);
    }
    close(outer.true_l.value, inner.true_l.value, 1e-9);
}

#[test]
fn inches_and_litres_of_stone() {
    // 24 in × 12 in × 16 in, filled to 1 in under the rim, no ground: 60.96 × 30.48 × 38.1 cm = 70.79 L, less 2 L of rock.
    let g = geometry(
        "[glass]\ninner_length = \"24 in\"\ninner_width = \"12 in\"\ninner_height = \"16 in\"\nfill_below_rim = \"1 in\"\n\
         [ground]\ndepth_front = \"0 cm\"\ndepth_back = \"0 cm\"\n[hardscape]\nrock = \"2 L\"\n",
    );
    close(g.true_l.value, 6.096 * 3.048 * 3.81 - 2.0, 1e-9);
    close(g.true_l.value, 68.79, 0.01);
}

#[test]
fn the_load_is_told_and_asked_and_never_promised() {
    let g = geometry(include_str!("../../../../examples/household/tank.toml"));
    let sentence = g.load_sentence(&quantity::Units::default());
    // The upper end of the range counts: 147 kg, 4.9 kPa.
    assert!(sentence.contains("147 kg") && sentence.contains("4.9 kPa"), "{sentence}");
    assert!(sentence.contains("I can't tell") && sentence.contains("ask"), "{sentence}");
    for promise in ["holds", "will carry", "strong enough", "safe"] {
        assert!(!sentence.contains(promise), "{sentence}");
    }
}

#[test]
fn stones_as_a_volume_and_outer_sizes_are_kept_as_they_were_told() {
    let setup = Setup::read(
        "tank.toml",
        "[glass]\nouter_length = \"61.2 cm\"\ninner_width = \"30 cm\"\nthickness = \"6 mm\"\n[hardscape]\nrock = \"2 L\"\nwood = \"1.1 kg\"\n\
         [ground]\nkind = \"lava\"\nporosity = \"60 %\"\n",
    )
    .unwrap();
    let inside = setup.inside();
    let [length, width, height] = &inside.sides;
    assert!(length.outer() && !width.outer() && !height.outer());
    close(length.metres.value, 0.612, 1e-12);
    assert_eq!(height.metres.kind, quantity::Kind::Assumed);
    // 2 L × 2.7 kg/L = 5.4 kg; 1.1 kg ÷ 1.1 kg/L = 1 L.
    assert!(inside.rock.by_volume && !inside.wood.by_volume);
    close(inside.rock.kg.value, 5.4, 1e-9);
    close(inside.wood.litres.value, 1.0, 1e-9);
    assert_eq!((inside.ground.kind.as_str(), inside.ground.porosity.value), ("lava", 0.6));
    assert_eq!(setup.number("ground.porosity").map(|known| known.value), Some(0.6));
    assert_eq!(setup.number("glass.outer_height"), None);
}
