//! Whole published tables: CT of viruses and Giardia, cell by cell, and the aging of 12.5 % liquid.

use aftercrest::kernel::aging::{AgingPace, Composition, Storage, liquid_share_left};
use aftercrest::kernel::contact::{giardia_contact, virus_contact};
use aftercrest::quantity::basis::{celsius_of, days_of};
use aftercrest::quantity::{ChlorineConcentration, ChlorinePerLiquid};

use crate::published::{Row, half_last_digit, table};

const COLUMNS: [(&str, f64); 8] = [
    ("ph_6", 6.0),
    ("ph_6_5", 6.5),
    ("ph_7", 7.0),
    ("ph_7_5", 7.5),
    ("ph_8", 8.0),
    ("ph_8_5", 8.5),
    ("ph_9", 9.0),
    ("ph_10", 10.0),
];

fn number(row: &Row, column: &str) -> f64 {
    row[column].parse().unwrap()
}

#[test]
fn every_cell_of_the_contact_tables() {
    let mut cells = 0;
    for row in table("ct_tables.csv") {
        let temperature = number(&row, "temperature_c");
        for (column, ph) in COLUMNS {
            if row[column].is_empty() {
                continue;
            }
            cells += 1;
            let ours = |temperature, ph| {
                let temperature = celsius_of(temperature);
                if row["organism"] == "virus_4_log" {
                    virus_contact(temperature, ph)
                } else {
                    let chlorine = ChlorineConcentration::from_milligrams_per_liter(number(&row, "chlorine_mg_per_l"));
                    giardia_contact(temperature, chlorine, ph)
                }
            };
            let printed = Some(number(&row, column));
            assert_eq!(ours(temperature, ph).map(|contact| contact.0), printed, "{row:?} {column}");
            // A little warmer rounds down to the same row, a little less alkaline up to the same column.
            assert_eq!(ours(temperature + 0.4, ph - 0.01).map(|contact| contact.0), printed, "{row:?} {column}");
        }
    }
    assert_eq!(cells, 6 * 14 * 7 + 6 * 8);
    // Just past a row or a column the next one holds; chlorine and pH round up, temperature rounds down.
    let rows: Vec<Row> = table("ct_tables.csv").into_iter().filter(|row| row["organism"] == "giardia_3_log").collect();
    let milligrams = ChlorineConcentration::from_milligrams_per_liter;
    for pair in rows.windows(2).filter(|pair| pair[0]["temperature_c"] == pair[1]["temperature_c"]) {
        let temperature = celsius_of(number(&pair[0], "temperature_c"));
        let chlorine = number(&pair[0], "chlorine_mg_per_l");
        for columns in COLUMNS[..7].windows(2) {
            let past = giardia_contact(temperature, milligrams(chlorine + 1e-5), columns[0].1).map(|contact| contact.0);
            assert_eq!(past, Some(number(&pair[1], columns[0].0)));
            let past = giardia_contact(temperature, milligrams(chlorine), columns[0].1 + 1e-5).map(|contact| contact.0);
            assert_eq!(past, Some(number(&pair[0], columns[1].0)));
        }
    }
    for (celsius, colder) in [(5.0, 12.0), (10.0, 8.0), (15.0, 6.0), (20.0, 4.0), (25.0, 3.0)] {
        assert_eq!(virus_contact(celsius_of(celsius - 1e-5), 7.0).map(|contact| contact.0), Some(colder));
    }
    let chlorine = milligrams(200.0);
    assert_eq!(giardia_contact(celsius_of(12.0), chlorine, 7.2).map(|contact| contact.0), Some(166.0));
    assert!(giardia_contact(celsius_of(12.0), chlorine, 9.001).is_none());
    assert!(virus_contact(celsius_of(12.0), 10.001).is_none() && virus_contact(celsius_of(f64::NAN), 7.0).is_none());
    assert_eq!(virus_contact(celsius_of(-3.0), 7.0).map(|contact| contact.0), Some(12.0));
    assert_eq!(virus_contact(celsius_of(40.0), 7.0).map(|contact| contact.0), Some(2.0));
}

#[test]
fn aging_of_strong_liquid_lies_in_the_band_or_on_the_safe_side() {
    let (mut inside, mut rows) = (0, 0);
    for row in table("aging_table.csv") {
        let start = 10.0 * number(&row, "start_trade_percent");
        let temperature = celsius_of((number(&row, "temperature_f") - 32.0) / 1.8);
        let storage = [Storage { duration: days_of(number(&row, "days")), temperature }];
        let left = |pace| {
            let start_strength = ChlorinePerLiquid::from_grams_per_liter(start);
            0.1 * start * liquid_share_left(start_strength, Composition::default(), &storage, pace).share_left
        };
        let printed = number(&row, "strength_trade_percent");
        // In the first days hardly anything is lost, and what is lost is smaller than the table's own rounding of days.
        let slack = 5.0 * half_last_digit(&row["strength_trade_percent"]);
        rows += 1;
        if printed >= left(AgingPace::Fast) - slack && printed <= left(AgingPace::Slow) + slack {
            inside += 1;
        } else {
            // Its author's fit slows down once more than half is gone; ours does not, and asks for more product.
            assert!(printed > left(AgingPace::Slow) && printed < 0.06 * start, "{row:?} {}", left(AgingPace::Typical));
        }
    }
    println!(
        "{inside} of {rows} strengths lie between our fast and slow stock, the others above: ours is on the safe side"
    );
    assert!(rows == 105 && inside >= 90);
}
