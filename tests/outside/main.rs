//! Our figures against figures from outside: standards, textbooks, published measurements and
//! independent computations. One file per source; each says where its numbers come from and why
//! its tolerance is what it is.

mod box_table;
mod convection_table;
mod equal_circles;
mod explosive_atmospheres;
mod iec_60204_1;
mod iec_60228;
mod iec_60715;
mod increased_safety;
mod nec_bending;
mod nec_conductors;
mod proficiency_box;
#[path = "../support/python.rs"]
mod python;
mod python_heat;
mod sealed_box;
mod support;
mod textbook_convection;
mod threads;
mod tr_60890;
