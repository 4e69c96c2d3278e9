//! The choice of the enclosure and the decisions that lead to it. Knows nothing of the audit.
