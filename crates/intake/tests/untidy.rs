//! Files as growers keep them, each with one untidiness, from the bytes to the entries.

#![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "what a test works with may stop it")]

mod house;

use house::{taken, taken_with};
use intake::column::ColumnUse;
use intake::day::DateOrder;
use intake::entry::Entry;
use intake::file::open;
use intake::kind::Kind;
use intake::layout::{Answers, ColumnAnswer, SavedMapping};
use intake::number::DecimalMark;
use intake::recognise::recognise;
use intake::table::Table;
use intake::unit::MassUnit;
use jiff::civil::date;
use record::note::Note;
use record::season::Season;

#[test]
fn titles_blanks_totals_and_headings_again_are_passed_over() {
    let text = "Fruit bench 2031,,,\nweighed by the back door,,,\n,,,\nVariety,Date,wt (oz),\n\
                Amber Bell,2031-08-01,6.0,\n,,,\nAmber Bell,2031-08-02,6.5,\nTotal,,12.5,\nTotal fruit,,2,\n\
                ,Sum July 2031,2,\n\
                VARIETY,DATE,WT (OZ),\nNan,2031-08-02,0.04,\nAvg:,,6.25,\n";
    let outcome = taken("samples.csv", text);
    assert_eq!(outcome.layout.titles, ["Fruit bench 2031", "weighed by the back door"]);
    assert_eq!(outcome.layout.heading_row, 4);
    assert_eq!(outcome.weights(), [Some(170.1), Some(184.3), Some(1.1)]);
    let tally = outcome.tally;
    assert_eq!((tally.blank, tally.totals, tally.repeated_headings, tally.rejected), (1, 4, 1, 0));
    assert_eq!(outcome.entries.iter().map(|entry| entry.0).collect::<Vec<_>>(), [5, 7, 12]);
}

/// The same three rows in every encoding, with every delimiter and decimal mark.
#[test]
fn dress_does_not_matter() {
    let plain = "variety,season,weight (g),length (cm)\nAmber Bell,2031,170.5,6.3\nNan,2031,1.5,1.1\n";
    let european =
        "variety;season;weight (g);length (cm)\r\nAmber Bell;2031;170,5;6,3\r\nNan;2031;1,5;1,1\r\n";
    let utf16 =
        |text: &str, order: fn(u16) -> [u8; 2]| text.encode_utf16().flat_map(order).collect::<Vec<u8>>();
    let marked = format!("\u{feff}{european}");
    for content in [
        plain.as_bytes().to_vec(),
        european.as_bytes().to_vec(),
        marked.as_bytes().to_vec(),
        utf16(&marked, u16::to_le_bytes),
        utf16(european, u16::to_be_bytes),
        plain.replace(',', "\t").into_bytes(),
        plain.replace(',', "|").into_bytes(),
        plain.replace('\n', "\r").into_bytes(),
        plain.replace("Amber Bell", "\"Amber Bell\"").into_bytes(),
    ] {
        let outcome = taken("samples.csv", &content);
        assert_eq!(outcome.weights(), [Some(170.5), Some(1.5)]);
        let length = outcome.fruits()[0].length.map(|length| length.get());
        assert_eq!(length, Some(63.0));
    }
}

#[test]
fn windows_1252_names_are_read() {
    let mut roster_free = b"name;aliases;habit\n".to_vec();
    roster_free.extend(b"Cr\xe8me d'Ambre;Ambre \x96 petite;d\xe9termin\xe9e\n");
    let outcome = taken("varieties.csv", roster_free);
    let Entry::Variety(variety) = &outcome.entries[0].1 else { panic!("no variety") };
    assert_eq!((variety.name.as_str(), variety.aliases[0].as_str()), ("Crème d'Ambre", "Ambre – petite"));
    assert_eq!(variety.claims[0].words, "déterminée");
}

#[test]
fn quoted_line_breaks_stay_in_their_cell() {
    let text = "variety,season,notes,weight (g)\n\"Amber\nBell\",2031,\"late,\r\n\"\"very\"\" late\",170\n";
    let outcome = taken("samples.csv", text);
    assert_eq!(outcome.weights(), [Some(170.0)]);
}

