//! A report as JSON: one object, also when the file is refused.

use serde::Serialize;

use crate::reading::{Basis, Statistic};
use crate::{Contradiction, Place, Question, Refusal, Report, Sample, Unit, UnknownRow};

/// A report as it is printed in JSON.
#[derive(Debug, Serialize)]
pub struct Answer<'a> {
    file: &'a str,
    language: Option<&'a str>,
    samples: &'a [Sample],
    proposed: Option<&'a str>,
    readings: Vec<Line<'a>>,
    unknown_rows: &'a [UnknownRow],
    questions: &'a [Question],
    contradictions: &'a [Contradiction],
    errors: &'a [Refusal],
}

#[derive(Debug, Serialize)]
struct Line<'a> {
    determinand: &'a str,
    as_written: &'a str,
    basis: Option<Basis>,
    unit: Option<Unit>,
    statistic: Statistic,
    value: Option<f64>,
    above: bool,
    below_detection: bool,
    detection_limit: Option<f64>,
    sample: Option<&'a str>,
    source: &'a Place,
    confidence: f64,
    question: Option<&'a str>,
    because: Option<&'a str>,
    limit: Option<&'a str>,
    samples: Option<u32>,
    failing: Option<u32>,
}

impl Report {
    /// The report as it is printed in JSON.
    pub fn answer(&self) -> Answer<'_> {
        let name = |at: usize| self.samples.get(at).and_then(|s| s.name.as_deref());
        Answer {
            file: &self.file,
            language: self.language.as_deref(),
            samples: &self.samples,
            proposed: self.proposed.and_then(name),
            readings: self
                .readings
                .iter()
                .map(|r| Line {
                    determinand: &r.determinand,
                    as_written: &r.as_written,
                    basis: r.counted.basis(),
                    unit: r.unit,
                    statistic: r.statistic,
                    value: r.value,
                    above: r.comparator == quantity::Comparator::Above,
                    below_detection: r.is_below_detection(),
                    detection_limit: r.detection_limit,
                    sample: r.sample.and_then(name),
                    source: &r.place,
                    confidence: r.confidence,
                    question: r.question.as_deref(),
                    because: r.because.as_deref(),
                    limit: r.limit.as_ref().map(|l| l.text.as_str()),
                    samples: r.samples,
                    failing: r.failing,
                })
                .collect(),
            unknown_rows: &self.unknown_rows,
            questions: &self.questions,
            contradictions: &self.contradictions,
            errors: &self.errors,
        }
    }
}
