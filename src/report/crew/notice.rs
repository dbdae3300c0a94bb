//! Notices to the users of wells, and tags for their taps. Dates stand there where they are planned; a crew knows when it pours.

use chrono::NaiveDate;

use super::dates::Dates;
use super::job::{Job, figure};
use super::phrases::Phrase;
use super::rules::FIRST_SAMPLE_DAYS;
use super::words::{Language, Words};
use crate::document::card::{LabeledBox, Notice, Notices, Part, Sentence, Tag};

/// A notice on which everything is filled in by hand.
pub(super) fn blank(words: &Words) -> Notice {
    notice(None, None, words)
}

/// The notice of one well, with its dates where they are planned.
pub(super) fn of(job: &Job<'_>) -> Notice {
    notice(Some(&job.well.id), Dates::of(job), job.words)
}

fn notice(well: Option<&str>, dates: Option<Dates>, words: &Words) -> Notice {
    let a_box = |phrase, filled| LabeledBox { label: words.say(phrase), filled };
    let planned = |date: fn(&Dates) -> NaiveDate| {
        let date = date(dates.as_ref()?).to_string();
        Some(words.sentence(Phrase::NoticePlanned, vec![("date", figure(date))]))
    };
    let of_well = || well.map(|well| Sentence(vec![Part::Strong(well.to_owned())]));
    let from = || planned(|dates| dates.poured);
    // No water is used before a sample is clean.
    let until = || planned(|dates| dates.first_sample);
    Notice {
        boxes: vec![
            a_box(Phrase::NoticeWell, of_well()),
            a_box(Phrase::NoticeFrom, from()),
            a_box(Phrase::NoticeUntil, until()),
        ],
        contacts: vec![
            a_box(Phrase::NoticeOtherWhere, None),
            a_box(Phrase::NoticeAsk, None),
            a_box(Phrase::NoticeIll, None),
            a_box(Phrase::NoticeSample, until()),
            a_box(Phrase::NoticeResult, None),
        ],
        tag: vec![
            a_box(Phrase::NoticeTagWell, of_well()),
            a_box(Phrase::NoticeTagFrom, from()),
            a_box(Phrase::NoticeTagUntil, until()),
        ],
    }
}

/// What notices and tags say, with those that are printed.
pub(super) fn notices(of_wells: Vec<Notice>, language: Language) -> Notices {
    let words = Words::of(language);
    let say = |phrase| words.say(phrase);
    Notices {
        language: language.code().to_owned(),
        title: say(Phrase::NoticeTitle),
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
        foot: say(Phrase::NoticeLaw),
        tag: Tag {
            title: say(Phrase::NoticeTagTitle),
            says: [Phrase::NoticeTagWhy, Phrase::NoticeTagNot].map(say).to_vec(),
            foot: say(Phrase::NoticeTagOff),
            cut: say(Phrase::NoticeCut),
        },
        of_wells,
    }
}
