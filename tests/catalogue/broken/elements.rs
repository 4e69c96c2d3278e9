//! Broken operating elements and contact blocks.

use super::{Case, case};

/// Each with the finding that is expected.
pub const CASES: &[Case] = &[
    case(
        "catalogue-depth",
        "depth_mm = [42, 48, 48]",
        "depth_mm = [42, 48, 47]",
        "47]",
    ),
    case(
        "catalogue-depth",
        "depth_mm = [20, 46]",
        "depth_mm = []",
        "[]",
    ),
    case(
        "catalogue-emergency-stop",
        "colour = \"red\"\nlatching",
        "colour = \"black\"\nlatching",
        "\"black\"",
    ),
    case(
        "catalogue-emergency-stop",
        "latching = true",
        "latching = false",
        "false",
    ),
    case(
        "catalogue-points",
        "points = [\"X1\", \"X2\"]",
        "points = [\"X1\"]",
        "[\"X1\"]",
    ),
    case(
        "catalogue-points",
        "points = [\"X1\", \"X2\"]",
        "points = [\"X1\", \"X1\"]",
        "[\"X1\", \"X1\"]",
    ),
    case(
        "catalogue-utilisation",
        "{ category = \"AC-15\", voltage_v = 400, current_a = 4 }",
        "{ category = \"AC-15\", voltage_v = 400, current_a = 7 }",
        "{ category = \"AC-15\", voltage_v = 400",
    ),
    case(
        "catalogue-utilisation",
        "{ category = \"AC-15\", voltage_v = 230, current_a = 6 }",
        "{ category = \"AC-15\", voltage_v = 230, current_a = 11 }",
        "{ category = \"AC-15\", voltage_v = 230",
    ),
    case(
        "source-invalid-value",
        "{ category = \"AC-15\", voltage_v = 400",
        "{ category = \"AC-51\", voltage_v = 400",
        "\"AC-51\"",
    ),
];
