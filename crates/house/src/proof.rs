//! The proof sheet: what is contested, contradicted, open or missing, before anything is printed.
//!
//! Everything that the catalogue will mark, and what it cannot draw or letter, by variety and by kind,
//! each with the cheapest thing to do about it. Start at [`proof`]; [`print`] sets it on paper.

mod paper;
mod records;

use crate::claims::Judge;
use crate::fault::HouseFault;
use crate::folder::{self, House};
use crate::guides;
use crate::kept::{KeptCall, chance};
use crate::list::{self, Freshness, Listed};
use crate::progress::Progress;
use jiff::civil::Date;
use ledger::calls::CallSubject;
use ledger::ledger::Ledger;
pub use publish::proof::Paper;
use publish::proof::undrawable;
use record::language::Units;
use std::path::{Path, PathBuf};

/// A kind of mark, the gravest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// A claim that the evidence speaks against.
    Contradicted,
    /// A call under 80 in 100.
    Contested,
    /// A variety that was never called.
    NotCalled,
    /// Calls that rest on older evidence or an older guide.
    Old,
    /// A call that no evidence speaks for.
    Unmeasured,
    /// A claim that too little was measured for.
    OpenClaim,
    /// A trait that the portrait can only hint at.
    NotDrawn,
    /// A name with signs that no font can draw.
    Unlettered,
}

impl Kind {
    /// Every kind, the gravest first.
    pub const ALL: [Self; 8] = [
        Self::Contradicted,
        Self::Contested,
        Self::NotCalled,
        Self::Old,
        Self::Unmeasured,
        Self::OpenClaim,
        Self::NotDrawn,
        Self::Unlettered,
    ];

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Contradicted => "claim contradicted",
            Self::Contested => "contested",
            Self::NotCalled => "not called",
            Self::Old => "call is old",
            Self::Unmeasured => "unmeasured",
            Self::OpenClaim => "claim open",
            Self::NotDrawn => "portrait incomplete",
            Self::Unlettered => "name not drawn",
        }
    }

    /// What it means for the catalogue.
    #[must_use]
    pub fn means(self) -> &'static str {
        match self {
            Self::Contradicted => "The catalogue prints the claim and, beside it, what was measured.",
            Self::Contested => "The catalogue prints what else the variety may be, and a broken line.",
            Self::NotCalled => "There is evidence or a name, and no call yet: the entry stays all but empty.",
            Self::Old => "Evidence or a guide has changed since the call was made.",
            Self::Unmeasured => "Nothing was seen that would tell; the entry says so.",
            Self::OpenClaim => "The catalogue prints the claim and says that it is not borne out yet.",
            Self::NotDrawn => "The portrait shows what was not measured pale or dashed.",
            Self::Unlettered => "The codes of these signs are printed in their place.",
        }
    }

    /// What to do about it.
    #[must_use]
    pub fn remedy(self) -> &'static str {
        match self {
            Self::Contradicted => "look at the records; then drop the claim, or grow the variety again.",
            Self::Contested => "take the step that stands beside it, the cheapest that would settle it.",
            Self::NotCalled | Self::Old => "call again with locule call, then print.",
            Self::Unmeasured => "take the step that stands beside it at the next picking or walk.",
            Self::OpenClaim => "measure what the claim speaks of, or drop the claim.",
            Self::NotDrawn => "measure length and width of ten fruits, cut three across, note the colour.",
            Self::Unlettered => "sell it by a name in letters that print, and keep this one as an alias.",
        }
    }
}

/// Everything there is to look at.
#[derive(Clone, Debug, PartialEq)]
pub struct Proof {
    /// How many varieties the house has.
    pub of: usize,
    /// Varieties with marks, by name.
    pub varieties: Vec<Proofed>,
}

/// A variety with its marks.
#[derive(Clone, Debug, PartialEq)]
pub struct Proofed {
    /// Its name.
    pub name: String,
    /// Its marks, the gravest first.
    pub marks: Vec<Mark>,
}

/// One mark.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// Its kind.
    pub kind: Kind,
    /// What it is about.
    pub words: String,
    /// Where the records behind it stand, where there are any.
    pub records: Vec<String>,
    /// The cheapest thing to do about it.
    pub step: Option<String>,
}

/// How many marks of one kind there are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Count {
    /// The kind.
    pub kind: Kind,
    /// Marks of it.
    pub marks: usize,
    /// Varieties that carry one.
    pub varieties: usize,
}

impl Proof {
    /// All marks there are.
    #[must_use]
    pub fn marks(&self) -> usize {
        self.varieties.iter().map(|variety| variety.marks.len()).sum()
    }

    /// Each kind that there is, the gravest first.
    #[must_use]
    pub fn counts(&self) -> Vec<Count> {
        let count = |kind: Kind| {
            let each = self.varieties.iter().map(|variety| variety.of(kind).count());
            let (marks, varieties) =
                each.fold((0, 0), |(marks, varieties), own| (marks + own, varieties + own.min(1)));
            Count { kind, marks, varieties }
        };
        Kind::ALL.into_iter().map(count).filter(|count| 0 < count.marks).collect()
    }
}

impl Proofed {
    /// Its marks of one kind.
    pub fn of(&self, kind: Kind) -> impl Iterator<Item = &Mark> {
        self.marks.iter().filter(move |mark| mark.kind == kind)
    }
}

/// A proof sheet that was printed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PrintedProof {
    /// The file.
    pub file: PathBuf,
    /// Its size in bytes.
    pub bytes: u64,
    /// Marks on it.
    pub marks: usize,
    /// Varieties with marks.
    pub varieties: usize,
}

