//! Own small drawings of what a keeper sees: one ink, a few strokes each, on a sheet of 72 by 48. They stand beside the words
//! that say the same, so a screen reader passes them by.

use maud::{Markup, html};

/// A stroke: its class (`line`, `bold`, `dash`, `fill`, `tone`) and its path.
type Stroke = (&'static str, &'static str);

const LEAF: Stroke = ("line", "M5 24C18 7 50 7 67 24C50 41 18 41 5 24Z");
const RIB: Stroke = ("line", "M5 24H67");
const VEINS: Stroke = ("line", "M20 24l8-8M20 24l8 8M33 24l8-9M33 24l8 9M46 24l7-7M46 24l7 7");
const PANE: Stroke = ("line", "M4 4H68V44H4Z");
const STEM: Stroke = ("line", "M36 46V6");
const GROUND: Stroke = ("line", "M2 42H70");

/// The strokes of each sight, by its key.
const SIGHTS: &[(&str, &[Stroke])] = &[
    (
        "brown_film",
        &[
            PANE,
            ("tone", "M4 10C20 6 30 14 44 9S62 8 68 12V44H4Z"),
            ("paper", "M16 40C22 28 34 20 56 16L60 24C42 28 32 34 28 42Z"),
            ("line", "M16 40C22 28 34 20 56 16M28 42C32 34 42 28 60 24"),
        ],
    ),
    ("green_dots", &[PANE, ("fill", DOTS)]),
    (
        "green_dust",
        &[PANE, ("dots", "M10 12H62M10 18H62M10 24H62M10 30H62M10 36H62M13 15H62M13 21H62M13 27H62M13 33H62")],
    ),
    ("green_water", &[PANE, ("tone", "M4 9H68V44H4Z"), ("line", "M4 9H68M12 16H60M9 23H63M12 30H60M9 37H63")]),
    (
        "threads",
        &[
            ("bold", "M60 46L12 4"),
            (
                "line",
                "M8 8C18 4 14 16 24 12S22 26 34 20S30 34 42 28S40 42 52 36S52 46 60 44M22 2C16 10 28 10 24 18S38 18 32 28S48 26 42 36S56 34 52 44M4 18C12 14 12 26 20 22S20 36 30 32S28 46 38 42M34 4C28 10 40 12 36 20S50 20 46 30S62 28 58 38",
            ),
        ],
    ),
    (
        "fuzz",
        &[
            LEAF,
            RIB,
            (
                "line",
                "M12 17l-2-5M18 13l-2-5M24 11l-1-5M30 9v-5M36 9v-5M42 9l1-5M48 11l2-5M54 13l2-5M60 17l3-4M12 31l-2 5M18 35l-2 5M24 37l-1 5M30 39v5M36 39v5M42 39l1 5M48 37l2 5M54 35l2 5M60 31l3 4",
            ),
        ],
    ),
    (
        "black_tufts",
        &[
            LEAF,
            RIB,
            (
                "bold",
                "M20 12l-6-9M20 12l-2-10M20 12l3-9M20 12l-9-5M44 10l-5-8M44 10l1-9M44 10l6-7M44 10l9-3M60 18l8-8M60 18l9-4M60 18l4-10M32 39l-5 8M32 39l0 8M32 39l6 7",
            ),
        ],
    ),
    (
        "grey_branches",
        &[
            LEAF,
            (
                "bold",
                "M28 10C28 4 20 6 16 1M24 6L26 0M28 10C32 4 40 6 44 1M37 5L36 0M52 13C56 8 62 10 68 4M60 9L59 3M40 39C42 44 50 42 54 47M46 43L44 47",
            ),
        ],
    ),
    (
        "slime_sheet",
        &[
            GROUND,
            ("tone", "M8 42C10 32 26 34 32 30S50 26 60 34L64 42Z"),
            ("bold", "M8 42C10 32 26 34 32 30S48 24 56 30C62 34 66 26 62 22"),
        ],
    ),
    (
        "surface_film",
        &[
            ("line", "M4 14H68M4 14V46M68 14V46"),
            ("bold", "M4 14H20M26 14H44M50 14H68"),
            ("line", "M8 10l10-3l6 3M30 10l8-3l9 3M53 10l6-2l6 2"),
        ],
    ),
    (
        "white_cloud",
        &[
            PANE,
            (
                "dash",
                "M14 30a7 7 0 0 1 4-13a10 10 0 0 1 18-3a8 8 0 0 1 14 4a7 7 0 0 1 6 12a8 8 0 0 1-12 5a12 12 0 0 1-18 1a9 9 0 0 1-12-6Z",
            ),
        ],
    ),
    (
        "wood_fluff",
        &[
            ("bold", "M4 40C20 38 30 26 46 24S62 14 68 6M40 26C46 34 56 32 62 38"),
            ("line", "M14 34a4 4 0 0 1 6-4a4 4 0 0 1 7-3a4 4 0 0 1 7-3a4 4 0 0 1 7-2a4 4 0 0 1 7-1a4 4 0 0 1 6-4"),
        ],
    ),
    (
        "old_yellow",
        &[
            STEM,
            TOP,
            HATCH_TOP,
            ("dash", "M36 30C26 24 14 26 8 32C18 38 28 36 36 30ZM36 36C46 30 58 32 64 38C54 44 44 42 36 36Z"),
        ],
    ),
    (
        "old_dark",
        &[
            STEM,
            (
                "fill",
                "M36 14C31 10 26 11 24 14C28 17 32 17 36 14ZM36 18C41 14 46 15 48 18C44 21 40 21 36 18ZM36 28C29 23 22 25 19 29C25 33 31 33 36 28ZM36 34C43 29 50 31 53 35C47 39 41 39 36 34Z",
            ),
        ],
    ),
    (
        "old_holes",
        &[
            LEAF,
            RIB,
            (
                "hole",
                "M22 18a3 3 0 1 0 6 0a3 3 0 1 0-6 0M40 16a4 4 0 1 0 8 0a4 4 0 1 0-8 0M30 31a3 3 0 1 0 6 0a3 3 0 1 0-6 0M48 30a3 3 0 1 0 6 0a3 3 0 1 0-6 0",
            ),
        ],
    ),
    (
        "old_veins",
        &[
            LEAF,
            ("bold", "M5 24H67M20 24l8-9M20 24l8 9M33 24l8-10M33 24l8 10M46 24l7-8M46 24l7 8"),
            ("dots", "M14 20H20M26 22H34M40 21H46M52 21H58M14 28H20M26 27H34M40 28H46M52 28H58"),
        ],
    ),
    (
        "new_pale",
        &[
            STEM,
            ("dash", "M36 12C28 5 18 6 14 11C21 17 29 17 36 12ZM36 12C44 5 54 6 58 11C51 17 43 17 36 12Z"),
            LOWER,
            HATCH_LOWER,
        ],
    ),
    (
        "new_twisted",
        &[
            ("line", "M36 46V18"),
            ("bold", "M36 18C36 8 46 4 50 10S42 20 40 12M36 20C28 18 28 10 34 10"),
            LOWER,
            HATCH_LOWER,
        ],
    ),
    (
        "new_small",
        &[
            STEM,
            (
                "line",
                "M36 9C34 7 31 7 30 9C32 11 34 11 36 9ZM36 9C38 7 41 7 42 9C40 11 38 11 36 9ZM36 18C32 15 28 15 26 18C29 21 33 21 36 18ZM36 18C40 15 44 15 46 18C43 21 39 21 36 18Z",
            ),
            LOWER,
            HATCH_LOWER,
        ],
    ),
    (
        "long_bare",
        &[
            STEM,
            TOP,
            HATCH_TOP,
            ("line", "M36 24h-4M36 28h4M36 32h-4M36 36h4M36 40h-4"),
            ("dash", "M10 44C18 40 22 42 26 45M46 45C52 41 58 42 62 44"),
        ],
    ),
    (
        "glassy",
        &[
            ("dash", "M5 24C18 7 50 7 67 24C50 41 18 41 5 24ZM5 24H67"),
            ("line", "M24 34c-3 4-3 7 0 7s3-3 0-7M44 35c-3 4-3 7 0 7s3-3 0-7M54 31c-2 3-2 5 0 5s2-2 0-5"),
        ],
    ),
    (
        "white_crust",
        &[
            LEAF,
            RIB,
            (
                "line",
                "M18 20l3-3l3 3l-3 3ZM28 15l4-2l1 4l-4 2ZM42 18l3-4l4 2l-3 4ZM22 30l4-2l2 4l-4 1ZM36 32l4-3l3 3l-4 3ZM50 27l3-2l3 3l-3 2ZM56 20l3-2l2 3l-3 2Z",
            ),
        ],
    ),
    (
        "eaten",
        &[
            (
                "line",
                "M5 24C10 17 16 13 22 11A6 6 0 0 0 33 9C37 9 41 9 44 10A5 5 0 0 0 53 13C58 16 63 20 67 24C62 30 58 33 53 36A7 7 0 0 0 40 39C30 40 14 36 5 24Z",
            ),
            RIB,
            VEINS,
        ],
    ),
];

