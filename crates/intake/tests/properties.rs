//! What must hold of any input. The bodies of the fuzz targets in /fuzz run here too.

#![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "what a test works with may stop it")]

mod house;

use intake::day::{self, DateOrder};
use intake::layout::Answers;
use intake::number::{self, DecimalMark, Evidence};
use intake::recognise::recognise;
use intake::take::take;
use intake::unit::{self, LengthUnit, MassUnit};
use jiff::civil::Date;
use proptest::prelude::*;
use std::ops::ControlFlow;

fn mark() -> impl Strategy<Value = Option<DecimalMark>> {
    prop::sample::select(vec![None, Some(DecimalMark::Point), Some(DecimalMark::Comma)])
}

/// Texts made of what cells are made of, so that they come close to being right.
fn cell() -> impl Strategy<Value = String> {
    prop_oneof![
        ".{0,24}",
        "[-0-9.,/ '\"~<½¼gkozlbincmtf]{0,16}",
        "[0-9./ -]{0,12}",
        "[JAMSOND][a-z]{2} ?[0-9]{1,4}"
    ]
}

fn grouped(whole: u32, parter: &str) -> String {
    let figures = whole.to_string();
    let groups: Vec<&str> =
        figures.as_bytes().rchunks(3).rev().filter_map(|group| std::str::from_utf8(group).ok()).collect();
    groups.join(parter)
}

