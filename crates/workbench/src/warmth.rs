//! How warmth is counted, as an address says it and a form asks it: the way, the temperatures, what happens above the
//! ceiling.
//!
//! Nothing said is the usual way. Start at [`Warmth::clock`].

use crate::fields::said;
use crate::telling::encoded;
use house::warmth::{CUT_OFFS, Clock, USUAL, WAYS, Way, Wish, named};
use maud::{Markup, html};
use serde::Deserialize;

/// What the address says of a clock.
#[derive(Clone, Debug, Default, Deserialize)]
pub(crate) struct Warmth {
    /// The way of counting.
    method: Option<String>,
    /// What happens above the ceiling.
    cut_off: Option<String>,
    /// Degrees Celsius below which nothing is gained.
    base: Option<String>,
    /// Degrees Celsius above which nothing more is gained.
    ceiling: Option<String>,
    /// Degrees Celsius at which growth is fastest.
    best: Option<String>,
}

/// Why an address says no clock, and what to do.
pub(crate) type NoClock = (String, Option<String>);

impl Warmth {
    /// The clock that is asked for.
    ///
    /// # Errors
    /// A sentence and what to do, where there is none.
    pub(crate) fn clock(&self) -> Result<Clock, NoClock> {
        let wish = Wish {
            way: one_of(self.method.as_ref(), &WAYS, "way of counting warmth")?,
            cut_off: one_of(self.cut_off.as_ref(), &CUT_OFFS, "cut-off")?,
            base: degrees(self.base.as_ref())?,
            ceiling: degrees(self.ceiling.as_ref())?,
            best: degrees(self.best.as_ref())?,
        };
        wish.clock().map_err(|fault| (fault.to_string(), Some(fault.help().to_owned())))
    }

    fn fields(&self) -> [(&'static str, &Option<String>); 5] {
        [
            ("method", &self.method),
            ("cut_off", &self.cut_off),
            ("base", &self.base),
            ("ceiling", &self.ceiling),
            ("best", &self.best),
        ]
    }

    /// What an address goes on with to say the same.
    pub(crate) fn onward(&self) -> String {
        let said = self.fields().into_iter().filter_map(|(name, field)| Some((name, said(field.as_ref())?)));
        said.map(|(name, words)| format!("&{name}={}", encoded(words))).collect()
    }

    /// The fields that ask it, folded away while all is usual.
    pub(crate) fn form(&self) -> Markup {
        let is_said = self.fields().iter().any(|(_, field)| said(field.as_ref()).is_some());
        let number = |name: &str, words: &str, field: &Option<String>, usual: &str| {
            html! {
                label {
                    span { (words) }
                    input type="text" name=(name) value=[field.as_deref()] placeholder=(usual) inputmode="decimal" maxlength="6" autocomplete="off";
                }
            }
        };
        html! {
            details.warmth open[is_said] {
                summary { "How warmth is counted" }
                div.filter {
                    label {
                        span { "Way" }
                        select name="method" {
                            @for (word, way, words) in &WAYS {
                                option value=(if *way == Way::default() { "" } else { *word }) selected[said(self.method.as_ref()) == Some(*word)] { (words) }
                            }
                        }
                    }
                    label {
                        span { "Above the ceiling growth" }
                        select name="cut_off" {
                            @for (place, (word, _, words)) in CUT_OFFS.iter().enumerate() {
                                option value=(if place == 0 { "" } else { *word }) selected[said(self.cut_off.as_ref()) == Some(*word)] { (words) }
                            }
                        }
                    }
                    (number("base", "Base, °C", &self.base, "10"))
                    (number("ceiling", "Ceiling, °C", &self.ceiling, "30; of beta 45"))
                    (number("best", "Fastest at, °C, of beta", &self.best, "28"))
                }
                p.quiet {
                    "Usual: " (named(&USUAL)) ". A number of degree-days means something only by the way that it was counted, so "
                    "everything shown is counted anew. Cut-offs are of sines and triangles."
                }
            }
        }
    }
}

/// The thing that a word stands for, where one is said.
fn one_of<T: Copy>(
    field: Option<&String>,
    known: &[(&str, T, &str)],
    what: &str,
) -> Result<Option<T>, NoClock> {
    let Some(word) = said(field) else { return Ok(None) };
    let found = known.iter().find(|(own, ..)| *own == word).map(|(_, thing, _)| *thing);
    let words = || known.iter().map(|(own, ..)| *own).collect::<Vec<_>>().join(", ");
    found
        .map(Some)
        .ok_or_else(|| (format!("{word:?} is no {what}"), Some(format!("choose one of: {}", words()))))
}

/// Degrees, where some are said.
fn degrees(field: Option<&String>) -> Result<Option<f64>, NoClock> {
    let Some(words) = said(field) else { return Ok(None) };
    let read = words.parse::<f64>().ok().filter(|degrees| degrees.is_finite());
    let help = || Some("write degrees Celsius as a number, such as 10".to_owned());
    read.map(Some).ok_or_else(|| (format!("{words:?} is no temperature"), help()))
}
