//! Heat through the zones, and the thickness a layer needs.

use crate::random_design::random_design;
use hearthplan::design::inputs::{Hopper, Layer, Material, OwnMaterial};
use hearthplan::design::{Design, Value, celsius, example};
use hearthplan::sizing::insulation::{
    InsulationError, Wish, against_thickness, below_critical_radius, needed_thickness,
};
use hearthplan::sizing::shell::{
    ShellError, ZoneHeat, ZoneShell, share_of_burning_zone, zone_heat,
};
use hearthplan::sizing::zone::Zone;
use proptest::prelude::*;
use uom::si::f64::{Length, Power, Ratio, ThermodynamicTemperature};
use uom::si::length::{meter, millimeter};
use uom::si::power::watt;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::{degree_celsius, kelvin};

fn layer(material: Material, thickness_mm: f64) -> Layer {
    Layer {
        material,
        thickness: Length::new::<millimeter>(thickness_mm),
    }
}

/// Temperature inside a zone: that of the hearth wall is not entered, here it is 1000 °C.
fn inside(design: &Design, zone: Zone) -> ThermodynamicTemperature {
    zone.entered_temperature(design)
        .unwrap_or(ThermodynamicTemperature::new::<degree_celsius>(1000.0))
}

fn heat_of(design: &Design, zone: Zone) -> Result<ZoneHeat, ShellError> {
    zone_heat(design, zone, inside(design, zone))
}

#[test]
fn a_thick_wall_of_one_conductivity_agrees_with_the_closed_form() {
    // Between two known temperatures a cylinder of constant conductivity passes 2 π k L ΔT / ln(r2/r1).
    let mut design = Design::default();
    let mut own = OwnMaterial::default();
    own.conductivity_1.value = 0.1;
    design.own_materials = vec![own];
    design.hearth_layers = vec![layer(Material::Own1, 100.0)];
    let heat = heat_of(&design, Zone::Hearth).unwrap();
    let inner = 0.5 * design.hearth_wall.inside_diameter.value;
    let difference = heat.inner_temperature.value - heat.surface_temperature.value;
    let expected = std::f64::consts::TAU * 0.1 * design.hearth_wall.height.value * difference
        / ((inner + 0.1) / inner).ln();
    assert!((heat.loss.value / expected - 1.0).abs() < 1e-6);
    assert!((heat.outer_diameter.value - 2.0 * (inner + 0.1)).abs() < 1e-12);
    let off = heat.convection.value + heat.radiation.value;
    let leaving = off
        * heat.outer_area.value
        * (heat.surface_temperature.value - design.site.air_temperature.value);
    assert!((heat.loss.value / leaving - 1.0).abs() < 1e-6);
}

#[test]
fn layers_follow_one_another_from_hot_to_cold() {
    let design = Design::default();
    let zones = Zone::ALL.map(|zone| heat_of(&design, zone).unwrap());
    for heat in &zones {
        let hot_face = heat.layers.first().unwrap().hot.value;
        assert!((hot_face - heat.inner_temperature.value).abs() < 1e-3);
        assert_eq!(heat.layers.last().unwrap().cold, heat.surface_temperature);
        for pair in heat.layers.windows(2) {
            assert_eq!(pair[0].cold, pair[1].hot);
            assert!(pair[0].hot >= pair[0].cold);
        }
    }
    // The ends close the room inside the walls, and are as hot where the metal stands that lines it.
    let [hearth, body, lid, bottom] = &zones;
    for (wall, end) in [(body, lid), (hearth, bottom)] {
        let lining = &wall.layers[0];
        let metal = f64::from(u8::from(lining.material.is_metal())) * lining.thickness;
        assert!(!wall.layers[1].material.is_metal());
        let across = wall.inner_diameter + 2.0 * metal;
        assert!((end.outer_diameter - across).value.abs() < 1e-12);
    }
}

/// What lies on the insulation of a wall is not hot: however thick that is, the ends lose the same.
#[test]
fn more_insulation_of_a_wall_loses_less_heat_in_all() {
    let mut bare_lid = example::as_improved();
    bare_lid.lid_layers = vec![layer(Material::MildSteel, 1.0)];
    bare_lid.bottom_layers = bare_lid.lid_layers.clone();
    let closed = Design {
        hopper: Hopper {
            fitted: false,
            ..bare_lid.hopper.clone()
        },
        ..bare_lid.clone()
    };
    let designs = [
        example::as_improved(),
        example::as_first_drawn(),
        bare_lid,
        closed,
    ];
    for (design, list) in designs.iter().flat_map(|design| {
        ["hearth_layers.1.thickness", "body_layers.1.thickness"].map(|list| (design, list))
    }) {
        let mut design = design.clone();
        let mut before = f64::INFINITY;
        for thickness in (30..=300).step_by(10) {
            let thickness = Value::Number(f64::from(thickness) / 1000.0);
            // The hearth of the first example is bare.
            if design.set(list, thickness).is_err() {
                break;
            }
            let losses = Zone::ALL.map(|zone| heat_of(&design, zone).unwrap().loss.value);
            let loss: f64 = losses.into_iter().sum();
            assert!(loss < before, "{list}: {loss} W after {before} W");
            before = loss;
        }
    }
}

