//! One file per command. Holds no calculation.
