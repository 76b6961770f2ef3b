//! What the house's plots say of its varieties' crops.

use super::place::{Homes, Source};
use crate::kept::{KeptFacts, KeptMeasure};
use crate::list::Listed;
use crate::ripen::PlotPicks;
use identity::habit::Habit;
use record::id::Id;
use record::length::Millimetres;
use record::mass::Grams;
use record::variety::Variety;
use ripening::crop::{self, Belief, Crop, Kind, PlotCrop, Shape};
use ripening::forecast::Seasons;
use ripening::grown::Grown;
use ripening::thermal::Clock;
use ripening::truss::{Outline, Trusses};
use std::collections::{BTreeMap, HashMap};

/// Weight of a fruit where none was counted and weighed, in grams. Common practice, no source.
const A_FRUIT: f64 = 100.0;

/// Crops of the house.
pub(crate) struct Crops {
    /// Of every variety whose picks tell one.
    pub(crate) own: BTreeMap<Id<Variety>, Crop>,
    names: HashMap<String, Id<Variety>>,
    fruits: HashMap<Id<Variety>, Grams>,
    /// Of every variety of the list, without plots: what is known of it before its picks.
    kinds: HashMap<Id<Variety>, Crop>,
    humps: Option<Kind>,
    streams: Option<Kind>,
    /// Plots for whose season a middling one stands in, of all.
    pub(crate) stood_in: (usize, usize),
}

/// Works every variety's crop out.
pub(crate) fn crops(
    listed: &[Listed],
    plots: &BTreeMap<Id<Variety>, Vec<PlotPicks>>,
    homes: &Homes,
    clock: Clock,
) -> Crops {
    let fruit = |plots: &Vec<PlotPicks>| {
        plots.iter().filter_map(|plot| plot.told().fruit).map(|(early, _)| early).next_back()
    };
    let fruits: HashMap<Id<Variety>, Grams> =
        plots.iter().filter_map(|(id, plots)| Some((*id, fruit(plots)?))).collect();
    let kind = |one: &Listed| (one.variety.id, without_plots(one, fruits.get(&one.variety.id)));
    let kinds: HashMap<Id<Variety>, Crop> = listed.iter().map(kind).collect();
    let mut seasons = SeasonsOfPlots::new(homes, clock);
    let mut own: BTreeMap<Id<Variety>, Crop> = BTreeMap::new();
    let mut stood_in = (0, 0);
    for (id, plots) in plots {
        let Some(kind) = kinds.get(id) else { continue };
        let read = plots.iter().filter_map(|plot| {
            let (grown, is_own) = seasons.of(&plot.garden, plot.picked.transplanted())?;
            let sound = plot.kilograms()?;
            let read = crop::of_plot(kind.shape, plot.season, &plot.picked, grown, sound)?;
            stood_in = (stood_in.0 + usize::from(!is_own), stood_in.1 + 1);
            Some(read)
        });
        let plots: Vec<PlotCrop> = read.collect();
        if !plots.is_empty() {
            own.insert(*id, Crop { plots, ..kind.clone() });
        }
    }
    let all: Vec<&Crop> = own.values().collect();
    let (humps, streams) = (Kind::of(Shape::Hump, &all), Kind::of(Shape::Stream, &all));
    let names = listed.iter().map(|one| (one.variety.name.clone(), one.variety.id)).collect();
    Crops { humps, streams, own, names, fruits, kinds, stood_in }
}

/// Grams in a kilogram.
const GRAMS_IN_KILOGRAM: f64 = 1000.0;

impl Crops {
    /// What is believed of a variety, of its kind where it has no plots; and kilograms of a fruit.
    pub(crate) fn of(&self, id: Id<Variety>) -> Option<(Belief, f64)> {
        Some((self.belief(id)?, self.fruit(id)))
    }

