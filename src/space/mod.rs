//! Lengths, rectangles, the faces of a box and their coordinates. Knows nothing of terminals or rules.
