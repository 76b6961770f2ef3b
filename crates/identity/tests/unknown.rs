//! An unknown tomato: what cannot be is refused, one fruit tells less than ten, a look lifts the call.

#![expect(clippy::unwrap_used, clippy::indexing_slicing, reason = "what a test works with may stop it")]

mod fruit;

use fruit::{draws, guide};
use identity::call::Call;
use identity::colour::{self, ColourModel};
use identity::fruit_class;
use identity::guide::fruit::ClassName;
use identity::guide::{colour as colour_guide, habit as habit_guide};
use identity::habit::answers::{Asked, Ending, PlantAnswers};
use identity::habit::{self, Habit, HabitModel};
use identity::spread::Spread;
use identity::unknown::impossible::{Impossible, check};
use identity::unknown::looks::{Rules, looks};
use identity::unknown::shares::{Chances, class_shares};
use identity::unknown::telling::how_far;
use identity::unknown::{Unknown, evidence};
use proptest::prelude::{prop_assert, proptest};
use record::colour::{ColourSeen, Skin, TradeColour};
use record::growout::PlantNumber;
use record::language::Units;
use record::length::Millimetres;
use record::mass::Grams;
use record::season::Season;
use record::share::Percent;
use record::stage::LeafCount;
use record::unknown::{FruitSeen, GrowthSeen, LeavesSeen, PlantSeen, RipeningSeen, StemSeen};

fn of(fruits: Vec<FruitSeen>) -> Unknown {
    Unknown { fruits, ..Unknown::nothing_seen(Season::new(2031).unwrap()) }
}

fn grown(plant: PlantSeen) -> Unknown {
    Unknown { plants: vec![plant], ..of(Vec::new()) }
}

fn sized(grams: f64, length: f64, width: f64) -> FruitSeen {
    FruitSeen {
        weight: Grams::new(grams),
        length: Millimetres::new(length),
        width: Millimetres::new(width),
        ..FruitSeen::default()
    }
}

fn class(unknown: &Unknown) -> Call<ClassName> {
    let sums = evidence(unknown).fruit;
    fruit_class::call(&sums, &Spread::beforehand(), guide(), draws(), Units::METRIC)
}

fn habit_model() -> HabitModel {
    HabitModel::new(&habit_guide::read("habit.toml", habit_guide::SHIPPED).unwrap())
}

fn habit_share(plant: PlantSeen, wanted: Habit) -> f64 {
    let called = habit::call(&evidence(&grown(plant)).habit, &habit_model(), Units::METRIC).habit;
    called.shares.iter().find(|(habit, _)| *habit == wanted).unwrap().1.get()
}

#[test]
fn what_cannot_be_is_refused() {
    let fruit = |seen| check(&of(vec![FruitSeen::default(), seen])).unwrap_err();
    let bare = FruitSeen::default;
    assert_eq!(fruit(FruitSeen { locules: Some(0), ..bare() }), Impossible::NoLocules { fruit: 2 });
    let necked = |neck: f64| FruitSeen { neck_width: Millimetres::new(neck), ..sized(50.0, 50.0, 40.0) };
    assert!(matches!(fruit(necked(44.1)), Impossible::NeckOverWidth { .. }));
    assert_eq!(check(&of(vec![necked(43.9)])), Ok(()), "callipers may slip by a tenth");
    assert!(matches!(fruit(sized(900.0, 61.0, 38.0)), Impossible::WeightAgainstSize { .. }));
    assert!(matches!(fruit(sized(10.0, 61.0, 38.0)), Impossible::WeightAgainstSize { .. }));
    let dry = FruitSeen { soluble_solids: Percent::new(6.0), dry_matter: Percent::new(5.0), ..bare() };
    assert!(matches!(fruit(dry), Impossible::SolidsOverDryMatter { .. }));
    let nothing = FruitSeen { weight: Grams::new(0.0), ..bare() };
    assert_eq!(fruit(nothing), Impossible::Nothing { fruit: 2, measure: "weight" });
    let ended = PlantSeen { stem: Some(StemSeen::Ended(Some(0))), ..PlantSeen::default() };
    assert_eq!(check(&grown(ended)), Err(Impossible::EndsAfterNone { plant: 1 }));
}

