//! The words of each hazard, in English, Spanish, French, Portuguese and German.
//!
//! A phrase is lower-case words separated by blanks; `*` at the end of a word stands for any ending. Words that mean
//! something harmless in another of these languages, or in the trade, are left out or stand in phrases only: "essence",
//! "gift", "shocked" (a well is shocked with chlorine), "caving" and "slurry" (drillers' words). Common practice, no source.

use super::Hazard;

/// Some words of one hazard.
pub struct Vocabulary {
    /// What any of the phrases reports; a hazard may have several vocabularies.
    pub hazard: Hazard,
    /// Lower-case words separated by blanks; `*` stands for any ending of a word.
    pub phrases: &'static [&'static str],
    /// Where a phrase is a danger in some states only, these behind it, and those before it: panel *under water*, *missing* lid.
    pub states: Option<States>,
    /// Words that take the danger out of what they follow: an electric *pump*, a dog *leg* in the hole.
    pub harmless_before: &'static [&'static str],
    /// Whether a number behind the phrase does so too: open hole 60 to 200 ft.
    pub harmless_before_number: bool,
    /// Words that take the danger out of a single word behind them: *gravel* pit.
    pub harmless_after: &'static [&'static str],
}

/// States in which a thing is a danger; words that link the two may stand between.
#[derive(Clone, Copy)]
pub struct States {
    /// Those said behind it.
    pub behind: &'static [&'static str],
    /// Those said before it.
    pub before: &'static [&'static str],
    /// Whether they are rarer in lists than the things, so that a text is searched for them first.
    pub are_rarer: bool,
}

impl Vocabulary {
    /// Of every phrase that counts, something that stands in it.
    pub fn sought(&self) -> impl Iterator<Item = &'static str> {
        let states = self.states.filter(|states| states.are_rarer);
        let of_states = states.into_iter().flat_map(|states| states.behind.iter().chain(states.before));
        let of_phrases = if states.is_some() { &[] } else { self.phrases };
        of_phrases.iter().chain(of_states).copied()
    }
}

pub(super) const fn words(
    hazard: Hazard,
    phrases: &'static [&'static str],
    harmless_before: &'static [&'static str],
) -> Vocabulary {
    Vocabulary { hazard, phrases, states: None, harmless_before, harmless_before_number: false, harmless_after: &[] }
}

/// Words that make a name of a road or a place of what they follow: Oil City, Snake Creek, Dog River.
pub const NAMES: &[&str] = &[
    "road", "rd", "street", "st", "lane", "ln", "creek", "city", "avenue", "ave", "river", "county", "township", "twp",
    "highway", "hwy", "blvd", "hollow", "island", "mountain", "mtn",
];

/// Words that deny what follows.
pub const DENIALS: &[&str] = &[
    "no", "not", "without", "never", "zero", "sin", "ningún", "ningun", "ninguna", "pas", "sans", "aucun", "aucune",
    "sem", "nenhum", "nenhuma", "não", "nao", "kein", "keine", "keinen", "ohne", "nicht",
];

/// Words that may stand between a denial and what it denies: no *sign of* oil.
pub const BETWEEN: &[&str] = &[
    "a",
    "an",
    "any",
    "the",
    "sign",
    "signs",
    "smell",
    "smells",
    "odor",
    "odour",
    "evidence",
    "trace",
    "traces",
    "visible",
    "obvious",
    "apparent",
    "known",
    "noticeable",
    "more",
    "longer",
    "of",
    "or",
    "nor",
    "from",
    "by",
    "de",
    "d",
    "del",
    "olor",
    "odeur",
    "cheiro",
    "o",
    "ou",
    "ni",
    "oder",
    "is",
    "are",
];

/// Words that deny what they follow: fuel: *none*.
pub const DENIED_BY: &[&str] =
    &["none", "negative", "absent", "nil", "ninguno", "ninguna", "aucun", "nenhum", "keine", "keiner"];

/// Words after a *not* that deny what stands before both: oil *not seen*.
pub const NOT_WHAT: &[&str] =
    &["seen", "noticed", "found", "detected", "present", "observed", "smelled", "there", "noted"];

/// Words by which a harmless electrical thing is a danger: electric panel *under water*.
pub const IN_WATER: &[&str] = &[
    "flooded",
    "wet",
    "under",
    "underwater",
    "submerged",
    "soaked",
    "burned",
    "burnt",
    "burning",
    "smoking",
    "sparks",
    "damaged",
    "broken",
    "exposed",
    "down",
    "fallen",
    "fell",
    "torn",
    "float",
    "floating",
];

