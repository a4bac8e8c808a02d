//! The tank in section, to scale: one user unit is one millimetre of the tank.
//!
//! Two cuts of one glass, both to the same scale: along the middle, seen from the front; and from front to back, seen
//! from the side, where the slope of the ground shows. The inner left corner of the floor lies at (0, inner height).
//! Heavy line: the waterline. Gauge from the floor upwards, outside the glass. Stones and wood
//! are as large as the setup says, at places of the drawing's own ([`super::scape`]); plants are hatching that stands for
//! some, as the setup knows none. Lamp, filter, heaters and cables: [`super::gear`].

use std::fmt::Write;

use maud::{Markup, html};
use quantity::number::Digits;
use quantity::{LengthUnit, Units};
use setup::{Inside, Tank};

use super::gear::{Gear, Hung, gear, lamp_across};
use super::scape::{Point, Room, Scape, hatching};
use super::{Frame, hundredths, tenths};
use crate::words::{list, litres_of};

/// One millimetre in a metre.
const MM: f64 = 1000.0;
/// Shares of the longer side that the margins take: left (gauge), right (sockets), above (lamp), below.
const MARGIN: [f64; 4] = [0.115, 0.185, 0.15, 0.125];
/// Height of letters as a share of the drawing's width.
const LETTER: f64 = 0.0165;
/// Side of the cells in which the stipple lies, as a multiple of the letters: as dense on a small tank as on a large one.
const CELL: f64 = 1.2;

/// What is drawn, in millimetres.
pub struct Section {
    /// Inner length, left to right.
    pub length: f64,
    /// Inner width, front to back.
    pub width: f64,
    /// Inner height.
    pub height: f64,
    /// Glass.
    pub glass: f64,
    /// From the floor to the waterline.
    pub water: f64,
    /// Ground at the front.
    pub front: f64,
    /// Ground at the back.
    pub back: f64,
    /// What the ground is made of, in words.
    pub ground: String,
    /// Stones, L.
    pub rock_l: f64,
    /// Wood, L.
    pub wood_l: f64,
    /// What hangs in and over it.
    pub hung: Hung,
    /// The keeper's units.
    pub units: Units,
}

impl Section {
    /// From the sizes of a tank and what stands in it.
    pub fn of(tank: &Tank, inside: &Inside) -> Section {
        let g = &tank.geometry;
        Section {
            length: MM * g.length_m,
            width: MM * g.width_m,
            height: MM * g.height_m,
            glass: MM * g.glass_m,
            water: MM * g.waterline_m,
            front: MM * g.ground_front_m,
            back: MM * g.ground_back_m,
            ground: inside.ground.name.clone(),
            rock_l: inside.rock.litres.value,
            wood_l: inside.wood.litres.value,
            hung: Hung::of(tank),
            units: tank.units,
        }
    }

    /// The ground where the first drawing cuts it: in the middle of the plane from front to back.
    pub fn middle(&self) -> f64 {
        f64::midpoint(self.front, self.back)
    }

    /// Height on the paper of something so far above the floor.
    pub fn y(&self, above_floor: f64) -> f64 {
        self.height - above_floor
    }

    /// The longer side, glass included.
    pub fn longest(&self) -> f64 {
        self.length.max(self.width) + 2.0 * self.glass
    }

    /// Left, top, width and height of the paper.
    pub fn paper(&self) -> [f64; 4] {
        let long = self.longest();
        let [left, right, above, below] = MARGIN.map(|share| share * long);
        [-self.glass - left, -above, left + long + right, above + self.height + self.glass + below]
    }

    /// Whether both cuts have room for the stones and the wood that were named.
    pub fn fits(&self) -> bool {
        [Cut::Along, Cut::Across].into_iter().all(|cut| {
            let scape = Scape::of(&self.room(cut), self.rock_l, self.wood_l);
            (self.rock_l <= 0.0 || !scape.stones.is_empty()) && (self.wood_l <= 0.0 || !scape.branches.is_empty())
        })
    }

