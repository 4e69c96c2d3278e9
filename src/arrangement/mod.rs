//! The result: what is where, in millimetres. Knows nothing of how it was found.
