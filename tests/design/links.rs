//! Share links: round trip, length, and what is said about links that do not open.

use crate::random_design::random_design;
use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use hearthplan::design::link::{self, LinkError};
use hearthplan::design::{Design, Note, Value, file};
use miniz_oxide::deflate::{compress_to_vec, compress_to_vec_zlib};

/// A link of version 1 that holds these bytes.
fn link_of(bytes: &[u8]) -> String {
    format!(
        "1.{}",
        URL_SAFE_NO_PAD.encode(compress_to_vec_zlib(bytes, 6))
    )
}

/// A link of version 2 that holds these bytes, and makes no use of the words.
fn wordless_link_of(bytes: &[u8]) -> String {
    let mut packed = crc32fast::hash(bytes).to_be_bytes().to_vec();
    packed.extend(compress_to_vec(bytes, 6));
    format!("2.{}", URL_SAFE_NO_PAD.encode(packed))
}

#[test]
fn any_design_survives_its_link() {
    for seed in 0..300 {
        let design = random_design(seed);
        let text = link::write(&design);
        let opened = link::read(&text).unwrap();
        assert_eq!(opened.notes, [], "seed {seed}");
        assert!(opened.design == design, "seed {seed}");
    }
}

#[test]
fn a_link_holds_only_what_differs_and_needs_no_escaping() {
    let plain = link::write(&Design::default());
    assert!(plain.len() < 20, "{plain}");
    let mut design = Design::default();
    design.set("base.width", Value::Number(0.9)).unwrap();
    let text = link::write(&design);
    assert!(text.len() < 60, "{text}");
    assert!(
        text.bytes()
            .all(|byte| byte.is_ascii_alphanumeric() || b"-_.".contains(&byte))
    );
}

#[test]
fn a_design_with_a_dozen_parts_stays_short() {
    let mut design = Design::default();
    let names = [
        "Filter drum",
        "Cooler",
        "Condensate tank",
        "Blower",
        "Battery",
        "Flare pipe",
        "Tool box",
        "Ash box",
        "Engine",
        "Water in tank",
        "Control box",
        "Hose reel",
    ];
    for (place, name) in names.iter().enumerate() {
        design.list_mut("parts").unwrap().insert_new(place);
        let number = place as f64;
        for (input, value) in [
            ("name", Value::Text((*name).to_string())),
            (
                "group",
                Value::Choice(["filter", "cooler", "electrics"][place % 3].to_string()),
            ),
            ("mass", Value::Number(12.5 + 3.5 * number)),
            ("x", Value::Number(0.35 - 0.045 * number)),
            ("y", Value::Number(-0.2 + 0.035 * number)),
            ("z", Value::Number(0.3 + 0.01 * number)),
            ("height", Value::Number(0.25 + 0.02 * number)),
        ] {
            design
                .set(&format!("parts.{place}.{input}"), value)
                .unwrap();
        }
    }
    for section in Design::SECTIONS.iter().take(9) {
        for input in section.inputs.iter().take(4) {
            let path = format!("{}.{}", section.name, input.name);
            if let Some(Value::Number(number)) = design.get(&path) {
                let changed = (number * 1.05 * 1e4).round() / 1e4;
                assert!(
                    design.set(&path, Value::Number(changed)).is_ok()
                        || changed == number
                        || number < 20.0
                );
            }
        }
    }
    let text = link::write(&design);
    assert!(text.len() < 1200, "{} characters", text.len());
    assert_eq!(link::read(&text).unwrap().design, design);
}

#[test]
fn a_link_opens_however_it_was_copied() {
    let design = random_design(5);
    let text = link::write(&design);
    let (begin, end) = text.split_at(text.len() / 2);
    for copied in [
        format!("{text}%20%20"),
        format!("https://example.org/#{begin}\r\n {end}"),
        format!("#{begin}%0A{end}"),
        text.replace('-', "%2D")
            .replace('_', "%5f")
            .replace('.', "%2E"),
        format!("See https://example.org/#{text} for what I changed."),
        format!("{text} is what I changed"),
        format!("https://example.org/plan/#{text}"),
        format!("#{text}"),
        format!("  {text}\n"),
        format!("{text}."),
        format!("https://example.org/#{text})."),
    ] {
        assert_eq!(
            link::read(&copied).map(|opened| opened.design),
            Ok(design.clone()),
            "{copied}"
        );
    }
}

