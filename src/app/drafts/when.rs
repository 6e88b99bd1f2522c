//! When something was done, as a person would say it.

use js_sys::Date;
use wasm_bindgen::JsValue;

const MONTHS: [&str; 12] = [
    "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
];

/// A moment, milliseconds since 1970, by the clock of this device: the time of a day that is still in mind, else the date.
pub(super) fn told(moment: f64) -> String {
    let then = Date::new(&JsValue::from_f64(moment));
    let now = Date::new_0();
    let yesterday = Date::new_0();
    // Days of changed clocks are longer or shorter: only the calendar counts them.
    yesterday.set_date(now.get_date().wrapping_sub(1));
    let day = |date: &Date| (date.get_full_year(), date.get_month(), date.get_date());
    let time = || format!("{:02}:{:02}", then.get_hours(), then.get_minutes());
    let (year, month, date) = day(&then);
    let month = usize::try_from(month).ok();
    let month = month.and_then(|month| MONTHS.get(month)).unwrap_or(&"");
    if day(&then) == day(&now) {
        format!("today {}", time())
    } else if day(&then) == day(&yesterday) {
        format!("yesterday {}", time())
    } else if year == now.get_full_year() {
        format!("{date} {month}, {}", time())
    } else {
        format!("{date} {month} {year}")
    }
}
