//! The question: a reply slip on top of the letter, one at a time. The last reply is always "I don't know".

use maud::{Markup, html};
use setup::Question;

use crate::words::{glued, sentence};

/// The slip. `follows` says what follows from each reply, in the order of the replies; where there are none to choose
/// among, it holds the blanks.
pub fn question(question: &Question, follows: &[Markup]) -> Markup {
    let (ask, more) = question.ask.split_once('?').map_or((question.ask.as_str(), ""), |(ask, more)| (ask, more));
    html! {
        div.question role="group" aria-labelledby="question" {
            h2 #question { "Still open. " (glued(ask)) "?" }
            @if question.replies.is_empty() {
                p { (sentence(more)) }
                @for follows in follows { (follows) }
                details.dont-know {
                    summary { "I don’t know." }
                    p {
                        "Then nothing is weighed yet, and nothing is lost by it: Help now and what hangs on no litres stand as they are. The paper that came with the "
                        "glass, its shop or a label on it name its sizes; a folded sheet of paper is 29.7 cm long (A4) or 27.9 cm (Letter). Or count the litres: a bucket "
                        "with marks as you fill it, or a weighed salt later, on Measure."
                    }
                }
            } @else {
                p { (sentence(more)) " Until you answer, I work out each reading, side by side, and decide nothing." }
                (replies(question, follows))
            }
        }
    }
}

fn replies(question: &Question, follows: &[Markup]) -> Markup {
    html! {
            div.replies {
                @for (i, reply) in question.replies.iter().enumerate() {
                    button.reply name="reply" value=(format!("{}={}", question.field, reply.key)) {
                        b { (glued(&reply.label)) }
                        span { (sentence(&reply.means)) " " @if let Some(follows) = follows.get(i) { (follows) } }
                    }
                }
                button.reply.unknown name="reply" value=(format!("{}=", question.field)) {
                    b { "I don’t know." }
                    span { "Tell me whom to ask and what to say." }
                }
            }
    }
}

/// What somebody does who doesn't know the answer.
pub fn ask_whom(question: &Question) -> Markup {
    html! {
        div.told {
            p {
                "Ask whoever wrote the number: the water supplier, or the maker of the test. Their address stands on the report or the packet. Say: “"
                "I have a value here that reads " (question.written) ". " (question.ask) "”"
            }
            p { "Nothing needs to wait for it: where the readings agree, the letter below holds. Where they don’t, do the more careful one." }
        }
    }
}
