//! Two columns of ions on one scale: what is charged plus to the left, minus to the right, in meq/L.
//!
//! A block is as tall as its charge. A reading that is in doubt stands on top as a dotted block for each of its ways,
//! so that the eye sees which of them lets the columns stand level.

use maud::{Markup, html};
use quantity::number::Digits;
use quantity::{Ion, Units};

use super::Frame;

/// Equivalents that a mole adds to its column, with their sign: as [`Ion::charge`], but phosphate once, for the rest
/// of its charge is in the alkalinity (source key `dickson_1981`).
pub fn equivalents(ion: Ion) -> f64 {
    if ion == Ion::Phosphate { -1.0 } else { f64::from(ion.charge()) }
}

/// One block.
#[derive(Clone)]
pub struct Block {
    /// Its word.
    pub name: String,
    /// meq/L.
    pub meq: f64,
    /// A second line under the word.
    pub under: Option<String>,
}

/// The drawing.
pub struct Columns {
    /// For the names of title and description.
    pub id: String,
    /// From the bottom up.
    pub cations: Vec<Block>,
    /// From the bottom up.
    pub anions: Vec<Block>,
    /// What is in doubt: true for the left column; each way of reading it, the smallest first.
    pub doubts: Vec<(bool, Vec<Block>)>,
    /// The keeper's units.
    pub units: Units,
}

const WIDTH: f64 = 430.0;
const HEIGHT: f64 = 410.0;
const FLOOR: f64 = 376.0;
const TALL: f64 = 350.0;
const WIDE: f64 = 62.0;
/// Left edges of the two columns.
const LEFT: f64 = 134.0;
const RIGHT: f64 = 208.0;
/// Height of a line of words.
const LINE: f64 = 17.0;
/// A block lower than this has its words in the table alone.
const LEAST: f64 = 1.5;

/// A placed block.
struct Placed {
    block: Block,
    top: f64,
    height: f64,
    doubt: Option<usize>,
}

impl Columns {
    fn sum(&self, left: bool) -> f64 {
        let settled = if left { &self.cations } else { &self.anions };
        settled.iter().map(|block| block.meq).sum()
    }

    /// Sum with the largest way of what is in doubt.
    fn most(&self, left: bool) -> f64 {
        let doubts = self.doubts.iter().filter(|(side, _)| *side == left);
        self.sum(left) + doubts.map(|(_, ways)| ways.iter().map(|way| way.meq).fold(0.0, f64::max)).sum::<f64>()
    }

    fn per_meq(&self) -> f64 {
        let most = self.most(true).max(self.most(false));
        if most > 0.0 { TALL / most } else { 0.0 }
    }

    /// Settled blocks, then each way of reading the doubtful one; a larger way reaches on above the smaller.
    fn placed(&self, left: bool) -> Vec<Placed> {
        let settled = if left { &self.cations } else { &self.anions };
        let scale = self.per_meq();
        let (mut at, mut placed) = (FLOOR, Vec::new());
        for block in settled.iter().filter(|block| block.meq > 0.0) {
            at -= block.meq * scale;
            placed.push(Placed { block: block.clone(), top: at, height: block.meq * scale, doubt: None });
        }
        for (_, ways) in self.doubts.iter().filter(|(side, _)| *side == left) {
            let foot = at;
            for (i, way) in ways.iter().enumerate() {
                let top = foot - way.meq * scale;
                placed.push(Placed { block: way.clone(), top, height: at - top, doubt: Some(i) });
                at = top;
            }
        }
        placed
    }

    fn n(&self, meq: f64) -> String {
        self.units.number(meq, Digits::Decimals(2))
    }

    fn words(&self) -> String {
        let side = |left: bool, blocks: &[Block]| {
            let parts: Vec<String> =
                blocks.iter().filter(|b| b.meq > 0.0).map(|b| format!("{} {}", b.name, self.n(b.meq))).collect();
            let doubts = self.doubts.iter().filter(|(of, _)| *of == left).flat_map(|(_, ways)| ways);
            let doubts: Vec<String> = doubts
                .map(|way| format!(" On top {} {} {}.", way.name, self.n(way.meq), way.under.as_deref().unwrap_or("")))
                .collect();
            format!(
                "{}, together {} milliequivalents per litre.{}",
                parts.join(", "),
                self.n(self.sum(left)),
                doubts.concat()
            )
        };
        format!("Left: {} Right: {}", side(true, &self.cations), side(false, &self.anions))
    }
}

