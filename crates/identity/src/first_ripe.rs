//! How many days from transplanting to the first ripe fruit, from walks and picks. Start at [`RipeEvidence`].
//!
//! A walk that noted the first ripe fruit tells it of that plot; where nobody noted it, the first pick with sound fruit
//! does, which may be some days late. A plot without a transplanting day, and a plot that nothing ripe was noted of, say
//! nothing: a plot that nobody picked is not a late one.

use crate::over_plots::{OverPlots, median, over_plots};
use jiff::civil::Date;
use record::growout::{Plant, PlantNumber, Plot};
use record::id::Id;
use record::note::Note;
use record::pick::Pick;
use record::stage::StageSeen;
use record::subject::Subject;
use std::collections::BTreeMap;

/// A plot, or one plant of it.
type Place = (Id<Plot>, Option<PlantNumber>);

/// The days on which plants went out.
#[derive(Clone, Debug, Default)]
pub struct Transplanted {
    days: BTreeMap<Place, Date>,
}

impl Transplanted {
    /// Takes the days of plots, and those of plants that went out on another day than their plot.
    #[must_use]
    pub fn new(plots: &[Plot], plants: &[Plant]) -> Self {
        let plots = plots.iter().filter_map(|plot| Some(((plot.id, None), plot.transplanted?)));
        let plants = plants.iter().filter_map(|one| Some(((one.plot, Some(one.number)), one.transplanted?)));
        Self { days: plots.chain(plants).collect() }
    }

    fn of(&self, (plot, plant): Place) -> Option<Date> {
        self.days.get(&(plot, plant)).or_else(|| self.days.get(&(plot, None))).copied()
    }
}

/// What walks and picks said of one variety's first ripe fruit.
#[derive(Clone, Debug, Default)]
pub struct RipeEvidence {
    noted: BTreeMap<Place, Date>,
    picked: BTreeMap<Place, Date>,
}

impl RipeEvidence {
    /// Adds one note; what says nothing of ripe fruit in a plot is passed over.
    pub fn note(&mut self, note: &Note) {
        match note {
            Note::Stage(stage) if stage.seen == StageSeen::FirstRipe => {
                keep_first(&mut self.noted, &stage.subject, stage.noted_on);
            }
            Note::Pick(pick) if has_sound_fruit(pick) => {
                keep_first(&mut self.picked, &pick.subject, Some(pick.picked_on));
            }
            _ => {}
        }
    }

    /// Days from transplanting to the first ripe fruit: the median plot, and the earliest and the latest.
    ///
    /// # Shape
    /// A plot is the median of its plants where they were noted one by one. `None` where no plot tells.
    #[must_use]
    pub fn days(&self, transplanted: &Transplanted) -> Option<OverPlots> {
        let noted = by_plot(&self.noted, transplanted);
        let mut plots = by_plot(&self.picked, transplanted);
        plots.extend(noted);
        over_plots(plots.into_values().filter_map(|days| median(&days)))
    }
}

/// Later than this after transplanting a first ripe fruit is a slip in a date. Common practice, no source.
const MOST_DAYS: i32 = 220;

fn by_plot(firsts: &BTreeMap<Place, Date>, transplanted: &Transplanted) -> BTreeMap<Id<Plot>, Vec<f64>> {
    let mut plots: BTreeMap<Id<Plot>, Vec<f64>> = BTreeMap::new();
    for (place, first) in firsts {
        let Some(out) = transplanted.of(*place) else { continue };
        let days = first.since(out).map_or(-1, |span| span.get_days());
        if (1..=MOST_DAYS).contains(&days) {
            plots.entry(place.0).or_default().push(f64::from(days));
        }
    }
    plots
}

fn has_sound_fruit(pick: &Pick) -> bool {
    pick.fruit_count.is_some_and(|fruits| 0 < fruits) || pick.weight.is_some_and(|weight| 0.0 < weight.get())
}

fn keep_first(firsts: &mut BTreeMap<Place, Date>, subject: &Subject, on: Option<Date>) {
    let (Some(plot), Some(on)) = (subject.plot, on) else { return };
    let first = firsts.entry((plot, subject.plant)).or_insert(on);
    *first = on.min(*first);
}
