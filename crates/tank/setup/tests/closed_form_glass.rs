//! The wedge of ground and the range of the litres against closed forms.

use setup::Setup;

fn litres(front_cm: f64, back_cm: f64, porosity_percent: f64) -> quantity::Known<f64> {
    let file = format!(
        "[glass]\ninner_length = \"80 cm\"\ninner_width = \"35 cm\"\ninner_height = \"45 cm\"\nfill_below_rim = \"3 cm\"\n\
         [ground]\ndepth_front = \"{front_cm} cm\"\ndepth_back = \"{back_cm} cm\"\nporosity = \"{porosity_percent} %\"\n"
    );
    Setup::read("tank.toml", &file)
        .unwrap_or_else(|faults| panic!("{faults}"))
        .tank()
        .expect("read before")
        .geometry
        .true_l
}

/// The volume of a sloped bed is the integral of its depth over the floor; midpoints are exact for a plane.
#[test]
fn a_wedge_is_the_integral_of_its_depth() {
    for (front, back, porosity) in [(2.0, 8.0, 40.0), (8.0, 2.0, 35.0), (5.0, 5.0, 60.0), (0.0, 10.0, 45.0)] {
        let strips = 1000;
        let depth = |i: usize| front + (back - front) * (i as f64 + 0.5) / strips as f64;
        let grains: f64 = (0..strips).map(|i| 80.0 * 35.0 / strips as f64 * depth(i) * (1.0 - porosity / 100.0)).sum();
        let expected = (80.0 * 35.0 * 42.0 - grains) / 1000.0;
        let value = litres(front, back, porosity).value;
        assert!((value - expected).abs() < 1e-6, "{value} against {expected}");
    }
}

/// With everything told there is no range; with one range the result's ends are the function's ends.
#[test]
fn a_single_range_goes_through_from_end_to_end() {
    let told = litres(4.0, 6.0, 40.0);
    assert_eq!(told.low, told.high);
    let file = "[glass]\ninner_length = \"80 cm\"\ninner_width = \"35 cm\"\ninner_height = \"45 cm\"\n\
                fill_below_rim = \"2 to 5 cm\"\n[ground]\ndepth_front = \"4 cm\"\ndepth_back = \"6 cm\"\nporosity = \"40 %\"\n";
    let ranged = Setup::read("tank.toml", file).unwrap().tank().unwrap().geometry.true_l;
    // 80 × 35 cm: a centimetre of water is 2.8 L.
    assert!((ranged.high - ranged.low - 3.0 * 2.8).abs() < 1e-9);
}
