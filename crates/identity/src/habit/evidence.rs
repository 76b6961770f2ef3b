//! What walks, tapes and picks said of one variety's habit, as facts that still know their plot.
//!
//! Facts are kept small and unsorted; `habit::patch` sorts and resolves them when a call is
//! made, so that neither the order in which notes arrive nor the way parts are merged can change a call.
//! Start at [`HabitEvidence::note`].

use jiff::civil::Date;
use record::growout::{PlantNumber, Plot};
use record::id::Id;
use record::note::Note;
use record::pick::Pick;
use record::season::Season;
use record::stage::{StageNote, StageSeen};
use record::subject::Subject;
use record::unknown::{GrowthSeen, LeavesSeen, PlantSeen, RipeningSeen};
use std::collections::BTreeMap;

/// A season and a plot within it: plants that shared their ground, weather and seed packet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PatchKey {
    /// The season.
    pub season: Season,
    /// The plot, where noted.
    pub plot: Option<Id<Plot>>,
}

/// Where and when one fact was seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Seen {
    pub(crate) patch: PatchKey,
    pub(crate) plant: Option<PlantNumber>,
    pub(crate) on: Option<Date>,
}

/// What a main stem was seen to do.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) enum Fate {
    /// Still growing after so many trusses.
    Growing(u32),
    /// Ended in a truss, nobody counted after how many.
    Ended,
    /// Ended in a truss after so many, that one included.
    EndedAfter(u32),
}

/// Everything noted that speaks of one variety's habit.
#[derive(Clone, Debug, Default)]
pub struct HabitEvidence {
    pub(crate) stems: Vec<(Seen, Fate)>,
    pub(crate) leaves: Vec<(Seen, f64)>,
    pub(crate) heights: Vec<(Seen, f64)>,
    pub(crate) picks: Vec<(Seen, Amount)>,
    pub(crate) dwarf_leaves: Vec<Seen>,
    pub(crate) stands: Vec<(Seen, u32)>,
    pub(crate) told: BTreeMap<PatchKey, Told>,
}

/// What a grower says of a plant as a whole, where others would have kept a series of readings.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Told {
    pub(crate) growth: Option<GrowthSeen>,
    pub(crate) ripening: Option<RipeningSeen>,
    /// What its leaves were said to look like; a dwarf's are noted as in a walk too.
    pub(crate) leaves: Option<LeavesSeen>,
}

/// Fruit of one pick, culls included: they ripened too.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Amount {
    pub(crate) fruits: Option<u32>,
    pub(crate) grams: Option<f64>,
}

