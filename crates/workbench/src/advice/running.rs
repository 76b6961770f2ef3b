//! Plans that are being looked for while their pages wait: each is looked for once however often its page is asked for, and may be
//! stopped.
//!
//! Start at [`Running::ask`]. A page that has waited long enough is told how far the search is, and asks again by itself. A plan that
//! nobody has asked about for a while is stopped and forgotten.

use crate::desk::{Answered, Desk};
use crate::trouble::Trouble;
use house::advise::Watch;
use house::fault::HouseFault;
use house::folder::House;
use std::collections::BTreeMap;
use std::sync::atomic::{AtomicBool, AtomicU32, Ordering};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::{Duration, Instant};
use tokio::sync::Mutex as Turn;
use tokio::task::JoinHandle;

/// How long a page waits for its plan before it shows how far the search is. A choice of ours.
const PATIENCE: Duration = Duration::from_secs(4);
/// How long a plan that no page asks for is looked for. A choice of ours.
const FORGOTTEN_AFTER: Duration = Duration::from_secs(60);

/// What a page is made of, or why there is none.
type Gathered<T> = Result<Answered<T>, Trouble>;

/// The plans that are being looked for, by what was asked.
#[derive(Debug)]
pub(crate) struct Running<T> {
    plans: Mutex<BTreeMap<String, Arc<Looking<T>>>>,
}

/// A plan that is being looked for.
#[derive(Debug)]
struct Looking<T> {
    seen: Arc<Seen>,
    asked: Mutex<Instant>,
    /// What it comes to; nothing once that was handed on.
    coming: Turn<Option<JoinHandle<Gathered<T>>>>,
}

/// How far a search is.
#[derive(Debug, Default)]
pub(crate) struct Seen {
    fewest: Mutex<Option<u32>>,
    at_least: AtomicU32,
    stopped: AtomicBool,
}

/// What a page is told.
pub(crate) enum Asked<T> {
    /// The plan, or why there is none.
    Came(Gathered<T>),
    /// It is still looked for: the fewest plants found so far, and what no plan can go under.
    StillLooking(Option<u32>, u32),
}

impl Watch for Seen {
    fn found(&self, plants: u32) {
        let mut fewest = self.fewest.lock().unwrap_or_else(PoisonError::into_inner);
        *fewest = Some(fewest.map_or(plants, |fewest| fewest.min(plants)));
    }

    fn bound(&self, at_least: u32) {
        self.at_least.fetch_max(at_least, Ordering::Relaxed);
    }

    fn is_stopped(&self) -> bool {
        self.stopped.load(Ordering::Relaxed)
    }
}

impl<T> Default for Running<T> {
    fn default() -> Self {
        Self { plans: Mutex::default() }
    }
}

impl<T: Send + 'static> Running<T> {
    /// Waits a while for a plan, which is begun where nobody looks for it yet.
    pub(crate) async fn ask(
        &self,
        desk: &Desk,
        asked: &str,
        story: impl FnOnce(&House, &Seen) -> Result<T, HouseFault> + Send + 'static,
    ) -> Asked<T> {
        let looking = self.looking(desk, asked, story);
        let came = tokio::time::timeout(PATIENCE, looking.came()).await;
        if let Ok(Some(came)) = came {
            self.held().remove(asked);
            return Asked::Came(came);
        }
        let fewest = *looking.seen.fewest.lock().unwrap_or_else(PoisonError::into_inner);
        Asked::StillLooking(fewest, looking.seen.at_least.load(Ordering::Relaxed))
    }

    /// Has the best plan so far taken for the answer; whether anybody was looking for it.
    pub(crate) fn stop(&self, asked: &str) -> bool {
        let found = self.held().get(asked).cloned();
        found.iter().for_each(|looking| looking.seen.stopped.store(true, Ordering::Relaxed));
        found.is_some()
    }

    fn looking(
        &self,
        desk: &Desk,
        asked: &str,
        story: impl FnOnce(&House, &Seen) -> Result<T, HouseFault> + Send + 'static,
    ) -> Arc<Looking<T>> {
        let mut plans = self.held();
        plans.retain(|_, looking| !looking.is_forgotten());
        let looking = plans.entry(asked.to_owned()).or_insert_with(|| {
            let seen = Arc::<Seen>::default();
            let (desk, told) = (desk.clone(), Arc::clone(&seen));
            let coming = tokio::spawn(async move { desk.ask(move |house| story(house, &told)).await });
            Arc::new(Looking { seen, asked: Mutex::new(Instant::now()), coming: Turn::new(Some(coming)) })
        });
        *looking.asked.lock().unwrap_or_else(PoisonError::into_inner) = Instant::now();
        Arc::clone(looking)
    }

    fn held(&self) -> std::sync::MutexGuard<'_, BTreeMap<String, Arc<Looking<T>>>> {
        self.plans.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl<T> Looking<T> {
    /// What it comes to, for the first who waits for it.
    async fn came(&self) -> Option<Gathered<T>> {
        let mut coming = self.coming.lock().await;
        let came = coming.as_mut()?.await;
        *coming = None;
        Some(came.unwrap_or_else(|_| Err(Trouble::ours("the work broke off"))))
    }

    /// Whether nobody has asked for it for a while; then it is stopped.
    fn is_forgotten(&self) -> bool {
        let asked = *self.asked.lock().unwrap_or_else(PoisonError::into_inner);
        let is_forgotten = FORGOTTEN_AFTER < asked.elapsed();
        if is_forgotten {
            self.seen.stopped.store(true, Ordering::Relaxed);
        }
        is_forgotten
    }
}
