//! `locule publish` through the program: what it writes and says, and what it refuses.

#![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "what a test works with may stop it")]

use assert_cmd::Command;
use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

const LIST: &str = "Variety,Also known as\nOld Pike,Pike\n\"Ash & \"\"Elm\"\" <b>\",\nUnweighed,\n";
const FRUIT: &str = "variety,date,weight (g),length (mm),width (mm),locules\n\
    Old Pike,2026-07-14,58,61,38,2\nOld Pike,2026-07-15,55,60,37,2\nOld Pike,2026-07-16,61,63,39,2\n\
    \"Ash & \"\"Elm\"\" <b>\",2026-07-14,310,62,92,9\n";

struct House {
    folder: TempDir,
}

impl House {
    fn new() -> Self {
        let house = Self { folder: tempfile::tempdir().unwrap() };
        Command::cargo_bin("locule").unwrap().arg("new").arg(house.at("house")).assert().success();
        for (name, text) in [("list.csv", LIST), ("fruit.csv", FRUIT)] {
            fs::write(house.at(name), text).unwrap();
            house.run(&["take", house.at(name).to_str().unwrap()]).success();
        }
        house.run(&["call"]).success();
        house
    }

    fn at(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    fn run(&self, arguments: &[&str]) -> assert_cmd::assert::Assert {
        Command::cargo_bin("locule").unwrap().current_dir(self.at("house")).args(arguments).assert()
    }

    fn pages(&self, to: &Path) -> Value {
        let assert = self.run(&["--json", "publish", to.to_str().unwrap()]).success();
        let told: Value = serde_json::from_slice(&assert.get_output().stdout).unwrap();
        assert_eq!(told["shape"], "publish/1");
        told["answer"].clone()
    }
}

#[test]
fn the_pages_are_written_and_written_again() {
    let house = House::new();
    let to = house.at("web");
    let told = house.pages(&to);
    assert_eq!(told["varieties"], 3);
    let page = fs::read_to_string(to.join("varieties/old-pike.html")).unwrap();
    assert!(page.contains("a plum") && page.contains("Rests on 3 fruits"), "{page}");
    let unweighed = fs::read_to_string(to.join("varieties/unweighed.html")).unwrap();
    assert!(unweighed.contains("not yet measured"));
    let odd = fs::read_to_string(to.join("varieties/ash-elm-b.html")).unwrap();
    assert!(odd.contains("Ash &amp; &quot;Elm&quot; &lt;b&gt;"));
    fs::write(to.join("CNAME"), "mine").unwrap();
    fs::remove_file(to.join("index.html")).unwrap();
    assert_eq!(house.pages(&to)["files"], told["files"]);
    assert!(to.join("index.html").is_file());
    assert_eq!(fs::read_to_string(to.join("CNAME")).unwrap(), "mine");
}

#[test]
fn a_folder_of_somebody_else_is_refused() {
    let house = House::new();
    let to = house.at("papers");
    fs::create_dir(&to).unwrap();
    fs::write(to.join("will.txt"), "mine").unwrap();
    let assert = house.run(&["publish", to.to_str().unwrap()]).code(2);
    let told = String::from_utf8_lossy(&assert.get_output().stderr).into_owned();
    assert!(
        told.contains("papers holds something already") && told.contains("help: choose a folder"),
        "{told}"
    );
    assert_eq!(fs::read_dir(&to).unwrap().count(), 1);
}

#[test]
fn a_site_is_kept_and_makes_a_site_map() {
    let house = House::new();
    house.run(&["settings", "--site", "no address"]).code(2);
    house.run(&["settings", "--site", "https://example.org/list/"]).success();
    house.pages(&house.at("web"));
    let map = fs::read_to_string(house.at("web/sitemap.xml")).unwrap();
    assert!(map.contains("<loc>https://example.org/list/varieties/old-pike.html</loc>"));
    house.run(&["settings", "--site", ""]).success();
    house.pages(&house.at("web"));
    assert!(!house.at("web/sitemap.xml").exists());
}

/// A season is found whatever was noted in it: fruit, or only a walk.
#[test]
fn a_season_of_walks_alone_is_a_season_of_evidence() {
    let house = House::new();
    fs::write(house.at("walks.csv"), "Variety,Date,Plant,Stem ended\nUnweighed,2025-08-20,1,4\n").unwrap();
    house.run(&["take", house.at("walks.csv").to_str().unwrap()]).success();
    house.run(&["call"]).success();
    let to = house.at("web");
    house.pages(&to);
    let list = fs::read_to_string(to.join("list.json")).unwrap();
    assert!(list.contains("Unweighed"), "{list}");
    let search = fs::read_to_string(to.join("data/list.js")).unwrap();
    let own = &search[search.find("\"Unweighed\"").unwrap()..];
    assert!(own.split_once(']').unwrap().0.ends_with("[2025"), "{own}");
}
