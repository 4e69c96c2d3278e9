//! Text files as the user wrote them: places in a file, findings, nearest known names. Knows nothing of the trade.
