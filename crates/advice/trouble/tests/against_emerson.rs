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
    assert_eq!(table.rows.len(), 9);
    for (ph, cells) in &table.rows {
        for (c, total) in table.temperatures_c.iter().zip(cells) {
            let share = table.limit_mg_n_per_l / total;
            // 2 %: two published constants, and an activity of 0.99 that pure water would not have.
            assert!((share / emerson(*ph, *c) - 1.0).abs() < 0.02, "pH {ph}, {c} °C: {share} {}", emerson(*ph, *c));
        }
    }
}