    /// What stands in it, in a sentence.
    pub fn stands(&self) -> String {
        let litres = |litres: f64| litres_of(&self.units, litres);
        let named: Vec<String> = [("stones", self.rock_l), ("wood", self.wood_l)]
            .iter()
            .filter(|(_, l)| *l > 0.0)
            .map(|(name, l)| format!("{} of {name}", litres(*l)))
            .collect();
        let solid = match (named.is_empty(), self.fits()) {
            (true, _) => "No stones and no wood were named.".to_owned(),
            (_, true) => format!("{} are drawn as large as they are, at places of my choosing.", list(&named)),
            (_, false) => format!("{} are more than I can draw into this glass: look at the numbers.", list(&named)),
        };
        format!(
            "{solid} Plants are hatching, not your own: I don’t know which you have. Lamp, filter and heater stand for yours; \
             each cable hangs in a loop lower than its socket, so that water drips off before it gets there."
        )
    }

    /// The water's room as it is cut.
    fn room(&self, cut: Cut) -> Room {
        let (wide, deep, ground) = match cut {
            Cut::Along => (self.length, self.width, [self.middle(); 2]),
            Cut::Across => (self.width, self.length, [self.front, self.back]),
        };
        Room { wide, deep, ground, water: self.water, along: cut == Cut::Along }
    }

    /// A length in the keeper's unit: "3 cm", "1.18 in".
    pub fn shown(&self, mm: f64) -> String {
        quantity::Length::millimetres(mm).print(&self.units).replace(' ', "\u{a0}")
    }

    /// The thickness of the glass, in millimetres for who counts in centimetres.
    pub fn thick(&self) -> String {
        match self.units.length {
            LengthUnit::Centimetre => format!("{}\u{a0}mm", self.units.number(self.glass, Digits::Significant(3))),
            LengthUnit::Inch => self.shown(self.glass),
        }
    }

    /// Height of letters.
    pub fn letter(&self) -> f64 {
        LETTER * self.paper()[2]
    }
}

/// Which way the glass is cut.
#[derive(Clone, Copy, PartialEq)]
enum Cut {
    /// Along the middle, seen from the front.
    Along,
    /// From front to back, seen from the left.
    Across,
}

/// Both cuts.
pub fn section(s: &Section) -> Markup {
    html! {
        (cut(s, Cut::Along))
        (cut(s, Cut::Across))
    }
}

fn cut(s: &Section, cut: Cut) -> Markup {
    let (id, title) = match cut {
        Cut::Along => ("section-along", "The tank cut along its middle, seen from the front, to scale"),
        Cut::Across => ("section-across", "The tank cut from front to back, seen from the side, to scale"),
    };
    let words = words(s, cut);
    Frame { id, class: Some("section"), paper: s.paper(), letter: Some(s.letter()), title, words: &words }
        .draw(strokes(s, cut))
}

fn strokes(s: &Section, cut: Cut) -> Markup {
    let room = s.room(cut);
    let (inner, [left, right]) = (room.wide, room.ground);
    html! {
        path.ground d=(format!("M0 {floor}L0 {:.2}L{inner:.2} {:.2}L{inner:.2} {floor}Z", s.y(left), s.y(right), floor = s.height)) {}
        path.stipple d=(stipple(s, inner, left, right)) {}
        @if cut == Cut::Along && (s.back - s.middle()).abs() > 0.5 {
            // What is seen behind the cut: the ground goes on rising (or falling) to the back wall.
            path.behind d=(format!("M0 {y:.2}H{inner:.2}", y = s.y(s.back))) {}
        }
        (standing(s, &room))
        path.bed d=(format!("M0 {:.2}L{inner:.2} {:.2}", s.y(left), s.y(right))) {}
        path.glasswall d=(format!("M{l:.2} 0V{b:.2}H{r:.2}V0H{inner:.2}V{floor:.2}H0V0Z", l = -s.glass, b = s.height + s.glass, r = inner + s.glass, floor = s.height)) {}
        path.water d=(format!("M0 {y:.2}H{inner:.2}", y = s.y(s.water))) {}
        (gauge(s))
        (bar(s, inner))
        @if cut == Cut::Along { (gear(s)) } @else { (lamp_across(s)) }
        (labels(s, cut, inner, (left, right)))
    }
}

