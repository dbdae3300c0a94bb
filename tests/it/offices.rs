//! Lists as offices keep them, with the truth beside them: what is understood of each without any answer, and with the
//! open questions answered once.
//!
//! The lists and their truth (`fixtures/lists`) were written by people who had not seen the program's vocabulary; the
//! liters are worked out from the facts of each well, not by the program. The rules were written with the lists of
//! [`DEVELOPED`] in sight. The others came in [`LOTS`], each measured once before anybody had looked at it. What they showed went
//! into the rules after that, so none of them is blind any more.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use aftercrest::checks::{Identities, Verdict, admit};
use aftercrest::field::rules::{ReadingRules, UnitSystem};
use aftercrest::field::{Field, WellType};
use aftercrest::finding::Severity;
use aftercrest::inventory::Inventory;
use aftercrest::kernel::volume::standing_volume;
use aftercrest::quantity::unit;

use crate::reading::fixtures;

/// Lists that the rules were written with.
const DEVELOPED: [&str; 12] = [
    "conservation_district",
    "county_health_form",
    "driller_job_book",
    "mobile_survey_export",
    "permit_database",
    "pocos_vale_sereno",
    "pozos_bajo_arani",
    "province_list",
    "puits_valbrune",
    "quillan_small_systems",
    "sawtell_district_townships",
    "tarrow_wellbook",
];

/// Lists that were written by others than the rules, and measured once before anybody had looked at them.
struct Lot {
    lists: &'static [&'static str],
    /// The share of treatable rows that is read right since then, at least.
    least: f64,
}

