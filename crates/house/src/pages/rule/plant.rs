//! How a habit is called: what is asked of a plant, and what each answer says; and plants with the science's own answers.

use identity::guide::habit::HabitGuide;
use identity::habit::HabitModel;
use identity::habit::answers::{Asked, Ending, PlantAnswers, StemLikelihood};
use publish::pages::what::MOST_TRUSSES;
use publish::pages::what::rule::{Answer, Cell, CellStem, PlantRule, PlantTrial, Question, Stem};
use record::language::{Units, length};
use record::length::Millimetres;
use record::stage::LeafCount;
use record::unknown::{GrowthSeen, LeavesSeen, PlantSeen, RipeningSeen, StemSeen};

/// The rule of this guide.
pub(super) fn of(guide: &HabitGuide, units: Units) -> PlantRule {
    let model = HabitModel::new(guide);
    let answers = PlantAnswers::new(&model);
    let cell = |(habit, ending)| Cell {
        habit,
        stem: match ending {
            Ending::InATruss => CellStem::Ends,
            Ending::Endless => CellStem::Endless,
        },
    };
    let stem = |seen| answers.stem(seen).map(|StemLikelihood { ends, endless }| Stem { ends, endless });
    let most = u32::try_from(MOST_TRUSSES).unwrap_or(u32::MAX);
    let counted = (1..=most).map(|trusses| StemSeen::Ended(Some(trusses)));
    PlantRule {
        prior: answers.prior(),
        cells: answers.cells().into_iter().map(cell).collect(),
        stray_rate: answers.stray_rate(),
        season_reach: answers.season_reach(),
        ended: std::iter::once(StemSeen::Ended(None)).chain(counted).filter_map(stem).collect(),
        growing: (1..=most).map(StemSeen::Growing).filter_map(stem).collect(),
        questions: QUESTIONS.iter().map(|asks| asks.question(&answers, units)).collect(),
        silence: answers.silence().to_vec(),
        trials: TRIALS.iter().map(|told| trial(told, &answers)).collect(),
    }
}

/// A question with the answers that it can have.
struct Asks {
    of: &'static str,
    asked: Asked,
    label: &'static str,
    keys: &'static [&'static str],
}

const QUESTIONS: [Asks; 5] = [
    Asks {
        of: "leaves",
        asked: Asked::LeavesBetween,
        label: "Leaves between trusses",
        keys: &["0.5", "1", "1.5", "2", "2.5", "3", "3.5", "4", "4.5", "5"],
    },
    Asks { of: "growth", asked: Asked::Growth, label: "Its height", keys: &["levels", "grows"] },
    Asks {
        of: "height",
        asked: Asked::Height,
        label: "How tall it is, about",
        keys: &["100", "150", "200", "300", "450", "600", "900", "1200", "1500", "1800", "2400", "3000"],
    },
    Asks {
        of: "ripening",
        asked: Asked::Ripening,
        label: "Its fruit",
        keys: &["in7", "in14", "in21", "in28", "in42", "over28", "over42", "over56", "over70"],
    },
    Asks {
        of: "dwarf",
        asked: Asked::DwarfLeaves,
        label: "Dark crinkled leaves on a short, sturdy stem",
        keys: &["yes", "no"],
    },
];

