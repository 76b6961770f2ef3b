//! How long web pages take, beside writing the same bytes bare. Issue 3 asks for 10,000 varieties in 20 s.

#![expect(clippy::expect_used, reason = "what a bench works with may stop it")]

#[path = "../tests/sample_house/mod.rs"]
mod sample_house;
#[path = "../tests/sample_pages/mod.rs"]
mod sample_pages;

use publish::pages::{Behind, File, Folder};
use rayon::prelude::{IntoParallelIterator, IntoParallelRefIterator, ParallelIterator};
use std::fs;
use std::path::Path;
use tempfile::TempDir;

fn main() {
    divan::main();
}

const VARIETIES: [usize; 2] = [1_000, 10_000];

fn write(to: &Path, file: &File) {
    let path = to.join(&file.path);
    if fs::write(&path, &file.bytes).is_err() {
        fs::create_dir_all(path.parent().expect("a file stands in a folder")).expect("the disk has room");
        fs::write(&path, &file.bytes).expect("the disk has room");
    }
}

/// Makes every page and writes it, on all cores.
#[divan::bench(args = VARIETIES, sample_count = 3, sample_size = 1)]
fn pages(bencher: divan::Bencher<'_, '_>, varieties: usize) {
    let made = || (Folder::of(sample_pages::web_list(varieties)), TempDir::new().expect("a folder"));
    bencher.with_inputs(made).bench_refs(|(folder, to)| {
        (0..folder.len()).into_par_iter().for_each(|index| {
            let files = folder.variety(index, &sample_pages::strips()).expect("a page");
            files.iter().for_each(|file| write(to.path(), file));
        });
        folder.common(&Behind::default()).expect("pages").iter().for_each(|file| write(to.path(), file));
    });
}

/// Writes the same bytes, made before, on all cores.
#[divan::bench(args = VARIETIES, sample_count = 3, sample_size = 1)]
fn the_same_bytes_bare(bencher: divan::Bencher<'_, '_>, varieties: usize) {
    let files = sample_pages::files(sample_pages::web_list(varieties));
    bencher
        .with_inputs(|| TempDir::new().expect("a folder"))
        .bench_refs(|to| files.par_iter().for_each(|file| write(to.path(), file)));
}