/// Facts of the trade, section 5: fruits .31, plants .21 and seasons .19 of one variety in log weight, so one
/// fruit tells its variety's within the square root of their squares' sum, 42 %; ten fruits of ten plants
/// within that of .19^2 + (.21^2 + .31^2) / 10, 22 %.
#[test]
fn one_fruit_tells_less_than_ten_of_ten_plants() {
    let one = of(vec![sized(58.0, 61.0, 38.0)]);
    let told = how_far(&evidence(&one).fruit, &Spread::beforehand()).unwrap();
    assert!(told.contains("give or take 42 %") && told.contains("give or take 22 %"), "{told}");
    let plants =
        (1..=10).map(|plant| FruitSeen { plant: Some(PlantNumber(plant)), ..sized(58.0, 61.0, 38.0) });
    let ten = of(plants.collect());
    let told = how_far(&evidence(&ten).fruit, &Spread::beforehand()).unwrap();
    assert!(told.contains("10 fruits of 10 plants") && told.contains("22 %"), "{told}");
    let inside = |unknown: &Unknown| class(unknown).probability().get();
    let well_inside = |fruits: Vec<FruitSeen>| inside(&of(fruits));
    let cherry = |plant| FruitSeen { plant: Some(PlantNumber(plant)), ..sized(14.0, 28.0, 30.0) };
    assert!(well_inside(vec![cherry(1)]) < well_inside((1..=10).map(cherry).collect()));
}

#[test]
fn a_colour_word_and_a_peeled_skin_go_together() {
    let model = ColourModel::new(&colour_guide::read("colour.toml", colour_guide::SHIPPED).unwrap());
    let red = FruitSeen { exterior: Some(ColourSeen::Word(TradeColour::Red)), ..FruitSeen::default() };
    let share = |seen: FruitSeen| {
        let called = colour::call(&evidence(&of(vec![seen])).colour, &model).exterior;
        called.shares.iter().find(|(colour, _)| *colour == TradeColour::Red).unwrap().1.get()
    };
    let yellow = share(FruitSeen { skin: Some(Skin::Yellow), ..red.clone() });
    let clear = share(FruitSeen { skin: Some(Skin::Clear), ..red.clone() });
    assert!(clear < share(red.clone()) && share(red) < yellow, "red flesh is red under a yellow skin");
}

#[test]
fn what_is_said_of_a_plant_moves_its_habit() {
    let bare = PlantSeen::default;
    let levels = PlantSeen { growth: Some(GrowthSeen::LevelsOff), ..bare() };
    let grows = PlantSeen { growth: Some(GrowthSeen::KeepsGrowing), ..bare() };
    assert!(habit_share(grows, Habit::Determinate) < habit_share(levels.clone(), Habit::Determinate));
    let soon = PlantSeen { ripening: Some(RipeningSeen::Within(18)), ..bare() };
    let long = PlantSeen { ripening: Some(RipeningSeen::LongerThan(60)), ..bare() };
    assert!(habit_share(long, Habit::Determinate) < habit_share(soon.clone(), Habit::Determinate));
    let ended = PlantSeen { stem: Some(StemSeen::Ended(Some(4))), ..bare() };
    assert!(0.9 < habit_share(PlantSeen { ripening: soon.ripening, ..ended }, Habit::Determinate));
    let told = habit::call(&evidence(&grown(levels)).habit, &habit_model(), Units::METRIC).habit;
    assert!(told.lines.iter().any(|line| line.words == "Its height is said to have levelled off."));
}

#[test]
fn a_look_that_parts_two_classes_comes_first() {
    let (habit, colour) =
        (habit_model(), ColourModel::new(&colour_guide::read("colour.toml", colour_guide::SHIPPED).unwrap()));
    let spread = Spread::beforehand();
    let by = Rules { fruit: guide(), spread: &spread, draws: draws(), habit: &habit, colour: &colour };
    // Weighed only, a fruit of 58 g may be round or long: its size parts saladette from plum and grape.
    let weighed = of(vec![FruitSeen { weight: Grams::new(58.0), ..FruitSeen::default() }]);
    let found = looks(&evidence(&weighed), 1, &by);
    assert_eq!(found.class[0].words, "Measure its length and greatest width.");
    assert!(class(&weighed).probability().get() + 0.05 < found.class[0].expected.get());
    assert!(found.class.is_sorted_by(|one, next| next.expected.get() <= one.expected.get()));
    // Nothing measured: it must be weighed first. The stem is what tells a habit.
    let red = of(vec![FruitSeen { locules: Some(2), ..FruitSeen::default() }]);
    let found = looks(&evidence(&red), 1, &by);
    assert_eq!(found.class[0].words, "Weigh it.");
    assert!(found.habit[0].words.starts_with("Follow its main stem"), "{}", found.habit[0].words);
    // Between slicer and beefsteak the number of chambers decides.
    let large = of(vec![sized(280.0, 68.0, 88.0)]);
    let found = looks(&evidence(&large), 1, &by);
    assert!(found.class.iter().any(|look| look.words == "Cut it across and count the locules."));
    // What was looked at is not told again.
    let cut = of(vec![FruitSeen { locules: Some(9), ..sized(280.0, 68.0, 88.0) }]);
    let found = looks(&evidence(&cut), 1, &by);
    assert!(!found.class.iter().any(|look| look.words.contains("locules")));
}

