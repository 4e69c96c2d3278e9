//! The pairs of codes and values that a DXF file is made of, handles, and heads of records. Knows the
//! form of the file, not what is drawn.

use crate::sheets::drawing::{Dash, Pen, Shape, Spot};
use crate::sheets::number;
use std::fmt::Write as _;

/// Digits after the point.
const DECIMALS: usize = 6;

/// Handles of the fixed objects; entities follow from `FIRST_FREE` on.
pub(super) mod handle {
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
pub(super) struct File {
    pub text: String,
    pub next: u32,
}

impl File {
    pub fn pair(&mut self, code: u16, value: impl std::fmt::Display) {
        let _ = writeln!(self.text, "{code}\n{value}");
    }

    pub fn length(&mut self, code: u16, value_mm: f64) {
        self.pair(code, number(value_mm, DECIMALS));
    }

    pub fn hex(&mut self, code: u16, value: u32) {
        self.pair(code, format!("{value:X}"));
    }

    /// Takes the next free handle.
    pub fn handle(&mut self) -> u32 {
        self.next += 1;
        self.next
    }

    pub fn spot(&mut self, code: u16, spot: Spot) {
        self.length(code, spot.x_mm);
        self.length(code + 10, spot.y_mm);
        self.length(code + 20, 0.0);
    }

    pub fn section(&mut self, name: &str, content: impl FnOnce(&mut Self)) {
        self.pair(0, "SECTION");
        self.pair(2, name);
        content(self);
        self.pair(0, "ENDSEC");
    }

    /// A table of so many records, each written by `content`.
    pub fn table(&mut self, name: &str, count: usize, content: impl FnOnce(&mut Self, u32)) {
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
    pub fn record(&mut self, kind: &str, class: &str, owner: u32, fixed: Option<u32>) -> u32 {
        self.pair(0, kind);
        let own = fixed.unwrap_or_else(|| self.handle());
        self.hex(if kind == "DIMSTYLE" { 105 } else { 5 }, own);
        self.hex(330, owner);
        self.pair(100, "AcDbSymbolTableRecord");
        self.pair(100, class);
        own
    }

    /// The head of an entity of the model.
    pub fn entity(&mut self, kind: &str, shape: &Shape) {
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

pub(super) fn line_type(dash: Dash) -> &'static str {
    match dash {
        Dash::Solid => "CONTINUOUS",
        Dash::Dashed => "DASHED",
        Dash::DashDotted => "DASHDOT",
    }
}

/// Width of a pen in hundredths of a millimetre.
pub(super) fn hundredths(pen: &Pen) -> i32 {
    (pen.width_mm * 100.0).round() as i32
}
