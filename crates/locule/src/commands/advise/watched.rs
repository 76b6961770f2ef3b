//! A plan being looked for, told on the terminal; Ctrl-C and a time limit end it with the best plan so far.

use house::advise::Watch;
use indicatif::{ProgressBar, ProgressStyle};
use signal_hook::consts::SIGINT;
use signal_hook::{SigId, flag, low_level};
use std::io::{IsTerminal, stderr};
use std::sync::atomic::{AtomicBool, AtomicU32, Ordering};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::{Duration, Instant};

/// What a shell is told of a program that Ctrl-C ended: 128 and the signal's number. Source: POSIX.1-2017, Shell, section 2.8.2.
const INTERRUPTED: i32 = 130;
/// How often the line moves, so that one sees that it goes on.
const TICK: Duration = Duration::from_millis(120);

/// Whoever sits at the terminal.
#[derive(Debug)]
pub(super) struct Watched {
    bar: Option<ProgressBar>,
    fewest: AtomicU32,
    at_least: AtomicU32,
    line: Mutex<()>,
    stopped: Arc<AtomicBool>,
    until: Option<Instant>,
    signals: Vec<SigId>,
}

impl Watched {
    /// Watches from now on, for so long at most; a second Ctrl-C ends the program at once.
    pub(super) fn begin(at_most: Option<Duration>) -> Self {
        let stopped = Arc::new(AtomicBool::new(false));
        let second = flag::register_conditional_shutdown(SIGINT, INTERRUPTED, Arc::clone(&stopped));
        let first = flag::register(SIGINT, Arc::clone(&stopped));
        let bar = stderr().is_terminal().then(bar);
        Self {
            bar,
            fewest: AtomicU32::new(u32::MAX),
            at_least: AtomicU32::new(0),
            line: Mutex::new(()),
            stopped,
            until: at_most.and_then(|limit| Instant::now().checked_add(limit)),
            // Where signals cannot be had, Ctrl-C ends the program as ever.
            signals: [second, first].into_iter().filter_map(Result::ok).collect(),
        }
    }

    fn tell(&self) {
        let Some(bar) = &self.bar else { return };
        let _one_at_a_time = self.line.lock().unwrap_or_else(PoisonError::into_inner);
        let (fewest, at_least) = (self.fewest.load(Ordering::Relaxed), self.at_least.load(Ordering::Relaxed));
        let found =
            if fewest == u32::MAX { "none found yet".to_owned() } else { format!("{fewest} plants found") };
        bar.set_message(format!("{found}, no plan has fewer than {at_least}; Ctrl-C takes the best so far"));
    }
}

fn bar() -> ProgressBar {
    let style = ProgressStyle::with_template("Looking for the fewest plants, {elapsed}: {msg}");
    let bar = ProgressBar::new_spinner();
    bar.set_style(style.unwrap_or_else(|_| ProgressStyle::default_spinner()));
    bar.enable_steady_tick(TICK);
    bar
}

impl Watch for Watched {
    fn found(&self, plants: u32) {
        self.fewest.fetch_min(plants, Ordering::Relaxed);
        self.tell();
    }

    fn bound(&self, at_least: u32) {
        self.at_least.fetch_max(at_least, Ordering::Relaxed);
        self.tell();
    }

    fn is_stopped(&self) -> bool {
        self.stopped.load(Ordering::Relaxed) || self.until.is_some_and(|until| until <= Instant::now())
    }
}

impl Drop for Watched {
    fn drop(&mut self) {
        self.signals.iter().for_each(|signal| {
            low_level::unregister(*signal);
        });
        self.bar.iter().for_each(ProgressBar::finish_and_clear);
    }
}
