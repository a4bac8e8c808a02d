//! Forms that carry a file: `multipart/form-data` (RFC 7578), whole and in memory.
//!
//! Nothing is trusted: parts and their heads are counted, a body that does not hold together is a fault in plain words.

use quantity::Fault;

/// Parts of a form at most; ours has five.
const MOST_PARTS: usize = 32;
/// Bytes of the head of a part at most.
const MOST_HEAD: usize = 8 << 10;
/// Bytes of a boundary at most (RFC 2046, 5.1.1).
const MOST_BOUNDARY: usize = 70;

/// One part of a form.
#[derive(Clone, Debug, PartialEq)]
pub struct Part<'b> {
    /// Name of the field.
    pub name: String,
    /// Name of the file without its folder, if the part is a file.
    pub file: Option<String>,
    /// Content.
    pub content: &'b [u8],
}

impl Part<'_> {
    /// The content as text.
    pub fn text(&self) -> String {
        String::from_utf8_lossy(self.content).into_owned()
    }
}

/// The boundary that a content type names; none where it is no such form.
pub fn boundary(content_type: &str) -> Option<String> {
    let (kind, rest) = content_type.split_once(';')?;
    if !kind.trim().eq_ignore_ascii_case("multipart/form-data") {
        return None;
    }
    let boundary = parameter(rest, "boundary")?;
    let fits =
        !boundary.is_empty() && boundary.len() <= MOST_BOUNDARY && boundary.bytes().all(|b| (32..127).contains(&b));
    fits.then_some(boundary)
}

/// The parts of a body.
///
/// # Errors
/// A body that ends too early, has too many parts, or a part without a name.
pub fn parts<'b>(body: &'b [u8], boundary: &str) -> Result<Vec<Part<'b>>, Fault> {
    let broken = |what: &str| {
        Fault::new(format!("the upload is broken: {what}")).hint("nothing was changed; go back and send it again")
    };
    let line = format!("--{boundary}").into_bytes();
    let between = [b"\r\n", line.as_slice()].concat();
    // The first line has no line end in front of it; what stands before it is no part.
    let start = match body.starts_with(&line) {
        true => line.len(),
        false => find(body, &between).ok_or_else(|| broken("it has no parts"))? + between.len(),
    };
    let mut rest = body.get(start..).unwrap_or_default();
    let mut all = Vec::new();
    loop {
        if rest.starts_with(b"--") {
            return Ok(all);
        }
        // Blanks may follow a boundary.
        let end = find(rest, b"\r\n").ok_or_else(|| broken("it ends too early"))?;
        if !rest.get(..end).unwrap_or_default().iter().all(|b| *b == b' ' || *b == b'\t') {
            return Err(broken("a line between its parts is not what was announced"));
        }
        rest = rest.get(end + 2..).unwrap_or_default();
        let end = find(rest, &between).ok_or_else(|| broken("its end is missing"))?;
        all.push(part(rest.get(..end).unwrap_or_default()).ok_or_else(|| broken("one of its parts has no name"))?);
        if all.len() > MOST_PARTS {
            return Err(broken("it has too many parts"));
        }
        rest = rest.get(end + between.len()..).unwrap_or_default();
    }
}

fn part(whole: &[u8]) -> Option<Part<'_>> {
    // A part without any head begins with an empty line.
    let (head, content) = match whole.strip_prefix(b"\r\n") {
        Some(content) => (&[][..], content),
        None => {
            let end = find(whole.get(..whole.len().min(MOST_HEAD)).unwrap_or_default(), b"\r\n\r\n")?;
            (whole.get(..end)?, whole.get(end + 4..)?)
        }
    };
    let head = String::from_utf8_lossy(head);
    let disposition = head.split("\r\n").find_map(|line| {
        let (name, value) = line.split_once(':')?;
        name.trim().eq_ignore_ascii_case("content-disposition").then_some(value)
    })?;
    let (kind, rest) = disposition.split_once(';')?;
    if !kind.trim().eq_ignore_ascii_case("form-data") {
        return None;
    }
    let name = parameter(rest, "name")?;
    // Some browsers send the whole path.
    let file = parameter(rest, "filename").map(|file| file.rsplit(['/', '\\']).next().unwrap_or_default().to_owned());
    Some(Part { name, file, content })
}

/// A parameter behind semicolons, bare or in quotes; browsers write `%22` for a quote in a name.
fn parameter(text: &str, wanted: &str) -> Option<String> {
    let mut rest = text;
    loop {
        let (name, after) = rest.split_once('=')?;
        let name = name.trim().trim_start_matches(';').trim();
        let (value, next) = match after.trim_start().strip_prefix('"') {
            Some(quoted) => {
                let end = closing(quoted)?;
                (quoted.get(..end)?.replace("\\\"", "\"").replace("%22", "\""), quoted.get(end + 1..)?)
            }
            None => {
                let end = after.find(';').unwrap_or(after.len());
                (after.get(..end)?.trim().to_owned(), after.get(end..)?)
            }
        };
        if name.eq_ignore_ascii_case(wanted) {
            return Some(value);
        }
        rest = next.trim_start().trim_start_matches(';');
    }
}

/// Place of the quote that closes a text; a backslash in front of a quote keeps it open.
fn closing(text: &str) -> Option<usize> {
    let mut escaped = false;
    for (at, byte) in text.bytes().enumerate() {
        match byte {
            b'"' if !escaped => return Some(at),
            b'\\' => escaped = !escaped,
            _ => escaped = false,
        }
    }
    None
}