/// The lots in the order they came; beside each, the treatable rows that were read right at first sight.
const LOTS: [Lot; 30] = [
    // 64 of 612.
    Lot {
        lists: &[
            "eoc_water_points",
            "extension_well_owners",
            "gw_observation_network",
            "hill_roads_ledger",
            "pump_service_customers",
            "sarn_valley_merge",
            "suivi_puits_ong",
        ],
        least: 0.95,
    },
    // 77 of 277.
    Lot {
        lists: &[
            "caderno_posto_saude",
            "college_gps_survey",
            "district_ledger_typed",
            "inventaire_points_eau",
            "pozos_auxilio_municipal",
        ],
        least: 0.9,
    },
    // 213 of 404.
    Lot {
        lists: &[
            "flood_desk_calls",
            "health_unit_inventory",
            "parish_phone_survey",
            "permit_extract_q3",
            "pump_route_cards",
            "road_crew_farms",
        ],
        least: 0.95,
    },
    // 163 of 510; 17 planned wrong without a warning.
    Lot {
        lists: &[
            "coop_member_wells",
            "district_council_bores",
            "drillers_completion_index",
            "lab_bottle_register",
            "padron_norias_municipio",
            "schools_churches_systems",
            "windshield_survey_roads",
        ],
        least: 0.95,
    },
    // 308 of 449; 5 wrong without one.
    Lot {
        lists: &[
            "commune_liste_eau",
            "esw_permit_tracking",
            "fire_district_evening",
            "pump_man_notebook",
            "state_registry_extract",
            "village_utility_homes",
        ],
        least: 0.97,
    },
    // 311 of 325; 2 wrong without one.
    Lot {
        lists: &[
            "assessor_wellpoints_export",
            "cadastro_pocos_enchente",
            "contractor_call_sheet",
            "health_district_metric",
            "volunteer_phone_tally",
        ],
        least: 0.96,
    },
    // 101 of 378.
    Lot {
        lists: &[
            "church_relief_survey",
            "federacion_comites_agua",
            "inventaire_commune_ouvrages",
            "pump_route_book",
            "state_permit_construction",
            "township_clerk_ledger",
        ],
        least: 0.88,
    },
    // 154 of 301; 1 wrong without one. Two of its lists change their units by the kind or the year of a record,
    // which a note says: asked.
    Lot {
        lists: &[
            "county_eh_permit_export",
            "defesa_civil_pocos",
            "drillers_assoc_volunteers",
            "eoc_wells_two_days",
            "rm_puits_prives_bilingual",
            "small_systems_schools_camps",
        ],
        least: 0.52,
    },
    // 244 of 680; 65 wrong without one.
    Lot {
        lists: &[
            "ayto_pozos_y_norias",
            "comite_eau_liste_puits",
            "extension_annual_wells",
            "formulario_pozos_brigada",
            "pump_shop_customer_book",
            "rm_flood_calls_cards",
            "sanitarian_sample_register",
            "shire_bore_register",
            "state_wellrec_extract",
            "township_fire_door_tally",
        ],
        least: 0.99,
    },
    // 177 of 571; 26 wrong without one.
    Lot {
        lists: &[
            "circuit_rider_trip_sheets",
            "driller_job_ledger",
            "em_damage_points_taxroll",
            "health_unit_sdws_recheck",
            "inventaire_points_eau_commune",
            "padron_norias_proteccion_civil",
            "survey_waterlog_extract",
            "township_phone_survey_export",
        ],
        least: 0.95,
    },
    // 310 of 542; 8 wrong without one.
    Lot {
        lists: &[
            "circuit_rider_visit_survey",
            "district_flood_wells_merged",
            "env_health_two_clerks",
            "pump_installer_routes",
            "puntos_agua_consorcio",
            "recensement_puits_commune",
            "registre_puits_municipal",
            "state_wcr_extract",
        ],
        least: 0.95,
    },
    // 242 of 531; 3 wrong without one.
    Lot {
        lists: &[
            "driller_job_book_typed",
            "federacion_cuatro_comites",
            "parcel_join_well_survey",
            "parish_visit_book",
            "protecao_civil_pocos_furos",
            "prov_groundwater_extract",
            "shire_bore_register_au",
            "vol_fire_co_high_water",
        ],
        least: 0.85,
    },
    // 49 of 198. One of its lists says its units in half a sentence of its title: asked.
    Lot {
        lists: &["bore_driller_job_book", "env_health_well_followup", "province_wwr_extract", "releve_points_eau_ong"],
        least: 0.7,
    },
    // 471 of 485: lists as such offices most commonly keep them, by the writers' own account.
    Lot {
        lists: &[
            "circuit_rider_east_wells",
            "eh_flood_tracking",
            "inventaire_points_eau_inondation",
            "marlpoint_hu_freshet_wells",
            "swcd_well_inv",
            "volunteer_well_survey",
        ],
        least: 0.98,
    },
    // 260 of 485: the same, by others.
    Lot {
        lists: &[
            "WELLPRMT_EXTR_240617",
            "customer_wells_shop",
            "fontes_agua_cheias_distrito",
            "norias_y_pozos_inundacion",
            "prov_well_extract_flood_area",
            "wells_high_water_list",
        ],
        least: 0.97,
    },
    // 315 of 430; 5 wrong with a warning, 1 of 68 to be asked planned without one. Three lines that stand twice word for word are
    // held back as repeats, where their writer counts both.
    Lot {
        lists: &[
            "censo_aljibes_pozos_veredas",
            "orvale_eh_flooded_wells",
            "river_lots_private_wells_phi",
            "transfer_inspection_wells",
            "well_clinic_signup_responses",
            "wrd_domestic_logs_flood_twps",
        ],
        least: 0.98,
    },
    // 281 of 356; 5 wrong with a warning.
    Lot {
        lists: &[
            "DWR_WLGCMPL_HWZONE_1025",
            "auxwell_crossconn_survey",
            "equalization_rural_cards",
            "natres_district_winter_levels",
            "rural_water_grant_register",
            "synod_work_orders",
        ],
        least: 0.99,
    },
    // 298 of 416; 1 wrong without a warning. One of its lists writes no unit anywhere: asked whole.
    Lot {
        lists: &[
            "GWREG_B07_HIWATER_0609",
            "marlfork_coop_acct_wells",
            "osk_well_drilling_custlist",
            "quarrell_co_eh_floodlist",
            "st_ornulphe_puits_crue_avril",
            "tinnet_creek_vfd_doorsheet",
        ],
        least: 0.8,
    },
    // 295 of 375; 32 wrong without a warning: a heading `Water in` was read as water in inches.
    Lot {
        lists: &[
            "clerk_road_book_wells",
            "comuna_perforaciones_calzados",
            "dc_bore_reg_domestic_flood",
            "ext_watertest_signup_export",
            "oper_period4_private_wells",
            "pump_svc_open_tickets",
        ],
        least: 0.98,
    },
    // 314 of 388; 1 of 65 to be asked planned without a warning. One of its lists says its units on the sheet of its codes.
    Lot {
        lists: &[
            "EHD_WELLPRMT_TBL_0519",
            "WATWELL_EXTR_BASIN14",
            "ayto_valdesarro_pozos_tras_riada",
            "phi_private_supplies_zone3_june",
            "rwa_members_well_answers",
            "svc_accts_wells_underwater",
        ],
        least: 0.99,
    },
    // 249 of 378; two lists whose columns of types or levels were not understood.
    Lot {
        lists: &[
            "bramlow_eoc_call_intake",
            "heron_slough_util_wells",
            "mairie_ravine_sablier_puits",
            "quennelby_twp_wells_by_road",
            "skelvin_bros_job_log",
            "tallis_fork_clinic_responses",
        ],
        least: 0.97,
    },
    // 244 of 351; 33 wrong, 5 of them without a warning: strings of casing under bands, and a width in meters or inches by the
    // type.
    Lot {
        lists: &[
            "camps_schools_level_rounds",
            "costshare_642_wells",
            "lender_inspection_orders",
            "ngo_phoneform_onehot",
            "regional_pws_source_wells",
            "smsaude_pocos_interior",
        ],
        least: 0.98,
    },
    // 280 of 453; 6 wrong without a warning: feet and inches in two columns under one band. Forty short lists in forty hands.
    Lot {
        lists: &[
            "WELLCON_X_FLD07",
            "assn_field_rep_standing_water",
            "averly_co_eh_submerged",
            "brackenhaugh_dc_pws_register",
            "clayridge_sanit_bored_wells",
            "closing_inspections_wells_23_24",
            "comite_apr_estero_punteras",
            "county_parks_handpump_wells",
            "doringvlakte_farmers_boreholes",
            "eoc_logistics_well_treat_grid",
            "ext_office_flood_signup",
            "fiche_desinfection_points_eau_zone3",
            "flood_wells_pts_dbf_export",
            "hose_co_tape_sheet",
            "junta_freguesia_furos_minas",
            "jurisdiccion_sanitaria_norias_lluvias",
            "kettle_hollow_pump_shop",
            "levee_dist_obs_homes_elev",
            "mairie_puits_forages_submerges",
            "mancomunidad_captaciones_riada",
            "marl_twp_hall_well_roll",
            "mrc_puits_inondes_riverains",
            "nortondale_phu_pws_flood",
            "oficina_municipal_pozos_barrios",
            "pennock_twp_supervisor_ftin",
            "plain_road_church_workorders",
            "producers_coop_milkhouse_wells",
            "promotora_salud_malacates",
            "rec_member_pump_loads",
            "roll_cards_rural_water_src",
            "sandbar_county_callers_01",
            "softwater_dealer_rte_keys",
            "soil_dist_costshare_wells",
            "threlkin_bros_completions",
            "treatment_svc_standing_gallons",
            "tri_ridge_hd_banded",
            "upper_sorrel_springs_wells",
            "vigilancia_pocos_cacimbas_ribeirinhas",
            "wash_cluster_handpump_sites",
            "wirrabeck_landcare_bores",
        ],
        least: 0.98,
    },
    // 206 of 282, with the rules that the forty had taught; 4 wrong without a warning. Thirty more. One list says gallons and not
    // which: asked.
    Lot {
        lists: &[
            "GWDB_DOMWELL_XTR22",
            "assessor_card_well_items",
            "cercle_ouvrages_ns_sol",
            "circuit_rider_gal_per_ft",
            "clerk_town_sections_wells",
            "clinic_intake_wells",
            "council_bores_signed_swl",
            "creamery_fieldman_wells",
            "defensa_civil_tirante_planilla",
            "delegacion_pozos_norias_lluvia",
            "drainage_dist_wells_navd",
            "driller_assn_gallons_list",
            "dunrow_drilling_complete_log",
            "env_health_checkmarks",
            "eoc_div_wells_watercol",
            "extension_flush_signup_q",
            "mairie_crue_puits_margelle",
            "mission_team_wells_depthwater",
            "park_pump_base_wells",
            "prairie_hu_wells_btoc",
            "prefeitura_cisternas_tubulares",
            "private_supply_chambers_wk1",
            "pumpman_service_wells_tagno",
            "small_pws_two_strings",
            "socios_comite_captaciones_ne",
            "swcd_wells_dia_unit",
            "tamsett_co_sanitarian_wells",
            "title_transfer_wells_nov",
            "vfd_tape_down_casing",
            "wash_lip_wells_sector4",
        ],
        least: 0.9,
    },
    // 223 of 376; 4 wrong without a warning.
    Lot {
        lists: &[
            "bldgwell_permit_coded",
            "hollisand_ehs_pvtwells_21to23",
            "oakmire_soilwater_dist_bands",
            "rillmark_doorstep_answers",
            "selwick_plains_wellsheet_toc",
            "threefork_assn_pipe_strings",
        ],
        least: 0.97,
    },
    // 239 of 335, in four languages.
    Lot {
        lists: &[
            "alcaldia_fuentes_caseras_temporal",
            "carroth_hd_town_tabs",
            "lodges_camps_source_sheet",
            "low_road_grange_bleach_tally",
            "relais_eau_apres_inondation_secteurs",
            "sec_obras_vistoria_cacimbas",
        ],
        least: 0.9,
    },
    // 291 of 406, in four languages; none wrong without a warning.
    Lot {
        lists: &[
            "after_crest_wellcheck_form_v3",
            "fennimark_twp_trustee_wells",
            "gandry_basin_pws_wellhead_roster",
            "muni_tamburiche_pozos_anegados",
            "pref_barralina_pocos_enxurrada",
            "prog_rive_tamboulaye_ouvrages",
            "quillard_drillers_assn_strings",
            "tesswick_co_hd_may_water",
        ],
        least: 0.97,
    },
    // 356 of 425, in four languages and imperial gallons; 6 wrong without a warning, of remarks and of a hole below the casing.
    Lot {
        lists: &[
            "brantmoor_hu_wells_impgal",
            "eoc_phonebank_wells_marrow",
            "extrural_pocos_enchente_taquarimbe",
            "prefecture_kessarou_ouvrages_crue",
            "prov_aguas_captaciones_avenida",
            "pumpshop_custfile_tessel_forks",
            "rwa_fieldbook_hatch_bottom",
            "wlogdb_pull_co31_highwater",
        ],
        least: 0.97,
    },
    // 291 of 307, in three languages, metric with some feet; 2 wrong without a warning.
    Lot {
        lists: &[
            "atm_yanasorco_pozos_crecida",
            "kandiarou_hydraulique_releve_crue",
            "ketterlow_jobs_pipe_and_hole",
            "ossamere_eh_pmts_cmplts_run",
            "sallow_creek_fd_cards_typedup",
            "two_spruce_pt_housing_wells",
        ],
        least: 0.94,
    },
    // 236 of 314: of two lists hardly a row, one with lettered casings, one with two units in the heading of its widths.
    Lot {
        lists: &[
            "DNRWTR_WCLOG_XT_R6",
            "fairgrounds_well_class_roster",
            "helping_hands_truck_wells",
            "noncomm_site_visits_csg_abc",
            "tilbarra_shire_eho_house_bores",
            "vilardenha_captacoes_ribeira",
        ],
        least: 0.97,
    },
];

