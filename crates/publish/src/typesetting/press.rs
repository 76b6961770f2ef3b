//! The press: a closed world round one template and its data.

use crate::typesetting::{Fonts, TypesettingFault};
use std::sync::LazyLock;
use typst::diag::{FileError, FileResult, SourceDiagnostic};
use typst::foundations::{Bytes, Datetime, Duration, Smart};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World, WorldExt};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards};

/// A document to set.
pub(crate) struct Job {
    /// How it looks.
    pub(crate) template: Template,
    /// What it says, as JSON: the template reads it as `copy.json`.
    pub(crate) data: Vec<u8>,
    /// What the document is, from which its identifier is made.
    pub(crate) identity: String,
}

/// The templates of this crate.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Template {
    /// The catalogue of varieties.
    Catalogue,
    /// The type chart, as poster or booklet.
    Chart,
    /// Cards of lots.
    LotCards,
    /// Labels of packets, on sheets or a roll.
    PacketLabels,
    /// The proof sheet.
    Proof,
    /// A garden's plan on a sheet.
    PlanSheet,
    /// The card that lies beside photographed fruit.
    ScaleCard,
    /// A garden's year on a sheet.
    SeasonSheet,
    /// Stakes on sheets of labels.
    Stakes,
    /// Sheets for a walk along the plots.
    WalkSheets,
}

impl Template {
    fn text(self) -> &'static str {
        match self {
            Self::Catalogue => include_str!("../../templates/catalogue.typ"),
            Self::Chart => include_str!("../../templates/chart.typ"),
            Self::LotCards => include_str!("../../templates/lot_cards.typ"),
            Self::PacketLabels => include_str!("../../templates/packet_labels.typ"),
            Self::Proof => include_str!("../../templates/proof.typ"),
            Self::PlanSheet => include_str!("../../templates/plan_sheet.typ"),
            Self::ScaleCard => include_str!("../../templates/scale_card.typ"),
            Self::SeasonSheet => include_str!("../../templates/season_sheet.typ"),
            Self::Stakes => include_str!("../../templates/stakes.typ"),
            Self::WalkSheets => include_str!("../../templates/walk_sheets.typ"),
        }
    }
}

static LIBRARY: LazyLock<LazyHash<Library>> = LazyLock::new(|| LazyHash::new(Library::default()));

/// All that the typesetter can see.
struct Press<'a> {
    fonts: &'a Fonts,
    main: Source,
    data_id: FileId,
    data: Bytes,
}

/// Sets a document and returns it as a tagged PDF.
///
/// # Errors
/// [`TypesettingFault::NoRoom`] where the template says so, [`TypesettingFault::Template`] with the template's line,
/// [`TypesettingFault::Pdf`].
pub(crate) fn typeset(job: &Job, fonts: &Fonts) -> Result<Vec<u8>, TypesettingFault> {
    let press = Press {
        fonts,
        main: Source::new(file_id("main.typ")?, job.template.text().to_owned()),
        data_id: file_id("copy.json")?,
        data: Bytes::new(job.data.clone()),
    };
    let document = typst::compile::<PagedDocument>(&press).output;
    let document = document.map_err(|faults| refused(&press, &faults))?;
    let written = written(job, &press, &document);
    // The typesetter remembers layouts between documents; a workbench that prints all winter must not grow.
    typst::comemo::evict(0);
    written
}

/// How a template begins the panic by which it refuses what it has no room for.
const NO_ROOM: &str = "no room: ";

/// A refusal of what has no room, or else a template that failed.
fn refused(press: &Press<'_>, faults: &[SourceDiagnostic]) -> TypesettingFault {
    let without_room = faults.iter().find_map(|fault| fault.message.split_once(NO_ROOM));
    match without_room {
        Some((_, what)) => TypesettingFault::NoRoom(what.trim_matches('"').to_owned()),
        None => TypesettingFault::Template(told(press, faults)),
    }
}

/// Writes the PDF: by the standard for accessible documents, or tagged as well as can be where that refuses.
///
/// It refuses a letter that no font shapes in its place. A name in a rare writing must not keep a house
/// from printing: then the page shows an empty box there.
fn written(job: &Job, press: &Press<'_>, document: &PagedDocument) -> Result<Vec<u8>, TypesettingFault> {
    typst_pdf::pdf(document, &options(job, &[PdfStandard::Ua_1])?).or_else(|_| {
        let plain = typst_pdf::pdf(document, &options(job, &[])?);
        plain.map_err(|faults| TypesettingFault::Pdf(told(press, &faults)))
    })
}

/// PDF/UA-1 (ISO 14289-1) asks for a title, a language, tags in reading order and words for every picture,
/// so that the catalogue can be read aloud.
fn options(job: &Job, standards: &[PdfStandard]) -> Result<PdfOptions, TypesettingFault> {
    let standards = PdfStandards::new(standards);
    Ok(PdfOptions {
        ident: Smart::Custom(job.identity.clone()),
        creator: Smart::Custom(Some("locule".to_owned())),
        standards: standards.map_err(|fault| TypesettingFault::Pdf(fault.message().to_string()))?,
        ..PdfOptions::default()
    })
}

fn file_id(name: &str) -> Result<FileId, TypesettingFault> {
    let path = VirtualPath::new(name).map_err(|fault| TypesettingFault::Template(fault.to_string()))?;
    Ok(RootedPath::new(VirtualRoot::Project, path).intern())
}

fn told(press: &Press<'_>, faults: &[SourceDiagnostic]) -> String {
    let told = |fault: &SourceDiagnostic| {
        let line = press.range(fault.span).and_then(|range| press.main.lines().byte_to_line(range.start));
        match line {
            Some(line) => format!("line {}: {}", line + 1, fault.message),
            None => fault.message.to_string(),
        }
    };
    faults.iter().map(told).collect::<Vec<_>>().join("; ")
}

impl World for Press<'_> {
    fn library(&self) -> &LazyHash<Library> {
        &LIBRARY
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &self.fonts.book
    }

    fn main(&self) -> FileId {
        self.main.id()
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        if id == self.main.id() { Ok(self.main.clone()) } else { Err(absent(id)) }
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        if id == self.data_id { Ok(self.data.clone()) } else { Err(absent(id)) }
    }

    fn font(&self, index: usize) -> Option<Font> {
        self.fonts.fonts.get(index).cloned()
    }

    fn today(&self, _offset: Option<Duration>) -> Option<Datetime> {
        None
    }
}

fn absent(id: FileId) -> FileError {
    FileError::NotFound(id.vpath().get_with_slash().into())
}
