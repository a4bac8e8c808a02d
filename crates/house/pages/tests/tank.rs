//! The letter Tank: sound, to scale, honest about what is assumed, silent about what a floor bears.

use crate::letters;

use crate::letters::{HOUSEHOLD, QUESTION, book, drawings_speak, get, is_sound, no_forbidden_words, post, words};

const PATH: &str = "/tank/1/tank";

/// The numbers in a path's `d`.
fn numbers(d: &str) -> Vec<f64> {
    d.split(|c: char| !(c.is_ascii_digit() || c == '.' || c == '-')).filter_map(|part| part.parse().ok()).collect()
}

/// The `d` of the first path of a class, in the n-th drawing.
fn path(html: &str, drawing: usize, class: &str) -> Vec<f64> {
    let svg = html.split("<svg").nth(drawing + 1).unwrap().split("</svg>").next().unwrap();
    let at = svg.split(&format!("class=\"{class}\" d=\"")).nth(1).unwrap_or_else(|| panic!("no {class}"));
    numbers(at.split('"').next().unwrap())
}

#[test]
fn the_page_is_sound_and_speaks() {
    for text in [HOUSEHOLD, QUESTION, ""] {
        let html = get(&mut book(text), PATH);
        is_sound(&html);
        drawings_speak(&html, 2);
        no_forbidden_words(&words(&html));
    }
}

#[test]
fn the_drawing_is_to_scale_in_millimetres() {
    // The file says 76 x 36 x 40 cm inside, 8 mm of glass, 3 cm of ground in front and 7 behind; 3 cm below the rim is
    // what is assumed. One unit is one millimetre, the rim at 0, the floor at 400.
    let html = get(&mut book(HOUSEHOLD), PATH);
    assert_eq!(path(&html, 0, "water"), [0.0, 30.0, 760.0]);
    assert_eq!(path(&html, 1, "water"), [0.0, 30.0, 360.0]);
    // Along the middle the plane from 30 to 70 mm is cut at 50; across it rises from 30 to 70.
    assert_eq!(path(&html, 0, "bed"), [0.0, 350.0, 760.0, 350.0]);
    assert_eq!(path(&html, 1, "bed"), [0.0, 370.0, 360.0, 330.0]);
    assert_eq!(path(&html, 0, "behind"), [0.0, 330.0, 760.0]);
    // Glass: from -8 to 768, down to 408.
    let glass = path(&html, 0, "glasswall");
    assert_eq!(&glass[..4], &[-8.0, 0.0, 408.0, 768.0]);
    // The scale bar is 200 mm long and says so.
    let bar = path(&html, 0, "bar");
    assert!((bar[3] - bar[0] - 200.0).abs() < 1e-9, "{bar:?}");
    assert!(words(&html).contains("20 cm"));
    // Both drawings have the same paper, so the same scale.
    let paper = |n: usize| html.split("viewBox=\"").nth(n).unwrap().split('"').next().unwrap().to_owned();
    assert_eq!(paper(1), paper(2));
}

#[test]
fn a_tick_of_the_gauge_is_a_centimetre() {
    let html = get(&mut book(HOUSEHOLD), PATH);
    let svg = html.split("<svg").nth(1).unwrap();
    let gauge = svg.split("<path class=\"fine\" d=\"").nth(1).unwrap().split('"').next().unwrap();
    let heights: Vec<f64> = gauge.split('M').skip(1).map(|tick| numbers(tick)[1]).collect();
    assert_eq!(heights.len(), 41, "0 to 40 cm");
    assert!(heights.windows(2).all(|pair| (pair[0] - pair[1] - 10.0).abs() < 1e-9));
    assert_eq!(heights[0], 400.0);
}

#[test]
fn litres_weight_and_the_question() {
    let html = get(&mut book(HOUSEHOLD), PATH);
    let text = words(&html);
    // 76 x 36 x 40 cm = 109 L.
    assert!(text.contains("not the 109 L that its glass would"), "{text:.400}");
    assert!(text.contains("kPa") && text.contains("ask the landlord or a structural engineer"));
    for bold in ["floor holds", "floor bears it", "will hold", "strong enough", "is fine"] {
        assert!(!text.contains(bold), "{bold}");
    }
    assert!(text.contains("Plugs of everything in or over the water out, with dry hands"));
}

#[test]
fn what_was_assumed_can_be_written_in() {
    let mut book = book(HOUSEHOLD);
    let html = get(&mut book, PATH);
    assert!(html.contains("name=\"glass.fill_below_rim\"") && html.contains("class=\"blank practice\""));
    let html =
        post(&mut book, PATH, &[("glass.fill_below_rim", "5"), ("light.energy", "low"), ("animals.snails", "6")]);
    is_sound(&html);
    // 5 cm below the rim of 40: the waterline stands at 350 above the floor, 50 below the rim.
    assert_eq!(path(&html, 0, "water")[1], 50.0, "the waterline moved");
    let text = words(&html);
    assert!(text.contains("(was 3; undo"), "{text:.900}");
    let setup = letters::setup(&book);
    assert_eq!(setup.written("glass.fill_below_rim").as_deref(), Some("5 cm"));
    assert_eq!(setup.written("light.energy").as_deref(), Some("low"));
    assert_eq!(setup.written("animals.snails").as_deref(), Some("6"));
}

#[test]
fn a_glass_that_nobody_measured_is_no_headline() {
    let html = get(&mut book(""), PATH);
    let head = words(html.split("<h1").nth(1).unwrap().split("</h1>").next().unwrap());
    assert!(head.contains("Nobody has told me the size of your glass"), "{head}");
    // What to do comes before the drawing, and is gone once it was done.
    let text = words(&html);
    assert!(text.find("Measure the glass").unwrap() < text.find("In section").unwrap());
    assert!(!words(&get(&mut book(HOUSEHOLD), PATH)).contains("First of all"));
    assert!(text.contains("of water, or anything up to"), "{text:.2000}");
}