/// What a careful person makes of a row.
#[derive(Debug, Clone)]
struct Truth {
    kind: String,
    liters: Option<f64>,
}

/// Rows by sheet and number.
type Rows<T> = BTreeMap<(String, u32), T>;

/// Where the lists are: ours, or those of the folder that AFTERCREST_LISTS names.
fn folder() -> PathBuf {
    std::env::var_os("AFTERCREST_LISTS").map_or_else(|| fixtures("lists"), PathBuf::from)
}

/// The records of a table of truth, each by its headings.
fn records(name: &str, what: &str) -> Vec<BTreeMap<String, String>> {
    let path = folder().join(format!("{name}.{what}.csv"));
    let mut reader = csv::Reader::from_path(path).unwrap();
    let headings: Vec<String> =
        reader.headers().unwrap().iter().map(|heading| heading.trim_start_matches('\u{feff}').to_owned()).collect();
    let one = |record: csv::StringRecord| {
        headings.iter().cloned().zip(record.iter().map(|cell| cell.trim().to_owned())).collect()
    };
    reader.records().map(|record| one(record.unwrap())).collect()
}

fn truth(name: &str) -> Rows<Truth> {
    let row = |record: BTreeMap<String, String>| {
        let truth = Truth { kind: record["kind"].clone(), liters: record["liters"].parse().ok() };
        ((record["sheet"].clone(), record["row"].parse().unwrap()), truth)
    };
    records(name, "truth").into_iter().map(row).collect()
}

