//! One fruit in a line, and a table that names no variety, as growers write them.

#![expect(clippy::unwrap_used, clippy::indexing_slicing, reason = "what a test works with may stop it")]

use intake::file::{self, Content};
use intake::one_fruit::{FieldFault, PlantField, fruit, set_plant};
use intake::unnamed;
use jiff::civil::date;
use record::colour::{ColourSeen, Pattern, Skin, TradeColour};
use record::length::Millimetres;
use record::mass::Grams;
use record::note::Note;
use record::season::Season;
use record::unknown::{FruitSeen, GrowthSeen, PlantSeen, RipeningSeen, StemSeen};

/// Weight in grams, length and width in millimetres.
#[track_caller]
fn agrees(line: &str, grams: f64, length: f64, width: f64) {
    let seen = fruit(line).unwrap();
    let near = |one: Option<f64>, other: f64| (one.unwrap() - other).abs() < 0.005;
    assert!(near(seen.weight.map(Grams::get), grams), "{seen:?}");
    assert!(near(seen.length.map(Millimetres::get), length), "{seen:?}");
    assert!(near(seen.width.map(Millimetres::get), width), "{seen:?}");
}

/// 1 in = 25.4 mm and 1 oz = 28.349 523 g: NIST SP 811 (2008), Appendix B.8.
#[test]
fn sizes_are_read_in_any_dress() {
    agrees("58 g, 61 x 38 mm", 58.0, 61.0, 38.0);
    agrees("58,5 g; 6.1 cm x 38 mm", 58.5, 61.0, 38.0);
    agrees("2 oz, 61×38mm", 56.70, 61.0, 38.0);
    agrees("weight: 58 g, length = 61 mm, width 38 mm", 58.0, 61.0, 38.0);
    agrees("58 g, 61 mm long, 38 mm wide", 58.0, 61.0, 38.0);
    agrees("1 lb 2 oz, 2 3/8 in x 1 1/2 in", 510.29, 60.325, 38.1);
}

#[test]
fn counts_and_words_say_what_they_tell() {
    let seen = fruit(
        "2 locules, 0 lobes, 5.2 °brix, 6 % dry matter, red, striped, clear skin, pink flesh, plant 3, 30 mm neck",
    );
    let seen = seen.unwrap();
    assert_eq!((seen.locules, seen.lobes, seen.plant.unwrap().0), (Some(2), Some(0), 3));
    assert_eq!(seen.exterior, Some(ColourSeen::Word(TradeColour::Red)));
    assert_eq!((seen.pattern, seen.skin), (Some(Pattern::Striped), Some(Skin::Clear)));
    assert_eq!((seen.flesh, seen.neck_width), (Some(TradeColour::Pink), Millimetres::new(30.0)));
    assert_eq!((seen.soluble_solids.unwrap().get(), seen.dry_matter.unwrap().get()), (5.2, 6.0));
    let measured = fruit("L* 42 a* 33 b* 25").unwrap();
    assert!(matches!(measured.exterior, Some(ColourSeen::Measured(lab)) if lab.a() == 33.0));
}

#[test]
fn what_cannot_be_read_is_named_with_a_remedy() {
    for (line, named) in [
        ("58", "58"),
        ("58 g, rouge", "rouge"),
        ("58 g, 60 g", "60 g"),
        ("61 mm", "61 mm"),
        ("two locules", "two"),
        ("-3 g", "-3"),
        ("58 stone", "stone"),
    ] {
        let fault = fruit(line).unwrap_err();
        assert!(fault.to_string().contains(named), "{line:?}: {fault}");
        assert!(!fault.remedy().is_empty());
    }
    assert_eq!(fruit(" , ; "), Ok(FruitSeen::default()));
}

#[test]
fn a_plant_is_told_field_by_field() {
    let mut plant = PlantSeen::default();
    for (field, text) in [
        (PlantField::StemEnded, "4"),
        (PlantField::LevelsOff, "Yes"),
        (PlantField::RipeWithin, "21 days"),
        (PlantField::Height, "140 cm"),
        (PlantField::LeavesBetween, " "),
    ] {
        set_plant(&mut plant, field, text).unwrap();
    }
    assert_eq!(plant.stem, Some(StemSeen::Ended(Some(4))));
    assert_eq!(plant.growth, Some(GrowthSeen::LevelsOff));
    assert_eq!(plant.ripening, Some(RipeningSeen::Within(21)));
    assert_eq!((plant.height, plant.leaves_between), (Millimetres::new(1400.0), None));
    assert_eq!(set_plant(&mut plant, PlantField::StemGrowing, "9"), Err(FieldFault::EndedAndGrowing));
    for (field, text) in [
        (PlantField::LeavesBetween, "21"),
        (PlantField::RipeWithin, "0"),
        (PlantField::DwarfLeaves, "perhaps"),
        (PlantField::StemGrowing, "many"),
    ] {
        assert!(set_plant(&mut PlantSeen::default(), field, text).is_err(), "{text}");
    }
}

fn told(text: &str) -> unnamed::Told {
    let tables = file::open("handful.csv", Content::Bytes(text.as_bytes().into())).unwrap();
    unnamed::take(&tables[0], Season::new(2031).unwrap(), date(2031, 8, 1)).unwrap()
}

#[test]
fn a_table_need_name_no_variety() {
    let fruits = told("Weight (g),Length (mm),Width (mm),Locules\n58,61,38,2\n55,60,37,2\n61,62,x,2\n");
    assert_eq!((fruits.notes.len(), fruits.rejected.len()), (2, 1));
    assert_eq!((fruits.rejected[0].row, fruits.rejected[0].column.as_deref()), (4, Some("Width (mm)")));
    let first = &fruits.notes[0].0;
    assert!(matches!(first, Note::Fruit(sample) if sample.weight == Grams::new(58.0)), "{first:?}");
}

#[test]
fn a_table_that_names_varieties_is_of_one_unknown_all_the_same() {
    let fruits = told(
        "Variety,Plot,Date,Plant,Weight (g)\nUnheard Of,B7,2031-07-30,1,58\nAnother,B8,2031-07-30,2,60\n",
    );
    assert_eq!((fruits.notes.len(), fruits.rejected.len()), (2, 0), "{:?}", fruits.rejected);
}
