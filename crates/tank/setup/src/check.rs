//! What only shows when fields are seen together: sizes that don't fit, waters that contradict themselves.

use knowledge::{Book, BoundRow};
use quantity::bounds::check;
use quantity::{Fault, Faults, Ion, Verdict};

use crate::balance::{charge_balance_percent, equivalents};
use crate::document::Document;
use crate::given::Given;
use crate::told::Told;
use crate::{Field, SourceWater, Tank, bounds, conductivity, field_of};

/// Before anything is built: two fields that say the same thing twice.
pub(crate) fn twice(told: &Told, document: &Document<'_>, faults: &mut Faults) {
    for side in ["length", "width", "height"] {
        let (inner, outer) = (format!("glass.inner_{side}"), format!("glass.outer_{side}"));
        if told.numbers.contains_key(&inner) && told.numbers.contains_key(&outer) {
            let fault = Fault::new(format!("the {side} of the glass is given twice, inner and outer"));
            faults.push(
                fault
                    .at(document.place(&outer))
                    .expected("one of the two")
                    .hint("the inner size counts; take the outer one out"),
            );
        }
    }
    if told.numbers.contains_key("at_hand.drop") && told.numbers.contains_key("at_hand.syringe") {
        let fault = Fault::new("both a dropper and a syringe are given").at(document.place("at_hand.drop"));
        faults.push(fault.expected("the one with which you dose"));
    }
}

/// Sizes that can't be.
pub(crate) fn sizes(tank: &Tank, document: &Document<'_>, book: &Book, faults: &mut Faults) {
    let g = &tank.geometry;
    let at = |path: &str| document.place(path);
    let mut no_room = false;
    for (side, inner) in [("length", g.length_m), ("width", g.width_m), ("height", g.height_m)] {
        if inner <= 0.0 {
            no_room = true;
            let fault = Fault::new(format!("nothing is left of the {side} between the panes of glass"));
            let place = at(&format!("glass.outer_{side}"));
            faults.push(
                fault
                    .at(place)
                    .expected("an outer size larger than its panes")
                    .hint("look at the units of size and thickness"),
            );
        }
    }
    if no_room {
        return;
    }
    if g.waterline_m <= 0.0 {
        let fault = Fault::new("the waterline lies under the bottom of the glass").at(at("glass.fill_below_rim"));
        faults.push(fault.expected("less than the inner height, from the upper edge down"));
    } else if g.ground_front_m.max(g.ground_back_m) >= g.waterline_m {
        let deeper = if g.ground_back_m >= g.ground_front_m { "ground.depth_back" } else { "ground.depth_front" };
        let fault = Fault::new("the ground reaches up to the waterline").at(at(deeper));
        faults.push(fault.expected("ground that stays under water").hint("look at the units of the depth"));
    } else if g.true_l.value <= 0.0 {
        let fault = Fault::new("ground, rock and wood leave no room for water").at(at("hardscape.rock"));
        faults.push(fault.expected("less of them").hint("look at the units of rock and wood"));
    } else if let (Some(row), Some(field)) = (book.bound("tank_volume"), field_of("glass.inner_length")) {
        let water = Field { label: "the water in the tank".to_owned(), ..field.clone() };
        if let Err(fault) = bounds::judge_by(row, &water, g.true_l.value) {
            faults.push(fault.at(at("glass.inner_length")));
        }
    }
}

/// Litres that were measured, against the glass: more than it holds to the rim is refused (rule 10 of harm), far from what
/// its sizes leave is asked about. Nothing is said where the sizes are not told.
pub(crate) fn measured_litres(
    told: &mut Told,
    given: &Given,
    document: &Document<'_>,
    book: &Book,
    faults: &mut Faults,
) {
    let Some(measured) = told.numbers.get("measured.litres").copied() else { return };
    let glass = crate::build::glass(given, book);
    let sides = [glass.length_m, glass.width_m, glass.height_m];
    if sides.iter().any(|side| side.kind == quantity::Kind::Assumed) {
        return;
    }
    let number = |litres: f64| quantity::format_number(litres, quantity::Digits::Significant(3));
    let [to_the_rim, by_size] = [1000.0 * sides.map(|side| side.high).iter().product::<f64>(), glass.water_l().value];
    if measured.value > to_the_rim {
        let fault = Fault::new(format!("the glass can't hold {} L", number(measured.value)));
        let fault = fault
            .at(document.place("measured.litres"))
            .expected(format!("at most {} L, which fill it to the rim", number(to_the_rim)));
        faults.push(fault.hint("look at the sizes of the glass, or measure again: every dose goes by this number"));
    } else if by_size > 0.0 && !is_usual(book, "litres_apart", 100.0 * (measured.value / by_size - 1.0)) {
        let sentence = format!(
            "Really? You measured {} L, and by its sizes the tank holds {} L. What you measured counts.",
            number(measured.value),
            number(by_size)
        );
        told.unusual.push(("measured.litres".to_owned(), sentence));
    }
}