/// The rules with each open question of a list answered once, from its table of columns: what a heading is, and its unit.
fn answered(name: &str, path: &Path) -> ReadingRules {
    let mut rules = ReadingRules::default();
    let asked: Vec<String> = Inventory::open(&[path.to_owned()], &rules)
        .unwrap()
        .file_findings()
        .iter()
        .filter(|finding| ["H106", "H108", "H132", "H134"].contains(&finding.code.id()))
        .map(|finding| finding.seen.to_string())
        .collect();
    for record in records(name, "columns") {
        let heading = &record["heading"];
        // A heading that stands twice, or whose answer takes more than the name of a field, stays open.
        let twice = records(name, "columns").iter().filter(|other| &other["heading"] == heading).count() > 1;
        if !asked.contains(heading) || twice || record["field"].contains('(') {
            continue;
        }
        let field = match record["field"].split([' ', '(']).next().unwrap_or_default() {
            "height_of_water" => Some(Field::WaterColumn),
            "standing_volume" => Some(Field::WaterVolume),
            other => Field::by_name(other),
        };
        rules.columns.insert(heading.clone(), field);
        if let (Some(field), Some(unit)) = (field, unit::by_symbol(record["unit"].trim_end_matches('.'))) {
            rules.units.insert(field, unit);
        }
    }
    for (text, meaning) in words_asked(name, path, &rules) {
        rules.words.entry(Field::WellType).or_default().insert(text, meaning);
    }
    rules
}