/// The wood in the opening is no wall: what is hot of the lid is its ring on the sheet that lines the wall.
#[test]
fn a_lid_under_a_hopper_loses_no_heat_in_its_opening() {
    let mut design = Design::default();
    let open = heat_of(&design, Zone::Lid).unwrap();
    design.hopper.fitted = false;
    let closed = heat_of(&design, Zone::Lid).unwrap();
    let bore = design.body_wall.inside_diameter;
    let opening = 0.25 * std::f64::consts::PI * bore * bore;
    let less = closed.outer_area - open.outer_area;
    assert!(((less - opening) / opening).value.abs() < 1e-9);
    assert!(
        ((closed.loss - open.loss).value / (closed.inner_flux * opening).value - 1.0).abs() < 1e-6
    );
    let warmer = open.surface_temperature.value - closed.surface_temperature.value;
    assert!(warmer.abs() < 1e-6);
    // Without a body wall there is nothing for it to lie on, and nothing to lose.
    design.hopper.fitted = true;
    design.body_layers.clear();
    assert!(heat_of(&design, Zone::Lid).unwrap().loss.value < 0.1);
}

/// A straight fin of steel that loses heat on one side, 75 mm wide: √(h k d) ΔT tanh(√(h / (k d)) w) for each metre.
#[test]
fn a_sheet_carries_heat_out_over_the_insulation_as_a_fin() {
    let mut design = Design::default();
    let lid = |design: &Design| heat_of(design, Zone::Lid).unwrap();
    let by_hand = |heat: &ZoneHeat, design: &Design| {
        let over_air = heat.inner_temperature.value - design.site.air_temperature.value;
        let off = heat.inner_flux.value / over_air;
        let sheet = &heat.layers[0];
        let carries = sheet.conductivity.unwrap().value * sheet.thickness.value;
        let along = std::f64::consts::PI * (heat.outer_diameter.value + 0.05);
        along * (off * carries).sqrt() * over_air * ((off / carries).sqrt() * 0.075).tanh()
    };
    for thickness in [1.0, 2.0, 4.0] {
        design.lid_layers = vec![layer(Material::MildSteel, thickness)];
        let bare = lid(&design);
        let fin = by_hand(&bare, &design);
        let off = bare.loss.value / fin;
        assert!((0.95..1.25).contains(&off), "{thickness} mm: {off}");
        // Wool above it leaves it a small part of that.
        design.lid_layers.push(layer(Material::RockWool, 50.0));
        assert!(lid(&design).loss.value < 0.25 * bare.loss.value);
        // Wool below it keeps it cold.
        design.lid_layers.reverse();
        assert!(lid(&design).loss.value < 0.05 * bare.loss.value);
    }
}

#[test]
fn a_bare_hearth_loses_many_times_what_a_lined_one_does() {
    let lined = Design::default();
    let bare = Design {
        hearth_layers: vec![layer(Material::MildSteel, 4.0)],
        ..lined.clone()
    };
    let bare = heat_of(&bare, Zone::Hearth).unwrap();
    let lined = heat_of(&lined, Zone::Hearth).unwrap();
    assert!(bare.loss.value > 8.0 * lined.loss.value);
    // Steel holds nothing back: its outside is nearly as hot as its inside.
    assert!(bare.inner_temperature.value - bare.surface_temperature.value < 25.0);
}

#[test]
fn gaps_that_touch_count_as_one_and_an_outer_gap_as_none() {
    let mut design = Design {
        body_layers: vec![
            layer(Material::AirGap, 5.0),
            layer(Material::AirGap, 5.0),
            layer(Material::MildSteel, 1.0),
            layer(Material::AirGap, 20.0),
        ],
        ..Design::default()
    };
    let split = heat_of(&design, Zone::Body).unwrap();
    design.body_layers = vec![
        layer(Material::AirGap, 10.0),
        layer(Material::MildSteel, 1.0),
    ];
    let whole = heat_of(&design, Zone::Body).unwrap();
    assert!((split.loss.value / whole.loss.value - 1.0).abs() < 1e-9);
    assert_eq!(split.layers.len(), 4);
    assert_eq!(split.layers[3].hot, split.surface_temperature);
    assert_eq!(split.layers[0].limit, None);
    assert!(!split.layers[0].insulates);
}

