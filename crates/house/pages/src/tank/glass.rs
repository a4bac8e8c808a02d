//! The glass: its sizes, the litres that are really in it, what it weighs.

use maud::{Markup, html};
use quantity::{Kind, Known, Length, LengthUnit, Mass, MassUnit, Volume, Why};
use setup::{Ground, Inside, Size, Solid, Tank};

use super::{exact, kind};
use crate::blank::Blank;
use crate::sheet::Sheet;
use crate::words::{NB, capital, figures, glued, litres_of, sentence};

/// The blanks of the sizes, each in the field that was told: inner or outer, by mass or by volume.
pub fn blanks(tank: &Tank, inside: &Inside) -> Vec<Blank> {
    let ground = &inside.ground;
    let sizes = [
        ("glass.fill_below_rim", inside.fill_m),
        ("ground.depth_front", ground.front_m),
        ("ground.depth_back", ground.back_m),
    ];
    let sides = inside.sides.iter().map(|side| (side.field.as_str(), side.metres));
    let lengths = sides.chain(sizes).filter_map(|(field, known)| exact(tank, field, known.value));
    let mut all: Vec<Blank> = lengths.collect();
    all.extend(thickness(tank));
    all.extend(exact(tank, "ground.porosity", ground.porosity.value));
    all.push(made_of(tank, &ground.kind));
    let solids = [("hardscape.rock", &inside.rock), ("hardscape.wood", &inside.wood)];
    all.extend(solids.into_iter().map(|(field, solid)| stuff(tank, field, solid)));
    all
}

/// What the ground is made of.
fn made_of(tank: &Tank, key: &str) -> Blank {
    let substrates = &knowledge::book().substrates;
    let choices: Vec<(&str, &str)> = substrates.iter().map(|(key, row)| (key.as_str(), row.name.as_str())).collect();
    Blank::choice("ground.kind", key, "What the ground is made of", kind(tank, "ground.kind"), &choices)
}

/// Stones or wood, by mass or by volume as they were told; none is "0 kg".
fn stuff(tank: &Tank, field: &str, solid: &Solid) -> Blank {
    let (value, unit, spoken) = match (solid.by_volume, tank.units.mass) {
        (true, _) => (solid.litres.value, "L", "litres"),
        (false, MassUnit::Pound) => (Mass::kilograms(solid.kg.value).in_pounds(), "lb", "pounds"),
        (false, MassUnit::Gram) => (solid.kg.value, "kg", "kilograms"),
    };
    let label = setup::field_of(field).map_or("", |field| field.label.as_str());
    let says = format!("{}, {spoken}", capital(label));
    Blank::number(field, figures(&tank.units, value, 3), unit, &says, kind(tank, field))
}

/// Glass is sold by the millimetre; who counts in inches reads it in inches.
fn thickness(tank: &Tank) -> Option<Blank> {
    let blank = exact(tank, "glass.thickness", tank.geometry.glass_m)?;
    if tank.units.length != LengthUnit::Centimetre {
        return Some(blank);
    }
    let shown = figures(&tank.units, 1000.0 * tank.geometry.glass_m, 3);
    Some(Blank { shown, unit: "mm".to_owned(), says: blank.says.replace("centimetres", "millimetres"), ..blank })
}

/// Nobody gave all three sizes.
pub fn untold(tank: &Tank) -> bool {
    ["glass.inner_length", "glass.inner_width", "glass.inner_height"]
        .iter()
        .any(|side| kind(tank, side) != Kind::Measured)
}

/// Why the litres are what they are, from the setup.
fn why(tank: &Tank, key: &str) -> Option<Why> {
    tank.whys.iter().find(|why| why.key == key).cloned()
}

/// The sizes.
pub fn glass(sheet: &Sheet, tank: &Tank) -> Markup {
    let g = &tank.geometry;
    let inside = sheet.setup.inside();
    let too_much = if g.true_l.value > 0.0 { 100.0 * (g.nominal_l / g.true_l.value - 1.0) } else { 0.0 };
    let litres = |known: Known<f64>| litres_of(&sheet.units, known.value);
    sheet.verse(
        "The glass",
        html! {
            p {
                (sides(sheet, inside, tank)) " The glass is " (sheet.in_unit("glass.thickness", "")) " thick. The water stands "
                (sheet.in_unit("glass.fill_below_rim", "")) " below the rim."
            }
            (ground(sheet, &inside.ground))
            p {
                "Stones and wood take room too: " (sheet.in_unit("hardscape.rock", "")) " of stones"
                @if inside.rock.litres.value > 0.0 { " (" (litres(inside.rock.litres)) ")" }
                " and " (sheet.in_unit("hardscape.wood", "")) " of wood"
                @if inside.wood.litres.value > 0.0 { " (" (litres(inside.wood.litres)) ")" }
                ". Weigh them on the bathroom scale, dry; a guess is better than nothing."
            }
            p {
                "That leaves " (sheet.out_or_bold(&litres_of(&sheet.units, g.true_l.value), why(tank, "true-litres").as_ref()))
                " of water" @let likely = range(g.true_l, |l| litres_of(&sheet.units, l)); @if !likely.is_empty() { ", " (likely) }
                ". A dose for the " (litres_of(&sheet.units, g.nominal_l)) " that the empty glass would hold is "
                (sheet.out(&format!("{}{NB}%", figures(&sheet.units, too_much, 2)), &why_too_much(sheet, tank, too_much))) " too much."
            }
        },
    )
}

