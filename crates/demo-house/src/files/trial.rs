//! The trials: the plan of their beds, and their picks.

use crate::files::NOVEMBER_2026;
use crate::house::House;
use crate::paper::{Cell, Format, Letters, Page, Sheaf};
use crate::trial::{self, CHECK, FIRST_METRES, PLOT_METRES, TrialPlot};

/// Both trials' beds, written by the program that laid them out.
#[must_use]
pub fn beds(house: &House) -> Sheaf {
    let mut page = Page::default();
    page.words(&[
        "Grow-out",
        "Season",
        "Garden",
        "Plot",
        "Variety",
        "Replicate",
        "Bed",
        "Row",
        "Position",
        "Role",
        "From (m)",
        "To (m)",
        "Transplanted",
        "Plants",
    ]);
    for own in &house.trial {
        page.record(bed_row(house, own));
    }
    sheaf(
        "beds-2026-trials.csv",
        "beds of both trials, a replicate a bed, with where each plot begins and ends",
        page,
    )
}

fn bed_row(house: &House, own: &TrialPlot) -> Vec<Cell> {
    let plot = &own.plot;
    let from = FIRST_METRES + PLOT_METRES * f64::from(plot.position.saturating_sub(1));
    let metres = |length: f64| format!("{length:.1}");
    let variety = plot.label_of(&house.truth).map_or("", |variety| variety.entry.name.as_str());
    vec![
        own.grow_out().into(),
        (trial::YEAR as u32).into(),
        plot.grow_out.garden.name().into(),
        plot.label.as_str().into(),
        variety.into(),
        plot.block.into(),
        own.bed().into(),
        plot.row.into(),
        plot.position.into(),
        if variety == CHECK { "check" } else { "entry" }.into(),
        metres(from).into(),
        metres(from + PLOT_METRES).into(),
        plot.transplanted.to_string().into(),
        (plot.plants.len() as u32).into(),
    ]
}

/// Both trials' picks.
#[must_use]
pub fn picks(house: &House) -> Sheaf {
    let mut page = Page::default();
    page.words(&["Grow-out", "Plot", "Variety", "Date", "Sound fruit", "Weight (g)", "Culled"]);
    for own in &house.trial {
        let variety = own.plot.label_of(&house.truth).map_or("", |variety| variety.entry.name.as_str());
        for pick in &own.picks {
            page.record(vec![
                own.grow_out().into(),
                own.plot.label.as_str().into(),
                variety.into(),
                pick.day.to_string().into(),
                pick.fruit_count.into(),
                format!("{:.0}", pick.weight.get()).into(),
                pick.culls.first().and_then(|cull| cull.fruit_count).unwrap_or(0).into(),
            ]);
        }
    }
    let about = "picks of both trials, plot by plot; four plots were lost and have none";
    sheaf("picks-2026-trials.csv", about, page)
}

fn sheaf(name: &str, about: &'static str, page: Page) -> Sheaf {
    Sheaf {
        path: format!("{NOVEMBER_2026}/{name}"),
        about,
        format: Format::Text { delimiter: ',', letters: Letters::Utf8, line_end: "\n" },
        pages: vec![page],
    }
}
