//! A report as the keeper has it: what was read, never changed, and beside it the keeper's corrections and choices.
//!
//! [`Filed::corrected`] is the report that everything is worked out from. [`Filed::asked`] is the one question to put
//! next; what the keeper does not know stays open, and nothing is computed on it.

use quantity::Fault;

use crate::correction::{self, Change, Correction, Spot};
use crate::reading::{Counted, Reading};
use crate::{Report, Unit, ask, memory, prove};

/// Who measured.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum By {
    /// The water company or a laboratory.
    #[default]
    Works,
    /// The keeper, at their own tap, with kits and a pen.
    Keeper,
}

/// Which of the report's samples are the keeper's water.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Picked {
    /// The one that the reader proposes.
    #[default]
    Proposed,
    /// This one, by its place in [`Report::samples`].
    One(usize),
    /// All of them: several dates of one water, or works that take turns.
    All,
}

/// A report with the keeper's corrections.
#[derive(Clone, Debug, Default, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Filed {
    /// As it was read.
    pub report: Report,
    /// Who measured.
    pub by: By,
    /// What the keeper said, one for a spot.
    pub corrections: Vec<Correction>,
    /// Which sample counts.
    pub picked: Picked,
    /// Numbers of other reports of the tank that are counted in.
    #[serde(default)]
    pub with: Vec<u64>,
    /// The keeper put it away: it is kept and counts for nothing.
    pub put_away: bool,
}

/// One line of the report beside what it says.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// What a correction of it is about.
    pub at: Spot,
    /// As it counts now.
    pub reading: Reading,
    /// The correction on it, if there is one.
    pub correction: Option<Correction>,
}

impl Line {
    /// Whether the keeper left it out.
    pub fn is_left_out(&self) -> bool {
        self.correction.as_ref().is_some_and(|c| c.change == Change::LeftOut)
    }
}

/// A question with its replies.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Asked {
    /// Place of the first reading that it is about.
    pub reading: usize,
    /// The question.
    pub text: String,
    /// Key and words of each reply; "I don't know" is the empty key and always possible.
    pub replies: Vec<(String, String)>,
}

/// Readings that are kept of one report at most: a year of twelve zones has some five thousand.
const MOST_READINGS: usize = 6_000;
/// Rows that nobody understood, of which so many are kept at most.
const MOST_ROWS: usize = 300;

impl Filed {
    /// A report as it comes.
    pub fn new(mut report: Report, by: By) -> Filed {
        let (readings, rows) = (report.readings.len(), report.unknown_rows.len());
        report.readings.truncate(MOST_READINGS);
        report.unknown_rows.truncate(MOST_ROWS);
        if readings > MOST_READINGS || rows > MOST_ROWS {
            let text = format!(
                "This report is very long: the first {MOST_READINGS} values and the first {MOST_ROWS} rows without a \
                 known name are kept. Give me the pages of your own zone alone."
            );
            report.errors.push(crate::Refusal::new(crate::RefusalKind::TooLarge, text));
        }
        Filed { report, by, ..Filed::default() }
    }

    /// The text in which it is kept (JSON).
    ///
    /// # Errors
    /// A number that JSON has no word for; no reader makes one.
    pub fn to_text(&self) -> Result<String, Fault> {
        serde_json::to_string(self).map_err(|error| Fault::new(format!("the report can't be kept: {error}")))
    }

    /// From the text in which it is kept.
    ///
    /// # Errors
    /// A text that was damaged, or that a newer program wrote.
    pub fn from_text(text: &str) -> Result<Filed, Fault> {
        serde_json::from_str(text).map_err(|error| {
            Fault::new(format!("this report can't be read any more: {error}")).hint("read its file in again")
        })
    }

    /// Every reading as it counts now, in the order of the report, then the rows that the keeper gave a meaning.
    pub fn lines(&self) -> Vec<Line> {
        let mut lines: Vec<Line> = Vec::with_capacity(self.report.readings.len());
        for (at, reading) in self.report.readings.iter().enumerate() {
            let correction = self.correction(Spot::Reading(at)).cloned();
            let mut reading = reading.clone();
            match correction.as_ref().map(|c| (&c.change, c)) {
                Some((Change::Means(meant), c)) => meant.put_on(&mut reading, because(c)),
                Some((Change::AsRead, c)) => {
                    reading.question = None;
                    reading.because = Some(because(c));
                }
                _ => {}
            }
            lines.push(Line { at: Spot::Reading(at), reading, correction });
        }
        for (at, row) in self.report.unknown_rows.iter().enumerate() {
            let Some(correction) = self.correction(Spot::Row(at)) else { continue };
            let Change::Means(meant) = &correction.change else { continue };
            let mut reading = correction::blank(&row.source);
            meant.put_on(&mut reading, because(correction));
            // A row has no column that names its sample: it belongs to the one that counts.
            reading.sample = self.one();
            lines.push(Line { at: Spot::Row(at), reading, correction: Some(correction.clone()) });
        }
        // What was answered may prove what is still open.
        let mut readings: Vec<Reading> = lines.iter().map(|line| line.reading.clone()).collect();
        prove::settle(&mut readings, self.report.samples.len());
        for (line, reading) in lines.iter_mut().zip(readings) {
            line.reading = reading;
        }
        lines
    }

