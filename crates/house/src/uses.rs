//! What a variety is good for: what the guides say of its fruit class, its shape marks and its habit, together.
//!
//! It is the guides' word about calls and never something measured. Start at [`Uses`].

use crate::claims::{SpeaksOf, use_beside};
use crate::guides::Guides;
use crate::kept::KeptShare;
use crate::list::Listed;
use identity::claims::UseBeside;
use identity::habit::Habit;
use record::purpose::Purpose;
use record::share::Share;

/// Which answers of the calls the guides give which uses.
#[derive(Clone, Debug)]
pub(crate) struct Uses {
    classes: Vec<(String, Vec<Purpose>)>,
    marks: Vec<(String, Vec<Purpose>)>,
    habits: Vec<(String, Vec<Purpose>)>,
}

/// Share from which a shape mark lends its uses: the fruit more likely carries it than not. A choice of the list.
const MARKED_FROM: f64 = 0.5;

impl Uses {
    /// The uses of these guides.
    pub(crate) fn of(guides: &Guides) -> Self {
        let (classes, marks) = (guides.fruit.classes.iter(), guides.fruit.marks.iter());
        let habit = |habit: Habit| (habit.to_string(), guides.habit.told.of(habit).uses.purposes.clone());
        Self {
            classes: classes.map(|class| (class.name.to_string(), class.uses.purposes.clone())).collect(),
            marks: marks.map(|mark| (mark.name.to_string(), mark.uses.purposes.clone())).collect(),
            habits: Habit::ALL.map(habit).to_vec(),
        }
    }

    /// What a variety is good for, in the order of [`Purpose::ALL`].
    pub(crate) fn of_variety(&self, listed: &Listed) -> Vec<Purpose> {
        let of = |all: &[(String, Vec<Purpose>)], verdict: Option<&str>| {
            let own = all.iter().filter(|(name, _)| verdict == Some(name.as_str()));
            own.flat_map(|(_, purposes)| purposes.clone()).collect::<Vec<_>>()
        };
        let fruit = listed.fruit.as_ref();
        let class = fruit.map(|fruit| &fruit.call).filter(|call| call.measured);
        let habit = listed.habit.as_ref().map(|habit| &habit.call).filter(|call| call.measured);
        let mut uses = of(&self.classes, class.and_then(|call| call.verdict.as_deref()));
        uses.extend(of(&self.habits, habit.and_then(|call| call.verdict.as_deref())));
        let marks = fruit.into_iter().flat_map(|fruit| &fruit.marks);
        for mark in marks.filter(|mark| mark.share.is_some_and(|share| MARKED_FROM <= share)) {
            uses.extend(of(&self.marks, Some(&mark.mark)));
        }
        uses.sort_unstable();
        uses.dedup();
        uses
    }

    /// The calls that a claimed use hangs on, each with the answers that are good for it.
    pub(crate) fn beside(&self, purpose: Purpose, listed: &Listed) -> Vec<UseBeside> {
        let fruit = listed.fruit.as_ref();
        let mut calls = vec![
            use_beside(good(&self.classes, purpose), fruit.map(|fruit| &fruit.call)),
            use_beside(good(&self.habits, purpose), listed.habit.as_ref().map(|habit| &habit.call)),
        ];
        let marks = fruit.map(|fruit| fruit.marks.as_slice()).unwrap_or_default();
        calls.extend(good(&self.marks, purpose).into_iter().map(|mark| {
            let share = marks.iter().find(|kept| kept.mark == mark).and_then(|kept| kept.share);
            mark_beside(mark, share)
        }));
        calls
    }

    /// What a use speaks of: the calls that the guides give it to.
    pub(crate) fn speak_of(&self, purpose: Purpose) -> Vec<SpeaksOf> {
        let any = |all: &[(String, Vec<Purpose>)]| !good(all, purpose).is_empty();
        let fruit = (any(&self.classes) || any(&self.marks)).then_some(SpeaksOf::Fruit);
        fruit.into_iter().chain(any(&self.habits).then_some(SpeaksOf::Habit)).collect()
    }
}

fn good(all: &[(String, Vec<Purpose>)], purpose: Purpose) -> Vec<String> {
    all.iter().filter(|(_, purposes)| purposes.contains(&purpose)).map(|(name, _)| name.clone()).collect()
}

/// A shape mark as a call of two answers, the likelier first.
fn mark_beside(mark: String, share: Option<f64>) -> UseBeside {
    let Some(share) = share else { return UseBeside { good: vec![mark], shares: Vec::new() } };
    let answers = [
        KeptShare { answer: mark.clone(), share },
        KeptShare { answer: format!("not {mark}"), share: 1.0 - share },
    ];
    let mut shares: Vec<(String, Share)> =
        answers.into_iter().filter_map(|kept| Some((kept.answer, Share::new(kept.share)?))).collect();
    shares.sort_by(|one, other| other.1.get().total_cmp(&one.1.get()));
    UseBeside { good: vec![mark], shares }
}
