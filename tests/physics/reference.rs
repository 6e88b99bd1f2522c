//! Reading of the reference data that the Python scripts write.

use serde_json::Value;

/// One reference file; the name ends in `.json`.
pub fn document(name: &str) -> Value {
    let path = format!("{}/tests/reference/data/{name}", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(&path).unwrap_or_else(|why| panic!("{name}: {why}"));
    serde_json::from_str(&text).unwrap_or_else(|why| panic!("{name}: {why}"))
}

/// Rows of a list in a reference file; an empty list is a failure.
pub fn rows(name: &str, list: &str) -> Vec<Value> {
    let rows = document(name)[list].as_array().cloned().unwrap_or_default();
    assert!(!rows.is_empty(), "{name} has no rows in {list}");
    rows
}

/// A number of a row.
pub fn number(row: &Value, field: &str) -> f64 {
    row[field]
        .as_f64()
        .unwrap_or_else(|| panic!("no number {field} in {row}"))
}

/// A list of numbers of a row.
pub fn numbers(row: &Value, field: &str) -> Vec<f64> {
    let list = row[field]
        .as_array()
        .unwrap_or_else(|| panic!("no list {field} in {row}"));
    list.iter().map(|value| value.as_f64().unwrap()).collect()
}

/// Fails unless `found` is within a share of `wanted`.
pub fn close(found: f64, wanted: f64, share: f64, what: &Value) {
    assert!(
        (found - wanted).abs() <= share * wanted.abs(),
        "found {found}, reference {wanted}, allowed {share}: {what}"
    );
}
