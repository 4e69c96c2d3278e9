//! The page of a job: what is in it, and how it answers in a real browser.

mod browser;
mod content;
mod driver;
mod jobs;
mod printing;
#[path = "../support/python.rs"]
mod python;
mod sorting;
mod window;
