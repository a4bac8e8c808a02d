//! Stones and wood as large as they are, and plants as hatching, each where it can stand in the glass.
//!
//! What: stones are half balls that lie on the ground, flattened where the water is too shallow; wood is branches,
//! round tapered rods eight times as long as thick. The setup knows how much of them there is, not their shape or place: shape
//! and place are the drawing's, the size is the keeper's.
//! Equation: stone V = 2/3 π a² h, a cut through its middle shows π a h / 2; branch V = π (a² + a b + b²) ℓ / 12
//! with a = 1.5 d, b = 0.5 d, ℓ = 8 d; seen from the side it shows d ℓ. A rugged stone is scaled until its area is that.
//! Symbols: V mm³; a half the width, h height of a stone, mm; d mean thickness, ℓ length of a branch, mm.
//! Range: what fits under water between the panes; more is not drawn ([`Scape::of`] gives nothing then).
//! Source: geometry.
//! Checked by: `tests/tank.rs`.

use std::f64::consts::PI;

/// How a volume is shared out: one large, two smaller ones.
const SHARES: [f64; 3] = [0.5, 0.3, 0.2];
/// A branch is so many times as long as thick.
const SLENDER: f64 = 8.0;
/// Thickness of a branch at its foot and its tip, as shares of its mean.
const TAPER: [f64; 2] = [1.5, 0.5];
/// The mean of the squared thickness over the square of the mean: (a² + a b + b²) ÷ 3.
const TAPERED: f64 = (TAPER[0] * TAPER[0] + TAPER[0] * TAPER[1] + TAPER[1] * TAPER[1]) / 3.0;
/// Share of the water above the ground that stones and wood reach up to at most.
const UNDER: f64 = 0.85;
/// Corners of a stone's outline.
const CORNERS: usize = 9;

/// A point of the drawing: along the floor and above it, mm.
pub type Point = [f64; 2];

/// What stands in the glass.
pub struct Scape {
    /// Outlines of stones.
    pub stones: Vec<Vec<Point>>,
    /// Outlines of branches.
    pub branches: Vec<Vec<Point>>,
}

/// The glass in which it stands, cut one way.
pub struct Room {
    /// Inner width of the cut, mm.
    pub wide: f64,
    /// Inner size across the cut, mm.
    pub deep: f64,
    /// Height of the ground at the left and at the right end, mm.
    pub ground: [f64; 2],
    /// Height of the waterline, mm.
    pub water: f64,
    /// Branches lie along this cut; else they are seen from their end, foreshortened.
    pub along: bool,
}

impl Room {
    /// Height of the ground so far along.
    pub fn ground_at(&self, x: f64) -> f64 {
        self.ground[0] + (self.ground[1] - self.ground[0]) * x / self.wide
    }

    /// Water over the highest ground.
    fn over(&self) -> f64 {
        self.water - self.ground[0].max(self.ground[1])
    }
}

impl Scape {
    /// Stones and wood of so many litres. What does not fit is not drawn.
    pub fn of(room: &Room, rock_l: f64, wood_l: f64) -> Scape {
        Scape { stones: stones(room, rock_l).unwrap_or_default(), branches: branches(room, wood_l).unwrap_or_default() }
    }
}

/// Cubic millimetres of a litre.
const MM3: f64 = 1e6;

fn stones(room: &Room, litres: f64) -> Option<Vec<Vec<Point>>> {
    // A little left of the middle; on a floor too small for three, as many more as it takes.
    const CENTRES: [f64; 3] = [0.30, 0.44, 0.19];
    if litres <= 0.0 {
        return Some(Vec::new());
    }
    let sizes = SHARES.map(|share| {
        let volume = share * litres * MM3;
        let ball = (3.0 * volume / (2.0 * PI)).cbrt();
        let high = ball.min(UNDER * room.over());
        (high, (3.0 * volume / (2.0 * PI * high)).sqrt())
    });
    let fits = |(high, half): &(f64, f64)| *high > 0.0 && 2.0 * half <= room.wide.min(room.deep);
    if !sizes.iter().all(fits) {
        return None;
    }
    let outlines = sizes.iter().zip(CENTRES).enumerate().map(|(i, ((high, half), centre))| {
        let x = (centre * room.wide).clamp(*half, room.wide - half);
        stone(i, *half, *high).into_iter().map(|[u, v]| [x + u, room.ground_at(x + u) + v]).collect()
    });
    Some(outlines.collect())
}

