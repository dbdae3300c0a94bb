//! What lists are called: by the name of their file, so that reports do not depend on where the files lie; and where two files
//! have the same name, with so much of their folders as tells them apart.

use std::path::{Component, Path, PathBuf};

/// The names of lists, in their order.
pub fn list_names(paths: &[PathBuf]) -> Vec<String> {
    let whole: Vec<Vec<String>> = paths.iter().map(|path| parts(path)).collect();
    let name = |at: usize| -> String {
        let named = whole[at].last().filter(|_| paths[at].as_os_str() != "-");
        let Some(file) = named else { return file_name(&paths[at]) };
        let alike: Vec<&Vec<String>> = whole.iter().filter(|other| other.last() == Some(file)).collect();
        let shared = |depth: usize| alike.iter().all(|other| other.get(depth) == whole[at].get(depth));
        let longest = alike.iter().map(|other| other.len()).min().unwrap_or(1) - 1;
        // A file that is named twice is one list still.
        let is_alone = alike.iter().all(|other| *other == &whole[at]);
        let from = if is_alone { whole[at].len() - 1 } else { (0..longest).take_while(|depth| shared(*depth)).count() };
        whole[at][from..].join("/")
    };
    (0..paths.len()).map(name).collect()
}

/// The file name without its folder, so that reports do not depend on where the files lie.
pub(super) fn file_name(path: &Path) -> String {
    if path.as_os_str() == "-" {
        return "standard input".to_owned();
    }
    path.file_name().map_or_else(|| path.display().to_string(), |name| name.to_string_lossy().into_owned())
}

/// Folders and the file's name, without what leads up and down again.
fn parts(path: &Path) -> Vec<String> {
    let mut parts: Vec<String> = Vec::new();
    for component in path.components() {
        match component {
            Component::Normal(part) => parts.push(part.to_string_lossy().into_owned()),
            Component::ParentDir if parts.last().is_some_and(|part| part != "..") => {
                parts.pop();
            }
            Component::ParentDir => parts.push("..".to_owned()),
            Component::Prefix(_) | Component::RootDir | Component::CurDir => {}
        }
    }
    parts
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn files_of_one_name_keep_what_tells_them_apart() {
        let names = |paths: &[&str]| list_names(&paths.iter().map(PathBuf::from).collect::<Vec<_>>());
        assert_eq!(names(&["/x/a/wells.csv", "/x/b/wells.csv", "/x/c.csv"]), ["a/wells.csv", "b/wells.csv", "c.csv"]);
        assert_eq!(names(&["wells.csv", "sub/wells.csv"]), ["wells.csv", "sub/wells.csv"]);
        assert_eq!(names(&["/x/../b/wells.csv", "/x/wells.csv"]), ["b/wells.csv", "x/wells.csv"]);
        assert_eq!(names(&["wells.csv", "./wells.csv"]), ["wells.csv", "wells.csv"]);
        assert_eq!(names(&["-"]), ["standard input"]);
    }
}
