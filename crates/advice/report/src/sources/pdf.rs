//! PDF files with text: glyphs with their places, then lines and columns.

use std::collections::BTreeMap;
use std::panic::{AssertUnwindSafe, catch_unwind};

use hayro_interpret::font::GlyphRun;
use hayro_interpret::hayro_cmap::BfString;
use hayro_interpret::kurbo::{Affine, BezPath, Point, Rect};
use hayro_interpret::{
    BlendMode, ClipPath, Context, Device, DrawMode, DrawProps, Image, ImageDrawProps, InterpreterCache,
    InterpreterSettings, SoftMask, interpret_page,
};
use hayro_syntax::page::Page;
use hayro_syntax::{LoadPdfError, Pdf};

use super::glyphs::{Glyph, Letters, lines};
use crate::grid::Grid;
use crate::{Refusal, RefusalKind};
use crate::{glued, layout, onward, prose};

/// Most pages that are read.
const MOST_PAGES: usize = 2_000;
/// Most glyphs of a page: a full page of small print has 10,000.
const MOST_GLYPHS: usize = 300_000;
/// Fewer glyphs than these on a page with a picture are a stamp or a page number.
const SCANNED_BELOW: usize = 12;

/// What a page holds.
#[derive(Default)]
struct Content {
    glyphs: Vec<Glyph>,
    pictures: usize,
    unreadable: usize,
}

/// The tables and lines of a file, and the pages that are pictures.
pub(crate) fn grids(bytes: &[u8]) -> Result<(Vec<Grid>, Option<Refusal>), Refusal> {
    let pdf = opened(bytes)?;
    let (mut out, mut scanned, mut text, mut unreadable) = (Vec::new(), Vec::new(), 0, 0);
    let mut before = Vec::new();
    let cache = InterpreterCache::new();
    for (page, number) in pdf.pages().iter().zip(1_u32..).take(MOST_PAGES) {
        let content = content(&pdf, page, &cache)?;
        if content.pictures > 0 && content.glyphs.len() < SCANNED_BELOW {
            scanned.push(number.to_string());
        }
        text += content.glyphs.len();
        unreadable += content.unreadable;
        let mut lines = prose::sentences(prose::in_order(lines(content.glyphs)));
        glued::cut(&mut lines);
        let lines = onward::headed(&before, lines);
        out.extend(layout::grids(&lines).into_iter().map(|g| Grid { page: Some(number), ..g }));
        before = lines;
    }
    if unreadable > text {
        return Err(Refusal::new(
            RefusalKind::Damaged,
            "The PDF has text whose letters can't be told: its fonts lack their tables. Copy the text from a viewer and paste it, or type the values in.",
        ));
    }
    let pictures = (!scanned.is_empty()).then(|| scanned_pages(&scanned));
    match (text, pictures) {
        (0, None) => Err(Refusal::new(RefusalKind::Empty, "The PDF has no text.")),
        (n, Some(refusal)) if n < SCANNED_BELOW => Err(refusal),
        (_, pictures) => Ok((out, pictures)),
    }
}

fn damaged() -> Refusal {
    Refusal::new(RefusalKind::Damaged, "The PDF is damaged and can't be opened. Download it again.")
}

/// What the library for PDF answers. Broken files make it stop in the middle of a sum (lengths in fonts, where overflow is looked
/// for): for whoever has such a file that is a damaged one. Our own code stays outside.
fn unbroken<T>(read: impl FnOnce() -> T) -> Result<T, Refusal> {
    catch_unwind(AssertUnwindSafe(read)).map_err(|_| damaged())
}

fn opened(bytes: &[u8]) -> Result<Pdf, Refusal> {
    unbroken(|| Pdf::new(bytes.to_vec()))?.map_err(|error| match error {
        LoadPdfError::Decryption(_) => Refusal::new(
            RefusalKind::Encrypted,
            "The PDF needs a password. Open it, and print it to a new PDF without one.",
        ),
        LoadPdfError::Invalid => damaged(),
    })
}

