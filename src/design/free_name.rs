//! A name that no other design of a person has.

/// Most letters of a name that are kept before a number.
const KEPT: usize = 54;

/// This name; where it is taken, with the first number behind it that is free.
///
/// ```
/// use hearthplan::design::free_name;
/// let taken = ["My machine".to_string(), "My machine 2".to_string()];
/// assert_eq!(free_name("My machine", &taken[..0]), "My machine");
/// assert_eq!(free_name("My machine", &taken[..1]), "My machine 2");
/// assert_eq!(free_name("My machine", &taken), "My machine 3");
/// ```
pub fn free_name(name: &str, taken: &[String]) -> String {
    let is_taken = |name: &str| taken.iter().any(|other| other == name);
    if !is_taken(name) {
        return name.to_string();
    }
    let short: String = name.chars().take(KEPT).collect();
    (2..)
        .map(|number| format!("{} {number}", short.trim_end()))
        .find(|name| !is_taken(name))
        .unwrap_or(short)
}
