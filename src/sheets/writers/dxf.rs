//! Drawing Exchange Format, release 2000, as text. A view is written at full scale: millimetres of the
//! box, its datum at the origin, so that holes can be taken over as they are.
//!
//! Fillings are left out save for arrow heads, since whoever takes over holes wants lines. A line type
//! repeats at the length that it has on paper, enlarged with the view.

use crate::sheets::drawing::{
    Align, Colour, Dash, Geometry, Group, Label, Layer, Pen, Shape, Spot, bounds,
};
use crate::sheets::number;
use std::fmt::Write as _;

/// Digits after the point.
const DECIMALS: usize = 6;
/// Name of the text style, with the font that the drawing was measured with.
const STYLE: (&str, &str) = ("GLANDRAIL", "LiberationSans-Regular.ttf");
const STYLE_BOLD: (&str, &str) = ("GLANDRAIL_BOLD", "LiberationSans-Bold.ttf");

/// Handles of the fixed objects; entities follow from [`FIRST_FREE`] on.
mod handle {
    pub const LAYOUT_MODEL: u32 = 0x1a;
    pub const LAYOUT_PAPER: u32 = 0x1b;
    pub const ROOT: u32 = 0xc;
    pub const GROUPS: u32 = 0xd;
    pub const LAYOUTS: u32 = 0xe;
    pub const MODEL: u32 = 0x1f;
    pub const PAPER: u32 = 0x20;
    pub const FIRST_FREE: u32 = 0x100;
}

/// A file in the making: pairs of a code and a value.
struct File {
    text: String,
    next: u32,
}

impl File {
    fn pair(&mut self, code: u16, value: impl std::fmt::Display) {
        let _ = writeln!(self.text, "{code}\n{value}");
    }

    fn length(&mut self, code: u16, value_mm: f64) {
        self.pair(code, number(value_mm, DECIMALS));
    }

    fn hex(&mut self, code: u16, value: u32) {
        self.pair(code, format!("{value:X}"));
    }

    /// Takes the next free handle.
    fn handle(&mut self) -> u32 {
        self.next += 1;
        self.next
    }

    fn spot(&mut self, code: u16, spot: Spot) {
        self.length(code, spot.x_mm);
        self.length(code + 10, spot.y_mm);
        self.length(code + 20, 0.0);
    }

    fn section(&mut self, name: &str, content: impl FnOnce(&mut Self)) {
        self.pair(0, "SECTION");
        self.pair(2, name);
        content(self);
        self.pair(0, "ENDSEC");
    }

    /// A table of so many records, each written by `content`.
    fn table(&mut self, name: &str, count: usize, content: impl FnOnce(&mut Self, u32)) {
        self.pair(0, "TABLE");
        self.pair(2, name);
        let own = self.handle();
        self.hex(5, own);
        self.hex(330, 0);
        self.pair(100, "AcDbSymbolTable");
        self.pair(70, count);
        content(self, own);
        self.pair(0, "ENDTAB");
    }

    /// The head of a record of a table.
    fn record(&mut self, kind: &str, class: &str, owner: u32, fixed: Option<u32>) -> u32 {
        self.pair(0, kind);
        let own = fixed.unwrap_or_else(|| self.handle());
        self.hex(if kind == "DIMSTYLE" { 105 } else { 5 }, own);
        self.hex(330, owner);
        self.pair(100, "AcDbSymbolTableRecord");
        self.pair(100, class);
        own
    }

    /// The head of an entity of the model.
    fn entity(&mut self, kind: &str, shape: &Shape) {
        self.pair(0, kind);
        let own = self.handle();
        self.hex(5, own);
        self.hex(330, handle::MODEL);
        self.pair(100, "AcDbEntity");
        self.pair(8, shape.layer.name());
        if let Some(pen) = &shape.pen {
            let usual = shape.layer.pen();
            if pen.dash != usual.dash {
                self.pair(6, line_type(pen.dash));
            }
            if (pen.width_mm - usual.width_mm).abs() > 1e-9 {
                self.pair(370, hundredths(pen));
            }
        }
    }
}