/// A rugged half ellipse over the ground, of the area of a smooth one; its foot runs from -half to half.
fn stone(seed: usize, half: f64, high: f64) -> Vec<Point> {
    const RUGGED: [f64; 7] = [1.0, 0.90, 1.02, 0.93, 1.0, 0.88, 0.99];
    let corner = |i: usize| {
        let angle = PI * (1.0 - i as f64 / (CORNERS - 1) as f64);
        let ends = i == 0 || i == CORNERS - 1;
        let rugged = if ends { 1.0 } else { RUGGED[(i + 3 * seed) % RUGGED.len()] };
        [half * rugged * angle.cos(), high * rugged * angle.sin()]
    };
    let mut outline: Vec<Point> = (0..CORNERS).map(corner).collect();
    // Only upwards, so that the foot stays as wide as it is.
    let scale = 0.5 * PI * half * high / area(&outline);
    for [_, v] in &mut outline {
        *v *= scale;
    }
    outline
}

/// Area inside an outline, mm² (Gauss's formula for polygons).
pub fn area(outline: &[Point]) -> f64 {
    let next = outline.iter().cycle().skip(1);
    let sum: f64 = outline.iter().zip(next).map(|([x, y], [u, v])| x * v - u * y).sum();
    0.5 * sum.abs()
}

fn branches(room: &Room, litres: f64) -> Option<Vec<Vec<Point>>> {
    // Foot of each branch behind the stones, how steeply it rises, and which way.
    const FEET: [(f64, f64, f64); 3] = [(0.34, 30.0, 1.0), (0.40, 46.0, -1.0), (0.37, 60.0, 1.0)];
    if litres <= 0.0 {
        return Some(Vec::new());
    }
    let branch = |(share, (foot, degrees, way)): (f64, (f64, f64, f64))| {
        let thick = (4.0 * share * litres * MM3 / (PI * TAPERED * SLENDER)).cbrt();
        let long = SLENDER * thick;
        // The tip, with the bend and half its thickness, stays under the waterline.
        let most = ((UNDER * room.over() - 1.5 * thick) / long).max(0.0);
        let rise = degrees.to_radians().sin().min(most);
        let run = (1.0 - rise * rise).sqrt();
        if run * long + thick > 0.9 * room.wide.max(room.deep) || 2.0 * thick > room.over() {
            return None;
        }
        Some(rod(room, foot, way, [long * run, long * rise], thick))
    };
    SHARES.into_iter().zip(FEET).map(branch).collect()
}

/// A bent, tapered rod from its foot on the ground, so far along and up; seen from its end it hides its length.
fn rod(room: &Room, foot: f64, way: f64, [run, up]: [f64; 2], thick: f64) -> Vec<Point> {
    const FROM_THE_END: f64 = 0.25;
    const BEND: f64 = 0.07;
    const JOINTS: u32 = 8;
    let run = if room.along { run } else { (FROM_THE_END * run).min(0.45 * room.wide) };
    let (low, high) = (thick.min(0.5 * room.wide), (room.wide - thick).max(0.5 * room.wide));
    let start = if way > 0.0 {
        (foot * room.wide).min(high - run).max(low)
    } else {
        (foot * room.wide).max(low + run).min(high)
    };
    let base = [start, room.ground_at(start) + 0.5 * TAPER[0] * thick];
    let long = run.hypot(up).max(1e-9);
    let across = [-way * up / long, run / long];
    let at = |t: f64, sign: f64| {
        let half = 0.5 * thick * (TAPER[0] + (TAPER[1] - TAPER[0]) * t);
        // It sags, then rises.
        let off = sign * half - BEND * long * (2.0 * PI * t).sin();
        [base[0] + way * run * t + across[0] * off, base[1] + up * t + across[1] * off]
    };
    let part = |i: u32| f64::from(i) / f64::from(JOINTS);
    let there = (0..=JOINTS).map(|i| at(part(i), 1.0));
    there.chain((0..=JOINTS).rev().map(|i| at(part(i), -1.0))).collect()
}

