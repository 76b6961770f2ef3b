//! The guides that the house has accepted, each version word for word.

use crate::batch::Act;
use crate::fault::LedgerFault;
use crate::ledger::Ledger;
use crate::store::row::Row;
use crate::store::session::Session;
use crate::store::value::without_nul;

/// One accepted version of a guide.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GuideVersion {
    /// Which guide, such as `fruit`.
    pub guide: String,
    /// Its version, counted from 1.
    pub version: u32,
    /// Who accepted it, when and why.
    pub accepted: Act,
    /// Its whole text.
    pub text: String,
}

const VERSIONS: &str = "SELECT guide, version, who, at_us, why, body FROM guide_version WHERE guide = $1";

impl Ledger {
    /// Keeps a guide's text as its newest version; the text that is newest already is not kept twice.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn accept_guide(&mut self, act: &Act, guide: &str, text: &str) -> Result<GuideVersion, LedgerFault> {
        let text = without_nul(text);
        self.store.writing(|session| {
            let newest = newest(session, guide)?;
            match newest {
                Some(newest) if newest.text == text => Ok(newest),
                newest => {
                    let version = newest.map_or(1, |newest| newest.version + 1);
                    let accepted = act.clone();
                    let next =
                        GuideVersion { guide: guide.to_owned(), version, accepted, text: text.into_owned() };
                    add_version(session, &next)?;
                    Ok(next)
                }
            }
        })
    }

    /// The newest accepted version of a guide.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn accepted_guide(&mut self, guide: &str) -> Result<Option<GuideVersion>, LedgerFault> {
        newest(&mut self.store.session(), guide)
    }

    /// Every accepted version of a guide, oldest first.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn guide_versions(&mut self, guide: &str) -> Result<Vec<GuideVersion>, LedgerFault> {
        self.store.rows(&format!("{VERSIONS} ORDER BY version"), &[guide.into()], read_version)
    }
}

fn newest(session: &mut Session<'_>, guide: &str) -> Result<Option<GuideVersion>, LedgerFault> {
    session.first(&format!("{VERSIONS} ORDER BY version DESC"), &[guide.into()], read_version)
}

fn add_version(session: &mut Session<'_>, version: &GuideVersion) -> Result<(), LedgerFault> {
    let values = [
        version.guide.as_str().into(),
        version.version.into(),
        version.accepted.who.as_str().into(),
        version.accepted.at.into(),
        version.accepted.why.as_deref().into(),
        version.text.as_str().into(),
    ];
    let sql =
        "INSERT INTO guide_version (guide, version, who, at_us, why, body) VALUES ($1, $2, $3, $4, $5, $6)";
    session.execute(sql, &values).map(|_| ())
}

fn read_version(row: &Row<'_>) -> Result<GuideVersion, LedgerFault> {
    Ok(GuideVersion {
        guide: row.words(0)?,
        version: row.small(1)?,
        accepted: Act { who: row.words(2)?, at: row.moment(3)?, why: row.words_or_none(4)? },
        text: row.words(5)?,
    })
}
