//! One finding: what it means here, what it can be and what not, one change, the day to judge it, what nobody knows.

use maud::{Markup, html};
use signs::{Cause, Finding};

use crate::sheet::Sheet;
use crate::words::{capital, glued, sentence};

/// The verse of a finding.
pub fn verse(sheet: &Sheet, finding: &Finding) -> Markup {
    let head = finding.name.split(':').next().unwrap_or(&finding.name);
    let at_once = finding.urgency == knowledge::Urgency::AtOnce;
    sheet.verse_as(
        if at_once { "text must" } else { "text" },
        &capital(head),
        html! {
            p { b { (glued(&capital(&finding.name))) } ". " (glued(&sentence(&finding.says))) " " span.when { (capital(finding.urgency.words())) "." } }
            @if finding.kept().next().is_some() {
                p { "Here it can be:" }
                ul.causes { @for cause in finding.kept() { (one(cause)) } }
            }
            (change(sheet, finding))
            @if !finding.unknown.is_empty() { p { (glued(&finding.unknown)) } }
            (struck(finding))
            p.small { "Source: " (sentence(&knowledge::book().cite_words(&finding.source))) }
        },
    )
}

fn one(cause: &Cause) -> Markup {
    html! { li { b { (cause.words) } ": " (cause.standing.words()) "; " (glued(&sentence(&cause.because))) } }
}

/// The one change; where nothing points anywhere, what would decide.
fn change(sheet: &Sheet, finding: &Finding) -> Markup {
    let first = finding.kept().next();
    html! {
        @match &finding.change {
            Some(change) => {
                @let (early, _, late) = change.judge_days;
                p {
                    @if let Some(rest) = change.text.strip_prefix("None") {
                        b { "Change nothing" } (glued(rest))
                    } @else {
                        b { "One change. " } (glued(&sentence(&change.text)))
                    }
                    " Judge it on " b { (change.judge_on.strftime("%-d %B").to_string()) } " (" (sheet.units.number(early.into(), quantity::Digits::Decimals(0)))
                    " to " (late) " days), by what is new and not by what is old."
                }
            }
            None => @if let Some(cause) = first {
                p { b { "No change yet. " } "Nothing of your numbers points anywhere. What would decide: " (glued(&sentence(&cause.decides))) }
            }
        }
        @if let (Some(change), Some(cause)) = (&finding.change, first) {
            @if cause.key == change.cause { p { "What would decide whether it is that: " (glued(&sentence(&cause.decides))) } }
        }
    }
}

/// What this tank can't have, folded.
fn struck(finding: &Finding) -> Markup {
    let struck: Vec<&Cause> = finding.struck().collect();
    html! {
        @if !struck.is_empty() {
            details.more {
                summary { "Struck out by your own numbers" }
                ul.causes { @for cause in struck { li { s { (cause.words) } ": " (glued(&sentence(&cause.because))) } } }
            }
        }
    }
}
