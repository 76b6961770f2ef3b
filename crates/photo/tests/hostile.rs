//! Bytes that are no picture, or a picture nobody can hold, are refused in words and within bounded memory.

#![expect(clippy::unwrap_used, reason = "what a test works with may stop it")]

use image::{ExtendedColorType, ImageEncoder};
use photo::card::POSTCARD;
use photo::decode::{NoPicture, decode};
use photo::measure::{Refusal, measure};

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

#[test]
fn pictures_of_nothing_are_refused_for_want_of_a_card() {
    for (width, height) in [(1, 1), (1, 300), (300, 1), (640, 480)] {
        let refusal = measure(&decode(&grey(width, height)).unwrap(), &POSTCARD).unwrap_err();
        assert_eq!(refusal, Refusal::NoCard);
        assert!(!refusal.remedy().is_empty());
    }
}