/// The figure.
pub fn columns(columns: &Columns) -> Markup {
    let middle = |x: f64| x + WIDE / 2.0;
    let strokes = html! {
        (column(columns, true, LEFT))
        (column(columns, false, RIGHT))
        path.line.strong d=(format!("M{} {FLOOR}H{}", LEFT - 12.0, RIGHT + WIDE + 12.0)) {}
        text.num x=(middle(LEFT)) y=(FLOOR + 20.0) text-anchor="middle" { (columns.n(columns.sum(true))) }
        text.num x=(middle(RIGHT)) y=(FLOOR + 20.0) text-anchor="middle" { (columns.n(columns.sum(false))) }
        text.soft x=(LEFT - 12.0) y=(FLOOR + 20.0) text-anchor="end" { "meq/L" }
    };
    let title = "The ions of the tap as two columns on one scale";
    let paper = [0.0, 0.0, WIDTH, HEIGHT];
    Frame { id: &columns.id, class: None, paper, letter: None, title, words: &columns.words() }.draw(strokes)
}

fn column(columns: &Columns, left: bool, x: f64) -> Markup {
    let placed = columns.placed(left);
    let labelled: Vec<&Placed> = placed.iter().filter(|p| p.height >= LEAST).collect();
    let (edge, words, anchor) = if left { (x, x - 14.0, "end") } else { (x + WIDE, x + WIDE + 14.0, "start") };
    html! {
        @for (i, p) in placed.iter().enumerate() {
            rect class=(match p.doubt { Some(_) => "doubt", None if i % 2 == 1 => "block shaded", None => "block" })
                x=(x) y=(format!("{:.2}", p.top)) width=(WIDE) height=(format!("{:.2}", p.height.max(0.0))) {}
        }
        @for (p, y) in labelled.iter().zip(spread(&labelled)) {
            @let middle = p.top + p.height / 2.0;
            path.fine d=(format!("M{edge} {middle:.1}L{} {y:.1}", if left { edge - 10.0 } else { edge + 10.0 })) {}
            text x=(words) y=(format!("{:.1}", y + 5.0)) text-anchor=(anchor) { (p.block.name) " " tspan.num { (columns.n(p.block.meq)) } }
            @if let Some(under) = &p.block.under { text.soft x=(words) y=(format!("{:.1}", y + 5.0 + LINE)) text-anchor=(anchor) { (under) } }
        }
    }
}

/// Heights of the words, from the bottom up as the blocks: at the middle of their block, but never on each other and never
/// under the floor.
fn spread(placed: &[&Placed]) -> Vec<f64> {
    let room = |p: &Placed| if p.block.under.is_some() { 2.0 * LINE } else { LINE };
    let mut words: Vec<(f64, f64)> = placed.iter().rev().map(|p| (p.top + p.height / 2.0 - LINE, room(p))).collect();
    super::spread(&mut words, 4.0 - LINE, FLOOR - 2.0);
    words.into_iter().rev().map(|(y, _)| y + LINE).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn block(meq: f64) -> Block {
        Block { name: "ion".to_owned(), meq, under: None }
    }

    #[test]
    fn equal_sums_stand_equally_tall() {
        // 1 mmol/L CaCl2, 1 NaHCO3 and 0.5 MgSO4: 4 meq on either side, whatever the salts.
        let columns = Columns {
            id: "x".to_owned(),
            cations: vec![block(2.0), block(1.0), block(1.0)],
            anions: vec![block(1.0), block(2.0), block(1.0)],
            doubts: Vec::new(),
            units: Units::default(),
        };
        let top = |left| columns.placed(left).last().map(|p| p.top);
        assert_eq!(top(true), top(false));
        assert_eq!(top(true), Some(FLOOR - TALL));
    }

    #[test]
    fn words_never_lie_on_each_other() {
        let columns = Columns {
            id: "x".to_owned(),
            cations: vec![block(5.0), block(0.1), block(0.1), block(0.1), block(0.1)],
            anions: vec![block(4.0)],
            doubts: vec![(
                false,
                vec![
                    Block { under: Some("if".to_owned()), ..block(0.3) },
                    Block { under: Some("if".to_owned()), ..block(1.4) },
                ],
            )],
            units: Units::default(),
        };
        for left in [true, false] {
            let placed = columns.placed(left);
            let labelled: Vec<&Placed> = placed.iter().collect();
            let ys = spread(&labelled);
            assert!(ys.windows(2).all(|pair| pair[0] - pair[1] >= LINE - 1e-9), "{ys:?}");
            assert!(ys.iter().all(|y| (0.0..=FLOOR).contains(y)), "{ys:?}");
        }
    }
}
