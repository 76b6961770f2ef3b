//! The copy: what the catalogue's template is given to set, every word of it ready to print.

use crate::catalogue::{Catalogue, Paper};
use crate::typesetting::Fonts;
use serde::Serialize;

/// The whole book.
#[derive(Serialize)]
pub(super) struct Copy {
    house: String,
}

impl Copy {
    pub(super) fn identity(&self) -> String {
        format!("locule catalogue {}", self.house)
    }
}

/// Words a catalogue for its template.
pub(super) fn copy(catalogue: &Catalogue, _paper: Paper, _fonts: &Fonts) -> Copy {
    Copy { house: catalogue.house.clone() }
}
