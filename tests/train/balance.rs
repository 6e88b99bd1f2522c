//! What goes into a train comes out of it.

use hearthplan::sizing::train::{TrainLoad, TrainSolution};

/// Mass, water, dust and energy: what goes in comes out.
pub fn assert_balanced(load: &TrainLoad, found: &TrainSolution) {
    let (first, last) = (&load.start, found.points.last().unwrap());
    let close = |name: &str, inside: f64, outside: f64, scale: f64| {
        let error = (inside - outside).abs() / scale.abs().max(1e-12);
        assert!(error < 1e-9, "{name}: {inside} in, {outside} out");
    };
    for (place, (outcome, pair)) in (found.outcomes.iter().zip(found.points.windows(2))).enumerate()
    {
        let inside = pair[0].enthalpy_rate().unwrap() + outcome.work_added;
        let outside =
            outcome.out.enthalpy_rate().unwrap() + outcome.removed_enthalpy + outcome.heat_rejected;
        close(
            &format!("energy of stage {place}, {:?}", outcome.detail),
            inside.value,
            outside.value,
            inside.value,
        );
        assert_eq!(outcome.out, pair[1]);
        assert!(outcome.velocity.value.is_finite() && outcome.density.value > 0.0);
    }
    let water = (first.vapour + first.liquid).value;
    close(
        "water",
        water,
        (last.vapour + last.liquid + found.water_removed).value,
        water,
    );
    let mass = first.mass_rate().value;
    close(
        "mass",
        mass,
        (last.mass_rate() + found.water_removed + found.dust_caught).value,
        mass,
    );
    let dust = first.dust.total().value;
    close(
        "dust",
        dust,
        (last.dust.total() + found.dust_caught).value,
        dust,
    );
    let brought = (first.enthalpy_rate().unwrap() + found.work_added).value;
    let taken =
        (last.enthalpy_rate().unwrap() + found.removed_enthalpy + found.heat_rejected).value;
    close("energy", brought, taken, brought);
    let condensed = (last.liquid + found.water_removed).value;
    close(
        "condensate",
        (found.condensate + first.liquid).value,
        condensed,
        water,
    );
    close(
        "pressure",
        (first.pressure + found.total_rise).value,
        (last.pressure + found.total_loss).value,
        first.pressure.value,
    );
}
