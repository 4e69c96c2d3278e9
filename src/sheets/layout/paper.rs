//! Papers that sheets are laid out on: size, drawing space inside the border, place of the title block
//! (ISO 216 for sizes; ISO 5457 and ISO 7200 for border and title block, from memory).

use crate::sheets::drawing::Area;

/// Width kept for filing at the left, and for the border of the other sides, millimetres.
const BORDER_MM: (f64, f64) = (20.0, 10.0);
/// Size of the title block, millimetres. On A4 it takes the whole width inside the border.
const BLOCK_MM: (f64, f64) = (180.0, 50.0 + REVISIONS_MM);
/// Height of a line of the revision table.
pub(super) const REVISION_MM: f64 = 4.4;
/// Height of the revision table at the head of the title block: a heading and two lines.
pub(super) const REVISIONS_MM: f64 = 3.0 * REVISION_MM;
/// Height over the title block for notes and scale bar.
pub(super) const NOTES_MM: f64 = 14.0;

/// The paper of the sheets.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Paper {
    /// A3 laid crosswise, 420 × 297 mm.
    #[default]
    A3,
    /// A4 upright, 210 × 297 mm, the title block along the lower edge.
    A4,
}

impl Paper {
    /// Every paper.
    pub const ALL: [Paper; 2] = [Paper::A3, Paper::A4];

    /// Width and height in millimetres.
    pub fn size_mm(self) -> (f64, f64) {
        match self {
            Paper::A3 => (420.0, 297.0),
            Paper::A4 => (210.0, 297.0),
        }
    }

    /// The area inside the border.
    pub fn inner(self) -> Area {
        let (width_mm, height_mm) = self.size_mm();
        Area::new(
            BORDER_MM.0,
            BORDER_MM.1,
            width_mm - BORDER_MM.1,
            height_mm - BORDER_MM.1,
        )
    }

    /// The area of the title block, in the lower right corner.
    pub(super) fn block(self) -> Area {
        let inner = self.inner();
        Area::new(
            inner.right_mm - BLOCK_MM.0,
            inner.bottom_mm,
            inner.right_mm,
            inner.bottom_mm + BLOCK_MM.1,
        )
    }

    /// What is free above the title block and its notes, over the whole width.
    pub(super) fn above_block(self) -> Area {
        let inner = self.inner();
        Area::new(
            inner.left_mm + 3.0,
            self.block().top_mm + NOTES_MM,
            inner.right_mm - 3.0,
            inner.top_mm - 3.0,
        )
    }

    /// What is free to the left of the title block, over the whole height; `None` where the title block
    /// takes the whole width.
    pub(super) fn beside_block(self) -> Option<Area> {
        let (inner, block) = (self.inner(), self.block());
        let area = Area::new(
            inner.left_mm + 3.0,
            inner.bottom_mm + 3.0,
            block.left_mm - 4.0,
            inner.top_mm - 3.0,
        );
        (area.width_mm() > 0.0).then_some(area)
    }
}
