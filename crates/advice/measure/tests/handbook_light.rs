//! Photons in a lumen, against published factors from lux. Judge: `thimijan_heins_1983` (from memory): lux for a µmol/m²s.

use knowledge::book;

#[test]
fn photons_in_a_lumen_agree_with_published_factors() {
    for (lamp, lux, share) in [("daylight", 54.0, 0.035), ("halogen", 50.0, 0.01), ("fluorescent", 74.0, 0.03)] {
        let row = &book().measures.lamp[lamp].per_klm;
        let published = 1000.0 / lux;
        assert!((row.value / published - 1.0).abs() < share, "{lamp}: {} against {published}", row.value);
    }
    let fluorescent = &book().measures.lamp["fluorescent"].per_klm;
    assert!((fluorescent.low()..=fluorescent.high()).contains(&(1000.0 / 74.0)));
}

/// One wavelength by hand: 555 nm has 683 lm/W and 8.359347e-3 × 555 = 4.639 µmol/J: 6.79 µmol/s for 1,000 lm, which no
/// white lamp can fall below.
#[test]
fn no_lamp_holds_fewer_photons_than_green_light() {
    let green: f64 = 8.359_347e-3 * 555.0 / 683.0 * 1000.0;
    assert!((green - 6.79).abs() < 0.01);
    for (key, lamp) in &book().measures.lamp {
        assert!(lamp.per_klm.low() > green, "{key}");
    }
}
