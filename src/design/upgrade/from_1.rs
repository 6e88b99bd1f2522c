//! Format 1 held one run of pipe with fittings and entered losses of cooler and filter. Format 2 holds the gas train
//! stage by stage: the entered losses become measured stages, so that the same pressure is lost as before.

use serde_json::{Map, Value as Json, json};

type Entries = Map<String, Json>;

/// Freezing point of water, K.
const ZERO_CELSIUS: f64 = 273.15;
/// Highest roughness of a pipe in format 2, m.
const ROUGHEST: f64 = 0.000_5;
/// Most fittings of a kind that a stage of format 2 counts.
const MOST: f64 = 20.0;
/// Smallest load that format 2 takes, W.
const SMALLEST_LOAD: f64 = 0.1;

/// A value of format 1: of the file or link where it has it, otherwise of the defaults of then.
struct Old<'a> {
    given: &'a Entries,
    defaults: &'a Entries,
}

impl Old<'_> {
    fn find<'b>(entries: &'b Entries, section: &str, name: &str) -> Option<&'b Json> {
        entries.get(section)?.get(name)
    }

    /// A number within the range that format 1 allowed.
    fn number(&self, section: &str, name: &str, (least, most): (f64, f64)) -> f64 {
        [self.given, self.defaults]
            .into_iter()
            .filter_map(|entries| Self::find(entries, section, name)?.as_f64())
            .find(|value| (least..=most).contains(value))
            .unwrap_or(least)
    }

    fn word(&self, section: &str, name: &str) -> &str {
        [self.given, self.defaults]
            .into_iter()
            .find_map(|entries| Self::find(entries, section, name)?.as_str())
            .unwrap_or_default()
    }

    fn items(&self, list: &str) -> &[Json] {
        [self.given, self.defaults]
            .into_iter()
            .find_map(|entries| entries.get(list)?.as_array())
            .map_or(&[], Vec::as_slice)
    }
}

/// Fittings of format 1 as a stage of format 2 counts them.
#[derive(Default)]
struct Fittings {
    elbows: f64,
    bends: f64,
    tees: f64,
    valves: f64,
    /// Loss coefficient of all others.
    other: f64,
}

impl Fittings {
    fn of(old: &Old, new_item: Option<&Json>) -> Fittings {
        let mut found = Fittings::default();
        for item in old.items("fittings") {
            let entry = |name: &str| item.get(name).or_else(|| new_item?.get(name));
            let kind = entry("kind").and_then(Json::as_str).unwrap_or_default();
            let count = entry("count")
                .and_then(Json::as_f64)
                .map_or(0.0, |count| count.clamp(0.0, 50.0));
            // The coefficients that format 1 reckoned with.
            let (place, each) = match kind {
                "elbow_90" => (Some(&mut found.elbows), 0.75),
                "long_elbow_90" => (Some(&mut found.bends), 0.45),
                "tee_branch" => (Some(&mut found.tees), 1.0),
                "ball_valve" => (Some(&mut found.valves), 0.06),
                "entrance" | "contraction" => (None, 0.5),
                "exit" | "enlargement" => (None, 1.0),
                "elbow_45" => (None, 0.35),
                "tee_straight" => (None, 0.4),
                "gate_valve" => (None, 0.17),
                "butterfly_valve" => (None, 0.24),
                _ => (None, 0.0),
            };
            let counted = match place {
                Some(place) => {
                    let room = (MOST - *place).min(count);
                    *place += room;
                    room
                }
                None => 0.0,
            };
            found.other += (count - counted) * each;
        }
        found
    }
}

