//! Contrast of every text colour on every ground, by day, by night and on paper, by the formula of WCAG 2.2 (W3C 2024, "contrast ratio"
//! and "relative luminance"): 4.5 for text (success criterion 1.4.3), 3 for the focus ring (1.4.11).

use std::collections::BTreeMap;

const TOKENS: &str = include_str!("../assets/look/tokens.css");
const PRINT: &str = include_str!("../assets/look/print.css");

/// Red, green, blue, each 0 to 255, and how much it covers.
type Colour = ([f64; 3], f64);

fn colour(text: &str) -> Option<Colour> {
    if let Some(hex) = text.strip_prefix('#') {
        let hex = if hex.len() == 3 { hex.chars().flat_map(|digit| [digit; 2]).collect() } else { hex.to_owned() };
        let of = |at: usize| u8::from_str_radix(hex.get(at..at + 2)?, 16).ok().map(f64::from);
        return Some(([of(0)?, of(2)?, of(4)?], 1.0));
    }
    let parts = text.strip_prefix("rgb(")?.strip_suffix(')')?.replace('/', " ");
    let parts: Vec<f64> = parts.split_whitespace().filter_map(|part| part.parse().ok()).collect();
    Some(([*parts.first()?, *parts.get(1)?, *parts.get(2)?], *parts.get(3)?))
}

/// The colour tokens of the block that begins behind `from`.
fn tokens(sheet: &str, from: &str) -> BTreeMap<String, Colour> {
    let block = sheet.split_once(from).unwrap().1.split_once('}').unwrap().0;
    let lines = block.split(';').filter_map(|line| line.rsplit_once("--")?.1.split_once(':'));
    lines.filter_map(|(name, value)| Some((name.to_owned(), colour(value.trim())?))).collect()
}

fn over(top: Colour, ground: Colour) -> Colour {
    let mix = |i: usize| top.1 * top.0[i] + (1.0 - top.1) * ground.0[i];
    ([mix(0), mix(1), mix(2)], 1.0)
}

fn luminance((rgb, _): Colour) -> f64 {
    let linear = |c: f64| {
        let c = c / 255.0;
        if c <= 0.04045 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) }
    };
    0.2126 * linear(rgb[0]) + 0.7152 * linear(rgb[1]) + 0.0722 * linear(rgb[2])
}

fn contrast(a: Colour, b: Colour) -> f64 {
    let (a, b) = (luminance(a), luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

#[test]
fn the_formula_gives_the_ratio_that_the_standard_names() {
    let (black, white) = (([0.0; 3], 1.0), ([255.0; 3], 1.0));
    assert!((contrast(black, white) - 21.0).abs() < 1e-9, "WCAG: 21 is the most there is");
}

#[test]
fn every_text_is_read_on_every_ground_by_day_by_night_and_on_paper() {
    let looks = [
        ("day", TOKENS, ":root {"),
        ("night", TOKENS, "(prefers-color-scheme: dark) {"),
        ("paper", PRINT, "@media print {\n  :root {"),
    ];
    for (time, sheet, from) in looks {
        let token = tokens(sheet, from);
        assert_eq!(token.len(), 7, "{time}: {token:?}");
        let (paper, leaf) = (token["paper"], token["leaf"]);
        for (ground, on) in [("paper", paper), ("leaf", leaf), ("wash", over(token["wash"], paper))] {
            for ink in ["ink", "ink-soft", "clay"] {
                let ratio = contrast(token[ink], on);
                assert!(ratio >= 4.5, "{time}: {ink} on {ground} {ratio:.2}");
            }
        }
        // What is drawn in ink on either ground, and the ring of the focus (1.4.11: 3 for what is no text).
        assert!(contrast(token["ink"], paper) >= 3.0 && contrast(token["ink"], leaf) >= 3.0, "{time}: the focus ring");
        assert!(contrast(token["paper"], token["ink"]) >= 4.5, "{time}: Help now");
    }
}

#[test]
fn who_asks_for_more_contrast_has_no_thinned_ink() {
    let block = TOKENS.split_once("(prefers-contrast: more) {").unwrap().1;
    assert!(block.contains("--ink-soft: var(--ink)") && block.contains("--hair: var(--ink)"));
    // 7 for text (1.4.6, enhanced) in ink on each ground.
    for from in [":root {", "(prefers-color-scheme: dark) {"] {
        let token = tokens(TOKENS, from);
        for ground in [token["paper"], token["leaf"], over(token["wash"], token["paper"])] {
            assert!(contrast(token["ink"], ground) >= 7.0, "{from}");
        }
    }
}
