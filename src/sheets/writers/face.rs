//! One face of the embedded font: which glyphs a document uses, and the reduced font file with only
//! these. The font is Liberation Sans under the SIL Open Font Licence (see `fonts/LICENCE.txt`), whose
//! widths the drawing measures text with.

use std::collections::BTreeMap;
use subsetter::GlyphRemapper;

/// Regular letters.
pub(super) const REGULAR: &[u8] = include_bytes!("../fonts/LiberationSans-Regular.ttf");
/// Bold letters.
pub(super) const BOLD: &[u8] = include_bytes!("../fonts/LiberationSans-Bold.ttf");

/// A face with the glyphs that have been asked for so far.
pub(super) struct Face {
    data: &'static [u8],
    font: ttf_parser::Face<'static>,
    remapper: GlyphRemapper,
    /// Character and width (thousandths of the type size) by new glyph number.
    used: BTreeMap<u16, (char, f32)>,
}

/// Measures that a font descriptor states, in thousandths of the type size.
pub(super) struct Measures {
    /// Left, lower, right and upper edge of the box round all letters.
    pub bounds: [f32; 4],
    /// Reach over the line.
    pub ascent: f32,
    /// Reach under the line, negative.
    pub descent: f32,
    /// Height of capitals.
    pub capitals: f32,
}

impl Face {
    /// A face from its font file; `None` if the file is no font, which the embedded ones are.
    pub(super) fn new(data: &'static [u8]) -> Option<Self> {
        let font = ttf_parser::Face::parse(data, 0).ok()?;
        Some(Self {
            data,
            font,
            remapper: GlyphRemapper::new(),
            used: BTreeMap::new(),
        })
    }

    fn thousandths(&self, units: f32) -> f32 {
        units * 1000.0 / f32::from(self.font.units_per_em())
    }

    /// The new glyph numbers of a text, two bytes each, most significant first. A character that the
    /// font lacks becomes the empty box of the font.
    pub(super) fn encode(&mut self, content: &str) -> Vec<u8> {
        let mut bytes = Vec::with_capacity(content.len() * 2);
        for character in content.chars() {
            let glyph = self
                .font
                .glyph_index(character)
                .unwrap_or(ttf_parser::GlyphId(0));
            let number = self.remapper.remap(glyph.0);
            let advance = self.font.glyph_hor_advance(glyph).unwrap_or_default();
            let width = self.thousandths(f32::from(advance));
            self.used.entry(number).or_insert((character, width));
            bytes.extend(number.to_be_bytes());
        }
        bytes
    }

    /// Characters and widths by new glyph number.
    pub(super) fn used(&self) -> &BTreeMap<u16, (char, f32)> {
        &self.used
    }

    /// The font file reduced to the glyphs in use; the whole file if it cannot be reduced, whose
    /// glyph numbers would then differ, so that no text would be right: `None` is returned instead.
    pub(super) fn reduced(&self) -> Option<Vec<u8>> {
        subsetter::subset(self.data, 0, &self.remapper).ok()
    }

    /// Measures of the face.
    pub(super) fn measures(&self) -> Measures {
        let bounds = self.font.global_bounding_box();
        let scaled = |units: i16| self.thousandths(f32::from(units));
        Measures {
            bounds: [bounds.x_min, bounds.y_min, bounds.x_max, bounds.y_max].map(scaled),
            ascent: scaled(self.font.ascender()),
            descent: scaled(self.font.descender()),
            capitals: scaled(self.font.capital_height().unwrap_or(1409)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheets::drawing::{TextStyle, advance_mm};

    /// Text in a document is as long as it was measured, for every character the tables know.
    #[test]
    fn widths_are_those_that_the_drawing_measures_with() {
        for (data, bold) in [(REGULAR, false), (BOLD, true)] {
            let mut face = Face::new(data).expect("a font");
            let style = TextStyle {
                bold,
                ..TextStyle::plain(2.5)
            };
            let text = "The quick brown fox 0123456789 Ø × – … ° ² µ Ω ± äöü ß /%()[]";
            for character in text.chars() {
                let bytes = face.encode(&character.to_string());
                let number = u16::from_be_bytes([bytes[0], bytes[1]]);
                let (_, width) = face.used()[&number];
                let measured = advance_mm(&character.to_string(), &style) / style.size_mm();
                assert!(
                    (f64::from(width) / 1000.0 - measured).abs() < 1e-3,
                    "{character}: {width}, measured {measured}"
                );
            }
        }
    }

    #[test]
    fn a_reduced_font_is_small() {
        let mut face = Face::new(REGULAR).expect("a font");
        face.encode("JB-2107");
        let reduced = face.reduced().expect("it can be reduced");
        assert!(reduced.len() < 20_000, "{}", reduced.len());
    }
}
