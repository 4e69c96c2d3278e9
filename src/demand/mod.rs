//! What follows from a requirement list: terminals, entries, elements, conductors.