/// Translates the entries of a file or link of format 1. `frozen` holds the defaults of format 1, `new_item` a new
/// fitting of then.
pub(super) fn translated(mut given: Entries, frozen: &Entries, new_item: Option<&Json>) -> Entries {
    let (train, outlet, other_load) = {
        let old = Old {
            given: &given,
            defaults: frozen,
        };
        let (train, outlet) = train(&old, new_item);
        (
            train,
            outlet,
            old.number("battery", "other_load", (0.0, 2_000.0)),
        )
    };
    let gone: [(&str, &[&str]); 3] = [
        (
            "pipes",
            &[
                "bore",
                "length",
                "roughness",
                "gas_temperature",
                "cooler_drop",
                "filter_drop",
                "dirty_filter_drop",
            ],
        ),
        ("blower", &["place", "gas_temperature"]),
        ("battery", &["other_load"]),
    ];
    for (section, names) in gone {
        if let Some(Json::Object(entries)) = given.get_mut(section) {
            entries.retain(|name, _| !names.contains(&name.as_str()));
            if entries.is_empty() {
                given.remove(section);
            }
        }
    }
    if given.get("fittings").is_some_and(Json::is_array) {
        given.remove("fittings");
    }
    let loads = if other_load < SMALLEST_LOAD {
        json!([])
    } else {
        json!([{"name": "Other loads", "kind": "other", "power": other_load, "duty": 1}])
    };
    for (name, value) in [
        ("train", train),
        ("raw_gas", json!({"temperature": outlet})),
        ("loads", loads),
    ] {
        given.entry(name).or_insert(value);
    }
    given
}

/// The train, and the temperature in K at which the gas comes to it.
fn train(old: &Old, new_item: Option<&Json>) -> (Json, f64) {
    let celsius = |low: f64, high: f64| (low + ZERO_CELSIUS, high + ZERO_CELSIUS);
    let pipes = |name, range| old.number("pipes", name, range);
    let bore = pipes("bore", (0.01, 0.4));
    let in_pipe = pipes("gas_temperature", celsius(0.0, 800.0));
    let at_blower = old.number("blower", "gas_temperature", celsius(-20.0, 500.0));
    let fittings = Fittings::of(old, new_item);
    let pipe = json!({
        "kind": "pipe",
        "bore": bore,
        "length": pipes("length", (0.0, 60.0)),
        "roughness": pipes("roughness", (0.0, 0.005)).min(ROUGHEST),
        "elbows": fittings.elbows,
        "bends": fittings.bends,
        "tees": fittings.tees,
        "valves": fittings.valves,
        "other_loss": fittings.other.min(200.0),
        // Format 1 had the pipe at one temperature: it lost no heat.
        "cover": "insulated",
        "insulation": 0.3,
        "insulation_conductivity": 0.02,
    });
    let leaves = |kelvin: f64| {
        let (least, most) = celsius(1.0, 800.0);
        kelvin.clamp(least, most)
    };
    let cooler_loss = pipes("cooler_drop", (0.0, 20_000.0));
    let cooler = |kelvin: f64| {
        json!({
            "name": "Cooler",
            "kind": "measured",
            "measured_loss": cooler_loss,
            "measured_dirty": cooler_loss,
            "measured_linear": false,
            "leaves_at": leaves(kelvin),
        })
    };
    let filter = |kelvin: f64| {
        json!({
            "name": "Filter",
            "kind": "measured",
            "measured_loss": pipes("filter_drop", (0.0, 20_000.0)),
            "measured_dirty": pipes("dirty_filter_drop", (0.0, 30_000.0)),
            "measured_linear": true,
            "leaves_at": leaves(kelvin),
        })
    };
    let blower = json!({"kind": "blower", "bore": bore, "other_loss": 0});
    let (least, most) = celsius(60.0, 900.0);
    match old.word("blower", "place") {
        "hot" => (
            json!([blower, cooler(in_pipe), pipe, filter(in_pipe)]),
            at_blower.clamp(least, most),
        ),
        "cool" => (
            json!([pipe, cooler(at_blower), blower, filter(at_blower)]),
            in_pipe.clamp(least, most),
        ),
        _ => (
            json!([pipe, cooler(at_blower), filter(at_blower), blower]),
            in_pipe.clamp(least, most),
        ),
    }
}
