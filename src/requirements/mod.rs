//! The requirement list as the user wrote it, checked. Knows nothing of the enclosure that will be chosen.
