//! What Chromium prints, read back: pages with their size, and words with their place.

use hayro_interpret::font::{Glyph, GlyphRun};
use hayro_interpret::hayro_cmap::BfString;
use hayro_interpret::kurbo::{Affine, BezPath, Point, Rect};
use hayro_interpret::{
    BlendMode, ClipPath, Context, Device, DrawMode, DrawProps, Image, ImageDrawProps, InterpreterCache,
    InterpreterSettings, SoftMask, interpret_page,
};
use hayro_syntax::Pdf;

/// Points in a millimetre (PDF: 72 points an inch of 25.4 mm).
const POINTS_A_MM: f64 = 72.0 / 25.4;

/// A printed page.
pub struct Printed {
    /// mm.
    pub wide: f64,
    /// mm.
    pub tall: f64,
    /// Letters in the order of printing: text, left and right end, foot; mm from the upper left.
    letters: Vec<(String, [f64; 3])>,
}

impl Printed {
    /// The pages of a PDF.
    pub fn read(bytes: &[u8]) -> Vec<Printed> {
        let pdf = Pdf::new(bytes.to_vec()).unwrap_or_else(|_| panic!("no PDF"));
        let cache = InterpreterCache::new();
        let mut printed = Vec::new();
        for page in pdf.pages().iter() {
            let (wide, tall) = page.render_dimensions();
            let start = Affine::new(page.initial_transform(true).as_coeffs());
            let bounds = Rect::new(0.0, 0.0, f64::from(wide), f64::from(tall));
            let mut context = Context::new(start, bounds, &cache, pdf.xref(), InterpreterSettings::default());
            let mut pen = Letters::default();
            interpret_page(page, &mut context, &mut pen);
            let letters = pen.0.into_iter().map(|(text, at)| (text, at.map(|v| v / POINTS_A_MM))).collect();
            let [wide, tall] = [wide, tall].map(|points| f64::from(points) / POINTS_A_MM);
            printed.push(Printed { wide, tall, letters });
        }
        printed
    }

    /// All its letters, without the spaces between them.
    pub fn text(&self) -> String {
        let joined: String = self.letters.iter().map(|(text, _)| text.as_str()).collect();
        close(&joined)
    }

    /// Whether it says so, whatever spaces and line ends lie between.
    pub fn says(&self, words: &str) -> bool {
        self.text().contains(&close(words))
    }

    /// Letters that stand outside the paper's printable part, `margin` mm from each edge.
    pub fn outside(&self, margin: f64) -> Vec<&str> {
        let out = |[left, right, foot]: &[f64; 3]| {
            *left < margin || *right > self.wide - margin || *foot < margin || *foot > self.tall - margin
        };
        let shown = self.letters.iter().filter(|(text, at)| !text.trim().is_empty() && out(at));
        shown.map(|(text, _)| text.as_str()).collect()
    }
}

/// Words without what lies between them, joined letters taken apart (Unicode, Alphabetic Presentation Forms).
pub fn close(words: &str) -> String {
    const JOINED: [(char, &str); 5] = [('ﬀ', "ff"), ('ﬁ', "fi"), ('ﬂ', "fl"), ('ﬃ', "ffi"), ('ﬄ', "ffl")];
    let apart = |c: char| {
        JOINED.iter().find(|(joined, _)| *joined == c).map_or_else(|| c.to_string(), |(_, apart)| (*apart).to_owned())
    };
    words.chars().filter(|c| !c.is_whitespace()).map(apart).collect()
}

#[derive(Default)]
struct Letters(Vec<(String, [f64; 3])>);

impl Device<'_> for Letters {
    fn draw_path(&mut self, _: &BezPath, _: DrawProps<'_>, _: &DrawMode) {}
    fn push_clip_path(&mut self, _: &ClipPath) {}
    fn push_transparency_group(&mut self, _: f32, _: Option<SoftMask<'_>>, _: BlendMode) {}
    fn draw_glyph_run(&mut self, run: &GlyphRun<'_, '_>, props: DrawProps<'_>, _: &DrawMode) {
        for glyph in run.glyphs() {
            let text = match glyph.as_unicode() {
                Some(BfString::Char(c)) => c.to_string(),
                Some(BfString::String(text)) => text,
                None => continue,
            };
            let advance = match &**glyph {
                Glyph::Outline(outline) => outline.advance_width(),
                Glyph::Type3(drawn) => drawn.advance_width(),
            };
            let to_page = props.transform * glyph.transform();
            let (from, to) = (to_page * Point::ZERO, to_page * Point::new(f64::from(advance.unwrap_or(0.0)), 0.0));
            self.0.push((text, [from.x, to.x, from.y]));
        }
    }
    fn draw_image(&mut self, _: Image<'_, '_>, _: ImageDrawProps<'_>) {}
    fn pop_clip(&mut self) {}
    fn pop_transparency_group(&mut self) {}
}
