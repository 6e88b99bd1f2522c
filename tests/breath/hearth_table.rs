//! The published hearths and fire tubes, row by row.

use hearthplan::sizing::fire_tube_table::FIRE_TUBES;
use hearthplan::sizing::hearth_load::{
    TableHearth, TablePlace, hearth_load, recommended_hearth, size_throat, table_hearths,
    table_tube,
};
use hearthplan::sizing::hearth_table::{FAMILIES, HearthRow};
use uom::si::f64::{Length, Velocity, VolumeRate};
use uom::si::length::{inch, millimeter};
use uom::si::power::horsepower;
use uom::si::ratio::percent;
use uom::si::velocity::meter_per_second;
use uom::si::volume_rate::cubic_meter_per_hour;

fn rows() -> Vec<HearthRow> {
    FAMILIES.iter().flatten().copied().collect()
}

fn load(per_square_centimetre: f64) -> Velocity {
    Velocity::new::<meter_per_second>(per_square_centimetre / 3600.0 / 1.0e-4)
}

#[test]
fn there_are_twelve_hearths_and_eleven_tubes() {
    assert_eq!(rows().len(), 12);
    assert_eq!(FIRE_TUBES.len(), 11);
}

#[test]
fn columns_of_each_row_agree_with_each_other() {
    for row in rows() {
        let ratio = 100.0 * f64::from(row.nozzle_count) * (row.nozzle_bore / row.throat).powi(2);
        assert!(
            (ratio - row.area_ratio).abs() < 0.15,
            "area ratio {ratio} in {row:?}"
        );
        let gas_per_wood = row.gas_most / row.wood_most;
        assert!(
            (gas_per_wood / 2.1 - 1.0).abs() < 0.05,
            "gas per wood {gas_per_wood} in {row:?}"
        );
    }
}

#[test]
fn throat_sized_at_the_most_load_is_near_each_row() {
    for row in rows() {
        let flow = VolumeRate::new::<cubic_meter_per_hour>(row.gas_most);
        let throat = size_throat(flow, load(0.9)).get::<millimeter>();
        assert!(
            (throat / row.throat - 1.0).abs() < 0.12,
            "{throat} mm for {row:?}"
        );
        let back = hearth_load(flow, size_throat(flow, load(0.9)));
        assert!((back.value / load(0.9).value - 1.0).abs() < 1e-12);
    }
}

/// The hearth of one family, by its place.
fn of(family: usize, throat: f64) -> TableHearth {
    table_hearths(Length::new::<millimeter>(throat))[family]
}

#[test]
fn each_row_is_given_back_as_it_stands() {
    for (family, row) in FAMILIES
        .iter()
        .enumerate()
        .flat_map(|(place, family)| family.iter().map(move |row| (place, row)))
    {
        let hearth = of(family, row.throat);
        assert_eq!(hearth.place, TablePlace::Inside);
        assert_eq!((hearth.family_end, hearth.past_family()), (None, 0.0));
        assert_eq!(hearth.nozzle_count, row.nozzle_count);
        for (got, printed) in [
            (hearth.nozzle_ring, row.nozzle_ring),
            (hearth.below_throat, row.below_throat),
            (hearth.nozzle_height, row.nozzle_height),
            (hearth.reduction_height, row.reduction_height),
            (hearth.nozzle_bore, row.nozzle_bore),
        ] {
            assert!(
                (got.get::<millimeter>() - printed).abs() < 1e-6,
                "{got:?} {printed}"
            );
        }
        assert!((hearth.gas_most.get::<cubic_meter_per_hour>() - row.gas_most).abs() < 1e-6);
        assert!((hearth.gas_least.get::<cubic_meter_per_hour>() - row.gas_least).abs() < 1e-6);
        assert!((hearth.area_ratio().get::<percent>() - row.area_ratio).abs() < 0.15);
    }
}

