//! A question that must be answered before anything that depends on it is computed.

/// An open question, asked one at a time.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Question {
    /// The field that it settles, for instance `tap.nitrate`.
    pub field: String,
    /// What the file says there.
    pub written: String,
    /// The question in plain words.
    pub ask: String,
    /// The replies; "I don't know" is added by whoever asks.
    pub replies: Vec<Reply>,
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