/// The texts that are asked for as types of well, each with what the office says that it means.
fn words_asked(name: &str, path: &Path, rules: &ReadingRules) -> Vec<(String, String)> {
    let known = records(name, "words");
    let meant = |text: &str| {
        let of = known.iter().find(|record| record["text"] == text)?;
        WellType::by_name(&of["meaning"]).map(|kind| kind.name().to_owned())
    };
    let asked = findings(path, rules).into_iter().filter(|(code, _)| code == "C105").map(|(_, text)| text);
    asked.filter_map(|text| Some((text.clone(), meant(&text)?))).collect()
}

/// Codes of the findings about rows, each with what was typed.
fn findings(path: &Path, rules: &ReadingRules) -> BTreeSet<(String, String)> {
    let mut inventory = Inventory::open(&[path.to_owned()], rules).unwrap();
    let mut found = BTreeSet::new();
    while let Some(batch) = inventory.next_batch(4096).unwrap() {
        for draft in batch.drafts() {
            found.extend(draft.findings.iter().map(|one| (one.code.id().to_owned(), one.seen.to_string())));
        }
    }
    found
}

/// What the program makes of a row.
struct Read {
    liters: Option<f64>,
    warned: bool,
    why: Vec<String>,
}

fn read(path: &Path, rules: &ReadingRules) -> Rows<Read> {
    let mut inventory = Inventory::open(&[path.to_owned()], rules).unwrap();
    let mut identities = Identities::new(rules);
    let mut rows = Rows::new();
    while let Some(batch) = inventory.next_batch(4096).unwrap() {
        let mut drafts = batch.drafts();
        identities.check(&mut drafts);
        for draft in drafts {
            let at = (draft.origin().sheet.as_deref().unwrap_or_default().to_owned(), draft.row());
            let why = |findings: &[aftercrest::finding::Finding]| {
                findings.iter().map(|finding| format!("{} {}", finding.code.id(), finding.says)).collect()
            };
            let read = match admit(draft, rules) {
                Verdict::Admitted { well, findings } => Read {
                    liters: Some(standing_volume(&well.standing_water).value * 1000.0),
                    warned: findings.iter().any(|finding| finding.code.severity() != Severity::Note),
                    why: why(&findings),
                },
                Verdict::HeldBack(held) => Read { liters: None, warned: true, why: why(&held.findings) },
                Verdict::NotAWell(_) => Read { liters: None, warned: true, why: Vec::new() },
            };
            rows.insert(at, read);
        }
    }
    rows
}

