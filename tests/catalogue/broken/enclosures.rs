//! Broken enclosures: sizes, walls, ratings, what their certificates say.

use super::{Case, case};

/// Each with the finding that is expected.
pub const CASES: &[Case] = &[
    case(
        "catalogue-arrangement",
        "most_conductors = 23 },",
        "most_conductors = 23 },\n{ class = \"T6\", ambient_c = 40, section_mm2 = 2.5, current_a = 20, most_conductors = 24 },",
        "24 }",
    ),
    case(
        "catalogue-arrangement",
        "most_conductors = 23 },",
        "most_conductors = 23 },\n{ class = \"T6\", ambient_c = 40, section_mm2 = 2.5, current_a = 16, most_conductors = 9 },",
        "{ class = \"T6\", ambient_c = 40, section_mm2 = 2.5, current_a = 16, most_conductors = 9",
    ),
    case(
        "catalogue-earth",
        "external_earth_mm2 = 16",
        "external_earth_mm2 = 2.5",
        "2.5",
    ),
    case(
        "catalogue-impact",
        "impact_j = 7\n",
        "impact_j = 2\n",
        "2\n",
    ),
    case(
        "catalogue-ip",
        "service_c = [-50, 65], ip = \"IP66\"",
        "service_c = [-50, 65], ip = \"IP44\"",
        "\"IP44\"",
    ),
    case(
        "catalogue-ip",
        "service_c = [-50, 65], ip = \"IP66\"",
        "service_c = [-50, 65], ip = \"IP56\"",
        "\"IP56\"",
    ),
    case(
        "catalogue-ip",
        "service_c = [-60, 100], ip = \"IP66\"",
        "service_c = [-60, 100], ip = \"IP43\"",
        "\"IP43\"",
    ),
    case(
        "catalogue-outside",
        "plate = { x_mm = 8",
        "plate = { x_mm = 17",
        "{ x_mm = 17",
    ),
    case(
        "catalogue-outside",
        "standoff_mm = 5",
        "standoff_mm = 110",
        "110",
    ),
    case(
        "catalogue-outside",
        "lid = { x_mm = 20, y_mm = 20",
        "lid = { x_mm = 20, y_mm = 41",
        "{ x_mm = 20, y_mm = 41",
    ),
    case(
        "catalogue-outside",
        "[[20, 10, 250, 88]]",
        "[[20, 10, 271, 88]]",
        "[20, 10, 271, 88]",
    ),
    case(
        "catalogue-outside",
        "[[20, 10, 250, 88]]",
        "[[-1, 10, 250, 88]]",
        "[-1, 10",
    ),
    case(
        "catalogue-overlap",
        "[[20, 10, 250, 88]]",
        "[[20, 10, 100, 88], [119, 10, 100, 88]]",
        "[119, 10, 100, 88]",
    ),
    case(
        "catalogue-rated-power",
        "power_w = 13.5",
        "power_w = 18.5",
        "18.5",
    ),
    case(
        "catalogue-rated-power",
        "{ class = \"T6\", ambient_c = 50, power_w",
        "{ class = \"T6\", ambient_c = 40, power_w",
        "{ class = \"T6\", ambient_c = 40, power_w = 13.5",
    ),
    case(
        "catalogue-rated-power",
        "{ class = \"T6\", ambient_c = 50, power_w",
        "{ class = \"T6\", ambient_c = 66, power_w",
        "{ class = \"T6\", ambient_c = 66",
    ),
    case(
        "catalogue-size",
        "inner_mm = [290, 190, 110]",
        "inner_mm = [290, 200, 110]",
        "200, 110]",
    ),
    case(
        "catalogue-size",
        "inner_mm = [290, 190, 110]",
        "inner_mm = [291, 190, 110]",
        "291",
    ),
    case(
        "catalogue-wall",
        "walls.bottom = {",
        "walls.lid = {",
        "{ areas",
    ),
    case(
        "catalogue-wall",
        "hinge = \"left\"",
        "hinge = \"back\"",
        "\"back\"",
    ),
    case(
        "catalogue-wall",
        "areas_mm = [[20, 10, 250, 88]]",
        "areas_mm = []",
        "[]",
    ),
    case(
        "catalogue-arrangement",
        "defined_arrangement = [\n    { class = \"T6\", ambient_c = 40, section_mm2 = 2.5, current_a = 16, most_conductors = 23 },\n]\ndefined_arrangement_decides = false",
        "defined_arrangement = []\ndefined_arrangement_decides = true",
        "true",
    ),
];
