//! Dissipated power and the heat of closed boxes. Knows nothing of drawing or solving.
