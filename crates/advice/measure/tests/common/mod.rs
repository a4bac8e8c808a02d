//! What the tests share: a tank of a hundred litres, and readings typed in.

use measure::{Name, Readings, Worked, work};
use quantity::Fault;
use setup::{Setup, Tank};

/// 100 L without ground: 100 × 40 × 25 cm of water, sizes without a range, a middling tap, ten fish.
pub const HUNDRED: &str = "[glass]\ninner_length = \"100 cm\"\ninner_width = \"40 cm\"\ninner_height = \"27 cm\"\n\
     thickness = \"6 mm\"\nfill_below_rim = \"2 cm\"\n[ground]\ndepth_front = \"0 cm\"\ndepth_back = \"0 cm\"\n[tap]\n\
     calcium = \"60 mg/L\"\nmagnesium = \"8 mg/L\"\nsodium = \"15 mg/L\"\npotassium = \"2 mg/L\"\nalkalinity = \"8 °dH\"\n\
     chloride = \"25 mg/L\"\nsulfate = \"30 mg/L\"\nnitrate = \"8 mg/L NO3\"\nph = 7.6\n[animals]\nfish = 10\n";

/// The tank with some more lines.
pub fn tank(more: &str) -> Tank {
    setup(more).tank().unwrap()
}

/// Its setup.
pub fn setup(more: &str) -> Setup {
    Setup::read("tank.toml", &format!("{HUNDRED}{more}")).unwrap_or_else(|faults| panic!("{faults}"))
}

/// Work something out from typed texts.
pub fn worked(name: Name, tank: &Tank, typed: &[(&str, &str)]) -> Result<Worked, Fault> {
    let readings = Readings::read(name, typed.iter().copied(), &tank.units).unwrap_or_else(|faults| panic!("{faults}"));
    work(name, tank, &readings)
}

/// The one value.
pub fn value(name: Name, tank: &Tank, typed: &[(&str, &str)]) -> quantity::Known<f64> {
    worked(name, tank, typed).unwrap_or_else(|fault| panic!("{fault}")).values[0].known
}