#[test]
fn halfway_between_rows_is_halfway() {
    let hearth = of(2, 187.5);
    assert!((hearth.below_throat.get::<millimeter>() - 313.0).abs() < 1e-9);
    assert!((hearth.nozzle_bore.get::<millimeter>() - 14.25).abs() < 1e-9);
    assert!((hearth.gas_most.get::<cubic_meter_per_hour>() - 210.0).abs() < 1e-9);
}

#[test]
fn a_shared_throat_has_a_hearth_of_each_ring() {
    let (near_300, near_400) = (of(1, 140.0), of(2, 140.0));
    assert!((near_300.nozzle_ring.get::<millimeter>() - 300.0).abs() < 1e-9);
    assert!((near_400.nozzle_ring.get::<millimeter>() - 400.0).abs() < 1e-9);
    assert_eq!((near_300.nozzle_count, near_400.nozzle_count), (5, 7));
    assert_eq!((near_300.family_end, near_400.family_end), (None, None));
}

#[test]
fn just_past_its_last_row_a_hearth_stays_of_its_ring() {
    let (last, past) = (of(1, 150.0), of(1, 151.0));
    assert_eq!(last.family_end, None);
    assert_eq!(past.place, TablePlace::Inside);
    assert_eq!(past.family_end, Some(Length::new::<millimeter>(150.0)));
    assert!((past.past_family() - 1.0 / 151.0).abs() < 1e-9);
    assert_eq!(past.nozzle_count, last.nozzle_count);
    let grown = (past.reduction_height / last.reduction_height).value;
    assert!((grown - 151.0 / 150.0).abs() < 1e-9);
    let before = of(2, 129.0);
    assert_eq!(before.family_end, Some(Length::new::<millimeter>(130.0)));
    assert!((before.reduction_height.get::<millimeter>() - 370.0 * 129.0 / 130.0).abs() < 1e-9);
}

#[test]
fn outside_the_table_the_nearest_proportions_are_kept_and_said() {
    for family in 0..3 {
        let small = of(family, 30.0);
        assert_eq!(small.place, TablePlace::Below);
        assert!((small.nozzle_ring.get::<millimeter>() - 134.0).abs() < 1e-9);
        assert!((small.gas_most.get::<cubic_meter_per_hour>() - 7.5).abs() < 1e-9);
        let large = of(family, 300.0);
        assert_eq!(large.place, TablePlace::Above);
        assert!((large.nozzle_ring.get::<millimeter>() - 600.0).abs() < 1e-9);
        assert_ne!(of(family, f64::NAN).place, TablePlace::Inside);
    }
}

#[test]
fn keeping_the_nozzle_area_with_more_nozzles_makes_them_narrower() {
    let hearth = recommended_hearth(VolumeRate::new::<cubic_meter_per_hour>(44.0), load(0.9));
    let bore = hearth.bore_for(hearth.nozzle_count * 4);
    assert!((bore.value / hearth.nozzle_bore.value - 0.5).abs() < 1e-12);
}

#[test]
fn each_fire_tube_is_given_back_as_it_stands() {
    for row in FIRE_TUBES {
        let tube = table_tube(Length::new::<inch>(row.bore));
        assert_eq!(tube.place, TablePlace::Inside, "{row:?}");
        assert!((tube.least_length.get::<inch>() - row.least_length).abs() < 1e-6);
        assert!((tube.engine_power.get::<horsepower>() / row.engine_power - 1.0).abs() < 1e-4);
    }
}

#[test]
fn fire_tubes_outside_the_table_say_so() {
    let narrow = table_tube(Length::new::<inch>(1.0));
    assert_eq!(narrow.place, TablePlace::Below);
    assert!((narrow.engine_power.get::<horsepower>() - 1.25).abs() < 0.01);
    let wide = table_tube(Length::new::<inch>(20.0));
    assert_eq!(wide.place, TablePlace::Above);
    assert!((wide.least_length.get::<inch>() - 32.0).abs() < 1e-6);
    let between = table_tube(Length::new::<inch>(8.5));
    assert!((between.engine_power.get::<horsepower>() - 57.5).abs() < 0.01);
    assert!((between.least_length.get::<inch>() - 21.0).abs() < 1e-6);
}
