//! The table of the sheet, in nearly pure water, against Emerson et al. (1975): pKa = 0.0901821 + 2729.92/T, the textbook's
//! formula for infinite dilution. The program itself uses the speciation with activities, checked in crate `water`.

use trouble::ammonia_table;

fn emerson(ph: f64, c: f64) -> f64 {
    1.0 / (1.0 + 10f64.powf(0.0901821 + 2729.92 / (c + 273.15) - ph))
}

#[test]
fn the_toxic_share_at_infinite_dilution() {
    // The formula by its own printed table (a textbook's, "calculated from Emerson"): 24 °C pH 7.0 0.0052, pH 8.0 0.0502: one unit of the last printed figure.
    assert!((emerson(7.0, 24.0) - 0.0052).abs() < 0.0001 && (emerson(8.0, 24.0) - 0.0502).abs() < 0.0001);
    let table = ammonia_table();
    assert_eq!(table.fish_rows.len(), 9);
    for (ph, cells) in &table.fish_rows {
        // A reading of pH counts a tenth higher, as in every tank.
        let ph = &(ph + 0.1);
        for (c, total) in table.temperatures_c.iter().zip(cells) {
            let share = table.limit_mg_n_per_l / total;
            // 2 %: two published constants, and an activity of 0.99 that pure water would not have.
            assert!((share / emerson(*ph, *c) - 1.0).abs() < 0.02, "pH {ph}, {c} °C: {share} {}", emerson(*ph, *c));
        }
    }
}

#[test]
fn snails_that_nobody_counted_bear_less() {
    // US EPA 2013 chronic, by hand: 0.8876 (0.0278/(1 + 10^(7.688 - pH)) + 1.1994/(1 + 10^(pH - 7.688))) 2.126 10^(0.028 (20 - t)).
    // pH 6.6 (read 6.5), 20 °C: 10^-1.088 = 0.0817: 0.8876 (0.0021 + 1.1088) 2.126 = 2.096; the toxic share alone would bear over 10.
    // pH 7.1 (read 7.0), 20 °C: 10^-0.588 = 0.2582: 0.8876 (0.0057 + 0.9533) 2.126 = 1.810.
    // pH 8.6 (read 8.5), 28 °C: 10^0.912 = 8.166: 0.8876 (0.0248 + 0.1309) 2.126 10^-0.224 = 0.175; the share bears 0.06: that counts.
    let table = ammonia_table();
    let at = |rows: &[(f64, Vec<f64>)], ph: f64, column: usize| {
        let row = rows.iter().find(|row| row.0 == ph).expect("a row");
        row.1[column]
    };
    assert!((at(&table.rows, 6.5, 0) - 2.096).abs() < 0.01 && at(&table.fish_rows, 6.5, 0) > 9.0);
    assert!((at(&table.rows, 7.0, 0) - 1.810).abs() < 0.01 && at(&table.fish_rows, 7.0, 0) > 3.0);
    assert_eq!(at(&table.rows, 8.5, 2), at(&table.fish_rows, 8.5, 2));
    for (both, fish) in table.rows.iter().zip(&table.fish_rows) {
        assert!(both.1.iter().zip(&fish.1).all(|(both, fish)| both <= fish), "{both:?} {fish:?}");
    }
}
