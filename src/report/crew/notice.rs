//! The notice to the users of a well, and the tag for its taps. Days are left as boxes: a crew knows when it pours.

use super::phrases::Phrase;
use super::rules::FIRST_SAMPLE_DAYS;
use super::words::{Language, Words};
use crate::document::card::{Notices, Tag};

/// Notice and tag, for one well where it is named, else to be filled in.
pub fn notices(well: Option<&str>, language: Language) -> Notices {
    let words = Words::of(language);
    let say = |phrase| words.say(phrase);
    Notices {
        language: language.code().to_owned(),
        title: say(Phrase::NoticeTitle),
        boxes: [Phrase::NoticeWell, Phrase::NoticeFrom, Phrase::NoticeUntil].map(say).to_vec(),
        well: well.map(str::to_owned),
        says: vec![
            say(Phrase::NoticeWhy),
            say(Phrase::NoticeNotUse),
            say(Phrase::NoticeNotBoil),
            words.with(Phrase::NoticeOther, &[("days", &FIRST_SAMPLE_DAYS.to_string())]),
            say(Phrase::NoticeInfant),
            say(Phrase::NoticeHold),
            say(Phrase::NoticeHouse),
            say(Phrase::NoticeSmell),
            // Common practice, no source.
            say(Phrase::NoticeMetals),
            say(Phrase::NoticeFail),
        ],
        contacts: [
            Phrase::NoticeOtherWhere,
            Phrase::NoticeAsk,
            Phrase::NoticeIll,
            Phrase::NoticeSample,
            Phrase::NoticeResult,
        ]
        .map(say)
        .to_vec(),
        foot: say(Phrase::NoticeLaw),
        tag: Tag {
            title: say(Phrase::NoticeTagTitle),
            says: [Phrase::NoticeTagWhy, Phrase::NoticeTagNot].map(say).to_vec(),
            boxes: [Phrase::NoticeTagWell, Phrase::NoticeTagFrom, Phrase::NoticeTagUntil].map(say).to_vec(),
            foot: say(Phrase::NoticeTagOff),
            cut: say(Phrase::NoticeCut),
        },
    }
}
