//! What the weakest flat panel bears, against the series of plate theory, and that the lowest limit is told first.

use hearthplan::design::inputs::{Layer, Material, OwnMaterial};
use hearthplan::design::phrase::Measure;
use hearthplan::design::quantity::{Quantity, System};
use hearthplan::design::strength::metal;
use hearthplan::design::{Design, example};
use hearthplan::paper::html;
use hearthplan::paper::sheets::all;
use hearthplan::review::{Lever, Verdict, assess, remedies, two_changes};
use hearthplan::sizing::panel::{Panel, panel_limit, shell_metal};
use std::f64::consts::PI;
use uom::si::f64::{Length, Pressure, ThermalConductivity};
use uom::si::length::millimeter;
use uom::si::pressure::pascal;
use uom::si::thermal_conductivity::watt_per_meter_kelvin;

#[test]
fn the_sheet_tells_the_lowest_limit_first() {
    let said = |design: &Design| {
        let sheets = all(design, &assess(design), System::Metric, &[]);
        let leaks = sheets.into_iter().find(|sheet| sheet.name == "leak-tests");
        html::blocks(&leaks.expect("the sheet"), System::Metric)
    };
    let mut design = Design::default();
    let before = |text: &str, first: &str, then: &str| {
        let place = |words: &str| text.find(words).expect("the words");
        assert!(place(first) < place(then), "{text}");
    };
    let text = said(&design);
    before(&text, "the hopper lid bears no more", "Test pressure: ");
    before(&text, "Test pressure: ", "clamp bars across");
    before(&text, "clamp bars across", "hopper lid from 191 Pa on");
    // Sheet, numbers and verdict go by the same limit.
    let leaks = assess(&design).leaks;
    let weakest = leaks.weakest().expect("a lid");
    let told = Measure::new(Quantity::Pressure, weakest.limit.by_stress.value);
    assert!(
        text.contains(&format!("Never go above {}:", told.show(System::Metric))),
        "{text}"
    );
    let results = leaks.results();
    let limit = results.iter().find(|one| one.name == "leaks.panel_limit");
    assert_eq!(limit.map(|one| one.measure), Some(told));
    design.leak_test.panel_sheet = Length::new::<millimeter>(0.5);
    let text = said(&design);
    before(
        &text,
        "the panel entered as the weakest bears no more",
        "Test pressure once that is made stiffer",
    );
    assert!(!text.contains("the hopper lid bears no more"), "{text}");
}

/// A lid of the design and the same plate entered by hand are judged alike: it bulges first, and then gives way.
#[test]
fn one_rule_holds_for_entered_and_computed_panels() {
    let mm = Length::new::<millimeter>;
    let mut design = example::as_improved();
    for stage in &mut design.train {
        stage.wall *= 10.0;
    }
    for layers in [
        &mut design.lid_layers,
        &mut design.bottom_layers,
        &mut design.body_layers,
        &mut design.hearth_layers,
    ] {
        for layer in layers
            .iter_mut()
            .filter(|layer| metal(layer.material).is_some())
        {
            layer.material = Material::MildSteel;
        }
    }
    for layer in &mut design.bottom_layers {
        layer.thickness *= 5.0;
    }
    let mut seen = Vec::new();
    for pressure in [150.0, 200.0, 3_500.0, 6_500.0, 7_500.0, 7_600.0, 20_000.0] {
        let judged = |lid: f64, entered: f64, braced: bool| {
            let mut design = design.clone();
            design.leak_test.test_pressure = Pressure::new::<pascal>(pressure);
            design.leak_test.panel_width = mm(500.0);
            design.leak_test.panel_sheet = mm(entered);
            design.leak_test.braced = braced;
            design.hopper.wall_thickness = mm(lid);
            assess(&design)
                .finding("leaks.panel")
                .expect("asked")
                .verdict
        };
        let lid = judged(1.5, 20.0, false);
        assert_eq!(lid, judged(20.0, 1.5, false), "{pressure} Pa");
        seen.push(lid);
        // Bars keep it from bulging; that they hold what gives way nobody knows.
        let braced = judged(1.5, 20.0, true);
        assert_eq!(
            braced == Verdict::Stop,
            lid == Verdict::Stop,
            "{pressure} Pa"
        );
        assert!(braced <= lid, "{pressure} Pa");
    }
    let [good, watch, stop] = [Verdict::Good, Verdict::Watch, Verdict::Stop];
    assert_eq!(seen, [good, watch, watch, watch, watch, stop, stop]);
}

