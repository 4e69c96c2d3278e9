//! Single figures of the trade, answered with source, status and intermediate values.
