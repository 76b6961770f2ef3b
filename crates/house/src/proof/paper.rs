//! The proof as a printed sheet, and its summary in one line.

use crate::folder::House;
use crate::proof::{Count, Kind, Mark, Proof, Proofed};
use jiff::civil::Date;
use publish::proof as sheet;
use record::language::counted;

/// The sheet of a proof.
pub(super) fn sheet(proof: &Proof, house: &House, today: Date) -> sheet::Proof {
    sheet::Proof {
        house: house.settings.name.clone(),
        printed_on: today,
        summary: proof.summary(),
        kinds: proof.counts().into_iter().map(|count| kind(proof, count)).collect(),
        varieties: proof.varieties.iter().map(marked).collect(),
        house_fonts: Vec::new(),
    }
}

impl Proof {
    /// All of it in one line: `12 marks on 7 of 68 varieties.`
    #[must_use]
    pub fn summary(&self) -> String {
        let of = counted(whole(self.of), "variety", "varieties");
        match self.marks() {
            0 => format!("Nothing is contested, contradicted, open or missing in {of}."),
            marks => {
                let marks = counted(whole(marks), "mark", "marks");
                format!("{marks} on {} of {of}.", self.varieties.len())
            }
        }
    }
}

impl Count {
    /// `5 marks on 4 varieties`.
    #[must_use]
    pub fn told(&self) -> String {
        let marks = counted(whole(self.marks), "mark", "marks");
        format!("{marks} on {}", counted(whole(self.varieties), "variety", "varieties"))
    }
}

fn kind(proof: &Proof, count: Count) -> sheet::KindOfMark {
    let carries = |variety: &&Proofed| variety.of(count.kind).next().is_some();
    sheet::KindOfMark {
        name: capitalised(count.kind),
        counts: count.told(),
        means: count.kind.means().to_owned(),
        remedy: count.kind.remedy().to_owned(),
        varieties: proof.varieties.iter().filter(carries).map(|variety| variety.name.clone()).collect(),
    }
}

fn marked(variety: &Proofed) -> sheet::Marked {
    let mark = |mark: &Mark| sheet::Mark {
        kind: mark.kind.name().to_owned(),
        words: mark.words.clone(),
        records: mark.records.clone(),
        step: mark.step.clone(),
    };
    sheet::Marked { name: variety.name.clone(), marks: variety.marks.iter().map(mark).collect() }
}

fn capitalised(kind: Kind) -> String {
    let mut letters = kind.name().chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}

fn whole(count: usize) -> u64 {
    u64::try_from(count).unwrap_or(u64::MAX)
}
