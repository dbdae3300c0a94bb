//! What is to be done about a finding, in words of a campaign book: the sheet, its row and its column in place of a line of a
//! scenario file.

use crate::field::Field;
use crate::finding::Finding;
use crate::scenario::keys_as_words as plain;

/// Tables of a scenario file with the sheet that holds the same, where no line of theirs is named.
const SHEETS: [(&str, &str); 20] = [
    // One answer in the book leaves a row out.
    ("or take the row out if it is a total or a remark", "or write not a well if it is a total or a remark"),
    ("take one of the two out,", "write not a well if this is the same well once more,"),
    // What a help says of the value in a line that stood before it.
    (", or = \"\" to leave it out", ", or (not a field) to leave it out"),
    ("; if not: = \"\"", "; if not, Read as: (not a field)"),
    ("--units UNITS (us, metric or imperial)", "sheet Campaign, Units: us, metric or imperial"),
    ("--units UNITS", "sheet Campaign, Units"),
    (": flowing_spring = \"isolated\"", ", Springs that flow: isolated"),
    ("or \"feed\"", "or feed"),
    ("[inventory.words.depot]", "the sheet Names"),
    ("[inventory.words.region]", "the sheet Names"),
    ("[inventory.units]", "the sheet Columns (column Unit)"),
    ("[inventory.columns]", "the sheet Columns (column Read as)"),
    ("[inventory.fixed]", "the sheet Columns (column Where blank)"),
    ("[inventory.words.well_type]", "the sheet Words"),
    ("[inventory]", "the sheet Campaign"),
    ("[missing]", "the sheet Missing"),
    ("[campaign]", "the sheet Campaign"),
    ("[practice]", "the sheet Practice"),
    ("an [[override]]", "the sheet Exceptions"),
    ("[[list]]", "the sheet Lists"),
];

/// The same help, by sheet.
pub fn by_sheet(help: &str) -> String {
    let mut said = String::with_capacity(help.len());
    let mut rest = help;
    while let Some(at) = rest.find('[') {
        said.push_str(&rest[..at]);
        rest = &rest[at..];
        match line(rest) {
            Some((words, length)) => {
                said.push_str(&words);
                rest = &rest[length..];
            }
            None => {
                said.push('[');
                rest = &rest[1..];
            }
        }
    }
    said.push_str(rest);
    for (table, sheet) in SHEETS {
        said = said.replace(table, sheet);
    }
    let said = said.replace("the scenario file", "the campaign book");
    plain(&said.replace("with exclude = true and a reason", "with Leave out yes and a Reason"))
}

/// A finding in words of the book: what is wrong, and what to do.
pub fn in_words_of_the_book(finding: &Finding) -> Finding {
    let mut said = finding.clone();
    said.help = by_sheet(&finding.help.to_string()).into();
    said.suggested = finding.suggested.as_deref().map(|value| plain(value).into());
    // `stick_up = "12"` beside a place.
    for (_, phrase) in &mut said.related {
        *phrase = plain(&phrase.replacen(" = \"", " \"", 1)).into();
    }
    said.says = by_sheet(&finding.says.to_string()).into();
    said
}

