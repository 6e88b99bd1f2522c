//! The computed numbers of this chapter.

use super::Leaks;
use crate::design::Choice as _;
use crate::design::phrase::Measure;
use crate::design::quantity::Quantity as Q;
use crate::review::finding::NamedResult;

impl Leaks {
    /// The computed numbers with their stable names.
    pub fn results(&self) -> Vec<NamedResult> {
        let mut results = Vec::with_capacity(32);
        let mut tell = |name: String, label: String, quantity, si: f64| {
            results.push(NamedResult::new(
                format!("leaks.{name}"),
                label,
                Measure::new(quantity, si),
            ));
        };
        tell(
            "allowed".into(),
            "Leak allowed in all".into(),
            Q::NormalFlow,
            self.allowed.value,
        );
        if let Some(panel) = self.weakest() {
            tell(
                "panel_limit".into(),
                format!("Pressure the weakest flat panel bears, {}", panel.label),
                Q::Pressure,
                panel.limit.by_stress.value,
            );
        }
        let first = (self.panels())
            .map(|panel| (panel, panel.limit.by_deflection.value))
            .min_by(|(_, one), (_, other)| one.total_cmp(other));
        if let Some((panel, flat)) = first {
            tell(
                "sheet_limit".into(),
                format!("Pressure up to which all panels stay flat, {}", panel.label),
                Q::Pressure,
                flat,
            );
        }
        for one in &self.groups {
            let (name, label) = (one.budget.group.name(), one.budget.group.label());
            let mut of_group = |what: &str, words: &str, quantity, si| {
                tell(
                    format!("{what}_{name}"),
                    format!("{words}, {label}"),
                    quantity,
                    si,
                );
            };
            let budget = one.budget.budget.value;
            of_group("budget", "Leak allowed", Q::NormalFlow, budget);
            let Some(plan) = &one.plan else { continue };
            of_group("hold", "Time to hold", Q::Time, plan.hold.value);
            if let Some(loss) = plan.allowed_loss {
                let words = "Pressure it may lose";
                of_group("allowed_loss", words, Q::Pressure, loss.value);
            }
            let energy = plan.stored_energy.value;
            of_group("energy", "Energy stored", Q::MechanicalEnergy, energy);
        }
        for test in self.counted_tests().filter(|test| test.read) {
            let Ok(leak) = &test.leak else { continue };
            let (name, label) = (test.group.name(), test.group.label());
            let mut of_test = |what: &str, words: &str, quantity, si| {
                tell(
                    format!("{what}_{name}"),
                    format!("{words}, {label}"),
                    quantity,
                    si,
                );
            };
            of_test("leak", "Leak measured", Q::NormalFlow, leak.rate.value);
            let sure = leak.uncertainty.value;
            of_test(
                "uncertainty",
                "Uncertainty of the leak",
                Q::NormalFlow,
                sure,
            );
            if let Some(hole) = leak.hole_diameter {
                of_test(
                    "hole",
                    "One hole that leaks as much",
                    Q::Thickness,
                    hole.value,
                );
            }
        }
        if let Some(room) = &self.room {
            for (name, label, share) in [
                (
                    "room_settled",
                    "Carbon monoxide in the end if it runs on, ppm",
                    room.settled,
                ),
                (
                    "room_ppm",
                    "Carbon monoxide after the longest stay, from clean air on, ppm",
                    room.after_stay,
                ),
            ] {
                tell(name.into(), label.into(), Q::Number, 1e6 * share.value);
            }
            for (name, label, time) in [
                ("room_to_35", "Time to 35 ppm", room.to_recommended),
                ("room_to_200", "Time to 200 ppm", room.to_ceiling),
                ("room_to_1200", "Time to 1200 ppm", room.to_dangerous),
            ] {
                if let Some(time) = time {
                    tell(name.into(), label.into(), Q::LongTime, time.value);
                }
            }
        }
        results
    }
}
