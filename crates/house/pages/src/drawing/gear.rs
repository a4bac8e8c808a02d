//! What hangs in and over the glass: lamp, filter, heaters, and their cables, each in a loop that is lower than its socket.
//!
//! The setup knows whether there is a filter, how many heaters and whether a cover lies on the glass; sizes and places
//! are the drawing's own. What is never drawn is a cable that leads water to its socket (rule of harm `drip_loops`).

use maud::{Markup, html};
use setup::Tank;

use super::scape::Point;
use super::section::Section;

/// More heaters than this are not drawn side by side.
const HEATERS: u32 = 3;

/// What hangs there.
#[derive(Clone, Copy)]
pub struct Hung {
    /// A filter runs.
    pub filter: bool,
    /// Heaters; one where nobody told.
    pub heaters: u32,
    /// A cover lies on the glass.
    pub covered: bool,
}

impl Hung {
    /// Of a tank; what nobody told is drawn as most tanks have it.
    pub fn of(tank: &Tank) -> Hung {
        Hung {
            filter: tank.keeping.filter,
            heaters: tank.warmth.heaters.unwrap_or(1).min(HEATERS),
            covered: tank.warmth.covered.unwrap_or(false),
        }
    }
}

/// An upright box: left, lower end, width, height; mm along and above the floor of the glass.
pub type Box4 = [f64; 4];

/// A cable from its thing up over the rim, down outside, round a loop and up to its socket.
pub struct Cable {
    from: Point,
    /// Height at which it crosses the rim.
    over: f64,
    down: f64,
    /// Where the loop turns; it hangs lower by half its width.
    turn: f64,
    up: f64,
    socket: f64,
}

/// All of it, placed.
pub struct Gear {
    /// The lamp over the rim.
    pub lamp: Box4,
    /// The filter at the right wall.
    pub filter: Option<Box4>,
    /// Heaters, under water from end to end.
    pub heaters: Vec<Box4>,
    /// The row of sockets.
    pub sockets: Box4,
    /// One for each thing.
    pub cables: Vec<Cable>,
}

impl Gear {
    /// Into a glass that is seen from the front.
    pub fn of(s: &Section) -> Gear {
        let (long, right) = (s.longest(), s.length + s.glass);
        let over = s.water - s.middle();
        let thick = (0.02 * long).min(18.0);
        let lamp = [0.1 * s.length, s.height + 0.085 * long, 0.8 * s.length, thick];
        let wide = (0.09 * long).clamp(20.0, 80.0);
        let tall = (0.55 * over).min(170.0);
        let fits = |wide: f64| over > 40.0 && wide < 0.3 * s.length;
        let filter =
            (s.hung.filter && fits(wide)).then_some([s.length - wide - 3.0, s.water - 0.08 * over - tall, wide, tall]);
        let rod = (0.03 * long).min(25.0);
        let first = filter.map_or(s.length, |filter| filter[0]);
        let heater = |i: u32| {
            [
                first - f64::from(i + 1) * 1.8 * rod,
                s.water - 0.12 * over - (0.6 * over).min(200.0),
                rod,
                (0.6 * over).min(200.0),
            ]
        };
        let heaters: Vec<Box4> =
            (0..s.hung.heaters).map(heater).filter(|[left, ..]| fits(rod) && *left > 0.5 * s.length).collect();
        let tops = filter.iter().chain(&heaters).map(|[left, low, wide, tall]| [left + 0.5 * wide, low + tall]);
        let lamp_end = [lamp[0] + lamp[2], lamp[1] + 0.5 * thick];
        // From the wall outwards: each crosses the rim above the one before it, so that no two cross.
        let mut ends: Vec<(Point, f64)> =
            tops.enumerate().map(|(i, top)| (top, s.height + (0.012 + 0.010 * i as f64) * long)).collect();
        ends.push((lamp_end, lamp_end[1]));
        let step = 0.014 * long;
        let sockets = [right + 0.088 * long, 0.72 * s.height, step * (ends.len() as f64 + 1.0), 0.03 * long];
        let turn = sockets[1] - (0.12 * long).min(0.5 * s.height);
        let last = ends.len();
        let cable = |(i, (from, over)): (usize, (Point, f64))| Cable {
            from,
            over,
            down: right + 0.02 * long + step * i as f64,
            turn,
            up: sockets[0] + step * (last - i) as f64,
            socket: sockets[1],
        };
        Gear { lamp, filter, heaters, sockets, cables: ends.into_iter().enumerate().map(cable).collect() }
    }

