//! The quick look at a text: whether any word that every phrase of a hazard needs can stand in it at all.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use aho_corasick::{AhoCorasick, AhoCorasickKind};

use super::states::vocabularies;
use super::words::Vocabulary;

/// The longest word of every phrase, to be looked for all at once.
pub(super) struct Needles {
    automaton: AhoCorasick,
    pub(super) starts: Starts,
    /// For each, whether any ending may follow.
    open: Vec<bool>,
    /// Bytes of the shortest.
    shortest: usize,
}

/// What many a casing is made of: its phrases are looked for by another of their words.
const MATERIAL: &str = "concrete";

/// Nothing where the automaton cannot be built; then every text is read word by word.
pub(super) static NEEDLES: LazyLock<Option<Needles>> = LazyLock::new(|| {
    let mut needles: BTreeMap<&str, bool> = BTreeMap::new();
    for phrase in vocabularies().flat_map(Vocabulary::sought) {
        let words = phrase.split(' ').filter(|word| *word != MATERIAL);
        let needle = words.max_by_key(|word| word.trim_end_matches('*').len()).unwrap_or_default();
        *needles.entry(needle.trim_end_matches('*')).or_default() |= needle.ends_with('*');
    }
    let mut builder = AhoCorasick::builder();
    builder.ascii_case_insensitive(true).kind(Some(AhoCorasickKind::DFA));
    let automaton = builder.build(needles.keys()).ok()?;
    let shortest = needles.keys().map(|needle| needle.len()).min().unwrap_or(0);
    let starts = Starts::of(needles.keys().copied());
    Some(Needles { automaton, starts, open: needles.into_values().collect(), shortest })
});

impl Needles {
    /// Whether any needle stands in a text as a word, or as its beginning where any ending may follow.
    pub(super) fn are_in(&self, text: &str) -> bool {
        text.len() >= self.shortest
            && self.starts.may_begin_in(text)
            && self.automaton.find_overlapping_iter(text).any(|found| {
                let joins = |letter: Option<char>| letter.is_some_and(char::is_alphanumeric);
                let ends = self.open.get(found.pattern().as_usize()).copied().unwrap_or(true)
                    || !joins(text[found.end()..].chars().next());
                ends && !joins(text[..found.start()].chars().next_back())
            })
    }
}

/// Three letters that needles begin with, a bit each: most texts have no word that begins so, and need no closer look.
pub(super) struct Starts(Vec<u64>);

impl Starts {
    /// Places of three letters, 32 for each.
    const PLACES: usize = 1 << 15;

    fn of<'a>(needles: impl Iterator<Item = &'a str>) -> Self {
        let mut starts = Self(vec![0; Self::PLACES / 64]);
        for needle in needles {
            let place = Self::place(needle.as_bytes());
            // Anything may stand behind a shorter one.
            let beyond = 1 << (5 * 3_usize.saturating_sub(needle.len()));
            (place..place + beyond).for_each(|place| starts.0[place / 64] |= 1 << (place % 64));
        }
        starts
    }

    /// Letters by their place in the alphabet, whatever their case; everything else, and what is missing, is one.
    fn place(bytes: &[u8]) -> usize {
        let of = |at: usize| bytes.get(at).filter(|byte| byte.is_ascii_alphabetic()).map_or(0, |byte| byte & 31);
        (0..3).fold(0, |place, at| place << 5 | usize::from(of(at)))
    }

    /// Whether a word of a text begins as some needle does. A byte beyond ASCII may end a word.
    pub(super) fn may_begin_in(&self, text: &str) -> bool {
        let bytes = text.as_bytes();
        let mut joined = false;
        bytes.iter().enumerate().any(|(at, byte)| {
            let begins = !std::mem::replace(&mut joined, byte.is_ascii_alphanumeric());
            let place = if begins { Self::place(&bytes[at..]) } else { return false };
            self.0[place / 64] >> (place % 64) & 1 == 1
        })
    }
}
