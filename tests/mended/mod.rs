//! Holds the remedies of a question to what they promise.

use hearthplan::design::Design;
use hearthplan::review::{Verdict, assess, remedies};

/// The question fails in this design, at least so many single changes are offered, and each of them,
/// applied, makes it Good.
pub fn every_remedy_passes(design: &Design, id: &str, at_least: usize) {
    let verdict = |design: &Design| assess(design).finding(id).unwrap().verdict;
    assert_ne!(verdict(design), Verdict::Good, "{id}");
    let changes: Vec<_> = remedies(design, id)
        .into_iter()
        .filter_map(|remedy| remedy.change)
        .collect();
    assert!(changes.len() >= at_least, "{id}: {changes:?}");
    for change in changes {
        let after = change.apply(design).unwrap();
        assert_eq!(verdict(&after), Verdict::Good, "{id}: {change:?}");
    }
}
