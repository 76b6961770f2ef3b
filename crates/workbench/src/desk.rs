//! The desk: where every request finds the house, and hands its work to.
//!
//! The house's use cases block while they read and write, so each runs on a thread of its own. The house
//! is found anew for every request: settings that were changed meanwhile count at once.

use crate::advice;
use crate::incoming::Incoming;
use crate::trouble::Trouble;
use house::fault::HouseFault;
use house::folder::{self, House};
use house::history::Act;
use house::list::List;
use house::list::filter::Filter;
use house::list::kept_open::{KeptOpen, LET_GO_WITHIN};
use jiff::Timestamp;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// What every request is given.
#[derive(Clone, Debug)]
pub(crate) struct Desk {
    folder: Arc<PathBuf>,
    /// Files that were sent and not taken yet.
    pub(crate) incoming: Arc<Incoming>,
    /// Plans that are being looked for.
    pub(crate) plans: Arc<advice::Plans>,
    /// The ledger that the list is read from, as long as page follows page.
    kept_open: Arc<KeptOpen>,
}

/// What a use case answered, with the house it asked.
pub(crate) type Answered<T> = (House, T);

impl Desk {
    pub(crate) fn at(folder: &Path) -> Self {
        let folder = Arc::new(folder.to_owned());
        Self { folder, incoming: Arc::default(), plans: Arc::default(), kept_open: Arc::default() }
    }

    /// Runs a use case of the house and hands its answer on.
    pub(crate) async fn ask<T: Send + 'static>(
        &self,
        story: impl FnOnce(&House) -> Result<T, HouseFault> + Send + 'static,
    ) -> Result<Answered<T>, Trouble> {
        let folder = Arc::clone(&self.folder);
        let asked = tokio::task::spawn_blocking(move || {
            let house = folder::find(Some(&folder), &folder).map_err(|fault| told(&fault, &folder))?;
            let told = story(&house).map_err(|fault| told(&fault, &folder))?;
            Ok((house, told))
        });
        asked.await.unwrap_or_else(|_| Err(Trouble::ours("the work broke off")))
    }

    /// The list, read from a ledger that is kept open until the next page, if that comes soon.
    pub(crate) async fn list(&self, filter: Filter) -> Result<Answered<List>, Trouble> {
        let kept_open = Arc::clone(&self.kept_open);
        let list = self.ask(move |house| kept_open.list(house, &filter)).await;
        let (kept_open, readings) = (Arc::clone(&self.kept_open), self.kept_open.readings());
        tokio::spawn(async move {
            tokio::time::sleep(LET_GO_WITHIN).await;
            tokio::task::spawn_blocking(move || kept_open.let_go_unless_read_since(readings));
        });
        list
    }

    /// The house alone.
    pub(crate) async fn house(&self) -> Result<House, Trouble> {
        Ok(self.ask(|_| Ok(())).await?.0)
    }
}

fn told(fault: &HouseFault, folder: &Path) -> Trouble {
    Trouble::of(fault, folder)
}

/// Who acts: the keeper of the house's notes, now, for a reason where one is given.
pub(crate) fn act(house: &House, why: Option<String>) -> Act {
    let why = why.map(|why| why.trim().to_owned()).filter(|why| !why.is_empty());
    Act { who: house.settings.keeper.clone(), at: Timestamp::now(), why }
}