#[test]
fn thousands_are_told_from_tenths_by_their_column() {
    let head = "variety;season;total wt (g);fruits\n";
    let rows =
        |cells: &[&str]| cells.iter().map(|cell| format!("Amber Bell;2031;{cell};10\n")).collect::<String>();
    let told = taken("samples.csv", format!("{head}{}", rows(&["1,234", "987,5", "1.234,5"])));
    assert_eq!(told.weights(), [Some(0.1), Some(98.8), Some(123.5)]);
    let told = taken("samples.csv", format!("{head}{}", rows(&["1,234", "987.5"])));
    assert_eq!(told.weights(), [Some(123.4), Some(98.8)]);
    // Alone it is asked, and its row waits in the quarantine.
    let asked = taken("samples.csv", format!("{head}{}", rows(&["1,234", "987"])));
    assert_eq!(
        asked.questions(),
        ["column \"total wt (g)\": does \"1,234\" hold thousands or decimals? no number in the column tells"]
    );
    assert_eq!(asked.reasons(), ["2: total wt (g): \"1,234\" could mean thousands or decimals"]);
    assert_eq!(asked.weights(), [Some(98.7)]);
    let comma = Answers { decimal_mark: Some(DecimalMark::Point), ..Answers::default() };
    let answered = taken_with("samples.csv", format!("{head}{}", rows(&["1,234", "987"])), &comma);
    assert_eq!(answered.weights(), [Some(123.4), Some(98.7)]);
}

#[test]
fn a_unit_that_nobody_names_is_asked() {
    let text = "variety,season,weight,length\nAmber Bell,2031,6.2,2.5 in\nAmber Bell,2031,170 g,\n";
    let asked = taken("samples.csv", text);
    assert_eq!(asked.questions(), ["column \"weight\": in which unit? \"6.2\" names none"]);
    assert_eq!(asked.reasons(), ["2: weight: \"6.2\" has no unit"]);
    assert_eq!(asked.rejections[0].remedy, "write the unit in the cell or the heading, such as weight (g)");
    let ounces = Answers { mass_unit: Some(MassUnit::Ounce), ..Answers::default() };
    let answered = taken_with("samples.csv", text, &ounces);
    assert_eq!(answered.weights(), [Some(175.8), Some(170.0)]);
    assert_eq!(answered.layout.columns[2].notes, ["in oz where a cell names no unit, as was stated"]);
}

#[test]
fn the_order_of_day_and_month_is_the_columns() {
    let head = "variety,date,weight (g)\n";
    let rows =
        |cells: &[&str]| cells.iter().map(|cell| format!("Amber Bell,{cell},170\n")).collect::<String>();
    let told = taken("samples.csv", format!("{head}{}", rows(&["3/8/31", "14/8/31", "4.8.2031"])));
    assert_eq!(told.days(), [Some(date(2031, 8, 3)), Some(date(2031, 8, 14)), Some(date(2031, 8, 4))]);
    let told = taken("samples.csv", format!("{head}{}", rows(&["8/3/31", "8/14/31"])));
    assert_eq!(told.days(), [Some(date(2031, 8, 3)), Some(date(2031, 8, 14))]);
    let untold = format!("{head}{}", rows(&["3/8/31", "8/8/31"]));
    let asked = taken("samples.csv", &untold);
    assert_eq!(
        asked.questions(),
        ["column \"date\": is \"3/8/31\" day first or month first? no date in the column tells"]
    );
    assert_eq!(asked.reasons(), ["2: date: \"3/8/31\" could be day first or month first"]);
    assert_eq!(asked.days(), [Some(date(2031, 8, 8))]);
    let month_first = Answers { date_order: Some(DateOrder::MonthFirst), ..Answers::default() };
    assert_eq!(taken_with("samples.csv", &untold, &month_first).days()[0], Some(date(2031, 3, 8)));
    // Both orders in one column: what tells itself is read, the rest asked.
    let mixed = taken("samples.csv", format!("{head}{}", rows(&["14/8/31", "8/15/31", "3/8/31"])));
    assert_eq!(mixed.days().len(), 2);
    assert_eq!(mixed.layout.questions.len(), 1);
}

