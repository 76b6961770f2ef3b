//! What must hold of the reading of any text.

use proptest::prelude::{Strategy, any, prop, prop_oneof};
use proptest::{prop_assert, prop_assert_eq, proptest};
use record::language::Units;
use wording::reading::{Reading, read};
use wording::telling;
use wording::vocabulary::{GuideWords, Meaning, Vocabulary};

fn vocabulary() -> Vocabulary {
    Vocabulary::new(GuideWords {
        habits: &["micro-dwarf", "dwarf", "determinate", "semi-determinate", "indeterminate"],
        classes: &["currant", "cherry", "pear", "grape", "saladette", "plum", "paste", "slicer", "beefsteak"],
        colours: &["red", "pink", "orange", "yellow", "white", "green", "brown", "black", "bicolour"],
        marks: &["heart", "hollow", "ribbed"],
    })
    .knowing(["Amber Bell", "Cooper's Half"])
}

/// Phrases of the table, joined by what stands between them in requests.
fn request() -> impl Strategy<Value = String> {
    let entries: Vec<String> = vocabulary().entries().iter().map(|entry| entry.phrase.clone()).collect();
    let amount = (1_u32..900, prop::sample::select(vec!["oz", "g", "in", "mm", "days", "locules", "lb"]));
    let piece = prop_oneof![
        6 => prop::sample::select(entries),
        1 => amount.prop_map(|(count, unit)| format!("{count} {unit}")),
        1 => "[a-z]{3,9}",
    ];
    let joint = prop::sample::select(vec![" ", ", ", " or ", " and ", " not ", "; ", " to ", " under ", "-"]);
    prop::collection::vec((piece, joint), 0..8)
        .prop_map(|pieces| pieces.into_iter().flat_map(|(piece, joint)| [piece, joint.to_owned()]).collect())
}

fn in_order(reading: &Reading, text: &str) -> bool {
    let within = reading.parts.iter().all(|part| text.get(part.at.clone()) == Some(part.said.as_str()));
    let apart = reading.parts.is_sorted_by(|one, next| one.at.end <= next.at.start);
    within && apart && reading.parts.iter().all(|part| !part.at.is_empty() && !part.wants.is_empty())
}

proptest! {
    /// No text can break the reader; its parts stand in the text, in order and apart, and can be told.
    #[test]
    fn any_text_is_read(text in any::<String>()) {
        let reading = read(&text, &vocabulary());
        prop_assert!(in_order(&reading, &text));
        prop_assert!(telling::told(&reading.wish, Units::METRIC).is_empty() == (reading.wish == Default::default()));
    }

    /// Likewise for texts made of the trade's words, which reach far more of the reader.
    #[test]
    fn words_of_the_trade_are_read_in_any_order(text in request()) {
        let reading = read(&text, &vocabulary());
        prop_assert!(in_order(&reading, &text), "{text:?}: {reading:?}");
        for part in &reading.parts {
            prop_assert!(!telling::part(part, Units::US).is_empty());
        }
    }

    /// A known phrase that stands by itself between marks is always covered by one part.
    #[test]
    fn a_known_phrase_is_covered(index in any::<prop::sample::Index>(), before in request(), after in request()) {
        let vocabulary = vocabulary();
        let entry = index.get(vocabulary.entries());
        if let Meaning::Want(_) = entry.means {
            let text = format!("{before} ; {} ; {after}", entry.phrase);
            let at = before.len() + 3..before.len() + 3 + entry.phrase.len();
            let covered = |reading: &Reading| reading.parts.iter().any(|part| part.at == at);
            prop_assert!(covered(&read(&text, &vocabulary)), "{text:?}");
        }
    }

    /// Capitals and wide blanks change nothing that is wished for.
    #[test]
    fn dress_does_not_count(text in request()) {
        let vocabulary = vocabulary();
        let plain = read(&text, &vocabulary).wish;
        let dressed = text.to_uppercase().replace(' ', "  ");
        prop_assert_eq!(read(&dressed, &vocabulary).wish, plain, "{:?}", dressed);
    }

    /// What is told back tells the same again; amounts apart, it is the same wish.
    #[test]
    fn a_wish_told_back_reads_as_itself(text in request()) {
        let vocabulary = vocabulary();
        let wish = read(&text, &vocabulary).wish;
        let told = telling::told(&wish, Units::METRIC);
        let again = read(&told, &vocabulary).wish;
        prop_assert_eq!(&again.habits, &wish.habits, "{:?}", told);
        prop_assert_eq!(&again.classes, &wish.classes, "{:?}", told);
        prop_assert_eq!(&again.colours, &wish.colours, "{:?}", told);
        prop_assert_eq!(&again.patterns, &wish.patterns, "{:?}", told);
        prop_assert_eq!(&again.marks, &wish.marks, "{:?}", told);
        prop_assert_eq!(&again.uses, &wish.uses, "{:?}", told);
        prop_assert_eq!(&again.growing, &wish.growing, "{:?}", told);
        prop_assert_eq!(&again.states, &wish.states, "{:?}", told);
        prop_assert_eq!(&again.words, &wish.words, "{:?}", told);
        prop_assert_eq!(again.weights.len(), wish.weights.len(), "{:?}", told);
    }

    /// Knowing more names never takes a wanted phrase away: what a name's words mean by themselves they still mean.
    #[test]
    fn a_mended_word_is_never_a_known_one(word in "[a-z]{5,12}") {
        let vocabulary = vocabulary();
        for part in read(&word, &vocabulary).parts {
            prop_assert!(part.mended.is_none_or(|mended| mended != word));
        }
        let knowing = self::vocabulary().knowing([word.as_str()]);
        prop_assert!(read(&word, &knowing).parts.iter().all(|part| part.mended.is_none()));
    }
}
