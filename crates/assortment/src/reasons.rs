//! Why one variety may stand in for another, in words: `as heavy, same colour, a week later; determinate
//! where this is indeterminate`.
//!
//! Told are the traits that a buyer would ask about. A trait that is contested in either is told as such.
//! Start at [`between`].

use crate::kinds::{Kinds, Mix};
use crate::profile::{Profile, Words};
use record::share::Percent;
use std::fmt;

/// What two varieties share and in what the other differs from the asked one.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Reasons {
    /// What is the same.
    pub alike: Vec<String>,
    /// What is not, seen from the asked one.
    pub unlike: Vec<String>,
}

impl fmt::Display for Reasons {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (alike, unlike) = (self.alike.join(", "), self.unlike.join(", "));
        match (alike.is_empty(), unlike.is_empty()) {
            (true, true) => to.write_str("nothing that both were measured in"),
            (false, true) => to.write_str(&alike),
            (true, false) => to.write_str(&unlike),
            (false, false) => write!(to, "{alike}; {unlike}"),
        }
    }
}

impl Reasons {
    fn tell(&mut self, told: Option<Told>) {
        match told {
            Some(Told::Alike(words)) => self.alike.push(words),
            Some(Told::Unlike(words)) => self.unlike.push(words),
            None => {}
        }
    }
}

enum Told {
    Alike(String),
    Unlike(String),
}

/// A weight within this share is as heavy: fruits of one plant differ by twice that. A choice of the telling.
const AS_HEAVY: f64 = 1.15;
/// A length over width within this share is the same shape. A choice of the telling.
const SAME_SHAPE: f64 = 1.10;
/// Days within which two ripen together. A choice of the telling.
const TOGETHER: f64 = 3.5;
/// Seed chambers within which two are cut alike. A choice of the telling.
const CUT_ALIKE: f64 = 1.0;
/// Per cent of soluble solids within which juice tastes the same. A choice of the telling.
const SAME_JUICE: f64 = 0.7;
/// A verdict under this share is told as contested. Source: the house's design (section 4).
const CONTESTED_UNDER: f64 = 0.80;

/// What `other` shares with `asked` and in what it differs, the traits that buyers ask for first.
#[must_use]
pub fn between(asked: &Profile, other: &Profile, words: &Words) -> Reasons {
    let mut reasons = Reasons::default();
    reasons.tell(heavy(asked, other));
    reasons.tell(named(&asked.colour, &other.colour, &words.colours, "same colour"));
    reasons.tell(shaped(asked, other));
    reasons.tell(ripe(asked, other));
    reasons.tell(named(&asked.habit, &other.habit, &words.habits, "same habit"));
    reasons.tell(cut(asked, other));
    reasons.tell(named(&asked.pattern, &other.pattern, &words.patterns, "same pattern"));
    reasons.tell(juice(asked, other));
    reasons
}

fn heavy(asked: &Profile, other: &Profile) -> Option<Told> {
    let times = other.weight?.get() / asked.weight.filter(|weight| 0.0 < weight.get())?.get();
    Some(match times {
        times if times.max(times.recip()) <= AS_HEAVY => Told::Alike("as heavy".to_owned()),
        much if 1.95 <= much => Told::Unlike(format!("{much:.1} times as heavy")),
        more if 1.0 < more => Told::Unlike(format!("{:.0} % heavier", 100.0 * (more - 1.0))),
        less => Told::Unlike(format!("{:.0} % lighter", 100.0 * (1.0 - less))),
    })
}

fn shaped(asked: &Profile, other: &Profile) -> Option<Told> {
    let times = other.shape? / asked.shape.filter(|shape| 0.0 < *shape)?;
    Some(match times {
        times if times.max(times.recip()) <= SAME_SHAPE => Told::Alike("same shape".to_owned()),
        longer if 1.0 < longer => Told::Unlike("longer for its width".to_owned()),
        _ => Told::Unlike("shorter for its width".to_owned()),
    })
}

fn ripe(asked: &Profile, other: &Profile) -> Option<Told> {
    let days = other.days_to_ripe? - asked.days_to_ripe?;
    let when = if 0.0 < days { "later" } else { "earlier" };
    Some(match days.abs() {
        together if together < TOGETHER => Told::Alike("ripe at the same time".to_owned()),
        // A week is as near as two gardens' weather lets anybody say.
        week if week < 10.5 => Told::Unlike(format!("a week {when}")),
        weeks => Told::Unlike(format!("{:.0} weeks {when}", (weeks / 7.0).round())),
    })
}

fn cut(asked: &Profile, other: &Profile) -> Option<Told> {
    let more = other.locules? - asked.locules?;
    (CUT_ALIKE < more.abs()).then(|| {
        let way = if 0.0 < more { "more" } else { "fewer" };
        Told::Unlike(format!("{:.0} {way} seed chambers", more.abs()))
    })
}

fn juice(asked: &Profile, other: &Profile) -> Option<Told> {
    let solids = |profile: &Profile| profile.soluble_solids.map(Percent::get);
    let more = solids(other)? - solids(asked)?;
    (SAME_JUICE < more.abs()).then(|| {
        let way = if 0.0 < more { "richer" } else { "thinner" };
        Told::Unlike(format!("{way} juice by {:.1} % soluble solids", more.abs()))
    })
}

/// A name that both have; what is under [`CONTESTED_UNDER`] in either is only probable.
fn named(asked: &Option<Mix>, other: &Option<Mix>, kinds: &Kinds, same: &str) -> Option<Told> {
    let ((own, sure), (theirs, as_sure)) = (asked.as_ref()?.likeliest()?, other.as_ref()?.likeliest()?);
    let probably = if sure.min(as_sure) < CONTESTED_UNDER { "probably " } else { "" };
    Some(if own == theirs {
        Told::Alike(format!("{probably}{same}"))
    } else {
        Told::Unlike(format!("{probably}{} where this is {}", kinds.name(theirs), kinds.name(own)))
    })
}
