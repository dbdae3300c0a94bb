//! Cards that a crew carries, a depot's load list, a notice and a tag: what is on each and in which order.
//!
//! Whoever reads them works outdoors and writes on them: sentences carry their figures apart, so that a writer can make them
//! stand out, and leave room for a pen. No format and no well is known here, and every word comes from outside.

/// Room left in a sentence for a pen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Room {
    /// For a figure that the crew reads off and writes down.
    Reading,
    /// For a date and an hour.
    Moment,
    /// For a few words.
    Words,
}

/// A piece of a sentence.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Part {
    /// Words in ordinary type, blanks at their ends included.
    Text(String),
    /// Words that stand out.
    Strong(String),
    /// A figure with its unit, under the name by which it can be found again.
    Figure {
        /// Its name, the same in every language.
        name: &'static str,
        /// The figure with its unit, as it is printed.
        text: String,
    },
    /// Room for a pen.
    Room(Room),
}

/// A sentence with its figures.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Sentence(pub Vec<Part>);

impl Sentence {
    /// What it says, in letters alone: rooms for a pen are drawn.
    pub fn plain(&self) -> String {
        let said = |part: &Part| match part {
            Part::Text(text) | Part::Strong(text) | Part::Figure { text, .. } => text.clone(),
            Part::Room(Room::Reading) => "______".to_owned(),
            Part::Room(Room::Moment | Room::Words) => "____________".to_owned(),
        };
        self.0.iter().map(said).collect()
    }
}

/// A fact with its label.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fact {
    /// What the fact is about, in the language of the card.
    pub label: String,
    /// The fact itself, with its unit.
    pub text: String,
}

/// How much of a page a card takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Size {
    /// Two share a page, where what it says leaves room for that.
    Half,
    /// A page of its own, whatever room it leaves.
    Full,
}

/// The card of one visit.
#[derive(Debug, Clone, PartialEq)]
pub struct Card {
    /// How much of a page it takes.
    pub size: Size,
    /// The well, as the list names it.
    pub well: String,
    /// The visit, as the list names it.
    pub visit: String,
    /// The visit in words, where the well has more than one.
    pub visit_words: Option<String>,
    /// What kind of well it is.
    pub kind: String,
    /// What is done, in the largest type: the amount of product, or to measure.
    pub headline: Sentence,
    /// What the amount gives: the check that a crew can make.
    pub gives: Option<Sentence>,
    /// Which stop of its crew's day it is, in words.
    pub stop: Option<String>,
    /// Why the card must not be used, where it must not.
    pub banner: Option<String>,
    /// What must be known before going there.
    pub flags: Vec<String>,
    /// What is known of well and place.
    pub facts: Vec<Fact>,
    /// What of it was assumed.
    pub assumed: Option<String>,
    /// What to bring, the most needed first.
    pub bring: Vec<Sentence>,
    /// What to do, in order.
    pub steps: Vec<Sentence>,
    /// Heading of the steps.
    pub steps_title: String,
    /// What can hurt someone at this well, a sentence each.
    pub cautions: Vec<String>,
    /// Labels of the boxes to write in.
    pub boxes: Vec<String>,
}

/// Headings that all cards share.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CardLabels {
    /// Above what to bring.
    pub bring: String,
    /// Read out for the boxes to write in; it is not printed.
    pub record: String,
    /// Word that stands before a card's cautions, in their line.
    pub cautions: String,
    /// Word that stands before a card's flags, in their line.
    pub flags: String,
    /// Footer at the end of every card.
    pub foot: String,
}

/// A line of a load list.
#[derive(Debug, Clone, PartialEq)]
pub struct LoadLine {
    /// What is loaded, by its name, in a sentence with its figures.
    pub item: Sentence,
    /// How much of it.
    pub amount: Sentence,
    /// What to know of it.
    pub note: Option<String>,
}

/// What is loaded at a depot, for all of it or for a crew's day.
#[derive(Debug, Clone, PartialEq)]
pub struct Load {
    /// Heading above the list.
    pub title: String,
    /// For how many visits.
    pub visits: String,
    /// Headings: what, how much, loaded.
    pub heads: [String; 3],
    /// What is loaded in an amount that depends on the visits.
    pub lines: Vec<LoadLine>,
    /// Heading of the gear.
    pub gear_title: String,
    /// Gear that goes along, whatever the number of visits.
    pub gear: Vec<String>,
    /// The stops of a crew's day.
    pub stops: Option<Stops>,
    /// Heading of what holds on the road.
    pub rules_title: String,
    /// What holds on the road, and for what is left over.
    pub rules: Vec<String>,
}

/// The stops of a crew's day, in their order.
#[derive(Debug, Clone, PartialEq)]
pub struct Stops {
    /// Heading above the table of stops.
    pub title: String,
    /// Headings: number, well, type, what is measured out, done.
    pub heads: [String; 4],
    /// One row a stop.
    pub rows: Vec<[String; 4]>,
}

/// The cards of a depot, or of a crew's day.
#[derive(Debug, Clone, PartialEq)]
pub struct Depot {
    /// Its name in words.
    pub title: String,
    /// What is loaded there.
    pub load: Load,
    /// Its cards, in the order of the work; those that share a page are printed together.
    pub cards: Vec<Card>,
}

/// Everything that crews take along.
#[derive(Debug, Clone, PartialEq)]
pub struct CrewSheets {
    /// Code of the language, as `lang` takes it.
    pub language: String,
    /// Heading of the first page, also the title of the file.
    pub title: String,
    /// What these cards are, in order.
    pub about: Vec<String>,
    /// Why none of them must be used, where that is so.
    pub banner: Option<String>,
    /// Heading of the cautions for every well.
    pub cautions_title: String,
    /// Cautions for every well.
    pub cautions: Vec<String>,
    /// Heading of how cards are read.
    pub reading_title: String,
    /// How cards are read.
    pub reading: Vec<String>,
    /// What all cards share.
    pub labels: CardLabels,
    /// Crews' days where they are stated; then depots in the order of their names.
    pub depots: Vec<Depot>,
}

/// Notices to the users of wells and tags for their taps: what each says, and those that are printed.
#[derive(Debug, Clone, PartialEq)]
pub struct Notices {
    /// Code of the language, as `lang` takes it.
    pub language: String,
    /// Heading of each notice, also the title of the file.
    pub title: String,
    /// What the users are told, in order.
    pub says: Vec<String>,
    /// Footer at the end of every notice.
    pub foot: String,
    /// What a tag says.
    pub tag: Tag,
    /// One a well; what is not filled in is filled in by hand.
    pub of_wells: Vec<Notice>,
}

/// What is filled in on a notice and its tags.
#[derive(Debug, Clone, PartialEq)]
pub struct Notice {
    /// At the top: the well, and from when to when.
    pub boxes: Vec<LabeledBox>,
    /// At the end: where there is water, whom to call.
    pub contacts: Vec<LabeledBox>,
    /// On each of its tags, above the foot.
    pub tag: Vec<LabeledBox>,
}

/// A box to write in.
#[derive(Debug, Clone, PartialEq)]
pub struct LabeledBox {
    /// What is written there.
    pub label: String,
    /// What stands there already.
    pub filled: Option<Sentence>,
}

/// A tag that is tied to a tap.
#[derive(Debug, Clone, PartialEq)]
pub struct Tag {
    /// What is read first, in the largest type.
    pub title: String,
    /// What it says, in order.
    pub says: Vec<String>,
    /// Who takes it off.
    pub foot: String,
    /// How the page is cut.
    pub cut: String,
}
