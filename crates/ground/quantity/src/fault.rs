//! A fault of the input: what is wrong, where, what was expected, and how to mend it.
//!
//! The same text is shown on the page and on the command line. A reader of input gathers all faults of a file
//! before it answers ([`Faults`]), so that one run shows them all.

use std::fmt;

/// Where a fault stands: as much of it as is known.
#[derive(Clone, Debug, Default, PartialEq, Eq, serde::Serialize)]
pub struct Place {
    /// The file as the keeper named it.
    pub file: Option<String>,
    /// Line, counted from 1.
    pub line: Option<usize>,
    /// Column in characters, counted from 1.
    pub column: Option<usize>,
    /// The field, for instance `tap.nitrate`.
    pub field: Option<String>,
    /// The line of the input itself.
    pub excerpt: Option<String>,
    /// How many characters of the excerpt are meant, from `column` on.
    pub width: Option<usize>,
}

impl Place {
    /// A place that is only a field of a form or a table.
    pub fn field(name: impl Into<String>) -> Self {
        Place { field: Some(name.into()), ..Place::default() }
    }

    /// A place in a text: byte range `span` of `text`, which is the content of `file`.
    pub fn in_text(file: &str, text: &str, span: std::ops::Range<usize>) -> Self {
        let floor = |mut i: usize| {
            i = i.min(text.len());
            while !text.is_char_boundary(i) {
                i -= 1;
            }
            i
        };
        let (start, end) = (floor(span.start), floor(span.end.max(span.start)));
        let line_start = text[..start].rfind('\n').map_or(0, |i| i + 1);
        let line_end = text[start..].find('\n').map_or(text.len(), |i| start + i);
        let width = text[start..end.min(line_end).max(start)].chars().count().max(1);
        Place {
            file: Some(file.to_owned()),
            line: Some(text[..start].matches('\n').count() + 1),
            column: Some(text[line_start..start].chars().count() + 1),
            field: None,
            excerpt: Some(text[line_start..line_end].trim_end_matches('\r').to_owned()),
            width: Some(width),
        }
    }

    /// The same place, with the name of the field.
    pub fn named(mut self, field: impl Into<String>) -> Self {
        self.field = Some(field.into());
        self
    }
}

/// One fault. `Display` prints it over several lines, the same everywhere.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
pub struct Fault {
    /// What is wrong, one sentence without a full stop.
    pub what: String,
    /// Where. Boxed, so that a `Result` with a fault stays small.
    pub place: Box<Place>,
    /// What was expected.
    pub expected: Option<String>,
    /// How to mend it.
    pub hint: Option<String>,
}

impl Fault {
    /// A fault with nothing but its sentence.
    pub fn new(what: impl Into<String>) -> Self {
        Fault { what: what.into(), place: Box::default(), expected: None, hint: None }
    }
    /// The same fault, at a place.
    pub fn at(mut self, place: Place) -> Self {
        *self.place = place;
        self
    }
    /// The same fault, with what was expected.
    pub fn expected(mut self, expected: impl Into<String>) -> Self {
        self.expected = Some(expected.into());
        self
    }
    /// The same fault, with the way to mend it.
    pub fn hint(mut self, hint: impl Into<String>) -> Self {
        self.hint = Some(hint.into());
        self
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "error: {}", self.what)?;
        let p = &self.place;
        let mut at = Vec::new();
        if let Some(file) = &p.file {
            let mut s = file.clone();
            for n in [p.line, p.column].into_iter().flatten() {
                s.push_str(&format!(":{n}"));
            }
            at.push(s);
        } else if let Some(line) = p.line {
            at.push(format!("line {line}"));
        }
        if let Some(field) = &p.field {
            at.push(format!("field `{field}`"));
        }
        if !at.is_empty() {
            write!(f, "\n  where: {}", at.join(", "))?;
        }
        if let Some(excerpt) = &p.excerpt {
            write!(f, "\n    | {excerpt}")?;
            if let Some(column) = p.column {
                let marker = "^".repeat(p.width.unwrap_or(1));
                write!(f, "\n    | {}{marker}", " ".repeat(column.saturating_sub(1)))?;
            }
        }
        if let Some(expected) = &self.expected {
            write!(f, "\n  expected: {expected}")?;
        }
        if let Some(hint) = &self.hint {
            write!(f, "\n  hint: {hint}")?;
        }
        Ok(())
    }
}

impl std::error::Error for Fault {}

/// All faults of one input, in its order. Never empty when it is an error.
#[derive(Clone, Debug, Default, PartialEq, Eq, serde::Serialize)]
pub struct Faults(pub Vec<Fault>);

impl Faults {
    /// No fault yet.
    pub fn new() -> Self {
        Self::default()
    }
    /// Note a fault and go on.
    pub fn push(&mut self, fault: Fault) {
        self.0.push(fault);
    }
    /// Take the value, or note the fault and go on without it.
    pub fn note<T>(&mut self, result: Result<T, Fault>) -> Option<T> {
        result.map_err(|fault| self.push(fault)).ok()
    }
    /// `value` if there was no fault.
    ///
    /// # Errors
    /// All faults noted so far, if any.
    pub fn or<T>(self, value: T) -> Result<T, Faults> {
        if self.0.is_empty() { Ok(value) } else { Err(self) }
    }
}

impl From<Fault> for Faults {
    fn from(fault: Fault) -> Self {
        Faults(vec![fault])
    }
}

impl fmt::Display for Faults {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (i, fault) in self.0.iter().enumerate() {
            if i > 0 {
                f.write_str("\n\n")?;
            }
            fault.fmt(f)?;
        }
        Ok(())
    }
}

impl std::error::Error for Faults {}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_marker_stands_under_what_is_meant() {
        let text = "a = 1\nnitrate = \"28 mg/L\"\n";
        let at = text.find("\"28").unwrap();
        let place = Place::in_text("tank.toml", text, at..at + 9).named("tap.nitrate");
        let shown = Fault::new("no basis").at(place).expected("x").hint("y").to_string();
        assert_eq!(
            shown,
            "error: no basis\n  where: tank.toml:2:11, field `tap.nitrate`\n    | nitrate = \"28 mg/L\"\n    |           ^^^^^^^^^\n  expected: x\n  hint: y"
        );
    }
}
