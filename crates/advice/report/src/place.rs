//! Where in a file something was read.

/// Where a reading came from. Pages, sheets and lines are counted from 1.
#[derive(Clone, Debug, Default, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Place {
    /// Page of a PDF.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub page: Option<u32>,
    /// Name of a sheet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sheet: Option<String>,
    /// Line of a text, row of a table.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub line: Option<u32>,
    /// Cell of a sheet, such as `C14`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cell: Option<String>,
    /// The text itself, its cells parted by two spaces.
    pub text: String,
}