#[test]
fn an_untouched_letter_changes_nothing() {
    let mut book = book(HOUSEHOLD);
    let html = get(&mut book, PATH);
    let fields: Vec<(String, String)> = letters::tags(&html)
        .iter()
        .filter(|tag| tag.name == "input" && tag.get("class").is_some_and(|class| class.starts_with("blank")))
        .map(|tag| (tag.get("name").unwrap().to_owned(), tag.get("value").unwrap().to_owned()))
        .collect();
    assert!(fields.len() > 15);
    let fields: Vec<(&str, &str)> = fields.iter().map(|(name, value)| (name.as_str(), value.as_str())).collect();
    post(&mut book, PATH, &fields);
    assert_eq!(letters::revision(&book), 1);
}

/// Area of each closed outline of a class in the n-th drawing, mm² (Gauss's formula).
fn areas(html: &str, drawing: usize, class: &str) -> Vec<f64> {
    let svg = html.split("<svg").nth(drawing + 1).unwrap().split("</svg>").next().unwrap();
    let mark = format!("class=\"{class}\" d=\"");
    let outlines = svg.split(&mark).skip(1).map(|at| numbers(at.split('"').next().unwrap()));
    let area = |points: Vec<f64>| {
        let points: Vec<&[f64]> = points.chunks(2).collect();
        let next = points.iter().cycle().skip(1);
        points.iter().zip(next).map(|(a, b)| a[0] * b[1] - b[0] * a[1]).sum::<f64>().abs() / 2.0
    };
    outlines.map(area).collect()
}

#[test]
fn stones_and_wood_are_drawn_as_large_as_they_are() {
    let html = get(&mut book(HOUSEHOLD), PATH);
    // 4 kg ÷ 2.7 kg/L = 1.4815 L in half balls of a half, three and two tenths: r = (3 V ÷ 2π)^(1/3) = 70.7, 59.7 and
    // 52.1 mm, each cut in a half disc: 7860, 5590 and 4270 mm².
    for drawing in [0, 1] {
        let mut stones = areas(&html, drawing, "stone");
        stones.sort_by(|a, b| b.total_cmp(a));
        for (area, by_hand) in stones.iter().zip([7860.0, 5590.0, 4270.0]) {
            assert!((area - by_hand).abs() < 0.005 * by_hand, "{stones:?}");
        }
        assert_eq!((stones.len(), areas(&html, drawing, "wood").len()), (3, 3));
    }
    let text = words(&html);
    assert!(text.contains("1.48 L of stones and 909 mL of wood are drawn as large as they are"), "{text:.900}");
    assert!(text.contains("Plants are hatching, not your own"));
    // Nobody named any: none is drawn.
    assert!(areas(&get(&mut book(""), PATH), 0, "stone").is_empty());
}

#[test]
fn outer_sizes_are_changed_as_outer_sizes() {
    let mut book = book(
        "[glass]\nouter_length = \"77.6 cm\"\nouter_width = \"37.6 cm\"\nouter_height = \"40.8 cm\"\nthickness = \"8 mm\"\n",
    );
    let html = get(&mut book, PATH);
    let letter = html.split("What else you can tell me").next().unwrap_or_default();
    assert!(letter.contains("name=\"glass.outer_length\"") && !letter.contains("name=\"glass.inner_length\""));
    // 77.6 − 2 × 0.8, 37.6 − 2 × 0.8, 40.8 − 0.8.
    assert!(words(&html).contains("so inside 76 cm by 36 cm by 40 cm"), "{}", words(&html));
    let html = post(&mut book, PATH, &[("glass.outer_length", "81.6")]);
    assert!(words(&html).contains("so inside 80 cm by 36 cm by 40 cm"), "{}", words(&html));
    let setup = letters::setup(&book);
    assert_eq!(setup.written("glass.outer_length").as_deref(), Some("81.6 cm"));
    assert_eq!(setup.written("glass.inner_length"), None);
}

#[test]
fn ground_stones_and_wood_can_be_changed_whatever_was_told() {
    let mut book = book(HOUSEHOLD);
    let html = post(&mut book, PATH, &[("ground.kind", "lava"), ("hardscape.rock", "2 L"), ("hardscape.wood", "2")]);
    is_sound(&html);
    let setup = letters::setup(&book);
    let told = ["ground.kind", "hardscape.rock", "hardscape.wood"].map(|field| setup.written(field));
    assert_eq!(told.map(Option::unwrap), ["lava", "2 L", "2 kg"]);
    // Stones told in litres stay in litres.
    let html = post(&mut book, PATH, &[("hardscape.rock", "3")]);
    assert_eq!(letters::setup(&book).written("hardscape.rock").as_deref(), Some("3 L"));
    assert!(words(&html).contains("crushed lava or pumice"));
}

/// Ground deeper than 7 cm is asked about: common practice, data/defaults.toml.
#[test]
fn deep_ground_is_asked_about() {
    let mut shelf = book(HOUSEHOLD);
    let usual = words(&get(&mut shelf, PATH));
    assert!(usual.contains("usual are 3 cm to 7 cm, as deeper ground may rot") && !usual.contains("Really"), "{usual}");
    let deep = words(&post(&mut shelf, PATH, &[("ground.depth_back", "9")]));
    assert!(deep.contains("deeper ground may rot (common practice). Really 9 cm?"), "{deep}");
}