    /// The report that counts: corrections made, what was left out gone, contradictions looked for anew.
    pub fn corrected(&self) -> Report {
        let kept = self.lines().into_iter().filter(|line| !line.is_left_out());
        let readings: Vec<Reading> = kept.map(|line| line.reading).collect();
        Report {
            contradictions: prove::contradictions(&readings, &self.report.samples),
            questions: ask::questions(&readings),
            readings,
            ..self.report.clone()
        }
    }

    /// The one sample that counts, by its place; none where all do, or where there is only one.
    pub fn one(&self) -> Option<usize> {
        let there = |at: &usize| *at < self.report.samples.len();
        match self.picked {
            Picked::Proposed => self.report.proposed.filter(there),
            Picked::One(at) => Some(at).filter(there).filter(|_| self.report.samples.len() > 1),
            Picked::All => None,
        }
    }

    /// Whether a reading is of the water that counts.
    pub fn counts(&self, reading: &Reading) -> bool {
        self.one().is_none_or(|one| reading.sample.is_none_or(|sample| sample == one))
    }

    /// The question to put next; none where nothing is open but what the keeper does not know.
    pub fn asked(&self) -> Option<Asked> {
        let lines = self.lines();
        let open =
            |line: &&Line| line.reading.question.is_some() && line.correction.is_none() && self.counts(&line.reading);
        let line = lines.iter().find(open)?;
        let Spot::Reading(reading) = line.at else { return None };
        let text = line.reading.question.clone()?;
        Some(Asked { reading, text, replies: replies(&line.reading) })
    }

    /// How many questions are open, counting those that the keeper can't answer.
    pub fn open(&self) -> usize {
        let lines = self.lines();
        let open = lines.iter().filter(|l| l.reading.question.is_some() && !l.is_left_out() && self.counts(&l.reading));
        let mut texts: Vec<&String> = open.filter_map(|line| line.reading.question.as_ref()).collect();
        texts.sort();
        texts.dedup();
        texts.len()
    }

    /// Answer a question by the key of a reply: every reading that it was asked about.
    ///
    /// # Errors
    /// There is no such question or reply.
    pub fn answer(&mut self, reading: usize, key: &str) -> Result<(), Fault> {
        let lines = self.lines();
        let gone = || Fault::new("this question is not open any more").hint("look at the report as it stands now");
        let asked = lines.iter().find(|line| line.at == Spot::Reading(reading)).ok_or_else(gone)?;
        let question = asked.reading.question.clone().ok_or_else(gone)?;
        let known = replies(&asked.reading);
        let words = known.iter().find(|(reply, _)| reply == key).map(|(_, words)| words.clone());
        let words = match words {
            Some(words) => words,
            None if key.is_empty() => "I don't know".to_owned(),
            None => return Err(gone()),
        };
        let same = |line: &&Line| {
            line.reading.determinand == asked.reading.determinand && line.reading.question.as_ref() == Some(&question)
        };
        for line in lines.iter().filter(same) {
            let change = reply(&line.reading, key)?;
            self.put(Correction { at: line.at, typed: words.clone(), change, remembered: None });
        }
        Ok(())
    }

    /// Correct one spot by a text as a person writes one; the empty text leaves it out.
    ///
    /// # Errors
    /// A text that is not understood: the old reading holds.
    pub fn correct(&mut self, at: Spot, typed: &str) -> Result<(), Fault> {
        let gone = || Fault::new("there is no such row in this report");
        let change = match at {
            Spot::Reading(_) => {
                let lines = self.lines();
                let line = lines.iter().find(|line| line.at == at).ok_or_else(gone)?;
                correction::understand(&line.reading, typed)?
            }
            Spot::Row(row) => correction::of_row(&self.report.unknown_rows.get(row).ok_or_else(gone)?.source, typed)?,
        };
        self.put(Correction { at, typed: typed.trim().to_owned(), change, remembered: None });
        Ok(())
    }

