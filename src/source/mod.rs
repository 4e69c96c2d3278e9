//! Text files as the user wrote them: places in a file, findings, nearest known names. Knows nothing of the trade.

/// Placeholder until the full file lands.
#[derive(Debug, Clone)]
pub struct Place;
