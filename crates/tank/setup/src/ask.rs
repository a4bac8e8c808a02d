//! A question that must be answered before anything that depends on it is computed.

use crate::Tank;

/// An open question, asked one at a time.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Question {
    /// The field that it settles, for instance `tap.nitrate`.
    pub field: String,
    /// What the file says there.
    pub written: String,
    /// The question in plain words.
    pub ask: String,
    /// The replies; "I don't know" is added by whoever asks. None: something is to be measured and written.
    pub replies: Vec<Reply>,
}

/// The sides of a glass: how their fields end, and what a keeper calls them.
const SIDES: [(&str, &str); 3] = [("length", "length"), ("width", "width (front to back)"), ("height", "height")];

impl Tank {
    /// The question for the sizes of the glass, while one of them is only assumed: a dose goes by litres, and sizes of
    /// glasses differ tenfold. It stands beside [`Tank::questions`], for what hangs on no litres needs no glass.
    pub fn glass_question(&self) -> Option<Question> {
        let untold = |side: &str| self.assumed.iter().any(|assumed| assumed.field == format!("glass.inner_{side}"));
        let untold: Vec<(&str, &str)> = SIDES.into_iter().filter(|(side, _)| untold(side)).collect();
        let (field, _) = untold.first()?;
        let names = untold.iter().map(|(_, name)| *name).collect::<Vec<_>>();
        let names = match names.split_last() {
            Some((last, rest)) if !rest.is_empty() => format!("{} and {last}", rest.join(", ")),
            _ => names.join(""),
        };
        Some(Question {
            field: format!("glass.inner_{field}"),
            written: String::new(),
            ask: format!(
                "How large is your glass? Tell me its {names} before I weigh anything: every gram hangs on the water in it. \
                 A tape measure will do, inside the panes or outside."
            ),
            replies: Vec::new(),
        })
    }
}

/// One possible reply.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Reply {
    /// A short key, for instance `no3`.
    pub key: String,
    /// In words, for instance "As NO3".
    pub label: String,
    /// What it means in figures, for instance "28 mg/L nitrate".
    pub means: String,
    /// The text that [`crate::Setup::with`] writes into the field.
    pub text: String,
}
