//! What workshop and fitter receive, made from hand-made arrangements.

mod belonging;
mod drawings;
mod failing;
mod fitting;
mod fixture;
mod formats;
mod lines;
#[path = "../support/python.rs"]
mod python;
mod reading;
mod samples;
mod text;
mod workbook;
mod workshop;