#[test]
fn a_panel_that_bulges_is_no_dead_end() {
    let design = example::as_improved();
    let offered = remedies(&design, "leaks.panel");
    let braced = offered
        .iter()
        .find(|one| one.lever == Lever::input("leak_test.braced"));
    let changed = braced
        .and_then(|one| one.change.as_ref())
        .expect("a change");
    let braced = changed.apply(&design).expect("it applies");
    let found = assess(&braced)
        .finding("leaks.panel")
        .cloned()
        .expect("asked");
    assert_eq!(found.verdict, Verdict::Good);
    assert!(found.caution.is_some());
    // With more than the lid bears the pressure is lowered, and what still bulges is braced.
    let mut hard = design.clone();
    hard.leak_test.test_pressure = Pressure::new::<pascal>(9_000.0);
    let verdict = assess(&hard)
        .finding("leaks.panel")
        .map(|found| found.verdict);
    assert_eq!(verdict, Some(Verdict::Stop));
    assert!(!two_changes(&hard, "leaks.panel").is_empty());
}

/// A round plate with an edge free to turn and to slide, by von Kármán's equations: slope and force in its plane from the
/// middle outwards (Runge and Kutta), begun so that neither moment nor force is left at the edge (Newton).
struct Plate {
    load: f64,
}

const POISSON: f64 = 0.3;
const STIFFNESS: f64 = 1.0 / (12.0 * (1.0 - POISSON * POISSON));

impl Plate {
    /// Slope, its change, force and its change, each over the radius.
    fn change(&self, r: f64, [slope, bend, force, grows]: [f64; 4]) -> [f64; 4] {
        [
            bend,
            (0.5 * self.load * r + force * slope) / STIFFNESS - bend / r + slope / (r * r),
            grows,
            -slope * slope / (2.0 * r * r) - 3.0 * grows / r,
        ]
    }

    /// From bend and force in the middle to the edge, with the largest stress by von Mises on the way.
    fn outwards(&self, bend: f64, force: f64) -> ([f64; 4], f64) {
        const STEPS: u32 = 400;
        let mut r = 1e-3;
        let step = (1.0 - r) / f64::from(STEPS);
        let mut now = [bend * r, bend, force, -bend * bend * r / 8.0];
        let mut most = 0.0_f64;
        let ahead = |now: [f64; 4], change: [f64; 4], by: f64| {
            std::array::from_fn::<f64, 4, _>(|place| now[place] + by * change[place])
        };
        for _ in 0..STEPS {
            let one = self.change(r, now);
            let two = self.change(r + 0.5 * step, ahead(now, one, 0.5 * step));
            let three = self.change(r + 0.5 * step, ahead(now, two, 0.5 * step));
            let four = self.change(r + step, ahead(now, three, step));
            let mean = std::array::from_fn(|place| {
                (one[place] + 2.0 * (two[place] + three[place]) + four[place]) / 6.0
            });
            now = ahead(now, mean, step);
            r += step;
            let [slope, bend, force, grows] = now;
            let around = slope / r;
            for side in [-1.0, 1.0] {
                let along = force + side * 6.0 * STIFFNESS * (bend + POISSON * around);
                let hoop = force + r * grows + side * 6.0 * STIFFNESS * (around + POISSON * bend);
                most = most.max((along * along - along * hoop + hoop * hoop).sqrt());
            }
        }
        (now, most)
    }

    /// What is left at the edge: moment and force.
    fn left(&self, bend: f64, force: f64) -> [f64; 2] {
        let ([slope, bend, force, _], _) = self.outwards(bend, force);
        [bend + POISSON * slope, force]
    }
}

#[test]
fn a_round_plate_that_bulges_bears_what_its_equations_give() {
    let mm = Length::new::<millimeter>;
    let steel = shell_metal(&Design::default());
    let (mut bend, mut force) = (-1e-3, 0.0);
    let mut load = 0.05;
    let mut checked = 0;
    while load < 38.0 {
        let plate = Plate { load };
        for _ in 0..20 {
            const NUDGE: f64 = 1e-6;
            let here = plate.left(bend, force);
            let by_bend = plate.left(bend + NUDGE, force);
            let by_force = plate.left(bend, force + NUDGE);
            let of = |moved: [f64; 2], place: usize| (moved[place] - here[place]) / NUDGE;
            let [a, b, c, d] = [
                of(by_bend, 0),
                of(by_force, 0),
                of(by_bend, 1),
                of(by_force, 1),
            ];
            let whole = a * d - b * c;
            bend -= (here[0] * d - here[1] * b) / whole;
            force -= (a * here[1] - c * here[0]) / whole;
        }
        let (_, stress) = plate.outwards(bend, force);
        // A plate so slender that it reaches the stress allowed just at this load.
        let allowed = 0.4 * 2.35e8;
        let slender = (stress * 2.05e11 / allowed).sqrt();
        let sheet = 500.0 / slender;
        if (0.1..=100.0).contains(&sheet) {
            let found =
                panel_limit(Panel::Round(mm(1_000.0)), mm(sheet), &steel).expect("in range");
            let pressure = load * 2.05e11 / slender.powi(4);
            let off = found.by_stress.value / pressure - 1.0;
            assert!(off.abs() < 0.02, "{load}: {off}");
            checked += 1;
        }
        load *= 1.15;
    }
    assert!(checked > 30, "{checked}");
}

