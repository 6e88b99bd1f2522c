//! Numbers as files hold them.

/// A length in millimetres to a ten-thousandth, without idle zeros. What is no number becomes 0, so
/// that a file stays readable whatever it is asked to hold.
pub(super) fn decimal(value: f64) -> String {
    if !value.is_finite() {
        return "0".to_string();
    }
    let text = format!("{value:.4}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    match text {
        "-0" | "" => "0".to_string(),
        text => text.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::decimal;

    #[test]
    fn numbers_are_short_and_never_broken() {
        assert_eq!(decimal(100.0), "100");
        assert_eq!(decimal(-0.00001), "0");
        assert_eq!(decimal(12.34567), "12.3457");
        assert_eq!(decimal(f64::NAN), "0");
    }
}
