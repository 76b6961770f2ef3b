//! Receiving files: streamed to a folder that nobody else reads, within bounds, under names of our own.
//! The name that the browser sends is only ever told, never opened.

use crate::incoming::SentFile;
use crate::trouble::Trouble;
use axum::extract::Multipart;
use axum::extract::multipart::Field;
use axum::http::StatusCode;
use std::io;
use std::path::Path;
use tempfile::TempDir;
use tokio::fs::File;
use tokio::io::AsyncWriteExt;

/// Most bytes of one file.
const MOST_OF_A_FILE: u64 = 64 << 20;
/// Most bytes sent at once, with what parts one file from the next.
pub(crate) const MOST_AT_ONCE: usize = 256 << 20;
/// Most files sent at once. A choice of ours.
const MOST_FILES: usize = 100;
/// Most letters of a file name. A choice of ours: file systems allow 255.
const MOST_LETTERS: usize = 200;

/// Most bytes of a word that is typed beside files. A choice of ours.
const MOST_OF_A_WORD: usize = 500;

/// What a form sent: files, and the words typed beside them.
pub(crate) struct SentForm {
    /// The files.
    pub(crate) files: Vec<SentFile>,
    /// Words by the name of their field.
    pub(crate) words: Vec<(String, String)>,
    /// Where the files are while this lives.
    pub(crate) folder: TempDir,
}

/// Receives every file of a form.
pub(crate) async fn receive(sent: Multipart) -> Result<(Vec<SentFile>, TempDir), Trouble> {
    let SentForm { files, folder, .. } = receive_form(sent).await?;
    Ok((files, folder))
}

/// Receives every file of a form with the words typed beside them.
pub(crate) async fn receive_form(mut sent: Multipart) -> Result<SentForm, Trouble> {
    let mut words = Vec::new();
    let folder = TempDir::with_prefix("locule-sent-").map_err(|fault| unwritten(&fault))?;
    let mut files: Vec<SentFile> = Vec::new();
    let mut refused = None;
    while let Some(field) = sent.next_field().await? {
        let Some(name) = field.file_name().map(bare).filter(|name| !name.is_empty()) else {
            words.extend(word(field).await?);
            continue;
        };
        let path = folder.path().join(files.len().to_string());
        let kept = if refused.is_none() { keep(field, &name, &path).await? } else { drain(field).await? };
        refused = refused.or(kept).or_else(|| refuse(&files, &name));
        files.push(SentFile { name, path });
    }
    match refused {
        Some(trouble) => Err(trouble),
        None if files.is_empty() => Err(Trouble::user("no file was sent", "choose at least one file")),
        None => Ok(SentForm { files, words, folder }),
    }
}

/// The name and words of a field that is no file; nothing of one that is empty or far too long.
async fn word(mut field: Field<'_>) -> Result<Option<(String, String)>, Trouble> {
    let (name, mut bytes) = (field.name().unwrap_or_default().to_owned(), Vec::new());
    while let Some(piece) = field.chunk().await? {
        if bytes.len() <= MOST_OF_A_WORD {
            bytes.extend_from_slice(&piece);
        }
    }
    let typed = String::from_utf8_lossy(&bytes).trim().to_owned();
    let fits = !typed.is_empty() && bytes.len() <= MOST_OF_A_WORD;
    Ok(fits.then_some((name, typed)))
}

fn refuse(before: &[SentFile], name: &str) -> Option<Trouble> {
    if before.iter().any(|file| file.name == name) {
        let message = format!("two of the files are named {name:?}");
        return Some(Trouble::user(message, "bring them in one after the other"));
    }
    (MOST_FILES <= before.len()).then(|| {
        Trouble::user(format!("more than {MOST_FILES} files were sent"), "bring them in a few at a time")
    })
}

/// Writes one file; refuses it where it is too large, and then reads it to its end all the same, so that
/// the browser hears why.
async fn keep(mut field: Field<'_>, name: &str, path: &Path) -> Result<Option<Trouble>, Trouble> {
    let mut file = File::create(path).await.map_err(|fault| unwritten(&fault))?;
    let mut length = 0;
    while let Some(piece) = field.chunk().await? {
        length += u64::try_from(piece.len()).unwrap_or(u64::MAX);
        if MOST_OF_A_FILE < length {
            drain(field).await?;
            return Ok(Some(too_large(name)));
        }
        file.write_all(&piece).await.map_err(|fault| unwritten(&fault))?;
    }
    file.flush().await.map_err(|fault| unwritten(&fault))?;
    Ok(None)
}

async fn drain(mut field: Field<'_>) -> Result<Option<Trouble>, Trouble> {
    while field.chunk().await?.is_some() {}
    Ok(None)
}

fn too_large(name: &str) -> Trouble {
    Trouble {
        status: StatusCode::PAYLOAD_TOO_LARGE,
        message: format!("{name:?} is larger than 64 MB"),
        help: Some("take it in the terminal with locule take, which has no such limit".to_owned()),
    }
}

fn unwritten(fault: &io::Error) -> Trouble {
    Trouble::ours(format!("the files could not be kept: {}", fault.kind()))
}

/// The last part of a name that a browser sent, without folders and signs that cannot be shown.
fn bare(name: &str) -> String {
    let last = name.rsplit(['/', '\\']).next().unwrap_or_default();
    let shown = last.chars().filter(|letter| !letter.is_control());
    let bare: String = shown.take(MOST_LETTERS).collect();
    bare.trim().trim_matches('.').to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_leads_nowhere() {
        assert_eq!(bare("../../etc/passwd"), "passwd");
        assert_eq!(bare("C:\\notes\\picks 2031.csv"), "picks 2031.csv");
        assert_eq!(bare(".."), "");
        assert_eq!(bare("a\u{0}b\n.csv"), "ab.csv");
        assert_eq!(bare(&"x".repeat(900)).len(), MOST_LETTERS);
    }
}