/// What there is to look at before the list is printed.
///
/// # Errors
/// A guide's fault; what the ledger refuses.
pub fn proof(house: &House) -> Result<Proof, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    ledger.at_one_moment(|ledger| proof_of(house, ledger))
}

fn proof_of(house: &House, ledger: &mut Ledger) -> Result<Proof, HouseFault> {
    let all = list::everyone(ledger)?;
    let judge = Judge::of(&guides::read(&guides::accepted(ledger)?)?);
    let names: Vec<&str> = all.iter().map(|listed| listed.variety.name.as_str()).collect();
    let unlettered = undrawable(&names, &[])?;
    let mut varieties = Vec::new();
    for (listed, unlettered) in all.iter().zip(unlettered) {
        let mut marks = call_marks(listed);
        marks.extend(claim_marks(ledger, listed, &judge, house.settings.units)?);
        marks.extend(not_drawn(listed));
        marks.extend(
            unlettered.then(|| mark(Kind::Unlettered, "its name holds signs that no font draws".to_owned())),
        );
        marks.sort_by_key(|mark| mark.kind);
        if !marks.is_empty() {
            varieties.push(Proofed { name: listed.variety.name.clone(), marks });
        }
    }
    Ok(Proof { of: all.len(), varieties })
}

/// Prints the proof sheet to `file`, whole or not at all.
///
/// # Errors
/// A guide's fault; what the ledger or the disk refuses; our own fault where it cannot be set.
pub fn print(
    house: &House,
    paper: Paper,
    today: Date,
    file: &Path,
    progress: &dyn Progress,
) -> Result<PrintedProof, HouseFault> {
    let proof = proof(house)?;
    progress.begin("setting the proof sheet", None);
    let pdf = publish::proof::proof(&paper::sheet(&proof, house, today), paper)?;
    folder::write(file, &pdf)?;
    let bytes = u64::try_from(pdf.len()).unwrap_or(u64::MAX);
    Ok(PrintedProof { file: file.to_owned(), bytes, marks: proof.marks(), varieties: proof.varieties.len() })
}

/// The file that a proof sheet goes to unless another is named.
#[must_use]
pub fn file(house: &House) -> PathBuf {
    house.printed().join("proof.pdf")
}

fn mark(kind: Kind, words: String) -> Mark {
    Mark { kind, words, records: Vec::new(), step: None }
}

/// Marks of the three calls: never made, old, contested, or without evidence.
fn call_marks(listed: &Listed) -> Vec<Mark> {
    match listed.freshness {
        Freshness::NotCalled => return vec![mark(Kind::NotCalled, "no call has been made".to_owned())],
        Freshness::Fresh | Freshness::Old => {}
    }
    let old = (listed.freshness == Freshness::Old)
        .then(|| mark(Kind::Old, "evidence or a guide has changed since it was called".to_owned()));
    old.into_iter().chain(listed.calls().filter_map(|(about, call)| call_mark(about, call))).collect()
}

fn call_mark(about: CallSubject, call: &KeptCall) -> Option<Mark> {
    let about = crate::calls::subject(about);
    let step = call.settle.first().map(|step| step.words.clone());
    if !call.measured {
        return Some(Mark {
            step,
            ..mark(Kind::Unmeasured, format!("nothing was seen that tells its {about}"))
        });
    }
    call.contested.then(|| Mark { step, ..mark(Kind::Contested, format!("{about}: {}", told(call))) })
}

/// A call and its runners-up: `plum 62 in 100, grape 30 in 100`.
fn told(call: &KeptCall) -> String {
    /// Answers told. A choice of the sheet: the third is seldom worth its line.
    const MOST: usize = 2;
    let shares = call.shares.iter().map(|share| (share.answer.as_str(), share.share));
    let mut all: Vec<(&str, f64)> = shares.chain([("between classes", call.between)]).collect();
    all.sort_by(|one, other| other.1.total_cmp(&one.1));
    let told = all.into_iter().take(MOST).filter(|(_, share)| 0.0 < *share);
    told.map(|(answer, share)| format!("{answer} {}", chance(share))).collect::<Vec<_>>().join(", ")
}

/// Claims that are contradicted, with the records that speak against them, and claims that are open.
fn claim_marks(
    ledger: &mut Ledger,
    listed: &Listed,
    judge: &Judge,
    units: Units,
) -> Result<Vec<Mark>, HouseFault> {
    let mut marks = Vec::new();
    for beside in judge.beside(listed) {
        let claim = format!("{} \"{}\"", crate::claims::about(beside.claim.about), beside.claim.words);
        if beside.standing.is_against() {
            let instead = beside.standing.instead(units).unwrap_or_default();
            let records = records::behind(ledger, listed.variety.id, &beside.speaks_of)?;
            marks.push(Mark {
                records,
                ..mark(Kind::Contradicted, format!("{claim}, the evidence says {instead}"))
            });
        } else if beside.standing == crate::claims::Standing::Unmeasured {
            marks.push(mark(Kind::OpenClaim, claim));
        }
    }
    Ok(marks)
}

/// What the portrait lacks of a variety whose fruit was measured at all.
fn not_drawn(listed: &Listed) -> Option<Mark> {
    let is_measured = listed.fruit.as_ref().is_some_and(|fruit| fruit.call.measured);
    let look = listed.look();
    let lacks = [
        (look.length.is_none(), "length"),
        (look.width.is_none(), "width"),
        (look.locules.is_none(), "locules"),
        (look.exterior.is_none(), "colour"),
    ];
    let missing: Vec<&str> =
        lacks.into_iter().filter(|(missing, _)| *missing).map(|(_, name)| name).collect();
    (is_measured && !missing.is_empty())
        .then(|| mark(Kind::NotDrawn, format!("not measured for its portrait: {}", missing.join(", "))))
}
