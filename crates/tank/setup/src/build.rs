//! From numbers and words to the tank: sizes, growth, what is at hand. Every value is known by now.

use std::collections::BTreeMap;

use knowledge::{Book, Materials, Sourced};
use quantity::{Ion, Kind, Known, Units};
use serde::Deserialize;

use crate::given::{Given, assumed};
use crate::glass::Glass;
use crate::{
    Animals, AtHand, Energy, Feeding, Geometry, Habits, Measured, SourceWater, Tank, Warmth, Wish, growth, own, source,
};

/// The tank, without why-notes and without what was assumed, asked and found unusual.
pub(crate) fn tank(given: &Given, book: &Book) -> Tank {
    let glass = glass(given, book);
    let geometry = geometry(&glass, given, book);
    let growth = growth::growth(given, book, geometry.true_l);
    let tap = source::water(given, "tap", "the tap");
    let low = low_water(given, book);
    Tank {
        name: given.word("tank.name").to_owned(),
        country: given.word("tank.country").to_owned(),
        currency: given.word("tank.currency").to_owned(),
        units: units(given),
        geometry,
        measured: measured(given),
        warmth: warmth(given),
        temperature_c: given.number("tank.temperature"),
        room_co2_ppm: given.number("tank.room_co2"),
        co2_given_mg_per_l: given.find("tank.co2"),
        tap,
        low,
        low_share: given.find("low_water.share").map(|share| share.value),
        pipes_copper_mg_per_l: given.number("pipes.copper"),
        energy: energy(given.word("light.energy")),
        feeding: feeding(given.word("feeding.wish")),
        animals: animals(given),
        growth,
        plants: given.word("plants.names").to_owned(),
        habits: habits(given),
        keeping: crate::keeping::keeping(given),
        at_hand: at_hand(given),
        wish: wish(given),
        prices: prices(given, book),
        unchanged_months: given
            .find("animals.unchanged_months")
            .map(|months| months.value)
            .filter(|months| *months > 0.0),
        assumed: Vec::new(),
        questions: Vec::new(),
        unusual: Vec::new(),
        whys: Vec::new(),
    }
}

/// What the sizes are worked out from.
pub(crate) fn glass(given: &Given, book: &Book) -> Glass {
    let Materials { glass_kg_per_m3, rock_kg_per_m3, wood_kg_per_m3, water_kg_per_m3, .. } = &book.materials;
    let bulk = book.substrates.get(given.word("ground.kind")).map(|ground| ground.bulk_density_kg_per_l.known());
    let (rock_kg, rock_m3) = solid(given, "hardscape.rock", rock_kg_per_m3);
    let (wood_kg, wood_m3) = solid(given, "hardscape.wood", wood_kg_per_m3);
    Glass {
        length_m: given.number("glass.inner_length"),
        width_m: given.number("glass.inner_width"),
        height_m: given.number("glass.inner_height"),
        glass_m: given.number("glass.thickness"),
        fill_m: given.number("glass.fill_below_rim"),
        front_m: given.number("ground.depth_front"),
        back_m: given.number("ground.depth_back"),
        porosity: given.number("ground.porosity"),
        rock_m3,
        wood_m3,
        rock_kg,
        wood_kg,
        bulk_kg_per_m3: bulk.map_or(Known::exact(0.0, Kind::Assumed), assumed).map(|kg_per_l| 1000.0 * kg_per_l),
        water_kg_per_m3: water_kg_per_m3.known(),
        glass_kg_per_m3: glass_kg_per_m3.known(),
    }
}

/// Mass in kg and volume in m³ of rock or wood, of which one was told and the other follows from the density.
fn solid(given: &Given, path: &str, density: &Sourced<f64>) -> (Known<f64>, Known<f64>) {
    let told = given.number(path);
    let density = assumed(density.known());
    if given.word(&format!("{path}.as")) == "volume" {
        let m3 = told.map(|litres| litres / 1000.0);
        let kg = crate::range::propagate(&[m3, density], |[m3, density]| m3 * density);
        return (kg, m3);
    }
    (told, crate::range::propagate(&[told, density], |[kg, density]| kg / density))
}

/// The water that is really in the tank, L: as measured, else by the sizes.
pub(crate) fn water_l(given: &Given, book: &Book) -> Known<f64> {
    given.find("measured.litres").unwrap_or_else(|| glass(given, book).water_l())
}

fn measured(given: &Given) -> Measured {
    let number = |name: &str| given.find(&format!("measured.{name}"));
    let flag = |name: &str| given.flags.get(&format!("measured.{name}")).copied();
    Measured {
        litres: number("litres"),
        heat_loss_w_per_k: number("heat_loss"),
        oxygen_per_h_at_20: number("oxygen_exchange"),
        photons_umol_per_m2_s: number("photons"),
        flow_l_per_h: number("flow"),
        ground_lime: flag("ground_lime"),
        ground_ammonia: flag("ground_ammonia"),
    }
}

fn warmth(given: &Given) -> Warmth {
    let flag = |path: &str| given.flags.get(path).copied();
    Warmth {
        coldest_room_c: given.find("room.coldest"),
        hottest_room_c: given.find("room.hottest"),
        heater_w: given.find("heater.watts"),
        heaters: given.find("heater.number").map(|count| count.value as u32),
        covered: flag("care.covered"),
        air_pump: flag("care.air_pump"),
        fish_g: given.find("care.fish_weight"),
    }
}