/// Where a needle begins.
fn find(body: &[u8], needle: &[u8]) -> Option<usize> {
    let first = *needle.first()?;
    let mut from = 0;
    while let Some(at) = body.get(from..)?.iter().position(|b| *b == first) {
        let start = from + at;
        if body.get(start..)?.starts_with(needle) {
            return Some(start);
        }
        from = start + 1;
    }
    None
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    const BODY: &str = "--xyz\r\nContent-Disposition: form-data; name=\"by\"\r\n\r\nworks\r\n--xyz\r\n\
        Content-Disposition: form-data; name=\"report\"; filename=\"C:\\reports\\zone 12.csv\"\r\nContent-Type: text/csv\r\n\r\n\
        Nitrate;28\r\n--xy\r\n\r\n--xyz--\r\n";

    /// RFC 7578, 4.2 and 5.1; RFC 2046, 5.1.1: the boundary is a whole line's beginning, content keeps its line ends.
    #[test]
    fn a_form_is_taken_apart() {
        let parts = parts(BODY.as_bytes(), "xyz").unwrap_or_default();
        let seen: Vec<_> = parts.iter().map(|p| (p.name.as_str(), p.file.as_deref(), p.text())).collect();
        assert_eq!(
            seen,
            [("by", None, "works".to_owned()), ("report", Some("zone 12.csv"), "Nitrate;28\r\n--xy\r\n".to_owned())]
        );
    }

    #[test]
    fn a_boundary_is_found_bare_or_in_quotes() {
        assert_eq!(boundary("multipart/form-data; boundary=abc"), Some("abc".to_owned()));
        assert_eq!(boundary("Multipart/Form-Data; charset=utf-8; boundary=\"a b;c\""), Some("a b;c".to_owned()));
        let long = format!("multipart/form-data; boundary={}", "a".repeat(71));
        for wrong in [
            "multipart/form-data",
            "multipart/mixed; boundary=a",
            "text/plain; boundary=a",
            "multipart/form-data; boundary=",
            &long,
        ] {
            assert_eq!(boundary(wrong), None, "{wrong}");
        }
    }

    #[test]
    fn a_quote_in_a_name_ends_nothing() {
        let body =
            "--b\r\nContent-Disposition: form-data; name=\"re\\\"port\"; filename=\"a%22b.csv\"\r\n\r\nx\r\n--b--";
        let found = parts(body.as_bytes(), "b").unwrap_or_default();
        assert_eq!((found[0].name.as_str(), found[0].file.as_deref()), ("re\"port", Some("a\"b.csv")));
    }

    #[test]
    fn what_does_not_hold_together_is_a_fault() {
        let many = "--b\r\nContent-Disposition: form-data; name=\"a\"\r\n\r\n\r\n".repeat(40) + "--b--";
        let head =
            format!("--b\r\nX: {}\r\nContent-Disposition: form-data; name=\"a\"\r\n\r\n\r\n--b--", "y".repeat(9000));
        for wrong in [
            "",
            "no parts",
            "--b",
            "--b\r\n",
            "--b\r\nContent-Disposition: form-data; name=\"a\"\r\n\r\nno end",
            "--b\r\nContent-Disposition: form-data\r\n\r\nx\r\n--b--",
            "--b\r\nContent-Disposition: attachment; name=\"a\"\r\n\r\nx\r\n--b--",
            "--b\r\n\r\nno head\r\n--b--",
            "--bad\r\nContent-Disposition: form-data; name=\"a\"\r\n\r\nx\r\n--bad--",
            "--b\r\nContent-Disposition: form-data; name=\"a\r\n\r\nx\r\n--b--",
            &many,
            &head,
        ] {
            assert!(parts(wrong.as_bytes(), "b").is_err(), "{wrong}");
        }
        assert_eq!(parts(b"--b--", "b"), Ok(Vec::new()));
    }

    proptest! {
        /// Any bytes, any boundary: an answer, no panic.
        #[test]
        fn any_bytes_are_answered(body in proptest::collection::vec(any::<u8>(), 0..400), boundary in "[a-z]{1,5}") {
            let _ = parts(&body, &boundary);
        }

        /// A form cut anywhere, one byte changed: an answer, and never a part longer than the body.
        #[test]
        fn a_damaged_form_is_answered(cut in 0..BODY.len(), at in 0..BODY.len(), byte in any::<u8>()) {
            let mut body = BODY.as_bytes().to_vec();
            body[at] = byte;
            body.truncate(cut);
            for part in parts(&body, "xyz").unwrap_or_default() {
                prop_assert!(part.content.len() <= body.len());
            }
        }

        /// What is put in comes out, whatever bytes it has, so long as it holds no line of the boundary.
        #[test]
        fn content_comes_out_as_it_went_in(content in proptest::collection::vec(any::<u8>(), 0..300)) {
            let mut body = b"--q9\r\nContent-Disposition: form-data; name=\"f\"; filename=\"f\"\r\n\r\n".to_vec();
            body.extend_from_slice(&content);
            body.extend_from_slice(b"\r\n--q9--\r\n");
            prop_assume!(find(&content, b"\r\n--q9").is_none());
            let found = parts(&body, "q9");
            prop_assert_eq!(found.map(|parts| parts.first().map(|p| p.content.to_vec())), Ok(Some(content)));
        }
    }
}