#[test]
fn days_without_a_year_take_it_from_the_season() {
    // By the plot's grow-out.
    let by_plot = taken(
        "samples.csv",
        "plot,grow-out,date,weight (g)\nA1,2030 Home,Aug 14,170\nA1,2031 home,14-Aug,60\n",
    );
    assert_eq!(by_plot.days(), [Some(date(2030, 8, 14)), Some(date(2031, 8, 14))]);
    // By the season column, the title, the answer.
    let by_season = taken("samples.csv", "variety,season,date,weight (g)\nNan,2030,Aug 14,1.2\n");
    assert_eq!(by_season.days(), [Some(date(2030, 8, 14))]);
    let by_title = taken("samples.csv", "Fruit bench 2031\nvariety,date,weight (g)\nNan,Aug 14,1.2\n");
    assert_eq!(by_title.days(), [Some(date(2031, 8, 14))]);
    assert_eq!(by_title.layout.notes, ["season 2031 for rows that name none, from the title"]);
    let text = "variety,date,weight (g)\nNan,Aug 14,1.2\n";
    let season = Answers { season: Season::new(2031), ..Answers::default() };
    assert_eq!(taken_with("samples.csv", text, &season).days(), [Some(date(2031, 8, 14))]);
    // By nothing: asked, never guessed.
    let asked = taken("samples-2031.csv", text);
    assert_eq!(asked.questions(), ["column \"date\": of which season is \"Aug 14\"?"]);
    assert_eq!(asked.reasons(), ["2: -: the row does not say its season"]);
}

#[test]
fn plots_are_found_by_grow_out_or_season() {
    let head = "plot,variety,date,weight (g)\n";
    let by_date = taken(
        "samples.csv",
        format!("{head}A1,,2030-08-01,170\nA1,,2031-08-01,60\nB1,Amber Bell,2031-08-01,170\n"),
    );
    // Label A1 is told by the season; B1 stands in two grow-outs of one season.
    assert_eq!(
        by_date.fruits().iter().map(|fruit| fruit.subject.plot).collect::<Vec<_>>(),
        [Some(house::id(21)), Some(house::id(22))]
    );
    assert_eq!(by_date.reasons(), ["4: plot: plot \"B1\" stands in several grow-outs"]);
    let answers = Answers { grow_out: Some("2031 Home".to_owned()), ..Answers::default() };
    let named = taken_with("samples.csv", format!("{head}B1,Amber Bell,2031-08-01,170\n"), &answers);
    assert_eq!(named.fruits()[0].subject.plot, Some(house::id(23)));
    // A title that is the grow-out's name, word for word, names it.
    let titled = taken("samples.csv", format!("2031 Home,,,\n{head}B1,,2031-08-01,170\n"));
    assert_eq!(titled.fruits()[0].subject.plot, Some(house::id(23)));
    let wrong = taken(
        "samples.csv",
        format!("{head}Z9,,2031-08-01,170\nA1,Amber Bell,2031-08-01,170\nA1,,2029-08-01,60\n"),
    );
    assert_eq!(
        wrong.reasons(),
        [
            "2: plot: no plot is labelled \"Z9\"",
            "3: variety: plot \"A1\" holds \"Old Pike\", not \"Amber Bell\"",
            "4: plot: plot \"A1\" stands in several grow-outs",
        ]
    );
}

#[test]
fn seasons_that_disagree_are_refused() {
    let outcome = taken(
        "samples.csv",
        "variety,season,date,weight (g)\nNan,2030,2031-08-01,1.2\nNan,31,2031-08-01,1.2\n",
    );
    assert_eq!(
        outcome.reasons(),
        [
            "2: date: the row is of season 2030 and dated in season 2031",
            "3: season: \"31\" is no season's year",
        ]
    );
}