    /// What hangs there, in a sentence.
    pub fn words(&self) -> String {
        let heaters = match self.heaters.len() {
            0 => "",
            1 => ", under water a heater",
            _ => ", under water heaters",
        };
        let filter = if self.filter.is_some() { ", a filter at the right wall" } else { "" };
        format!("A lamp over the rim{heaters}{filter}; each cable hangs in a loop lower than its socket.")
    }
}

/// The drawing from the front.
pub fn gear(s: &Section) -> Markup {
    let gear = Gear::of(s);
    let em = s.letter();
    html! {
        @for cable in &gear.cables { path.cable d=(path(s, cable)) {} }
        (solid(s, gear.sockets))
        @if let Some(filter) = gear.filter {
            (solid(s, filter))
            path.slots d=(slots(s, filter)) {}
        }
        @for heater in &gear.heaters { (solid(s, *heater)) path.slots d=(coil(s, *heater)) {} }
        (lamp(s, s.length, gear.lamp))
        g.words {
            text x=(n(gear.lamp[0] + 0.5 * gear.lamp[2])) y=(n(s.y(gear.lamp[1] + gear.lamp[3]) - 0.6 * em)) text-anchor="middle" { "lamp" }
            @if let Some([left, low, wide, tall]) = gear.filter {
                text x=(n(left + 0.5 * wide)) y=(n(s.y(low + 0.78 * tall))) text-anchor="middle" { "filter" }
            }
            @if let Some([left, low, _, tall]) = gear.heaters.last() {
                text x=(n(left - 0.5 * em)) y=(n(s.y(low + 0.8 * tall))) text-anchor="end" { "heater" }
            }
            text x=(n(gear.sockets[0] + 0.5 * gear.sockets[2])) y=(n(s.y(gear.sockets[1] + gear.sockets[3]) - 0.6 * em)) text-anchor="middle" { "sockets" }
        }
    }
}

/// The lamp from the side of the tank: its end alone.
pub fn lamp_across(s: &Section) -> Markup {
    let [_, low, _, thick] = Gear::of(s).lamp;
    lamp(s, s.width, [0.35 * s.width, low, 0.3 * s.width, thick])
}

/// A lamp on two feet that stand on the rim of a glass so wide inside; a cover lies under it, if one does.
fn lamp(s: &Section, inner: f64, [left, low, wide, thick]: Box4) -> Markup {
    let ends = [(left + 0.06 * wide, -0.5 * s.glass), (left + 0.94 * wide, inner + 0.5 * s.glass)];
    let feet = ends.map(|(x, rim)| format!("M{} {}L{} {}", n(x), n(s.y(low)), n(rim), n(s.y(s.height))));
    html! {
        path.slots d=(feet.concat()) {}
        (solid(s, [left, low, wide, thick]))
        @if s.hung.covered { path.slots d=(format!("M{} {y}H{}", n(-s.glass), n(inner + s.glass), y = n(s.y(s.height) - 2.0))) {} }
    }
}

fn solid(s: &Section, [left, low, wide, tall]: Box4) -> Markup {
    html! { rect.thing x=(n(left)) y=(n(s.y(low + tall))) width=(n(wide)) height=(n(tall)) rx=(n(0.12 * wide.min(tall))) {} }
}

/// Where the filter takes in water.
fn slots(s: &Section, [left, low, wide, tall]: Box4) -> String {
    (1..6)
        .map(|i| format!("M{} {}h{}", n(left + 0.2 * wide), n(s.y(low + 0.08 * f64::from(i) * tall)), n(0.6 * wide)))
        .collect()
}

