//! The habit and colour guides: the shipped ones are read, and every fault names line and remedy.

use identity::guide::reading::GuideFault;
use identity::guide::{colour, habit};
use identity::habit::Habit;
use proptest::prelude::{any, prop_assert, proptest};

/// A change to the shipped guide, and the line, the fault and the value that it is refused with.
#[track_caller]
fn refused(fault: GuideFault, text: &str, changed: &str, expected: &str) {
    let line = text.lines().position(|line| line.contains(changed)).map(|line| line + 1);
    assert_eq!((Some(fault.line), &*fault.fault), (line, expected), "{fault}");
    assert!(!fault.help.is_empty());
}

#[test]
fn the_shipped_guides_are_read() {
    assert_eq!(&*habit::read("habit.toml", habit::SHIPPED).unwrap().version, "1");
    assert_eq!(&*colour::read("colour.toml", colour::SHIPPED).unwrap().version, "1");
}

/// A house's guide from before pages told habits is read as it is, and says nothing of them.
#[test]
fn a_habit_guide_that_tells_no_uses_is_read() {
    let older = habit::SHIPPED.split("[told.").next().unwrap();
    let guide = habit::read("habit.toml", older).unwrap();
    assert!(Habit::ALL.iter().all(|habit| guide.told.of(*habit).uses.purposes.is_empty()));
}

/// Every habit is told in full, and its uses have a source.
#[test]
fn the_shipped_habit_guide_tells_every_habit() {
    let guide = habit::read("habit.toml", habit::SHIPPED).unwrap();
    for habit in Habit::ALL {
        let told = guide.told.of(habit);
        assert!(
            [&told.what, &told.good_for, &told.mistaken_for].iter().all(|words| !words.is_empty()),
            "{habit}"
        );
        assert!(!told.uses.purposes.is_empty() && !told.uses.source.is_empty(), "{habit}");
    }
}

#[test]
fn faults_in_the_habit_guide_name_line_and_remedy() {
    let cases = [
        ("off-type-rate = { value = 0.03", "off-type-rate = { value = 1.5", "the number is out of range"),
        ("tall = { value = 0.935", "tall = { value = 0.5", "the shares add up to 0.565, not to 1"),
        (
            "mean = { value = 9.0",
            "mean = { value = 3.0",
            "semi-determinate stems end no later than determinate ones",
        ),
        ("repeat = { value = 0.3", "repeat = { value = nan", "the number is out of range"),
        (
            "fall-sd = { value = 0.6, source = \"own working prior\"",
            "fall-sd = { value = 0.6, source = \" \"",
            "the value has no source",
        ),
        ("uses = [\"canning\", \"picking all at once\"]", "uses = [\"caning\"]", "the use is not known"),
        (
            "uses = [\"canning\", \"picking all season\"]",
            "uses = [\"canning\", \"canning\"]",
            "the use stands twice",
        ),
    ];
    for (shipped, changed, expected) in cases {
        let text = habit::SHIPPED.replacen(shipped, changed, 1);
        assert_ne!(text, habit::SHIPPED, "{shipped}");
        refused(habit::read("habit.toml", &text).unwrap_err(), &text, changed, expected);
    }
}

#[test]
fn faults_in_the_colour_guide_name_line_and_remedy() {
    let cases = [
        ("lab = [28.0, 11.0, 6.0]", "lab = [128.0, 11.0, 6.0]", "these numbers are no colour"),
        (
            "rate = { value = 0.12, source = \"common practice, no source: pinks",
            "rate = { value = 0.97, source = \"common practice, no source: pinks",
            "slips and mistakes leave no right words",
        ),
        ("independence = { value = 2.0", "independence = { value = 0.0", "the number is out of range"),
    ];
    for (shipped, changed, expected) in cases {
        let text = colour::SHIPPED.replacen(shipped, changed, 1);
        assert_ne!(text, colour::SHIPPED, "{shipped}");
        refused(colour::read("colour.toml", &text).unwrap_err(), &text, changed, expected);
    }
    let unlisted = colour::SHIPPED.replacen("colour = \"white\"", "colour = \"green\"", 1);
    assert_eq!(&*colour::read("colour.toml", &unlisted).unwrap_err().fault, "no entry for white");
}

proptest! {
    /// Whatever bytes are cut out of or put into a guide, reading it never panics and faults have a line.
    #[test]
    fn broken_guides_are_refused_in_words(at in any::<proptest::sample::Index>(), length in 0_usize..40, put in ".{0,12}") {
        for text in [habit::SHIPPED, colour::SHIPPED] {
            let places: Vec<usize> = text.char_indices().map(|(place, _)| place).collect();
            let start = *at.get(&places);
            let end = places.iter().copied().find(|place| start + length <= *place).unwrap_or(text.len());
            let broken = format!("{}{put}{}", &text[..start], &text[end..]);
            for fault in [habit::read("g", &broken).err(), colour::read("g", &broken).err()].into_iter().flatten() {
                prop_assert!(0 < fault.line && !fault.fault.is_empty());
            }
        }
    }
}