#[test]
fn unknown_names_are_suggested_and_never_merged() {
    let outcome = taken(
        "samples.csv",
        "variety,season,weight (g)\nAmber Bel,2031,170\nambra,2031,170\nGREAT  LUMP,2031,600\nZinnia,2031,5\n",
    );
    assert_eq!(
        outcome.reasons(),
        ["2: variety: no variety is named \"Amber Bel\"", "5: variety: no variety is named \"Zinnia\""]
    );
    let suggestion = outcome.rejections[0].suggestion.clone().unwrap();
    assert_eq!((suggestion.nearest.as_str(), suggestion.variety), ("Amber Bell", house::id(1)));
    assert_eq!(outcome.rejections[0].remedy, "if \"Amber Bell\" is meant, accept it as another name");
    assert_eq!(outcome.rejections[0].cells, ["Amber Bel", "2031", "170"]);
    assert_eq!(outcome.rejections[1].suggestion, None);
    assert_eq!(
        outcome.fruits().iter().map(|fruit| fruit.subject.variety).collect::<Vec<_>>(),
        [house::id(1), house::id(4)]
    );
}

#[test]
fn a_tie_between_kinds_is_settled_by_the_names_or_asked() {
    let text = "variety,date,count,weight (g)\nNan,2031-08-01,10,15\n";
    let asked = recognise(&open("august.csv", house::bytes(text)).unwrap()[0], &[], &Answers::default());
    assert_eq!(asked.unwrap_err().to_string(), "the headings fit fruit samples or picks");
    assert_eq!(taken("picks-august.csv", text).layout.kind, Kind::Picks);
    assert_eq!(taken("august.csv", format!("Harvest of the home garden\n{text}")).layout.kind, Kind::Picks);
    let samples = Answers { kind: Some(Kind::FruitSamples), ..Answers::default() };
    assert_eq!(taken_with("picks-august.csv", text, &samples).layout.kind, Kind::FruitSamples);
}

/// Headings that mean nothing here are read once the user has said what they are, and the answer is kept.
#[test]
fn a_saved_mapping_is_found_by_its_headings() {
    let text = "Sorte;Gewicht;Datum\nNan;1,2;14.8.31\n";
    let column = |place, reads| ColumnAnswer { place, reads: Some(reads), ..ColumnAnswer::default() };
    let answers = Answers {
        kind: Some(Kind::FruitSamples),
        columns: vec![column(0, ColumnUse::Variety), column(1, ColumnUse::Weight), column(2, ColumnUse::Day)],
        mass_unit: Some(MassUnit::Gram),
        ..Answers::default()
    };
    let first = taken_with("obst.csv", text, &answers);
    assert_eq!((first.weights(), first.days()), (vec![Some(1.2)], vec![Some(date(2031, 8, 14))]));
    let saved = SavedMapping {
        name: "the neighbour's".to_owned(),
        heading_fingerprint: first.layout.heading_fingerprint,
        answers: first.layout.settled(),
    };
    let later =
        open("obst2.csv", house::bytes("Beeren\nSORTE;GEWICHT;DATUM\nNan;1,3;3.8.31\n")).unwrap().remove(0);
    let layout = recognise(&later, &[saved], &Answers::default()).unwrap();
    assert_eq!((layout.mapping.as_deref(), layout.heading_row), (Some("the neighbour's"), 2));
    assert_eq!(layout.columns[2].date_order, Some(DateOrder::DayFirst));
}

/// A row mended in the quarantine is read as its whole column was.
#[test]
fn a_mended_row_is_read_as_its_column_was() {
    let text = "variety;date;weight (g)\nNan;3.8.31;1,25\nNann;4.8.31;1,234\nNan;14.8.31;1,5\n";
    let outcome = taken("samples.csv", text);
    let rejection = &outcome.rejections[0];
    assert_eq!(
        (rejection.row, rejection.suggestion.as_ref().map(|found| found.nearest.as_str())),
        (3, Some("Nan"))
    );
    let headings = outcome.layout.columns.iter().map(|column| column.heading.clone()).collect();
    let mut cells = rejection.cells.clone();
    cells[0] = "Nan".to_owned();
    let mended = Table::of_rows("samples.csv", None, &[(1, headings), (rejection.row, cells)]);
    let layout = recognise(&mended, &[], &outcome.layout.settled()).unwrap();
    let mut given = Vec::new();
    intake::take::take(&mended, &layout, &house::roster(), house::TODAY, &mut |taken| {
        given.push(taken);
        std::ops::ControlFlow::Continue(())
    })
    .unwrap();
    let intake::take::Taken::Entry { row: 3, entry: Entry::Note(Note::Fruit(fruit)), .. } = &given[0] else {
        panic!("{given:?}")
    };
    assert_eq!(fruit.sampled_on, Some(date(2031, 8, 4)));
    assert_eq!(fruit.weight.map(|weight| weight.get()), Some(1.234));
}