/// The strokes of a sight; none where it has no drawing.
fn strokes(key: &str) -> &'static [Stroke] {
    SIGHTS.iter().find(|(known, _)| *known == key).map_or(&[], |(_, strokes)| strokes)
}

const DOTS: &str = "M14 12a3 3 0 1 0 6 0a3 3 0 1 0-6 0M30 20a2 2 0 1 0 4 0a2 2 0 1 0-4 0M44 11a3 3 0 1 0 6 0a3 3 0 1 0-6 0M56 22a2 2 0 1 0 4 0a2 2 0 1 0-4 0M18 31a2 2 0 1 0 4 0a2 2 0 1 0-4 0M36 33a3 3 0 1 0 6 0a3 3 0 1 0-6 0M52 36a2 2 0 1 0 4 0a2 2 0 1 0-4 0M10 23a2 2 0 1 0 4 0a2 2 0 1 0-4 0M26 39a2 2 0 1 0 4 0a2 2 0 1 0-4 0";
const TOP: Stroke = ("line", "M36 12C28 5 18 6 14 11C21 17 29 17 36 12ZM36 12C44 5 54 6 58 11C51 17 43 17 36 12Z");
const HATCH_TOP: Stroke = ("fine", "M20 9l3 6M25 8l3 7M30 8l2 6M42 8l-2 6M47 8l-3 7M52 9l-3 6");
const LOWER: Stroke = ("line", "M36 32C26 26 14 28 8 34C18 40 28 38 36 32ZM36 36C46 30 58 32 64 38C54 44 44 42 36 36Z");
const HATCH_LOWER: Stroke = ("fine", "M15 31l3 6M21 29l3 8M27 29l3 7M45 33l-2 7M51 33l-3 8M57 34l-3 7");

/// The drawing of a sight.
pub fn of(key: &str) -> Markup {
    html! {
        svg.sketch viewBox="0 0 72 48" aria-hidden="true" focusable="false" {
            @for (class, path) in strokes(key) { path class=(class) d=(path) {} }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_sight_has_a_drawing_of_its_own() {
        let mut all: Vec<String> = Vec::new();
        for key in knowledge::book().sights.keys() {
            assert!(!strokes(key).is_empty(), "{key}");
            let drawn = of(key).into_string();
            assert!(!all.contains(&drawn), "{key} is drawn like another");
            all.push(drawn);
        }
    }
}
