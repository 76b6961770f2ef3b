//! Files that were sent and not taken yet: each stack in a folder of its own that goes when the stack goes.
//!
//! A stack lives while the workbench runs, and only the newest few are kept: files wait here between being
//! sent and being taken, so that how they are read can be shown and mended first.

use crate::bring_in::taken::Outcome;
use house::asked::AskedTable;
use house::opened::{Content, Given};
use jiff::Timestamp;
use std::collections::VecDeque;
use std::path::PathBuf;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use tempfile::TempDir;

/// Most stacks kept. A choice of ours: one for each browser tab that a keeper has open, and some over.
const MOST_STACKS: usize = 8;

/// A file that was sent.
#[derive(Debug)]
pub(crate) struct SentFile {
    /// Its name, without any folder.
    pub(crate) name: String,
    /// Where its bytes are.
    pub(crate) path: PathBuf,
}

/// Files that were sent together.
#[derive(Debug)]
pub(crate) struct Stack {
    /// Its number, as addresses say it.
    pub(crate) number: i64,
    /// The files in the order they were sent.
    pub(crate) files: Vec<SentFile>,
    /// What the user has said of their tables.
    asked: Mutex<Vec<AskedTable>>,
    /// What became of them, once taken.
    outcome: Mutex<Option<Arc<Outcome>>>,
    /// Goes from the disk when the stack is let go.
    _folder: TempDir,
}

impl Stack {
    /// The files as the house is given them.
    pub(crate) fn given(&self) -> Vec<Given> {
        let given =
            |file: &SentFile| Given { name: file.name.clone(), content: Content::Path(file.path.clone()) };
        self.files.iter().map(given).collect()
    }

    /// What was said of the tables.
    pub(crate) fn asked(&self) -> Vec<AskedTable> {
        held(&self.asked).clone()
    }

    /// Says something else of the tables.
    pub(crate) fn ask(&self, asked: Vec<AskedTable>) {
        *held(&self.asked) = asked;
    }

    /// What became of the files.
    pub(crate) fn outcome(&self) -> Option<Arc<Outcome>> {
        held(&self.outcome).clone()
    }

    /// Notes what became of the files.
    pub(crate) fn end(&self, outcome: Outcome) {
        *held(&self.outcome) = Some(Arc::new(outcome));
    }
}

/// The stacks that wait.
#[derive(Debug, Default)]
pub(crate) struct Incoming {
    stacks: Mutex<VecDeque<Arc<Stack>>>,
}

impl Incoming {
    /// Keeps a stack and lets the oldest go where there are too many.
    pub(crate) fn keep(&self, files: Vec<SentFile>, folder: TempDir) -> Arc<Stack> {
        let mut stacks = held(&self.stacks);
        // Numbers run by the clock, so that an address from before a restart finds nothing.
        let after_last = stacks.back().map_or(0, |last| last.number + 1);
        let number = Timestamp::now().as_microsecond().max(after_last);
        let (asked, outcome) = (Mutex::default(), Mutex::default());
        let stack = Arc::new(Stack { number, files, asked, outcome, _folder: folder });
        stacks.push_back(Arc::clone(&stack));
        if MOST_STACKS < stacks.len() {
            stacks.pop_front();
        }
        stack
    }

    /// The stack of that number.
    pub(crate) fn find(&self, number: i64) -> Option<Arc<Stack>> {
        held(&self.stacks).iter().find(|stack| stack.number == number).cloned()
    }

    /// Lets a stack go with its files.
    pub(crate) fn let_go(&self, number: i64) {
        held(&self.stacks).retain(|stack| stack.number != number);
    }
}

/// What a lock holds. A thread that broke off while it held one left the value whole: each is set at once.
fn held<T>(lock: &Mutex<T>) -> MutexGuard<'_, T> {
    lock.lock().unwrap_or_else(PoisonError::into_inner)
}