/// Titles before a person's name: Mr *Baby*. Those that also end an address or a name (Elm Dr, John Sr) are none.
pub const TITLES: &[&str] = &["mr", "mrs", "miss", "mme", "herr", "frau"];

/// Words that tell of a spill, where a machine's name alone would not: diesel pump *leaking*.
pub const SPILT: &[&str] = &[
    "leak", "leaks", "leaking", "leaked", "spill", "spills", "spilled", "spilt", "smell", "smells", "smelled", "odor",
    "sheen",
];

/// Words of a well that may flow over: a level below the ground says that it does not.
pub const MAY_FLOW: &[&str] = &["artesian", "flowing", "artésien", "artésienne"];

/// The words of every hazard; a text is held against all of them.
#[rustfmt::skip]
pub static VOCABULARY: &[Vocabulary] = &[
    words(Hazard::Electric, &["electric", "electrical"], &[
        "pump", "pumps", "submersible", "motor", "heater", "company", "co", "fence", "meter", "service", "supply", "bill",
        "available", "on", "ok", "good", "car", "stove", "cooperative", "coop", "outlet", "box", "panel", "hookup",
    ]),
    words(Hazard::Electric, &[
        "wires down", "wire down", "downed wire*", "downed line*", "downed power", "power line* down", "lines down",
        "live wire*", "exposed wir*", "bare wir*", "loose wir*", "hanging wir*", "sparking", "electric shock", "electrical shock",
        "power line* on ground", "power line* on the ground", "line* on ground", "line* on the ground", "wire* on ground", "wire* on the ground",
        "shock hazard", "electrical hazard", "electrical damage", "electrified", "shorted", "shorted out", "shorts out", "short circuit*", "electrocut*",
        "cable caído", "cables caídos", "cable suelto", "cables sueltos", "descarga eléctrica", "peligro eléctrico", "cable pelado",
        "fil électrique", "fils électriques", "fils à terre", "câble tombé", "danger électrique",
        "fio caído", "fios caídos", "choque elétrico", "perigo elétrico",
        "stromleitung*", "stromkabel", "stromschlag", "freiliegende kabel", "offene kabel",
    ], &[]),
    words(Hazard::Gas, &["natural gas"], &["heater", "line", "lines", "meter", "service", "stove", "company", "supply", "available"]),
    words(Hazard::Gas, &[
        "gas smell*", "smell* of gas", "smell* like gas", "smelled gas", "smell gas", "smells gas", "gas odor*", "gas odour*",
        "odor of gas", "odour of gas", "methane", "gas leak*", "leaking gas", "gas bubbl*", "bubbling gas",
        "propane leak*", "propane smell", "propane tank*", "lp tank*", "lpg tank*", "lp gas", "gas in water", "gas in well", "gas in the well", "gassy", "explosive", "sewer gas",
        "low oxygen", "bad air", "foul air",
        "olor a gas", "huele a gas", "metano", "fuga de gas", "odeur de gaz", "méthane", "fuite de gaz", "cheiro de gás",
        "vazamento de gás", "gasgeruch", "methan", "gasaustritt",
    ], &[]),
    words(Hazard::Fuel, &[
        "diesl", "deisel", "deisl", "disel", "gasolene", "kerosine", "fuel", "fuels", "oil", "oily", "oils", "diesel", "gasoline", "petrol", "kerosene", "petroleum", "hydrocarbon*",
        "jet fuel", "gas spill*", "spilled gas", "sheen",
        "gasolina", "gasóleo", "gasoil", "gasoleo", "diésel", "petróleo", "petroleo", "queroseno", "combustible", "aceite", "nafta",
        "carburant*", "gazole", "mazout", "fioul", "pétrole", "kérosène", "huile", "odeur d essence", "de l essence",
        "querosene", "óleo", "combustível",
        "benzin", "heizöl", "öl", "dieselöl", "kerosin", "kraftstoff", "treibstoff",
    ], &[
        "lubricated", "filled", "free", "company", "co", "field", "fields", "pump", "pumps", "generator", "engine", "truck",
        "mechanic",
    ]),
    words(Hazard::Chemicals, &["chemical", "chemicals"], &["feed", "feeder", "feedpump", "pump", "toilet", "free"]),
    words(Hazard::Chemicals, &[
        "pesticid*", "herbicid*", "insecticid*", "fungicid*", "weed killer", "weedkiller", "solvent*",
        "weed spray*", "crop spray*", "defoliant*", "glyphosate", "atrazine", "paraquat", "brush killer", "insect killer", "bug spray", "rodenticid*",
        "paint thinner", "antifreeze", "anti freeze", "heavy metal*", "toxic", "poison*", "fertilizer*", "fertiliser*",
        "plaguicida*", "herbicida*", "producto* químico*", "veneno*", "fertilizante*",
        "produit* chimique*", "engrais", "solvant*", "agrotóxico*", "produto* químico*",
        "pestizid*", "pflanzenschutzmittel", "unkrautvernichter", "chemikalie*", "lösungsmittel", "dünger", "giftig*",
    ], &[]),
    words(Hazard::Damaged, &[
        "caved", "cave in", "cave ins", "caves in", "caving in", "casing broke", "casing snapped", "casing crushed", "crushed casing", "collaps*", "cracked casing", "casing cracked", "casing is cracked", "casing crack*",
        "crack* in casing", "crack* in the casing", "broken casing", "casing broken", "casing is broken", "damaged casing",
        "casing damage*", "casing is damaged", "bent casing", "casing bent", "split casing", "casing split", "casing separated",
        "hole in casing", "hole in the casing", "casing leaning", "leaning casing", "casing loose", "loose casing",
        "cracked pvc", "cracked steel", "cracked concrete", "cracked tile*", "cracked wall*", "wall* cracked", "wall* falling",
        "wall* fell", "sinkhole*", "sink hole*", "subsidence", "subsided", "undermined", "eroded around", "washed out around",
        "derrumbad*", "derrumbe", "colapsad*", "tubo roto", "ademe roto", "revestimiento roto", "hundid*",
        "effondr*", "éboul*", "tubage cassé", "tubage fissuré", "desabad*", "desmoronad*", "revestimento quebrado",
        "eingestürzt", "eingefallen", "zusammengebrochen", "rohr gebrochen", "rohr gerissen",
    ], &[]),
    Vocabulary {
        hazard: Hazard::Uncovered,
        phrases: &["open hole", "open holes"],
        // A driller's open hole is the uncased part below the casing.
        harmless_before: &[
            "from", "below", "to", "at", "completion", "completed", "construction", "interval", "section", "diameter", "depth",
            "bedrock", "rock", "dia", "size", "well", "finish", "part",
        ],
        harmless_before_number: true,
        ..words(Hazard::Uncovered, &[], &[])
    },
    words(Hazard::Uncovered, &[
        "no cap", "no well cap", "without cap", "without a cap", "uncapped", "not capped", "no lid", "no well lid", "without a lid",
        "no cover", "no well cover", "without a cover", "uncovered", "open top", "well open", "new cap needed", "new lid needed",
        "new cover needed", "new seal needed", "boards rotten", "boards rotted", "rotten boards", "rotted boards", "boards are rotten",
        "top are rotten", "top is rotten", "cover rotten", "cover is rotten", "cover rotted", "lid rotten", "lid is rotten", "lid rotted",
        "sin tapa", "pozo abierto", "destapado", "sans couvercle", "sans capot", "puits ouvert", "sem tampa", "poço aberto",
        "kein deckel", "ohne deckel", "brunnen offen",
    ], &[]),
    words(Hazard::UnderWater, &[
        "still flooded", "flooded still", "still under water", "still underwater", "under water still", "underwater still", "is under water",
        "is underwater", "now under water", "under water now", "underwater now", "still submerged", "still inundated", "still in the water", "water still over", "water still up",
        "water still high", "water still standing", "flood water still", "floodwater still", "still surrounded by water",
        "sigue inundad*", "todavía inundad*", "aún inundad*", "bajo agua", "bajo el agua", "encore inondé*", "toujours inondé*",
        "sous l eau", "ainda alagad*", "ainda inundad*", "debaixo de água", "debaixo d água", "noch überflutet", "noch überschwemmt",
        "unter wasser",
    ], &["pump", "cable"]),
    // An artesian aquifer and a zone of pressure need not flow over.
    words(Hazard::Flowing, MAY_FLOW, &[
        "aquifer", "pressure", "zone", "basin", "formation", "conditions", "head", "sand", "sands", "creek", "stream", "ditch", "spring",
        "water",
    ]),
    words(Hazard::Flowing, &[
        "flowing well", "flowing artesian", "runs out the overflow", "runs out of the overflow", "running out the overflow",
        "running out of the overflow", "runs out the top", "running out of the top", "overflow is running", "overflow runs",
        "runs over the rim", "spills over the top", "spills over the casing", "flows yr round", "flows year round", "flows over", "flowing over", "flows out", "flowing out", "well flows", "well is flowing",
        "well overflow*", "water overflow*", "casing overflow*", "overflows the top", "overflows at the top", "overflowing the casing",
        "overflows the casing", "overflowing at the top", "runs over the top", "running over the top", "runs over the casing",
        "runs out of the top", "water over the top", "flows at the surface", "flows at surface",
        "flows by itself", "flows on its own", "flows all year",
        "sale por el rebose", "sort par le trop plein", "coule par le trop plein", "sai pelo ladrão", "sai pelo extravasor",
        "pozo surgente", "pozo fluyente", "pozo rebosa", "pozo desborda", "agua rebosa", "puits jaillissant", "puits artésien", "puits déborde", "poço jorrante",
        "poço transborda", "artesischer brunnen", "läuft über",
    ], &[]),
    words(Hazard::Seawater, &["ocean", "tsunami"], &[
        "view", "front", "side", "drive", "park", "beach", "zone", "warning", "siren", "shores",
    ]),
    words(Hazard::Seawater, &["salt water", "saltwater", "brackish"], &["softener", "pool", "disposal", "marsh", "creek", "tank"]),
    words(Hazard::Seawater, &[
        "sea water", "seawater", "water from the sea", "storm surge*", "tidal surge*", "surge water", "tidal wave*", "salty water", "salty after",
        "tastes salty", "water is salty", "water salty", "saline water",
        "agua de mar", "agua del mar", "agua salada", "agua salobre", "salobre", "marejada", "maremoto", "eau de mer", "eau salée",
        "eau saumâtre", "raz de marée", "submersion marine", "água do mar", "água salgada", "água salobra", "salobra", "meerwasser", "salzwasser",
        "brackwasser", "sturmflut*",
    ], &[]),
    words(Hazard::Sewage, &["sewage"], &["treatment", "plant", "works", "district"]),
    words(Hazard::Sewage, &[
        "raw sewage", "septic overflow*", "septic tank overflow*", "overflowing septic", "septic backed up", "septic backup", "septic backing up", "septic leak*",
        "septic fail*", "septic tank flooded", "septic flooded", "flooded septic", "septage", "sewer backup", "sewer back* up",
        "sewer overflow*", "cesspool", "cess pit", "latrine*", "outhouse*", "manure", "feces", "faeces", "human waste", "excrement",
        "aguas negras", "aguas residuales", "fosa séptica", "pozo negro", "excremento*", "letrina*", "estiércol",
        "eaux usées", "égout*", "fosse septique débord*", "fumier", "lisier",
        "esgoto", "fossa transbord*", "esterco", "abwasser", "jauche", "gülle", "fäkalien",
    ], &[]),
    words(Hazard::DeadAnimal, &[
        "dead animal*", "dead rat*", "dead mouse", "dead mice", "dead bird*", "dead cat*", "dead cow*", "dead dog*", "dead snake*",
        "dead deer", "dead fish", "dead squirrel*", "dead frog*", "dead rabbit*", "dead livestock", "dead calf", "dead sheep",
        "dead goat*", "dead pig*", "dead chicken*", "dead raccoon*", "dead opossum*", "dead possum*", "dead skunk*", "dead coyote*",
        "dead fox*", "dead groundhog*", "dead woodchuck*", "dead rodent*", "dead vermin", "dead turtle*", "dead toad*", "dead lizard*",
        "dead hog*", "dead horse*", "dead cattle", "dead steer*", "dead heifer*", "dead lamb*", "dead duck*", "dead poultry", "dead kitten*",
        "dead beaver*", "dead muskrat*", "dead critter*", "cattle drown*", "cow* drown*", "animal* drown*", "livestock drown*",
        "calf drown*", "calves drown*", "horse* drown*", "sheep drown*", "pig* drown*", "hog* drown*", "deer drown*", "drowned cattle",
        "drowned calf", "drowned calves", "drowned horse*", "drowned sheep", "drowned pig*", "drowned livestock", "drowned deer", "animal carcass*", "carcass*", "carcase*", "drowned animal*", "drowned cow*",
        "animal muerto", "animales muertos", "rata muerta", "animal mort", "animaux morts", "cadavre*", "animal morto",
        "animais mortos", "totes tier", "tote tiere", "tierkadaver", "kadaver",
    ], &[]),
    words(Hazard::Infant, &["baby"], &["grand", "monitor", "wipes", "back"]),
    words(Hazard::Infant, &[
        "babies", "infant*", "newborn*", "new born*", "toddler*", "daycare*", "day care*", "kindergarten*", "nursery school", "preschool*", "pregnan*", "expecting mother", "nursing mother",
        "bebé*", "recién nacid*", "lactante*", "embarazad*", "embarazo", "nourrisson*", "femme enceinte", "bébé*",
        "bebê*", "recém nascid*", "grávida*", "säugling*", "neugeboren*", "kleinkind*", "schwanger*",
    ], &[]),
    words(Hazard::Patient, &[
        "dialysis", "immunocompromised", "immuno compromised", "immune compromised", "immunosuppress*", "immune suppressed",
        "weak immun*", "chemo", "chemotherapy", "transplant", "cancer", "hiv", "nursing home*", "care home*", "old people s home", "retirement home*", "assisted living",
        "hospice", "hospital bed", "oxygen concentrator*", "oxygen machine*", "home oxygen", "on oxygen", "ventilator", "oxygen patient*",
        "oxygen user*", "oxygen dependent", "uses oxygen", "needs oxygen", "medical oxygen", "oxygen tank in house", "oxygen at home",
        "feeding tube", "tracheostomy", "bedridden", "medically fragile", "medical need*", "medical equipment",
        "oxígeno en casa", "con oxígeno", "usa oxígeno", "oxygène à domicile", "sous oxygène", "oxigênio em casa", "usa oxigênio",
        "diálisis", "dialisis", "inmunodeprimid*", "inmunosuprimid*", "quimioterapia", "trasplantad*",
        "dialyse", "immunodéprimé*", "chimiothérapie", "diálise", "imunossuprimid*", "imunodeprimid*",
        "dialysepatient*", "immungeschwächt*", "chemotherapie",
    ], &[]),
    Vocabulary {
        harmless_after: &["be", "being", "is", "was", "stay", "remain", "very", "sea", "soyez", "seja"],
        ..words(Hazard::Patient, &["patient", "patients", "paciente", "pacientes"], &["owner", "people", "man", "woman", "lady"])
    },
    words(Hazard::NotFound, &["buried"], &["cable", "line", "lines", "pipe", "tank", "wire", "power", "electric", "utilities"]),
    words(Hazard::NotFound, &[
        "cannot find", "can not find", "could not find", "unable to find", "cannot be found", "can not be found",
        "could not be found", "cant find", "cant be found", "cant locate", "couldnt find", "couldnt locate", "didnt find", "not found",
        "cannot locate", "can not locate", "could not locate", "could not be located", "unable to locate",
        "did not find", "never found", "well not found", "not located", "location unknown", "unknown location", "lost well",
        "under debris", "under rubble", "no access", "access denied", "denied access", "access refused",
        "refused access", "refused entry", "no permission", "not accessible", "inaccessible", "not reachable",
        "no se encuentra", "no encontrado", "no encontrada", "no se encontró", "sin acceso", "enterrad*", "no localizad*",
        "introuvable*", "enterré*", "pas d accès", "sans accès", "não encontrad*", "sem acesso", "soterrad*",
        "nicht gefunden", "nicht auffindbar", "kein zugang", "verschüttet",
    ], &[]),
    words(Hazard::Locked, &["locked"], &["out"]),
    words(Hazard::Locked, &[
        "padlock*", "gate code", "gate is locked", "lock code", "key with", "key at", "key from", "key is", "key needed",
        "need key", "needs key", "need a key", "keys with", "keys at", "call for key", "call for gate",
        "con llave", "candado", "portón cerrado", "llave con", "fermé à clé", "fermée à clé", "cadenas", "clé chez",
        "cadeado", "trancad*", "chave com", "verschlossen", "abgesperrt", "vorhängeschloss", "schlüssel bei",
    ], &[]),
    words(Hazard::Dog, &[
        "dog", "dogs", "guard dog*", "pit bull*", "pitbull*", "rottweiler*", "perro", "perros", "perra", "perras", "chien", "chiens",
        "cão", "cães", "cachorro", "cachorros", "hund", "hunde", "wachhund", "hofhund",
    ], &["leg", "legs"]),
    words(Hazard::Stings, &[
        "bee", "bees", "beehive*", "wasp*", "hornet*", "yellow jacket*", "yellowjacket*", "fire ant*", "snake", "snakes", "rattlesnake*",
        "copperhead*", "cottonmouth*", "water moccasin*", "scorpion*", "black widow*", "spider*", "alligator*", "crocodile*",
        "poison ivy", "poison oak",
        "abeja*", "avispa*", "serpiente*", "culebra*", "víbora*", "alacrán", "alacranes", "abeille*", "guêpe*", "frelon*",
        "serpent", "serpents", "vipère*", "abelha*", "vespa*", "marimbondo*", "cobra*", "escorpi*", "biene*", "wespe*",
        "hornisse*", "schlange*",
    ], &[]),
];