/// Plants behind, wood before them, stones in front.
fn standing(s: &Section, room: &Room) -> Markup {
    let scape = Scape::of(room, s.rock_l, s.wood_l);
    // Writing into a text can't fail.
    let to = |path: &mut String, word: char, [x, up]: &Point| {
        let _ = write!(path, "{word}{} {}", hundredths(*x), hundredths(s.y(*up)));
    };
    let closed = |outline: &Vec<Point>| {
        let mut path = String::with_capacity(16 * outline.len());
        for (i, corner) in outline.iter().enumerate() {
            to(&mut path, if i == 0 { 'M' } else { 'L' }, corner);
        }
        path + "Z"
    };
    let mut strokes = String::new();
    for [foot, tip] in &hatching(room) {
        to(&mut strokes, 'M', foot);
        to(&mut strokes, 'L', tip);
    }
    html! {
        path.hatching d=(strokes) {}
        @for branch in &scape.branches { path.wood d=(closed(branch)) {} }
        @for stone in &scape.stones { path.stone d=(closed(stone)) {} }
    }
}

fn words(s: &Section, cut: Cut) -> String {
    let ground = match cut {
        Cut::Along => {
            format!("The ground is {} deep where it is cut, in the middle between front and back.", s.shown(s.middle()))
        }
        Cut::Across => {
            format!("The ground goes from {} at the front to {} at the back.", s.shown(s.front), s.shown(s.back))
        }
    };
    let side = if cut == Cut::Along {
        format!("Inside {} long", s.shown(s.length))
    } else {
        format!("Inside {} from front to back", s.shown(s.width))
    };
    let hung = if cut == Cut::Along { Gear::of(s).words() } else { "A lamp over the rim.".to_owned() };
    format!(
        "{side} and {} high, glass {} thick. The water stands {} above the floor, {} below the rim. {ground} {hung} {}",
        s.shown(s.height),
        s.thick(),
        s.shown(s.water),
        s.shown(s.height - s.water),
        s.stands()
    )
}

/// Step of the gauge's ticks, ticks to a long one, and long ones to a number, in the keeper's unit.
fn steps(s: &Section) -> (f64, u32, f64) {
    match s.units.length {
        LengthUnit::Centimetre => (10.0, 5, 10.0),
        LengthUnit::Inch => (25.4, 2, 25.4),
    }
}

/// The gauge, outside the left wall, from the floor upwards.
fn gauge(s: &Section) -> Markup {
    let (step, long, unit) = steps(s);
    let at = -s.glass - 0.1 * s.letter();
    let ticks = (s.height / step + 1e-9).floor() as u32;
    // Numbers need room: on a small glass each long tick, on a tall one every other.
    let numbered = if f64::from(long) * step < 0.09 * s.paper()[2] { 2 * long } else { long };
    let size = |i: u32| s.letter() * if i.is_multiple_of(long) { 0.8 } else { 0.45 };
    let marks: Vec<String> =
        (0..=ticks.min(400)).map(|i| format!("M{at:.1} {:.2}h{:.1}", s.y(f64::from(i) * step), -size(i))).collect();
    html! {
        path.fine d=(marks.concat()) {}
        @for i in (0..=ticks.min(400)).filter(|i| i.is_multiple_of(numbered)) {
            @let number = s.units.number(f64::from(i) * step / unit, Digits::Decimals(0));
            @let last = i + numbered > ticks;
            text.gauge x=(format!("{:.1}", at - 1.0 * s.letter())) y=(format!("{:.2}", s.y(f64::from(i) * step) + 0.35 * s.letter())) text-anchor="end" {
                (number) @if last { tspan.wide-only { " " (if s.units.length == LengthUnit::Inch { "in" } else { "cm" }) } }
            }
        }
    }
}