    /// Take a correction back: the spot is as it was read. A question asks itself again, for all that it was about.
    pub fn take_back(&mut self, at: Spot) {
        let question = match at {
            Spot::Reading(reading) => self.report.readings.get(reading).and_then(|r| r.question.clone()),
            Spot::Row(_) => None,
        };
        let answer = self.correction(at).map(|c| (c.typed.clone(), c.change.clone()));
        let readings = &self.report.readings;
        self.corrections.retain(|c| {
            let of_question = match c.at {
                Spot::Reading(i) => question.is_some() && readings.get(i).is_some_and(|r| r.question == question),
                Spot::Row(_) => false,
            };
            let same = of_question && answer.as_ref().is_some_and(|(typed, _)| *typed == c.typed);
            c.at != at && !same
        });
    }

    /// Make the corrections of an earlier report of the same layout on this one too. Those made here hold.
    pub fn remember(&mut self, earlier: &Filed, name: &str) {
        for correction in memory::carried(earlier, self, name) {
            if self.correction(correction.at).is_none() {
                self.corrections.push(correction);
            }
        }
    }

    /// The correction of a spot.
    pub fn correction(&self, at: Spot) -> Option<&Correction> {
        self.corrections.iter().find(|correction| correction.at == at)
    }

    fn put(&mut self, correction: Correction) {
        self.corrections.retain(|old| old.at != correction.at);
        self.corrections.push(correction);
        self.corrections.sort_by_key(|correction| correction.at);
    }
}

fn because(correction: &Correction) -> String {
    match &correction.remembered {
        Some(report) => format!("you said so of the same row of {report}: {}", correction.typed),
        None => format!("you said so: {}", correction.typed),
    }
}

/// The key of the reply to a reading's open question that counts it by `basis`: `N`, `NO3`, `CaCO3`.
pub fn reply_key(reading: &Reading, basis: &str) -> Option<String> {
    let Counted::Open(bases) = &reading.counted else { return None };
    let named = |choice: &crate::Basis| {
        let words = ask::choice(&reading.determinand, *choice);
        words.split(' ').nth(1).is_some_and(|word| word.eq_ignore_ascii_case(basis))
    };
    bases.iter().find(|choice| named(choice)).map(|choice| format!("as:{choice:?}"))
}

/// The replies to the question on a reading.
fn replies(reading: &Reading) -> Vec<(String, String)> {
    let words = correction::written(reading);
    if let Counted::Open(bases) = &reading.counted {
        let reply = |basis: &crate::Basis| {
            let choice = ask::choice(&reading.determinand, *basis);
            (format!("as:{basis:?}"), format!("{words} {choice}"))
        };
        return bases.iter().map(reply).collect();
    }
    if reading.unit.is_none() {
        let units: &[Unit] = match reading.determinand.as_str() {
            "conductivity" => &[Unit::UsPerCm, Unit::MsPerM],
            name if name.starts_with("hardness") || name == "alkalinity" => {
                &[Unit::GermanDegree, Unit::FrenchDegree, Unit::EnglishDegree, Unit::MmolPerL, Unit::MeqPerL]
            }
            "temperature" => &[Unit::Celsius],
            _ => &[Unit::MgPerL, Unit::UgPerL, Unit::MmolPerL],
        };
        return units
            .iter()
            .map(|unit| (format!("unit:{}", unit.name()), format!("{words} {}", unit.name())))
            .collect();
    }
    vec![("yes".to_owned(), format!("Yes, {words}")), ("no".to_owned(), "No: leave it out".to_owned())]
}

/// What a reply does to one of the readings that were asked about.
fn reply(reading: &Reading, key: &str) -> Result<Change, Fault> {
    if let Some(basis) = key.strip_prefix("as:")
        && let Counted::Open(bases) = &reading.counted
        && let Some(basis) = bases.iter().find(|b| format!("{b:?}") == basis)
    {
        return Ok(Change::Means(correction::Meant {
            determinand: reading.determinand.clone(),
            unit: reading.unit,
            counted: Counted::As(*basis),
            statistic: reading.statistic,
            number: None,
        }));
    }
    if let Some(unit) = key.strip_prefix("unit:") {
        // Read again with the unit, so that what the unit settles is settled, and what it leaves open is asked.
        let text = format!("{} {unit}", correction::written(reading));
        return correction::understand(reading, &text);
    }
    match key {
        "yes" => Ok(Change::AsRead),
        "no" => Ok(Change::LeftOut),
        "" => Ok(Change::Unknown),
        _ => Err(Fault::new("there is no such reply")),
    }
}
