//! The glass: its sizes, the litres that are really in it, what it weighs.

use maud::{Markup, html};
use quantity::{Kind, Known, Length, LengthUnit, Mass, Volume, Why};
use setup::Tank;

use super::{exact, kind};
use crate::blank::Blank;
use crate::sheet::Sheet;
use crate::words::{NB, figures, glued, litres_of};

/// The blanks of the sizes. Stones and wood have one as long as nobody named any: the tank keeps no more of them than
/// the litres that they take away.
pub fn blanks(tank: &Tank) -> Vec<Blank> {
    let g = &tank.geometry;
    let sizes = [
        ("glass.inner_length", g.length_m),
        ("glass.inner_width", g.width_m),
        ("glass.inner_height", g.height_m),
        ("glass.fill_below_rim", g.height_m - g.waterline_m),
        ("ground.depth_front", g.ground_front_m),
        ("ground.depth_back", g.ground_back_m),
    ];
    let mut all: Vec<Blank> = sizes.into_iter().filter_map(|(field, metres)| exact(tank, field, metres)).collect();
    all.extend(thickness(tank));
    let unnamed = ["hardscape.rock", "hardscape.wood"].into_iter().filter(|field| kind(tank, field) != Kind::Measured);
    all.extend(unnamed.filter_map(|field| {
        // Zero grams read as "0 g"; whoever fills this in thinks in kilograms.
        let blank = exact(tank, field, 0.0)?;
        Some(Blank { unit: "kg".to_owned(), says: blank.says.replace("grams", "kilograms"), ..blank })
    }));
    all
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

/// Why the litres are what they are, from the setup.
fn why(tank: &Tank, key: &str) -> Option<Why> {
    tank.whys.iter().find(|why| why.key == key).cloned()
}

/// The sizes.
pub fn glass(sheet: &Sheet, tank: &Tank) -> Markup {
    let g = &tank.geometry;
    let too_much = if g.true_l.value > 0.0 { 100.0 * (g.nominal_l / g.true_l.value - 1.0) } else { 0.0 };
    let usual = &knowledge::book().defaults.substrate_depth_cm;
    let depth = |cm: f64| Length::centimetres(cm).print(&sheet.units).replace(' ', NB);
    sheet.verse(
        "The glass",
        html! {
            p {
                "Inside it measures " (sheet.in_unit("glass.inner_length", "")) " by " (sheet.in_unit("glass.inner_width", ""))
                " (front to back) by " (sheet.in_unit("glass.inner_height", ",")) " of glass " (sheet.in_unit("glass.thickness", ""))
                " thick. The water stands " (sheet.in_unit("glass.fill_below_rim", "")) " below the rim. The ground is "
                (sheet.in_unit("ground.depth_front", "")) " deep at the front and " (sheet.in_unit("ground.depth_back", ""))
                " at the back; usual are " (depth(usual.low())) " to " (depth(usual.high())) ", as deeper ground may rot (common practice)."
            }
            @if sheet.has("hardscape.rock") || sheet.has("hardscape.wood") {
                p {
                    "They take room too: stones "
                    @if sheet.has("hardscape.rock") { (sheet.in_unit("hardscape.rock", ",")) } @else { "as you told," }
                    " wood " @if sheet.has("hardscape.wood") { (sheet.in_unit("hardscape.wood", ".")) } @else { "as you told." }
                }
            }
            p {
                "That leaves " (sheet.out_or_bold(&litres_of(&sheet.units, g.true_l.value), why(tank, "true-litres").as_ref()))
                " of water" @if g.true_l.high > g.true_l.low { ", likely " (litres_of(&sheet.units, g.true_l.low)) " to " (litres_of(&sheet.units, g.true_l.high)) }
                @if !(sheet.has("hardscape.rock") && sheet.has("hardscape.wood")) { "; the stones and the wood that you named are taken off" }
                ". A dose for the " (litres_of(&sheet.units, g.nominal_l)) " that the empty glass would hold is "
                (sheet.out(&format!("{}{NB}%", figures(&sheet.units, too_much, 2)), &why_too_much(sheet, tank, too_much))) " too much."
            }
        },
    )
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

fn range(known: Known<f64>, show: impl Fn(f64) -> String) -> String {
    if known.high > known.low { format!("likely {} to {}", show(known.low), show(known.high)) } else { String::new() }
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
                "Filled it weighs " (sheet.out_or_bold(&kg(g.mass_kg.value), why(tank, "mass").as_ref())) " (" (range(g.mass_kg, kg))
                "), the stand not counted. On its foot of " (outer(g.length_m)) " by " (outer(g.width_m)) " that presses with "
                (sheet.out_or_bold(&kpa(g.pressure_kpa.value), why(tank, "pressure").as_ref())) "; on the feet of a stand far more, as they are small."
            }
            p { span.when { "Before you fill it: " } (glued(&g.load_sentence(units))) }
        },
    )
}
