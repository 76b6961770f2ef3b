//! Invented fruit, the same at every run: what a season's fruit samples look like in number and shape.

use jiff::Timestamp;
use jiff::civil::Date;
use ledger::batch::{BatchKind, Sha256, Source};
use ledger::fault::LedgerFault;
use ledger::ledger::Ledger;
use ledger::writer::{NewGrowOut, NewPlot, NewVariety};
use record::colour::TradeColour;
use record::fruit::FruitSample;
use record::growout::{PlantNumber, Plot};
use record::id::Id;
use record::length::Millimetres;
use record::mass::Grams;
use record::season::Season;
use record::share::Percent;
use record::subject::Subject;
use record::variety::Variety;
use std::num::NonZeroU32;

/// A plot and the variety that stands in it.
pub type Planted = (Id<Variety>, Id<Plot>);

/// Where a bench's rows are said to come from.
pub fn source(file_name: &str) -> Source {
    Source {
        who: "Ansel".to_owned(),
        at: Timestamp::UNIX_EPOCH,
        kind: BatchKind::FruitSamples,
        file_name: Some(file_name.to_owned()),
        sheet: None,
        sha256: Some(Sha256([7; 32])),
        headings: Vec::new(),
        reading: None,
        why: None,
    }
}

/// Plants that many varieties, one plot each.
pub fn plant(ledger: &mut Ledger, varieties: u32) -> Result<Vec<Planted>, LedgerFault> {
    let mut writer = ledger.begin_batch(&source("plots.csv"))?;
    let season = Season::new(2031).unwrap();
    let home = NewGrowOut { name: "2031 Home".to_owned(), season, garden: "Home".to_owned() };
    let grow_out = writer.add_grow_out(1, &home)?.id;
    let mut planted = Vec::new();
    for number in 1..=varieties {
        let name = format!("Invented {number}");
        let new = NewVariety { name, aliases: Vec::new(), claims: Vec::new() };
        let variety = writer.add_variety(u64::from(number), &new)?.id;
        let plot = NewPlot {
            grow_out,
            label: number.to_string(),
            variety,
            block: None,
            row: None,
            position: None,
            transplanted: None,
            plant_count: Some(6),
            layout: record::growout::PlotLayout::default(),
        };
        planted.push((variety, writer.add_plot(u64::from(number), &plot)?.id));
    }
    writer.commit()?;
    Ok(planted)
}

/// The fruit of one row: eight of a plot together, as a basket is measured, all figures from the row's number.
pub fn fruit(planted: &[Planted], row: u32) -> FruitSample {
    let basket = (row / 8).wrapping_mul(2_654_435_761) as usize;
    let (variety, plot) = planted[basket % planted.len()];
    let wobble = f64::from(row.wrapping_mul(40_503) % 1_000) / 1_000.0;
    let width = (30.0 + 40.0 * wobble) * 10.0;
    FruitSample {
        subject: Subject {
            variety,
            season: Season::new(2031).unwrap(),
            plot: Some(plot),
            plant: Some(PlantNumber(row / 8 % 6 + 1)),
        },
        sampled_on: Date::new(2031, 8, i8::try_from(row / 4_000 % 28).unwrap() + 1).ok(),
        fruit_count: NonZeroU32::MIN,
        weight: Grams::new((20.0 + 180.0 * wobble).round()),
        length: Millimetres::new((width * 1.1).round() / 10.0),
        width: Millimetres::new(width.round() / 10.0),
        neck_width: None,
        locules: Some(2 + row % 4),
        soluble_solids: Percent::new((45.0 + 30.0 * wobble).round() / 10.0),
        dry_matter: None,
        lobes: None,
        cracking: None,
        catfacing: None,
        exterior: Some(TradeColour::Red),
        flesh: None,
        skin: None,
    }
}
