//! Published figures of the trade, one file per standard, each with its source and how sure we are of it. Knows nothing of this program.

pub mod iec_60079_0;
pub mod threads;
