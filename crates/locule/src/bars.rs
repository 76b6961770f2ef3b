//! Progress on the terminal; silent where nobody watches.

use house::progress::Progress;
use indicatif::{ProgressBar, ProgressStyle};
use std::io::{IsTerminal, stderr};
use std::sync::Mutex;

/// Bars on standard error, one piece of work after the other.
#[derive(Debug, Default)]
pub(crate) struct Bars {
    current: Mutex<Option<ProgressBar>>,
}

impl Progress for Bars {
    fn begin(&self, what: &str, steps: Option<u64>) {
        if !stderr().is_terminal() {
            return;
        }
        let bar = match steps {
            Some(steps) => ProgressBar::new(steps).with_style(style("{msg:40!} {wide_bar} {percent:>3} %")),
            None => ProgressBar::new_spinner().with_style(style("{msg} {elapsed}")),
        };
        bar.set_message(what.to_owned());
        self.replace(Some(bar));
    }

    fn advance(&self, steps: u64) {
        if let Ok(current) = self.current.lock() {
            current.iter().for_each(|bar| bar.inc(steps));
        }
    }
}

impl Bars {
    fn replace(&self, next: Option<ProgressBar>) {
        if let Ok(mut current) = self.current.lock() {
            current.iter().for_each(ProgressBar::finish_and_clear);
            *current = next;
        }
    }
}

impl Drop for Bars {
    fn drop(&mut self) {
        self.replace(None);
    }
}

fn style(template: &str) -> ProgressStyle {
    ProgressStyle::with_template(template).unwrap_or_else(|_| ProgressStyle::default_bar())
}
