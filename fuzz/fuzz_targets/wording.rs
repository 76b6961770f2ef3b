//! Any text as a wish and as old catalogue text: pieces stand apart in the text, and every claim has words.
#![no_main]

use libfuzzer_sys::fuzz_target;
use record::language::Units;
use std::sync::LazyLock;
use wording::claims::taken_apart;
use wording::reading::read;
use wording::telling::told;
use wording::vocabulary::Vocabulary;

static VOCABULARY: LazyLock<Vocabulary> = LazyLock::new(Vocabulary::of_the_trade);

fuzz_target!(|text: &str| {
    let reading = read(text, &VOCABULARY);
    let mut end = 0;
    for part in &reading.parts {
        assert!(end <= part.at.start && text.get(part.at.clone()) == Some(part.said.as_str()));
        end = part.at.end;
    }
    let once = told(&reading.wish, Units::METRIC);
    assert_eq!(once.is_empty(), reading.wish == Default::default());
    assert!(taken_apart(text, &VOCABULARY).iter().all(|claim| !claim.words.is_empty()));
});