impl Asks {
    fn question(&self, answers: &PlantAnswers<'_>, units: Units) -> Question {
        let answer = |key: &&'static str| Answer {
            key: (*key).to_owned(),
            words: self.words(key, units),
            logs: self.rows(key).iter().map(|plant| answers.logs(plant, self.asked).to_vec()).collect(),
        };
        Question {
            of: self.of,
            label: self.label,
            trust: answers.trust(self.asked),
            answers: self.keys.iter().map(answer).collect(),
        }
    }

    /// The plants that an answer stands for: one, or one for each that is known of its growth.
    fn rows(&self, key: &str) -> Vec<PlantSeen> {
        let told = seen(PlantSeen::default(), self.of, key);
        match self.asked {
            Asked::Height => [None, Some(GrowthSeen::LevelsOff), Some(GrowthSeen::KeepsGrowing)]
                .map(|growth| PlantSeen { growth, ..told.clone() })
                .to_vec(),
            _ => vec![told],
        }
    }

    fn words(&self, key: &str, units: Units) -> String {
        match (self.asked, key) {
            (Asked::LeavesBetween, leaves) => leaves.to_owned(),
            (Asked::Height, millimetres) => millimetres
                .parse()
                .ok()
                .and_then(Millimetres::new)
                .map_or_else(String::new, |tall| length(tall, units)),
            (Asked::Growth, "levels") => "has levelled off".to_owned(),
            (Asked::Growth, _) => "keeps growing".to_owned(),
            (Asked::Ripening, key) => match days(key) {
                Some(RipeningSeen::Within(days)) => format!("all ripens within {}", weeks(days)),
                Some(RipeningSeen::LongerThan(days)) => format!("still comes after {}", weeks(days)),
                None => String::new(),
            },
            (Asked::DwarfLeaves, yes_or_no) => yes_or_no.to_owned(),
        }
    }
}

fn weeks(days: u16) -> String {
    record::language::counted(u64::from(days / 7), "week", "weeks")
}

fn days(key: &str) -> Option<RipeningSeen> {
    let within = key.strip_prefix("in").and_then(|days| days.parse().ok()).map(RipeningSeen::Within);
    within.or_else(|| key.strip_prefix("over")?.parse().ok().map(RipeningSeen::LongerThan))
}

/// A plant with one answer more.
fn seen(plant: PlantSeen, of: &str, key: &str) -> PlantSeen {
    let count = || key.parse().ok();
    match of {
        "ended" => PlantSeen { stem: Some(StemSeen::Ended(count())), ..plant },
        "growing" => PlantSeen { stem: count().map(StemSeen::Growing), ..plant },
        "leaves" => PlantSeen { leaves_between: key.parse().ok().and_then(LeafCount::new), ..plant },
        "height" => PlantSeen { height: key.parse().ok().and_then(Millimetres::new), ..plant },
        "growth" if key == "levels" => PlantSeen { growth: Some(GrowthSeen::LevelsOff), ..plant },
        "growth" => PlantSeen { growth: Some(GrowthSeen::KeepsGrowing), ..plant },
        "ripening" => PlantSeen { ripening: days(key), ..plant },
        _ if key == "yes" => PlantSeen { leaves: Some(LeavesSeen::Dwarf), ..plant },
        _ => PlantSeen { leaves: Some(LeavesSeen::Ordinary), ..plant },
    }
}

/// What was answered about one plant: question and answer; `ended` and `growing` are of its stem.
type Told = &'static [(&'static str, &'static str)];

/// Plants that go every way through the sum.
const TRIALS: [Told; 14] = [
    &[("ended", "4")],
    &[("ended", "uncounted")],
    &[("ended", "8"), ("leaves", "1.5")],
    &[("growing", "6")],
    &[("growing", "12"), ("leaves", "3")],
    &[("leaves", "2")],
    &[("leaves", "1"), ("dwarf", "no")],
    &[("growth", "levels")],
    &[("height", "900")],
    &[("height", "600"), ("growth", "levels"), ("ripening", "in21")],
    &[("height", "2400"), ("growth", "grows"), ("ripening", "over56"), ("growing", "14")],
    &[("dwarf", "yes"), ("height", "450")],
    &[("dwarf", "no")],
    &[("ended", "3"), ("height", "150"), ("dwarf", "yes")],
];

fn trial(told: &Told, answers: &PlantAnswers<'_>) -> PlantTrial {
    let plant = told.iter().fold(PlantSeen::default(), |plant, (of, key)| seen(plant, of, key));
    PlantTrial {
        answers: told.iter().map(|(of, key)| (*of, (*key).to_owned())).collect(),
        shares: answers.habits(&plant).to_vec(),
    }
}