/// Length, width and height, from where they were measured.
fn sides(sheet: &Sheet, inside: &Inside, tank: &Tank) -> Markup {
    let [length, width, height] = &inside.sides;
    let outer = inside.sides.iter().filter(|side| side.outer()).count();
    let mixed = outer > 0 && outer < inside.sides.len();
    let at = |side: &Size| match (mixed, side.outer()) {
        (false, _) => "",
        (true, true) => " (outside)",
        (true, false) => " (inside)",
    };
    let inner = |metres: f64| Length::metres(metres).print(&sheet.units).replace(' ', NB);
    let g = &tank.geometry;
    html! {
        @match (mixed, outer) { (true, _) => "It", (false, 0) => "Inside it", (false, _) => "Outside it" }
        " measures " (sheet.in_unit(&length.field, "")) (at(length)) " by " (sheet.in_unit(&width.field, "")) (at(width))
        " (front to back) by " (sheet.in_unit(&height.field, "")) (at(height))
        @if outer > 0 { "; so inside " (inner(g.length_m)) " by " (inner(g.width_m)) " by " (inner(g.height_m)) } "."
    }
}

/// What the ground is made of, how deep it lies, and how much of it is water.
fn ground(sheet: &Sheet, ground: &Ground) -> Markup {
    let usual = &knowledge::book().defaults.substrate_depth_cm;
    let depth = |cm: f64| Length::centimetres(cm).print(&sheet.units).replace(' ', NB);
    let note = knowledge::book().substrates.get(&ground.kind).and_then(|row| row.note.as_deref());
    let deepest_cm = 100.0 * ground.front_m.value.max(ground.back_m.value);
    // A length that was told in centimetres comes back a last digit off.
    let deep = deepest_cm > usual.high() + 0.05;
    let about = |note: &str| sentence(&format!("{}: {note}", capital(&ground.name)));
    html! {
        p {
            "The ground is " (sheet.blank("ground.kind", ",")) " " (sheet.in_unit("ground.depth_front", ""))
            " deep at the front and " (sheet.in_unit("ground.depth_back", "")) " at the back; usual are " (depth(usual.low()))
            " to " (depth(usual.high())) ", as deeper ground may rot (common practice). "
            @if deep { span.really { "Really " (depth(deepest_cm)) "? " } }
            "Water fills "
            (sheet.in_unit("ground.porosity", "")) " of it, between the grains and in them."
            @if let Some(note) = note { " " (about(note)) }
        }
    }
}

fn why_too_much(sheet: &Sheet, tank: &Tank, percent: f64) -> Why {
    let g = &tank.geometry;
    let n = |v: f64| figures(&sheet.units, v, 3);
    Why {
        key: "nominal-too-much".to_owned(),
        question: format!("why {} % too much?", figures(&sheet.units, percent, 2)),
        sum: format!(
            "{} × {} × {} = {}; ÷ {} − 1 = {} %",
            Length::metres(g.length_m).print(&sheet.units),
            Length::metres(g.width_m).print(&sheet.units),
            Length::metres(g.height_m).print(&sheet.units),
            Volume::litres(g.nominal_l).print(&sheet.units),
            Volume::litres(g.true_l.value).print(&sheet.units),
            n(percent)
        ),
        words: "Inner length times width times height, brim-full and empty of all else: near to what a seller calls the tank. Nobody’s doses should go by it.".to_owned(),
        sources: Vec::new(),
        kind: g.true_l.kind.weaker(Kind::WorkedOut),
    }
}

/// A range that begins near nothing comes from a glass that nobody measured; its lower end says nothing.
const NEAR_NOTHING: f64 = 0.1;

fn range(known: Known<f64>, show: impl Fn(f64) -> String) -> String {
    match known {
        Known { low, high, .. } if low >= high => String::new(),
        Known { low, value, high, .. } if low < NEAR_NOTHING * value => format!("or anything up to {}", show(high)),
        Known { low, high, .. } => format!("likely {} to {}", show(low), show(high)),
    }
}

/// Mass and pressure, with the question. It never says that something holds.
pub fn weight(sheet: &Sheet, tank: &Tank) -> Markup {
    let g = &tank.geometry;
    let units = &sheet.units;
    let kg = |v: f64| Mass::kilograms(v).print(units).replace(' ', NB);
    let kpa = |v: f64| format!("{}{NB}kPa", figures(units, v, 3));
    let outer = |inner: f64| Length::metres(inner + 2.0 * g.glass_m).print(units).replace(' ', NB);
    sheet.verse(
        "The weight",
        html! {
            p {
                "Filled it weighs " (sheet.out_or_bold(&kg(g.mass_kg.value), why(tank, "mass").as_ref())) " (" (range(g.mass_kg, kg)) "), the stand not counted. On its foot of " (outer(g.length_m)) " by " (outer(g.width_m)) " that presses with "
                (sheet.out_or_bold(&kpa(g.pressure_kpa.value), why(tank, "pressure").as_ref())) "; on the feet of a stand far more, as they are small."
            }
            p { span.when { "Before you fill it: " } (glued(&g.load_sentence(units))) }
        },
    )
}