/// Food and evaporation against the litres of the tank, which `data/bounds.toml` counts by.
pub(crate) fn by_the_litre(told: &mut Told, tank: &Tank, document: &Document<'_>, book: &Book, faults: &mut Faults) {
    let litres = tank.geometry.true_l.value;
    // From "a litre" or "percent of the water" to this tank.
    let rows =
        [("food.per_day", "food", litres, "g a day"), ("habits.top_up", "evaporation", litres / 100.0, "L a day")];
    for (path, key, factor, unit) in rows {
        let (Some(number), Some(row), Some(field)) = (told.numbers.get(path), book.bound(key), field_of(path)) else {
            continue;
        };
        let row = in_this_tank(row, factor, unit);
        match bounds::judge_by(&row, field, number.value) {
            Ok(None) => {}
            Ok(Some(sentence)) => told.unusual.push((path.to_owned(), sentence)),
            Err(fault) => faults.push(fault.at(document.place(path))),
        }
    }
}

/// Bounds for a litre as bounds for the tank.
fn in_this_tank(row: &BoundRow, factor: f64, unit: &str) -> BoundRow {
    let mut row = row.clone();
    for end in [&mut row.is.low, &mut row.is.high, &mut row.is.usual_low, &mut row.is.usual_high] {
        *end *= factor;
    }
    unit.clone_into(&mut row.is.unit);
    row
}

/// Whether a figure of several fields is what is usual by its row of `data/bounds.toml`.
fn is_usual(book: &Book, key: &str, value: f64) -> bool {
    book.bound(key).is_none_or(|row| check(value, &row.is) == Verdict::Usual)
}

/// A band far above the table's is asked about: it would be dosed.
pub(crate) fn bands(told: &mut Told, book: &Book) {
    for ion in Ion::ALL {
        let path = format!("feeding.bands.{}", ion.name());
        let most =
            book.levels.iter().filter_map(|levels| levels.bands.get(&ion)).map(|band| band.high).reduce(f64::max);
        let (Some(known), Some(field), Some(most)) = (told.numbers.get(&path), field_of(&path), most) else { continue };
        if !is_usual(book, "wish_over_plenty", known.high / most) {
            let units = quantity::Units::default();
            let (wished, most) = (field.show(known.high, &units), field.show(most, &units));
            told.unusual.push((path, format!("Really? You wish for {wished}; plenty in much light is {most}.")));
        }
    }
}

/// A conductivity that the water's ions, told and assumed, cannot have.
fn conducts(told: &mut Told, section: &str, water: Option<&SourceWater>, book: &Book) {
    let Some((water, measured)) = water.and_then(|water| Some((water, water.conductivity_25_us_per_cm?))) else {
        return;
    };
    if told.questions.iter().any(|question| question.field.starts_with(section)) {
        return;
    }
    let ions = conductivity::of(&water.ions, water.alkalinity_meq_per_l.value, water.ph.value);
    let Some(ions) = ions.filter(|_| measured.value > 0.0) else { return };
    // 1e-3: what the search for the ions leaves.
    let error = conductivity::error(book) + 1e-3;
    let (low, high) = (measured.low * (1.0 - error), measured.high * (1.0 + error));
    if !(low..=high).contains(&ions) {
        let number = |us: f64| quantity::format_number(us, quantity::Digits::Significant(2));
        let sentence = format!(
            "Really? {} µS/cm were measured, but the ions of this water come to {}. Is an ion or the conductivity in another unit?",
            number(measured.value),
            number(ions)
        );
        told.unusual.push((format!("{section}.conductivity"), sentence));
    }
}

/// A water whose told values contradict each other is asked about.
pub(crate) fn waters(told: &mut Told, tank: &Tank, book: &Book) {
    let told_ions = |section: &str| {
        let all = Ion::MAJOR.iter().filter(|ion| told.numbers.contains_key(&format!("{section}.{}", ion.name())));
        all.count()
    };
    // Eight of nine, for ammonium is left out more often than not.
    let whole = told.numbers.contains_key("tap.alkalinity") && told_ions("tap") >= Ion::MAJOR.len() - 1;
    let percent = charge_balance_percent(&tank.tap.ions, tank.tap.alkalinity_meq_per_l.value);
    if let Some(percent) = percent.filter(|percent| whole && !is_usual(book, "charge_imbalance", *percent)) {
        let side = if percent > 0.0 { "anions" } else { "cations" };
        let sentence = format!(
            "Really? The charges of your tap's ions don't balance: {:.0} % of {side} are missing. Is one ion in another unit?",
            percent.abs()
        );
        told.unusual.push(("tap".to_owned(), sentence));
    }
    for (section, water) in [("tap", Some(&tank.tap)), ("low_water", tank.low.as_ref())] {
        conducts(told, section, water, book);
        let number = |name: &str| told.numbers.get(&format!("{section}.{name}")).map(|known| known.value);
        let meq = |ion: Ion| number(ion.name()).map(|mg| mg * equivalents(ion) / ion.molar_mass());
        let (Some(hardness), ca, mg) = (number("hardness"), meq(Ion::Calcium), meq(Ion::Magnesium)) else { continue };
        let parts = ca.unwrap_or(0.0) + mg.unwrap_or(0.0);
        let both = ca.is_some() && mg.is_some();
        let larger = hardness.max(parts);
        let percent = if larger > 0.0 { 100.0 * (parts - hardness) / larger } else { 0.0 };
        // One of the two may well be less than the hardness, but never more.
        if (both || percent > 0.0) && !is_usual(book, "hardness_apart", percent.abs()) {
            let sentence = "Really? Calcium and magnesium do not make up the hardness that is given; they count, the hardness does not.";
            told.unusual.push((format!("{section}.hardness"), sentence.to_owned()));
        }
    }
}