fn content<'a>(pdf: &'a Pdf, page: &'a Page<'a>, cache: &InterpreterCache<'a>) -> Result<Content, Refusal> {
    unbroken(|| {
        let mut content = Content::default();
        let start = Affine::new(page.initial_transform(true).as_coeffs());
        let (width, height) = page.render_dimensions();
        let bounds = Rect::new(0.0, 0.0, f64::from(width), f64::from(height));
        let mut context = Context::new(start, bounds, cache, pdf.xref(), InterpreterSettings::default());
        interpret_page(page, &mut context, &mut content);
        content
    })
}

fn scanned_pages(pages: &[String]) -> Refusal {
    let which = if pages.len() == 1 {
        format!("Page {} is a picture", pages.join(""))
    } else {
        format!("Pages {} are pictures", pages.join(", "))
    };
    Refusal::new(
        RefusalKind::Scanned,
        format!("{which}: there is no text to read. Type the values in, or ask the supplier for the file with text."),
    )
}

/// The letters of a glyph, where they can be told.
fn letters(glyph: &hayro_interpret::font::Glyph<'_>) -> Option<Letters> {
    match glyph.as_unicode() {
        Some(BfString::Char(c)) => Some(Letters::One(c)),
        Some(BfString::String(text)) => Some(Letters::of(&text)),
        None => by_code(glyph).map(|text| Letters::of(&text)),
    }
}

/// The letter of a glyph that was drawn by hand and bears no name: that of its code. Typesetters of bitmap fonts number
/// their letters so (Latin-1, and below the space dashes and ligatures); a font numbered otherwise gives words that name
/// nothing.
fn by_code(glyph: &hayro_interpret::font::Glyph<'_>) -> Option<String> {
    let hayro_interpret::font::Glyph::Type3(drawn) = glyph else { return None };
    Some(match drawn.char_code() {
        21 | 22 => "-".to_owned(),
        code @ 27..=31 => ["ff", "fi", "fl", "ffi", "ffl"].get(code as usize - 27).copied()?.to_owned(),
        code @ (0x21..=0x7e | 0xa1..=0xff) => char::from_u32(code)?.to_string(),
        _ => return None,
    })
}

impl Device<'_> for Content {
    fn draw_path(&mut self, _: &BezPath, _: DrawProps<'_>, _: &DrawMode) {}
    fn push_clip_path(&mut self, _: &ClipPath) {}
    fn push_transparency_group(&mut self, _: f32, _: Option<SoftMask<'_>>, _: BlendMode) {}
    fn draw_glyph_run(&mut self, run: &GlyphRun<'_, '_>, props: DrawProps<'_>, _: &DrawMode) {
        let mut known: BTreeMap<u32, Option<Letters>> = BTreeMap::new();
        for glyph in run.glyphs().iter().take(MOST_GLYPHS.saturating_sub(self.glyphs.len())) {
            // A run is of one font: a code stands for the same letters all through it.
            let code = glyph.char_code();
            let known = known.entry(code).or_insert_with(|| letters(glyph));
            let Some(text) = known.clone() else {
                self.unreadable += 1;
                continue;
            };
            let advance = match &**glyph {
                hayro_interpret::font::Glyph::Outline(outline) => outline.advance_width(),
                hayro_interpret::font::Glyph::Type3(drawn) => drawn.advance_width(),
            };
            let to_page = props.transform * glyph.transform();
            let origin = to_page * Point::ZERO;
            let end = to_page * Point::new(f64::from(advance.unwrap_or(500.0)), 0.0);
            let top = to_page * Point::new(0.0, 1000.0);
            let sound = [origin.x, origin.y, end.x, end.y, top.x, top.y].iter().all(|v| v.is_finite() && v.abs() < 1e6);
            // Text that does not run to the right is a stamp across the page.
            let level = (end.x - origin.x) >= 4.0 * (end.y - origin.y).abs();
            if sound && level {
                let size = (top.x - origin.x).hypot(top.y - origin.y);
                self.glyphs.push(Glyph { x0: origin.x, x1: end.x, y: origin.y, size, text });
            }
        }
    }
    fn draw_image(&mut self, _: Image<'_, '_>, _: ImageDrawProps<'_>) {
        self.pictures += 1;
    }
    fn pop_clip(&mut self) {}
    fn pop_transparency_group(&mut self) {}
}
