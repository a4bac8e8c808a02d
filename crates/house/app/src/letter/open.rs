//! An open question in plain text: the question, and what would follow from each reply.

use recipe::{Answer, Outcome};
use setup::Question;

use super::text::Text;

/// How the sizes of the glass are written, the one question that has no replies to choose among.
const GLASS: &str = "Write them into the file under [glass], with your own numbers: inner_length = \"76 cm\", \
    inner_width = \"36 cm\", inner_height = \"40 cm\"; measured from outside: outer_length, outer_width, outer_height.";

/// The question and both outcomes; nothing is computed on a basis that is not settled.
pub fn open(question: &Question, outcomes: &[Outcome]) -> String {
    let mut t = Text::new(&Default::default());
    t.head("One question first");
    t.say(&question.ask);
    if question.replies.is_empty() {
        t.say(GLASS);
        return t.finish();
    }
    t.say(&format!("`{}` says: {}", question.field, question.written));
    let mut out = t.finish();
    for (reply, outcome) in question.replies.iter().zip(outcomes) {
        let mut t = Text::new(&Default::default());
        t.head(&format!("If {}: {}", reply.label, reply.means));
        t.say(&format!("write {} = \"{}\" into the file. Then:", question.field, reply.text));
        out += &format!("\n{}\n{}", t.finish(), indented(&follows(&outcome.answer)));
    }
    out
}

fn follows(answer: &Answer) -> String {
    match answer {
        Answer::Settled { tank, plan } => super::plan(tank, plan),
        Answer::Open { question, outcomes } => open(question, outcomes),
    }
}

fn indented(text: &str) -> String {
    text.lines().map(|line| format!("  | {line}").trim_end().to_owned() + "\n").collect()
}