/// Writes a view at full scale. A drawing that is not a view is written as it is on paper.
pub fn write(group: &Group) -> String {
    let (datum, ratio) = group
        .view
        .map_or((Spot::new(0.0, 0.0), 1.0), |view| (view.datum, view.ratio));
    let shapes: Vec<Shape> = group
        .shapes
        .iter()
        .map(|shape| enlarged(shape.clone().moved(-datum.x_mm, -datum.y_mm), 1.0 / ratio))
        .collect();
    let area = bounds(&shapes);
    let mut file = File {
        text: String::new(),
        next: handle::FIRST_FREE,
    };
    let (low, high) = area.map_or((Spot::new(0.0, 0.0), Spot::new(1.0, 1.0)), |area| {
        (
            Spot::new(area.left_mm, area.bottom_mm),
            Spot::new(area.right_mm, area.top_mm),
        )
    });
    // The head names the first handle that is free, so the rest is written before it.
    file.section("CLASSES", |_| {});
    file.section("TABLES", |file| write_tables(file, low, high, ratio));
    file.section("BLOCKS", write_blocks);
    file.section("ENTITIES", |file| {
        for shape in &shapes {
            write_shape(file, shape);
        }
    });
    file.section("OBJECTS", write_objects);
    file.pair(0, "EOF");
    let (body, seed) = (file.text, file.next + 1);
    let mut head = File {
        text: String::new(),
        next: 0,
    };
    head.section("HEADER", |file| {
        file.pair(9, "$ACADVER");
        file.pair(1, "AC1015");
        file.pair(9, "$DWGCODEPAGE");
        file.pair(3, "ANSI_1252");
        file.pair(9, "$INSUNITS");
        file.pair(70, 4);
        file.pair(9, "$MEASUREMENT");
        file.pair(70, 1);
        file.pair(9, "$LTSCALE");
        file.length(40, 1.0);
        file.pair(9, "$EXTMIN");
        file.spot(10, low);
        file.pair(9, "$EXTMAX");
        file.spot(10, high);
        file.pair(9, "$HANDSEED");
        file.hex(5, seed);
    });
    head.text + &body
}

/// The shape with all lengths multiplied; texts too.
fn enlarged(mut shape: Shape, by: f64) -> Shape {
    let scaled = |spot: Spot| Spot::new(spot.x_mm * by, spot.y_mm * by);
    match &mut shape.geometry {
        Geometry::Line(a, b) => (*a, *b) = (scaled(*a), scaled(*b)),
        Geometry::Polyline { spots, .. } => {
            for spot in spots {
                *spot = scaled(*spot);
            }
        }
        Geometry::Rectangle(area) => {
            area.left_mm *= by;
            area.bottom_mm *= by;
            area.right_mm *= by;
            area.top_mm *= by;
        }
        Geometry::Circle { centre, radius_mm }
        | Geometry::Arc {
            centre, radius_mm, ..
        } => {
            *centre = scaled(*centre);
            *radius_mm *= by;
        }
        Geometry::Text(label) => {
            label.at = scaled(label.at);
            label.style.height_mm *= by;
        }
    }
    shape
}

fn write_tables(file: &mut File, low: Spot, high: Spot, ratio: f64) {
    file.table("VPORT", 1, |file, table| {
        file.record("VPORT", "AcDbViewportTableRecord", table, None);
        file.pair(2, "*Active");
        file.pair(70, 0);
        for (code, value) in [(10, 0.0), (20, 0.0), (11, 1.0), (21, 1.0)] {
            file.length(code, value);
        }
        file.length(12, (low.x_mm + high.x_mm) / 2.0);
        file.length(22, (low.y_mm + high.y_mm) / 2.0);
        file.length(40, (high.y_mm - low.y_mm).max(1.0));
        file.length(41, 1.5);
    });
    let types: [(&str, &str, Dash); 3] = [
        ("CONTINUOUS", "solid", Dash::Solid),
        ("DASHED", "dashed", Dash::Dashed),
        ("DASHDOT", "long-dashed dotted", Dash::DashDotted),
    ];
    file.table("LTYPE", types.len() + 2, |file, table| {
        for name in ["BYBLOCK", "BYLAYER"] {
            write_line_type(file, table, (name, "", &[]));
        }
        for (name, words, dash) in types {
            let pen = Pen {
                width_mm: 0.18,
                dash,
            };
            let dashes: Vec<f64> = pen.dashes_mm().iter().map(|mm| mm / ratio).collect();
            write_line_type(file, table, (name, words, &dashes));
        }
    });
    file.table("LAYER", Layer::ALL.len() + 1, |file, table| {
        write_layer(file, table, "0", &Pen::solid(0.25), 7);
        for layer in Layer::ALL {
            write_layer(file, table, layer.name(), &layer.pen(), colour(layer));
        }
    });
    file.table("STYLE", 3, |file, table| {
        for (name, font) in [("STANDARD", "txt"), STYLE, STYLE_BOLD] {
            file.record("STYLE", "AcDbTextStyleTableRecord", table, None);
            file.pair(2, name);
            file.pair(70, 0);
            file.length(40, 0.0);
            file.length(41, 1.0);
            file.length(50, 0.0);
            file.pair(71, 0);
            file.length(42, 2.5);
            file.pair(3, font);
            file.pair(4, "");
        }
    });
    file.table("VIEW", 0, |_, _| {});
    file.table("UCS", 0, |_, _| {});
    file.table("APPID", 1, |file, table| {
        file.record("APPID", "AcDbRegAppTableRecord", table, None);
        file.pair(2, "ACAD");
        file.pair(70, 0);
    });
    file.table("DIMSTYLE", 1, |file, table| {
        file.pair(100, "AcDbDimStyleTable");
        file.record("DIMSTYLE", "AcDbDimStyleTableRecord", table, None);
        file.pair(2, "STANDARD");
        file.pair(70, 0);
    });
    file.table("BLOCK_RECORD", 2, |file, table| {
        for (name, own, layout) in SPACES {
            file.record("BLOCK_RECORD", "AcDbBlockTableRecord", table, Some(own));
            file.pair(2, name);
            file.hex(340, layout);
        }
    });
}

