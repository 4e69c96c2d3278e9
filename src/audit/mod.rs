//! Every rule measured on an arrangement, from scratch. Imports nothing of the model.