/// The quarantine's own export, corrected by hand, is taken like any file.
#[test]
fn our_own_export_of_the_quarantine_is_read_back() {
    let text = "file,sheet,row,column,reason,remedy,variety,season,weight (g)\n\
                samples.csv,,17,weight (g),\"'=1+2 is not a number\",write a number,Nan,2031,1.5\n";
    let outcome = taken("quarantine.csv", text);
    assert_eq!(outcome.weights(), [Some(1.5)]);
    assert!(outcome.layout.columns[..6].iter().all(|column| column.reads == ColumnUse::Quarantine));
    let original = taken("samples.csv", "variety,season,weight (g)\nNan,2031,1.5\n");
    assert_eq!(outcome.layout.heading_fingerprint, original.layout.heading_fingerprint);
    assert_eq!(outcome.fingerprints, original.fingerprints);
    // A mapping of the original finds its columns beside ours.
    let saved = SavedMapping {
        name: "kept".to_owned(),
        heading_fingerprint: original.layout.heading_fingerprint,
        answers: Answers { decimal_mark: Some(DecimalMark::Comma), ..original.layout.settled() },
    };
    let table = open("quarantine.csv", house::bytes(text)).unwrap().remove(0);
    let layout = recognise(&table, &[saved], &Answers::default()).unwrap();
    assert_eq!(layout.columns[8].reads, ColumnUse::Weight);
    // And the other way about.
    let saved = SavedMapping {
        name: "kept of the export".to_owned(),
        heading_fingerprint: layout.heading_fingerprint,
        answers: layout.settled(),
    };
    let table =
        open("samples.csv", house::bytes("variety,season,weight (g)\nNan,2031,1.5\n")).unwrap().remove(0);
    let layout = recognise(&table, &[saved], &Answers::default()).unwrap();
    assert_eq!(layout.columns[2].reads, ColumnUse::Weight);
    // A bed map's own row and column are its own.
    let plots = taken("plots.csv", "grow-out,plot,variety,row,column\n2032 Home,C1,Nan,2,7\n");
    assert_eq!(plots.layout.columns[3].reads, ColumnUse::BedRow);
}

/// The number is stored in ledgers: it may never change, nor hang on columns that are not read.
#[test]
fn the_fingerprint_of_a_row_stays() {
    let plain = taken("samples.csv", "variety,season,weight (g)\nNan,2031,1.5\n").fingerprints;
    let moved = taken("samples.csv", "notes;weight (g);variety;season\nlate;1.5; Nan ;2031\n").fingerprints;
    assert_eq!(plain, moved);
    assert_eq!(plain, [PINNED]);
}

/// The fingerprint as first made.
const PINNED: u64 = 9_183_546_354_038_636_854;

#[test]
fn a_long_table_is_not_guessed_where_its_end_is_written_otherwise() {
    let mut text = "Variety,Date,weight (g),locules\n".to_owned();
    text.extend((0..60_000).map(|row| format!("Amber Bell,2031-08-{:02},58.5,3\n", row % 28 + 1)));
    let dated = text.clone() + "Amber Bell,03/04/2031,61.5,3\n";
    let outcome = taken("samples.csv", dated);
    assert_eq!(outcome.tally.entries, 60_000);
    let faults: Vec<&str> = outcome.rejections.iter().map(|fault| fault.value.as_str()).collect();
    assert_eq!(faults, ["03/04/2031"]);
    assert_eq!(outcome.layout.row_count, 60_002, "line breaks, for the progress bar");
    // A comma in a cell may be of either kind beside decimal points, so the whole column is looked at.
    let marked = text + "Amber Bell,2031-08-09,\"61,5\",3\nAmber Bell,2031-08-09,\"1,234\",3\n";
    let outcome = taken("samples.csv", marked);
    let faults: Vec<&str> = outcome.rejections.iter().map(|fault| fault.value.as_str()).collect();
    assert_eq!(faults, ["1,234"]);
}
