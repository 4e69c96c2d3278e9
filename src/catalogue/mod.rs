//! What a shop can buy: enclosures, terminals, glands, elements. Knows nothing of requirements.