/// Upright strokes that stand for plants, each from the ground up: nobody told which plants grow here.
pub fn hatching(room: &Room) -> Vec<[Point; 2]> {
    // From, to, and height as a share of the water: low in front or at the left, tall behind.
    const CLUMPS: [(f64, f64, f64); 3] = [(0.03, 0.14, 0.45), (0.72, 0.83, 0.40), (0.82, 0.97, 0.80)];
    const APART: f64 = 0.0115;
    let clump = |(from, to, tall): (f64, f64, f64)| {
        let strokes = ((to - from) / APART) as u32;
        (0..=strokes).map(move |i| {
            let x = (from + f64::from(i) * APART) * room.wide;
            let wave = [0.82, 0.95, 0.88, 1.0, 0.9][(i % 5) as usize];
            let round = 0.6 + 0.4 * (PI * f64::from(i) / f64::from(strokes.max(1))).sin();
            let foot = room.ground_at(x);
            [[x, foot], [x, foot + wave * round * tall * room.over()]]
        })
    };
    CLUMPS.into_iter().flat_map(clump).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn room() -> Room {
        Room { wide: 760.0, deep: 360.0, ground: [50.0, 50.0], water: 370.0, along: true }
    }

    #[test]
    fn the_cut_of_the_stones_is_that_of_half_balls_of_their_volume() {
        // 1.5 L in three half balls: r = (3 V ÷ 2π)^(1/3), cut π r² ÷ 2, by hand for 0.75, 0.45 and 0.3 L.
        let by_hand = [0.75_f64, 0.45, 0.3].map(|l| PI / 2.0 * (3.0 * l * 1e6 / (2.0 * PI)).powf(2.0 / 3.0));
        let scape = Scape::of(&room(), 1.5, 0.0);
        assert_eq!(scape.stones.len(), 3);
        for (stone, by_hand) in scape.stones.iter().zip(by_hand) {
            assert!((area(stone) - by_hand).abs() < 1e-6 * by_hand, "{} {by_hand}", area(stone));
        }
    }

    #[test]
    fn branches_have_their_volume_and_stay_in_the_water() {
        // A trunk of 1.5 d at the foot and 0.5 d at the tip (frustum): V = π ℓ (2.25 + 0.75 + 0.25) d² ÷ 12 with ℓ = 8 d, so
        // d³ = 3 V ÷ 6.5 π, and its outline is a trapezium of 8 d².
        let scape = Scape::of(&room(), 0.0, 0.9);
        for (branch, share) in scape.branches.iter().zip(SHARES) {
            let by_hand = 8.0 * (3.0 * share * 0.9e6 / (6.5 * PI)).powf(2.0 / 3.0);
            assert!((area(branch) - by_hand).abs() < 1e-6 * by_hand);
            assert!(branch.iter().all(|[x, y]| (0.0..=760.0).contains(x) && *y < 370.0), "{branch:?}");
        }
        assert_eq!(scape.branches.len(), 3);
    }

    #[test]
    fn what_does_not_fit_is_not_drawn() {
        let scape = Scape::of(&room(), 80.0, 80.0);
        assert!(scape.stones.is_empty() && scape.branches.is_empty());
        let dry = Room { water: 50.0, ..room() };
        assert!(Scape::of(&dry, 1.0, 1.0).stones.is_empty());
    }
}
