//! The list as a folder of web pages, written whole or not at all.
//!
//! Start at [`write`]. `gather` puts together what the pages say, `beside` writes a folder beside its place and swaps
//! it in. Varieties are read, drawn and written a handful at a time, so that ten thousand need little room.

mod beside;
mod gardens;
mod gather;
mod rule;
mod search;
mod stand_ins;

use crate::fault::HouseFault;
use crate::folder::House;
use crate::guides::{self, Guides};
use crate::list::{self, Listed};
use crate::progress::Progress;
use crate::strips::{self, Behind as Backdrop};
use beside::Beside;
use drawing::strip::Strip;
use identity::guide::fruit::FruitGuide;
use identity::spread::{self, Spread};
use identity::sums::FruitSums;
use jiff::civil::Date;
use ledger::evidence::Whose;
use ledger::ledger::Ledger;
use publish::pages::{Behind, Folder};
use rayon::prelude::{IntoParallelIterator, ParallelIterator};
use record::fruit::FruitSample;
use record::id::Id;
use record::language::Units;
use record::season::Season;
use record::variety::Variety;
use std::collections::{BTreeSet, HashMap};
use std::ops::ControlFlow;
use std::path::{Path, PathBuf};

/// A folder of pages that was written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Written {
    /// The folder.
    pub folder: PathBuf,
    /// Files in it.
    pub files: u64,
    /// Their bytes together.
    pub bytes: u64,
    /// Varieties.
    pub varieties: usize,
}

/// The folder that pages go to unless another is named.
#[must_use]
pub fn default_folder(house: &House) -> PathBuf {
    house.printed().join("pages")
}

/// Writes the pages to the folder `to`, whole or not at all.
///
/// A folder that an earlier run wrote is replaced; files in it that are not ours stay. Any other folder that holds
/// something is refused.
///
/// # Errors
/// [`HouseFault::NotEmpty`] and [`HouseFault::Busy`]; [`HouseFault::InTheWay`] where a file that is not ours has the
/// name of a page; a guide's fault; what the ledger or the disk refuses.
pub fn write(house: &House, to: &Path, today: Date, progress: &dyn Progress) -> Result<Written, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let beside = Beside::begin(to)?;
    let varieties = ledger.at_one_moment(|ledger| {
        let guides = guides::read(&guides::accepted(ledger)?)?;
        let all = list::everyone(ledger)?;
        let folder = Folder::of(gather::web_list(house, ledger, &all, &guides, today)?);
        let story = Story { house, folder: &folder, beside: &beside, all: &all, guides: &guides, progress };
        let behind = story.tell_varieties(ledger)?;
        folder.common(&behind)?.iter().try_for_each(|file| beside.write(file))?;
        Ok::<_, HouseFault>(all.len())
    })?;
    let written = beside.swap_in()?;
    Ok(Written { folder: to.to_owned(), files: written.files, bytes: written.bytes, varieties })
}

/// Refuses regions that the settings name and nobody knows.
///
/// # Errors
/// The place's fault; what the ledger refuses.
pub fn refuse_unknown_regions(house: &House) -> Result<(), HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    gardens::refuse_unknown(house, &mut ledger)
}

/// Varieties that are drawn and written together.
const TOGETHER: usize = 64;

/// The writing of one folder.
struct Story<'a> {
    house: &'a House,
    folder: &'a Folder,
    beside: &'a Beside,
    all: &'a [Listed],
    guides: &'a Guides,
    progress: &'a dyn Progress,
}

impl Story<'_> {
    /// Writes every variety, those with fruit as they are read, and tells what stands behind them all.
    fn tell_varieties(&self, ledger: &mut Ledger) -> Result<Behind, HouseFault> {
        self.progress.begin("writing the pages", u64::try_from(self.all.len()).ok());
        let places = self.all.iter().enumerate().map(|(index, listed)| (listed.variety.id, index));
        let places: HashMap<Id<Variety>, usize> = places.collect();
        let units = self.house.settings.units;
        let drawer = Drawer { guide: &self.guides.fruit, spread: Spread::beforehand(), units };
        let mut sums: Vec<Option<FruitSums>> = vec![None; self.all.len()];
        let mut waiting: Vec<(usize, Vec<Strip>)> = Vec::new();
        let mut outcome = Ok(());
        ledger.fruit_by_variety(Whose::Everyones, &mut |fruit| {
            let Some(index) = places.get(&fruit.variety).copied() else { return ControlFlow::Continue(()) };
            let (own, strips) = drawer.strips(self.all.get(index), fruit.records);
            sums.iter_mut().skip(index).take(1).for_each(|place| *place = Some(own.clone()));
            waiting.push((index, strips));
            if waiting.len() < TOGETHER {
                return ControlFlow::Continue(());
            }
            outcome = self.write_varieties(std::mem::take(&mut waiting));
            if outcome.is_ok() { ControlFlow::Continue(()) } else { ControlFlow::Break(()) }
        })?;
        outcome?;
        let without = sums.iter().enumerate().filter(|(_, own)| own.is_none());
        waiting.extend(without.map(|(index, _)| (index, Vec::new())));
        self.write_varieties(waiting)?;
        let seasons = ledger.evidence_seasons()?;
        self.progress.begin("growing them in your regions", None);
        Ok(Behind {
            gardens: gardens::of(self.house, ledger, self.all)?,
            ..self.behind(&sums, &seasons, units)?
        })
    }

    fn behind(
        &self,
        sums: &[Option<FruitSums>],
        seasons: &HashMap<Id<Variety>, BTreeSet<Season>>,
        units: Units,
    ) -> Result<Behind, HouseFault> {
        let measured: Vec<&FruitSums> = sums.iter().flatten().collect();
        let spread = spread::estimate(&measured);
        let own = |listed: &Listed| seasons.get(&listed.variety.id).into_iter().flatten().copied().collect();
        let rule = rule::of(self.guides, &spread, self.all, units)?;
        Ok(Behind { rule, seasons: self.all.iter().map(own).collect(), ..Behind::default() })
    }

    fn write_varieties(&self, varieties: Vec<(usize, Vec<Strip>)>) -> Result<(), HouseFault> {
        varieties.into_par_iter().try_for_each(|(index, strips)| {
            self.folder.variety(index, &strips)?.iter().try_for_each(|file| self.beside.write(file))?;
            self.progress.advance(1);
            Ok(())
        })
    }
}

/// Draws fruits against the guide's bands.
struct Drawer<'a> {
    guide: &'a FruitGuide,
    /// What is known beforehand is near enough for a picture.
    spread: Spread,
    units: Units,
}

impl Drawer<'_> {
    fn strips(&self, listed: Option<&Listed>, fruits: &[FruitSample]) -> (FruitSums, Vec<Strip>) {
        let mut sums = FruitSums::default();
        fruits.iter().for_each(|fruit| sums.take(fruit));
        let fruit = listed.and_then(|listed| listed.fruit.as_ref());
        let verdict = fruit.and_then(|fruit| fruit.call.verdict.as_deref());
        let (guide, spread, units) = (self.guide, &self.spread, self.units);
        let strips =
            strips::strips_that_count(fruits, &Backdrop { sums: &sums, spread, guide, verdict, units });
        (sums, strips)
    }
}
