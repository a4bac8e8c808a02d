//! How a sheet shows a number: decimals, signs in quotes, dates.

use std::rc::Rc;

use crate::recent::kept;

/// A cell as it is shown.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Shown {
    pub text: Rc<str>,
    /// A number written with a decimal point.
    pub typed: bool,
    /// The day that it holds, `YYYY-MM-DD`.
    pub day: Option<String>,
}

impl Shown {
    pub(super) fn words(text: impl AsRef<str>) -> Shown {
        Shown { text: kept(text.as_ref()), ..Shown::default() }
    }

    pub(super) fn number(text: impl AsRef<str>) -> Shown {
        Shown { text: kept(text.as_ref()), typed: true, day: None }
    }
}

/// A number as its format shows it.
///
/// Formats are of ECMA-376, part 1, 18.8.30: sections parted by semicolons, quoted text, `0`, `#` and `?` for digits, a
/// comma behind them for thousands, `%`; letters of dates.
pub(super) fn shown(value: f64, format: &str) -> Shown {
    if format.is_empty() || format.eq_ignore_ascii_case("general") || format == "@" {
        return Shown::number(plain(value));
    }
    let sections: Vec<String> = sections(format);
    // A section of its own for what is below zero carries its own sign.
    let (section, value) = match (sections.len(), value) {
        (n, v) if n > 1 && v < 0.0 => (sections.get(1), -v),
        (n, v) if n > 2 && v == 0.0 => (sections.get(2), v),
        (_, v) => (sections.first(), v),
    };
    let Some(parsed) = section.map(|s| Parsed::of(s)) else { return Shown::number(plain(value)) };
    if parsed.date {
        let [year, month, day] = civil(value);
        let iso = format!("{year:04}-{month:02}-{day:02}");
        let text = section.and_then(|s| date_shown(s, [year, month, day])).unwrap_or_else(|| iso.clone());
        return Shown { day: Some(iso), ..Shown::words(text) };
    }
    if !parsed.digits {
        return Shown::words(parsed.before);
    }
    let scaled = if parsed.percent { value * 100.0 } else { value };
    let decimals = parsed.decimals;
    let number = match parsed.optional {
        true => plain(format!("{scaled:.decimals$}").parse().unwrap_or(scaled)),
        false => unmistakable(format!("{scaled:.decimals$}")),
    };
    let bare = parsed.before.trim().is_empty() && parsed.after.trim().is_empty() && !parsed.percent;
    let percent = if parsed.percent { " %" } else { "" };
    Shown { typed: bare, ..Shown::words(format!("{}{number}{percent}{}", parsed.before, parsed.after)) }
}

/// A date as its format shows it; none where a letter of it is not understood.
fn date_shown(section: &str, [year, month, day]: [i64; 3]) -> Option<String> {
    let mut out = String::new();
    let chars: Vec<char> = section.chars().collect();
    // [$-407]: the language of the months.
    let code = section.split_once("[$").and_then(|(_, rest)| rest.split_once(']')).map_or("", |(code, _)| code);
    let named = |letters: usize| month_name(month, code.rsplit('-').next().unwrap_or(""), letters);
    let mut at = 0;
    while let Some(&c) = chars.get(at) {
        let run = chars.iter().skip(at).take_while(|d| d.eq_ignore_ascii_case(&c)).count();
        let (text, taken) = match c.to_ascii_lowercase() {
            'y' if run > 2 => (format!("{year:04}"), run),
            'y' => (format!("{:02}", year.rem_euclid(100)), run),
            'm' if run > 2 => (named(run)?, run),
            'm' => (if run == 2 { format!("{month:02}") } else { month.to_string() }, run),
            'd' if run > 2 => return None,
            'd' => (if run == 2 { format!("{day:02}") } else { day.to_string() }, run),
            '.' | '-' | '/' | ' ' | ',' => (c.to_string(), 1),
            '\\' => (chars.get(at + 1)?.to_string(), 2),
            '"' => {
                let quoted: String = chars.iter().skip(at + 1).take_while(|c| **c != '"').collect();
                let taken = quoted.chars().count() + 2;
                (quoted, taken)
            }
            '[' => (String::new(), chars.iter().skip(at).take_while(|c| **c != ']').count() + 1),
            '@' | ';' => break,
            // The time of the day says nothing of the water.
            'h' => break,
            _ => return None,
        };
        out.push_str(&text);
        at += taken;
    }
    Some(out.trim().to_owned()).filter(|t| !t.is_empty())
}

/// The name of a month, or its first three letters, in the language of a code of ECMA-376 (English where none is given).
fn month_name(month: i64, code: &str, letters: usize) -> Option<String> {
    let names = knowledge::book().headings.months.get(usize::try_from(month - 1).ok()?)?;
    let of = match code.to_ascii_uppercase().trim_start_matches('0') {
        "407" | "C07" | "807" => &names.de,
        "40C" | "80C" | "100C" => &names.fr,
        "413" | "813" => &names.nl,
        "40A" | "C0A" | "80A" => &names.es,
        _ => &names.en,
    };
    let name = of.first()?;
    Some(if letters == 3 { name.chars().take(3).collect() } else { name.clone() })
}

