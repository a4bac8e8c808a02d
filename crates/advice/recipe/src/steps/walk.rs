//! Changes with which a plan begins, one after another: how much of the plan's salts the new water of each may have.
//!
//! What: a change of share x with the part f of the salts moves a figure by x (P + f (N - P) - now). The part is the largest that keeps
//! every figure within its limit of a day, at either end of its range; then the tank has moved, and the next may have more.
//! While alkalinity may be gone a change is a tenth (harm rule 8).
//! Equation: f = min over figures of (now + l ÷ x - P) ÷ (N - P), at most 1; now -> now + x (P + f (N - P) - now).
//! Symbols: P the tap without salts, N the plan's new water, l the limit of a day; for conductivity l is its share of now.
//! Range: figures that mix in proportion; salts only add.
//! Source: balance of mass; limits of harm rule 6, common practice.
//! Checked by: the tests below, by hand; `tests/by_hand_begin.rs`.

use crate::plan::BeginReading;

/// Most changes that are listed: only water with next to no salts would need more, for a tenth of next to nothing is nothing.
const MOST_CHANGES: usize = 200;

/// What a figure may move by in a day.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Most {
    /// In its own unit.
    By(f64),
    /// A share of what it is.
    Share(f64),
}

/// A figure at one end of its range.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Mark {
    /// Of the tap without salts.
    pub plain: f64,
    /// Of the tank.
    pub now: f64,
    /// Of the plan's new water.
    pub new: f64,
    /// Its limit.
    pub most: Most,
}

impl Mark {
    fn bears(&self) -> f64 {
        match self.most {
            Most::By(by) => by,
            Most::Share(share) => share * self.now,
        }
    }

    /// The largest share of the tank that may be changed with all of the salts; infinite where nothing moves.
    pub fn share_whole(&self) -> f64 {
        self.bears() / (self.new - self.now).abs()
    }

    /// The same without any, where tap water alone lifts it.
    fn share_plain(&self) -> f64 {
        if self.plain > self.now { self.bears() / (self.plain - self.now) } else { f64::INFINITY }
    }

    /// The largest part of the salts at a share.
    fn part(&self, share: f64) -> f64 {
        let nearly = knowledge::book().recipe.new_water.begin_limit_share.value;
        match self.new - self.plain {
            more if more > 0.0 => (self.now + nearly * self.bears() / share - self.plain) / more,
            _ => f64::INFINITY,
        }
    }

    /// Of the new water with a part of the salts.
    fn water(&self, part: f64) -> f64 {
        self.plain + part * (self.new - self.plain)
    }

    fn pour(&mut self, share: f64, part: f64) {
        self.now += share * (self.water(part) - self.now);
    }
}

/// A tank on its way to the plan's water, and the sizes of its changes.
#[derive(Clone, Debug, PartialEq)]
pub struct Walk {
    /// Alkalinity, hardness and conductivity, each at its best estimate, its lower and its upper end.
    pub(super) marks: Vec<[Mark; 3]>,
    /// The plan's own change, 0 to 1.
    pub(super) usual: f64,
    /// The most that is changed at once while alkalinity may be gone.
    pub(super) tenth: f64,
    /// meq/L below which it may be.
    pub(super) floor: f64,
    /// Alkalinity runs out under the plan too: only a test says that it is not gone.
    pub(super) runs_out: bool,
}

/// A change with which a plan begins.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct BeginStep {
    /// Share of the tank, 0 to 1.
    pub share: f64,
    /// Part of the plan's salts in a litre of its new water, 0 to 1.
    pub part: f64,
}

impl Walk {
    fn all(&self) -> impl Iterator<Item = &Mark> {
        self.marks.iter().flatten()
    }

    /// Alkalinity may be gone, by the lower end of what is known.
    fn acid(&self) -> bool {
        self.runs_out || self.marks.first().is_some_and(|[_, low, _]| low.now < self.floor)
    }

    /// The next change; `None`: the plan's own keeps all limits.
    pub fn next(&self) -> Option<BeginStep> {
        let acid = self.acid();
        let bears = self.all().all(|mark| mark.share_whole() >= self.usual * (1.0 - 1e-9));
        if bears && !(acid && self.usual > self.tenth) {
            return None;
        }
        let most = if acid { self.tenth.min(self.usual) } else { self.usual };
        // Tap water by itself was poured all along: of it the best estimate counts.
        let share = self.marks.iter().map(|[best, ..]| best.share_plain()).fold(most, f64::min);
        let part = self.all().map(|mark| mark.part(share)).fold(1.0, f64::min).max(0.0);
        // Nor may it fall further, where the tank has gathered more than this water holds.
        let falls = |[best, ..]: &[Mark; 3]| best.bears() / (best.now - best.water(part)).max(0.0);
        Some(BeginStep { share: self.marks.iter().map(falls).fold(share, f64::min), part })
    }

    /// So much was poured.
    pub fn pour(&mut self, step: BeginStep) {
        self.marks.iter_mut().flatten().for_each(|mark| mark.pour(step.share, step.part));
    }

    /// A test found what the tank holds of a figure: the others are as far on the way. What of alkalinity was read is what there is, and it
    /// says whether it is gone.
    pub fn read(&mut self, reading: BeginReading, value: f64) {
        let at = reading as usize;
        let way = self.marks.get(at).map(|[best, ..]| (value - best.now) / (best.new - best.now));
        let way = way.filter(|way| way.is_finite()).unwrap_or(0.0);
        for mark in self.marks.iter_mut().flatten() {
            mark.now = (mark.now + way * (mark.new - mark.now)).max(0.0);
        }
        self.found(reading, value);
    }