/// The two spaces that every file has: name, record, layout.
const SPACES: [(&str, u32, u32); 2] = [
    ("*Model_Space", handle::MODEL, handle::LAYOUT_MODEL),
    ("*Paper_Space", handle::PAPER, handle::LAYOUT_PAPER),
];

fn write_line_type(file: &mut File, table: u32, (name, words, dashes): (&str, &str, &[f64])) {
    file.record("LTYPE", "AcDbLinetypeTableRecord", table, None);
    file.pair(2, name);
    file.pair(70, 0);
    file.pair(3, words);
    file.pair(72, 65);
    file.pair(73, dashes.len());
    file.length(40, dashes.iter().sum());
    for (index, dash) in dashes.iter().enumerate() {
        // Gaps are negative.
        file.length(49, if index % 2 == 0 { *dash } else { -dash });
        file.pair(74, 0);
    }
}

fn write_layer(file: &mut File, table: u32, name: &str, pen: &Pen, colour: u8) {
    file.record("LAYER", "AcDbLayerTableRecord", table, None);
    file.pair(2, name);
    file.pair(70, 0);
    file.pair(62, colour);
    file.pair(6, line_type(pen.dash));
    file.pair(370, hundredths(pen));
}

fn write_blocks(file: &mut File) {
    for (name, record, _) in SPACES {
        file.pair(0, "BLOCK");
        let begin = file.handle();
        file.hex(5, begin);
        file.hex(330, record);
        file.pair(100, "AcDbEntity");
        file.pair(8, "0");
        file.pair(100, "AcDbBlockBegin");
        file.pair(2, name);
        file.pair(70, 0);
        file.spot(10, Spot::new(0.0, 0.0));
        file.pair(3, name);
        file.pair(1, "");
        file.pair(0, "ENDBLK");
        let end = file.handle();
        file.hex(5, end);
        file.hex(330, record);
        file.pair(100, "AcDbEntity");
        file.pair(8, "0");
        file.pair(100, "AcDbBlockEnd");
    }
}

fn write_objects(file: &mut File) {
    let dictionary = |file: &mut File, own: u32, owner: u32, entries: &[(&str, u32)]| {
        file.pair(0, "DICTIONARY");
        file.hex(5, own);
        file.hex(330, owner);
        file.pair(100, "AcDbDictionary");
        file.pair(281, 1);
        for (name, handle) in entries {
            file.pair(3, *name);
            file.hex(350, *handle);
        }
    };
    let roots = [
        ("ACAD_GROUP", handle::GROUPS),
        ("ACAD_LAYOUT", handle::LAYOUTS),
    ];
    dictionary(file, handle::ROOT, 0, &roots);
    dictionary(file, handle::GROUPS, handle::ROOT, &[]);
    let layouts = [
        ("Model", handle::LAYOUT_MODEL),
        ("Layout1", handle::LAYOUT_PAPER),
    ];
    dictionary(file, handle::LAYOUTS, handle::ROOT, &layouts);
    for (index, ((_, record, own), (name, _))) in SPACES.into_iter().zip(layouts).enumerate() {
        file.pair(0, "LAYOUT");
        file.hex(5, own);
        file.hex(330, handle::LAYOUTS);
        file.pair(100, "AcDbPlotSettings");
        file.pair(1, "");
        // The model is of the kind "model".
        file.pair(70, if index == 0 { 1024 } else { 0 });
        file.pair(100, "AcDbLayout");
        file.pair(1, name);
        file.pair(70, 1);
        file.pair(71, index);
        file.hex(330, record);
    }
}