impl HabitEvidence {
    /// Gathers the notes of one variety; fruit and colour notes are passed over.
    #[must_use]
    pub fn gather<'a>(notes: impl IntoIterator<Item = &'a Note>) -> Self {
        let mut evidence = Self::default();
        notes.into_iter().for_each(|note| evidence.note(note));
        evidence
    }

    /// Adds one note. Its variety is not looked at: that is the caller's sorting.
    pub fn note(&mut self, note: &Note) {
        match note {
            Note::Stage(stage) => self.stage(stage),
            Note::Height(reading) => {
                self.heights.push((seen(&reading.subject, Some(reading.read_on)), reading.height.get()));
            }
            Note::Pick(pick) => self.picks.push((seen(&pick.subject, Some(pick.picked_on)), amount(pick))),
            Note::Fruit(_) | Note::Colour(_) => {}
        }
    }

    /// Adds what is said of a plant as a whole; of plants of one plot, the first that is said stands.
    pub fn told(&mut self, subject: &Subject, plant: &PlantSeen) {
        if plant.growth.is_some() || plant.ripening.is_some() || plant.leaves.is_some() {
            let told = self.told.entry(seen(subject, None).patch).or_default();
            told.growth = told.growth.or(plant.growth);
            told.ripening = told.ripening.or(plant.ripening);
            told.leaves = told.leaves.or(plant.leaves);
        }
    }

    /// Adds what other notes of the same variety said.
    pub fn merge(&mut self, other: Self) {
        self.stems.extend(other.stems);
        self.leaves.extend(other.leaves);
        self.heights.extend(other.heights);
        self.picks.extend(other.picks);
        self.dwarf_leaves.extend(other.dwarf_leaves);
        self.stands.extend(other.stands);
        self.told.extend(other.told);
    }

    /// How many facts were gathered; plant counts, which do not enter the call, are left out.
    #[must_use]
    pub fn records(&self) -> usize {
        let told = |told: &Told| {
            // A dwarf's leaves are counted among the notes.
            let ordinary = told.leaves == Some(LeavesSeen::Ordinary);
            usize::from(told.growth.is_some()) + usize::from(told.ripening.is_some()) + usize::from(ordinary)
        };
        let told: usize = self.told.values().map(told).sum();
        let stage = self.stems.len() + self.leaves.len() + self.dwarf_leaves.len();
        stage + self.heights.len() + self.picks.len() + told
    }

    /// Plants counted in each season: the fullest count of every plot, added up.
    pub(crate) fn stands_by_season(&self) -> BTreeMap<Season, u64> {
        let mut plots: BTreeMap<PatchKey, u32> = BTreeMap::new();
        for (seen, plants) in &self.stands {
            let most = plots.entry(seen.patch).or_default();
            *most = (*most).max(*plants);
        }
        let mut seasons = BTreeMap::new();
        for (patch, plants) in plots {
            *seasons.entry(patch.season).or_default() += u64::from(plants);
        }
        seasons
    }

    /// Season and plot of every fact, as often as it was noted.
    pub(crate) fn plots_by_season(&self) -> impl Iterator<Item = (Season, Option<Id<Plot>>)> {
        let stems = self.stems.iter().map(|(seen, _)| seen.patch);
        let leaves = self.leaves.iter().map(|(seen, _)| seen.patch);
        let heights = self.heights.iter().map(|(seen, _)| seen.patch);
        let picks = self.picks.iter().map(|(seen, _)| seen.patch);
        stems.chain(leaves).chain(heights).chain(picks).map(|patch| (patch.season, patch.plot))
    }

    /// Trusses on the main stems that were counted to their end: how many stems, and the mean.
    pub(crate) fn trusses_at_end(&self) -> Option<(u32, f64)> {
        let ended = self.stems.iter().filter_map(|(_, fate)| match fate {
            Fate::EndedAfter(trusses) => Some(f64::from(*trusses)),
            Fate::Growing(_) | Fate::Ended => None,
        });
        let (stems, sum) = ended.fold((0_u32, 0.0), |(stems, sum), trusses| (stems + 1, sum + trusses));
        (0 < stems).then(|| (stems, sum / f64::from(stems)))
    }

    fn stage(&mut self, note: &StageNote) {
        let at = seen(&note.subject, note.noted_on);
        match &note.seen {
            StageSeen::StemEnded { trusses: Some(trusses) } => {
                self.stems.push((at, Fate::EndedAfter(*trusses)));
            }
            StageSeen::StemEnded { trusses: None } => self.stems.push((at, Fate::Ended)),
            StageSeen::StemGrowing { trusses } => self.stems.push((at, Fate::Growing(*trusses))),
            StageSeen::LeavesBetweenTrusses(leaves) => self.leaves.push((at, leaves.get())),
            StageSeen::PlantCount(plants) => self.stands.push((at, *plants)),
            StageSeen::DwarfLeaves => self.dwarf_leaves.push(at),
            StageSeen::FirstFlower | StageSeen::FirstRipe | StageSeen::OffType { .. } => {}
        }
    }
}

fn seen(subject: &Subject, on: Option<Date>) -> Seen {
    let patch = PatchKey { season: subject.season, plot: subject.plot };
    Seen { patch, plant: subject.plant, on }
}

fn amount(pick: &Pick) -> Amount {
    let culled =
        |count: fn(&record::pick::Cull) -> Option<f64>| pick.culls.iter().filter_map(count).sum::<f64>();
    let culled_fruits: u32 =
        pick.culls.iter().filter_map(|cull| cull.fruit_count).fold(0, u32::saturating_add);
    let grams =
        pick.weight.map(|weight| weight.get() + culled(|cull| cull.weight.map(|weight| weight.get())));
    Amount { fruits: pick.fruit_count.map(|sound| sound.saturating_add(culled_fruits)), grams }
}
