//! `locule print labels` and `locule print lots`: the paper of the seed room.

use super::field_paper::day_of;
use super::lots::law;
use super::reference::{Shape, shape};
use super::{Failure, act, answer};
use crate::answer::{Answer, Ending, Form};
use crate::arguments::print::{PacketPaper, Print};
use crate::columns::columns;
use house::folder::House;
use house::forecast::Place;
use house::labels;
use house::lots::cards;
use house::lots::law::{Asked, ForOnce};
use house::lots::packets::{self, Book, Contents, Packed, Run, To};
use house::lots::{telling, typed};
use house::print::Paper;
use record::language::counted;
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

/// Packet labels that were printed.
#[derive(Debug, Serialize, JsonSchema)]
struct LabelsTold {
    /// The file.
    file: String,
    /// Its size.
    bytes: u64,
    /// Labels in it.
    labels: u64,
    /// Sheets of labels that they take, or labels of a roll.
    sheets: u64,
    /// The label stock, by size.
    stock: String,
    /// Whether the packets were booked out of their jars.
    booked: bool,
    /// The packets, lot by lot.
    packets: Vec<PackedTold>,
    /// By whose rules the labels were made.
    rules: Vec<String>,
    /// Those of them whose text was not seen.
    unverified: Vec<String>,
}

/// Packets of one lot.
#[derive(Debug, Serialize, JsonSchema)]
struct PackedTold {
    /// The lot's number.
    lot: String,
    /// The variety.
    variety: String,
    /// How many.
    packets: u32,
    /// The seed that goes into each, in milligrams.
    fill_mg: u64,
    /// Seeds that 95 packets in 100 hold at least, where seed was weighed.
    seeds: Option<u32>,
    /// Seeds by which each is filled over that.
    over: Option<u32>,
    /// What the label must say, line by line.
    label: Vec<String>,
}

/// Lot cards that were printed.
#[derive(Debug, Serialize, JsonSchema)]
struct CardsTold {
    /// The file.
    file: String,
    /// Its size.
    bytes: u64,
    /// Cards in it.
    cards: usize,
}

pub(super) fn labels(house: &House, typed: &Print, form: Form) -> Result<Ending, Failure> {
    let today = day_of(typed)?;
    let (packets, field) = (&typed.packets, &typed.field);
    let wanted = field.names.iter().map(|name| packets::wanted(name, packets.count.unwrap_or(1)));
    let stock = labels::stock_named(house, field.sheet.as_deref())?;
    let run = Run {
        wanted: wanted.collect::<Result<_, _>>()?,
        contents: contents(packets)?,
        law: packets.law.map_or(house.settings.law, law),
        packed_for: packets.packed_for.unwrap_or_else(|| packets::packed_for(today)),
        sown_at: sown_at(packets),
        book: if packets.pack { Book::OutOfTheJar } else { Book::LabelsOnly },
        stock,
        today,
    };
    let to = typed.to.clone().map_or(To::OwnName, To::File);
    let printed = packets::print(house, &run, &to, &act(house, packets.by.as_ref(), None))?;
    let told = LabelsTold {
        file: printed.file.display().to_string(),
        bytes: printed.bytes,
        labels: printed.labels,
        sheets: printed.sheets,
        stock: run.stock.name().to_owned(),
        booked: packets.pack,
        packets: printed.packed.into_iter().map(packed).collect(),
        rules: printed.rules,
        unverified: printed.unverified,
    };
    answer(&told, form)
}

fn contents(typed: &PacketPaper) -> Result<Contents, Failure> {
    match (typed.seeds, &typed.of) {
        (Some(seeds), _) => Ok(Contents::Seeds(seeds)),
        (None, Some(mass)) => Ok(Contents::Mass(typed::mass(mass)?)),
        (None, None) => Err(Failure::Typed {
            message: "nobody told what a packet holds".to_owned(),
            help: "write --seeds 30, or --of \"100 mg\"".to_owned(),
        }),
    }
}

fn sown_at(typed: &PacketPaper) -> Option<Place> {
    let garden = typed.sow_in.clone().map(Place::Garden);
    garden.or_else(|| typed.sow_by.clone().map(Place::Station))
}

fn packed(packed: Packed) -> PackedTold {
    PackedTold {
        lot: packed.lot,
        variety: packed.variety,
        packets: packed.packets,
        fill_mg: packed.filling.fill.each().get(),
        seeds: packed.filling.seeds,
        over: packed.filling.over,
        label: packed.label,
    }
}

pub(super) fn lots(house: &House, typed: &Print, paper: Paper, form: Form) -> Result<Ending, Failure> {
    let today = day_of(typed)?;
    let once = ForOnce { law: typed.packets.law.map(law), minimum: None };
    let asked = Asked::by(&house.settings, today, once);
    let numbers = &typed.field.names;
    let file = typed.to.clone().unwrap_or_else(|| cards::file(house, numbers));
    let printed = cards::print(house, numbers, asked, paper, &file)?;
    let (bytes, cards) = (printed.bytes, printed.cards);
    answer(&CardsTold { file: printed.file.display().to_string(), bytes, cards }, form)
}

impl Answer for LabelsTold {
    const SHAPE: &'static str = "print-labels/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        let labels = counted(self.labels, "label", "labels");
        writeln!(
            to,
            "{} written, {labels} on {} of {}.",
            self.file,
            counted(self.sheets, "page", "pages"),
            self.stock
        )?;
        writeln!(to, "Print it at full size, not fitted to the page.\n")?;
        columns(to, &self.packets.iter().map(PackedTold::row).collect::<Vec<_>>())?;
        let booked = if self.booked { "Booked out of the jar." } else { "Labels only: nothing was booked." };
        writeln!(to, "{booked}\n")?;
        self.rules.iter().try_for_each(|rule| writeln!(to, "Checked by {rule}"))?;
        match self.unverified.len() {
            0 => Ok(()),
            _ => writeln!(to, "Rules whose text was not seen: {}.", self.unverified.join("; ")),
        }
    }
}

impl PackedTold {
    fn row(&self) -> Vec<String> {
        let over = self.over.map(|over| format!("filled {} over", counted(over.into(), "seed", "seeds")));
        vec![
            self.lot.clone(),
            self.variety.clone(),
            counted(self.packets.into(), "packet", "packets"),
            format!("of {}", telling::mass(record::mass::Milligrams::new(self.fill_mg))),
            self.seeds.map(|seeds| counted(seeds.into(), "seed", "seeds")).unwrap_or_default(),
            over.unwrap_or_default(),
        ]
    }
}

impl Answer for CardsTold {
    const SHAPE: &'static str = "print-lots/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        writeln!(to, "{} written, {}, six a sheet.", self.file, counted(self.cards as u64, "card", "cards"))
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<LabelsTold>(), shape::<CardsTold>()]
}