proptest! {
    /// The small sum for a handful is the call itself, but for other draws: within 6 in 100.
    #[test]
    fn the_shares_of_a_handful_are_the_call(
        grams in 3.0..600.0_f64,
        shape in 0.7..2.2_f64,
        locules in 1..12_u32,
        fruits in 1..5_u32,
    ) {
        let width = (grams / (1.06e-3 * std::f64::consts::PI / 6.0) / shape).cbrt();
        let one = FruitSeen { locules: Some(locules), ..sized(grams, width * shape, width) };
        let of_plant = |plant| FruitSeen { plant: Some(PlantNumber(plant)), ..one.clone() };
        let seen: Vec<FruitSeen> = (1..=fruits).map(of_plant).collect();
        let season = Season::new(2031).unwrap();
        let small = class_shares(&seen, season, &Spread::beforehand(), guide(), &Chances::new(256)).unwrap();
        let whole: f64 = small.shares.iter().map(|(_, share)| share.get()).sum();
        prop_assert!((whole + small.between.get() - 1.0).abs() < 1e-9);
        let call = class(&of(seen));
        for (name, share) in &small.shares {
            let own = call.shares.iter().find(|(own, _)| own == name).unwrap().1;
            prop_assert!((share.get() - own.get()).abs() < 0.06, "{name}: {} and {}", share.get(), own.get());
        }
    }
}

#[test]
fn nothing_measured_has_no_share() {
    let cut = FruitSeen { locules: Some(3), ..FruitSeen::default() };
    let season = Season::new(2031).unwrap();
    assert_eq!(class_shares(&[cut], season, &Spread::beforehand(), guide(), &Chances::new(16)), None);
    assert_eq!(Chances::new(16).rows().map(<[f64]>::len).collect::<Vec<_>>(), [18; 16]);
}

/// Any answers about one plant, taken as tables tell them and multiplied out as `habit::answers` says, come to the
/// call itself.
#[test]
fn tables_of_answers_come_to_the_call() {
    let model = habit_model();
    let answers = PlantAnswers::new(&model);
    let plants = [
        PlantSeen { stem: Some(StemSeen::Ended(Some(4))), ..PlantSeen::default() },
        PlantSeen {
            stem: Some(StemSeen::Growing(9)),
            leaves_between: LeafCount::new(3.0),
            ..PlantSeen::default()
        },
        PlantSeen {
            stem: Some(StemSeen::Ended(None)),
            leaves: Some(LeavesSeen::Dwarf),
            ..PlantSeen::default()
        },
        PlantSeen {
            height: Millimetres::new(600.0),
            growth: Some(GrowthSeen::LevelsOff),
            ripening: Some(RipeningSeen::Within(21)),
            ..PlantSeen::default()
        },
    ];
    for plant in plants {
        let call = habit::call(&evidence(&grown(plant.clone())).habit, &model, Units::METRIC).habit;
        let multiplied = multiplied(&plant, &answers);
        for ((habit, share), own) in Habit::ALL.iter().zip(multiplied).zip(answers.habits(&plant)) {
            let told = call.shares.iter().find(|(answer, _)| answer == habit).unwrap().1.get();
            assert!(
                (share - told).abs() < 1e-12 && (own - told).abs() < 1e-15,
                "{habit}: {share} and {told}"
            );
        }
    }
}

fn multiplied(plant: &PlantSeen, answers: &PlantAnswers<'_>) -> [f64; Habit::ALL.len()] {
    const ASKED: [Asked; 5] =
        [Asked::LeavesBetween, Asked::Growth, Asked::Ripening, Asked::Height, Asked::DwarfLeaves];
    let stem = plant.stem.and_then(|seen| answers.stem(seen));
    let prior = answers.prior();
    let logs = ASKED.map(|asked| answers.logs(plant, asked));
    let likelihood = |cell: usize, point: usize| {
        let stem = match (&stem, answers.cells()[cell].1) {
            (None, _) => 1.0,
            (Some(stem), Ending::Endless) => stem.endless,
            (Some(stem), Ending::InATruss) => stem.ends[point],
        };
        stem * logs.iter().map(|logs| logs[cell]).sum::<f64>().exp()
    };
    let each = || (0..prior.len()).flat_map(|cell| (0..prior[cell].len()).map(move |point| (cell, point)));
    let stray: f64 = each().map(|(cell, point)| prior[cell][point] * likelihood(cell, point)).sum();
    let rate = answers.stray_rate();
    let mut shares = [0.0; Habit::ALL.len()];
    for (cell, point) in each() {
        let after = prior[cell][point] * ((1.0 - rate) * likelihood(cell, point) + rate * stray);
        shares[answers.cells()[cell].0] += after;
    }
    let whole: f64 = shares.iter().sum();
    shares.map(|share| share / whole)
}
