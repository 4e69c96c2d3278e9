//! Catalogue and workshop files: the demo data, the documentation, and what is found in broken files.

mod broken;
mod command;
mod demo;
mod documentation;
mod fields;
mod files;
mod import;
mod page;
mod workshop_page;
