//! The code strip there and back, and what damage does to it.

use photo::card::HOUSE_CARD;
use photo::code::{Code, of_modules, written};
use proptest::prelude::{any, proptest};
use proptest::{prop_assert, prop_assert_eq};

#[test]
fn a_strip_fits_its_card() {
    let modules = written(Code { version: 1, tag: 0xdead_beef });
    let places = HOUSE_CARD.strip.map(|strip| strip.corners().count());
    assert_eq!(places, Some(modules.len()));
}

proptest! {
    #[test]
    fn what_is_written_is_read(version in 0_u8..16, tag in any::<u32>()) {
        let code = Code { version, tag };
        prop_assert_eq!(of_modules(&written(code)), Some(code));
    }

    /// A 16-digit check sum with this generator sees every one, two or three wrong digits of so short a strip.
    #[test]
    fn a_damaged_strip_is_not_read(tag in any::<u32>(), wrong in proptest::collection::btree_set(0_usize..54, 1..=3)) {
        let mut modules = written(Code { version: 1, tag });
        for at in wrong {
            modules[at] = !modules[at];
        }
        prop_assert!(of_modules(&modules).is_none());
    }
}