fn write_shape(file: &mut File, shape: &Shape) {
    match &shape.geometry {
        Geometry::Line(a, b) => {
            file.entity("LINE", shape);
            file.pair(100, "AcDbLine");
            file.spot(10, *a);
            file.spot(11, *b);
        }
        Geometry::Polyline { spots, closed } => {
            if *closed && spots.len() == 3 && shape.fill == Some(Colour::Black) {
                return write_solid(file, shape, spots);
            }
            write_polyline(file, shape, spots, *closed);
        }
        Geometry::Rectangle(area) => {
            // A ground for text has no line of its own.
            if shape.pen.is_none() {
                return;
            }
            let corners = [
                Spot::new(area.left_mm, area.bottom_mm),
                Spot::new(area.right_mm, area.bottom_mm),
                Spot::new(area.right_mm, area.top_mm),
                Spot::new(area.left_mm, area.top_mm),
            ];
            write_polyline(file, shape, &corners, true);
        }
        Geometry::Circle { centre, radius_mm } => {
            file.entity("CIRCLE", shape);
            file.pair(100, "AcDbCircle");
            file.spot(10, *centre);
            file.length(40, *radius_mm);
        }
        Geometry::Arc {
            centre,
            radius_mm,
            from_deg,
            to_deg,
        } => {
            file.entity("ARC", shape);
            file.pair(100, "AcDbCircle");
            file.spot(10, *centre);
            file.length(40, *radius_mm);
            file.pair(100, "AcDbArc");
            file.length(50, *from_deg);
            file.length(51, *to_deg);
        }
        Geometry::Text(label) => write_text(file, shape, label),
    }
}

fn write_polyline(file: &mut File, shape: &Shape, spots: &[Spot], closed: bool) {
    file.entity("LWPOLYLINE", shape);
    file.pair(100, "AcDbPolyline");
    file.pair(90, spots.len());
    file.pair(70, u8::from(closed));
    for spot in spots {
        file.length(10, spot.x_mm);
        file.length(20, spot.y_mm);
    }
}

/// A filled triangle: its last corner is given twice.
fn write_solid(file: &mut File, shape: &Shape, spots: &[Spot]) {
    file.entity("SOLID", shape);
    file.pair(100, "AcDbTrace");
    for (code, index) in [(10, 0), (11, 1), (12, 2), (13, 2)] {
        file.spot(code, spots[index]);
    }
}

fn write_text(file: &mut File, shape: &Shape, label: &Label) {
    file.entity("TEXT", shape);
    file.pair(100, "AcDbText");
    file.spot(10, label.at);
    file.length(40, label.style.height_mm);
    file.pair(1, encoded(&label.content));
    if label.style.upwards {
        file.length(50, 90.0);
    }
    let style = if label.style.bold { STYLE_BOLD } else { STYLE };
    file.pair(7, style.0);
    let alignment = match label.style.align {
        Align::Start => 0,
        Align::Middle => 1,
        Align::End => 2,
    };
    if alignment != 0 {
        file.pair(72, alignment);
        file.spot(11, label.at);
    }
    file.pair(100, "AcDbText");
}

/// Text in the plain letters that every reader knows; others by number. Control characters, which would
/// break the file, become blanks; a percent sign, which begins codes, is written as the code of itself.
fn encoded(content: &str) -> String {
    let mut out = String::with_capacity(content.len());
    for character in content.chars() {
        match character {
            control if control.is_control() => out.push(' '),
            '%' => out.push_str("%%%"),
            '\\' => out.push_str("\\U+005C"),
            '^' => out.push_str("^ "),
            plain if plain.is_ascii() => out.push(plain),
            other => {
                let mut units = [0; 2];
                for unit in other.encode_utf16(&mut units) {
                    let _ = write!(out, "\\U+{unit:04X}");
                }
            }
        }
    }
    out
}

fn line_type(dash: Dash) -> &'static str {
    match dash {
        Dash::Solid => "CONTINUOUS",
        Dash::Dashed => "DASHED",
        Dash::DashDotted => "DASHDOT",
    }
}

/// Width of a pen in hundredths of a millimetre.
fn hundredths(pen: &Pen) -> i32 {
    (pen.width_mm * 100.0).round() as i32
}

/// Colour number of a layer, so that layers can be told apart on a screen: 7 is ink.
fn colour(layer: Layer) -> u8 {
    match layer {
        Layer::Outline | Layer::Text | Layer::Frame => 7,
        Layer::Hidden => 8,
        Layer::Centre => 6,
        Layer::Holes => 1,
        Layer::Dimensions => 5,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_of_the_user_cannot_break_the_file() {
        assert_eq!(encoded("a\nb 5 % Ø"), "a b 5 %%% \\U+00D8");
        assert_eq!(encoded("a\\b^c"), "a\\U+005Cb^ c");
    }
}
