//! Plain text for pages: signs that would steer a reader's screen are taken out of what people wrote.
//!
//! Escaping is maud's work; this is about signs that no escaping helps against. Start at [`cleaned`].

use crate::catalogue::{Entry, Standing};
use crate::pages::{Kind, WebEntry, WebList};

/// A list whose every text is harmless to show.
pub(super) fn cleaned(mut list: WebList) -> WebList {
    clean(&mut list.house);
    list.guides.iter_mut().for_each(clean);
    list.classes.iter_mut().chain(&mut list.habits).for_each(clean_kind);
    list.entries.iter_mut().for_each(clean_entry);
    list
}

fn clean_kind(kind: &mut Kind) {
    let Kind { name, what, good_for, mistaken_for, flesh, limits } = kind;
    [name, what, good_for, mistaken_for, flesh].into_iter().for_each(clean);
    limits.iter_mut().for_each(clean);
}

fn clean_entry(entry: &mut WebEntry) {
    clean_told(&mut entry.told);
    entry.uses.iter_mut().chain(&mut entry.pattern).for_each(clean);
    entry.marks.iter_mut().for_each(|(mark, _)| clean(mark));
    entry.stand_ins.iter_mut().for_each(|stand_in| clean(&mut stand_in.why));
}

fn clean_told(told: &mut Entry) {
    clean(&mut told.name);
    told.aliases.iter_mut().chain(&mut told.settle).chain(&mut told.trials).for_each(clean);
    for call in [&mut told.habit, &mut told.fruit_class, &mut told.colour] {
        call.verdicts.iter_mut().for_each(|(verdict, _)| clean(verdict));
        call.rule.iter_mut().for_each(clean);
    }
    for claim in &mut told.claims {
        clean(&mut claim.words);
        if let Standing::Contradicted(words) = &mut claim.standing {
            clean(words);
        }
    }
}

/// Takes out control signs and signs that turn the reading direction of what follows.
fn clean(text: &mut String) {
    if text.chars().any(is_harmful) {
        *text = text.chars().map(|sign| if is_harmful(sign) { ' ' } else { sign }).collect();
    }
}

fn is_harmful(sign: char) -> bool {
    // Source: Unicode Standard Annex 9, explicit directional formatting characters; HTML Living Standard 13.2.2,
    // "control-character-in-input-stream" and "noncharacter-in-input-stream".
    let turns = matches!(sign, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    let is_no_character = u32::from(sign) & 0xfffe == 0xfffe || matches!(sign, '\u{fdd0}'..='\u{fdef}');
    turns || is_no_character || sign.is_control()
}