proptest! {
    #[test]
    fn any_cell_is_read_or_refused(cell in cell(), mark in mark()) {
        let _ = number::number(&cell, mark);
        let _ = number::count(&cell, mark);
        let _ = unit::percent(&cell, mark);
        if let Ok(mass) = unit::mass(&cell, Some(MassUnit::Pound), mark) {
            prop_assert!(mass.get().is_finite());
        }
        if let Ok(length) = unit::length(&cell, Some(LengthUnit::Foot), mark) {
            prop_assert!(length.get().is_finite());
        }
        for order in [None, Some(DateOrder::DayFirst), Some(DateOrder::MonthFirst)] {
            let _ = day::day(&cell, order, None);
        }
    }

    /// There and back: a number written either way, with or without thousands, is the number.
    #[test]
    fn numbers_are_read_as_written(whole in 0_u32..2_000_000, tenths in 0_u32..100) {
        let value = f64::from(whole) + f64::from(tenths) / 100.0;
        for (text, mark) in [
            (format!("{whole}.{tenths:02}"), DecimalMark::Point),
            (format!("{whole},{tenths:02}"), DecimalMark::Comma),
            (format!("{}.{tenths:02}", grouped(whole, ",")), DecimalMark::Point),
            (format!("{},{tenths:02}", grouped(whole, ".")), DecimalMark::Comma),
            (format!("{},{tenths:02}", grouped(whole, "\u{a0}")), DecimalMark::Comma),
        ] {
            let read = number::number(&text, Some(mark)).unwrap();
            prop_assert!((read - value).abs() < 1e-9, "{text}: {read}");
            // Two decimals can only be decimals, so the column need not be asked.
            prop_assert_eq!(number::number(&text, None).unwrap().to_bits(), read.to_bits());
        }
    }

    /// The body of fuzz target `dates`: two readings of one cell differ only where it is evidence for neither.
    #[test]
    fn a_day_is_one_day_unless_its_column_must_tell(cell in cell()) {
        let first = day::day(&cell, Some(DateOrder::DayFirst), None);
        let second = day::day(&cell, Some(DateOrder::MonthFirst), None);
        if let (Ok(first), Ok(second)) = (first, second) {
            prop_assert!(day::evidence(&cell).0 == day::Evidence::Either || first == second);
        }
    }

    /// The body of fuzz target `headings`: what was recognised once is recognised again from its own answers.
    #[test]
    fn settled_answers_settle(
        headings in proptest::collection::vec(prop_oneof![
            prop::sample::select(vec!["date", "wt (oz)", "length_mm", "L*", "row", "column", "reason", "count", "height"]),
            Just(""),
        ], 1..8),
        odd in ".{0,20}",
        row in proptest::collection::vec("[-0-9./,a-z ]{0,8}", 1..8),
    ) {
        let text = format!("variety,{},{odd}\nNan,{}\n", headings.join(","), row.join(","));
        let Ok(tables) = intake::file::open("any.csv", house::bytes(text)) else { return Ok(()) };
        for table in &tables {
            let Ok(layout) = recognise(table, &[], &Answers::default()) else { continue };
            let again = recognise(table, &[], &layout.settled()).unwrap();
            let reads = |layout: &intake::layout::Layout| layout.columns.iter().map(|column| column.reads).collect::<Vec<_>>();
            prop_assert_eq!((again.kind, reads(&again)), (layout.kind, reads(&layout)));
        }
    }

    /// What a numeral is evidence for never changes its own reading.
    #[test]
    fn evidence_and_reading_agree(numeral in "[0-9]{1,4}[.,]?[0-9]{0,4}[.,]?[0-9]{0,4}", told in mark()) {
        match number::evidence(&numeral) {
            Evidence::Only(mark) => prop_assert_eq!(number::numeral(&numeral, told), number::numeral(&numeral, Some(mark))),
            Evidence::Either => prop_assert!(number::numeral(&numeral, None).is_err()),
            Evidence::Nothing | Evidence::Neither => {}
        }
    }

    /// Grams or ounces, inches or millimetres: the same fruit.
    #[test]
    fn units_do_not_matter(hundredths in 1_u32..500_000) {
        let amount = f64::from(hundredths) / 100.0;
        let ounces = unit::mass(&format!("{amount} oz"), None, Some(DecimalMark::Point)).unwrap().get();
        let pounds = unit::mass(&format!("{:.6} lb", amount / 16.0), None, Some(DecimalMark::Point)).unwrap().get();
        prop_assert!((ounces - pounds).abs() < 1e-3);
        let inches = unit::length(&format!("{amount} in"), None, Some(DecimalMark::Point)).unwrap().get();
        let centimetres = unit::length(&format!("{:.4} cm", amount * 2.54), None, Some(DecimalMark::Point)).unwrap().get();
        prop_assert!((inches - centimetres).abs() < 1e-2);
    }

    /// There and back: a day written in any of the ways is the day.
    #[test]
    fn days_are_read_as_written(year in 1970_i16..2068, ordinal in 1_i16..366) {
        let day = Date::new(year, 1, 1).unwrap().with().day_of_year(ordinal).build().unwrap();
        let (month, of_month, short) = (day.month(), day.day(), year % 100);
        let name = day.strftime("%B").to_string();
        for (text, order) in [
            (day.to_string(), None),
            (format!("{of_month}/{month}/{year}"), Some(DateOrder::DayFirst)),
            (format!("{month}/{of_month}/{short:02}"), Some(DateOrder::MonthFirst)),
            (format!("{of_month}.{month}.{year}"), Some(DateOrder::DayFirst)),
            (format!("{name} {of_month}, {year}"), None),
            (format!("{of_month}-{}-{short:02}", &name[..3]), None),
            (format!("{year}{month:02}{of_month:02}"), None),
        ] {
            prop_assert_eq!(day::day(&text, order, None), Ok(day), "{}", text);
        }
    }

    /// Any table of near-right cells is taken or refused, and every row is accounted for once.
    #[test]
    fn every_row_is_accounted_for(rows in proptest::collection::vec((cell(), cell(), cell(), cell()), 0..30)) {
        let mut writer = csv::Writer::from_writer(Vec::new());
        writer.write_record(["variety", "date", "weight (g)", "length", "brix"]).unwrap();
        for (variety, date, weight, length) in &rows {
            writer.write_record([variety, date, weight, length, "5"]).unwrap();
        }
        let text = writer.into_inner().unwrap();
        // Cells full of NULs make it no text at all.
        let Ok(mut tables) = intake::file::open("samples.csv", house::bytes(text)) else { return Ok(()) };
        let table = tables.remove(0);
        let layout = recognise(&table, &[], &Answers::default()).unwrap();
        let tally = take(&table, &layout, &house::roster(), house::TODAY, &mut |_| ControlFlow::Continue(())).unwrap();
        let accounted =
            tally.taken + tally.rejected + tally.blank + tally.unfilled + tally.totals + tally.repeated_headings;
        prop_assert_eq!((tally.rows, accounted), (rows.len() as u64, tally.rows));
    }

    /// The body of fuzz target `workbook`: damaged packages are refused.
    #[test]
    fn damaged_workbooks_are_refused_or_read(at in any::<prop::sample::Index>(), to in any::<u8>(), cut in any::<prop::sample::Index>()) {
        let rows = r#"<row r="1"><c r="A1"><v>5</v></c></row>"#;
        let sheet = house::workbooks::ods_row(&["variety", "weight"]);
        for mut content in [house::workbooks::xlsx(rows), house::workbooks::ods(&[("S", &sheet)])] {
            *at.get_mut(&mut content) = to;
            let _ = intake::file::open("any", house::bytes(&content));
            content.truncate(cut.index(content.len()));
            let _ = intake::file::open("any", house::bytes(&content));
        }
    }

    /// XML of near-right sheets is refused or read.
    #[test]
    fn odd_sheets_are_refused_or_read(rows in "(<row( r=\"[0-9]{0,8}\")?>|</row>|<c( r=\"[A-Z]{0,4}[0-9]{0,8}\")?( t=\"(s|str|b|e|n|inlineStr|d|q)\")?( s=\"[0-9]{1,3}\")?>|</c>|<v>|</v>|<f( t=\"shared\")?( si=\"[0-9]{1,10}\")?( ref=\"A1:B2\")?>|</f>|[0-9]{1,5}|&[a-z#]{1,4};){0,30}") {
        let _ = intake::file::open("any", house::bytes(house::workbooks::xlsx(&rows)));
    }

    #[test]
    fn odd_ods_sheets_are_refused_or_read(rows in "(<table:table-row( table:number-rows-repeated=\"[0-9]{1,3}\")?>|</table:table-row>|<table:table-cell( table:number-columns-repeated=\"[0-9]{1,6}\")?( office:value=\"[0-9.e]{1,5}\")?>|</table:table-cell>|<text:p>|</text:p>|[0-9]{1,5}|&[a-z#]{1,4};){0,30}") {
        let _ = intake::file::open("any", house::bytes(house::workbooks::ods(&[("S", &rows)])));
    }
}
