//! What workshop and fitter receive, made from hand-made arrangements.

mod drawings;
mod fixture;
mod formats;
mod reading;
mod text;
mod workbook;