#[test]
fn a_missing_own_material_is_named_with_its_layer() {
    let design = Design {
        lid_layers: vec![layer(Material::MildSteel, 2.0), layer(Material::Own3, 20.0)],
        ..Design::default()
    };
    let error = heat_of(&design, Zone::Lid).unwrap_err();
    assert!(matches!(
        error,
        ShellError::Material {
            zone: Zone::Lid,
            layer: 1,
            ..
        }
    ));
    assert_eq!(
        error.to_string(),
        "Lid, layer 2: own material 3 has not been entered yet"
    );
}

#[test]
fn conductivity_beyond_the_data_is_flagged_for_insulation_only() {
    let design = Design {
        hearth_layers: vec![
            layer(Material::Stainless310, 3.0),
            layer(Material::Perlite, 60.0),
            layer(Material::MildSteel, 1.0),
        ],
        ..Design::default()
    };
    let flags: Vec<_> = heat_of(&design, Zone::Hearth)
        .unwrap()
        .layers
        .iter()
        .map(|layer| layer.beyond_data)
        .collect();
    assert_eq!(flags, [false, true, false]);
}

#[test]
fn the_thickness_found_is_the_thinnest_that_meets_the_wish() {
    let design = Design::default();
    for wish in [
        Wish::Surface(ThermodynamicTemperature::new::<degree_celsius>(45.0)),
        Wish::Loss(Power::new::<watt>(350.0)),
    ] {
        let needed = needed_thickness(&design, Zone::Body, 1, wish).unwrap();
        let thinner = needed.thickness - Length::new::<millimeter>(0.05);
        let shell = ZoneShell::with_thickness(&design, Zone::Body, 1, thinner).unwrap();
        let shell = match wish {
            Wish::Surface(_) => shell.in_still_air(),
            Wish::Loss(_) => shell,
        };
        let heat = shell.heat(design.body_wall.inner_temperature).unwrap();
        match wish {
            Wish::Surface(wanted) => {
                assert!(needed.heat.surface_temperature <= wanted);
                assert!(heat.surface_temperature > wanted);
            }
            Wish::Loss(wanted) => {
                assert!(needed.heat.loss <= wanted);
                assert!(heat.loss > wanted);
            }
        }
    }
}

#[test]
fn a_wish_out_of_reach_says_what_the_thickest_layer_does() {
    let design = Design::default();
    let wish = Wish::Surface(ThermodynamicTemperature::new::<degree_celsius>(20.1));
    match needed_thickness(&design, Zone::Body, 1, wish) {
        Err(InsulationError::NotEnough { thickest, heat }) => {
            assert_eq!(thickest, Length::new::<meter>(0.5));
            assert!(heat.surface_temperature.value > celsius(20.1));
        }
        other => panic!("{other:?}"),
    }
    assert!(matches!(
        needed_thickness(&design, Zone::Body, 7, wish),
        Err(InsulationError::Shell(ShellError::NoSuchLayer {
            layer: 7,
            ..
        }))
    ));
}

#[test]
fn poor_insulation_on_a_thin_pipe_loses_more_up_to_the_critical_radius() {
    // Critical radius = k / h: with k = 1 and h about 10 far outside a 25 mm pipe.
    let mut own = OwnMaterial::default();
    own.conductivity_1.value = 1.0;
    let mut design = Design {
        own_materials: vec![own],
        body_layers: vec![layer(Material::MildSteel, 1.0), layer(Material::Own1, 5.0)],
        ..Design::default()
    };
    design.body_wall.inside_diameter = Length::new::<millimeter>(50.0);
    design.body_wall.outer_emittance = Ratio::new::<ratio>(0.2);
    design.body_wall.inner_temperature = ThermodynamicTemperature::new::<degree_celsius>(120.0);
    design.site.wind_speed.value = 0.0;
    assert!(below_critical_radius(&design, Zone::Body, 1).unwrap());
    let thin = Length::new::<millimeter>(1.0);
    let thick = Length::new::<millimeter>(300.0);
    let points = against_thickness(&design, Zone::Body, 1, thin, thick, 60).unwrap();
    let (hump, most) = points
        .iter()
        .enumerate()
        .max_by(|(_, one), (_, other)| one.loss.value.total_cmp(&other.loss.value))
        .unwrap();
    assert!(hump > 0 && hump < points.len() - 1, "hump at {hump}");
    assert!(most.loss > points[0].loss && most.loss > points[59].loss);
    let well_beyond = Length::new::<millimeter>(300.0);
    design.body_layers[1].thickness = well_beyond;
    assert!(!below_critical_radius(&design, Zone::Body, 1).unwrap());
}