/// A table with one of its lines, as the sheet says it, and how many bytes that was.
fn line(text: &str) -> Option<(String, usize)> {
    let end = text.find(']')?;
    let table = &text[1..end];
    let after = &text[end + 1..];
    let rest = after.trim_start();
    // The key, in quotes or bare.
    let key_length = match rest.strip_prefix('"') {
        Some(quoted) => quoted.find('"')? + 2,
        None => rest.find(|letter: char| !(letter.is_alphanumeric() || letter == '_')).unwrap_or(rest.len()),
    };
    let key = rest[..key_length].trim_matches('"');
    if key.is_empty() {
        return None;
    }
    let behind = &rest[key_length..];
    let value = behind.strip_prefix(" = \"").and_then(|value| value.find('"').map(|end| &value[..end]));
    let length = text.len() - behind.len() + value.map_or(0, |value| value.len() + " = \"\"".len());
    let field = |key: &str| Field::by_name(key).is_some();
    let (is_stated, is_blank) = (value.is_some(), value == Some(""));
    let value = value.unwrap_or_default();
    // What is to be chosen is said by the column alone: the campaign's own file shows a place for it.
    let value = if ["field", "…", "TYPE", "UNIT"].contains(&value) { "" } else { value };
    let colon = if value.is_empty() { String::new() } else { format!(": {value}") };
    let words = match table.split_once('.').unwrap_or((table, "")) {
        ("inventory", "units") if field(key) => format!("sheet Columns, Unit of {key}{colon}"),
        ("inventory", "columns") if is_stated => {
            let row =
                if key.starts_with("heading") { "the row of its heading".to_owned() } else { format!("row {key:?}") };
            format!("sheet Columns, {row}, Read as{}", if is_blank { ": (not a field)" } else { &colon })
        }
        ("inventory", "fixed") if field(key) => format!("sheet Columns, Where blank of {key}{colon}"),
        ("inventory", "words.depot" | "words.region") => format!("sheet Names, keep {value:?}"),
        ("inventory", of) if is_stated && of.starts_with("words.") => format!("sheet Words, {key:?} means{colon}"),
        ("inventory", "") if key == "repeats" => format!("sheet Campaign, Repeated rows{colon}"),
        ("campaign", "") if key == "units" => format!("sheet Campaign, Units{colon}"),
        ("missing", "" | "TYPE") if field(key) => format!("sheet Missing, a row with {}", key.replace('_', " ")),
        ("missing", of_type) if field(key) => {
            format!("sheet Missing, row {} / {}", of_type.replace('_', " "), key.replace('_', " "))
        }
        _ => return None,
    };
    Some((words, length))
}

#[cfg(test)]
mod tests {
    use super::by_sheet;

    #[test]
    fn lines_of_a_scenario_file_become_sheets() {
        for (help, wanted) in [
            (
                "measure it, or let it be assumed: [missing.drilled] total_depth = \"from_list\"",
                "measure it, or let it be assumed: sheet Missing, row drilled / total depth",
            ),
            (
                "[inventory.units] total_depth = \"m\" (or the correct unit)",
                "sheet Columns, Unit of total depth: m (or the correct unit)",
            ),
            (
                "map it in [inventory.columns], or correct it",
                "map it in the sheet Columns (column Read as), or correct it",
            ),
            ("[inventory.words.well_type] \"bord\" = \"bored\"", "sheet Words, \"bord\" means: bored"),
            ("[inventory.words.well_type] \"bord\" = \"TYPE\"", "sheet Words, \"bord\" means"),
            ("[missing.TYPE] total_depth = \"from_list\"", "sheet Missing, a row with total depth"),
            ("[missing.spring_box] water_volume = \"from_list\"", "sheet Missing, row spring box / water volume"),
            (
                "[inventory] repeats = \"separate_visits\", or \"latest\"",
                "sheet Campaign, Repeated rows: separate visits, or \"latest\"",
            ),
            (
                "no action needed if correct; else [inventory.columns] \"Ward\" = \"field\", or = \"\" to leave it out",
                "no action needed if correct; else sheet Columns, row \"Ward\", Read as, or (not a field) to leave it out",
            ),
            (
                "if it is: [inventory.columns] \"Tail pipe\" = \"casing_depth\"; if not: = \"\"",
                "if it is: sheet Columns, row \"Tail pipe\", Read as: casing depth; if not, Read as: (not a field)",
            ),
            (
                "[inventory.columns] \"heading\" = \"water_volume\"",
                "sheet Columns, the row of its heading, Read as: water volume",
            ),
            ("write drilled or spring_box", "write drilled or spring box"),
            (
                "state in [practice] or an [[override]]: flowing_spring = \"isolated\" (closed) or \"feed\" (fed)",
                "state in the sheet Practice or the sheet Exceptions, Springs that flow: isolated (closed) or feed (fed)",
            ),
            (
                "--units UNITS, or [inventory.units] total_depth = \"UNIT\"",
                "sheet Campaign, Units, or sheet Columns, Unit of total depth",
            ),
        ] {
            assert_eq!(by_sheet(help), wanted);
        }
    }
}