    /// The same of this figure alone.
    pub fn found(&mut self, reading: BeginReading, value: f64) {
        if let Some(marks) = self.marks.get_mut(reading as usize) {
            marks.iter_mut().for_each(|mark| mark.now = value);
        }
        self.runs_out &= !(matches!(reading, BeginReading::Alkalinity) && value >= self.floor);
    }

    /// All of them from here on.
    pub fn steps(&self) -> Vec<BeginStep> {
        let (mut walk, mut steps) = (self.clone(), Vec::new());
        while let Some(step) = walk.next().filter(|_| steps.len() < MOST_CHANGES) {
            // What runs out again stays so until a test: a step that no longer differs is the last that is told.
            if walk.runs_out && steps.last().is_some_and(|last: &BeginStep| last.part >= 1.0) {
                break;
            }
            walk.pour(step);
            steps.push(step);
        }
        steps
    }

    /// How many changes of a share with all of the salts, until the plan's own keeps all limits and no more than `left` of the way is left.
    pub(super) fn smaller(mut self, share: f64, left: f64) -> usize {
        let (mut changes, mut far) = (0, 1.0);
        let bears = |walk: &Walk| walk.all().all(|mark| mark.share_whole() >= walk.usual * (1.0 - 1e-9));
        while changes < MOST_CHANGES && !(bears(&self) && far <= left + 1e-9) {
            self.pour(BeginStep { share, part: 1.0 });
            far *= 1.0 - share;
            changes += 1;
        }
        changes
    }
}

#[cfg(test)]
mod tests {
    use super::{BeginReading, BeginStep, Mark, Most, Walk};

    fn walk(mark: Mark, usual: f64) -> Walk {
        let still = Mark { plain: 1.0, now: 1.0, new: 1.0, most: Most::By(0.36) };
        Walk { marks: vec![[still; 3], [still; 3], [mark; 3]], usual, tenth: 0.1, floor: 0.36, runs_out: false }
    }

    #[test]
    fn parts_by_hand() {
        // 100 to 200 µS/cm, half changed, a tenth of it a change: 0.97 × 10 ÷ 0.5 = 19.4 of 100; the tank comes to 109.7, and
        // 9.7 + 0.97 × 10.97 ÷ 0.5 = 30.98 of 100.
        let walk = walk(Mark { plain: 100.0, now: 100.0, new: 200.0, most: Most::Share(0.1) }, 0.5);
        let steps = walk.steps();
        let [first, second, ..] = steps[..] else { panic!("{steps:?}") };
        assert!((first.part - 0.194).abs() < 1e-9 && (second.part - 0.309_818).abs() < 1e-6, "{steps:?}");
        // Each keeps the limit, and so does the whole that follows.
        let mut now = 100.0;
        for step in steps.iter().chain([&BeginStep { share: 0.5, part: 1.0 }]) {
            let moves = step.share * (100.0 + 100.0 * step.part - now);
            assert!(moves <= 0.1 * now * (1.0 + 1e-9), "{moves} of {now}");
            now += moves;
        }
        assert!(steps.len() < 10, "{steps:?}");
        // A test on the way: at 150 a tenth is 15, 0.97 × 15 ÷ 0.5 = 29.1 more than 50.
        let mut read = walk.clone();
        read.read(BeginReading::Conductivity, 150.0);
        assert!(read.next().is_some_and(|step| (step.part - 0.791).abs() < 1e-9), "{:?}", read.next());
        // At 182 the whole moves it by 9.
        read.read(BeginReading::Conductivity, 182.0);
        assert_eq!(read.next(), None);
    }

    #[test]
    fn a_tenth_while_alkalinity_may_be_gone() {
        let mut walk = walk(Mark { plain: 100.0, now: 100.0, new: 100.0, most: Most::Share(0.1) }, 0.4);
        let [best, low, high] = [0.5, 0.0, 0.6].map(|now| Mark { plain: 0.2, now, new: 1.0, most: Most::By(0.36) });
        walk.marks[0] = [best, low, high];
        let steps = walk.steps();
        // Of the lower end 0.9^4 is left after four tenths of 1.0: 0.34; after five 0.41.
        assert_eq!(steps, vec![BeginStep { share: 0.1, part: 1.0 }; 5]);
        // A test that finds it there ends the tenths: 0.4 × (1.0 - 0.6) is 0.16.
        walk.found(BeginReading::Alkalinity, 0.6);
        assert_eq!(walk.next(), None);
    }

    #[test]
    fn a_fall_has_the_same_limit() {
        // The tank gathered 300 where the tap has 100: half of it changed would take 100 of 300 away, and 30 are allowed: 30 ÷ 200 of it.
        let gathered = Mark { plain: 100.0, now: 300.0, new: 100.0, most: Most::Share(0.1) };
        let step = walk(gathered, 0.5).next();
        assert!(step.is_some_and(|step| (step.share - 0.15).abs() < 1e-12 && step.part == 1.0), "{step:?}");
    }

    #[test]
    fn smaller_ones_by_hand() {
        let near = walk(Mark { plain: 1.0, now: 1.0, new: 1.2, most: Most::By(0.36) }, 0.25);
        // No more than 0.4 of the way is left: 0.9^9 = 0.387.
        assert_eq!([near.clone().smaller(0.1, 0.4), near.smaller(0.1, 1.0)], [9, 0]);
    }
}