/// Deflection and moment of a rectangle with free edges by Navier's double series.
fn navier(sides: f64) -> (f64, f64) {
    let (mut deflection, mut moment) = (0.0, 0.0);
    for m in (1..200).step_by(2) {
        for n in (1..200).step_by(2) {
            let (m, n) = (f64::from(m), f64::from(n));
            let squares = m * m + (n / sides).powi(2);
            let sign = (0.5 * PI * m).sin() * (0.5 * PI * n).sin();
            let term = 16.0 * sign / (PI.powi(6) * m * n * squares * squares);
            deflection += term;
            moment += PI * PI * term * (m * m + 0.3 * (n / sides).powi(2));
        }
    }
    (deflection, moment)
}

#[test]
fn the_plate_table_is_that_of_the_series() {
    let mm = Length::new::<millimeter>;
    let steel = shell_metal(&Design::default());
    for sides in [1.0, 1.3, 1.5, 1.9, 2.0, 3.0, 5.0] {
        let found = panel_limit(
            Panel::Rectangle(mm(200.0 * sides), mm(200.0)),
            mm(2.0),
            &steel,
        )
        .expect("in range");
        let (deflection, moment) = navier(sides);
        let by_stress = 0.4 * 2.35e8 / (6.0 * moment * 100.0_f64.powi(2));
        let by_deflection = 0.5 * 2.05e11 / (12.0 * 0.91 * deflection * 100.0_f64.powi(4));
        assert!(
            (found.by_stress.value / by_stress - 1.0).abs() < 0.01,
            "{sides}"
        );
        assert!(
            (found.by_deflection.value / by_deflection - 1.0).abs() < 0.01,
            "{sides}"
        );
        assert_eq!(found.at_ease(), found.by_stress.min(found.by_deflection));
    }
}

/// A layer of a wall, its thickness in mm.
fn layer(material: Material, thickness: f64) -> Layer {
    Layer {
        material,
        thickness: Length::new::<millimeter>(thickness),
    }
}

#[test]
fn a_panel_bears_what_its_own_metal_bears() {
    let mm = Length::new::<millimeter>;
    let bears = |design: &Design| {
        panel_limit(Panel::Round(mm(60.0)), mm(3.0), &shell_metal(design)).expect("in range")
    };
    let mut design = Design::default();
    let steel = bears(&design);
    // Round plate: stress over pressure is 3 (3 + ν)/8 (r/s)² = 1.2375 · 100.
    assert!((steel.by_stress.value * 123.75 / (0.4 * 2.35e8) - 1.0).abs() < 1e-9);

    design.lid_layers = vec![layer(Material::Stainless304, 4.0)];
    let stainless = bears(&design);
    assert!((stainless.by_stress.value * 123.75 / (0.4 * 2.1e8) - 1.0).abs() < 1e-9);
    // The weakest wall counts, and a thin jacket around a steel wall does not.
    design.body_layers = vec![
        layer(Material::Aluminium, 1.0),
        layer(Material::MildSteel, 3.0),
    ];
    assert_eq!(bears(&design), stainless);
    design.body_layers = vec![
        layer(Material::Aluminium, 4.0),
        layer(Material::MildSteel, 3.0),
    ];
    let soft = bears(&design);
    assert!((soft.by_stress.value / stainless.by_stress.value - 80.0 / 210.0).abs() < 1e-9);
    assert!((soft.by_deflection.value / stainless.by_deflection.value - 70.0 / 200.0).abs() < 1e-9);
}

#[test]
fn a_shell_of_unknown_metal_is_said_to_be_unknown() {
    let mut design = Design::default();
    assert!(shell_metal(&design).known);
    let own = |conductivity| OwnMaterial {
        conductivity_1: ThermalConductivity::new::<watt_per_meter_kelvin>(conductivity),
        ..OwnMaterial::default()
    };
    // The panel that was entered is the weakest.
    design.hopper.wall_thickness = Length::new::<millimeter>(8.0);
    design.bottom_layers = vec![layer(Material::MildSteel, 8.0)];
    for stage in &mut design.train {
        stage.wall *= 10.0;
    }
    design.lid_layers = vec![layer(Material::Own1, 4.0)];
    design.own_materials = vec![own(40.0)];
    assert!(!shell_metal(&design).known);
    let said = assess(&design)
        .finding("leaks.panel")
        .expect("asked")
        .compared
        .text(System::Metric);
    assert!(said.contains("not known"), "{said}");
    // A board that insulates is no shell.
    design.own_materials = vec![own(0.1)];
    assert!(shell_metal(&design).known);
    // No metal anywhere: mild steel stands in, and that is said.
    for layers in [
        &mut design.lid_layers,
        &mut design.bottom_layers,
        &mut design.body_layers,
        &mut design.hearth_layers,
    ] {
        *layers = vec![layer(Material::DenseCastable, 30.0)];
    }
    let found = shell_metal(&design);
    assert_eq!((found.material, found.known), (Material::MildSteel, false));
}