#[test]
fn the_burning_zone_follows_the_drawing() {
    let mut design = Design::default();
    // In a hearth that fills its band the fire burns from throat to nozzles.
    let burning = design.hearth.nozzle_height;
    design.hearth_wall.height = design.hearth.reduction_height + burning;
    let share = (burning / design.hearth_wall.height).value;
    assert!((share_of_burning_zone(&design).value - share).abs() < 1e-9);
    // What is left free stands half above the nozzles, half under the grate.
    design.hearth_wall.height *= 2.0;
    assert!((share_of_burning_zone(&design).value - (0.25 + 0.5 * share)).abs() < 1e-9);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1500, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_zone_gives_finite_numbers_or_names_the_layer(seed in any::<u64>()) {
        let design = random_design(seed);
        for zone in Zone::ALL {
            match heat_of(&design, zone) {
                Ok(heat) => {
                    prop_assert!(heat.loss.value.is_finite());
                    prop_assert!(heat.surface_temperature.value.is_finite());
                    prop_assert!(heat.layers.iter().all(|layer| layer.hot.value.is_finite() && layer.cold.value.is_finite()));
                    prop_assert_eq!(heat.layers.len(), zone.layers(&design).len());
                }
                Err(error) => prop_assert!(matches!(error, ShellError::Material { .. }), "{}", error),
            }
        }
    }

    #[test]
    fn more_of_a_layer_never_lets_more_through_a_flat_end(seed in any::<u64>(), place in 0_usize..8, more in 1.0_f64..3.0) {
        let design = random_design(seed);
        let inner = design.lid.inner_temperature;
        let before = ZoneShell::new(&design, Zone::Lid).and_then(|shell| shell.heat(inner));
        let count = design.lid_layers.len();
        let place = place % count.max(1);
        if let (Ok(before), true) = (before, count > 0 && inner > design.site.air_temperature) {
            let thickness = (design.lid_layers[place].thickness * more).min(Length::new::<meter>(0.5));
            let after = ZoneShell::with_thickness(&design, Zone::Lid, place, thickness).unwrap().heat(inner).unwrap();
            // An air gap left out, or one that only radiates, may tie.
            prop_assert!(after.inner_flux.value <= before.inner_flux.value * (1.0 + 1e-6));
            // Thicker sheet carries more to the side.
            if !design.lid_layers[place].material.is_metal() {
                prop_assert!(after.loss.value <= before.loss.value * (1.0 + 1e-6));
            }
        }
    }

    #[test]
    fn more_insulation_never_loses_more_in_all_where_its_wall_loses_less(seed in any::<u64>(), place in 0_usize..8, thickness in 0.001_f64..0.5) {
        let design = random_design(seed);
        let total = |design: &Design| -> Option<f64> {
            Zone::ALL.iter().map(|zone| Some(heat_of(design, *zone).ok()?.loss.value)).sum()
        };
        for zone in [Zone::Hearth, Zone::Body] {
            let mut thicker = design.clone();
            let layers = match zone {
                Zone::Hearth => &mut thicker.hearth_layers,
                _ => &mut thicker.body_layers,
            };
            let count = layers.len().max(1);
            let Some(layer) = layers.get_mut(place % count).filter(|layer| !layer.material.is_metal()) else {
                continue;
            };
            layer.thickness += Length::new::<meter>(thickness).min(Length::new::<meter>(0.5) - layer.thickness);
            let loss = |design: &Design| heat_of(design, zone).map(|heat| heat.loss.value);
            // Up to the critical radius the wall itself loses more.
            if let (Ok(before), Ok(after), Some(all)) = (loss(&design), loss(&thicker), total(&design))
                && after <= before
            {
                let then = total(&thicker).unwrap();
                prop_assert!(then <= all + 1e-9 * all.abs(), "{then} W after {all} W");
            }
        }
    }

    #[test]
    fn a_hotter_inside_never_loses_less(seed in any::<u64>(), hotter in 1.0_f64..400.0) {
        let design = random_design(seed);
        for zone in Zone::ALL {
            if let Ok(shell) = ZoneShell::new(&design, zone) {
                let inner = inside(&design, zone);
                let warm = shell.inner_flux(inner).unwrap();
                let hot = shell
                    .inner_flux(ThermodynamicTemperature::new::<kelvin>(inner.value + hotter))
                    .unwrap();
                prop_assert!(hot >= warm);
            }
        }
    }
}
