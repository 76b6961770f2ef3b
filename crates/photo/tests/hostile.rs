//! Bytes that are no picture, or a picture nobody can hold, are refused in words and within bounded memory.

#![expect(clippy::unwrap_used, reason = "what a test works with may stop it")]

use image::{ExtendedColorType, ImageEncoder};
use photo::card::KNOWN;
use photo::decode::{NoPicture, decode};
use photo::encode::jpeg;
use photo::measure::{Wishes, measure};
use photo::plane::Plane;
use photo::refusal::Refusal;
use proptest::prelude::{any, proptest};
use record::length::Millimetres;
use std::collections::BTreeMap;

fn grey(width: u32, height: u32) -> Vec<u8> {
    let mut bytes = Vec::new();
    let pixels = vec![128_u8; (width * height) as usize];
    let encoder = image::codecs::png::PngEncoder::new(&mut bytes);
    encoder.write_image(&pixels, width, height, ExtendedColorType::L8).unwrap();
    bytes
}

#[test]
fn other_kinds_are_named() {
    for bytes in [b"".as_slice(), b"GIF89a", b"%PDF-1.7", &[0xff; 40], b"<svg/>"] {
        assert!(matches!(decode(bytes), Err(NoPicture::OtherKind)));
    }
}

#[test]
fn a_picture_cut_short_is_no_picture() {
    let whole = grey(64, 64);
    assert!(decode(&whole).is_ok());
    for length in 9..whole.len() - 16 {
        assert!(matches!(decode(&whole[..length]), Err(NoPicture::Damaged(_))), "{length}");
    }
}

/// A PNG of 60,000 by 60,000 pixels is a few bytes long: its size is read and refused before its pixels are.
#[test]
fn a_bomb_is_refused_by_its_size() {
    let mut bytes = grey(8, 8);
    bytes[16..20].copy_from_slice(&60_000_u32.to_be_bytes());
    bytes[20..24].copy_from_slice(&60_000_u32.to_be_bytes());
    assert!(decode(&bytes).is_err());
}

/// A JPEG of 64 by 48 pixels with something on it.
fn small_jpeg() -> Vec<u8> {
    let cells =
        (0..64 * 48_u32).map(|at| [(at % 251) as u8, (at / 64 * 5) as u8, (at * 7 % 256) as u8]).collect();
    jpeg(&Plane::of_cells(64, 48, cells).unwrap()).unwrap()
}

proptest! {
    /// Whatever becomes of a picture's bytes, it is a picture or it is refused; what is a picture is measured or refused.
    #[test]
    fn damaged_bytes_are_refused_and_nothing_else(
        wrong in proptest::collection::vec((0_usize..2000, any::<u8>()), 1..20),
        length in 0_usize..4000,
    ) {
        let mut bytes = small_jpeg();
        for (at, byte) in wrong {
            let at = at % bytes.len();
            bytes[at] = byte;
        }
        bytes.truncate(length.max(2));
        if let Ok(picture) = decode(&bytes) {
            let stems = BTreeMap::new();
            let wishes = Wishes { cards: &KNOWN, line: Millimetres::new(70.0).unwrap(), stems: &stems, changes: &[] };
            proptest::prop_assert!(measure(&picture, &wishes).is_err());
        }
    }
}

/// What a camera writes beside a picture is read only within bounds: a segment of letters says nothing of lens and day.
#[test]
fn a_picture_with_much_beside_it_is_only_a_picture() {
    let plain = small_jpeg();
    let mut bytes = vec![0xff, 0xd8, 0xff, 0xe1, 0xff, 0xff];
    bytes.extend(b"Exif\0\0");
    bytes.extend(vec![b'M'; 0xffff - 8]);
    bytes.extend(&plain[2..]);
    let picture = decode(&bytes).unwrap();
    assert_eq!((picture.taken_on, picture.focal_on_film), (None, None));
}

#[test]
fn pictures_of_nothing_are_refused_for_want_of_a_card() {
    let stems = BTreeMap::new();
    let wishes = Wishes { cards: &KNOWN, line: Millimetres::new(70.0).unwrap(), stems: &stems, changes: &[] };
    for (width, height) in [(1, 1), (1, 300), (300, 1), (640, 480)] {
        let refusal = measure(&decode(&grey(width, height)).unwrap(), &wishes).unwrap_err();
        assert_eq!(refusal, Refusal::NoCard);
        assert!(!refusal.remedy().is_empty());
    }
}