    /// What is believed of a variety; of its kind where it has no plots.
    pub(crate) fn belief(&self, id: Id<Variety>) -> Option<Belief> {
        let own = self.own.get(&id).or_else(|| self.kinds.get(&id))?;
        let kind = match own.shape {
            Shape::Hump => self.humps.as_ref(),
            Shape::Stream => self.streams.as_ref(),
        };
        Belief::of(own, kind?)
    }

    fn fruit(&self, id: Id<Variety>) -> f64 {
        self.fruits.get(&id).copied().map_or(A_FRUIT, Grams::get) / GRAMS_IN_KILOGRAM
    }

    /// Plots and seasons behind a variety.
    pub(crate) fn rests_on(&self, one: &Listed) -> (usize, usize) {
        let plots = self.own.get(&one.variety.id).map(|crop| crop.plots.as_slice()).unwrap_or_default();
        let seasons: std::collections::BTreeSet<_> = plots.iter().map(|plot| plot.season).collect();
        (plots.len(), seasons.len())
    }

    /// What is believed of a variety by its name, and the weight of its fruit.
    pub(crate) fn by_name(&self, name: &str) -> Option<(Belief, f64)> {
        self.of(*self.names.get(name)?)
    }
}

/// What is known of a variety before its picks: how its crop goes on, and how fast its trusses follow each other.
fn without_plots(one: &Listed, picked: Option<&Grams>) -> Crop {
    let facts = one.fruit.as_ref().map(|fruit| &fruit.facts);
    let usual = |of: fn(&KeptFacts) -> Option<KeptMeasure>| facts.and_then(of).map(|measure| measure.usual);
    let weighed = picked.copied().or_else(|| Grams::new(usual(|facts| facts.weight_g)?));
    let length = usual(|facts| facts.length_mm).and_then(Millimetres::new);
    let both = length.zip(usual(|facts| facts.width_mm).and_then(Millimetres::new));
    let outline = both.map_or(Outline::Round, |(length, width)| Outline::of(length, width));
    let trusses = weighed.map_or_else(Trusses::default, |fruit| Trusses::usual(fruit, outline));
    Crop { shape: shape(one), trusses, plots: Vec::new() }
}

/// A variety that is called indeterminate streams; others, and those not called, have one crop.
fn shape(one: &Listed) -> Shape {
    let verdict = one.habit.as_ref().and_then(|habit| habit.call.verdict.as_deref());
    if verdict.is_some_and(|verdict| verdict == Habit::Indeterminate.to_string()) {
        Shape::Stream
    } else {
        Shape::Hump
    }
}

/// The seasons that plots stood in, each followed once.
pub(super) struct SeasonsOfPlots<'a> {
    homes: &'a Homes,
    clock: Clock,
    known: HashMap<(String, jiff::civil::Date), Option<(Grown, bool)>>,
}

impl<'a> SeasonsOfPlots<'a> {
    pub(super) fn new(homes: &'a Homes, clock: Clock) -> Self {
        Self { homes, clock, known: HashMap::new() }
    }

    /// The season of a garden from a day on, and whether it is its own: else the middling one of that garden's years.
    pub(super) fn of(&mut self, garden: &str, out: jiff::civil::Date) -> Option<(&Grown, bool)> {
        let (home, clock) = (self.homes.of(garden)?, self.clock);
        let known = self.known.entry((garden.to_owned(), out)).or_insert_with(|| {
            // A drawn year is nobody's, though it may carry the number of one.
            let is_measured = matches!(home.climates.source, Source::Measured { .. });
            let own =
                is_measured.then(|| Grown::of(&home.days, clock, out)).flatten().map(|grown| (grown, true));
            own.or_else(|| {
                let seasons = Seasons::of(&home.days, clock, (out.month(), out.day()));
                Grown::usual(&seasons.grown, out).map(|grown| (grown, false))
            })
        });
        known.as_ref().map(|(grown, is_own)| (grown, *is_own))
    }
}