/// The scale bar: the largest of a few round lengths that is no more than a third of the glass.
fn bar(s: &Section, inner: f64) -> Markup {
    let (mm, word) = match s.units.length {
        LengthUnit::Inch => [(254.0, "10 in"), (127.0, "5 in"), (50.8, "2 in"), (25.4, "1 in")],
        LengthUnit::Centimetre => [(200.0, "20 cm"), (100.0, "10 cm"), (50.0, "5 cm"), (20.0, "2 cm")],
    }
    .into_iter()
    .find(|(mm, _)| *mm <= s.longest() / 3.0)
    .unwrap_or((10.0, "1 cm"));
    let y = s.height + s.glass + 2.9 * s.letter();
    let end = inner + s.glass;
    html! {
        path.bar d=(format!("M{:.2} {:.1}v{tick:.1}H{end:.2}v{:.1}", end - mm, y - 0.5 * s.letter(), -0.5 * s.letter(), tick = 0.5 * s.letter())) {}
        text.scale x=(format!("{:.1}", end - mm / 2.0)) y=(format!("{:.1}", y + 0.6 * s.letter())) text-anchor="middle" dominant-baseline="hanging" { (word) }
    }
}

fn labels(s: &Section, cut: Cut, inner: f64, ground: (f64, f64)) -> Markup {
    let em = s.letter();
    let pad = 0.9 * em;
    let top = format!("{:.1}", s.y(s.water) + 1.5 * em);
    let under = format!("{:.1}", s.height + s.glass + 0.55 * em);
    html! {
        g.words {
            text x=(format!("{pad:.1}")) y=(top) {
                "waterline, " (s.shown(s.height - s.water)) " below the rim"
                @if cut == Cut::Along { "; " (s.shown(s.water - ground.0)) " of water above the ground" }
            }
        }
        @if cut == Cut::Along {
            text.side.wide-only x="0" y=(under) dominant-baseline="hanging" {
                (s.ground) ", " (s.shown(ground.0)) " where it is cut"
                @if (s.back - ground.0).abs() > 0.5 { ", " (s.shown(s.back)) " at the back" }
            }
            text.side.wide-only x=(format!("{inner:.1}")) y=(under) dominant-baseline="hanging" text-anchor="end" { (s.shown(inner)) " inside" }
        } @else {
            text.side x="0" y=(under) dominant-baseline="hanging" { "front" tspan.wide-only { ", " (s.shown(ground.0)) } }
            text.side.wide-only x=(format!("{:.1}", inner / 2.0)) y=(under) dominant-baseline="hanging" text-anchor="middle" { (s.shown(inner)) }
            text.side.wide-only x=(format!("{inner:.1}")) y=(under) dominant-baseline="hanging" text-anchor="end" { (s.shown(ground.1)) ", back" }
        }
    }
}

/// Short strokes strewn over the cut ground: one in each cell of a grid, moved about in its cell without chance, so
/// that the same tank is always the same drawing.
fn stipple(s: &Section, inner: f64, left: f64, right: f64) -> String {
    let cell = CELL * s.letter();
    let columns = (inner / cell).clamp(0.0, 200.0) as u32;
    let mut strokes = String::new();
    for column in 0..columns {
        for row in 0..60_u32 {
            let [u, v] = [2 * row, 2 * row + 1].map(|n| scatter(column * 128 + n));
            let (x, up) = ((f64::from(column) + u) * cell, (f64::from(row) + v) * cell);
            let depth = left + (right - left) * x / inner;
            if up < 0.06 * depth || up > 0.95 * depth || x > inner - 0.3 * cell {
                continue;
            }
            let long = cell * (0.11 + 0.06 * f64::from((column + row) % 3));
            let _ = write!(strokes, "M{} {}h{}", tenths(x), tenths(s.y(up)), tenths(long));
        }
    }
    strokes
}

/// 0 to 1, the same for the same number: bits of a multiplication (Knuth's multiplicative hashing, 2^32 over the golden
/// ratio), mixed once.
fn scatter(n: u32) -> f64 {
    let mixed = (n ^ (n >> 5)).wrapping_mul(2_654_435_769);
    f64::from((mixed ^ (mixed >> 15)).wrapping_mul(2_246_822_519) >> 8) / f64::from(1_u32 << 24)
}
