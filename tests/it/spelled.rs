//! Words as people type them, at the prompt and in a list; and what the program says when they are not its own. Common practice,
//! no source.

use crate::running::{folder, place, rows, run, run_in};

const PROMPT: [&str; 4] = ["well", "--water-column=15 ft", "--diameter=6 in", "--product=bleach 6"];

fn typed(more: &[&str]) -> crate::running::Answer {
    run(&[&PROMPT[..], more].concat())
}

#[test]
fn a_slip_in_the_type_is_said_in_list_and_prompt() {
    let answer = typed(&["--type", "drillde"]).ended(0);
    assert!(answer.out.contains("near \"drilled\""), "{}", answer.out);
    for word in ["drilled", "drilling", "drill", "rotary"] {
        let answer = typed(&["--type", word]).ended(0);
        assert!(!answer.out.contains("spelling near"), "{word}: {}", answer.out);
    }
    let folder = folder();
    let list = "id,type,depth (ft),water level (ft),diameter (in)\nA,drillde,180,40,6\nB,drilled,180,40,6\n";
    place(folder.path(), "wells.csv", list);
    place(folder.path(), "plan.toml", PLAN);
    run_in(folder.path(), &["plan", "wells.csv", "--scenarios", "plan.toml", "--out", "out"]).ended(0);
    let found = rows(&folder.path().join("out/findings.csv"));
    let of: Vec<&str> = found.iter().filter(|row| row["code"] == "C117").map(|row| &*row["well_id"]).collect();
    assert_eq!(of, ["A"]);
}

#[test]
fn what_was_probably_meant_is_offered_by_meaning() {
    let answer = typed(&["--type", "pit"]);
    assert!(answer.code != 0 && answer.err.contains("did you mean `dug`?"), "{}", answer.err);
}

#[test]
fn agents_and_bases_are_known_by_what_people_call_them() {
    let wells = ["--route", "stream", "--neutralizer"];
    for name in ["vitamin c", "Vitamin C", "ascorbic acid"] {
        let answer = typed(&[&wells[..], &[name]].concat()).ended(0);
        assert!(answer.out.to_lowercase().contains("ascorbic acid"), "{name}: {}", answer.out);
    }
    let volume = ["well", "--volume=100 gal", "--strength=6", "--basis"];
    let one = run(&[&volume[..], &["available chlorine"]].concat()).ended(0);
    let other = run(&[&volume[..], &["weight_available_chlorine"]].concat()).ended(0);
    assert_eq!(one.out, other.out);
}

/// How much of the lime of bleaching powder goes into the water is not known, whatever is known of the water.
#[test]
fn bleaching_powder_does_not_ask_for_what_was_given() {
    let folder = folder();
    let powder = "[campaign]\nunits = \"us\"\n[[product]]\nname = \"powder\"\nchemical = \"chlorinated_lime\"\n\
                  strength = { percent = 30, basis = \"weight_available_chlorine\" }\n";
    place(folder.path(), "powder.toml", powder);
    let arguments = [
        "well",
        "--water-column=15 ft",
        "--diameter=6 in",
        "--product=powder",
        "--ph=7.2",
        "--alkalinity=100",
        "--scenarios=powder.toml",
    ];
    let answer = run_in(folder.path(), &arguments).ended(0);
    let said = answer.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("not known for bleaching powder") && !said.contains("without --ph"), "{said}");
    assert!(!said.contains("outside the range of the aging data"), "{said}");
}

const PLAN: &str = "[campaign]\nunits = \"us\"\n[[product]]\nname = \"bleach\"\nchemical = \"sodium_hypochlorite\"\n\
                    strength = { percent = 6, basis = \"weight_naocl\" }\n";

#[test]
fn every_bad_condition_is_told_at_once_and_in_words() {
    let folder = folder();
    place(folder.path(), "wells.csv", "id,type,depth (ft),water level (ft),diameter (in)\nA,drilled,180,40,6\n");
    let rule = |condition: &str| format!("[[override]]\nwhere = \"{condition}\"\nset = {{ target_mg_per_l = 77 }}\n");
    let conditions = ["EXISTS (SELECT 1)", "COUNT(ph) > 1", "well_id = 'select'", "ph IN (SELECT 7)"];
    place(folder.path(), "plan.toml", PLAN.to_owned() + &conditions.map(rule).concat());
    let answer = run_in(folder.path(), &["plan", "wells.csv", "--scenarios", "plan.toml", "--out", "out"]).ended(2);
    assert_eq!(answer.err.matches("a query of its own").count(), 2, "{}", answer.err);
    assert!(answer.err.contains("count or sum up") && answer.err.contains("3 entries to correct"), "{}", answer.err);
    assert!(answer.err.len() < 2500, "{}", answer.err);

    // So are fields that the lists do not have, which are known only when these are open.
    let unknown = ["dpeth_ft > 3", "plumbing > 4", "no_such_thing = 2"];
    place(folder.path(), "plan.toml", PLAN.to_owned() + &unknown.map(rule).concat());
    let answer = run_in(folder.path(), &["plan", "wells.csv", "--scenarios", "plan.toml", "--out", "out"]).ended(2);
    assert!(answer.err.contains("3 entries to correct"), "{}", answer.err);
}
