//! Lines of a calendar: escaped, folded, ended with CR LF (`rfc_5545`, sections 3.1 and 3.3.11).

use jiff::civil::DateTime;

/// Octets of a line, the ends not counted.
const LONGEST: usize = 75;

/// Lines in the making.
#[derive(Default)]
pub(super) struct Lines {
    out: String,
}

impl Lines {
    /// A line whose value is no text of a person's: it is put as it is.
    pub fn put(&mut self, name: &str, value: &str) {
        let line = format!("{name}:{value}");
        let mut room = LONGEST;
        for c in line.chars() {
            if c.len_utf8() > room {
                // A line that goes on begins with a space, which counts.
                self.out.push_str("\r\n ");
                room = LONGEST - 1;
            }
            self.out.push(c);
            room -= c.len_utf8();
        }
        self.out.push_str("\r\n");
    }

    /// A line whose value is text.
    pub fn text(&mut self, name: &str, value: &str) {
        self.put(name, &escaped(value));
    }

    /// All of them.
    pub fn finish(self) -> String {
        self.out
    }
}

/// Text as a value: backslash, semicolon, comma and line ends are escaped, other control characters left out.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '\\' => out.push_str("\\\\"),
            ';' => out.push_str("\\;"),
            ',' => out.push_str("\\,"),
            '\n' => out.push_str("\\n"),
            c if c.is_control() => {}
            c => out.push(c),
        }
    }
    out
}

/// `20260611T083000`.
pub(super) fn stamp(at: DateTime) -> String {
    format!(
        "{:04}{:02}{:02}T{:02}{:02}{:02}",
        at.year().max(0),
        at.month(),
        at.day(),
        at.hour(),
        at.minute(),
        at.second()
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_fold_at_75_octets_and_never_inside_a_character() {
        let mut lines = Lines::default();
        lines.put("X", &"é".repeat(100));
        let out = lines.finish();
        assert!(out.ends_with("\r\n"));
        for line in out.trim_end_matches("\r\n").split("\r\n") {
            assert!(line.len() <= LONGEST, "{} octets", line.len());
        }
        assert_eq!(out.replace("\r\n ", "").trim_end(), format!("X:{}", "é".repeat(100)));
    }

    #[test]
    fn text_is_escaped() {
        assert_eq!(escaped("a\\b; c, d\ne\u{7}"), "a\\\\b\\; c\\, d\\ne");
    }
}
