//! What a weather file is, by how it begins.

use super::{ghcn, normals, table};
use crate::climate::normals::is_of_means;

/// What a weather file is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Form {
    /// The network's file by station, a line a month and element.
    Months,
    /// The network's file with one value a line.
    Values,
    /// Climate normals, freeze dates or means, which hold no days.
    Normals,
    /// A table of days, with its headings.
    Days(Vec<String>),
}

/// What a file that begins so is; `None` where it is no weather file. A table of days has a column of dates, one of
/// lowest and one of highest temperatures; what else it has is for the caller to judge.
#[must_use]
pub fn recognise(beginning: &str) -> Option<Form> {
    if normals::is_of_freezes(beginning) || is_of_means(beginning) {
        Some(Form::Normals)
    } else if ghcn::is_of_months(beginning) {
        Some(Form::Months)
    } else if ghcn::is_of_values(beginning) {
        Some(Form::Values)
    } else {
        table::headings_of_days(beginning).map(Form::Days)
    }
}
