//! Broken terminals, accessories and rails.

use super::{Case, case};

/// Each with the finding that is expected.
pub const CASES: &[Case] = &[
    case(
        "catalogue-circuits",
        "circuits = [\"ex_e\"]\nclamp",
        "circuits = []\nclamp",
        "[]",
    ),
    case(
        "catalogue-circuits",
        "circuits = [\"ex_e\"]\nrated",
        "circuits = []\nrated",
        "[]",
    ),
    case(
        "catalogue-clamp",
        "clamp = { stranded_mm2 = [0.5, 2.5] }",
        "clamp = {}",
        "{}",
    ),
    // 690 V falls into the row for 630 V and 10 % more: 12 mm of creepage for group I.
    case(
        "catalogue-distance",
        "neighbour_distance_mm = 12.5",
        "neighbour_distance_mm = 11.9",
        "11.9",
    ),
    case(
        "catalogue-distance",
        "neighbour_distance_mm = 6\n",
        "neighbour_distance_mm = 5.9\n",
        "5.9",
    ),
    case(
        "catalogue-live-parts",
        "top_mm = 7, foot_mm = 14.5",
        "top_mm = 7, foot_mm = 37",
        "7, foot_mm = 37",
    ),
    case(
        "catalogue-live-parts",
        "live_inset_mm = 3",
        "live_inset_mm = 15",
        "15",
    ),
    case(
        "catalogue-profile",
        "rails = [\"TH35-15\"]",
        "rails = [\"TH35-17\"]",
        "\"TH35-17\"",
    ),
    case(
        "catalogue-profile",
        "profile = \"TH35-7.5\"",
        "profile = \"TH 35-7.5\"",
        "\"TH 35-7.5\"",
    ),
    case(
        "catalogue-ratings",
        "section_mm2 = 4, current_a = 28",
        "section_mm2 = 4, current_a = 4.9",
        "4.9",
    ),
    case(
        "catalogue-ratings",
        "section_mm2 = 4, current_a = 28",
        "section_mm2 = 0.5, current_a = 28",
        "0.5, current_a = 28",
    ),
    case(
        "catalogue-ratings",
        "ratings = [{ section_mm2 = 0.5, current_a = 5 }]",
        "ratings = []",
        "[]",
    ),
    case(
        "catalogue-torque",
        "spring_clamp = false\ntorque_nm = 0.7",
        "spring_clamp = true\ntorque_nm = 0.7",
        "0.7",
    ),
    case(
        "catalogue-tracking",
        "tracking_index = 600",
        "tracking_index = 100",
        "100",
    ),
];