fn geometry(glass: &Glass, given: &Given, book: &Book) -> Geometry {
    let [length_m, width_m, height_m] = [glass.length_m.value, glass.width_m.value, glass.height_m.value];
    let water = water_l(given, book);
    // Sizes that nobody told spread so far that the range would begin at no water at all.
    let untold = [glass.length_m, glass.width_m, glass.height_m].iter().any(|side| side.kind == Kind::Assumed);
    let least = book.bound("tank_volume").filter(|_| untold).map_or(0.0, |row| row.is.low);
    Geometry {
        length_m,
        width_m,
        height_m,
        glass_m: glass.glass_m.value,
        waterline_m: height_m - glass.fill_m.value,
        ground_front_m: glass.front_m.value,
        ground_back_m: glass.back_m.value,
        nominal_l: 1000.0 * length_m * width_m * height_m,
        true_l: Known { low: water.low.max(least.min(water.value)), ..water },
        surface_m2: length_m * width_m,
        mass_kg: glass.mass_kg(),
        pressure_kpa: glass.pressure_kpa(),
    }
}

fn units(given: &Given) -> Units {
    let mut table = toml::Table::new();
    for (path, word) in &given.words {
        if let Some(name) = path.strip_prefix("units.") {
            table.insert(name.to_owned(), toml::Value::String(word.clone()));
        }
    }
    // The words were checked against the same choices, so nothing is left to go wrong.
    Units::deserialize(table).unwrap_or_default()
}

fn low_water(given: &Given, book: &Book) -> Option<SourceWater> {
    let water = book.waters.get(given.word("low_water.kind"))?;
    let name = given.words.get("low_water.name").unwrap_or(&water.name);
    Some(source::water(given, "low_water", name))
}

fn energy(word: &str) -> Energy {
    match word {
        "low" => Energy::Low,
        "high" => Energy::High,
        _ => Energy::Medium,
    }
}

fn feeding(word: &str) -> Feeding {
    match word {
        "just_enough" => Feeding::JustEnough,
        "plenty" => Feeding::Plenty,
        "none" => Feeding::None,
        _ => Feeding::Comfortable,
    }
}

fn animals(given: &Given) -> Animals {
    // Counts were checked to be whole, not negative and at most some thousands.
    let count = |kind: &str| given.number(&format!("animals.{kind}")).value as u32;
    let flag = |path: &str| given.flags.get(path).copied().unwrap_or(false);
    Animals {
        fish: count("fish"),
        young: flag("animals.young"),
        shrimps: count("shrimps"),
        snails: count("snails"),
        other_invertebrates: count("other_invertebrates"),
        start_test_passed: flag("animals.start_test_passed"),
    }
}

fn habits(given: &Given) -> Habits {
    Habits {
        change_share: given.number("habits.change"),
        every_days: given.number("habits.every").value.round().max(0.0) as u32,
        top_up_l_per_day: given.number("habits.top_up"),
        top_up_with: if given.word("habits.top_up_with") == "low_water" { "low" } else { "tap" }.to_owned(),
    }
}

fn at_hand(given: &Given) -> AtHand {
    let number = |name: &str| given.number(&format!("at_hand.{name}"));
    AtHand {
        products: given.names.get("at_hand.products").cloned().unwrap_or_default(),
        own: own::all(given),
        scale_g: number("scale"),
        syringe_ml: number("syringe"),
        bottle_ml: number("bottle"),
        daily_ml: number("daily"),
        chelate: given.word("at_hand.chelate").to_owned(),
        trace_copper: number("trace_copper"),
        coldest_room_c: number("coldest_room"),
        bucket_l: number("bucket"),
        by_hose: given.flags.get("at_hand.by_hose").copied().unwrap_or(false),
        dropper: given.find("at_hand.drop").is_some(),
    }
}

fn wish(given: &Given) -> Wish {
    let ends = |path: &str| given.find(path).map(|known| (known.low, known.high));
    let band = |ion: Ion| Some((ion, ends(&format!("feeding.bands.{}", ion.name()))?));
    Wish {
        ph: given.find("wish.ph").map(|known| known.value),
        hardness_meq_per_l: ends("wish.hardness"),
        alkalinity_meq_per_l: ends("wish.alkalinity"),
        bands: Ion::ALL.into_iter().filter_map(band).collect(),
    }
}

/// Prices that the keeper gave, in hundredths of the currency.
fn prices(given: &Given, book: &Book) -> BTreeMap<String, f64> {
    let price = |key: &String| Some((key.clone(), 100.0 * given.find(&format!("prices.{key}"))?.value));
    book.products.keys().filter_map(price).collect()
}

/// The bands aimed at: the keeper's own, else the table's for wish and light; none for a soil tank.
pub(crate) fn bands(wish: &Wish, feeding: Feeding, energy: Energy, book: &Book) -> BTreeMap<Ion, (f64, f64)> {
    let feeding = match feeding {
        Feeding::JustEnough => knowledge::Feeding::JustEnough,
        Feeding::Comfortable => knowledge::Feeding::Comfortable,
        Feeding::Plenty => knowledge::Feeding::Plenty,
        Feeding::None => return wish.bands.clone(),
    };
    let mut bands: BTreeMap<Ion, (f64, f64)> = BTreeMap::new();
    if let Some(levels) = book.levels(feeding, growth::row(energy)) {
        bands.extend(levels.bands.iter().map(|(ion, band)| (*ion, (band.low, band.high))));
    }
    bands.extend(wish.bands.iter());
    bands
}