/// How a list was read.
#[derive(Default, Debug, Clone, Copy)]
struct Score {
    treatable: usize,
    right: usize,
    held_back: usize,
    wrong: usize,
    wrong_silently: usize,
    should_ask: usize,
    planned_all_the_same: usize,
    silently: usize,
    no_wells: usize,
    no_wells_planned: usize,
}

impl Score {
    fn of(truth: &Rows<Truth>, rows: &Rows<Read>, said: &mut Vec<String>) -> Self {
        let mut score = Self::default();
        for (at, truth) in truth {
            let read = rows.get(at);
            let liters = read.and_then(|read| read.liters);
            let warned = read.is_none_or(|read| read.warned);
            let mut say = |what: &str| {
                let why = read.map_or(String::new(), |read| read.why.join("; "));
                said.push(format!("{what} {}:{} {truth:?}, read {liters:?}: {why}", at.0, at.1));
            };
            match (truth.kind.as_str(), truth.liters, liters) {
                ("well", Some(expected), read) => {
                    score.treatable += 1;
                    match read {
                        Some(liters) if (liters / expected - 1.0).abs() <= 0.1 => score.right += 1,
                        Some(_) => {
                            score.wrong += 1;
                            score.wrong_silently += usize::from(!warned);
                            say("wrong");
                        }
                        None => {
                            score.held_back += 1;
                            say("held back");
                        }
                    }
                }
                ("ask", _, read) => {
                    score.should_ask += 1;
                    score.planned_all_the_same += usize::from(read.is_some());
                    score.silently += usize::from(read.is_some() && !warned);
                    if read.is_some() {
                        say("should be asked");
                    }
                }
                (_, _, read) => {
                    score.no_wells += 1;
                    score.no_wells_planned += usize::from(read.is_some());
                    if read.is_some() {
                        say("not a well");
                    }
                }
            }
        }
        score
    }