/// The winding in a heater.
fn coil(s: &Section, [left, low, wide, tall]: Box4) -> String {
    (2..12)
        .map(|i| format!("M{} {}h{}", n(left + 0.25 * wide), n(s.y(low + 0.06 * f64::from(i) * tall)), n(0.5 * wide)))
        .collect()
}

fn path(s: &Section, c: &Cable) -> String {
    let radius = n(0.5 * (c.up - c.down));
    let [x, up] = c.from;
    format!(
        "M{} {}V{}H{}V{}A{radius} {radius} 0 0 0 {} {}V{}",
        n(x),
        n(s.y(up)),
        n(s.y(c.over)),
        n(c.down),
        n(s.y(c.turn)),
        n(c.up),
        n(s.y(c.turn)),
        n(s.y(c.socket))
    )
}

fn n(value: f64) -> String {
    super::tenths(value).to_string()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Glasses from a nano to a shallow long one: length, width, height, mm.
    const GLASSES: [[f64; 3]; 5] = [
        [760.0, 360.0, 400.0],
        [250.0, 250.0, 250.0],
        [1500.0, 500.0, 600.0],
        [900.0, 450.0, 200.0],
        [300.0, 200.0, 600.0],
    ];

    fn section([length, width, height]: [f64; 3], heaters: u32) -> Section {
        let hung = Hung { filter: true, heaters, covered: true };
        let (water, ground) = (height - 30.0, String::new());
        let units = quantity::Units::default();
        Section {
            length,
            width,
            height,
            glass: 6.0,
            water,
            front: 30.0,
            back: 60.0,
            ground,
            rock_l: 0.0,
            wood_l: 0.0,
            hung,
            units,
        }
    }

    #[test]
    fn every_cable_hangs_in_a_loop_lower_than_its_socket_and_no_two_cross() {
        for (glass, heaters) in GLASSES.into_iter().flat_map(|glass| (0..=3).map(move |n| (glass, n))) {
            let gear = Gear::of(&section(glass, heaters));
            let [left, low, wide, _] = gear.sockets;
            assert_eq!(gear.cables.len(), 1 + gear.heaters.len() + usize::from(gear.filter.is_some()));
            for cable in &gear.cables {
                assert!(
                    cable.turn - 0.5 * (cable.up - cable.down) < low && cable.socket == low,
                    "{glass:?}: water runs in"
                );
                assert!(cable.over > glass[2] && cable.down > glass[0], "{glass:?}: over the rim, and outside");
                assert!((left..=left + wide).contains(&cable.up));
            }
            // Each further out on the way down is further in on the way up, and crosses the rim higher: loops lie in loops.
            for pair in gear.cables.windows(2) {
                assert!(pair[0].down < pair[1].down && pair[0].up > pair[1].up && pair[0].over < pair[1].over);
            }
        }
    }

    #[test]
    fn heater_and_filter_are_under_water_and_over_the_ground() {
        for glass in GLASSES {
            let s = section(glass, 2);
            let gear = Gear::of(&s);
            for [left, low, wide, tall] in gear.heaters.iter().chain(&gear.filter).copied() {
                assert!(low > s.middle() && low + tall < s.water, "{glass:?}");
                assert!(left > 0.0 && left + wide < s.length);
            }
            assert!(gear.lamp[1] > s.height, "the lamp is over the rim");
        }
        assert!(Gear::of(&section([760.0, 360.0, 400.0], 0)).heaters.is_empty());
    }

    #[test]
    fn all_of_it_lies_on_the_paper() {
        for glass in GLASSES {
            let s = section(glass, 3);
            let ([x, y, wide, _], gear) = (s.paper(), Gear::of(&s));
            assert!(gear.sockets[0] + gear.sockets[2] < x + wide, "{glass:?}");
            assert!(s.y(gear.lamp[1] + gear.lamp[3]) - 2.0 * s.letter() > y, "{glass:?}: with its word above");
        }
    }
}
