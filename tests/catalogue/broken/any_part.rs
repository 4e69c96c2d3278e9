//! What can be broken in a part of any kind: ids, references, ranges, certificates, spelling.

use super::{Case, case};

/// Each with the finding that is expected.
pub const CASES: &[Case] = &[
    case(
        "catalogue-duplicate-id",
        "id = \"PAGE-PLUG\"",
        "id = \"PAGE-GLAND\"",
        "\"PAGE-GLAND\"",
    ),
    case(
        "catalogue-fits",
        "fits = [\"PAGE-TERMINAL\"]",
        "fits = [\"PAGE-TERMINLA\"]",
        "\"PAGE-TERMINLA\"",
    ),
    case(
        "catalogue-fits",
        "fits = [\"PAGE-TERMINAL\"]",
        "fits = [\"PAGE-GLAND\"]",
        "\"PAGE-GLAND\"",
    ),
    case(
        "catalogue-fits",
        "fits = [\"PAGE-SELECTOR\"]",
        "fits = [\"PAGE-RAIL\"]",
        "\"PAGE-RAIL\"",
    ),
    case(
        "catalogue-id",
        "id = \"PAGE-RAIL\"",
        "id = \" PAGE-RAIL\"",
        "\" PAGE-RAIL\"",
    ),
    case("catalogue-id", "id = \"PAGE-RAIL\"", "id = \"\"", "\"\""),
    case(
        "catalogue-incomplete",
        "rail_directions = [\"horizontal\", \"vertical\"]",
        "rail_directions = []",
        "[]",
    ),
    case(
        "catalogue-incomplete",
        "rails = [\"TH35-15\"]",
        "rails = []",
        "[]",
    ),
    case(
        "catalogue-protection",
        "protection = [\"ia\"]",
        "protection = [\"ai\"]",
        "\"ai\"",
    ),
    case("catalogue-range", "price = 34", "price = -34", "-34"),
    case(
        "catalogue-range",
        "wall_thickness_mm = 5",
        "wall_thickness_mm = 0",
        "0\n",
    ),
    case(
        "catalogue-range",
        "conductors_per_clamp = 2",
        "conductors_per_clamp = 0",
        "0\n",
    ),
    case("catalogue-range", "poles = 2", "poles = 1", "1\n"),
    case("catalogue-range", "positions = 3", "positions = 1", "1\n"),
    case(
        "catalogue-range",
        "most_terminals = 60",
        "most_terminals = 0",
        "0\n",
    ),
    case("catalogue-range", "M20 = 12, ", "M20 = 0, ", "0, "),
    case(
        "catalogue-range",
        "under_armour_mm = [13, 20]",
        "under_armour_mm = [20, 28]",
        "[20, 28]",
    ),
    case(
        "catalogue-range",
        "outer_mm = [300, 200, 120]",
        "outer_mm = [300, -200, 120]",
        "-200",
    ),
    case(
        "catalogue-reversed",
        "clamping_mm = [19, 27]",
        "clamping_mm = [27, 19]",
        "[27, 19]",
    ),
    case(
        "catalogue-reversed",
        "service_c = [-55, 110]",
        "service_c = [110, -55]",
        "[110, -55]",
    ),
    case(
        "catalogue-reversed",
        "stranded_mm2 = [0.5, 2.5] }\nwidth",
        "stranded_mm2 = [2.5, 0.5] }\nwidth",
        "[2.5, 0.5]",
    ),
    // The reading layer's own findings reach through.
    case(
        "source-unknown-field",
        "turnable = true",
        "turnible = true",
        "turnible",
    ),
    case(
        "source-wrong-type",
        "width_mm = 6.2",
        "width_mm = \"6.2\"",
        "\"6.2\"",
    ),
    case(
        "source-unknown-value",
        "material = \"grp\"",
        "material = \"wood\"",
        "\"wood\"",
    ),
    case("source-unknown-table", "[[plug]]", "[[plugs]]", "plugs"),
    case("source-not-finite", "price = 34", "price = inf", "inf"),
    case(
        "catalogue-certificate",
        "certificate = { number = \"PAGE-C-1\"",
        "certificate = { number = \" \"",
        "\" \"",
    ),
];
