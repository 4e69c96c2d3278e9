//! The workshop's rules: common practice of the trade as values that a shop may change.