/// The shortest digits that give the number back, to what a sheet keeps.
fn plain(value: f64) -> String {
    unmistakable(format!("{}", quantity::canonical(value)))
}

/// Decimals that nobody can take for thousands: three of them get a zero behind.
pub(super) fn unmistakable(text: String) -> String {
    match text.split_once('.') {
        Some((_, part)) if part.len() == 3 => format!("{text}0"),
        _ => text,
    }
}

/// The sections of a format; a semicolon in quotes parts nothing.
fn sections(format: &str) -> Vec<String> {
    let mut out = vec![String::new()];
    let mut quoted = false;
    for c in format.chars() {
        quoted ^= c == '"';
        match out.last_mut() {
            Some(last) if c != ';' || quoted => last.push(c),
            _ => out.push(String::new()),
        }
    }
    out
}

/// One section of a format.
#[derive(Default)]
struct Parsed {
    before: String,
    after: String,
    digits: bool,
    decimals: usize,
    /// Some decimals are shown only where they are not zero.
    optional: bool,
    percent: bool,
    date: bool,
}

impl Parsed {
    fn of(section: &str) -> Parsed {
        let mut out = Parsed::default();
        let mut chars = section.chars().peekable();
        let mut behind_point = false;
        while let Some(c) = chars.next() {
            match c {
                '"' => {
                    let quoted: String = chars.by_ref().take_while(|c| *c != '"').collect();
                    out.text(&quoted);
                }
                '\\' => {
                    if let Some(c) = chars.next() {
                        out.text(&c.to_string());
                    }
                }
                // A space as wide as the next character; a fill.
                '_' | '*' => {
                    chars.next();
                }
                '[' => {
                    let inside: String = chars.by_ref().take_while(|c| *c != ']').collect();
                    if let Some(symbol) = inside.strip_prefix('$') {
                        out.text(symbol.split('-').next().unwrap_or(""));
                    }
                }
                '0' | '#' | '?' => {
                    out.digits = true;
                    out.decimals += usize::from(behind_point);
                    out.optional |= behind_point && c != '0';
                }
                '.' => behind_point = true,
                ',' => {}
                '%' => out.percent = true,
                'y' | 'Y' | 'd' | 'D' | 'm' | 'M' | 'h' | 'H' | 's' | 'S' if !out.digits => out.date = true,
                '@' | 'G' => {}
                c => out.text(&c.to_string()),
            }
        }
        out
    }

    fn text(&mut self, text: &str) {
        if self.digits { self.after.push_str(text) } else { self.before.push_str(text) }
    }
}

/// Year, month and day of a serial number: days since 30 December 1899.
fn civil(serial: f64) -> [i64; 3] {
    // Civil date from a count of days since 1 March of year 0, in eras of 400 years (proleptic Gregorian calendar).
    let z = serial.clamp(0.0, 3e6).floor() as i64 - 25_569 + 719_468;
    let era = z.div_euclid(146_097);
    let of_era = z.rem_euclid(146_097);
    let year_of_era = (of_era - of_era / 1460 + of_era / 36_524 - of_era / 146_096) / 365;
    let of_year = of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    let shifted = (5 * of_year + 2) / 153;
    let day = of_year - (153 * shifted + 2) / 5 + 1;
    let month = if shifted < 10 { shifted + 3 } else { shifted - 9 };
    let year = year_of_era + era * 400 + i64::from(month <= 2);
    [year, month, day]
}

/// The built-in formats that matter (ECMA-376, part 1, 18.8.30): by their number.
pub(super) fn built_in(id: u32) -> &'static str {
    match id {
        1 => "0",
        2 => "0.00",
        3 => "#,##0",
        4 => "#,##0.00",
        9 => "0%",
        10 => "0.00%",
        11 => "General",
        14..=22 | 27..=36 | 45..=47 | 50..=58 => "yyyy-mm-dd",
        37 | 38 => "#,##0",
        39 | 40 => "#,##0.00",
        _ => "General",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn as_shown() {
        for (value, format, text) in [
            (0.0449, "0.00", "0.04"),
            (412.4, "0", "412"),
            (7.0, "0.00", "7.00"),
            (1234.5678, "#,##0.0", "1234.6"),
            (0.05, "\"<\"0.00", "<0.05"),
            (0.05, "\\<0.00", "<0.05"),
            (12.5, "0.0\" mg/l\"", "12.5 mg/l"),
            (1.2345, "0.000", "1.2340"),
            (0.25, "0%", "25 %"),
            (45_000.0, "dd.mm.yyyy", "15.03.2023"),
            (45_000.0, "[$-407]d. mmmm yyyy", "15. März 2023"),
            (45_000.0, "mmm-yy", "Mar-23"),
            (45_000.0, "dd/mm/yyyy\\ hh:mm", "15/03/2023"),
            (0.0, "0.0;-0.0;\"n.n.\"", "n.n."),
            (-3.0, "0.0;[Red]-0.0", "-3.0"),
            (2.5, "0.##", "2.5"),
            (51.5, "General", "51.5"),
        ] {
            assert_eq!(&*shown(value, format).text, text, "{value} {format}");
        }
    }
}
