//! Broken glands, plugs and adapters, and holes of any kind.

use super::{Case, case};

/// Each with the finding that is expected.
pub const CASES: &[Case] = &[
    case(
        "catalogue-envelope",
        "inside_mm = 35.8, reach_out_mm = 50",
        "inside_mm = 25, reach_out_mm = 50",
        "25,",
    ),
    case(
        "catalogue-envelope",
        "spanner_mm = 37",
        "spanner_mm = 43",
        "43",
    ),
    case(
        "catalogue-envelope",
        "footprint_mm = [60, 60]",
        "footprint_mm = [22, 60]",
        "[22",
    ),
    case(
        "catalogue-hole",
        "hole_mm = 25.2\nspanner",
        "hole_mm = 25.8\nspanner",
        "25.8",
    ),
    case(
        "catalogue-hole",
        "hole_mm = 25.2\ntorque",
        "hole_mm = 24.9\ntorque",
        "24.9",
    ),
    case(
        "catalogue-hole",
        "hole = \"D22\"\nhole_mm = [22.3, 22.3]",
        "hole = \"D22\"\nhole_mm = [22.3, 23]",
        "[22.3, 23]",
    ),
    case(
        "catalogue-hole",
        "hole = \"D22\"",
        "hole = \"D23\"",
        "\"D23\"",
    ),
    case(
        "catalogue-thread",
        "[[20, 10, 250, 88]]",
        "[[20, 10, 250, 63]]",
        "\"M63\"",
    ),
    case("catalogue-thread", "M20 = 12, ", "M75 = 1, ", "1, "),
    case(
        "catalogue-thread",
        "female = \"NPT 3/4\"",
        "female = \"M25\"",
        "\"M25\"",
    ),
    case(
        "catalogue-thread",
        "thread_length_mm = 13\nwall_mm = [1, 7]",
        "thread_length_mm = 13\nwall_mm = [1, 13]",
        "[1, 13]",
    ),
];
