//! Whether a condition can be answered from one well alone.
//!
//! Conditions are asked of batches of wells: a count, a mean, a rank or a neighbor would be that of a batch, and depend on
//! how the list is cut. Only what is known to look at one well is let through; whatever is not known is refused.

use polars::prelude::{AggExpr, Expr, LiteralValue};

/// How many operators a condition may have: each may nest in the one before, and every level takes a piece of the stack.
const MOST_OPERATORS: usize = 250;
/// How deep brackets may stand in brackets: the time to take a text apart doubles with each.
const DEEPEST: usize = 10;
/// Letters of a condition.
const LONGEST: usize = 100_000;

/// Functions that look at one well alone, by the names that the library gives them. Those that make text of any length out
/// of a number (padding) are left out.
const FUNCTIONS: [&str; 48] = [
    "abs",
    "all_horizontal",
    "any_horizontal",
    "cbrt",
    "ceil",
    "coalesce",
    "concat_horizontal",
    "contains",
    "ends_with",
    "exp",
    "extract",
    "fill_null",
    "find",
    "floor",
    "head",
    "is_between",
    "is_finite",
    "is_in",
    "is_infinite",
    "is_nan",
    "is_not_nan",
    "is_not_null",
    "is_null",
    "len_bytes",
    "len_chars",
    "log",
    "log1p",
    "max_horizontal",
    "min_horizontal",
    "negate",
    "normalize",
    "not",
    "pow",
    "replace",
    "reverse",
    "round",
    "sign",
    "slice",
    "sqrt",
    "starts_with",
    "strip_chars",
    "strip_chars_end",
    "strip_chars_start",
    "tail",
    "to_lowercase",
    "to_titlecase",
    "to_uppercase",
    "truncate",
];

/// Refuses a text that would nest too deep, before it is taken apart.
///
/// # Errors
/// In words.
pub fn prove_short(condition: &str) -> Result<(), String> {
    if condition.len() > LONGEST {
        return Err(format!("this condition has {} letters; at most {LONGEST} are read", condition.len()));
    }
    let (mut operators, mut depth, mut deepest) = (0, 0_usize, 0);
    // What stands in quotes is a value or a name.
    for part in condition.split(['\'', '"']).step_by(2) {
        operators += part.bytes().filter(|byte| b"+-*/%|&^=<>!~(".contains(byte)).count();
        for byte in part.bytes() {
            match byte {
                b'(' | b'[' => depth += 1,
                b')' | b']' => depth = depth.saturating_sub(1),
                _ => {}
            }
            deepest = deepest.max(depth);
        }
        let joins =
            |word: &&str| ["and", "or", "not", "case", "when", "is"].iter().any(|join| word.eq_ignore_ascii_case(join));
        let mut words = part.split(|c: char| !c.is_alphanumeric() && c != '_');
        operators += words.clone().filter(joins).count();
        // A query in a condition is answered by many wells; the parser would print its own innards.
        if let Some(query) =
            words.find(|word| ["select", "exists"].iter().any(|known| word.eq_ignore_ascii_case(known)))
        {
            return Err(format!("a condition cannot hold a query of its own ({}): {ONE_WELL}", query.to_uppercase()));
        }
    }
    if deepest > DEEPEST {
        return Err(format!("brackets stand {deepest} deep in this condition; at most {DEEPEST} are read"));
    }
    if operators > MOST_OPERATORS {
        return Err(format!(
            "this condition has {operators} operators; at most {MOST_OPERATORS} are read. A long row of `x = … OR x = …` is \
             shorter as `x IN (…)`"
        ));
    }
    Ok(())
}

/// Refuses whatever needs more than the well that the condition is asked of.
///
/// # Errors
/// In words.
pub fn prove(condition: &Expr) -> Result<(), String> {
    let mut open = vec![condition];
    while let Some(expression) = open.pop() {
        match expression {
            Expr::Column(_) | Expr::Literal(_) => {}
            Expr::Alias(inner, _) | Expr::KeepName(inner) => open.push(inner),
            Expr::Cast { expr, .. } => open.push(expr),
            Expr::BinaryExpr { left, right, .. } => open.extend([&**left, &**right]),
            Expr::Ternary { predicate, truthy, falsy } => open.extend([&**predicate, &**truthy, &**falsy]),
            // The list of `IN (…)`.
            Expr::Agg(AggExpr::Implode { input, .. }) if matches!(**input, Expr::Literal(_)) => {}
            Expr::Function { input, function } => {
                let name = function.to_string();
                let name = name.rsplit('.').next().unwrap_or_default();
                if !FUNCTIONS.contains(&name) {
                    return Err(format!("a condition cannot use `{name}`: {ONE_WELL}"));
                }
                open.extend(input);
            }
            Expr::Agg(_) | Expr::Len => {
                return Err(format!("a condition cannot count or sum up over wells: {ONE_WELL}"));
            }
            Expr::Over { .. } => {
                return Err(format!("a condition cannot look at neighboring wells (OVER): {ONE_WELL}"));
            }
            _ => return Err(format!("this is more than a condition on one well: {ONE_WELL}")),
        }
    }
    Ok(())
}

const ONE_WELL: &str = "it is asked of each well alone, and compares that well's own fields with fixed values";

/// The texts that a condition compares with.
pub fn texts(condition: &Expr) -> Vec<String> {
    let mut texts = Vec::new();
    for expression in condition {
        match expression {
            Expr::Literal(LiteralValue::Series(series)) => {
                if let Ok(list) = series.str() {
                    texts.extend(list.iter().flatten().map(str::to_owned));
                }
            }
            Expr::Literal(value) => texts.extend(value.extract_str().map(str::to_owned)),
            _ => {}
        }
    }
    texts
}