    fn add(&mut self, other: Self) {
        self.treatable += other.treatable;
        self.right += other.right;
        self.held_back += other.held_back;
        self.wrong += other.wrong;
        self.wrong_silently += other.wrong_silently;
        self.should_ask += other.should_ask;
        self.planned_all_the_same += other.planned_all_the_same;
        self.silently += other.silently;
        self.no_wells += other.no_wells;
        self.no_wells_planned += other.no_wells_planned;
    }

    fn share_right(&self) -> f64 {
        self.right as f64 / self.treatable.max(1) as f64
    }
}

/// The lists, by name.
fn lists() -> BTreeMap<String, PathBuf> {
    std::fs::read_dir(folder())
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter_map(|path| {
            let name = path.file_name()?.to_str()?.to_owned();
            let stem = name.split('.').next()?.to_owned();
            (name.matches('.').count() == 1 && !name.ends_with(".md")).then_some((stem, path))
        })
        .collect()
}

/// Scores of a set of lists, printed a line each: without an answer, and with the open questions answered.
fn measured(belongs: impl Fn(&str) -> bool) -> (Score, Score) {
    let (mut plain, mut with_answers) = (Score::default(), Score::default());
    for (name, path) in lists() {
        if !belongs(&name) {
            continue;
        }
        let truth = truth(&name);
        let mut said = Vec::new();
        let before = Score::of(&truth, &read(&path, &ReadingRules::default()), &mut Vec::new());
        let after = Score::of(&truth, &read(&path, &answered(&name, &path)), &mut said);
        println!("{name}: {before:?}\n  answered: {after:?}");
        said.iter().for_each(|line| println!("    {line}"));
        plain.add(before);
        with_answers.add(after);
    }
    println!(
        "all: {plain:?} {:.3}\n  answered: {with_answers:?} {:.3}",
        plain.share_right(),
        with_answers.share_right()
    );
    (plain, with_answers)
}

/// `AFTERCREST_LISTS=FOLDER cargo test --release --test it -- --ignored --nocapture lists_of_another_folder` measures lists that
/// nobody has looked at yet.
#[test]
#[ignore = "prints how the lists of another folder are read, and asserts nothing"]
fn lists_of_another_folder() {
    measured(|_| true);
}

#[test]
fn lists_of_offices_are_read_as_a_careful_person_reads_them() {
    let (plain, with_answers) = measured(|name| DEVELOPED.contains(&name));
    assert!(plain.share_right() >= 0.95, "before any answer: {plain:?}");
    assert_eq!(plain.wrong_silently, 0, "planned wrong without a word: {plain:?}");
    assert_eq!(with_answers.wrong_silently, 0, "planned wrong without a word: {with_answers:?}");
}

#[test]
fn lists_that_were_kept_apart_are_hardly_ever_read_wrong_without_a_word() {
    let mut silently = 0;
    for (at, lot) in LOTS.iter().enumerate() {
        let (plain, _) = measured(|name| lot.lists.contains(&name));
        assert!(plain.share_right() >= lot.least, "lot {}: {plain:?}", at + 1);
        silently += plain.wrong_silently;
    }
    // A brocal in centimeters that the note speaks of in another column's words, and a height of water that was sounded once more
    // at an hour of the day: not understood yet.
    assert!(silently <= 2, "{silently} planned wrong without a word");
}

#[test]
fn every_list_belongs_to_a_lot() {
    let known: BTreeSet<&str> = DEVELOPED.into_iter().chain(LOTS.iter().flat_map(|lot| lot.lists).copied()).collect();
    let names: BTreeSet<String> = lists().into_keys().collect();
    let names: BTreeSet<&str> = names.iter().map(String::as_str).collect();
    assert_eq!(known, names);
}