#[test]
fn unknown_entries_go_along() {
    let opened = file::read(r#"{"hearthplan": 1, "oven": {"door": 1}, "base": {"legs": 3}, "blower_curve": [{"seal": "rope"}], "contacts": []}"#).unwrap();
    let again = link::read(&link::write(&opened.design)).unwrap();
    assert_eq!(again.design, opened.design);
    assert_eq!(again.notes.len(), 3);
    assert!(again.notes.contains(&Note::Unknown {
        path: "blower_curve.0.seal".to_string()
    }));
}

#[test]
fn too_large_unknown_entries_stay_behind() {
    let text = format!(
        r#"{{"hearthplan": 1, "oven": "{}", "base": {{"width": 0.7}}}}"#,
        "x".repeat(300_000)
    );
    let design = file::read(&text).unwrap().design;
    let again = link::read(&link::write(&design)).unwrap();
    assert_eq!(again.notes, []);
    assert_eq!(again.design.base, design.base);
}

#[test]
fn links_that_do_not_open_are_explained() {
    let whole = link::write(&random_design(5));
    for (text, error) in [
        ("", LinkError::Empty),
        ("https://example.org/#", LinkError::Empty),
        ("hello", LinkError::NotALink),
        ("a.b", LinkError::NotALink),
        ("0.abc", LinkError::NotALink),
        ("99.abc", LinkError::Newer { version: 99 }),
        ("1.", LinkError::Damaged),
        ("1.ab%c", LinkError::Character { character: '%' }),
        (&whole[..whole.len() / 2], LinkError::Damaged),
        (&whole[..whole.len() - 1], LinkError::Damaged),
        (&link_of(b"not json"), LinkError::Damaged),
        (&link_of(b"[1]"), LinkError::Damaged),
        (&link_of(&vec![b' '; 3_000_000]), LinkError::TooLarge),
        ("2.", LinkError::Damaged),
        ("2.AAAAAA", LinkError::Damaged),
        (&wordless_link_of(b"not json"), LinkError::Damaged),
        (
            &wordless_link_of("[".repeat(100_000).as_bytes()),
            LinkError::Damaged,
        ),
        (
            &wordless_link_of(&vec![b' '; 3_000_000]),
            LinkError::TooLarge,
        ),
        (&"1".repeat(link::LONGEST + 1), LinkError::TooLarge),
    ] {
        assert_eq!(link::read(text), Err(error.clone()), "{text:.60}");
        assert!(error.to_string().ends_with('.'));
    }
}

#[test]
fn one_changed_character_never_opens_another_design_silently() {
    let design = random_design(11);
    let whole = link::write(&design);
    for place in (2..whole.len()).step_by(13) {
        let other = if whole.as_bytes()[place] == b'A' {
            'B'
        } else {
            'A'
        };
        let mut changed = whole.clone();
        changed.replace_range(place..=place, &other.to_string());
        if let Ok(opened) = link::read(&changed) {
            // The last bits of the packing may be filling that means nothing.
            assert!(opened.design == design, "character {place}");
        }
    }
}

#[test]
fn a_link_of_version_2_opens_without_the_words_too() {
    let opened = link::read(&wordless_link_of(br#"{"base":{"width":0.9}}"#)).unwrap();
    assert_eq!(opened.notes, []);
    assert_eq!(opened.design.base.width.value, 0.9);
}

/// Pages and messengers put marks of their own behind a link, and write signs of it anew, some of them twice.
#[test]
fn what_stands_behind_a_link_does_no_harm() {
    let mut design = Design::default();
    design.set("base.width", Value::Number(0.9)).unwrap();
    let fragment = link::write(&design);
    for behind in ["#", "#top", "#:~:text=x", "?utm=x", "&id=abc", "/", "/#top"] {
        let text = format!("https://example.org/#{fragment}{behind}");
        assert!(
            link::read(&text).is_ok_and(|opened| opened.design == design),
            "{text}"
        );
    }
    for point in ["%2E", "%252E"] {
        let text = format!("https://example.org/#{}", fragment.replacen('.', point, 1));
        assert!(
            link::read(&text).is_ok_and(|opened| opened.design == design),
            "{text}"
        );
    }
    // Cut short it stays, whatever stands behind it.
    let cut = &fragment[..fragment.len() - 4];
    assert!(link::read(&format!("https://example.org/#{cut}?a=b")).is_err());
}
