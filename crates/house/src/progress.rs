//! Progress of long work, told to whoever watches.

/// Somebody who watches long work.
pub trait Progress: Sync {
    /// A piece of work begins; `steps` is how many it has, where that is known.
    fn begin(&self, what: &str, steps: Option<u64>);
    /// So many more steps of it are done.
    fn advance(&self, steps: u64);
}

/// Nobody watches.
#[derive(Clone, Copy, Debug)]
pub struct Unwatched;

impl Progress for Unwatched {
    fn begin(&self, _what: &str, _steps: Option<u64>) {}
    fn advance(&self, _steps: u64) {}
}