/// Sixty tables of clean cells under headings as sixty offices would write them, in four languages: 1,457 of the 1,800 rows
/// were read right, and none wrong, before the rules had seen any of the headings. The headings and the wells are invented;
/// the liters come of the facts the cells were written from.
#[test]
fn headings_in_sixty_hands_are_understood() {
    let mut truth: BTreeMap<String, BTreeMap<u32, f64>> = BTreeMap::new();
    let mut reader = csv::Reader::from_path(fixtures("headings").join("truth.csv")).unwrap();
    for record in reader.deserialize::<(String, u32, f64)>() {
        let (list, row, liters) = record.unwrap();
        truth.entry(list).or_default().insert(row, liters);
    }
    assert_eq!(truth.len(), 60);
    let (mut right, mut all) = (0, 0);
    for (list, expected) in truth {
        // As the office would say: feet in the lists of its own country, meters in the others.
        let number: u32 = list[1..3].parse().unwrap();
        let system = if number <= 30 || number == 35 { UnitSystem::Us } else { UnitSystem::Metric };
        let rules = ReadingRules { system: Some(system), ..ReadingRules::default() };
        let rows = read(&fixtures("headings").join(&list), &rules);
        for (row, liters) in expected {
            let read = rows.get(&(String::new(), row)).and_then(|read| read.liters);
            all += 1;
            right += usize::from(read.is_some_and(|read| (read / liters - 1.0).abs() <= 0.1));
            if let Some(read) = read {
                assert!((read / liters - 1.0).abs() <= 0.1, "{list}:{row}: {read} L for {liters} L");
            }
        }
    }
    println!("{right} of {all}");
    assert!(right >= 1_797, "{right} of {all}");
}

/// Wells described in one cell each, by sixteen people who had not seen the program: 97 of the 274 with enough in them were read
/// right at first sight. The rules were then written with the first eight hands in sight; of the other eight, with nobody having
/// looked at them, 94 of 136 were right (17 of these are one hand that writes no unit at all, which is asked).
#[test]
fn wells_described_in_one_cell_are_read_by_the_words_beside_each_number() {
    const SEEN: [&str; 8] = [
        "us_pump_installer_1",
        "us_water_hauler",
        "us_owner_phone_1",
        "us_driller_secretary_1",
        "us_farm_coop",
        "ie_borehole",
        "es_brigada",
        "fr_mairie",
    ];
    let mut hands: BTreeMap<String, Vec<(String, Truth)>> = BTreeMap::new();
    let mut reader = csv::Reader::from_path(fixtures("words").join("descriptions.csv")).unwrap();
    for record in reader.deserialize::<(String, String, String, Option<f64>)>() {
        let (hand, text, kind, liters) = record.unwrap();
        hands.entry(hand).or_default().push((text, Truth { kind, liters }));
    }
    assert_eq!(hands.len(), 16);
    let folder = tempfile::tempdir().unwrap();
    let (mut seen, mut apart) = (Score::default(), Score::default());
    for (hand, wells) in hands {
        let path = folder.path().join(format!("{hand}.csv"));
        let mut list = csv::Writer::from_path(&path).unwrap();
        list.write_record(["no", "well"]).unwrap();
        for (at, (text, _)) in wells.iter().enumerate() {
            list.write_record([&(at + 1).to_string(), text]).unwrap();
        }
        list.flush().unwrap();
        let truth =
            wells.into_iter().enumerate().map(|(at, (_, truth))| ((String::new(), at as u32 + 2), truth)).collect();
        let mut said = Vec::new();
        let score = Score::of(&truth, &read(&path, &ReadingRules::default()), &mut said);
        println!("{hand}: {score:?}");
        said.iter().for_each(|line| println!("    {line}"));
        if SEEN.contains(&hand.as_str()) { seen.add(score) } else { apart.add(score) }
    }
    assert!(seen.share_right() >= 0.97, "{seen:?}");
    assert!(apart.share_right() >= 0.7, "{apart:?}");
    assert_eq!(seen.wrong_silently + seen.silently, 0, "{seen:?}");
    assert!(apart.wrong_silently + apart.silently <= 4, "{apart:?}");
}
