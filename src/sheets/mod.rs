//! What the reader receives: drawings, lists, text. Knows nothing of solving.
