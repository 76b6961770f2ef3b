//! A form's fields as the text of a layout file: what stands in them is written down as it is, and [`super::read`]
//! judges it as it judges any file.

use std::fmt::Write;
use toml_edit::Value;

/// The fields of a form, as they were typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Fields {
    /// The grow-out's name.
    pub name: String,
    /// Its season.
    pub season: String,
    /// The kind of layout.
    pub kind: String,
    /// Plots of each variety.
    pub replicates: String,
    /// Plots in a block; empty for a size that suits.
    pub block_size: String,
    /// Varieties, one a line.
    pub varieties: String,
    /// Words that the list is asked with instead.
    pub filter: String,
    /// Checks, one a line.
    pub checks: String,
    /// Plants in a plot.
    pub plants: String,
    /// Distance between plants.
    pub between_plants: String,
    /// Distance between rows.
    pub between_rows: String,
    /// Rows of plants that a plot takes.
    pub rows_per_plot: String,
    /// Guard plants at either end of a bed.
    pub guard_plants: String,
    /// Guard rows.
    pub guard_rows: String,
    /// The beds.
    pub beds: Vec<BedFields>,
}

/// The fields of one bed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct BedFields {
    /// Its garden; empty for that of the bed above.
    pub garden: String,
    /// Its name.
    pub name: String,
    /// Its length.
    pub length: String,
    /// Its width.
    pub width: String,
    /// The path after it.
    pub path: String,
    /// Where a stretch begins that is no use.
    pub from: String,
    /// Where it ends.
    pub to: String,
    /// Why.
    pub why: String,
}

impl BedFields {
    /// Whether nothing was typed.
    #[must_use]
    pub fn is_blank(&self) -> bool {
        self.name.is_empty() && self.length.is_empty() && self.width.is_empty()
    }
}

/// Writes the text of a layout file.
#[must_use]
pub fn write(fields: &Fields) -> String {
    let mut text = String::new();
    line(&mut text, "name", &words(&fields.name));
    line(&mut text, "season", &number(&fields.season));
    optional(&mut text, "kind", &fields.kind, words);
    line(&mut text, "replicates", &number(&fields.replicates));
    optional(&mut text, "block-size", &fields.block_size, number);
    if fields.filter.is_empty() {
        line(&mut text, "varieties", &names(&fields.varieties));
    } else {
        line(&mut text, "filter", &words(&fields.filter));
    }
    line(&mut text, "checks", &names(&fields.checks));
    text.push_str("\n[planting]\n");
    line(&mut text, "plants", &number(&fields.plants));
    line(&mut text, "between-plants", &words(&fields.between_plants));
    line(&mut text, "between-rows", &words(&fields.between_rows));
    optional(&mut text, "rows-per-plot", &fields.rows_per_plot, number);
    optional(&mut text, "guard-plants", &fields.guard_plants, number);
    optional(&mut text, "guard-rows", &fields.guard_rows, number);
    beds(&mut text, &fields.beds);
    text
}

fn beds(text: &mut String, beds: &[BedFields]) {
    let mut garden: Option<&str> = None;
    for bed in beds.iter().filter(|bed| !bed.is_blank()) {
        let named = Some(bed.garden.as_str()).filter(|own| !own.is_empty()).or(garden).unwrap_or("Garden");
        if garden != Some(named) {
            text.push_str("\n[[garden]]\n");
            line(text, "name", &words(named));
            garden = Some(named);
        }
        text.push_str("\n[[garden.bed]]\n");
        line(text, "name", &words(&bed.name));
        line(text, "length", &words(&bed.length));
        line(text, "width", &words(&bed.width));
        optional(text, "path", &bed.path, words);
        if !bed.from.is_empty() || !bed.to.is_empty() {
            let (from, to, why) = (words(&bed.from), words(&bed.to), words(&bed.why));
            line(text, "unusable", &format!("[{{ from = {from}, to = {to}, why = {why} }}]"));
        }
    }
}

fn line(text: &mut String, key: &str, value: &str) {
    // Writing to a string cannot fail.
    let _ = writeln!(text, "{key} = {value}");
}

fn optional(text: &mut String, key: &str, typed: &str, written: fn(&str) -> String) {
    if !typed.is_empty() {
        line(text, key, &written(typed));
    }
}

fn words(typed: &str) -> String {
    Value::from(typed).to_string()
}

/// A number as it is; what is none stays words, and reading says so.
fn number(typed: &str) -> String {
    typed.parse::<u32>().map_or_else(|_| words(typed), |number| number.to_string())
}

/// Names, one a line.
fn names(typed: &str) -> String {
    let names: Vec<String> =
        typed.lines().map(str::trim).filter(|name| !name.is_empty()).map(words).collect();
    format!("[{}]", names.join(", "))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::layout::file::{Varieties, read};

    fn fields() -> Fields {
        let bed = |garden: &str, name: &str| BedFields {
            garden: garden.to_owned(),
            name: name.to_owned(),
            length: "40 ft".to_owned(),
            width: "4 ft".to_owned(),
            ..BedFields::default()
        };
        Fields {
            name: "The \"old\" 2031 # trial".to_owned(),
            season: "2031".to_owned(),
            replicates: "2".to_owned(),
            varieties: "Amber Lantern\n\n  Quince Rose \n".to_owned(),
            plants: "4".to_owned(),
            between_plants: "18 in".to_owned(),
            between_rows: "24 in".to_owned(),
            beds: vec![bed("Home", "A"), bed("", "B"), BedFields::default(), bed("Hill", "A")],
            ..Fields::default()
        }
    }

    #[test]
    fn what_was_typed_is_read_back() {
        let wanted = read("the form", &write(&fields())).unwrap();
        assert_eq!(wanted.name, "The \"old\" 2031 # trial");
        assert_eq!(
            wanted.varieties,
            Varieties::Named(vec!["Amber Lantern".to_owned(), "Quince Rose".to_owned()])
        );
        let beds: Vec<(&str, usize)> =
            wanted.gardens.iter().map(|garden| (garden.name.as_str(), garden.beds.len())).collect();
        assert_eq!(beds, [("Home", 2), ("Hill", 1)]);
    }

    #[test]
    fn what_is_no_number_is_told_by_its_field() {
        let odd = Fields { plants: "four".to_owned(), ..fields() };
        let fault = read("the form", &write(&odd)).unwrap_err().to_string();
        assert!(fault.contains("plants: invalid type"), "{fault}");
    }
}
