//! Sets of files in place, or what was there before.

use super::*;

/// Every file below a folder with its text, sorted; folders end in `/`.
fn listing(folder: &Path) -> Vec<(String, String)> {
    let mut found = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        if path.is_dir() {
            let inner = listing(&path);
            found.push((format!("{name}/"), String::new()));
            found.extend(
                inner
                    .into_iter()
                    .map(|(n, text)| (format!("{name}/{n}"), text)),
            );
        } else {
            found.push((name, std::fs::read_to_string(&path).unwrap()));
        }
    }
    found.sort();
    found
}

fn pairs(list: &[(&str, &str)]) -> Vec<(String, String)> {
    list.iter()
        .map(|(name, text)| ((*name).to_owned(), (*text).to_owned()))
        .collect()
}

#[test]
fn a_file_is_written_and_replaced_without_remains() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("a.txt");
    write_whole(&path, "one").unwrap();
    write_whole(&path, "two").unwrap();
    assert_eq!(listing(folder.path()), pairs(&[("a.txt", "two")]));
}

#[test]
fn refusals_name_the_path_and_leave_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let error = write_whole(folder.path(), "x").unwrap_err();
    assert!(matches!(error, WriteError::Folder { .. }));
    let path = folder.path().join("no/such/a.txt");
    let error = write_whole(&path, "x").unwrap_err();
    assert_eq!(error.path(), path);
    assert!(error.to_string().contains("cannot be written"), "{error}");
    assert!(listing(folder.path()).is_empty());
}

#[test]
fn a_set_of_files_is_put_in_place() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("new/out");
    write_folder(&out, [("a.txt", "1"), ("views/b.txt", "2")]).unwrap();
    write_folder(&out, [("a.txt", "3"), ("c.txt", "4")]).unwrap();
    assert_eq!(
        listing(&out),
        pairs(&[
            ("a.txt", "3"),
            ("c.txt", "4"),
            ("views/", ""),
            ("views/b.txt", "2")
        ])
    );
}

#[test]
fn names_that_lead_out_or_stand_twice_are_refused() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("out");
    for name in ["../a.txt", "/a.txt", "", ".", "b/../../a.txt"] {
        let error = write_folder(&out, [("first.txt", "1"), (name, "2")]).unwrap_err();
        assert!(
            matches!(error, WriteError::Outside { .. }),
            "{name}: {error}"
        );
    }
    let error = write_folder(&out, [("v/a.txt", "1"), ("v//a.txt", "2")]).unwrap_err();
    assert!(matches!(error, WriteError::Twice { .. }), "{error}");
    assert!(
        listing(folder.path()).is_empty(),
        "{:?}",
        listing(folder.path())
    );
}

#[test]
fn a_failure_while_staging_leaves_all_as_it_was() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("a.txt"), "old").unwrap();
    std::fs::create_dir(folder.path().join("taken.txt")).unwrap();
    let files = [
        ("a.txt", "new"),
        ("deep/b.txt", "new"),
        ("taken.txt", "new"),
    ];
    let error = write_folder(folder.path(), files).unwrap_err();
    assert!(error.path().ends_with("taken.txt"));
    assert_eq!(
        listing(folder.path()),
        pairs(&[("a.txt", "old"), ("taken.txt/", "")])
    );
}

/// The last rename fails because a folder has come up in its place after staging.
#[test]
fn a_failure_while_renaming_is_undone() {
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name);
    std::fs::write(at("a.txt"), "old").unwrap();
    let staged = ["a.txt", "b.txt", "c.txt"].map(|name| Staged::new(&at(name), b"new").unwrap());
    std::fs::create_dir_all(at("c.txt/full")).unwrap();
    std::fs::write(at("c.txt/full/x"), "x").unwrap();
    let mut replaced = Replaced::default();
    let [a, b, mut c] = staged;
    replaced.put(a).unwrap();
    replaced.put(b).unwrap();
    assert_eq!(std::fs::read_to_string(at("a.txt")).unwrap(), "new");
    // A target in a folder that is gone cannot be put in place.
    c.target = at("gone/c.txt");
    let error = replaced.put(c).unwrap_err();
    assert!(matches!(error, WriteError::Refused { .. }));
    drop(replaced);
    assert_eq!(
        listing(folder.path()),
        pairs(&[
            ("a.txt", "old"),
            ("c.txt/", ""),
            ("c.txt/full/", ""),
            ("c.txt/full/x", "x")
        ])
    );
}

#[cfg(unix)]
#[test]
fn links_are_followed_and_modes_kept() {
    use std::os::unix::fs::PermissionsExt;
    let folder = tempfile::tempdir().unwrap();
    let (real, link) = (
        folder.path().join("real.txt"),
        folder.path().join("link.txt"),
    );
    std::fs::write(&real, "old").unwrap();
    std::fs::set_permissions(&real, std::fs::Permissions::from_mode(0o640)).unwrap();
    std::os::unix::fs::symlink(&real, &link).unwrap();
    write_whole(&link, "new").unwrap();
    assert!(std::fs::symlink_metadata(&link).unwrap().is_symlink());
    assert_eq!(std::fs::read_to_string(&real).unwrap(), "new");
    assert_eq!(
        std::fs::metadata(&real).unwrap().permissions().mode() & 0o777,
        0o640
    );
    write_whole("/dev/null", "gone").unwrap();
}

#[test]
fn stale_files_go_when_the_set_stands_and_come_back_when_it_does_not() {
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name);
    for name in ["old.svg", "kept.svg", "mine.svg"] {
        std::fs::write(at(name), "old").unwrap();
    }
    std::fs::create_dir(at("full")).unwrap();
    std::fs::create_dir(at("taken.txt")).unwrap();
    let before = listing(folder.path());
    let stale = ["old.svg", "absent.svg", "full", "kept.svg"].map(PathBuf::from);
    let blocked = [("kept.svg", "new"), ("taken.txt", "new")];
    replace_folder(folder.path(), blocked, &stale).unwrap_err();
    assert_eq!(listing(folder.path()), before);
    let outside = [PathBuf::from("../old.svg")];
    let error = replace_folder(folder.path(), [("kept.svg", "new")], &outside).unwrap_err();
    assert!(matches!(error, WriteError::Outside { .. }), "{error}");
    assert_eq!(listing(folder.path()), before);
    let taken = replace_folder(folder.path(), [("kept.svg", "new")], &stale).unwrap();
    assert_eq!(taken, [PathBuf::from("old.svg")]);
    assert_eq!(
        listing(folder.path()),
        pairs(&[
            ("full/", ""),
            ("kept.svg", "new"),
            ("mine.svg", "old"),
            ("taken.txt/", "")
        ])
    );
}

#[test]
fn a_file_taken_away_comes_back_when_it_is_not_kept() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("old.svg");
    std::fs::write(&path, "old").unwrap();
    let mut replaced = Replaced::default();
    replaced.take_away(path.clone()).unwrap();
    assert!(!path.exists());
    drop(replaced);
    assert_eq!(listing(folder.path()), pairs(&[("old.svg", "old")]));
}
