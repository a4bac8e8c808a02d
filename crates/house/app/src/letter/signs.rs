//! Findings in plain text: what it can be here, what not, one change, what nobody knows.

use knowledge::book;
use quantity::Units;
use signs::Finding;

use super::text::Text;

/// All findings.
pub fn signs(findings: &[Finding]) -> String {
    let mut t = Text::new(&Units::default());
    if findings.is_empty() {
        t.head("Nothing that says something. Nothing to do.");
    }
    if findings.len() > 1 {
        t.head("One change at a time: begin with the first.");
    }
    for finding in findings {
        one(&mut t, finding);
    }
    t.finish()
}

fn one(t: &mut Text, finding: &Finding) {
    t.head(&finding.name);
    t.say(&finding.says);
    t.say(&format!("Urgency: {}.", finding.urgency.words()));
    for cause in finding.kept() {
        t.point(&format!("{} ({}): {}", cause.words, cause.standing.words(), cause.because));
    }
    match (&finding.change, finding.kept().next()) {
        (Some(change), _) => {
            let (early, _, late) = change.judge_days;
            let text = change
                .text
                .strip_prefix("None")
                .map_or_else(|| format!("One change. {}", change.text), |rest| format!("Change nothing{rest}"));
            t.say(&format!("{text} Judge it on {} ({early} to {late} days), by what is new.", change.judge_on));
        }
        (None, Some(cause)) => t.say(&format!("No change yet. What would decide: {}", cause.decides)),
        (None, None) => {}
    }
    if !finding.unknown.is_empty() {
        t.say(&finding.unknown);
    }
    for cause in finding.struck() {
        t.point(&format!("struck out: {}: {}", cause.words, cause.because));
    }
    t.say(&format!("Source: {}.", book().cite_words(&finding.source)));
}
